/* The result of the age verb for people (a table) and for programs (JSON). */
#include "age.h"
#include "verbs.h"

#include <string.h>

/* Columns of the table: a series of the result, how it is called, and its factor. */
static const struct {
    const char *key, *label;
    double factor;
    const char *format;
} columns[] = {
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
enum { COLUMNS = sizeof columns / sizeof columns[0] };

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
        snprintf(number, sizeof number, columns[c].format,
                 json_number_value(v) * columns[c].factor);
#pragma GCC diagnostic pop
        snprintf(out, 64, "%s", number);
    } else {
        snprintf(out, 64, "-");
    }
}

static void print_table(const json_t *result)
{
    const json_t *years = json_object_get(result, "years");
    const json_t *bands = json_object_get(result, "bands");
    printf("%-9s", "after");
    for (int c = 0; c < COLUMNS; c++) {
        if (json_object_get(result, columns[c].key) != NULL) {
            int banded = json_object_get(bands, columns[c].key) != NULL;
            printf("  %*s", banded ? 34 : 18, columns[c].label);
        }
    }
    printf("\n");
    for (size_t i = 0; i < json_array_size(years); i++) {
        char label[32];
        time_label(json_number_value(json_array_get(years, i)), label);
        printf("%-9s", label);
        for (int c = 0; c < COLUMNS; c++) {
            const json_t *series = json_object_get(result, columns[c].key);
            const json_t *band = json_object_get(bands, columns[c].key);
            char text[64], low[64], middle[64], high[64], all[288];
            if (series == NULL) {
                continue;
            }
            cell_text(series, i, c, text);
            if (band == NULL) {
                printf("  %18s", text);
                continue;
            }
            cell_text(json_object_get(band, "p10"), i, c, low);
            cell_text(json_object_get(band, "median"), i, c, middle);
            cell_text(json_object_get(band, "p90"), i, c, high);
            snprintf(all, sizeof all, "%s (%s .. %s .. %s)", text, low, middle, high);
            printf("  %34s", all);
        }
        printf("\n");
    }
}

static void print_text(const json_t *result)
{
    const char *key;
    json_t *v;
    json_object_foreach((json_t *)(size_t)result, key, v)
    {
        if (json_is_string(v) && strcmp(key, "note") != 0) {
            printf("%s: %s\n", key, json_string_value(v));
        } else if (json_is_number(v)) {
            printf("%s: %.6g\n", key, json_number_value(v));
        } else if (json_is_null(v)) {
            printf("%s: none\n", key);
        }
    }
    const json_t *bands = json_object_get(result, "bands");
    if (bands != NULL) {
        printf("in brackets: 10 %% .. median .. 90 %% of %d draws, seed %d\n",
               (int)json_integer_value(json_object_get(bands, "draws")),
               (int)json_integer_value(json_object_get(bands, "seed")));
    }
    print_table(result);
    printf("note: %s\n", json_string_value(json_object_get(result, "note")));
}

int age_print(json_t *result, int as_json)
{
    int bad = 0;
    if (as_json) {
        bad = json_dumpf(result, stdout, JSON_INDENT(1) | JSON_REAL_PRECISION(10)) != 0;
        printf("\n");
    } else {
        print_text(result);
    }
    bad |= fflush(stdout) != 0 || ferror(stdout);
    json_decref(result);
    return bad ? CLI_IO : CLI_DONE;
}
