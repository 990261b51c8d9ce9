/* Drying and shrinkage of water-based foam for the age verb. */
#include "age.h"
#include "verbs.h"

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
    (void)err;
    const FoamCase *c = user;
    PbFoamCase foam = c->foam;
    foam.constants = pb_spread_constants(&c->foam.constants, (uint64_t)c->options->seed, index, 0);
    foam.seed = (uint64_t)c->options->seed + (uint64_t)index; /* where cracks fall is chance too */
    for (int t = 0; t < c->times; t++) {
        PbFoamState s;
        pb_foam_at(&foam, c->years[t] * 365.25, &s);
        sample(&s, values + (size_t)t * METRICS);
    }
    return PB_OK;
}

static json_t *cracks_of(const PbFoamCrack *cracks, int count)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(
            list, json_pack("{s:f,s:f}", "at_m", cracks[i].at_m, "open_m", cracks[i].open_m));
    }
    return list;
}

static void describe(const FoamCase *c, json_t *out)
{
    static const char *const classes[] = {"good", "typical", "poor"};
    static const char *const skins[] = {"painted-board", "wood-board", "tight", "plaster",
                                        "tight-sheathing"};
    const PbFoamCase *f = &c->foam;
    json_object_set_new(out, "what", json_string("foam"));
    json_object_set_new(out, "version", json_integer(1));
    json_object_set_new(out, "class", json_string(classes[f->foam_class]));
    json_object_set_new(out, "inner", json_string(skins[f->inner]));
    json_object_set_new(out, "outer", json_string(skins[f->outer]));
    json_object_set_new(out, "width_m", json_real(f->width_m));
    json_object_set_new(out, "height_m", json_real(f->height_m));
    json_object_set_new(out, "depth_m", json_real(f->depth_m));
    json_object_set_new(out, "climate", json_string(f->climate.name));
    json_object_set_new(out, "seed", json_integer((json_int_t)f->seed));
    json_object_set_new(out, "days_to_90_percent_dry", json_real(pb_foam_days_to_dry(f, 0.9)));
    json_object_set_new(out, "note",
                        json_string("a range under stated assumptions, not a promise; injected "
                                    "aqueous foams may release formaldehyde and are restricted in "
                                    "places: local codes and licensed practice decide"));
}

static void put_states(const FoamCase *c, json_t *out)
{
    double values[AGE_MAX_TIMES][METRICS], water[AGE_MAX_TIMES];
    json_t *gaps = json_array();
    PbFoamState s = {0};
    for (int t = 0; t < c->times; t++) {
        pb_foam_at(&c->foam, c->years[t] * 365.25, &s);
        sample(&s, values[t]);
        water[t] = s.water_frac;
        json_array_append_new(
            gaps,
            json_pack("{s:f,s:f,s:f,s:f,s:f,s:s,s:i,s:i}", "left_m", s.stud_gap_m[0], "right_m",
                      s.stud_gap_m[1], "bottom_m", s.plate_gap_m[0], "top_m", s.plate_gap_m[1],
                      "face_m", s.face_gap_m, "face_side", s.face_gap_is_inner ? "room" : "outside",
                      "cracks_across", s.across_count, "cracks_along", s.along_count));
    }
    json_object_set_new(out, "years", age_array(c->years, c->times, 1));
    json_object_set_new(out, "water_frac", age_array(water, c->times, 1));
    for (int m = 0; m < METRICS; m++) {
        json_object_set_new(out, metric_names[m], age_array(&values[0][m], c->times, METRICS));
    }
    json_object_set_new(out, "gaps", gaps);
    json_object_set_new(out, "cracks_across", cracks_of(s.across, s.across_count));
    json_object_set_new(out, "cracks_along", cracks_of(s.along, s.along_count));
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
        err.status = pb_foam_check(&c.foam, &err);
    }
    if (err.status != PB_OK) {
        return cli_report(&err);
    }
    json_t *result = json_object();
    describe(&c, result);
    put_states(&c, result);
    if (o->spread > 0) {
        AgeSpread spread = {o->spread, c.times, METRICS, metric_names, draw, &c};
        return age_spread_print(o, &spread, result);
    }
    return age_print(result, o->json);
}
