/* Exercise files: the shipped ones, round trips, and a refusal for every rule of the format. */
#include "io/exercise_file.h"

#include "core/format_rows.h"
#include "suite.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

static PbStatus parse_json(json_t *json, PbExercise *e, PbError *err)
{
    char *text = json_dumps(json, JSON_REAL_PRECISION(17));
    PbStatus status = io_exercise_parse("bay.json", text, strlen(text), e, err);
    free(text);
    return status;
}

/* The default exercise with everything in it. */
static PbExercise full(void)
{
    PbExercise e = pb_exercise_default();
    e.obstacles[0] = (PbObstacle){PB_OBSTACLE_BLOCK, 0.0, 1.2, 0.2, 1.24, 0.0, 1.0};
    e.obstacles[1] = (PbObstacle){PB_OBSTACLE_CABLE, 0.3, 0.0, 0.3, 2.35, 0.01, 0.2};
    e.obstacles[2] = (PbObstacle){PB_OBSTACLE_BRACE, 0.0, 1.3, 0.3, 2.0, 0.1, 0.25};
    e.obstacle_count = 3;
    e.openings[0] = (PbOpening){0.0, 0.3, 0.06, 0.4, 3e-4, 0.008, "outlet box"};
    e.opening_count = 1;
    e.board_pitch_m = 0.0; /* means "spread evenly", and is not the default */
    snprintf(e.must_not_fill, sizeof e.must_not_fill, "A flue stands in it.");
    e.leave_kg = 0.5;
    e.wall = pb_wall_usual();
    return e;
}

START_TEST(reads_back_what_it_writes)
{
    PbExercise e = full(), back;
    PbError err;
    json_t *json = io_exercise_to_json(&e);
    memset(&back, 0x55, sizeof back);
    ck_assert_msg(parse_json(json, &back, &err) == PB_OK, "%s", err.message);
    json_t *again = io_exercise_to_json(&back);
    ck_assert(json_equal(json, again));
    ck_assert_mem_eq(&e.machine, &back.machine, sizeof e.machine);
    ck_assert_mem_eq(e.obstacles[2].y1_m == 2.0 ? &e.obstacles[2] : NULL, &back.obstacles[2],
                     sizeof e.obstacles[2]);
    ck_assert_double_eq(back.board_pitch_m, 0.0);
    ck_assert_double_eq(back.leak75_m3_s_m2, e.leak75_m3_s_m2);
    ck_assert_str_eq(back.openings[0].place, "outlet box");
    ck_assert_mem_eq(&back.wall, &e.wall, sizeof e.wall);
    json_decref(json);
    json_decref(again);
}
END_TEST

/* Files from before there were layers have the simple wall, and layers are no part of what makes
 * two exercises the same one: no run hangs on them. */
START_TEST(layers_are_apart_from_the_exercise)
{
    PbExercise plain = pb_exercise_default(), clad = plain;
    PbError err = {0};
    char field[96] = "";
    json_t *json = io_exercise_to_json(&plain);
    ck_assert_ptr_null(json_object_get(json, "wall"));
    json_decref(json);
    clad.wall = pb_wall_usual();
    ck_assert_uint_eq(io_exercise_hash(&plain), io_exercise_hash(&clad));
    clad.wall.layer[PB_WALL_SHEATHING] = clad.wall.layer[PB_WALL_CLADDING] = 0;
    ck_assert_int_eq(pb_exercise_check(&clad, field, sizeof field, &err), PB_ERR_RANGE);
    ck_assert_str_eq(field, "wall/cladding");
}
END_TEST

START_TEST(ships_the_default_as_a_file)
{
    PbExercise e, d = pb_exercise_default();
    PbError err = {0};
    ck_assert_msg(
        io_exercise_load(PB_TEST_SOURCE_DIR "/assets/exercises/plain-2x4.json", &e, &err) == PB_OK,
        "%d:%d %s", err.line, err.column, err.message);
    json_t *a = io_exercise_to_json(&e), *b = io_exercise_to_json(&d);
    ck_assert(json_equal(a, b));
    json_decref(a);
    json_decref(b);
}
END_TEST

START_TEST(reads_every_shipped_exercise)
{
    const char *folder = PB_TEST_SOURCE_DIR "/assets/exercises";
    DIR *dir = opendir(folder);
    struct dirent *entry;
    int count = 0;
    ck_assert_ptr_nonnull(dir);
    while ((entry = readdir(dir)) != NULL) {
        char path[600];
        PbExercise e;
        PbError err = {0};
        size_t n = strlen(entry->d_name);
        if (n < 6 || strcmp(entry->d_name + n - 5, ".json") != 0) {
            continue;
        }
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        ck_assert_msg(io_exercise_load(path, &e, &err) == PB_OK, "%s:%d:%d: %s", path, err.line,
                      err.column, err.message);
        ck_assert_msg(strncmp(e.id, entry->d_name, n - 5) == 0 && e.id[n - 5] == '\0',
                      "%s has the id %s", path, e.id);
        ck_assert_msg(e.caution_count > 0, "%s gives no caution", path);
        count++;
    }
    closedir(dir);
    ck_assert_int_ge(count, 17);
}
END_TEST

/* Every number: text, nothing, and both sides of its range. */
/* What a bay is, not what is said of it nor where it stands in the course. */
START_TEST(the_hash_is_of_the_bay_alone)
{
    PbExercise e = full(), bay = full();
    uint64_t hash = io_exercise_hash(&e);
    ck_assert_uint_ne(hash, 0);
    snprintf(e.title, sizeof e.title, "Another title");
    snprintf(e.teaches, sizeof e.teaches, "Something else.");
    snprintf(e.must_not_fill, sizeof e.must_not_fill, "For another reason.");
    e.caution_count = 0;
    ck_assert_uint_eq(io_exercise_hash(&e), hash);
    e.level = 3.0;
    ck_assert_uint_eq(io_exercise_hash(&e), hash);
    e.order = 7.0;
    ck_assert_uint_eq(io_exercise_hash(&e), hash);
    e.must_not_fill[0] = '\0'; /* to be filled now */
    ck_assert_uint_ne(io_exercise_hash(&e), hash);
    bay.openings[0].y1_m += 0.001;
    ck_assert_uint_ne(io_exercise_hash(&bay), hash);
}
END_TEST

START_TEST(refuses_each_number_out_of_range)
{
    size_t count;
    const PbNumberRow *rows = pb_exercise_rows(&count);
    for (size_t i = 0; i < count; i++) {
        const PbNumberRow *row = &rows[i];
        json_t *bad[] = {json_string("wide"),
                         json_null(),
                         json_true(),
                         json_array(),
                         json_real(row->high + 1e-3),
                         json_real(row->low - 1e-3)};
        for (size_t k = 0; k < sizeof bad / sizeof bad[0]; k++) {
            PbExercise d = full(), e;
            PbError err = {0};
            memset(&e, 0x55, sizeof e);
            json_t *json = io_exercise_to_json(&d);
            json_object_set_new(json_object_get(json, row->section), row->key, bad[k]);
            PbStatus status = parse_json(json, &e, &err);
            ck_assert_msg(status == (k < 4 ? PB_ERR_FORMAT : PB_ERR_RANGE), "%s %zu: %d %s",
                          row->key, k, status, err.message);
            ck_assert_msg(strstr(err.message, row->key) != NULL, "%s", err.message);
            ck_assert_int_eq(err.line, 1);
            ck_assert_int_gt(err.column, 1);
            ck_assert_int_eq(((unsigned char *)&e)[0], 0x55);
            json_decref(json);
        }
    }
}
END_TEST

/* path of the object in the file, key, value as JSON (NULL = removed), words of the complaint */
static const struct {
    const char *object, *key, *value, *says;
} refusals[] = {
    {"", "format", "\"pullback exercise 2\"", "expected \"format\": \"pullback exercise 1\""},
    {"", "format", NULL, "\"format\" is missing"},
    {"", "id", "\"Plain Bay\"", "lower-case"},
    {"", "id", "\"\"", "lower-case"},
    {"", "title", "\"\"", "expected some text"},
    {"", "title", "\"two\\nlines\"", "without control characters"},
    {"", "title", "\"nialp \\u202e\"", "without invisible or direction-changing characters"},
    {"", "title", "\"a\\u200bbay\"", "without invisible or direction-changing characters"},
    {"", "titel", "\"x\"", "unknown key \"titel\""},
    {"", "bay", NULL, "\"bay\" is missing"},
    {"", "bay", "[]", "\"bay\": expected an object"},
    {"course", "level", "1.5", "\"level\": 1.5, expected a whole number"},
    {"course", "order", "2.5", "\"order\": 2.5, expected a whole number"},
    {"course", "order", "0", "expected both level and order, or neither"},
    {"", "must_not_fill", "3", "\"must_not_fill\": expected text"},
    {"", "must_not_fill", NULL, "only a bay with \"must_not_fill\" has one"},
    {"", "cautions", "[\"\"]", "caution 1: expected some text"},
    {"", "cautions", "[7]", "\"caution\": expected text"},
    {"", "cautions", "[\"a\",\"a\",\"a\",\"a\",\"a\",\"a\",\"a\"]", "list [ ... ] of 0 to 6"},
    {"bay", "width_m", NULL, "\"width_m\" is missing"},
    {"bay", "widht_m", "0.4", "unknown key \"widht_m\""},
    {"finish", "kind", "\"glass\"", "expected one of \"gypsum-12.7\""},
    {"finish", "kind", NULL, "\"kind\" is missing"},
    {"goal", "climate", "\"../cold\"", "lower-case"},
    {"hole", "x_m", "0.02", "the hole is outside the bay, expected 0.03175 to"},
    {"hole", "x_m", "0.35", "the hole is outside the bay"},
    {"hole", "y_m", "2.34", "the hole is outside the bay"},
    {"hole", "y_m", "1.22", "the hole meets obstacle 1 (a block)"},
    {"machine", "tube_outer_m", "0.029", "expected more than the bore"},
    {"machine", "tube_outer_m", "0.07", "does not go into the hole"},
    {"machine", "feed_kg_s", "0.1", "more than the gate gives"},
    {"", "obstacles", "[[]]", "expected an obstacle"},
    {"obstacles/0", "kind", "\"rock\"", "expected one of \"block\""},
    {"obstacles/0", "x1_m", "0.4", "outside the bay, expected 0 to 0.368"},
    {"obstacles/0", "y1_m", "2.4", "outside the bay, expected 0 to 2.35"},
    {"obstacles/0", "y1_m", "1.1", "y0_m below y1_m"},
    {"obstacles/0", "x1_m", "0", "x0_m below x1_m"},
    {"obstacles/0", "size_m", "0.02", "a block has none"},
    {"obstacles/0", "depth_frac", "0", "out of range"},
    {"obstacles/0", "x1_m", "0.3", "this cable overlaps obstacle 1 (a block)"},
    {"obstacles/1", "size_m", NULL, "a cable needs its thickness"},
    {"obstacles/1", "y1_m", "0.005", "at least 0.01 m long"},
    {"obstacles/2", "depth_frac", "0.9", "this brace overlaps obstacle 2 (a cable)"},
    {"obstacles/2", "turn", "1", "unknown key \"turn\""},
    {"openings/0", "width_m", "0.03", "has more than"},
    {"openings/0", "x1_m", "0.5", "outside the bay"},
    {"openings/0", "y1_m", "0.2", "y0_m up to y1_m"},
    {"openings/0", "place", "\"\"", "expected some text"},
};

static json_t *object_at(json_t *json, const char *path)
{
    char name[32];
    unsigned index;
    if (path[0] == '\0') {
        return json;
    }
    if (sscanf(path, "%31[a-z]/%u", name, &index) == 2) {
        return json_array_get(json_object_get(json, name), index);
    }
    return json_object_get(json, path);
}

START_TEST(refuses_by_every_rule)
{
    PbExercise d = full(), e;
    PbError err = {0};
    json_t *json = io_exercise_to_json(&d);
    json_t *object = object_at(json, refusals[_i].object);
    if (refusals[_i].value == NULL) {
        json_object_del(object, refusals[_i].key);
    } else {
        json_object_set_new(object, refusals[_i].key,
                            json_loads(refusals[_i].value, JSON_DECODE_ANY, NULL));
    }
    PbStatus status = parse_json(json, &e, &err);
    ck_assert_msg(status == PB_ERR_RANGE || status == PB_ERR_FORMAT, "accepted: %s",
                  refusals[_i].says);
    ck_assert_msg(strstr(err.message, refusals[_i].says) != NULL, "said: %s", err.message);
    ck_assert_int_eq(err.line, 1);
    json_decref(json);
}
END_TEST

START_TEST(points_at_the_value)
{
    PbExercise e;
    PbError err = {0};
    static const char text[] =
        "{\"format\": \"pullback exercise 1\", \"id\": \"a\", \"title\": \"A\",\n"
        " \"bay\": {\"width_m\": 0.4, \"height_m\": 2.4, \"depth_m\": 0.1},\n"
        " \"leaks\": {\"leak75_m3_s_m2\": 0.01},\n"
        " \"finish\": {\"kind\": \"plaster\"},\n"
        " \"hole\": {\"x_m\": 0.2, \"y_m\": 0.5},\n"
        " \"obstacles\": [\n"
        "  {\"kind\": \"block\", \"x0_m\": 0, \"y0_m\": 1, \"x1_m\": 0.2,\n"
        "   \"y1_m\": 3.5, \"depth_frac\": 1}]}";
    ck_assert_int_eq(io_exercise_parse("bay.json", text, strlen(text), &e, &err), PB_ERR_RANGE);
    ck_assert_int_eq(err.line, 8);
    ck_assert_int_eq(err.column, 12);
    ck_assert_str_eq(err.file, "bay.json");
}
END_TEST

START_TEST(checks_numbers_that_no_file_can_hold)
{
    PbExercise e = full();
    char field[64];
    PbError err;
    double nan_value = 0.0;
    nan_value = nan_value / nan_value;
    ck_assert_int_eq(pb_exercise_check(&e, field, sizeof field, &err), PB_OK);
    e.obstacles[1].x0_m = nan_value;
    ck_assert_int_eq(pb_exercise_check(&e, field, sizeof field, &err), PB_ERR_RANGE);
    ck_assert_str_eq(field, "obstacles/1/x0_m");
    e = full();
    e.obstacle_count = PB_MAX_OBSTACLES + 1;
    ck_assert_int_eq(pb_exercise_check(&e, field, sizeof field, NULL), PB_ERR_RANGE);
    e = full();
    e.finish = (PbFinish)17;
    ck_assert_int_eq(pb_exercise_check(&e, field, sizeof field, NULL), PB_ERR_RANGE);
    e = full();
    e.machine.static_pa = nan_value;
    ck_assert_int_eq(pb_exercise_check(&e, field, 6, NULL), PB_ERR_RANGE);
    ck_assert_str_eq(field, "machi");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("exercise_file");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, reads_back_what_it_writes);
    tcase_add_test(tc, layers_are_apart_from_the_exercise);
    tcase_add_test(tc, ships_the_default_as_a_file);
    tcase_add_test(tc, reads_every_shipped_exercise);
    tcase_add_test(tc, the_hash_is_of_the_bay_alone);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, refuses_each_number_out_of_range);
    tcase_add_loop_test(tc, refuses_by_every_rule, 0, (int)(sizeof refusals / sizeof refusals[0]));
    tcase_add_test(tc, points_at_the_value);
    tcase_add_test(tc, checks_numbers_that_no_file_can_hold);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
