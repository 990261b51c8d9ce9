/* What cli/options.h promises. */
#include "cli/options.h"

#include "io/doc.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int cli_take_flag(const CliOption *row, const char *text, void *member)
{
    (void)row;
    (void)text;
    *(int *)member = 1;
    return CLI_DONE;
}

int cli_take_text(const CliOption *row, const char *text, void *member)
{
    (void)row;
    *(const char **)member = text;
    return CLI_DONE;
}

/* Whole numbers only: strtoull alone would take "-1" and " 7". */
int cli_take_seed(const CliOption *row, const char *text, void *member)
{
    char *end;
    if (text[0] < '0' || text[0] > '9') {
        return CLI_NOT_TAKEN;
    }
    errno = 0;
    unsigned long long v = strtoull(text, &end, 10);
    if (errno != 0 || *end != '\0' || (row->high > 0.0 && (double)v > row->high)) {
        return CLI_NOT_TAKEN;
    }
    *(uint64_t *)member = v;
    return CLI_DONE;
}

int cli_take_number(const CliOption *row, const char *text, void *member)
{
    double v;
    const char *end = io_plain_number(text, &v);
    if (end == NULL || *end != '\0' || !(v >= row->low && v <= row->high)) {
        return CLI_NOT_TAKEN;
    }
    *(double *)member = v;
    return CLI_DONE;
}

int cli_take_whole(const CliOption *row, const char *text, void *member)
{
    double v = 0.0;
    if (cli_take_number(row, text, &v) != CLI_DONE || v != floor(v)) {
        return CLI_NOT_TAKEN;
    }
    *(int *)member = (int)v;
    return CLI_DONE;
}

int cli_take_word(const CliOption *row, const char *text, void *member)
{
    for (int i = 0; i < row->word_count; i++) {
        if (strcmp(text, row->words[i]) == 0) {
            *(int *)member = i;
            return CLI_DONE;
        }
    }
    return CLI_NOT_TAKEN;
}

/* "a4 or letter"; "good, typical or poor"; "a whole number, 1 to 16" */
static void say_expected(const CliOption *row, char *out, size_t size)
{
    size_t used = 0;
    if (row->expected != NULL) {
        snprintf(out, size, "%s", row->expected);
    } else if (row->expect != NULL) {
        (void)row->expect(out, size);
    } else if (row->words != NULL) {
        for (int i = 0; i < row->word_count && used < size; i++) {
            const char *between = i == 0 ? "" : i + 1 == row->word_count ? " or " : ", ";
            used += (size_t)snprintf(out + used, size - used, "%s%s", between, row->words[i]);
        }
    } else if (row->take == cli_take_whole) {
        snprintf(out, size, "a whole number, %.0f to %.0f", row->low, row->high);
    } else {
        snprintf(out, size, "a number from %g to %g", row->low, row->high);
    }
}

static int row_of(const CliOption *rows, const char *name)
{
    for (int i = 0; rows != NULL && rows[i].name != NULL; i++) {
        if (strcmp(rows[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

static int take(const CliVerb *verb, const CliOption *row, const char *text, void *options)
{
    int code = row->take(row, text, (char *)options + row->at);
    if (code == CLI_NOT_TAKEN) {
        char expected[200];
        say_expected(row, expected, sizeof expected);
        return cli_usage(verb->name, "%s \"%s\": expected %s", row->name, text, expected);
    }
    return code;
}

int cli_parse(const CliVerb *verb, int argc, char **argv, void *options, int most,
              CliParsed *parsed)
{
    int all_plain = 0;
    *parsed = (CliParsed){0};
    for (int i = 1; i < argc; i++) {
        if (all_plain || argv[i][0] != '-' || argv[i][1] == '\0') {
            if (parsed->count == most) {
                return cli_usage(verb->name, "\"%s\" is too many, expected %s", argv[i],
                                 verb->usage);
            }
            argv[1 + parsed->count++] = argv[i];
            continue;
        }
        if (strcmp(argv[i], "--") == 0) {
            all_plain = 1;
            continue;
        }
        int at = row_of(verb->options, argv[i]);
        const CliOption *row = at >= 0 ? &verb->options[at] : NULL;
        if (row == NULL || (row->value != NULL && i + 1 == argc)) {
            return cli_usage(verb->name, "\"%s\" is no option, or its value is missing", argv[i]);
        }
        parsed->given |= UINT64_C(1) << at;
        i += row->value != NULL;
        int code = take(verb, row, row->value != NULL ? argv[i] : NULL, options);
        if (code != CLI_DONE) {
            return code;
        }
    }
    return CLI_DONE;
}

int cli_is_given(const CliVerb *verb, const CliParsed *parsed, const char *name)
{
    int at = row_of(verb->options, name);
    return at >= 0 && (parsed->given >> at & 1) != 0;
}

int cli_expected(const CliVerb *verb)
{
    return cli_usage(verb->name, "expected %s", verb->usage);
}
