/* The file of distributions: the shipped one, refusals with their place; a drawn wall through its
 * file and back. */
#include "suite.h"

#include "io/eras_file.h"
#include "io/framing_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
static PbEra eras[PB_ERAS];
static PbFraming wall, back;
static char text[32768];

static void load(void)
{
    FILE *file = fopen(PB_TEST_SOURCE_DIR "/assets/walls/eras.json", "r");
    ck_assert_ptr_nonnull(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
}

static PbStatus parse(PbError *err)
{
    return io_eras_parse("eras.json", text, strlen(text), eras, err);
}

/* Puts `with` in place of the first `what`. */
static void replace(const char *what, const char *with)
{
    static char rest[sizeof text];
    char *at = strstr(text, what);
    ck_assert_ptr_nonnull(at);
    snprintf(rest, sizeof rest, "%s", at + strlen(what));
    snprintf(at, sizeof text - (size_t)(at - text), "%s%s", with, rest);
}

START_TEST(the_shipped_file_is_read)
{
    PbError err = {0};
    load();
    ck_assert_msg(parse(&err) == PB_OK, "%s", err.message);
    ck_assert_double_eq(eras[0].height_m, 2.74);
    ck_assert_double_eq(eras[3].depth_m, 0.089);
    ck_assert_double_eq(eras[1].stain_share, 0.05);
}
END_TEST

static const struct {
    const char *what, *with, *message;
    int line;
} REFUSALS[] = {
    {"pullback eras 1", "pullback eras 2", "expected \"format\": \"pullback eras 1\"", 2},
    {"1925", "1926", "1926 is out of range, expected 1925 to 1925", 3},
    {"[2.4, 2.4", "[2.4, 9", "9 is out of range, expected 1 to 6 m", 5},
    {"[2.4, 2.4, 2.4, 2.4]", "[2.4]", "\"values\": expected a list [ ... ] of 4 to 4 items", 5},
    {"\"height_m\"", "\"hight_m\"", "there is no row \"hight_m\"", 9},
    {"\"height_m\"", "\"length_low_m\"", "row \"length_low_m\" stands here twice", 9},
    {"assumption: a small bedroom's outside wall", "", "expected a source, or \"assumption\"", 6},
    {"\"source\"", "\"sauce\"", "\"source\" is missing", 5},
    {"[2.4, 2.4", "[5.9, 2.4", "1900: \"length_low_m\" is above \"length_high_m\"", 4},
};

START_TEST(complaints_point_at_the_place)
{
    PbError err = {0};
    load();
    replace(REFUSALS[_i].what, REFUSALS[_i].with);
    ck_assert_int_ne(parse(&err), PB_OK);
    ck_assert_msg(strstr(err.message, REFUSALS[_i].message) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, REFUSALS[_i].line);
}
END_TEST

START_TEST(a_missing_row_is_named)
{
    PbError err = {0};
    load();
    char *from = strstr(text, "    {\"name\": \"height_m\""),
         *to = strstr(text, "    {\"name\": \"spacing_m\"");
    memmove(from, to, strlen(to) + 1);
    ck_assert_int_ne(parse(&err), PB_OK);
    ck_assert_str_eq(err.message, "row \"height_m\" is missing");
}
END_TEST

/* Written with 15 digits and read back: the same wall, to the bit. */
START_TEST(a_drawn_wall_through_its_file)
{
    PbError err = {0};
    load();
    ck_assert_int_eq(parse(&err), PB_OK);
    for (uint64_t seed = 0; seed < 40; seed++) {
        pb_generate_wall(&eras[seed % PB_ERAS], pb_era_years[seed % PB_ERAS], seed, &wall);
        json_t *json = io_framing_to_json(&wall);
        char *written = json_dumps(json, JSON_REAL_PRECISION(17));
        ck_assert_msg(io_framing_parse("w", written, strlen(written), folders, 1, &back, &err) ==
                          PB_OK,
                      "%s", err.message);
        json_t *again = io_framing_to_json(&back); /* 17 digits are a double to its last bit */
        ck_assert_int_gt((int)json_array_size(json_object_get(json, "members")), 3);
        ck_assert(json_equal(json, again));
        json_decref(again);
        ck_assert_int_eq(wall.inside_count, back.inside_count);
        ck_assert_int_eq(wall.leave_count, back.leave_count);
        ck_assert_int_eq(wall.like.finish, back.like.finish);
        for (int n = 0; n < wall.leave_count; n++) {
            ck_assert_str_eq(wall.leave[n].why, back.leave[n].why);
            ck_assert_int_eq(wall.leave[n].reason, back.leave[n].reason);
        }
        free(written);
        json_decref(json);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("eras file");
    TCase *t = tcase_create("normal");
    tcase_add_test(t, the_shipped_file_is_read);
    tcase_add_loop_test(t, complaints_point_at_the_place, 0, sizeof REFUSALS / sizeof REFUSALS[0]);
    tcase_add_test(t, a_missing_row_is_named);
    tcase_add_test(t, a_drawn_wall_through_its_file);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
