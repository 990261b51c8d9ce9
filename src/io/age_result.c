/*
 * The result of the age verb, put together key by key, for people (a table) and for programs
 * (JSON). Shards of a spread are in age_shard.c.
 */
#include "age_result_private.h"

#include "core/spread.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Columns of the table: a series of the result, how it is called, and its factor. */
static const struct {
    const char *key, *label;
    double factor;
    const char *format;
} table[] = {
    {"top_gap_m", "top gap mm", 1000.0, "%.1f"},
    {"void_area_m2", "void m2", 1.0, "%.4f"},
    {"worst_patch_kg_m3", "worst patch kg/m3", 1.0, "%.1f"},
    {"grip_ratio", "grip ratio", 1.0, "%.2f"},
    {"effective_r_m2k_w", "effective R m2K/W", 1.0, "%.3f"},
    {"shrinkage_percent", "shrinkage %", 1.0, "%.2f"},
    {"stud_gap_m", "stud gap mm", 1000.0, "%.1f"},
    {"plate_gap_m", "plate gap mm", 1000.0, "%.1f"},
    {"face_gap_m", "face gap mm", 1000.0, "%.1f"},
    {"widest_crack_m", "widest crack mm", 1000.0, "%.1f"},
    {"open_area_frac", "open area %", 100.0, "%.1f"},
};
enum { COLUMNS = sizeof table / sizeof table[0] };

static void time_label(double years, char out[32])
{
    if (years < 0.08) {
        snprintf(out, 32, "%.3g d", years * 365.25);
    } else if (years < 0.99) {
        snprintf(out, 32, "%.3g mo", years * 12.0);
    } else {
        snprintf(out, 32, "%.4g yr", years);
    }
}

static void cell_text(const json_t *array, size_t i, int c, char out[64])
{
    const json_t *v = json_array_get(array, i);
    if (json_is_number(v)) {
        char number[32];
        /* the format is one of the table above */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
        snprintf(number, sizeof number, table[c].format, json_number_value(v) * table[c].factor);
#pragma GCC diagnostic pop
        snprintf(out, 64, "%s", number);
    } else {
        snprintf(out, 64, "-");
    }
}

static void print_table(FILE *out, const json_t *result)
{
    const json_t *years = json_object_get(result, "years");
    const json_t *bands = json_object_get(result, "bands");
    fprintf(out, "%-9s", "after");
    for (int c = 0; c < COLUMNS; c++) {
        if (json_object_get(result, table[c].key) != NULL) {
            int banded = json_object_get(bands, table[c].key) != NULL;
            fprintf(out, "  %*s", banded ? 34 : 18, table[c].label);
        }
    }
    fprintf(out, "\n");
    for (size_t i = 0; i < json_array_size(years); i++) {
        char label[32];
        time_label(json_number_value(json_array_get(years, i)), label);
        fprintf(out, "%-9s", label);
        for (int c = 0; c < COLUMNS; c++) {
            const json_t *series = json_object_get(result, table[c].key);
            const json_t *band = json_object_get(bands, table[c].key);
            char text[64], low[64], middle[64], high[64], all[288];
            if (series == NULL) {
                continue;
            }
            cell_text(series, i, c, text);
            if (band == NULL) {
                fprintf(out, "  %18s", text);
                continue;
            }
            cell_text(json_object_get(band, "p10"), i, c, low);
            cell_text(json_object_get(band, "median"), i, c, middle);
            cell_text(json_object_get(band, "p90"), i, c, high);
            snprintf(all, sizeof all, "%s (%s .. %s .. %s)", text, low, middle, high);
            fprintf(out, "  %34s", all);
        }
        fprintf(out, "\n");
    }
}

static void print_text(FILE *out, const json_t *result)
{
    const char *key;
    json_t *v;
    json_object_foreach((json_t *)(size_t)result, key, v)
    {
        if (json_is_string(v) && strcmp(key, "note") != 0) {
            fprintf(out, "%s: %s\n", key, json_string_value(v));
        } else if (json_is_number(v)) {
            fprintf(out, "%s: %.6g\n", key, json_number_value(v));
        } else if (json_is_null(v)) {
            fprintf(out, "%s: none\n", key);
        }
    }
    const json_t *bands = json_object_get(result, "bands");
    if (bands != NULL) {
        fprintf(out, "in brackets: 10 %% .. median .. 90 %% of %d draws, seed %d\n",
                (int)json_integer_value(json_object_get(bands, "draws")),
                (int)json_integer_value(json_object_get(bands, "seed")));
    }
    print_table(out, result);
    fprintf(out, "note: %s\n", json_string_value(json_object_get(result, "note")));
}

PbStatus io_age_print(FILE *out, const IoAgeResult *result, int as_json)
{
    int bad = 0;
    if (as_json) {
        bad = json_dumpf(result->json, out, JSON_INDENT(1) | JSON_REAL_PRECISION(10)) != 0;
        fprintf(out, "\n");
    } else {
        print_text(out, result->json);
    }
    bad |= fflush(out) != 0 || ferror(out);
    return bad ? PB_ERR_IO : PB_OK;
}

IoAgeResult *io_age_new(const char *what)
{
    IoAgeResult *r = malloc(sizeof *r);
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

json_t *age_array(const double *values, int count, int stride)
{
    json_t *array = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(array, number_or_null(values[(size_t)i * (size_t)stride]));
    }
    return array;
}

void io_age_text(IoAgeResult *result, const char *key, const char *text)
{
    json_object_set_new(result->json, key, json_string(text));
}

void io_age_number(IoAgeResult *result, const char *key, double value)
{
    json_object_set_new(result->json, key, number_or_null(value));
}

void io_age_integer(IoAgeResult *result, const char *key, long long value)
{
    json_object_set_new(result->json, key, json_integer(value));
}

void io_age_series(IoAgeResult *result, const char *key, const double *values, int count,
                   int stride)
{
    json_object_set_new(result->json, key, age_array(values, count, stride));
}

void io_age_items(IoAgeResult *result, const char *key, const char *const *names, int columns,
                  const double *values, int rows)
{
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
