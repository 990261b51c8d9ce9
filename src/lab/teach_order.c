/* Forty techniques on four bays: the walls that they make, told without marks for whoever ranks
 * them, and how far the marks agree with that ranking. */
#include "lab/teach.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const char *const bays[TEACH_ORDER_BAYS] = {"plain-2x4", "leaky-boards", "tight-bay",
                                                   "wide-24"};
static const uint64_t order_seeds[TEACH_SETS] = {1, 4};
static const double LAST_BIT = 1e-9;

/* All techniques of a set on one bay; caller frees the jobs, and the bay outlives them. */
static PbStatus pack(const TeachSetup *setup, int set, int which, TeachBay *bay, TeachJob **out,
                     PbError *err)
{
    PB_TRY(teach_bay(setup->assets, bays[which], bay, err));
    TeachJob *jobs = calloc(TEACH_TECHNIQUES, sizeof *jobs);
    if (jobs == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    for (int i = 0; i < TEACH_TECHNIQUES; i++) {
        jobs[i] = (TeachJob){
            .bay = bay, .habits = teach_technique(set, i).habits, .seed = order_seeds[set]};
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
    printf("| %s | %s |", name, w->blow_out ? "BROKEN" : "whole");
    for (int f = 0; f < TEACH_FEET; f++) {
        printf(" %.0f", r->foot_kg_m3[f]);
    }
    printf(
        " | %.1f | %.1f | %.0f | %.0f | %.0f | %.0f %% | %.1f | %.2f | %d | %d | %.0f | %.1f |\n",
        w->mean_kg_m3, r->softest_kg_m3, r->least_kg_m3, r->most_kg_m3, 1e4 * w->void_area_m2,
        100.0 * r->load, w->mass_fed_kg, w->mass_lost_kg, w->plugs, r->cleared_live,
        r->score.gates[PB_GATE_CHECKS].value - (r->cleared_live > 0), w->duration_s / 60.0);
}

PbStatus teach_print_walls(const TeachSetup *setup, PbError *err)
{
    const int set = TEACH_SETS - 1; /* the newest: the others have been ranked and marked */
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        TeachBay bay;
        TeachJob *jobs = NULL;
        PB_TRY(pack(setup, set, b, &bay, &jobs, err));
        printf(
            "\n%s\n\n| technique | face | kg/m3 foot by foot, from below | mean | softest 0.3 m | "
            "softest square | densest square | empty cm2 | peak load on the face | fed kg | lost "
            "kg | clogs | cleared under power | checks left out | min "
            "|\n|---|---|---|---|---|---|---|---|---|---|---|---|---|---|---|\n",
            bays[b]);
        for (int t = 0; t < TEACH_TECHNIQUES; t++) {
            print_wall(teach_technique(set, t).name, &jobs[t].run);
        }
        fflush(stdout);
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

typedef double OrderMarks[TEACH_SETS][TEACH_ORDER_BAYS][TEACH_TECHNIQUES];

static void print_taus(OrderMarks marks)
{
    printf("| exercise | tau-b of the 40 before | of the fresh 40 | asked for "
           "|\n|---|---|---|---|\n");
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        const TeachRanking *r = &teach_rankings()[b];
        printf("| `%s` | %.3f | %.3f | %.1f |\n", bays[b],
               teach_tau_b(r->rank[0], marks[0][b], TEACH_TECHNIQUES),
               teach_tau_b(r->rank[1], marks[1][b], TEACH_TECHNIQUES), r->wanted_tau);
    }
}

static void print_marks(OrderMarks marks, int set)
{
    printf("\n| technique: rank, mark |");
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
        printf(" `%s` |", bays[b]);
    }
    printf("\n|---|---|---|---|---|\n");
    for (int i = 0; i < TEACH_TECHNIQUES; i++) {
        printf("| %s |", teach_technique(set, i).words);
        for (int b = 0; b < TEACH_ORDER_BAYS; b++) {
            printf(" %d, %.0f |", teach_rankings()[b].rank[set][i], marks[set][b][i]);
        }
        printf("\n");
    }
}

PbStatus teach_print_order(const TeachSetup *setup, PbError *err)
{
    OrderMarks marks = {{{0}}};
    for (int i = 0; i < TEACH_SETS * TEACH_ORDER_BAYS; i++) {
        TeachBay bay;
        TeachJob *jobs = NULL;
        int set = i / TEACH_ORDER_BAYS, b = i % TEACH_ORDER_BAYS;
        PB_TRY(pack(setup, set, b, &bay, &jobs, err));
        for (int t = 0; t < TEACH_TECHNIQUES && jobs != NULL; t++) { /* whole, as they are shown */
            marks[set][b][t] = floor(jobs[t].run.score.total + LAST_BIT);
        }
        free(jobs);
    }
    print_taus(marks);
    for (int set = 0; set < TEACH_SETS; set++) {
        print_marks(marks, set);
    }
    return PB_OK;
}
