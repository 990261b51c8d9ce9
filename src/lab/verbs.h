/* The verbs of pullback-lab: one file each, one row each in main.c. */
#ifndef LAB_VERBS_H
#define LAB_VERBS_H

#include "cli/options.h"

extern const CliOption verify_options[];
extern const CliOption constants_options[];
extern const CliOption fit_check_options[];
extern const CliOption teach_options[];

extern const CliOption crews_options[];
int verb_crews(const CliVerb *verb, int argc, char **argv);
int verb_verify(const CliVerb *verb, int argc, char **argv);
int verb_bench(const CliVerb *verb, int argc, char **argv);
int verb_constants(const CliVerb *verb, int argc, char **argv);
int verb_fit_check(const CliVerb *verb, int argc, char **argv);
int verb_teach(const CliVerb *verb, int argc, char **argv);

#endif
