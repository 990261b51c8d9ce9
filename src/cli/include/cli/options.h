/**
 * @file options.h
 * @brief The options of a verb as one table: read from the command line, refused in words, and told
 * by --help, of which manual page and completion are made.
 */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include "cli/front.h"

#include <stddef.h>
#include <stdint.h>

enum { CLI_NOT_TAKEN = -1 };

/* Reads `text` into the member that `row` is for. CLI_DONE; CLI_NOT_TAKEN: refused, and cli_parse
 * says what was expected; any other exit code: refused, and said. */
typedef int CliTake(const CliOption *row, const char *text, void *member);

struct CliOption {
    const char *name;  /* "--seed"; NULL ends a table */
    const char *value; /* as --help shows it: "N"; NULL: the option stands alone */
    const char *help;
    CliTake *take;
    size_t at;                /* offset of the member in the verb's own struct */
    const char *expected;     /* what follows the word in a refusal; NULL: made of what is below */
    double low, high;         /* of a number */
    const char *const *words; /* of a choice */
    int word_count;
    /* what follows "expected" where only the program knows; else NULL */
    const char *(*expect)(char *out, size_t size);
};

CliTake cli_take_flag;   /* int: 1 */
CliTake cli_take_text;   /* const char *: the word itself, borrowed from argv */
CliTake cli_take_whole;  /* int, low..high */
CliTake cli_take_seed;   /* uint64_t, from 0 to high; 0 = as far as it reaches */
CliTake cli_take_number; /* double, low..high */
CliTake cli_take_word;   /* int: which of `words` */

/* What a command line came to. */
typedef struct CliParsed {
    int count;      /* plain words, which now stand in argv[1], argv[2] ..., in order */
    uint64_t given; /* bit i: row i of the table was there */
} CliParsed;

/**
 * @brief Read the words behind a verb by its table. What begins with '-' is an option, but "-"
 * alone and whatever follows "--".
 * @param[in,out] options the verb's own struct, defaults in it
 * @param[in] most plain words at most
 * @return CLI_DONE, or an exit code after one line on stderr
 */
int cli_parse(const CliVerb *verb, int argc, char **argv, void *options, int most,
              CliParsed *parsed);
/** Was the option of this name given? */
int cli_is_given(const CliVerb *verb, const CliParsed *parsed, const char *name);
/** The complaint that words are missing: tells the usage. @return CLI_USAGE */
int cli_expected(const CliVerb *verb);

#endif
