/* Private to app: the exercises that came with the program, easy to hard. No SDL here. */
#ifndef APP_EXERCISES_H
#define APP_EXERCISES_H

#include "core/exercise.h"

#include <stdint.h>

typedef struct ExerciseRow {
    char path[700];
    PbExercise exercise;
    uint64_t hash;   /* what it is (io_exercise_hash) */
    int runs;        /* of the chosen learner, those that count */
    double last;     /* mark of 100; negative = not run */
    int is_passed;   /* some run of it passed */
    int64_t left_id; /* run that was left and can be gone on with; 0 = none */
    double left_s;   /* where */
    unsigned char is_open;
} ExerciseRow;

typedef struct Exercises {
    ExerciseRow *rows;
    int count;
    int is_short; /* some could not be read now: nobody knows what they are */
} Exercises;

/* Read every exercise of a folder; files that are not right are left out with a line on stderr, and
 * so are those that cannot be read or for which memory does not reach: then the list is short. */
void exercises_load(Exercises *list, const char *folder);
void exercises_free(Exercises *list);
/* Nonzero when this is none of them, whatever its id. 0 = not noted, or the list is short: half of
 * it would call shipped exercises somebody's own. */
int exercises_is_own(const Exercises *list, uint64_t hash);
/* Which are open to somebody with these grades; all of them when nobody is chosen. */
void exercises_unlock(Exercises *list, int has_learner);

#endif
