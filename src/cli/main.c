/* The verbs of pullback-cli: one row each, with what its --help prints. Manual page and shell
 * completion are made from it, so an option that is not told here is told nowhere:
 * tests/docs/options.cmake compares it with what the verbs take. */
#include "verbs.h"

#include "cli/front.h"

static const CliVerb verbs[] = {
    {"run", "pack one bay with scripted hands: EXERCISE.json --hands HANDS.json",
     "usage: pullback-cli run EXERCISE.json --hands HANDS.json [options]\n"
     "  --hands FILE          scripted hands: key frames or a rule\n"
     "  --seed N              chances of this run, default 1\n"
     "  --grid default|fine   16 or 24 cells across the bay\n"
     "  --json                the whole result, for programs\n"
     "  --density OUT.csv     density of the bay at the end\n"
     "  --signals OUT.csv     what a crew can read, ten times a second\n"
     "  --record OUT.pbrun    keep the run, for replay and grade\n"
     "  --pace TIMES          no faster than this many times real time\n"
     "  --constants FILE      other numbers of the model\n"
     "Many runs: docs/formats/many-cases.md.\n",
     verb_run},
    {"replay", "run a recorded run again and compare: RUN.pbrun",
     "usage: pullback-cli replay RUN [options]\n"
     "  --to SECONDS          only to this time\n"
     "  --json                for programs\n"
     "Compares every state hash of the recording; exit 1 and the tick when they part.\n",
     verb_replay},
    {"grade", "points of a recorded run, each lost one with place, time and cause",
     "usage: pullback-cli grade RUN [options]\n"
     "  --rubric FILE.json    other weights, limits and pass rule\n"
     "  --json, --csv         for programs\n"
     "  --pdf OUT             the report as pages; --paper a4|letter, else\n"
     "                        letter for US units and A4 for SI\n"
     "  --lang en|es          language of the sentences\n"
     "  --units si|us         units of the sentences\n",
     verb_grade},
    {"coach", "search the technique that scores best on an exercise",
     "usage: pullback-cli coach EXERCISE.json [options]\n"
     "  --seed N              chances of the runs\n"
     "  --threads N           1 to 16, default all cores\n"
     "  --runs N              how many to try\n"
     "  --out RUN.pbrun       where the best run goes\n"
     "  --no-save             do not make it the reference run that Debrief shows\n"
     "  --json                for programs; makes no reference run\n"
     "Says so when nothing beats the plain one-foot rule; exit 1 then.\n",
     verb_coach},
    {"learners", "the people whose runs are kept: list, add, rename, delete",
     "usage: pullback-cli learners list | add NAME | rename NAME NEW | delete NAME\n"
     "  --yes                 delete without asking\n"
     "  --db PATH             another database than the person's own\n"
     "Deleting a learner deletes their runs, grades and marks.\n",
     verb_learners},
    {"runs", "kept runs: list, import, export, show, pdf, comment, delete, xapi, check",
     "usage: pullback-cli runs ACT [options]\n"
     "  list                  --learner NAME, --exercise ID, --json, --csv\n"
     "  import FILE ...       --learner NAME\n"
     "  export ID OUT         the run file\n"
     "  show ID               length, steps, points by part, marks\n"
     "  comment ID            --part PART, --points X, --reason TEXT, --by NAME\n"
     "  regrade ID            --rubric FILE.json: mark again, both grades stay\n"
     "  delete ID             --yes: without asking\n"
     "  pdf ID OUT            --rubric FILE.json, --paper a4|letter, --lang en|es, --units "
     "si|us\n"
     "  xapi                  learning-record statements: --home URL, --learner NAME, "
     "--exercise ID\n"
     "  check                 every stored byte against its checksum, every run played\n"
     "                        again and graded; --quick: the bytes alone\n"
     "  --db PATH             another database than the person's own\n",
     verb_runs},
    {"check", "say what is wrong or odd in exercise files",
     "usage: pullback-cli check EXERCISE.json ... [--hands HANDS.json ...] [--house "
     "HOUSE.json ...]\n"
     "  --hands FILE          a hands file to check too\n"
     "  --house FILE          a house file to check too\n"
     "Exit 3 and file, line, column for what is refused.\n",
     verb_check},
    {"age", "years after filling: settling of fill, shrinkage of foam, as a range",
     "usage: pullback-cli age FIELD.csv|FIELD.json|--density KG_M3 [options]\n"
     "       pullback-cli age --foam good|typical|poor [options]\n"
     "  --years Y             up to 200, default 30\n"
     "  --at Y1,Y2,...        times to report, in place of the usual ones\n"
     "  --climate NAME|FILE   normal, damp, cold, hot-humid, steady-50, steady-80, or a file\n"
     "  --width --height --depth M, --tilt DEG (90 wall, 0 level), --fill-rh 0..1\n"
     "  --cells N             columns across a bay of one density, default 1\n"
     "  --vibration quiet|light|heavy   --face gypsum|film|lath\n"
     "  --damp shallow|deep   reading of the published damp threshold\n"
     "  --threshold           smallest uniform density with at most 5 mm of top gap\n"
     "  --spread N            N seeded draws: median and 10-90 % band; --seed S --threads T\n"
     "  --frames OUT.csv      the bay at every time, for films\n"
     "  --inner --outer       painted-board, wood-board, tight, plaster, tight-sheathing "
     "(foam)\n"
     "  --set NAME=VALUE      another value for a constant\n"
     "  --json                for programs;  --progress  tell of the "
     "draws\n"
     "Formats: docs/formats/age.md, many-cases.md. A range under stated assumptions, never a "
     "promise.\n",
     verb_age},
    {"compare", "a house side by side: empty, loose, foam, dense pack; HOUSE.json",
     "usage: pullback-cli compare HOUSE.json [options]\n"
     "  --years Y | Y1,Y2,...  one year, or a list; 0 is always there; default 30\n"
     "  --json OUT  --csv OUT  --pdf OUT   \"-\" is standard output for the first two\n"
     "  --company NAME  --date TEXT  --paper a4|letter   of the one-page handout\n"
     "  --foam good|typical|poor  --dense well-done|hasty   in place of the house's\n"
     "  --own RUN.pbrun        the dense pack is this recorded run, with its bay\n"
     "  --seed N  --draws N    draws for the ranges, 0 to 200, default 40; under 20 nothing is "
     "compared\n"
     "  --lang en|es  --units si|us  --threads N\n"
     "Formats: docs/formats/house.md. What a model gives for the inputs listed, as ranges;\n"
     "never a promise. Local codes and licensed trades decide real work.\n",
     verb_compare},
    {"heat", "heat and air loops of a section, or of a whole bay (--bay)",
     "usage: pullback-cli heat CASE.json | --bay BAY.json [options]\n"
     "  --bay FILE            a whole bay: R, picture, season cost\n"
     "  --json                for programs\n"
     "  --field OUT.csv       temperatures and air of a section\n"
     "  --grid NXxNY          cells of a section\n",
     verb_heat},
};

int main(int argc, char **argv)
{
    const CliProgram program = {"pullback-cli", verbs, sizeof verbs / sizeof verbs[0]};
    return cli_main(&program, argc, argv);
}
