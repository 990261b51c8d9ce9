/* Hot paths beside their floors: heat, years, store. See bench_paths.c and docs/SPEED.md. */
#include "bench.h"
#include "bench_floor.h"

#include "core/heat_bay.h"

#include <math.h>
#include <stdlib.h>

/* A slice and step: creep and relaxation (four exp, three log), the sweep of the load. */
static const BenchCost column_cost = {.ops = 283, .divides = 4, .bytes = 150, .where = FLOOR_L1};
/* The same with shear to the next column, one taut string a row. */
static const BenchCost field_cost = {.ops = 314, .divides = 7, .bytes = 150, .where = FLOOR_L2};

double bench_years_floor_ns(void)
{
    const char *limit;
    return bench_cost_ns(&field_cost, &limit);
}

static int time_years(FILE *out, const char *name, const char *unit, int nx, int ny, double mean,
                      double deviation, const BenchCost *cost)
{
    PbBayField bay;
    const char *limit;
    int steps = 0;
    if (bench_years_bay(nx, ny, mean, deviation, &bay) != PB_OK) {
        return 1;
    }
    double ms = bench_years_ms(&bay, 0, 9, &steps);
    pb_bay_field_destroy(&bay);
    if (ms < 0.0 || steps < 1) {
        return 1;
    }
    double floor_ns = bench_cost_ns(cost, &limit);
    bench_path(out, name, unit, 1e6 * ms / ((double)steps * nx * ny), floor_ns, limit);
    return 0;
}

int bench_paths_years(FILE *out)
{
    return time_years(out, "years.field", "cell-step", 16, 96, 50.0, 6.0, &field_cost) |
           time_years(out, "years.column", "slice-step", 1, 100, 46.0, 0.0, &column_cost);
}

/* Processor time and entries of each phase. */
typedef struct Phases {
    PbHeatPhase now;
    double since, spent[PB_HEAT_PHASES];
    int entries[PB_HEAT_PHASES];
} Phases;

static void turn_to(void *user, PbHeatPhase phase)
{
    Phases *p = user;
    double at = bench_cpu_s();
    p->spent[p->now] += at - p->since;
    p->since = at;
    p->now = phase;
    p->entries[phase]++;
}

/* What a section asks of its two band solvers; wide x high corners are free to have air pass. */
typedef struct SectionCost {
    double factor_ops, solve_bytes, unknowns;
} SectionCost;

/* Upright lines on which psi is anywhere not zero: boards hold theirs at zero. */
static int free_lines(const PbHeatResult *r)
{
    int count = 0;
    for (int i = 0; i <= r->nx; i++) {
        int is_free = 0;
        for (int j = 0; j <= r->ny && !is_free; j++) {
            is_free = fabs(r->psi_m2_s[j * (r->nx + 1) + i]) > 0.0;
        }
        count += is_free;
    }
    return count;
}

/* Upright section of viscous flow; half of the solves are of each matrix. The first energy factors
 * are of still air, symmetric. */
static SectionCost section_cost(int nx, int ny, int wide, int energy_factors, int solves)
{
    double cells = (double)nx * ny, nodes = wide * (ny - 1.0), b = nx, w = 2.0 * wide;
    double energy = cells * b * (2.0 * b + 1.0), stream = nodes * w * (w + 2.0);
    double energy_bytes = 8.0 * cells * (2.0 * b + 1.0), stream_bytes = 16.0 * nodes * (w + 1.0);
    double still = cells * b * (b + 2.0);
    return (SectionCost){(energy_factors - 1) * energy + still + stream,
                         0.5 * solves * (energy_bytes + stream_bytes),
                         0.5 * solves * (cells + nodes)};
}

static int solve_once(PbHeatCase *c, Phases *p, SectionCost *cost, double *took_s)
{
    PbAllocator allocator = pb_allocator_default();
    PbHeatSection *s;
    *p = (Phases){.now = PB_HEAT_PHASE_OTHER, .since = bench_cpu_s()};
    c->physics.mark = turn_to;
    c->physics.mark_user = p;
    double from = p->since;
    if (pb_heat_case_solve(c, &allocator, &s, NULL) != PB_OK) {
        return 0;
    }
    *took_s = bench_cpu_s() - from;
    const PbHeatResult *r = pb_heat_section_result(s);
    *cost = section_cost(r->nx, r->ny, free_lines(r), r->factorisations,
                         p->entries[PB_HEAT_PHASE_SOLVE]);
    pb_heat_section_destroy(s);
    return 1;
}

/* The section with gaps on 32 x 128: its factors, its solves and the whole. */
static int time_section(FILE *out, PbHeatCase *c, double *section_floor_ns)
{
    enum { TIMES = 25 };
    double factor = HUGE_VAL, solve = HUGE_VAL, whole = HUGE_VAL, took;
    SectionCost cost = {0};
    Phases p = {0};
    bench_heat_case(c, 1);
    c->nx = 32;
    c->ny = 128;
    for (int i = 0; i < TIMES; i++) {
        if (!solve_once(c, &p, &cost, &took)) {
            return 1;
        }
        factor = fmin(factor, p.spent[PB_HEAT_PHASE_FACTOR]);
        solve = fmin(solve, p.spent[PB_HEAT_PHASE_SOLVE]);
        whole = fmin(whole, took);
    }
    double op = bench_floor_op_ns(), byte = bench_floor_get()->byte_ns[FLOOR_L3];
    bench_path(out, "heat.factor", "operation", 1e9 * factor / cost.factor_ops, op, "arithmetic");
    bench_path(out, "heat.solve", "unknown", 1e9 * solve / cost.unknowns,
               cost.solve_bytes * byte / cost.unknowns, "L3 bytes");
    *section_floor_ns = cost.factor_ops * op + cost.solve_bytes * byte;
    bench_path(out, "heat.section", "section 32x128", 1e9 * whole, *section_floor_ns,
               "factors and solves");
    return 0;
}

/* Twelve strips, every one different, one thread, with its picture. */
static int time_bay(FILE *out, double section_floor_ns)
{
    PbConstants constants = pb_constants_default();
    PbAllocator allocator = pb_allocator_default();
    PbBayField f;
    double best = HUGE_VAL;
    int solved = 0, failed = 0;
    if (bench_heat_field(0, &f) != PB_OK) {
        return 1;
    }
    for (int i = 0; i < 7 && !failed; i++) {
        PbHeatBaySetup setup = pb_heat_bay_default(&f);
        PbHeatBay *bay;
        double from = bench_cpu_s();
        failed = pb_heat_bay_solve(&setup, &constants, &allocator, &bay, NULL) != PB_OK;
        if (!failed) {
            best = fmin(best, bench_cpu_s() - from);
            solved = pb_heat_bay_result(bay)->solved_strips;
            pb_heat_bay_destroy(bay);
        }
    }
    pb_bay_field_destroy(&f);
    if (!failed && solved > 0) {
        bench_path(out, "heat.bay", "strip 32x128", 1e9 * best / solved, section_floor_ns,
                   "factors and solves");
    }
    return failed;
}

int bench_paths_heat(FILE *out)
{
    PbHeatCase *c = malloc(sizeof *c);
    double section_floor_ns = 0.0;
    int failed =
        c == NULL || time_section(out, c, &section_floor_ns) || time_bay(out, section_floor_ns);
    free(c);
    return failed;
}

int bench_paths_store(FILE *out)
{
    size_t bytes = 0;
    double ns = bench_store_row_ns(2000, &bytes);
    if (ns < 0.0) {
        return 1;
    }
    /* a row is written once as it will be handed over, whatever the database does */
    bench_path(out, "store.list", "row", ns, (double)bytes * bench_floor_get()->byte_ns[FLOOR_L3],
               "L3 bytes");
    return 0;
}
