/* A house compared by the command line: its output, its JSON, its page as text. For the tests of
 * pullback-cli compare and of the handout; each has a folder of its own. */
#ifndef SUPPORT_HOUSE_CASE_H
#define SUPPORT_HOUSE_CASE_H

#include "suite.h"

#include <ctype.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define DEMO   PB_TEST_SOURCE_DIR "/assets/houses/demo.json"
#define Q_DEMO "'" DEMO "'" /* for the shell: the path may hold a space */
/* The demo house with a bay of half the height, soon packed, for what does not depend on figures.
 */
#define LOW   PB_TEST_SOURCE_DIR "/tests/app/data/low-house.json"
#define Q_LOW "'" LOW "'"

static char folder[300];

static inline void start(void)
{
    snprintf(folder, sizeof folder, "%s/compare-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static inline void stop(void)
{
    char command[400];
    snprintf(command, sizeof command, "rm -r '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

/* A shell command in the folder of the test; its output, cut at the buffer. */
static inline int shell(const char *command, char *text, size_t size)
{
    char all[2000];
    snprintf(all, sizeof all, "cd '%s' && %s", folder, command);
    FILE *pipe = popen(all, "r");
    ck_assert_ptr_nonnull(pipe);
    size_t used = fread(text, 1, size - 1, pipe);
    text[used] = '\0';
    char rest[4096];
    while (fread(rest, 1, sizeof rest, pipe) > 0) {
    }
    int status = pclose(pipe);
    ck_assert_msg(WIFEXITED(status), "%s did not end by itself", command);
    return WEXITSTATUS(status);
}

static inline int compare(const char *args, char *text, size_t size)
{
    char command[1600];
    snprintf(command, sizeof command, "'%s' compare %s", PB_TEST_CLI, args);
    return shell(command, text, size);
}

static inline json_t *load(const char *name)
{
    char path[400];
    json_error_t where;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    json_t *json = json_load_file(path, 0, &where);
    ck_assert_msg(json != NULL, "%s: %s", name, where.text);
    return json;
}

static inline json_t *time_of(json_t *all, int fill, size_t t)
{
    json_t *times =
        json_object_get(json_array_get(json_object_get(all, "fills"), (size_t)fill), "times");
    ck_assert_uint_lt(t, json_array_size(times));
    return json_array_get(times, t);
}

static inline double part(json_t *time, const char *key, const char *end)
{
    json_t *v = json_object_get(json_object_get(time, key), end);
    ck_assert_msg(json_is_real(v), "%s/%s", key, end);
    return json_real_value(v);
}

/* Blanks that do not break a line become plain ones. */
static inline char *plain(char *text)
{
    char *to = text;
    for (const char *at = text; *at != '\0'; at++) {
        int is_hard = (unsigned char)at[0] == 0xC2 && (unsigned char)at[1] == 0xA0;
        *to++ = is_hard ? ' ' : *at;
        at += is_hard;
    }
    *to = '\0';
    return text;
}

/* Text of the page in the order in which it was drawn, white space as one space. */
static inline void page_text(const char *pdf, char *text, size_t size)
{
    char command[200];
    snprintf(command, sizeof command, "pdftotext -raw %s -", pdf);
    ck_assert_int_eq(shell(command, text, size), 0);
    char *to = plain(text);
    for (const char *at = text; *at != '\0'; at++) {
        int is_space = isspace((unsigned char)*at) != 0;
        if (!is_space || (to > text && to[-1] != ' ')) {
            *to++ = is_space ? ' ' : *at;
        }
    }
    *to = '\0';
}

#endif
