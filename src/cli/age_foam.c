/* Drying and shrinkage of water-based foam for the age verb. */
#include "age.h"

#include "cli/front.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

enum { METRICS = 6 };
static const char *const metric_names[METRICS] = {"shrinkage_percent", "stud_gap_m",
                                                  "plate_gap_m",       "face_gap_m",
                                                  "widest_crack_m",    "open_area_frac"};

typedef struct FoamCase {
    const AgeOptions *options;
    PbFoamCase foam;
    double years[AGE_MAX_TIMES];
    int times;
} FoamCase;

static void sample(const PbFoamState *s, double values[METRICS])
{
    double widest = 0.0;
    for (int i = 0; i < s->across_count; i++) {
        widest = fmax(widest, s->across[i].open_m);
    }
    for (int i = 0; i < s->along_count; i++) {
        widest = fmax(widest, s->along[i].open_m);
    }
    values[0] = 100.0 * s->shrink_frac;
    values[1] = fmax(s->stud_gap_m[0], s->stud_gap_m[1]);
    values[2] = fmax(s->plate_gap_m[0], s->plate_gap_m[1]);
    values[3] = s->face_gap_m;
    values[4] = widest;
    values[5] = s->open_area_frac;
}

static PbStatus draw(const void *user, int index, double *values, PbError *err)
{
    const FoamCase *c = user;
    PbFoamCase foam = c->foam;
    foam.constants = pb_spread_constants(&c->foam.constants, (uint64_t)c->options->seed, index, 0);
    foam.seed = (uint64_t)c->options->seed + (uint64_t)index; /* where cracks fall is chance too */
    PB_TRY(pb_foam_check(&foam, err));
    for (int t = 0; t < c->times; t++) {
        PbFoamState s;
        pb_foam_at(&foam, c->years[t] * PB_DAYS_PER_YEAR, &s);
        sample(&s, values + (size_t)t * METRICS);
    }
    return PB_OK;
}

static void put_cracks(IoAgeResult *out, const char *key, const PbFoamCrack *cracks, int count)
{
    static const char *const names[] = {"at_m", "open_m"};
    double values[2 * PB_FOAM_MAX_CRACKS];
    for (int i = 0; i < count; i++) {
        values[2 * i] = cracks[i].at_m;
        values[2 * i + 1] = cracks[i].open_m;
    }
    io_age_items(out, key, names, 2, values, count);
}

static void describe(const FoamCase *c, IoAgeResult *out)
{
    static const char *const classes[] = {"good", "typical", "poor"};
    static const char *const skins[] = {"painted-board", "wood-board", "tight", "plaster",
                                        "tight-sheathing"};
    const PbFoamCase *f = &c->foam;
    io_age_text(out, "class", classes[f->foam_class]);
    io_age_text(out, "inner", skins[f->inner]);
    io_age_text(out, "outer", skins[f->outer]);
    io_age_number(out, "width_m", f->width_m);
    io_age_number(out, "height_m", f->height_m);
    io_age_number(out, "depth_m", f->depth_m);
    io_age_text(out, "climate", f->climate.name);
    io_age_integer(out, "seed", (long long)f->seed);
    age_put_changed(c->options, out);
    io_age_number(out, "days_to_90_percent_dry", pb_foam_days_to_dry(f, 0.9));
    io_age_text(out, "note",
                "a range under stated assumptions, not a promise; injected "
                "aqueous foams may release formaldehyde and are restricted in "
                "places: local codes and licensed practice decide");
}

static void put_states(const FoamCase *c, IoAgeResult *out)
{
    enum { GAPS = 8 };
    static const char *const names[GAPS] = {"left_m",        "right_m",     "bottom_m",
                                            "top_m",         "face_m",      "face_is_inner",
                                            "cracks_across", "cracks_along"};
    double values[AGE_MAX_TIMES][METRICS], water[AGE_MAX_TIMES], gaps[AGE_MAX_TIMES][GAPS];
    PbFoamState s = {0};
    for (int t = 0; t < c->times; t++) {
        pb_foam_at(&c->foam, c->years[t] * PB_DAYS_PER_YEAR, &s);
        sample(&s, values[t]);
        water[t] = s.water_frac;
        const double at[GAPS] = {s.stud_gap_m[0],  s.stud_gap_m[1], s.plate_gap_m[0],
                                 s.plate_gap_m[1], s.face_gap_m,    s.face_gap_is_inner,
                                 s.across_count,   s.along_count};
        memcpy(gaps[t], at, sizeof at);
    }
    io_age_series(out, "years", c->years, c->times, 1);
    io_age_series(out, "water_frac", water, c->times, 1);
    for (int m = 0; m < METRICS; m++) {
        io_age_series(out, metric_names[m], &values[0][m], c->times, METRICS);
    }
    io_age_items(out, "gaps", names, GAPS, gaps[0], c->times);
    put_cracks(out, "cracks_across", s.across, s.across_count);
    put_cracks(out, "cracks_along", s.along, s.along_count);
}

int age_foam(const AgeOptions *o)
{
    PbError err = {0};
    FoamCase c = {.options = o, .foam = pb_foam_default()};
    c.foam.constants = o->constants;
    c.foam.foam_class = (PbFoamClass)o->foam;
    c.foam.inner = (PbFoamSkin)o->inner;
    c.foam.outer = (PbFoamSkin)o->outer;
    c.foam.width_m = o->width_m;
    c.foam.height_m = o->height_m;
    c.foam.depth_m = o->depth_m;
    c.foam.seed = (uint64_t)o->seed;
    c.times = age_times(o, c.years);
    err.status = age_find_climate(o, &c.foam.climate, &err);
    if (err.status == PB_OK) {
        memset(&err, 0, sizeof err); /* the climate's file is not where the foam is wrong */
        err.status = pb_foam_check(&c.foam, &err);
    }
    if (err.status != PB_OK) {
        return cli_report(&err);
    }
    IoAgeResult *result = io_age_new("foam");
    if (result == NULL) {
        return cli_printed(PB_ERR_MEMORY);
    }
    int code;
    describe(&c, result);
    put_states(&c, result);
    if (o->spread > 0) {
        AgeSpread spread = {o->spread, c.times, METRICS, metric_names, draw, &c};
        code = age_spread_print(o, &spread, result);
    } else {
        code = cli_printed(io_age_print(stdout, result, o->json));
    }
    io_age_free(result);
    return code;
}
