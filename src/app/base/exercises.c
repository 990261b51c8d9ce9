/* The list of exercises: a folder read once, put in the order of the course. */
#include "base/exercises.h"

#include "core/course.h"
#include "io/exercise_file.h"
#include "os/file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* By level and order; what is not part of the course comes last, by file name. */
static int compare(const void *a, const void *b)
{
    const ExerciseRow *x = a, *y = b;
    double lx = x->exercise.level > 0.0 ? x->exercise.level : 1e9;
    double ly = y->exercise.level > 0.0 ? y->exercise.level : 1e9;
    if (lx != ly) {
        return lx < ly ? -1 : 1;
    }
    if (x->exercise.order != y->exercise.order) {
        return x->exercise.order < y->exercise.order ? -1 : 1;
    }
    return strcmp(x->path, y->path);
}

/* What is no exercise is none tomorrow either; anything else may be one. */
static PbStatus read_row(const char *folder, const char *name, ExerciseRow *row)
{
    PbError err = {0};
    char line[1024];
    PbStatus status;
    memset(row, 0, sizeof *row);
    row->last = -1.0;
    row->is_passed = 0;
    row->is_open = 1;
    if (snprintf(row->path, sizeof row->path, "%s/%s", folder, name) >= (int)sizeof row->path) {
        return PB_ERR_IO;
    }
    status = io_exercise_load(row->path, &row->exercise, &err);
    row->hash = status == PB_OK ? io_exercise_hash(&row->exercise) : 0;
    if (status == PB_OK && row->hash == 0) {
        status = pb_fail(&err, PB_ERR_MEMORY, "out of memory");
    }
    if (status != PB_OK) {
        io_error_line(&err, line, sizeof line);
        fprintf(stderr, "pullback: left out of the list: %s\n", line);
    }
    return status;
}

void exercises_load(Exercises *list, const char *folder)
{
    int n = 0;
    char **names = os_names(folder, ".json", &n);
    memset(list, 0, sizeof *list);
    list->rows = n > 0 ? calloc((size_t)n, sizeof *list->rows) : NULL;
    for (int i = 0; i < n; i++) {
        PbStatus status = list->rows != NULL ? read_row(folder, names[i], &list->rows[list->count])
                                             : PB_ERR_MEMORY;
        list->count += status == PB_OK;
        list->is_short |= status == PB_ERR_MEMORY || status == PB_ERR_IO;
    }
    os_names_free(names, n);
    if (list->count > 1) {
        qsort(list->rows, (size_t)list->count, sizeof *list->rows, compare);
    }
}

void exercises_free(Exercises *list)
{
    free(list->rows);
    list->rows = NULL;
    list->count = list->is_short = 0;
}

int exercises_is_own(const Exercises *list, uint64_t hash)
{
    for (int i = 0; i < list->count; i++) {
        if (list->rows[i].hash == hash) {
            return 0;
        }
    }
    return hash != 0 && list->count > 0 && !list->is_short;
}

void exercises_unlock(Exercises *list, int has_learner)
{
    PbCourseItem *items = calloc((size_t)list->count + 1, sizeof *items);
    unsigned char *open = calloc((size_t)list->count + 1, 1);
    for (int i = 0; items != NULL && i < list->count; i++) {
        items[i] = pb_course_item(&list->rows[i].exercise, list->rows[i].is_passed);
    }
    if (items != NULL && open != NULL) {
        pb_course_unlock(items, list->count, open);
    }
    for (int i = 0; i < list->count; i++) {
        list->rows[i].is_open = !has_learner || open == NULL || open[i];
    }
    free(items);
    free(open);
}
