/* The result of the age verb, put together key by key, for people (a table) and for programs
 * (JSON). */
#include "io/age_result.h"

#include "core/spread.h"
#include "core/units.h"
#include "io/doc.h"

#include <assert.h>
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

struct IoAgeResult {
    json_t *json;
};

/* Columns of the tables: a series of the result, in SI and, where trade uses them, US units. */
typedef struct Column {
    const char *key, *label;
    double factor;
    int decimals;
    double us_factor; /* 0: none */
    int us_decimals;
} Column;

static const Column table[] = {
    {"top_gap_m", "top gap mm (in)", 1000.0, 1, 1.0 / PB_M_PER_IN, 2},
    {"void_area_m2", "void m2 (ft2)", 1.0, 4, 1.0 / (PB_M_PER_FT * PB_M_PER_FT), 2},
    {"worst_patch_kg_m3", "worst patch kg/m3 (lb/ft3)", 1.0, 1, 1.0 / PB_KG_M3_PER_LB_FT3, 2},
    {"grip_ratio", "grip ratio", 1.0, 2, 0.0, 0},
    {"effective_r_m2k_w", "effective R m2K/W (R-value)", 1.0, 3, 1.0 / PB_M2K_W_PER_R, 1},
    {"shrinkage_percent", "shrinkage %", 1.0, 2, 0.0, 0},
    {"stud_gap_m", "stud gap mm (in)", 1000.0, 1, 1.0 / PB_M_PER_IN, 2},
    {"plate_gap_m", "plate gap mm (in)", 1000.0, 1, 1.0 / PB_M_PER_IN, 2},
    {"face_gap_m", "face gap mm (in)", 1000.0, 1, 1.0 / PB_M_PER_IN, 2},
    {"widest_crack_m", "widest crack mm (in)", 1000.0, 1, 1.0 / PB_M_PER_IN, 2},
    {"open_area_frac", "open area %", 100.0, 1, 0.0, 0},
};
enum { COLUMNS = sizeof table / sizeof table[0] };

static void time_label(double years, char out[32])
{
    if (years < 0.08) {
        snprintf(out, 32, "%.3g d", years * PB_DAYS_PER_YEAR);
    } else if (years < 0.99) {
        snprintf(out, 32, "%.3g mo", years * 12.0);
    } else {
        snprintf(out, 32, "%.4g yr", years);
    }
}

static void print_cell(FILE *out, const json_t *series, size_t i, const Column *c, int width)
{
    const json_t *v = json_array_get(series, i);
    char text[96] = "-";
    if (json_is_number(v)) {
        double x = json_number_value(v);
        int n = snprintf(text, sizeof text, "%.*f", c->decimals, x * c->factor);
        if (c->us_factor > 0.0 && n > 0 && (size_t)n < sizeof text) {
            snprintf(text + n, sizeof text - (size_t)n, " (%.*f)", c->us_decimals,
                     x * c->us_factor);
        }
    }
    fprintf(out, "  %*s", width, text);
}

/* Every series of the result beside the times. */
static void print_series(FILE *out, const json_t *result, const json_t *years)
{
    fprintf(out, "%-9s", "after");
    for (int c = 0; c < COLUMNS; c++) {
        if (json_object_get(result, table[c].key) != NULL) {
            fprintf(out, "  %*s", (int)strlen(table[c].label), table[c].label);
        }
    }
    fprintf(out, "\n");
    for (size_t i = 0; i < json_array_size(years); i++) {
        char label[32];
        time_label(json_number_value(json_array_get(years, i)), label);
        fprintf(out, "%-9s", label);
        for (int c = 0; c < COLUMNS; c++) {
            const json_t *series = json_object_get(result, table[c].key);
            if (series != NULL) {
                print_cell(out, series, i, &table[c], (int)strlen(table[c].label));
            }
        }
        fprintf(out, "\n");
    }
}

/* One table a metric: the 10 % point, the median, the 90 % point. */
static void print_bands(FILE *out, const json_t *bands, const json_t *years)
{
    static const char *const points[] = {"p10", "median", "p90"};
    fprintf(out, "\nrange of %d draws (seed %d) over the constants that nobody knows well\n",
            (int)json_integer_value(json_object_get(bands, "draws")),
            (int)json_integer_value(json_object_get(bands, "seed")));
    for (int c = 0; c < COLUMNS; c++) {
        const json_t *band = json_object_get(bands, table[c].key);
        if (band == NULL) {
            continue;
        }
        fprintf(out, "%s\n%-9s  %16s  %16s  %16s\n", table[c].label, "after", "10 % below",
                "median", "90 % below");
        for (size_t i = 0; i < json_array_size(years); i++) {
            char label[32];
            time_label(json_number_value(json_array_get(years, i)), label);
            fprintf(out, "%-9s", label);
            for (int p = 0; p < 3; p++) {
                print_cell(out, json_object_get(band, points[p]), i, &table[c], 16);
            }
            fprintf(out, "\n");
        }
    }
}

static void print_number(FILE *out, const char *key, double value)
{
    size_t n = strlen(key);
    fprintf(out, "%s: %.6g", key, value);
    if (n > 6 && strcmp(key + n - 6, "_kg_m3") == 0) {
        fprintf(out, " (%.2f lb/ft3)", value / PB_KG_M3_PER_LB_FT3);
    } else if (n > 2 && strcmp(key + n - 2, "_m") == 0) {
        fprintf(out, " (%.4g in)", value / PB_M_PER_IN);
    }
    fprintf(out, "\n");
}

static void print_text(FILE *out, const json_t *result)
{
    const json_t *years = json_object_get(result, "years");
    const json_t *bands = json_object_get(result, "bands");
    const char *key;
    json_t *v;
    json_object_foreach((json_t *)(size_t)result, key, v)
    {
        if (json_is_string(v) && strcmp(key, "note") != 0) {
            fprintf(out, "%s: %s\n", key, json_string_value(v));
        } else if (json_is_number(v)) {
            print_number(out, key, json_number_value(v));
        } else if (json_is_null(v)) {
            fprintf(out, "%s: none\n", key);
        }
    }
    print_series(out, result, years);
    if (bands != NULL) {
        print_bands(out, bands, years);
    }
    const char *note = json_string_value(json_object_get(result, "note"));
    if (note != NULL) {
        fprintf(out, "note: %s\n", note);
    }
}

PbStatus io_age_print(FILE *out, const IoAgeResult *result, int as_json)
{
    int bad = 0;
    if (io_json_short()) {
        return PB_ERR_MEMORY; /* something in it is missing */
    }
    if (as_json) {
        bad = json_dumpf(result->json, out, JSON_COMPACT | JSON_REAL_PRECISION(10)) != 0;
        fprintf(out, "\n");
    } else {
        print_text(out, result->json);
    }
    bad |= fflush(out) != 0 || ferror(out);
    if (io_json_short()) {
        return PB_ERR_MEMORY;
    }
    return bad ? PB_ERR_IO : PB_OK;
}

IoAgeResult *io_age_new(const char *what)
{
    assert(what != NULL);
    IoAgeResult *r = malloc(sizeof *r);
    (void)io_json_short();
    if (r == NULL) {
        return NULL;
    }
    r->json = json_object();
    if (r->json == NULL) {
        free(r);
        return NULL;
    }
    io_age_text(r, "what", what);
    io_age_integer(r, "version", 1);
    return r;
}

void io_age_free(IoAgeResult *result)
{
    if (result != NULL) {
        json_decref(result->json);
        free(result);
    }
}

static json_t *number_or_null(double v)
{
    return isfinite(v) ? json_real(v) : json_null();
}

/* A list of numbers, one every stride; NaN and infinity become null. */
static json_t *age_array(const double *values, int count, int stride)
{
    json_t *array = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(array, number_or_null(values[(size_t)i * (size_t)stride]));
    }
    return array;
}

void io_age_text(IoAgeResult *result, const char *key, const char *text)
{
    assert(key != NULL && text != NULL);
    json_object_set_new(result->json, key, json_string(text));
}

void io_age_number(IoAgeResult *result, const char *key, double value)
{
    assert(key != NULL);
    json_object_set_new(result->json, key, number_or_null(value));
}

void io_age_integer(IoAgeResult *result, const char *key, long long value)
{
    assert(key != NULL);
    json_object_set_new(result->json, key, json_integer(value));
}

void io_age_series(IoAgeResult *result, const char *key, const double *values, int count,
                   int stride)
{
    assert(key != NULL && values != NULL);
    assert(count >= 0 && stride > 0);
    json_object_set_new(result->json, key, age_array(values, count, stride));
}

void io_age_items(IoAgeResult *result, const char *key, const char *const *names, int columns,
                  const double *values, int rows)
{
    assert(key != NULL && names != NULL);
    assert(columns > 0 && rows >= 0);
    json_t *list = json_array();
    for (int i = 0; i < rows; i++) {
        json_t *item = json_object();
        for (int c = 0; c < columns; c++) {
            json_object_set_new(item, names[c],
                                number_or_null(values[(size_t)i * (size_t)columns + (size_t)c]));
        }
        json_array_append_new(list, item);
    }
    json_object_set_new(result->json, key, list);
}

PbStatus io_age_bands(IoAgeResult *result, const IoAgeSamples *s)
{
    assert(s != NULL && s->values != NULL);
    double *column = malloc((size_t)s->draws * sizeof *column);
    if (column == NULL || s->times > IO_AGE_MAX_TIMES) {
        free(column);
        return PB_ERR_MEMORY;
    }
    json_t *bands = json_object();
    json_object_set_new(bands, "draws", json_integer(s->draws));
    json_object_set_new(bands, "seed", json_integer((json_int_t)s->seed));
    for (int m = 0; m < s->metrics; m++) {
        PbBand band[IO_AGE_MAX_TIMES];
        for (int t = 0; t < s->times; t++) {
            for (int d = 0; d < s->draws; d++) {
                size_t draw = (size_t)d * (size_t)s->times + (size_t)t;
                column[d] = s->values[draw * (size_t)s->metrics + (size_t)m];
            }
            band[t] = pb_spread_band(column, (size_t)s->draws);
        }
        json_t *at = json_object();
        json_object_set_new(at, "p10", age_array(&band[0].p10, s->times, 3));
        json_object_set_new(at, "median", age_array(&band[0].median, s->times, 3));
        json_object_set_new(at, "p90", age_array(&band[0].p90, s->times, 3));
        json_object_set_new(bands, s->names[m], at);
    }
    free(column);
    json_object_set_new(result->json, "bands", bands);
    return PB_OK;
}
