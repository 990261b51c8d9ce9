/* How long a person waits in Side by side: one input of a house changes, and until when are the new
 * middle figures of the year on screen there, and until when their whole ranges. Two threads. */
#include "bench.h"
#include "bench_floor.h"

#include "core/compare.h"
#include "io/clock.h"
#include "io/parallel.h"

#include <pthread.h>

enum { SHOWN = 8, CORES = 2 }; /* 30 years among the usual key times */

typedef struct Watch {
    PbCompare *compare;
    pthread_mutex_t lock;
    double start_s, start_cpu_s;
    double mid_s, some_s, range_s;             /* 0 = not yet */
    double mid_cpu_s, some_cpu_s, range_cpu_s; /* of all threads together */
} Watch;

static int least_draws(const PbCompare *c, int *has_mid)
{
    int least = PB_COMPARE_MAX_DRAWS;
    *has_mid = 1;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        PbCompareFigures g;
        pb_compare_figures(c, (PbCompareFill)f, SHOWN, &g);
        *has_mid &= g.has_heat;
        least = g.draws < least ? g.draws : least;
    }
    return least;
}

static void look(void *user, int n)
{
    Watch *w = user;
    (void)n;
    if (pthread_mutex_trylock(&w->lock) != 0) {
        return; /* the other thread is looking */
    }
    int has_mid, draws = least_draws(w->compare, &has_mid);
    int has[3] = {has_mid, draws >= PB_COMPARE_ENOUGH_DRAWS,
                  draws >= pb_compare_setup(w->compare)->draws};
    double *at[3] = {&w->mid_s, &w->some_s, &w->range_s};
    double *cpu[3] = {&w->mid_cpu_s, &w->some_cpu_s, &w->range_cpu_s};
    for (int i = 0; i < 3; i++) {
        if (has[i] && *at[i] == 0.0) {
            *at[i] = io_clock_s() - w->start_s;
            *cpu[i] = bench_all_cpu_s() - w->start_cpu_s;
        }
    }
    pthread_mutex_unlock(&w->lock);
}

static PbCompare *step(FILE *out, const char *what, const PbCompareSetup *setup,
                       const PbCompare *before)
{
    Watch w = {.start_s = io_clock_s(), .start_cpu_s = bench_all_cpu_s()};
    IoParallel crew = {CORES};
    PbError err = {0};
    if (pb_compare_create(setup, &w.compare, &err) != PB_OK) {
        return NULL;
    }
    PbStatus status = before != NULL ? pb_compare_take_over(w.compare, before) : PB_OK;
    pthread_mutex_init(&w.lock, NULL);
    pb_compare_look(w.compare, pb_compare_setup(w.compare)->years[SHOWN]);
    look(&w, 0);
    status = status == PB_OK
                 ? pb_compare_run_all(w.compare, io_parallel_for, &crew, NULL, look, &w, &err)
                 : status;
    double all_s = io_clock_s() - w.start_s, cpu_s = bench_all_cpu_s() - w.start_cpu_s;
    look(&w, 0);
    pthread_mutex_destroy(&w.lock);
    fprintf(out, "compare,%s,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f\n", what, w.mid_s, w.some_s,
            w.range_s, all_s, w.mid_cpu_s, w.some_cpu_s, w.range_cpu_s, cpu_s);
    if (status != PB_OK) {
        pb_compare_destroy(w.compare);
        return NULL;
    }
    return w.compare;
}

/* The changes of a conversation, one after the other, each from the house before. */
static const char *change(PbHouse *h, int n)
{
    switch (n) {
    case 0:
        return "first look";
    case 1:
        h->wall = pb_wall_usual();
        return "siding";
    case 2:
        h->framing_share = 0.2;
        return "framing";
    case 3:
        h->climate.bay_rh.mean += 0.05;
        return "climate";
    case 4:
        h->cavity.now = PB_CAVITY_LOOSE;
        return "old fill";
    case 5:
        h->foam = PB_FOAM_POOR;
        return "foam";
    case 6:
        h->outdoor_c -= 5.0;
        return "outdoors";
    case 7:
        h->dense = PB_DENSE_HASTY;
        return "hasty";
    case 8:
        h->dense = PB_DENSE_WELL_DONE;
        h->bay.depth_m = 0.098;
        return "depth";
    case 9:
        h->bay.height_m = 5.2; /* from sill to rafters */
        return "two stories";
    default:
        return NULL;
    }
}

int bench_compare(FILE *out)
{
    PbCompareSetup s = pb_compare_default();
    const char *what;
    fprintf(out,
            "compare,change,seconds to mid,to %d draws,to %d draws,to all years,"
            "processor seconds of these\n",
            PB_COMPARE_ENOUGH_DRAWS, s.draws);
    PbCompare *before = NULL;
    for (int n = 0; (what = change(&s.house, n)) != NULL; n++) {
        PbCompare *c = step(out, what, &s, before);
        pb_compare_destroy(before);
        before = c;
        if (c == NULL) {
            return 1;
        }
    }
    pb_compare_destroy(before);
    return 0;
}
