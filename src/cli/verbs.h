/* The verbs of pullback-cli: one file each, one row each in main.c. */
#ifndef CLI_VERBS_H
#define CLI_VERBS_H

#include "core/status.h"
#include "core/verify.h"

/* Exit codes, the same in every verb. */
enum {
    CLI_DONE = 0,      /* done, and the answer is yes where there is one */
    CLI_NO = 1,        /* done, and the answer is no: a failed grade, check or replay */
    CLI_USAGE = 2,     /* the command line is off */
    CLI_BAD_INPUT = 3, /* a file was refused; nothing was written */
    CLI_IO = 4,        /* a file cannot be read or written */
    CLI_INTERNAL = 70  /* a defect of ours */
};

typedef struct CliVerb {
    const char *name;
    const char *summary;
    int (*run)(int argc, char **argv); /* argv[0] is the verb */
} CliVerb;

int verb_bench(int argc, char **argv);
int verb_check(int argc, char **argv);
int verb_run(int argc, char **argv);
int verb_learners(int argc, char **argv);
int verb_runs(int argc, char **argv);
int verb_replay(int argc, char **argv);
int verb_grade(int argc, char **argv);
int verb_coach(int argc, char **argv);
int verb_compare(int argc, char **argv);
int verb_age(int argc, char **argv);
int verb_heat(int argc, char **argv);
int verb_verify(int argc, char **argv);
int verb_constants(int argc, char **argv);

/** What VERB --help prints, whole; NULL when there is no such verb. help.c. */
const char *cli_help_of(const char *verb);
/** Print the error as one line on stderr; give the exit code that fits its status. */
int cli_report(const PbError *err);
/* The exit code for what printing an answer came to, said on stderr when nobody else will. */
int cli_printed(PbStatus status);
/** Print a usage complaint as one line on stderr; gives CLI_USAGE. verb: "" before there is one. */
int cli_usage(const char *verb, const char *format, ...) PB_PRINTF(2, 3);

/* Providers of verify rows, in printing order; verify_table.c. The name of each row of a provider
 * begins with one of its families, so that rows nobody asked for need not be worked out. */
typedef struct CliVerifyProvider {
    void (*rows)(const PbVerifySink *sink);
    const char *families[2]; /* the second may be NULL */
} CliVerifyProvider;
extern const CliVerifyProvider cli_verify_providers[];
extern const int cli_verify_provider_count;

#endif
