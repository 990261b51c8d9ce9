/* How hard the exercises are: the share of runs that hands of five skills pass on each. An exercise
 * that waits for an act has no difficulty yet. */
#include "lab/teach.h"

#include "os/file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SKILLS = TEACH_SKILLS, SEEDS = 6, MAX_BAYS = 64 };

/* Assumed hands: scatter, ears, steps, and how often they think of what a bay needs besides
 * packing: the ring, a seal, another hole, a look and a test before work, less air and feed. */
TeachHabits teach_skill(int skill)
{
    static const struct {
        double step_m, step_sd_m, wait_s, misheard_per_s, react_s, late_share, acts_share;
        int eases;
    } rows[SKILLS] = {
        {0.50, 0.10, 0.5, 0.040, 0.8, 0.20, 0.1, 0}, {0.40, 0.07, 1.0, 0.015, 0.6, 0.10, 0.3, 0},
        {0.36, 0.05, 1.5, 0.006, 0.5, 0.08, 0.5, 0}, {0.32, 0.04, 1.5, 0.003, 0.4, 0.05, 0.8, 1},
        {0.29, 0.02, 1.8, 0.0, 0.3, 0.0, 1.0, 1},
    };
    TeachHabits h = teach_textbook();
    h.step_m = rows[skill].step_m;
    h.step_sd_m = rows[skill].step_sd_m;
    h.wait_s = rows[skill].wait_s;
    h.wait_sd_s = 0.3;
    h.misheard_per_s = rows[skill].misheard_per_s;
    h.react_s = rows[skill].react_s;
    h.late_share = rows[skill].late_share;
    h.late_s = 6.0;
    h.eases = rows[skill].eases;
    h.reads_bay = 0;
    h.acts_share = rows[skill].acts_share;
    return h;
}

static int is_before(const PbExercise *a, const PbExercise *b)
{
    if (a->level != b->level) {
        return a->level < b->level;
    }
    return a->order != b->order ? a->order < b->order : strcmp(a->id, b->id) < 0;
}

static int is_wanted(const PbExercise *e, const char *only)
{
    return only != NULL ? strcmp(e->id, only) == 0 : e->level > 0.0 && e->waits_for[0] == '\0';
}

/* Those that count for a level, in the order of the course. */
static PbStatus read_course(const TeachSetup *setup, TeachBay *bays, int *count, PbError *err)
{
    char folder[512];
    snprintf(folder, sizeof folder, "%s/exercises", setup->assets);
    int found = 0;
    char **names = os_names(folder, ".json", &found);
    if (names == NULL) {
        return pb_fail(err, PB_ERR_IO, "%s: cannot be read", folder);
    }
    PbStatus status = PB_OK;
    *count = 0;
    for (int i = 0; i < found; i++) {
        if (status == PB_OK && *count < MAX_BAYS) {
            *strrchr(names[i], '.') = '\0';
            TeachBay bay;
            status = teach_bay(setup->assets, names[i], &bay, err);
            if (status == PB_OK && is_wanted(&bay.exercise, setup->only)) {
                int at = (*count)++;
                for (; at > 0 && is_before(&bay.exercise, &bays[at - 1].exercise); at--) {
                    bays[at] = bays[at - 1];
                }
                bays[at] = bay;
            }
        }
    }
    os_names_free(names, found);
    return status;
}

static void print_bay(const PbExercise *e, const TeachJob *jobs, int seeds)
{
    int all = 0;
    printf("| %.0f | `%s` |", e->level, e->id);
    for (int s = 0; s < SKILLS; s++) {
        int passed = 0;
        double sum = 0.0;
        for (int i = 0; i < seeds; i++) {
            const TeachRun *r = &jobs[s * seeds + i].run;
            passed += r->score.is_pass;
            sum += r->score.total;
        }
        all += passed;
        printf(" %.0f %% (%.0f) |", 100.0 * passed / seeds, sum / seeds);
    }
    printf(" %.0f %% |\n", 100.0 * all / (SKILLS * seeds));
}

static PbStatus print_rows(const TeachSetup *setup, const TeachBay *bays, int count, int seeds,
                           PbError *err)
{
    int each = SKILLS * seeds;
    TeachJob *jobs = calloc((size_t)(count * each) + 1, sizeof *jobs); /* one more: never none */
    if (jobs == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    for (int i = 0; i < count * each; i++) {
        jobs[i] = (TeachJob){.bay = &bays[i / each],
                             .habits = teach_skill(i % each / seeds),
                             .seed = (uint64_t)(i % seeds) + 11};
    }
    PbStatus status = teach_run_all(jobs, count * each, setup->threads);
    printf("| level | exercise | novice | beginner | improver | competent | expert | all "
           "|\n|---|---|---|---|---|---|---|---|\n");
    for (int b = 0; b < count && status == PB_OK; b++) {
        print_bay(&bays[b].exercise, jobs + (size_t)(b * each), seeds);
    }
    free(jobs);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "a run did not come to its end");
}

PbStatus teach_print_levels(const TeachSetup *setup, PbError *err)
{
    int count = 0;
    TeachBay *bays = calloc(MAX_BAYS, sizeof *bays);
    if (bays == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = read_course(setup, bays, &count, err);
    if (status == PB_OK && setup->only != NULL && count == 0) {
        status = pb_fail(err, PB_ERR_RANGE, "--exercise %s: there is none of that id", setup->only);
    }
    if (status == PB_OK) {
        status = print_rows(setup, bays, count, setup->seeds > 0 ? setup->seeds : SEEDS, err);
    }
    free(bays);
    return status;
}
