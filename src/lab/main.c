/* pullback-lab: what only developers run. Built and tested, not installed. One row a verb. */
#include "verbs.h"

#include "cli/front.h"

static const CliVerb verbs[] = {
    {"verify", "run every published and exact check; exit 1 if one fails",
     "usage: pullback-lab verify [--only PREFIX]\n"
     "  --only PREFIX         only rows whose name begins so\n"
     "Every published and exact check, ours beside theirs; exit 1 when one fails.\n",
     verb_verify},
    {"bench", "measure speed on this machine",
     "usage: pullback-lab bench [NAME] [--all]\n"
     "  --all                 every table\n"
     "Names: pack, years, heat, store, floor, paths.\n",
     verb_bench},
    {"constants", "every number of the model with its range and source",
     "usage: pullback-lab constants [--json|--markdown]\n"
     "  --json                for programs\n"
     "  --markdown            as docs/CONSTANTS.md\n",
     verb_constants},
};

int main(int argc, char **argv)
{
    const CliProgram program = {"pullback-lab", verbs, sizeof verbs / sizeof verbs[0]};
    return cli_main(&program, argc, argv);
}
