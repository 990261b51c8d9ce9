/* Small changes: the same hands a tick later, 10 mm further, and on other grids. */
#include "lab/teach.h"

#include "core/tick.h"

#include <stdio.h>

static const char *const bays[] = {"plain-2x4", "deep-2x6", "wide-24"};

/* Hands that ease off answer a creak that is there or not; these leave the blower alone. */
static const struct {
    const char *words;
    double wait_s, step_m;
    int cells;
} rows[] = {
    {"as it is", 0.0, 0.0, 0},
    {"one tick later", PB_TICK_S, 0.0, 0},
    {"10 mm longer steps", 0.0, 0.01, 0},
    {"12 across", 0.0, 0.0, 12},
    {"20 across", 0.0, 0.0, 20},
    {"24 across", 0.0, 0.0, 24},
    {"32 across", 0.0, 0.0, 32},
};
enum { BAYS = sizeof bays / sizeof bays[0], ROWS = sizeof rows / sizeof rows[0] };

PbStatus teach_print_smooth(const TeachSetup *setup, PbError *err)
{
    static TeachJob jobs[ROWS];
    printf("| exercise |");
    for (int i = 0; i < ROWS; i++) {
        printf(" %s |", rows[i].words);
    }
    printf("\n|---|---|---|---|---|---|---|---|\n");
    for (int b = 0; b < BAYS; b++) {
        TeachBay bay;
        PB_TRY(teach_bay(setup->assets, bays[b], &bay, err));
        for (int i = 0; i < ROWS; i++) {
            jobs[i] = (TeachJob){
                .bay = &bay, .habits = teach_textbook(), .seed = 1, .cells = rows[i].cells};
            jobs[i].habits.eases = 0;
            jobs[i].habits.wait_s = 1.0 + rows[i].wait_s;
            jobs[i].habits.step_m += rows[i].step_m;
        }
        PbStatus status = teach_run_all(jobs, ROWS, setup->threads);
        if (status != PB_OK) {
            return pb_fail(err, status, "a run did not come to its end");
        }
        printf("| `%s` |", bays[b]);
        for (int i = 0; i < ROWS; i++) {
            printf(" %.1f |", jobs[i].run.score.total);
        }
        printf("\n");
    }
    return PB_OK;
}
