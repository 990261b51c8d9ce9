/* constants: every number of the model, with unit, range, confidence and source. */
#include "verbs.h"

#include "cli/front.h"
#include "core/constants.h"
#include "io/constants_out.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void print_table(void)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    for (size_t i = 0; i < count; i++) {
        const PbConstantInfo *c = &table[i];
        printf("%-9s %-30s %-12.10g %-10s %.10g .. %.10g | %s | %s\n", c->group, c->name, c->value,
               c->unit, c->low, c->high, c->confidence, c->source);
    }
}

typedef struct Options {
    int is_json, is_markdown;
} Options;

const CliOption constants_options[] = {
    {"--json", NULL, "for programs", cli_take_flag, .at = offsetof(Options, is_json)},
    {"--markdown", NULL, "as docs/CONSTANTS.md", cli_take_flag,
     .at = offsetof(Options, is_markdown)},
    {.name = NULL},
};

int verb_constants(const CliVerb *verb, int argc, char **argv)
{
    Options o = {0};
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, &o, 0, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    if (!o.is_json && !o.is_markdown) {
        print_table();
        return CLI_DONE;
    }
    char *text = o.is_json ? io_constants_json() : io_constants_markdown();
    if (text == NULL) {
        PbError err = {0};
        pb_fail(&err, PB_ERR_MEMORY, "out of memory");
        return cli_report(&err);
    }
    fputs(text, stdout);
    if (text[strlen(text) - 1] != '\n') {
        putchar('\n');
    }
    free(text);
    return CLI_DONE;
}
