/* What cli/front.h promises. */
#include "cli/front.h"

#include "cli/data_files.h"
#include "cli/options.h"

#include "io/doc.h"
#include "io/output_file.h"
#include "io/places.h"
#include "os/process.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Set once by cli_main, so that a complaint from anywhere begins with the program's name. */
static CliProgram program = {.name = "pullback"};

int cli_report(const PbError *err)
{
    char line[1024];
    io_error_line(err, line, sizeof line);
    fprintf(stderr, "%s: %s\n", program.name, line);
    switch (err->status) {
    case PB_ERR_IO:
        return CLI_IO;
    case PB_ERR_RANGE:
    case PB_ERR_FORMAT:
        return CLI_BAD_INPUT;
    default:
        return CLI_INTERNAL;
    }
}

int cli_printed(PbStatus status)
{
    PbError err = {.status = status};
    if (status == PB_OK || status == PB_ERR_IO) { /* of the disk main tells at the very end */
        return status == PB_OK ? CLI_DONE : CLI_IO;
    }
    (void)pb_fail(&err, status, "%s",
                  status == PB_ERR_MEMORY ? "out of memory: the output is not whole"
                                          : pb_status_name(status));
    return cli_report(&err);
}

int cli_usage(const char *verb, const char *format, ...)
{
    va_list args;
    fprintf(stderr, "%s%s%s: ", program.name, verb[0] != '\0' ? " " : "", verb);
    va_start(args, format);
    vfprintf(stderr, format, args);
    va_end(args);
    fprintf(stderr, " (see %s --help)\n", program.name);
    return CLI_USAGE;
}

static void help(FILE *out)
{
    fprintf(out, "usage: %s VERB ...\n\n", program.name);
    for (int i = 0; i < program.verb_count; i++) {
        fprintf(out, "  %-9s %s\n", program.verbs[i].name, program.verbs[i].summary);
    }
    fprintf(out, "\nExit: 0 done, 1 the answer is no, 2 usage, 3 bad input file, 4 file trouble.\n"
                 "Training only: local codes and licensed trades decide real work.\n");
}

/* A full disk shows only when the last of the output leaves: then the answer is lost, and we say
 * so. */
static int close_output(int code)
{
    if (fflush(stdout) == 0 && !ferror(stdout)) {
        return code;
    }
    PbError err = {0};
    (void)pb_fail(&err, PB_ERR_IO, "cannot write to standard output");
    return cli_report(&err);
}

/* Many words are a line each. */
static void print_usage(const CliVerb *verb, FILE *out)
{
    fprintf(out, "usage: %s %s ", program.name, verb->name);
    const char *at = verb->usage, *bar;
    while (strlen(verb->usage) > 100 && (bar = strstr(at, " | ")) != NULL) {
        fprintf(out, "%.*s\n       or: %s ", (int)(bar - at), at, verb->name);
        at = bar + 3;
    }
    fprintf(out, "%s\n", at);
}

/* Manual page and shell completion are made of this. */
static void help_of(const CliVerb *verb, FILE *out)
{
    enum { WIDTH = 21 };
    print_usage(verb, out);
    for (const CliOption *o = verb->options; o != NULL && o->name != NULL; o++) {
        char left[64];
        int used = snprintf(left, sizeof left, "%s%s%s", o->name, o->value != NULL ? " " : "",
                            o->value != NULL ? o->value : "");
        fprintf(out, used <= WIDTH ? "  %-*s %s\n" : "  %-*s\n                        %s\n", WIDTH,
                left, o->help);
    }
    fprintf(out, "%s", verb->note != NULL ? verb->note : "");
}

static int run_verb(const CliVerb *verb, int argc, char **argv)
{
    if (argc > 1 && strcmp(argv[1], "--help") == 0) {
        help_of(verb, stdout);
        return CLI_DONE;
    }
    return verb->run(verb, argc, argv);
}

int cli_main(const CliProgram *which, int argc, char **argv)
{
    program = *which;
    os_hold_streams();
    os_words_begin(argc, argv);
    io_output_clean_on_signals();
    const char *folders[CLI_DATA_FOLDERS];
    io_places_set(folders, cli_data_folders(folders));
    (void)io_json_short(); /* from here on a shortage in any JSON is noticed */
    if (argc < 2) {
        help(stderr);
        return CLI_USAGE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        help(stdout);
        return close_output(CLI_DONE);
    }
    if (strcmp(argv[1], "--version") == 0) {
        printf("%s %s\n", program.name, PB_VERSION);
        return close_output(CLI_DONE);
    }
    for (int i = 0; i < program.verb_count; i++) {
        if (strcmp(program.verbs[i].name, argv[1]) == 0) {
            return close_output(run_verb(&program.verbs[i], argc - 1, argv + 1));
        }
    }
    return cli_usage("", "there is no verb \"%s\"", argv[1]);
}
