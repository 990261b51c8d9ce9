/* Draws over uncertain constants, one sample run, and the band of many. Threads are the caller's.
 */
#include "core/spread.h"

#include "core/hash.h"
#include "core/pb_math.h"
#include "core/rng.h"

#include <math.h>
#include <string.h>

#define SAMPLES_MAX 64

int pb_spread_moves(const PbConstantInfo *info)
{
    static const char *const shared[] = {"wall_friction", "lateral_ratio", "internal_friction",
                                         "sorption_exponent", "moisture_at_rh50",
                                         /* heat through a fill; ageing does not read them */
                                         "k_base_w_mk", "k_slope_w_m2_kgk", "k_radiation_w_kg_m4k",
                                         "sigma45_pa_s_m2", "foam_k_w_mk", "void_convection_w_m2k",
                                         "gap_radiation_w_m2k", "wood_k_w_mk", "room_film_m2k_w",
                                         "outdoor_film_m2k_w",
                                         /* the cracks of the faces: leakage alone reads it */
                                         "crack_fill_depth_m"};
    int mine = strcmp(info->group, "settling") == 0 || strcmp(info->group, "foam") == 0 ||
               strcmp(info->group, "layer") == 0 || strcmp(info->group, "house") == 0 ||
               strcmp(info->group, "fuel") == 0 || strcmp(info->group, "leakage") == 0 ||
               strcmp(info->group, "vapor") == 0;
    for (size_t i = 0; i < sizeof shared / sizeof shared[0]; i++) {
        mine |= strcmp(info->name, shared[i]) == 0;
    }
    return mine && info->low < info->high;
}

/*
 * Load over creep stress at which a wall settles 0.2 % (5 mm of 2.5 m) in the 30 years of the
 * definition: from equation (3), (sv/sr)^N = 0.002 m N.
 */
static double load_share_at_threshold(double exponent, double power)
{
    return pb_pow(0.002 * exponent * power, 1.0 / power);
}

double pb_spread_number(double low, double mid, double high, const char *name, uint64_t seed,
                        int index)
{
    uint64_t stream = pb_hash_bytes(PB_HASH_START, name, strlen(name));
    PbRng rng = pb_rng_make(seed ^ stream, (uint64_t)index + 1u);
    double u = pb_rng_uniform(&rng);
    return u < 0.5 ? low + (mid - low) * 2.0 * u : mid + (high - mid) * (2.0 * u - 1.0);
}

/* One constant as draw `index` moves it; one that was set by hand stays. */
static void move(PbConstants *drawn, const PbConstantInfo *info, uint64_t seed, int index)
{
    double *value = pb_constant_at(drawn, info);
    if (*value != info->value) {
        return; /* set by hand: known better than its range */
    }
    *value = pb_spread_number(info->low, info->value, info->high, info->name, seed, index);
}

PbConstants pb_spread_constants(const PbConstants *base, uint64_t seed, int index, int hold_damp)
{
    PbConstants drawn = *base;
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    for (size_t i = 0; i < count; i++) {
        if (!pb_spread_moves(&table[i]) ||
            (hold_damp && strcmp(table[i].name, "settle_damp") == 0)) {
            continue;
        }
        move(&drawn, &table[i], seed, index);
    }
    /* Deep in a wall the load is the plateau of Janssen, which goes with 1 / (mu k). */
    double load =
        base->wall_friction * base->lateral_ratio / (drawn.wall_friction * drawn.lateral_ratio);
    double share = load_share_at_threshold(base->settle_exponent, base->settle_creep_power) /
                   load_share_at_threshold(drawn.settle_exponent, drawn.settle_creep_power);
    drawn.settle_rate_pa *= load * share;
    return drawn;
}

PbStatus pb_spread_age(const PbBayField *bay, const PbSettleConfig *config, const double *years,
                       int count, const PbEffectiveR *effective, PbAgeSample *samples, PbError *err)
{
    PbSettle *s;
    PbAgeSample out[SAMPLES_MAX];
    if (count < 1 || count > SAMPLES_MAX) {
        return pb_fail(err, PB_ERR_RANGE, "%d times, expected 1 to %d", count, SAMPLES_MAX);
    }
    PB_TRY(pb_settle_create(bay, config, &s, err));
    PbStatus status = PB_OK;
    for (int i = 0; i < count && status == PB_OK; i++) {
        PbSettleReport r;
        status = pb_settle_advance(s, years[i]);
        if (status != PB_OK) {
            (void)pb_fail(err, status, "the run to %g years failed", years[i]);
            break;
        }
        pb_settle_report(s, &r);
        out[i] = (PbAgeSample){r.top_gap_m, r.void_area_m2, r.worst_patch_kg_m3, (double)NAN};
        if (effective != NULL && effective->of_bay != NULL) {
            PbAgedBay aged;
            status = pb_settle_aged(s, 0, &aged);
            if (status == PB_OK) {
                status = effective->of_bay(effective->user, &config->constants, &aged,
                                           &out[i].effective_r_m2k_w);
                pb_aged_destroy(&aged);
            }
            if (status != PB_OK) {
                (void)pb_fail(err, status, "no resistance for the bay at %g years", years[i]);
            }
        }
    }
    pb_settle_destroy(s);
    if (status == PB_OK) {
        memcpy(samples, out, (size_t)count * sizeof *samples);
    }
    return status;
}

static void sift_down(double *v, size_t root, size_t count)
{
    while (2 * root + 1 < count) {
        size_t child = 2 * root + 1;
        if (child + 1 < count && v[child] < v[child + 1]) {
            child++;
        }
        if (!(v[root] < v[child])) {
            return;
        }
        double swap = v[root];
        v[root] = v[child];
        v[child] = swap;
        root = child;
    }
}

/* Heap sort: the C library's own may ask for memory, and the core does without it. */
void pb_spread_sort(double *v, size_t count)
{
    for (size_t root = count / 2; root-- > 0;) {
        sift_down(v, root, count);
    }
    for (size_t last = count; last-- > 1;) {
        double swap = v[0];
        v[0] = v[last];
        v[last] = swap;
        sift_down(v, 0, last);
    }
}

static double point(const double *sorted, size_t count, double share)
{
    double at = share * (double)(count - 1);
    size_t low = (size_t)at;
    size_t high = low + 1 < count ? low + 1 : low;
    return sorted[low] + (at - (double)low) * (sorted[high] - sorted[low]);
}

PbBand pb_spread_band(double *values, size_t count)
{
    pb_spread_sort(values, count);
    PbBand b = {point(values, count, 0.1), point(values, count, 0.5), point(values, count, 0.9)};
    return b;
}
