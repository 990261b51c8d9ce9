/* Which verbs take tables of cases, and which of their options a table may set. */
#include "cases.h"
#include "verbs.h"

#include <string.h>

static const char *const run_columns[] = {"hands",   "seed",      "grid",   "density",
                                          "signals", "constants", "record", NULL};
static const char *const age_columns[] = {
    "density", "years", "at",        "climate", "width", "height", "depth", "tilt",
    "fill-rh", "cells", "vibration", "face",    "damp",  "spread", "seed",  "threads",
    "frames",  "foam",  "inner",     "outer",   "set",   NULL};
static const char *const coach_columns[] = {"seed", "runs", "threads", "out", NULL};
static const char *const compare_columns[] = {"years", "foam",  "dense",   "own",     "seed",
                                              "draws", "lang",  "units",   "threads", "pdf",
                                              "date",  "paper", "company", NULL};

static const CasesVerb table[] = {
    {"run", verb_run, "exercise", 0, 0, 0, run_columns},
    {"age", verb_age, "input", 1, 0, 1, age_columns},
    {"compare", verb_compare, "house", 0, 1, 1, compare_columns},
    {"coach", verb_coach, "exercise", 0, 0, 1, coach_columns},
};

const CasesVerb *cases_verb(const char *name)
{
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        if (strcmp(table[i].name, name) == 0) {
            return &table[i];
        }
    }
    return NULL;
}
