/* Rubrics from JSON: defaults where nothing is said, every number by its name, refusals by place.
 */
#include "io/rubric_file.h"
#include "score/score_private.h"
#include "suite.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

static PbStatus parse(const char *text, PbRubric *r, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_rubric_parse("rubric.json", text, strlen(text), r, err);
}

START_TEST(what_is_left_out_is_as_in_the_default_rubric)
{
    PbRubric r, standard = pb_rubric_default();
    PbError err;
    ck_assert_int_eq(parse("{\"format\": \"pullback rubric 1\", \"name\": \"mine\"}", &r, &err),
                     PB_OK);
    ck_assert_str_eq(r.name, "mine");
    ck_assert_uint_eq(pb_rubric_hash(&r), pb_rubric_hash(&standard));
}
END_TEST

/* A file of the rules before said where nothing was left of material; half was left in the middle.
 */
START_TEST(the_end_of_a_line_becomes_its_middle)
{
    PbRubric r;
    PbError err;
    const char *old = "{\"format\": \"pullback rubric 2\", \"name\": \"mine\", \"limits\": "
                      "{\"material_free\": 0.1, \"material_zero\": 0.5}}";
    ck_assert_int_eq(parse(old, &r, &err), PB_OK);
    ck_assert_double_eq_tol(r.material_half, 0.3, 1e-12);
    ck_assert_int_eq(parse("{\"format\": \"pullback rubric 2\", \"name\": \"mine\", \"limits\": "
                           "{\"material_half\": 0.3, \"material_zero\": 0.5}}",
                           &r, &err),
                     PB_ERR_FORMAT);
}
END_TEST

enum { NUMBERS = (sizeof(PbRubric) - offsetof(PbRubric, weight)) / sizeof(double) };

/* The n-th number of a rubric: all that follows its name is numbers. */
static double *number(PbRubric *r, int n)
{
    return (double *)(void *)((char *)r + offsetof(PbRubric, weight)) + n;
}

/* A rubric that no number but this one tells from the default must not pass for it. */
START_TEST(every_number_is_in_the_hash_and_goes_both_ways)
{
    PbRubric r = pb_rubric_default(), back;
    PbError err;
    r.pass_score = 60.0;
    uint64_t before = pb_rubric_hash(&r);
    *number(&r, _i) = *number(&r, _i) > 0.0 ? 0.99 * *number(&r, _i) : 0.5;
    ck_assert_uint_ne(pb_rubric_hash(&r), before);
    json_t *json = io_rubric_to_json(&r);
    char *text = json_dumps(json, JSON_REAL_PRECISION(17));
    ck_assert_msg(parse(text, &back, &err) == PB_OK, "%s: %s", text, err.message);
    for (int n = 0; n < NUMBERS; n++) {
        ck_assert_double_eq(*number(&back, n), *number(&r, n));
    }
    free(text);
    json_decref(json);
}
END_TEST

/* Grades stand beside the hash of the rubric that gave them: it may not change under them. */
START_TEST(the_hash_of_a_rubric_is_what_kept_grades_say)
{
    PbRubric r = pb_rubric_default();
    ck_assert_uint_eq(pb_rubric_hash(&r), 0xb0b6eebb4c26fa62u);
    r.weight[PB_SCORE_HANDS] = 12.0;
    r.reach_m = 0.5;
    r.pass_score = 65.0;
    ck_assert_uint_eq(pb_rubric_hash(&r), 0xd7a3ae24beed006u);
}
END_TEST

START_TEST(a_number_that_came_later_counts_only_where_it_says_something)
{
    uint64_t h = 7;
    ck_assert_uint_eq(pb_rubric_later(h, "tidy", 0.0, 0.0), h);
    ck_assert_uint_ne(pb_rubric_later(h, "tidy", 5.0, 0.0), h);
    ck_assert_uint_ne(pb_rubric_later(h, "tidy", 5.0, 0.0), pb_rubric_later(h, "tidy", 6.0, 0.0));
    ck_assert_uint_ne(pb_rubric_later(h, "tidy", 5.0, 0.0), pb_rubric_later(h, "calm", 5.0, 0.0));
}
END_TEST

START_TEST(stands_in_the_documentation)
{
    char *text, line[128];
    size_t size, count;
    PbError err;
    const PbRubricLimit *rows = pb_rubric_limits(&count);
    ck_assert_int_eq(
        io_read_file(PB_TEST_SOURCE_DIR "/docs/formats/rubric.md", 1u << 20, &text, &size, &err),
        PB_OK);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        const PbScorePartTraits *part = pb_score_part((PbScorePartKind)i);
        snprintf(line, sizeof line, "| `%s` | %g |", part->key, part->weight);
        ck_assert_msg(strstr(text, line) != NULL, "rubric.md lacks: %s", line);
    }
    for (size_t i = 0; i < count; i++) {
        snprintf(line, sizeof line, "| `%s` | %.6g | %g to %g ", rows[i].key, rows[i].standard,
                 rows[i].low, rows[i].high);
        ck_assert_msg(strstr(text, line) != NULL, "rubric.md lacks: %s", line);
    }
    free(text);
}
END_TEST

START_TEST(the_shipped_rubric_is_the_default_one)
{
    PbRubric r, standard = pb_rubric_default();
    PbError err;
    ck_assert_int_eq(io_rubric_load(PB_TEST_SOURCE_DIR "/assets/rubrics/default.json", &r, &err),
                     PB_OK);
    ck_assert_uint_eq(pb_rubric_hash(&r), pb_rubric_hash(&standard));
}
END_TEST

START_TEST(refuses_by_place_and_leaves_output_alone)
{
    static const char all_zero[] =
        "{\"format\": \"pullback rubric 1\", \"name\": \"x\", \"weights\": {\"on_target\": 0, "
        "\"weakest\": 0, \"years\": 0, \"no_harm\": 0, \"material\": 0, \"hands\": 0}}";
    static const char *const bad[] = {
        "{\"format\": \"pullback rubric 3\", \"name\": \"x\"}",
        "{\"format\": \"pullback rubric 1\"}",
        "{\"format\": \"pullback rubric 1\", \"name\": \"x\", \"other\": 1}",
        "{\"format\": \"pullback rubric 1\", \"name\": \"x\", \"weights\": {\"hands\": -1}}",
        "{\"format\": \"pullback rubric 1\", \"name\": \"x\", \"limits\": {\"step\": 1}}",
        all_zero,
        "{\"format\": \"pullback rubric 1\", \"name\": \"\"}",
        "{\"format\": \"pullback rubric 1\", \"name\": \"mine \"}",
        "{\"format\": \"pullback rubric 1\", \"name\": \"x\", \"pass_score\": 101}"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PbRubric r = {.pass_score = -7.0};
        PbError err;
        ck_assert_int_ne(parse(bad[i], &r, &err), PB_OK);
        ck_assert_double_eq(r.pass_score, -7.0);
        ck_assert(err.message[0] != '\0' && err.line == 1 && err.column >= 1);
    }
}
END_TEST

/* What trainers set: safety above all, technique above material, a shorter list, and both shipped
 * ones. What tells of the wall may be on target, the weakest place or the years. */
START_TEST(rubrics_that_trainers_write_are_taken)
{
    static const char *const good[] = {
        "{\"format\": \"pullback rubric 2\", \"name\": \"x\", \"weights\": {\"on_target\": 30, "
        "\"weakest\": 10, \"years\": 10, \"no_harm\": 30, \"material\": 5, \"hands\": 15}}",
        "{\"format\": \"pullback rubric 2\", \"name\": \"x\", \"weights\": {\"on_target\": 50, "
        "\"weakest\": 0, \"years\": 0, \"no_harm\": 25, \"material\": 5, \"hands\": 20}}",
        "{\"format\": \"pullback rubric 2\", \"name\": \"x\", \"limits\": {\"slice_min_kg_m3\": "
        "56, "
        "\"over_kg_m3\": 66, \"step_max_m\": 0.3}, \"pass_score\": 85}",
        "{\"format\": \"pullback rubric 1\", \"name\": \"x\", \"limits\": {\"blown_cap\": 40}}"};
    PbRubric r;
    PbError err = {0};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        ck_assert_msg(parse(good[i], &r, &err) == PB_OK, "%d: %s", (int)i, err.message);
    }
    ck_assert_int_eq(io_rubric_load(PB_TEST_SOURCE_DIR "/assets/rubrics/old-walls.json", &r, &err),
                     PB_OK);
    /* one in which a half-empty wall could come first is not, and hears why */
    ck_assert_int_eq(parse("{\"format\": \"pullback rubric 2\", \"name\": \"x\", \"weights\": "
                           "{\"on_target\": 10, \"weakest\": 5, \"years\": 5, \"hands\": 50}}",
                           &r, &err),
                     PB_ERR_RANGE);
    ck_assert_msg(strstr(err.message, "a worse wall could get the better mark") != NULL, "%s",
                  err.message);
}
END_TEST

/* The one block that cannot be had; negative once it was asked for. */
static int blocks_left;

static void *take_all_but_one(size_t bytes)
{
    return blocks_left-- == 0 ? NULL : malloc(bytes);
}

/* Whichever block cannot be had. */
START_TEST(is_written_whole_or_not_at_all_when_memory_ends)
{
    PbRubric r = pb_rubric_default();
    json_t *whole = io_rubric_to_json(&r);
    int n = 0, is_short = 1;
    for (; is_short && n < 1000; n++) {
        blocks_left = n;
        json_set_alloc_funcs(take_all_but_one, free);
        json_t *json = io_rubric_to_json(&r);
        json_set_alloc_funcs(malloc, free);
        is_short = blocks_left < 0;
        ck_assert(is_short ? json == NULL : json_equal(json, whole));
        json_decref(json);
    }
    ck_assert_int_gt(n, 20);
    ck_assert_int_lt(n, 1000);
    json_decref(whole);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("rubric_file");
    TCase *normal = tcase_create("normal"), *refusals = tcase_create("refusals");
    tcase_add_test(normal, what_is_left_out_is_as_in_the_default_rubric);
    tcase_add_test(normal, the_end_of_a_line_becomes_its_middle);
    tcase_add_loop_test(normal, every_number_is_in_the_hash_and_goes_both_ways, 0, NUMBERS);
    tcase_add_test(normal, the_hash_of_a_rubric_is_what_kept_grades_say);
    tcase_add_test(normal, a_number_that_came_later_counts_only_where_it_says_something);
    tcase_add_test(normal, stands_in_the_documentation);
    tcase_add_test(normal, the_shipped_rubric_is_the_default_one);
    tcase_add_test(normal, rubrics_that_trainers_write_are_taken);
    tcase_add_test(refusals, refuses_by_place_and_leaves_output_alone);
    tcase_add_test(refusals, is_written_whole_or_not_at_all_when_memory_ends);
    suite_add_tcase(suite, normal);
    suite_add_tcase(suite, refusals);
    return run_suite(suite);
}
