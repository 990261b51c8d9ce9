/* The range tables: every row judges as it says, and the documentation says the same. */
#include "core/format_rows.h"

#include "io/exercise_file.h"
#include "io/hands_file.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef const PbNumberRow *(*RowsOf)(size_t *count);

static const struct {
    RowsOf rows;
    const char *doc;
} tables[] = {
    {pb_exercise_rows, "exercise.md"}, {pb_obstacle_rows, "exercise.md"},
    {pb_opening_rows, "exercise.md"},  {pb_hands_rows, "hands.md"},
    {pb_pass_rows, "hands.md"},
};

START_TEST(judges_each_number_by_its_range)
{
    size_t count;
    const PbNumberRow *rows = tables[_i].rows(&count);
    for (size_t i = 0; i < count; i++) {
        const PbNumberRow *r = &rows[i];
        ck_assert_msg(r->low < r->high, "%s", r->key);
        ck_assert(pb_row_allows(r, r->low));
        ck_assert(pb_row_allows(r, r->high));
        ck_assert(!pb_row_allows(r, r->high * 1.000001));
        ck_assert(!pb_row_allows(r, r->low - 1e-9));
        ck_assert(!pb_row_allows(r, (double)NAN));
        ck_assert(!pb_row_allows(r, (double)INFINITY));
        ck_assert_int_eq(pb_row_allows(r, 0.0), r->is_zero_allowed || r->low <= 0.0);
    }
}
END_TEST

START_TEST(names_the_first_value_refused)
{
    size_t count;
    const PbNumberRow *rows = pb_obstacle_rows(&count);
    PbObstacle o = {PB_OBSTACLE_PIPE, 0.1, 0.1, 0.1, 9.0, 0.02, 1.5};
    char field[64];
    PbError err = {0};
    ck_assert_int_eq(pb_rows_check(rows, count, &o, "obstacles/2", field, sizeof field, &err),
                     PB_ERR_RANGE);
    ck_assert_str_eq(field, "obstacles/2/y1_m");
    ck_assert_str_eq(err.message, "\"y1_m\": 9 is out of range, expected 0 to 6 m");
    o.y1_m = 1.0;
    o.depth_frac = 1.0;
    ck_assert_int_eq(pb_rows_check(rows, count, &o, "obstacles/2", field, sizeof field, &err),
                     PB_OK);
}
END_TEST

START_TEST(stands_in_the_documentation)
{
    char path[512], line[256];
    char *text;
    size_t size, count;
    PbError err;
    const PbNumberRow *rows = tables[_i].rows(&count);
    snprintf(path, sizeof path, "%s/docs/formats/%s", PB_TEST_SOURCE_DIR, tables[_i].doc);
    ck_assert_int_eq(io_read_file(path, 1u << 20, &text, &size, &err), PB_OK);
    for (size_t i = 0; i < count; i++) {
        const PbNumberRow *r = &rows[i];
        snprintf(line, sizeof line, "| `%s%s%s` | %s%g to %g %s | %s |", r->section,
                 r->section[0] ? "/" : "", r->key, r->is_zero_allowed ? "0, or " : "", r->low,
                 r->high, r->unit, r->is_required ? "required" : "");
        ck_assert_msg(strstr(text, line) != NULL, "%s lacks: %s", path, line);
    }
    free(text);
}
END_TEST

/* What the page gives as the default of a row is what a file that leaves it out is read with. */
static void check_defaults(const char *doc, const PbNumberRow *rows, size_t count, const void *read)
{
    char path[512], head[96], says[48];
    char *text;
    size_t size;
    PbError err;
    snprintf(path, sizeof path, "%s/docs/formats/%s", PB_TEST_SOURCE_DIR, doc);
    ck_assert_int_eq(io_read_file(path, 1u << 20, &text, &size, &err), PB_OK);
    for (size_t i = 0; i < count; i++) {
        const PbNumberRow *r = &rows[i];
        double value;
        if (r->is_required) {
            continue;
        }
        memcpy(&value, (const char *)read + r->offset, sizeof value);
        snprintf(head, sizeof head, "\n| `%s%s%s` |", r->section, r->section[0] ? "/" : "", r->key);
        snprintf(says, sizeof says, "default %g |", value);
        const char *row = strstr(text, head);
        ck_assert_msg(row != NULL, "%s lacks %s", doc, head);
        const char *found = strstr(row, says), *end = strchr(row + 1, '\n');
        ck_assert_msg(found != NULL && found < end, "%s, %s: expected \"%s\"", doc, r->key, says);
    }
    free(text);
}

START_TEST(stands_with_its_defaults_in_the_documentation)
{
    static const char bay[] =
        "{\"format\": \"pullback exercise 1\", \"id\": \"a\", \"title\": \"A\","
        " \"bay\": {\"width_m\": 0.4, \"height_m\": 2.4, \"depth_m\": 0.1},"
        " \"leaks\": {\"leak75_m3_s_m2\": 0.01}, \"finish\": {\"kind\": \"plaster\"},"
        " \"hole\": {\"x_m\": 0.2, \"y_m\": 0.5}}";
    static const char rule[] =
        "{\"format\": \"pullback hands 1\", \"name\": \"n\", \"pull\": \"stall\","
        " \"passes\": [{\"direction\": \"up\", \"first_m\": 2, \"last_m\": 1}]}";
    PbExercise e;
    static PbHands h;
    PbError err = {0};
    size_t count;
    const PbNumberRow *rows = pb_exercise_rows(&count);
    ck_assert_msg(io_exercise_parse("a", bay, strlen(bay), &e, &err) == PB_OK, "%s", err.message);
    check_defaults("exercise.md", rows, count, &e);
    rows = pb_hands_rows(&count);
    ck_assert_msg(io_hands_parse("a", rule, strlen(rule), &h, &err) == PB_OK, "%s", err.message);
    check_defaults("hands.md", rows, count, &h);
}
END_TEST

int main(void)
{
    const int n = (int)(sizeof tables / sizeof tables[0]);
    Suite *s = suite_create("format_rows");
    TCase *tc = tcase_create("normal");
    tcase_add_loop_test(tc, judges_each_number_by_its_range, 0, n);
    tcase_add_test(tc, names_the_first_value_refused);
    tcase_add_loop_test(tc, stands_in_the_documentation, 0, n);
    tcase_add_test(tc, stands_with_its_defaults_in_the_documentation);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
