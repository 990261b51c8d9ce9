/* teach: the evidence of docs/TRAINERS.md that marks and advice teach, made anew. */
#include "verbs.h"

#include "cli/front.h"
#include "lab/teach.h"

#include <stddef.h>

typedef PbStatus Table(const TeachSetup *setup, PbError *err);

enum { WALLS, LEARNERS, SEEDS, LEVELS, TABLES };

static const char *const words[TABLES] = {"walls", "learners", "seeds", "levels"};
static Table *const tables[TABLES] = {teach_print_walls, teach_print_learners, teach_print_seeds,
                                      teach_print_levels};

typedef struct Options {
    TeachSetup setup;
    int table;
} Options;

const CliOption teach_options[] = {
    {"--table", "NAME", "one of them, or walls; else all that docs/TRAINERS.md has", cli_take_word,
     .at = offsetof(Options, table), .words = words, .word_count = TABLES},
    {"--seeds", "N", "runs of each row, instead of the table's own number", cli_take_whole,
     .at = offsetof(Options, setup.seeds), .low = 1, .high = 1000},
    {"--threads", "T", "of the runs, default all cores", cli_take_whole,
     .at = offsetof(Options, setup.threads), .low = 1, .high = 16},
    {.name = NULL},
};

int verb_teach(const CliVerb *verb, int argc, char **argv)
{
    Options o = {.table = -1};
    CliParsed parsed;
    PbError err = {0};
    o.setup.assets = LAB_ASSETS;
    int code = cli_parse(verb, argc, argv, &o, 0, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    for (int i = 0; i < TABLES; i++) {
        int is_asked = o.table < 0 ? i != WALLS : i == o.table;
        if (is_asked && tables[i](&o.setup, &err) != PB_OK) {
            return cli_report(&err);
        }
    }
    return CLI_DONE;
}
