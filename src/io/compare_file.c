/* A comparison as tables for programs. All SI; sentences in the reader's language and units. */
#include "io/compare_file.h"

#include "io/air_words.h"
#include "io/compare_words.h"
#include "io/house_file.h"
#include "io/moist_words.h"
#include "io/saving_words.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

/* Figures by name: one list for both formats. */
typedef struct Row {
    const char *key;
    size_t offset;
} Row;

static const Row ranges[] = {
    {"r_m2k_w", offsetof(PbCompareFigures, r_m2k_w)},
    {"heat_ratio", offsetof(PbCompareFigures, heat_ratio)},
    {"top_gap_m", offsetof(PbCompareFigures, top_gap_m)},
    {"shrink_frac", offsetof(PbCompareFigures, shrink_frac)},
    {"heat_kwh", offsetof(PbCompareFigures, heat_kwh)},
    {"cost", offsetof(PbCompareFigures, cost)},
};
static const Row numbers[] = {
    {"stud_gap_m", offsetof(PbCompareFigures, stud_gap_m)},
    {"face_gap_m", offsetof(PbCompareFigures, face_gap_m)},
    {"mean_kg_m3", offsetof(PbCompareFigures, mean_kg_m3)},
    {"least_kg_m3", offsetof(PbCompareFigures, least_kg_m3)},
    {"void_area_m2", offsetof(PbCompareFigures, void_area_m2)},
    {"inner_void_area_m2", offsetof(PbCompareFigures, inner_void_area_m2)},
    {"surface_min_c", offsetof(PbCompareFigures, surface_min_c)},
    {"surface_max_c", offsetof(PbCompareFigures, surface_max_c)},
    {"cold_m2", offsetof(PbCompareFigures, cold_m2)},
};
static const Row flags[] = {
    {"has_loop", offsetof(PbCompareFigures, has_loop)},
    {"has_voids", offsetof(PbCompareFigures, has_voids)},
    {"is_blown_out", offsetof(PbCompareFigures, is_blown_out)},
};
enum {
    RANGES = sizeof ranges / sizeof ranges[0],
    NUMBERS = sizeof numbers / sizeof numbers[0],
    FLAGS = sizeof flags / sizeof flags[0]
};

static const void *at(const PbCompareFigures *f, const Row *row)
{
    return (const char *)f + row->offset;
}

static PbHeatRange range_at(const PbCompareFigures *f, const Row *row)
{
    PbHeatRange r;
    memcpy(&r, at(f, row), sizeof r);
    return r;
}

static double number_at(const PbCompareFigures *f, const Row *row)
{
    double v;
    memcpy(&v, at(f, row), sizeof v);
    return v;
}

static int flag_at(const PbCompareFigures *f, const Row *row)
{
    int v;
    memcpy(&v, at(f, row), sizeof v);
    return v;
}

static int put(json_t *o, const char *key, json_t *value)
{
    return json_object_set_new(o, key, value);
}

static json_t *range_json(PbHeatRange r)
{
    return json_pack("{s:f,s:f,s:f}", "low", r.low, "mid", r.mid, "high", r.high);
}

static const Row saved_ranges[] = {
    {"wall_units", offsetof(PbCompareSaving, wall_units)},
    {"wall_share", offsetof(PbCompareSaving, wall_share)},
    {"heat_kwh", offsetof(PbCompareSaving, heat_kwh)},
    {"units", offsetof(PbCompareSaving, units)},
    {"by_conduction_units", offsetof(PbCompareSaving, solid_units)},
    {"by_air_units", offsetof(PbCompareSaving, air_units)},
    {"cool_kwh", offsetof(PbCompareSaving, cool_kwh)},
    {"money", offsetof(PbCompareSaving, money)},
    {"payback_years", offsetof(PbCompareSaving, payback_years)},
};
enum { SAVED_RANGES = sizeof saved_ranges / sizeof saved_ranges[0], SAVED_OF_WALLS = 2 };

static PbHeatRange saved_at(const PbCompareSaving *s, const Row *row)
{
    PbHeatRange r;
    memcpy(&r, (const char *)s + row->offset, sizeof r);
    return r;
}

/* What is held back is not in the file either; years that never come are null. */
static json_t *saved_json(const PbCompare *c, PbCompareFill fill, int t, IoReaderTaste taste)
{
    const PbHouse *h = &pb_compare_setup(c)->house;
    PbCompareSaving s;
    char sentence[500];
    json_t *o = json_object();
    pb_compare_saving(c, fill, t, &s);
    int is_held = io_saving_is_held(&s);
    int failed = put(o, "is_held_back", json_boolean(is_held));
    failed |= put(o, "draws", json_integer(s.draws));
    failed |= put(o, "kept", json_integer(s.kept));
    failed |= put(o, "better", json_integer(s.better));
    for (int i = 0; i < (is_held ? SAVED_OF_WALLS : SAVED_RANGES); i++) {
        PbHeatRange r = saved_at(&s, &saved_ranges[i]);
        json_t *v = json_object();
        failed |= put(v, "low", isfinite(r.low) ? json_real(r.low) : json_null());
        failed |= put(v, "mid", isfinite(r.mid) ? json_real(r.mid) : json_null());
        failed |= put(v, "high", isfinite(r.high) ? json_real(r.high) : json_null());
        failed |= put(o, saved_ranges[i].key, v);
    }
    io_saving_sentence(fill, &s, h, taste, sentence, sizeof sentence);
    failed |= put(o, "unit", json_string(io_fuel_unit(h, WORDS_ENGLISH)));
    failed |= put(o, "bill_units", json_real(s.bill_units));
    failed |= put(o, "sentence", json_string(sentence));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static const Row air_ranges[] = {
    {"house_50_m3_s", offsetof(PbCompareAir, house_50_m3_s)},
    {"house_m3_s", offsetof(PbCompareAir, house_m3_s)},
    {"share", offsetof(PbCompareAir, share)},
    {"cut", offsetof(PbCompareAir, cut)},
    {"walls_50_m3_s", offsetof(PbCompareAir, walls_50_m3_s)},
    {"walls_m3_s", offsetof(PbCompareAir, walls_m3_s)},
    {"heat_kwh", offsetof(PbCompareAir, heat_kwh)},
};
enum { AIR_RANGES = sizeof air_ranges / sizeof air_ranges[0] };

static PbHeatRange air_at(const PbCompareAir *a, const Row *row)
{
    PbHeatRange r;
    memcpy(&r, (const char *)a + row->offset, sizeof r);
    return r;
}

/* null where the house's air is not known. */
static json_t *air_json(const PbCompare *c, PbCompareFill fill, int t, IoReaderTaste taste)
{
    PbCompareAir a;
    char sentence[500];
    pb_compare_air(c, fill, t, &a);
    if (!a.is_known || !a.is_ready) {
        return json_null();
    }
    json_t *o = json_object();
    int failed = put(o, "is_measured", json_boolean(a.is_measured));
    for (int i = 0; i < AIR_RANGES; i++) {
        failed |= put(o, air_ranges[i].key, range_json(air_at(&a, &air_ranges[i])));
    }
    io_air_sentence(fill, &a, taste, sentence, sizeof sentence);
    failed |= put(o, "sentence", json_string(sentence));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *time_json(const PbCompare *c, PbCompareFill fill, int t, IoReaderTaste taste)
{
    PbCompareSaying say = pb_compare_say(c, fill, t);
    const PbCompareFigures *f = &say.figures;
    char sentence[400];
    json_t *o = json_object();
    int failed = put(o, "years", json_real(f->years));
    for (int i = 0; i < RANGES; i++) {
        failed |= put(o, ranges[i].key, range_json(range_at(f, &ranges[i])));
    }
    for (int i = 0; i < NUMBERS; i++) {
        failed |= put(o, numbers[i].key, json_real(number_at(f, &numbers[i])));
    }
    for (int i = 0; i < FLAGS; i++) {
        failed |= put(o, flags[i].key, json_boolean(flag_at(f, &flags[i])));
    }
    io_compare_sentence(&say, taste, sentence, sizeof sentence);
    failed |= put(o, "says", json_string(io_says_key(say.says)));
    failed |= put(o, "beside", json_string(io_beside_key(say.beside)));
    failed |= put(o, "sentence", json_string(sentence));
    failed |= put(o, "saved", saved_json(c, fill, t, taste));
    failed |= put(o, "air", air_json(c, fill, t, taste));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *fills_json(const PbCompare *c, IoReaderTaste taste)
{
    json_t *list = json_array();
    int failed = 0;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        json_t *o = json_object(), *times = json_array();
        for (int t = 0; t < pb_compare_setup(c)->year_count; t++) {
            failed |= json_array_append_new(times, time_json(c, (PbCompareFill)f, t, taste));
        }
        failed |= put(o, "fill", json_string(io_fill_key((PbCompareFill)f)));
        failed |= put(o, "times", times); /* what cannot be put is gone: the inner one first */
        failed |= json_array_append_new(list, o);
    }
    if (failed) {
        json_decref(list);
        return NULL;
    }
    return list;
}

static json_t *assumed_json(const PbCompare *c, IoReaderTaste taste)
{
    const IoAssumedReader reader = {taste, pb_compare_setup(c)->house.currency,
                                    &pb_compare_setup(c)->house};
    static const char *const from[] = {"house", "climate", "case", "constant"};
    PbAssumed rows[PB_COMPARE_MAX_ROWS];
    int count = pb_compare_assumed(c, rows, PB_COMPARE_MAX_ROWS), failed = 0;
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        const PbAssumed *a = &rows[i];
        char label[256], value[256], source[256];
        json_t *o = json_object();
        io_assumed_words(a, &reader, label, value, source, sizeof label);
        failed |= put(o, "from", json_string(from[a->from]));
        failed |= put(o, "key", json_string(a->key));
        failed |= put(o, "label", json_string(label));
        failed |= put(o, "shown", json_string(value));
        if (a->text != NULL) {
            failed |= put(o, "value", json_string(a->text));
        } else {
            failed |= put(o, "value", json_real(a->value));
            failed |= put(o, "low", json_real(a->low));
            failed |= put(o, "high", json_real(a->high));
            failed |= put(o, "unit", json_string(a->unit));
        }
        failed |= put(o, "is_drawn", json_boolean(a->is_drawn));
        failed |= put(o, "source", json_string(a->source));
        failed |= json_array_append_new(list, o);
    }
    if (failed) {
        json_decref(list);
        return NULL;
    }
    return list;
}

static json_t *moist_json(PbCompareFill fill, const PbHouseMoist *m, IoReaderTaste taste)
{
    char sentence[500];
    json_t *o = json_object(), *months = json_array();
    int failed = 0;
    io_moist_sentence(fill, m, taste, sentence, sizeof sentence);
    for (int i = 0; i < PB_MOIST_MONTHS; i++) {
        failed |= json_array_append_new(months, json_real(m->mid.sum_g_m2[i]));
    }
    failed |= put(o, "fill", json_string(io_fill_key(fill)));
    failed |= put(o, "verdict", json_string(io_moist_key(m->verdict)));
    failed |= put(o, "draws", json_integer(m->draws));
    failed |= put(o, "wet", json_integer(m->wet));
    failed |= put(o, "stays_wet", json_integer(m->stays));
    failed |= put(o, "most_g_m2", range_json(m->most_g_m2));
    failed |= put(o, "months_g_m2", months);
    failed |= put(o, "is_at_back", json_boolean(m->place == PB_MOIST_AT_BACK));
    failed |= put(o, "has_mold_risk", json_boolean(m->has_mold_risk));
    failed |= put(o, "sentence", json_string(sentence));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *warning_json(PbDampWarning w, int language)
{
    return json_pack("{s:s,s:b,s:s}", "key", io_damp_key(w), "no_fill", w <= PB_WARN_LAST_NO_FILL,
                     "sentence", io_damp_warning(w, language));
}

/* Screening of each fill, and what holds of the warnings. */
static json_t *damp_json(const PbCompareSetup *s, IoReaderTaste taste)
{
    PbHouseMoist moist[PB_COMPARE_FILLS];
    int holds[PB_WARNINGS], failed = 0;
    json_t *o = json_object(), *fills = json_array(), *warnings = json_array();
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        pb_house_moist(&s->house, &s->constants, (PbCompareFill)f, s->draws, &moist[f]);
        failed |= json_array_append_new(fills, moist_json((PbCompareFill)f, &moist[f], taste));
    }
    pb_house_damp(&s->house, &s->constants, &moist[PB_COMPARE_EMPTY], &moist[PB_COMPARE_DENSE],
                  holds);
    for (int w = 0; w < PB_WARNINGS; w++) {
        if (holds[w]) {
            json_t *one = warning_json((PbDampWarning)w, taste.language);
            failed |= json_array_append_new(warnings, one);
        }
    }
    failed |= put(o, "fills", fills);
    failed |= put(o, "warnings", warnings);
    failed |= put(o, "note", json_string(io_moist_note(taste.language)));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

static json_t *texts_json(const char *(*text)(int, int), int count, int language)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        if (json_array_append_new(list, json_string(text(i, language))) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

json_t *io_compare_to_json(const PbCompare *c, IoReaderTaste taste, const char *const *folders,
                           int count)
{
    assert(c != NULL);
    const PbCompareSetup *s = pb_compare_setup(c);
    json_t *o = json_object();
    int failed = put(o, "format", json_string(IO_COMPARE_FORMAT));
    failed |= put(o, "house", io_house_to_json(&s->house, folders, count));
    failed |= put(o, "foam", json_string(io_foam_words[s->house.foam]));
    failed |= put(o, "loose", json_string(io_loose_words[s->house.loose]));
    failed |= put(o, "dense", json_string(io_dense_words[s->house.dense]));
    failed |= put(o, "draws", json_integer(s->draws));
    failed |= put(o, "perfect_r_m2k_w", range_json(pb_compare_perfect_r(c)));
    failed |= put(o, "fills", fills_json(c, taste));
    failed |= put(o, "moisture", damp_json(s, taste));
    failed |= put(o, "assumptions", assumed_json(c, taste));
    failed |= put(o, "notes", texts_json(io_compare_note, IO_COMPARE_NOTES, taste.language));
    failed |=
        put(o, "cautions", texts_json(io_compare_caution, IO_COMPARE_CAUTIONS, taste.language));
    if (failed) {
        json_decref(o);
        return NULL;
    }
    return o;
}

/* Empty cells where it is held back. */
static void csv_saved(FILE *out, const PbCompare *c, PbCompareFill fill, int t)
{
    PbCompareSaving s;
    const char *unit = io_fuel_unit(&pb_compare_setup(c)->house, WORDS_ENGLISH);
    pb_compare_saving(c, fill, t, &s);
    if (io_saving_is_held(&s)) {
        fprintf(out, ",,,,%s,,,", unit);
    } else {
        fprintf(out, ",%.10g,%.10g,%.10g,%s,%.10g,%.10g,%.10g", s.units.low, s.units.mid,
                s.units.high, unit, s.money.low, s.money.mid, s.money.high);
    }
}

/* Empty cells where the house's air is not known. */
static void csv_air(FILE *out, const PbCompare *c, PbCompareFill fill, int t)
{
    PbCompareAir a;
    pb_compare_air(c, fill, t, &a);
    for (int i = 0; i < AIR_RANGES; i++) {
        PbHeatRange r = air_at(&a, &air_ranges[i]);
        if (a.is_known && a.is_ready) {
            fprintf(out, ",%.10g,%.10g,%.10g", r.low, r.mid, r.high);
        } else {
            fputs(",,,", out);
        }
    }
}

PbStatus io_compare_csv(FILE *out, const PbCompare *c)
{
    assert(out != NULL && c != NULL);
    fprintf(out, IO_COMPARE_CSV_BEGINS);
    for (int i = 0; i < RANGES; i++) {
        fprintf(out, ",%s_low,%s,%s_high", ranges[i].key, ranges[i].key, ranges[i].key);
    }
    for (int i = 0; i < NUMBERS; i++) {
        fprintf(out, ",%s", numbers[i].key);
    }
    for (int i = 0; i < FLAGS; i++) {
        fprintf(out, ",%s", flags[i].key);
    }
    fprintf(out, ",says,beside,saved_low,saved,saved_high,saved_unit,saved_money_low,saved_money,"
                 "saved_money_high");
    for (int i = 0; i < AIR_RANGES; i++) {
        fprintf(out, ",air_%s_low,air_%s,air_%s_high", air_ranges[i].key, air_ranges[i].key,
                air_ranges[i].key);
    }
    fputs(",moisture,moisture_g_m2_low,moisture_g_m2,moisture_g_m2_high\n", out);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        const PbCompareSetup *s = pb_compare_setup(c);
        PbHouseMoist m;
        pb_house_moist(&s->house, &s->constants, (PbCompareFill)f, s->draws, &m);
        for (int t = 0; t < s->year_count; t++) {
            PbCompareSaying say = pb_compare_say(c, (PbCompareFill)f, t);
            fprintf(out, "%s,%.10g", io_fill_key((PbCompareFill)f), say.figures.years);
            for (int i = 0; i < RANGES; i++) {
                PbHeatRange r = range_at(&say.figures, &ranges[i]);
                fprintf(out, ",%.10g,%.10g,%.10g", r.low, r.mid, r.high);
            }
            for (int i = 0; i < NUMBERS; i++) {
                fprintf(out, ",%.10g", number_at(&say.figures, &numbers[i]));
            }
            for (int i = 0; i < FLAGS; i++) {
                fprintf(out, ",%d", flag_at(&say.figures, &flags[i]));
            }
            fprintf(out, ",%s,%s", io_says_key(say.says), io_beside_key(say.beside));
            csv_saved(out, c, (PbCompareFill)f, t);
            csv_air(out, c, (PbCompareFill)f, t);
            fprintf(out, ",%s,%.10g,%.10g,%.10g\n", io_moist_key(m.verdict), m.most_g_m2.low,
                    m.most_g_m2.mid, m.most_g_m2.high);
        }
    }
    return ferror(out) ? PB_ERR_IO : PB_OK;
}
