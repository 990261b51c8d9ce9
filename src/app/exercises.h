/* Private to app: the exercises that came with the program, easy to hard. No SDL here. */
#ifndef APP_EXERCISES_H
#define APP_EXERCISES_H

#include "core/exercise.h"

typedef struct ExerciseRow {
    char path[700];
    PbExercise exercise;
    int runs;          /* of the chosen learner, graded */
    double last, best; /* of 100; negative = not run */
    unsigned char is_open;
} ExerciseRow;

typedef struct Exercises {
    ExerciseRow *rows;
    int count;
} Exercises;

/* Read every exercise of a folder; files that are not right are left out with a line on stderr. */
void exercises_load(Exercises *list, const char *folder);
void exercises_free(Exercises *list);
/* Which are open to somebody with these grades; all of them when nobody is chosen. */
void exercises_unlock(Exercises *list, int has_learner);

#endif
