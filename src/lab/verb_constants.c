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

int verb_constants(int argc, char **argv)
{
    if (argc == 1) {
        print_table();
        return CLI_DONE;
    }
    char *text = NULL;
    if (argc == 2 && strcmp(argv[1], "--json") == 0) {
        text = io_constants_json();
    } else if (argc == 2 && strcmp(argv[1], "--markdown") == 0) {
        text = io_constants_markdown();
    } else {
        return cli_usage("constants", "expected --json, --markdown or nothing, not \"%s\"",
                         argv[argc - 1]);
    }
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
