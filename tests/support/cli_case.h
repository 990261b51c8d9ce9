/* The command line as a person meets it, in the folder of a store_case.h, with one recorded run
 * that is worked once for all tests of a program. */
#ifndef SUPPORT_CLI_CASE_H
#define SUPPORT_CLI_CASE_H

#include "store_case.h"

#ifndef BAY /* a program of tests may have its own */
#define BAY   PB_TEST_SOURCE_DIR "/assets/exercises/plain-2x4.json"
#define HANDS PB_TEST_SOURCE_DIR "/assets/hands/three-foot.json"
#endif

static char out[60000], errors[4000]; /* what the last command wrote */
static char kept[300];                /* folder of the recordings that all tests have */

static inline void slurp(const char *name, char *text, size_t size)
{
    char path[400];
    snprintf(path, sizeof path, "%s/%s", case_folder, name);
    FILE *f = fopen(path, "rb");
    ck_assert_ptr_nonnull(f);
    text[fread(text, 1, size - 1, f)] = '\0';
    fclose(f);
}

/* Runs `pullback-cli ARGUMENTS`, answering `answer` to a question; gives its exit code. */
static inline int cli_answer(const char *answer, const char *arguments)
{
    char command[1500];
    snprintf(command, sizeof command,
             "cd '%s' && echo '%s' | XDG_DATA_HOME='%s' '%s' %s >out 2>err", case_folder, answer,
             case_folder, PB_TEST_CLI, arguments);
    int status = system(command);
    slurp("out", out, sizeof out);
    slurp("err", errors, sizeof errors);
    ck_assert(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static inline int cli(const char *arguments)
{
    return cli_answer("", arguments);
}

static inline void must(const char *arguments)
{
    int code = cli(arguments);
    ck_assert_msg(code == 0, "%s: exit %d, %s", arguments, code, errors);
}

static inline void says(const char *text, const char *what)
{
    ck_assert_msg(strstr(text, what) != NULL, "\"%s\" is missing in: %.2000s", what, text);
}

static inline void says_not(const char *text, const char *what)
{
    ck_assert_msg(strstr(text, what) == NULL, "\"%s\" is in: %.2000s", what, text);
}

/* a.pbrun: the bay by the three-foot hands. */
static inline void record_once(void)
{
    case_start();
    strcpy(kept, case_folder);
    ck_assert_int_le(cli("run '" BAY "' --hands '" HANDS "' --record a.pbrun"), 1);
}

static inline void forget(void)
{
    strcpy(case_folder, kept);
    case_stop();
}

/* One of the recordings into this test's own folder. */
static inline void fetch(const char *name)
{
    char command[1000];
    snprintf(command, sizeof command, "cp '%s/%s' '%s'", kept, name, case_folder);
    ck_assert_int_eq(system(command), 0);
}

#endif
