/* Forty techniques on four bays: the walls that they make, told without marks for whoever ranks
 * them, and how far the marks agree with that ranking. */
#include "lab/teach.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const char *const bays[TEACH_ORDER_BAYS] = {"plain-2x4", "leaky-boards", "tight-bay",
                                                   "wide-24"};
static const uint64_t ORDER_SEED = 1;

/* All techniques on one bay; caller frees the jobs, and the bay outlives them. */
static PbStatus pack(const TeachSetup *setup, int which, TeachBay *bay, TeachJob **out,
                     PbError *err)
{
    PB_TRY(teach_bay(setup->assets, bays[which], bay, err));
    TeachJob *jobs = calloc(TEACH_TECHNIQUES, sizeof *jobs);
    if (jobs == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    for (int i = 0; i < TEACH_TECHNIQUES; i++) {
        jobs[i] = (TeachJob){.bay = bay, .habits = teach_technique(i).habits, .seed = ORDER_SEED};
    }
    PbStatus status = teach_run_all(jobs, TEACH_TECHNIQUES, setup->threads);
    if (status != PB_OK) {
        free(jobs);
        return pb_fail(err, status, "a run did not come to its end");
    }
    *out = jobs;
    return PB_OK;
}

static void print_wall(const char *name, const TeachRun *r)
{
    const PbResult *w = &r->result;
    if (w->blow_out) {
        printf("| %s | face broken at %.0f s |  |  |  |  |  |\n", name, w->duration_s);
        return;
    }
    printf("| %s | %.1f | %.1f at %.1f m | %.0f %% | %.2f | %.1f, %d | %.0f |\n", name,
           w->mean_kg_m3, r->softest_kg_m3, r->softest_y_m, 100.0 * w->share_below_48_kg_m3,
           r->load, w->mass_lost_kg, w->plugs, w->duration_s);
}

PbStatus teach_print_walls(const TeachSetup *setup, PbError *err)
{
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        TeachBay bay;
        TeachJob *jobs = NULL;
        PB_TRY(pack(setup, b, &bay, &jobs, err));
        printf(
            "\n%s\n\n| technique | mean kg/m3 | softest 0.3 m | under 48 | load | lost kg, clogs "
            "| s |\n|---|---|---|---|---|---|---|\n",
            bays[b]);
        for (int i = 0; i < TEACH_TECHNIQUES; i++) {
            print_wall(teach_technique(i).name, &jobs[i].run);
        }
        free(jobs);
    }
    return PB_OK;
}
