/* pullback-lab: what only developers run. Built and tested, not installed. */
#include "verbs.h"

static const CliVerb verbs[] = {
    {"verify", "run every published and exact check; exit 1 if one fails", "[--only PREFIX]",
     verify_options,
     "Every published and exact check, ours beside theirs; exit 1 when one fails.\n", verb_verify},
    {"bench", "measure speed on this machine", "[NAME]", NULL,
     "Names: pack, years, heat, store, floor, paths; none: all of them.\n", verb_bench},
    {"constants", "every number of the model with its range and source", "[--json|--markdown]",
     constants_options, NULL, verb_constants},
    {"crews", "four scripted crews over the six walls, or over walls drawn by era", "[options]",
     crews_options, NULL, verb_crews},
    {"fit-check", "does a fit find the constants that its boxes were made with?", "[--sets N]",
     fit_check_options,
     "Six boxes packed at 96 points of the ranges, then made sets of weighed boxes fitted: how "
     "often\n"
     "each constant lies in its own 90 % interval. About five minutes of processor time.\n",
     verb_fit_check},
    {"teach", "do marks and advice teach? simulated hands; the tables of docs/TRAINERS.md",
     "[--table NAME]", teach_options,
     "Tables: learners, seeds, sheets, levels, order. Others: walls, what the techniques of order "
     "make,\nunmarked; names, of kinds and techniques.\n",
     verb_teach},
};

int main(int argc, char **argv)
{
    const CliProgram program = {"pullback-lab", verbs, sizeof verbs / sizeof verbs[0]};
    return cli_main(&program, argc, argv);
}
