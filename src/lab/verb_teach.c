/* teach: the evidence of docs/TRAINERS.md that marks and advice teach, made anew. */
#include "verbs.h"

#include "cli/front.h"
#include "lab/teach.h"

#include <stddef.h>
#include <stdio.h>

typedef PbStatus Table(const TeachSetup *setup, PbError *err);

enum { LEARNERS, SEEDS, SMOOTH, SHEETS, LEVELS, ORDER, SHOWN, WALLS = SHOWN, NAMES, TABLES };

/* What the tables are about: a cheap look whether a page has those of today. */
static PbStatus print_names(const TeachSetup *setup, PbError *err)
{
    (void)setup;
    (void)err;
    for (int i = 0; i < TEACH_KINDS; i++) {
        printf("| %s |\n", teach_kind(i).name);
    }
    for (int i = 0; i < TEACH_SETS * TEACH_TECHNIQUES; i++) {
        printf("| %s |\n", teach_technique(i / TEACH_TECHNIQUES, i % TEACH_TECHNIQUES).words);
    }
    return PB_OK;
}

static const char *const words[TABLES] = {"learners", "seeds", "smooth", "sheets",
                                          "levels",   "order", "walls",  "names"};
static Table *const tables[TABLES] = {teach_print_learners, teach_print_seeds,  teach_print_smooth,
                                      teach_print_sheets,   teach_print_levels, teach_print_order,
                                      teach_print_walls,    print_names};

typedef struct Options {
    TeachSetup setup;
    int table;
} Options;

const CliOption teach_options[] = {
    {"--table", "NAME", "one of them; else those of docs/TRAINERS.md", cli_take_word,
     .at = offsetof(Options, table), .words = words, .word_count = TABLES},
    {"--seeds", "N", "runs of each row, instead of the table's own number", cli_take_whole,
     .at = offsetof(Options, setup.seeds), .low = 1, .high = 1000},
    {"--exercise", "ID", "of the levels this one alone, in the course or not", cli_take_text,
     .at = offsetof(Options, setup.only)},
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
    for (int i = 0; i < (o.table < 0 ? SHOWN : TABLES); i++) {
        if (o.table >= 0 && i != o.table) {
            continue;
        }
        if (tables[i](&o.setup, &err) != PB_OK) {
            return cli_report(&err);
        }
        printf("\n");
        fflush(stdout);
    }
    return CLI_DONE;
}
