/*
 * The packing benchmark: the one-foot run of the plain bay, best of several, without a profile for
 * the real-time factor and once more with it for the shares, because reading the clock costs time.
 */
#include "bench.h"

#include "cli/run_session.h"

#include <math.h>

enum { TIMED_RUNS = 3 };

typedef struct PackTimes {
    double best_s, simulated_s, mean_kg_m3;
    PbProfile profile;
    double profiled_s;
    size_t bytes;
    int nx, ny;
} PackTimes;

static PbStatus one(const PbSessionConfig *config, PbProfile *profile, PackTimes *t, PbError *err)
{
    CliRun run;
    PbHands hands = pb_hands_default();
    CliRunExtras extras = {.profile = profile};
    PB_TRY(cli_run(config, &hands, &extras, &run, err));
    const PbView *view = pb_session_view(run.watched.session);
    t->nx = view->nx;
    t->ny = view->ny;
    t->bytes = pb_session_memory(run.watched.session);
    t->simulated_s = run.watched.result.duration_s;
    t->mean_kg_m3 = run.watched.result.mean_kg_m3;
    if (profile != NULL) {
        t->profiled_s = run.wall_s;
    } else if (t->best_s == 0.0 || run.wall_s < t->best_s) {
        t->best_s = run.wall_s;
    }
    pb_watched_end(&run.watched);
    return PB_OK;
}

static PbStatus measure(int cells_across, int vector_path, int runs, PackTimes *t, PbError *err)
{
    PbSessionConfig config = pb_session_default();
    config.cells_across = cells_across;
    config.vector_path = vector_path;
    for (int i = 0; i < runs; i++) {
        PB_TRY(one(&config, NULL, t, err));
    }
    return one(&config, &t->profile, t, err);
}

static double share(double part, double whole)
{
    return whole > 0.0 ? 100.0 * part / whole : 0.0;
}

static void print_times(FILE *out, const char *grid, const PackTimes *t)
{
    const PbProfile *p = &t->profile;
    double all = p->gas_s + p->solid_s + p->tufts_s + p->other_s;
    fprintf(out,
            "  %-8s %2d x %3d cells  real-time factor %6.1f  (%.1f s in %.3f s, mean %.2f kg/m3)\n",
            grid, t->nx, t->ny, t->simulated_s / t->best_s, t->simulated_s, t->best_s,
            t->mean_kg_m3);
    fprintf(
        out,
        "           %.2f ns per cell-substep, %.0f substeps and %.0f gas solves a simulated s\n",
        p->cell_substeps > 0 ? 1e9 * p->solid_s / (double)p->cell_substeps : 0.0,
        (double)p->solid_substeps / t->simulated_s, (double)p->gas_solves / t->simulated_s);
    fprintf(out, "           %.0f gas solves per s of gas time (%.3f ms each)\n",
            p->gas_s > 0.0 ? (double)p->gas_solves / p->gas_s : 0.0,
            p->gas_solves > 0 ? 1e3 * p->gas_s / (double)p->gas_solves : 0.0);
    fprintf(out,
            "           share: gas %.0f %%, solid %.0f %%, tufts %.0f %%, other %.0f %%; memory "
            "%.2f MiB\n",
            share(p->gas_s, all), share(p->solid_s, all), share(p->tufts_s, all),
            share(p->other_s, all), (double)t->bytes / (1024.0 * 1024.0));
}

static int bench_grid(FILE *out, const char *name, int cells_across, int vector_path, int runs)
{
    PackTimes t = {0};
    PbError err = {0};
    if (measure(cells_across, vector_path, runs, &t, &err) != PB_OK) {
        fprintf(out, "  %s: %s\n", name, err.message);
        return 1;
    }
    print_times(out, name, &t);
    return 0;
}

int bench_pack(FILE *out)
{
    int failed = bench_grid(out, "default", PB_GRID_DEFAULT, 0, TIMED_RUNS);
    failed |= bench_grid(out, "fine", PB_GRID_FINE, 0, 1);
    failed |= bench_grid(out, "baseline", PB_GRID_DEFAULT, 1, 1);
    return failed;
}
