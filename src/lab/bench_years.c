/* Speed of settling: ms and steps, best of several, against the targets. Slow is said, not failed.
 */
#include "bench.h"
#include "bench_floor.h"

#include "core/aged_heat.h"
#include "core/rng.h"
#include "core/settle.h"
#include "core/spread.h"
#include "io/clock.h"

#include <pthread.h>

enum { NX = 16, NY = 96, DRAWS = 100 };

PbStatus bench_years_bay(int nx, int ny, double mean_kg_m3, double deviation, PbBayField *bay)
{
    PB_TRY(pb_bay_field_create(nx, ny, 0.368, 2.4, 0.089, bay));
    PbRng rng = pb_rng_make(1, 1);
    for (int i = 0; i < nx * ny; i++) {
        bay->density_kg_m3[i] = mean_kg_m3 + deviation * pb_rng_normal(&rng);
        bay->density_past_kg_m3[i] = bay->density_kg_m3[i];
    }
    return PB_OK;
}

double bench_years_ms(const PbBayField *bay, int vector_path, int repeats, int *steps)
{
    PbSettleConfig config = pb_settle_default();
    double best = -1.0;
    config.vector_path = vector_path;
    for (int i = 0; i < repeats; i++) {
        PbSettle *s;
        PbSettleReport r;
        double t = bench_cpu_s();
        if (pb_settle_create(bay, &config, &s, NULL) != PB_OK) {
            return -1.0;
        }
        PbStatus status = pb_settle_advance(s, 30.0);
        t = 1e3 * (bench_cpu_s() - t);
        pb_settle_report(s, &r);
        pb_settle_destroy(s);
        *steps = r.steps;
        if (status != PB_OK) {
            return -1.0;
        }
        best = best < 0.0 || t < best ? t : best;
    }
    return best;
}

typedef struct Half {
    const PbBayField *bay;
    int first, failed;
} Half;

static void *half_of_spread(void *user)
{
    static const double years[] = {1.0, 5.0, 10.0, 20.0, 30.0};
    const PbEffectiveR heat = {pb_aged_r, NULL};
    Half *h = user;
    PbSettleConfig config = pb_settle_default();
    const PbConstants base = config.constants;
    for (int d = h->first; d < DRAWS; d += 2) {
        PbAgeSample samples[5];
        config.constants = pb_spread_constants(&base, 1, d, 0);
        h->failed |= pb_spread_age(h->bay, &config, years, 5, &heat, samples, NULL) != PB_OK;
    }
    return NULL;
}

static double spread_s(const PbBayField *bay)
{
    Half halves[2] = {{bay, 0, 0}, {bay, 1, 0}};
    pthread_t other;
    double t = io_clock_s();
    if (pthread_create(&other, NULL, half_of_spread, &halves[1]) != 0) {
        return -1.0;
    }
    half_of_spread(&halves[0]);
    pthread_join(other, NULL);
    return halves[0].failed || halves[1].failed ? -1.0 : io_clock_s() - t;
}

static int line(FILE *out, const char *what, double value, double target, const char *unit,
                int steps)
{
    int failed = !(value >= 0.0);
    fprintf(out, "%-52s %9.2f %-3s target %6.0f  steps %d%s\n", what, value, unit, target, steps,
            failed ? "  COULD NOT RUN" : (value > target ? "  over the target" : ""));
    return failed;
}

int bench_years(FILE *out)
{
    static const char *const paths[] = {"best path", "baseline", "AVX2", "AVX-512"};
    PbBayField column, field, loose;
    int failed = 0, steps = 0;
    if (bench_years_bay(1, 100, 46.0, 0.0, &column) != PB_OK ||
        bench_years_bay(NX, NY, 50.0, 6.0, &field) != PB_OK ||
        bench_years_bay(NX, NY, 42.0, 4.0, &loose) != PB_OK) {
        return 1;
    }
    for (int path = 0; path < 4; path++) {
        char what[80];
        double ms = bench_years_ms(&field, path, 7, &steps);
        if (path > 0 && ms < 0.0) {
            continue; /* not on this machine */
        }
        snprintf(what, sizeof what, "30 years, 16 x 96 field, 50 +- 6 kg/m3, %s", paths[path]);
        failed |= line(out, what, ms, 60.0, "ms", steps);
        ms = bench_years_ms(&column, path, 15, &steps);
        snprintf(what, sizeof what, "30 years, column of 100 slices, 46 kg/m3, %s", paths[path]);
        failed |= line(out, what, ms, 3.0, "ms", steps);
    }
    failed |= line(out, "30 years, 16 x 96 field, 42 +- 4 kg/m3, best path",
                   bench_years_ms(&loose, 0, 7, &steps), 60.0, "ms", steps);
    failed |=
        line(out, "100 draws of the 50 +- 6 field, two threads", spread_s(&field), 8.0, "s", steps);
    pb_bay_field_destroy(&column);
    pb_bay_field_destroy(&field);
    pb_bay_field_destroy(&loose);
    return failed;
}
