/* The verbs of pullback-lab: one file each, one row each in main.c. */
#ifndef LAB_VERBS_H
#define LAB_VERBS_H

int verb_verify(int argc, char **argv);
int verb_bench(int argc, char **argv);
int verb_constants(int argc, char **argv);

#endif
