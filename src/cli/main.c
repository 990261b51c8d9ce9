/* The verbs of pullback-cli, one row each; the options of a verb are a table of its own file. */
#include "verbs.h"

static const CliVerb verbs[] = {
    {"run", "pack one bay with scripted hands: EXERCISE.json --hands HANDS.json",
     "EXERCISE.json --hands HANDS.json [options]", run_options,
     "Many runs: docs/formats/many-cases.md.\n", verb_run},
    {"replay", "run a recorded run or job again and compare: RUN.pbrun", "RUN [options]",
     replay_options,
     "Compares every state hash of the recording; exit 1 and the tick when they part.\n",
     verb_replay},
    {"grade", "points of a recorded run, each lost one with place, time and cause", "RUN [options]",
     grade_options, NULL, verb_grade},
    {"coach", "search the technique that scores best on an exercise", "EXERCISE.json [options]",
     coach_options, "Says so when nothing beats the plain one-foot rule; exit 1 then.\n",
     verb_coach},
    {"drill", "trials of some twenty seconds: when must the hands act? judged by given presses",
     "[PRESS_S|- ...] [options]", drill_options,
     "One press a trial, in seconds since its start; - is none. Nothing is kept.\n", verb_drill},
    {"fit", "what weighed boxes say of the constants that carry density: BOXES.csv",
     "BOXES.csv [options]", fit_options,
     "Format: docs/formats/fit.md. 96 runs a box; what fits these boxes, within the ranges of the\n"
     "model. run and grade take what --out writes as --material.\n",
     verb_fit},
    {"learners", "the people whose runs are kept: list, add, rename, delete, table, drills, merge",
     "list | add NAME | rename NAME NEW | delete NAME | table | drills | merge OTHER.db",
     learners_options,
     "Deleting a learner deletes their runs, grades and marks. table prints who has worked which\n"
     "exercise how often, first, last and best, as CSV; drills prints the sittings of the drills;\n"
     "merge takes in what another computer's database holds, and plays and marks every run "
     "again.\n",
     verb_learners},
    {"runs", "kept runs: list, import, export, show, pdf, comment, delete, xapi, check",
     "list | import FILE ... --learner NAME | export ID OUT | show ID | comment ID --part PART | "
     "regrade ID --rubric FILE.json | delete ID | pdf ID OUT | xapi --home URL | check",
     runs_options,
     "export gives the run file; show its length, steps, points by part and marks; xapi prints\n"
     "learning-record statements; check holds every stored byte against its checksum, and plays "
     "and\n"
     "grades every run again.\n",
     verb_runs},
    {"check", "say what is wrong or odd in exercise files",
     "[EXERCISE.json ...] [--hands HANDS.json ...] [--house HOUSE.json ...] [--machine FILE ...] "
     "[--material FILE ...]",
     check_options, "Exit 3 and file, line, column for what is refused.\n", verb_check},
    {"age", "years after filling: settling of fill, shrinkage of foam, as a range",
     "FIELD.csv|FIELD.json|RUN.pbrun|--density KG_M3|--foam CLASS [options]", age_options,
     "Formats: docs/formats/age.md, many-cases.md. A range under stated assumptions, never a "
     "promise.\n",
     verb_age},
    {"compare", "a house side by side: empty, loose, foam, dense pack; HOUSE.json",
     "HOUSE.json [options]", compare_options,
     "Formats: docs/formats/house.md. What a model gives for the inputs listed, as ranges;\n"
     "never a promise. Local codes and licensed trades decide real work.\n",
     verb_compare},
    {"proof", "what was measured at a house on the day shows, and its prediction with it",
     "HOUSE.json [options]", proof_options,
     "The block \"proof\" of a house file: docs/formats/house.md. A verdict only where the "
     "evidence "
     "is enough.\n",
     verb_proof},
    {"heat", "heat and air loops of a section, or of a whole bay (--bay)",
     "CASE.json | --bay BAY.json [options]", heat_options, NULL, verb_heat},
    {"wall", "the bays of a framed wall, what fill and bags they take; or one drawn by era",
     "FRAMING.json | --era YEAR [--seed N] [options]", wall_options,
     "Format: docs/formats/framing.md. The bays are what the members leave, so pieces over\n"
     "windows and behind blocks are found; a real wall has to be probed all the same.\n",
     verb_wall},
    {"job", "a whole wall: find, open, fill, leave and prove its bays; FRAMING.json",
     "FRAMING.json [options]", job_options,
     "Format: docs/formats/job.md. A crew by rule or act by act, with marks and the cause of each\n"
     "lost point. A model for training; local codes and licensed trades decide real work.\n",
     verb_job},
};

int main(int argc, char **argv)
{
    const CliProgram program = {"pullback-cli", verbs, sizeof verbs / sizeof verbs[0]};
    return cli_main(&program, argc, argv);
}
