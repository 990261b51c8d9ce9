/* The verbs of pullback-cli: one file each, one row each in main.c. */
#ifndef CLI_VERBS_H
#define CLI_VERBS_H

int verb_run(int argc, char **argv);
int verb_replay(int argc, char **argv);
int verb_grade(int argc, char **argv);
int verb_coach(int argc, char **argv);
int verb_learners(int argc, char **argv);
int verb_runs(int argc, char **argv);
int verb_check(int argc, char **argv);
int verb_age(int argc, char **argv);
int verb_compare(int argc, char **argv);
int verb_heat(int argc, char **argv);

#endif
