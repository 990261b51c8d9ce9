/* Forty techniques on four bays: the walls that they make, told without marks for whoever ranks
 * them, and how far the marks agree with that ranking. */
#include "lab/teach.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const char *const bays[TEACH_ORDER_BAYS] = {"plain-2x4", "leaky-boards", "tight-bay",
                                                   "wide-24"};
static const uint64_t ORDER_SEED = 1;
static const double LAST_BIT = 1e-9;

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

/* Kendall's tau-b: pairs that agree less pairs that do not, over what ties leave of all pairs. */
double teach_tau_b(const int *ranks, const double *marks, int count)
{
    double agree = 0.0, ranked = 0.0, marked = 0.0;
    for (int i = 0; i < count; i++) {
        for (int k = i + 1; k < count; k++) {
            int by_rank = (ranks[k] > ranks[i]) - (ranks[k] < ranks[i]);
            int by_mark = (marks[i] > marks[k]) - (marks[i] < marks[k]);
            agree += by_rank * by_mark;
            ranked += by_rank != 0;
            marked += by_mark != 0;
        }
    }
    return ranked > 0.0 && marked > 0.0 ? agree / sqrt(ranked * marked) : 0.0;
}

static void print_taus(double marks[TEACH_ORDER_BAYS][TEACH_TECHNIQUES])
{
    printf("| exercise | tau-b of 40 techniques | asked for |\n|---|---|---|\n");
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        const TeachRanking *r = &teach_rankings()[b];
        printf("| `%s` | %.3f | %.1f |\n", bays[b],
               teach_tau_b(r->rank, marks[b], TEACH_TECHNIQUES), r->wanted_tau);
    }
}

static void print_marks(double marks[TEACH_ORDER_BAYS][TEACH_TECHNIQUES])
{
    printf("\n| technique: rank, mark |");
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        printf(" `%s` |", bays[b]);
    }
    printf("\n|---|---|---|---|---|\n");
    for (int i = 0; i < TEACH_TECHNIQUES; i++) {
        printf("| %s |", teach_technique(i).words);
        for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
            printf(" %d, %.0f |", teach_rankings()[b].rank[i], marks[b][i]);
        }
        printf("\n");
    }
}

PbStatus teach_print_order(const TeachSetup *setup, PbError *err)
{
    double marks[TEACH_ORDER_BAYS][TEACH_TECHNIQUES];
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        TeachBay bay;
        TeachJob *jobs = NULL;
        PB_TRY(pack(setup, b, &bay, &jobs, err));
        for (int i = 0; i < TEACH_TECHNIQUES && jobs != NULL; i++) {
            marks[b][i] = floor(jobs[i].run.score.total + LAST_BIT); /* whole, as they are shown */
        }
        free(jobs);
    }
    print_taus(marks);
    print_marks(marks);
    return PB_OK;
}
