/* Timings of the heat solver: best of several, wall clock, one core unless said. */
#include "bench.h"

#include "cli/front.h"
#include "core/heat_bay.h"
#include "io/clock.h"
#include "io/parallel.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static double now_ms(void)
{
    return 1e3 * io_clock_s();
}

static const double bay_height_m = 2.35, board_m = 0.0127, depth_m = 0.089, sheathing_m = 0.012;

static void region(PbHeatCase *c, double x0, double x1, double y0, double y1,
                   PbHeatMaterialKind kind, double k)
{
    c->regions[c->region_count++] = (PbHeatRegion){x0, y0, x1, y1, {kind, k, 0.0}};
}

static void wall(PbHeatCase *c, double k, double permeability)
{
    double back = board_m + depth_m;
    *c = pb_heat_case_default();
    c->width_m = back + sheathing_m;
    c->height_m = bay_height_m;
    c->background = (PbHeatMaterial){PB_HEAT_POROUS, k, permeability};
    region(c, 0.0, board_m, 0.0, bay_height_m, PB_HEAT_SOLID, 0.16);
    region(c, back, c->width_m, 0.0, bay_height_m, PB_HEAT_SOLID, 0.13);
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FILM, 20.0, 0.13};
    c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FILM, 0.0, 0.04};
    c->physics.radiation_w_m2k = 4.2;
}

/* 0 full fill, 1 foam with 5 mm gaps and open ends, 2 top void (fast), 3 top void (flow solved). */
const char *bench_heat_case(PbHeatCase *c, int which)
{
    double x0 = board_m, x1 = board_m + depth_m, h = bay_height_m, b = 0.005, e = 0.010;
    if (which == 0) {
        wall(c, 0.040, 1.8e-9);
        return "full fill";
    }
    if (which == 1) {
        wall(c, 0.035, 1e-10);
        region(c, x0, x0 + b, 0.0, h, PB_HEAT_AIR, 0.0249);
        region(c, x1 - b, x1, 0.0, h, PB_HEAT_AIR, 0.0249);
        region(c, x0 + b, x1 - b, 0.0, e, PB_HEAT_AIR, 0.0249);
        region(c, x0 + b, x1 - b, h - e, h, PB_HEAT_AIR, 0.0249);
        return "5 mm gaps, open ends";
    }
    wall(c, 0.040, 1.8e-9);
    region(c, x0, x1, h - 0.2, h, PB_HEAT_AIR, 0.0249);
    c->void_convection_w_m2k = which == 2 ? 1.25 : 0.0;
    return which == 2 ? "top void 0.2 m" : "same, void flow solved";
}

/* Time spent in each phase of the best run. */
typedef struct Phases {
    PbHeatPhase now;
    double since, spent[PB_HEAT_PHASES];
} Phases;

static void turn_to(void *user, PbHeatPhase phase)
{
    Phases *p = user;
    double at = now_ms();
    p->spent[p->now] += at - p->since;
    p->since = at;
    p->now = phase;
}

static int time_case(FILE *out, const char *name, PbHeatCase *c, int nx, int ny, int repeats)
{
    PbAllocator allocator = pb_allocator_default();
    double best = HUGE_VAL;
    PbHeatResult r = {0};
    Phases kept = {0};
    c->nx = nx;
    c->ny = ny;
    for (int n = 0; n < repeats; n++) {
        PbHeatSection *s;
        double from = now_ms();
        Phases phases = {PB_HEAT_PHASE_OTHER, from, {0}};
        c->physics.mark = turn_to;
        c->physics.mark_user = &phases;
        if (pb_heat_case_solve(c, &allocator, &s, NULL) != PB_OK) {
            return CLI_NO;
        }
        turn_to(&phases, PB_HEAT_PHASE_OTHER);
        if (phases.since - from < best) {
            best = phases.since - from;
            kept = phases;
        }
        r = *pb_heat_section_result(s);
        pb_heat_section_destroy(s);
    }
    const double *spent = kept.spent;
    fprintf(out,
            "heat.section,%s,%dx%d,%.3f ms,steps %d,inner %d,factors %d,factor %.0f %%,solve %.0f "
            "%%,assembly %.0f %%\n",
            name, nx, ny, best, r.iterations, r.inner_iterations, r.factorisations,
            100.0 * spent[PB_HEAT_PHASE_FACTOR] / best, 100.0 * spent[PB_HEAT_PHASE_SOLVE] / best,
            100.0 * spent[PB_HEAT_PHASE_ASSEMBLE] / best);
    return CLI_DONE;
}

PbStatus bench_heat_field(int same, PbBayField *f)
{
    PB_TRY(pb_bay_field_create(12, 96, 0.368, bay_height_m, depth_m, f));
    pb_bay_field_fill(f, 50.0);
    for (int n = 0; !same && n < f->nx * f->ny; n++) { /* a void of 3 to 5 rows */
        f->density_kg_m3[n] = n / f->nx > 91 - n % 3 ? 0.0 : 40.0 + (n * 7919 % 23);
    }
    return PB_OK;
}

static int time_bay(FILE *out, int threads, int same)
{
    PbConstants constants = pb_constants_default();
    PbAllocator allocator = pb_allocator_default();
    PbBayField f;
    IoParallel p = {threads};
    double best = HUGE_VAL;
    size_t bytes = 0;
    int solved = 0, code = CLI_DONE;
    if (bench_heat_field(same, &f) != PB_OK) {
        return CLI_INTERNAL;
    }
    for (int n = 0; n < 15 && code == CLI_DONE; n++) {
        PbHeatBaySetup setup = pb_heat_bay_default(&f);
        PbHeatBay *bay;
        setup.parallel = io_parallel_for;
        setup.parallel_user = &p;
        double from = now_ms();
        if (pb_heat_bay_solve(&setup, &constants, &allocator, &bay, NULL) != PB_OK) {
            code = CLI_NO;
            break;
        }
        best = fmin(best, now_ms() - from);
        bytes = pb_heat_bay_result(bay)->peak_bytes;
        solved = pb_heat_bay_result(bay)->solved_strips;
        pb_heat_bay_destroy(bay);
    }
    fprintf(
        out,
        "heat.bay,12 strips of 32x128 (%d different) with picture,%d threads,%.3f ms,%.1f MiB\n",
        solved, threads, best, (double)bytes / 1048576.0);
    pb_bay_field_destroy(&f);
    return code;
}

int bench_heat(FILE *out)
{
    PbHeatCase *c = malloc(sizeof *c);
    int code = c == NULL ? CLI_INTERNAL : CLI_DONE;
    static const int grid[][2] = {{32, 128}, {32, 256}};
    for (int g = 0; g < 2 && code == CLI_DONE; g++) {
        for (int which = 0; which < 4 && code == CLI_DONE; which++) {
            const char *name = bench_heat_case(c, which);
            code = time_case(out, name, c, grid[g][0], grid[g][1], which == 3 ? 5 : 15);
        }
    }
    for (int n = 24; n <= 80 && code == CLI_DONE; n += 8) {
        *c = pb_heat_case_default();
        pb_heat_case_dimensionless(c, PB_HEAT_KIND_AIR, 1e5, 0.71, 0.0, 1.0);
        code =
            n == 24 || n == 32 || n == 80 ? time_case(out, "air cavity Ra 1e5", c, n, n, 9) : code;
    }
    for (int threads = 1; threads <= 2 && code == CLI_DONE; threads++) {
        code = time_bay(out, threads, 0);
    }
    if (code == CLI_DONE) {
        code = time_bay(out, 2, 1);
    }
    free(c);
    return code;
}
