/**
 * @file front.h
 * @brief What a program of verbs says and answers with: its table of verbs, help, complaints, exit
 * codes. pullback-cli and pullback-lab are two such tables.
 */
#ifndef CLI_FRONT_H
#define CLI_FRONT_H

#include "core/status.h"

/* Exit codes, the same in every verb. */
enum {
    CLI_DONE = 0,      /* done, and the answer is yes where there is one */
    CLI_NO = 1,        /* done, and the answer is no: a failed grade, check or replay */
    CLI_USAGE = 2,     /* the command line is off */
    CLI_BAD_INPUT = 3, /* a file was refused; nothing was written */
    CLI_IO = 4,        /* a file cannot be read or written */
    CLI_INTERNAL = 70  /* a defect of ours */
};

typedef struct CliOption CliOption;
typedef struct CliVerb CliVerb;
struct CliVerb {
    const char *name;
    const char *summary;      /* one line of the program's --help */
    const char *usage;        /* the words that it wants, "FILE ... [options]" */
    const CliOption *options; /* cli/options.h; NULL: none */
    const char *note;         /* last lines of VERB --help; NULL: none */
    int (*run)(const CliVerb *verb, int argc, char **argv); /* argv[0] is the verb; exit code */
};

typedef struct CliProgram {
    const char *name;
    const CliVerb *verbs;
    int verb_count;
} CliProgram;

/** Find the verb and hand over, or print help or version. @return exit code. Once a process. */
int cli_main(const CliProgram *which, int argc, char **argv);
/** Print the error as one line on stderr; give the exit code that fits its status. */
int cli_report(const PbError *err);
/** The exit code for what printing an answer came to, said on stderr when nobody else will. */
int cli_printed(PbStatus status);
/** Print a usage complaint as one line on stderr; gives CLI_USAGE. verb: "" before there is one. */
int cli_usage(const char *verb, const char *format, ...) PB_PRINTF(2, 3);

#endif
