/*
 * Hot paths in ns of processor time a unit, each beside the least that this machine could need for
 * it (bench_floor.c) by what it has to do (counted by hand in docs/SPEED.md, kept here):
 * operations, divisions, square roots, bytes, and steps that wait for each other. Here: packing,
 * replay, marks.
 */
#include "bench.h"
#include "bench_floor.h"

#include "cli/run_session.h"
#include "io/run_judge.h"

#include <math.h>
#include <string.h>

/* Of a cell and substep: kernels solid_stress, solid_force, solid_flux, solid_update. What is done
 * in single precision counts half: twice as many numbers go into a vector. */
static const BenchCost solid_cost = {
    .ops = 0.5 * 82 + 13, .divides = 2, .roots = 1, .bytes = 204, .where = FLOOR_L2};
/* Of a tuft and tick with one piece of path: cells, air, jet, two exp, bounce. */
static const BenchCost tuft_cost = {
    .ops = 170, .divides = 14, .roots = 2, .bytes = 250, .where = FLOOR_L1};

/* Of an unknown of the gas equation, half band h: matrix, U' D^-1 U, both sides, back. */
static BenchCost gas_cost(int half)
{
    double h = half;
    return (BenchCost){.ops = h * (h + 1.0) + h + 4.0 * h + 4.0 * h + 4.0 + 24.0,
                       .divides = 3,
                       .roots = 1,
                       .bytes = 4.0 * 8.0 * (h + 1.0) + 80.0,
                       .where = FLOOR_L2,
                       .in_turn = 5.5,
                       .in_turn_divides = 1};
}

double bench_cost_ns(const BenchCost *c, const char **limit)
{
    static const char *const sizes[] = {"L1 bytes", "L2 bytes", "L3 bytes", "DRAM bytes"};
    const BenchFloor *f = bench_floor_get();
    const double each[4] = {c->ops * bench_floor_op_ns(),
                            c->divides * bench_floor_divide_ns() + c->roots * bench_floor_sqrt_ns(),
                            c->bytes > 0.0 ? c->bytes * f->byte_ns[c->where] : 0.0,
                            c->in_turn * f->chain_ns + c->in_turn_divides * f->chain_divide_ns};
    const char *const names[4] = {"arithmetic", "divide and root", sizes[c->where], "waiting"};
    int most = 0;
    for (int i = 1; i < 4; i++) {
        most = each[i] > each[most] ? i : most;
    }
    *limit = names[most];
    return each[most];
}

void bench_path(FILE *out, const char *name, const char *unit, double ns, double floor_ns,
                const char *limit)
{
    fprintf(out, "path,%s,%s,%.4g ns,floor %.4g ns,ratio %.1f,%s\n", name, unit, ns, floor_ns,
            ns / floor_ns, limit);
}

static void path_of(FILE *out, const char *name, const char *unit, double ns, const BenchCost *cost)
{
    const char *limit;
    double floor_ns = bench_cost_ns(cost, &limit);
    bench_path(out, name, unit, ns, floor_ns, limit);
}

/* The run that all of it is about, and what its stages took. */
typedef struct Packed {
    PbProfile best;
    double tuft_ticks, tick_ns;
    int unknowns, half;
    IoRecorder *recorder;
} Packed;

static PbStatus pack_once(const PbSessionConfig *config, Packed *p, int is_last, CliRun *run,
                          PbError *err)
{
    PbHands hands = pb_hands_default();
    PbProfile profile = {0};
    CliRunExtras extras = {.profile = &profile, .clock_s = bench_cpu_s};
    if (is_last) {
        extras.recorder = p->recorder;
    }
    double from = bench_cpu_s();
    PB_TRY(cli_run(config, &hands, &extras, run, err));
    double tick_ns = 1e9 * (bench_cpu_s() - from) / (double)profile.ticks;
    if (p->tick_ns == 0.0 || tick_ns < p->tick_ns) {
        p->tick_ns = tick_ns;
    }
    PbProfile *best = &p->best;
    if (best->ticks == 0) {
        *best = profile;
    }
    best->gas_s = fmin(best->gas_s, profile.gas_s);
    best->solid_s = fmin(best->solid_s, profile.solid_s);
    best->tufts_s = fmin(best->tufts_s, profile.tufts_s);
    p->tuft_ticks = run->tuft_ticks;
    const PbView *view = pb_session_view(run->watched.session);
    p->unknowns = view->nx * view->ny;
    p->half = view->nx;
    return PB_OK;
}

static void print_pack(FILE *out, const Packed *p)
{
    const PbProfile *b = &p->best;
    BenchCost gas = gas_cost(p->half);
    path_of(out, "pack.solid", "cell-substep", 1e9 * b->solid_s / (double)b->cell_substeps,
            &solid_cost);
    path_of(out, "pack.gas", "unknown",
            1e9 * b->gas_s / ((double)b->gas_solves * (double)p->unknowns), &gas);
    path_of(out, "pack.tufts", "tuft-tick", 1e9 * b->tufts_s / fmax(p->tuft_ticks, 1.0),
            &tuft_cost);
}

/* Least ns of a tick: its substeps, its gas solve, its tufts. */
static double tick_floor(const Packed *p)
{
    const PbProfile *b = &p->best;
    BenchCost gas = gas_cost(p->half);
    const char *limit;
    return (bench_cost_ns(&solid_cost, &limit) * (double)b->cell_substeps +
            bench_cost_ns(&gas, &limit) * (double)b->gas_solves * (double)p->unknowns +
            bench_cost_ns(&tuft_cost, &limit) * p->tuft_ticks) /
           (double)b->ticks;
}

static PbStatus time_score(FILE *out, CliRun *run, PbError *err)
{
    double best = HUGE_VAL;
    run->watched.climate = pb_settle_default().climate;
    run->watched.has_climate = 1;
    for (int i = 0; i < 3; i++) {
        double from = bench_cpu_s();
        PbStatus status = pb_watched_mark(&run->watched);
        if (status != PB_OK) {
            return pb_fail(err, status, "the run could not be marked");
        }
        best = fmin(best, bench_cpu_s() - from);
    }
    const PbView *v = pb_session_view(run->watched.session);
    /* marking ages the bay for 30 years of monthly steps and little else */
    bench_path(out, "score", "run", 1e9 * best,
               bench_years_floor_ns() * (double)(v->nx * v->ny) * 390.0, "ageing 30 years");
    return PB_OK;
}

/* The recording again, then seeks to scattered places. */
static PbStatus time_replay(FILE *out, const Packed *p, PbError *err)
{
    enum { SEEKS = 40, KEY_TICKS = 250 };
    IoPlay r = {0};
    size_t size, kept;
    const unsigned char *bytes = io_recorder_bytes(p->recorder, &size);
    PB_TRY(io_play_open("bench", bytes, size, &r, err));
    double from = bench_cpu_s();
    PbStatus status = io_play_to(&r, r.run.last_tick, err);
    double pass_s = bench_cpu_s() - from, seeks_s = 0.0, least_ns = 0.0, floor_ns = tick_floor(p);
    int last = status == PB_OK ? pb_replay_tick(r.watched.replay) : 0;
    for (int i = 0; i < SEEKS && status == PB_OK; i++) {
        int tick = (int)((long long)last * ((i * 17) % SEEKS) / SEEKS);
        from = bench_cpu_s();
        status = pb_replay_seek(r.watched.replay, tick);
        seeks_s += bench_cpu_s() - from;
        /* a state copied back, then the way from there */
        least_ns += 2.0 * (double)pb_session_memory(r.watched.session) *
                        bench_floor_get()->byte_ns[FLOOR_L3] +
                    (double)(tick % KEY_TICKS) * floor_ns;
    }
    if (status == PB_OK) {
        bench_path(out, "replay", "tick", 1e9 * pass_s / last, floor_ns, "packing");
        bench_path(out, "seek", "seek", 1e9 * seeks_s / SEEKS, least_ns / SEEKS,
                   "packing from a kept state");
        fprintf(out, "replay,realtime_factor %.0f,%d key states\n", last * PB_TICK_S / pass_s,
                pb_replay_key_states(r.watched.replay, &kept));
    }
    io_play_close(&r);
    return status;
}

static PbStatus measure(FILE *out, PbError *err)
{
    enum { TIMES = 3 };
    CliRun run;
    PbSessionConfig config = pb_session_default();
    Packed p = {0};
    PbStatus status = io_recorder_open(NULL, &config, "bench", 0, &p.recorder, err);
    for (int i = 0; i < TIMES && status == PB_OK; i++) {
        status = pack_once(&config, &p, i == TIMES - 1, &run, err);
        if (status == PB_OK && i < TIMES - 1) {
            pb_watched_end(&run.watched);
        }
    }
    if (status == PB_OK) {
        print_pack(out, &p);
        bench_path(out, "pack", "tick", p.tick_ns, tick_floor(&p), "its parts");
        fprintf(out, "pack,realtime_factor %.0f,processor time\n", PB_TICK_S * 1e9 / p.tick_ns);
        status = time_score(out, &run, err);
        pb_watched_end(&run.watched);
    }
    if (status == PB_OK) {
        status = time_replay(out, &p, err);
    }
    io_recorder_close(p.recorder);
    return status;
}

int bench_paths(FILE *out)
{
    PbError err = {0};
    if (measure(out, &err) != PB_OK) {
        fprintf(out, "  %s\n", err.message);
        return 1;
    }
    return bench_paths_years(out) | bench_paths_heat(out) | bench_paths_store(out);
}
