/* The verbs of pullback-cli: one file each, one row each in main.c. */
#ifndef CLI_VERBS_H
#define CLI_VERBS_H

#include "cli/options.h"

extern const CliOption run_options[];
extern const CliOption replay_options[];
extern const CliOption grade_options[];
extern const CliOption coach_options[];
extern const CliOption drill_options[];
extern const CliOption fit_options[];
extern const CliOption learners_options[];
extern const CliOption runs_options[];
extern const CliOption check_options[];
extern const CliOption age_options[];
extern const CliOption compare_options[];
extern const CliOption proof_options[];
extern const CliOption heat_options[];
extern const CliOption wall_options[];
extern const CliOption job_options[];

int verb_run(const CliVerb *verb, int argc, char **argv);
int verb_replay(const CliVerb *verb, int argc, char **argv);
int verb_grade(const CliVerb *verb, int argc, char **argv);
int verb_coach(const CliVerb *verb, int argc, char **argv);
int verb_drill(const CliVerb *verb, int argc, char **argv);
int verb_fit(const CliVerb *verb, int argc, char **argv);
int verb_learners(const CliVerb *verb, int argc, char **argv);
int verb_runs(const CliVerb *verb, int argc, char **argv);
int verb_check(const CliVerb *verb, int argc, char **argv);
int verb_age(const CliVerb *verb, int argc, char **argv);
int verb_compare(const CliVerb *verb, int argc, char **argv);
int verb_proof(const CliVerb *verb, int argc, char **argv);
int verb_heat(const CliVerb *verb, int argc, char **argv);
int verb_wall(const CliVerb *verb, int argc, char **argv);
int verb_job(const CliVerb *verb, int argc, char **argv);

#endif
