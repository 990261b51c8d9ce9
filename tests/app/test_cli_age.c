/*
 * The age verb as a person meets it: examples of docs/formats/age.md, the same bytes with any
 * number of threads, and bad input that is named and writes nothing.
 */
#include "suite.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static char dir[256];

static void setup(void)
{
    snprintf(dir, sizeof dir, "%s/cli_age_%ld", PB_TEST_BINARY_DIR, (long)getpid());
    ck_assert_int_eq(mkdir(dir, 0700), 0);
}

static void teardown(void)
{
    char command[400];
    snprintf(command, sizeof command, "rm -r '%s'", dir);
    ck_assert_int_eq(system(command), 0);
}

/* Run `pullback-cli ARGS` in the test's folder; @ in args stands for the program. Exit code. */
static int cli(const char *args)
{
    char command[4096];
    snprintf(command, sizeof command, "cd '%s' && '%s' %s", dir, PB_TEST_CLI, args);
    int status = system(command);
    ck_assert(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static char *slurp(const char *name)
{
    char path[400];
    snprintf(path, sizeof path, "%s/%s", dir, name);
    FILE *f = fopen(path, "rb");
    ck_assert_msg(f != NULL, "no %s", name);
    char *text = calloc(1, 4u << 20);
    ck_assert_ptr_nonnull(text);
    size_t n = fread(text, 1, (4u << 20) - 1, f);
    text[n] = '\0';
    fclose(f);
    return text;
}

static void put(const char *name, const char *text)
{
    char path[400];
    snprintf(path, sizeof path, "%s/%s", dir, name);
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    fputs(text, f);
    fclose(f);
}

static void same(const char *a, const char *b)
{
    char *x = slurp(a), *y = slurp(b);
    ck_assert_msg(strlen(x) > 10 && strcmp(x, y) == 0, "%s and %s differ", a, b);
    free(x);
    free(y);
}

static json_t *json_of(const char *name)
{
    json_error_t e;
    char *text = slurp(name);
    json_t *j = json_loads(text, 0, &e);
    ck_assert_msg(j != NULL, "%s: %s", name, e.text);
    free(text);
    return j;
}

static double number(const json_t *j, const char *key, size_t i)
{
    const json_t *v = json_object_get(j, key);
    return json_number_value(json_is_array(v) ? json_array_get(v, i) : v);
}

START_TEST(ages_a_uniform_bay_and_finds_its_threshold)
{
    ck_assert_int_eq(
        cli("age --density 48 --years 30 --climate normal --threshold --json > a.json"), 0);
    json_t *j = json_of("a.json");
    size_t last = json_array_size(json_object_get(j, "years")) - 1;
    ck_assert_double_eq(number(j, "years", last), 30.0);
    ck_assert_double_eq_tol(number(j, "top_gap_m", last), 0.0146, 0.001);
    ck_assert_double_eq_tol(number(j, "threshold_kg_m3", 0), 48.7, 0.3);
    ck_assert_double_lt(number(j, "mass_error", 0), 1e-12);
    ck_assert_uint_eq(json_array_size(json_object_get(j, "void_area_m2")), last + 1);
    ck_assert_uint_eq(json_array_size(json_object_get(j, "worst_patch_kg_m3")), last + 1);
    json_decref(j);
    /* the two readings of the damp threshold are both to be had, and shown */
    ck_assert_int_eq(cli("age --density 48 --climate damp --damp deep --at 30 --json > d.json"), 0);
    ck_assert_int_eq(cli("age --density 48 --climate damp --at 30 --json > s.json"), 0);
    json_t *deep = json_of("d.json"), *shallow = json_of("s.json");
    ck_assert_str_eq(json_string_value(json_object_get(deep, "damp_reading")), "deep");
    ck_assert_double_eq_tol(number(deep, "damp_per_rh", 0), 0.2866, 1e-9);
    ck_assert_double_lt(number(deep, "top_gap_m", 0), number(shallow, "top_gap_m", 0));
    json_decref(deep);
    json_decref(shallow);
}
END_TEST

START_TEST(ages_files_and_writes_frames)
{
    put("column.json", "{\"bay\": {\"width_m\": 0.368, \"height_m\": 2.4, \"depth_m\": 0.089},\n"
                       " \"column_kg_m3\": [58, 58, 58, 30, 58, 58, 58, 30, 58, 58, 58, 30]}\n");
    ck_assert_int_eq(cli("age column.json --years 30 --frames f.csv --json > a.json"), 0);
    json_t *j = json_of("a.json");
    size_t last = json_array_size(json_object_get(j, "years")) - 1;
    ck_assert_double_gt(number(j, "inner_void_area_m2", last), 0.01);
    json_decref(j);
    char *frames = slurp("f.csv");
    ck_assert(strncmp(frames, "# pullback frames v1 frames=9 nx=1 ny=12 ", 41) == 0);
    int lines = 0;
    for (const char *p = frames; *p != '\0'; p++) {
        lines += *p == '\n';
    }
    ck_assert_int_eq(lines, 2 + 9 * 12);
    free(frames);
    put("field.csv",
        "# pullback density v1 nx=2 ny=2 width_m=0.4 height_m=1 depth_m=0.1 tilt_deg=90 rh=0.5\n"
        "x_m,y_m,density_kg_m3,past_kg_m3,lateral_pa,free_frac\n"
        "0.1,0.25,40,40,50,1\n0.3,0.25,60,60,50,1\n0.1,0.75,0,0,0,0\n0.3,0.75,45,45,50,1\n");
    ck_assert_int_eq(cli("age field.csv --years 10 > t.txt"), 0);
    char *text = slurp("t.txt");
    ck_assert_ptr_nonnull(strstr(text, "10 yr"));
    ck_assert_ptr_nonnull(strstr(text, "not a promise"));
    free(text);
}
END_TEST

START_TEST(examples_of_the_docs_work)
{
#define EXAMPLES PB_TEST_SOURCE_DIR "/docs/formats/examples/"
    ck_assert_int_eq(cli("age '" EXAMPLES "packs.json' --years 30 --frames f.csv --json > a.json"),
                     0);
    ck_assert_int_eq(cli("age '" EXAMPLES "box.json' --climate damp --json > b.json"), 0);
    json_t *packs = json_of("a.json"), *box = json_of("b.json");
    size_t last = json_array_size(json_object_get(packs, "years")) - 1;
    /* packs of 0.45 m over pockets of 0.15 m: three voids, each a tenth or so of its pocket */
    ck_assert_double_eq_tol(number(packs, "inner_void_area_m2", last) / 0.368, 0.0634, 0.003);
    ck_assert_double_gt(number(box, "inner_void_area_m2", last), 0.001);
    json_decref(packs);
    json_decref(box);
    ck_assert_int_eq(cli("age --density 40 --tilt 30 --json > c.json"), 0);
    json_t *slope = json_of("c.json");
    ck_assert_double_lt(number(slope, "top_gap_m", last), 1e-6); /* under the friction angle */
    ck_assert_double_gt(number(slope, "face_gap_m", last), 1e-3);
    json_decref(slope);
    ck_assert_int_eq(cli("age --help > h.txt"), 0);
}
END_TEST

START_TEST(one_and_three_threads_draw_the_same_bytes)
{
    static const char *const cases[] = {"--density 46 --cells 6 --at 1,30 --seed 5",
                                        "--foam typical --climate hot-humid --years 30"};
    for (int k = 0; k < 4; k++) {
        char args[512];
        for (int threads = 1; threads <= 3; threads += 2) {
            snprintf(args, sizeof args, "age %s --spread 13 --threads %d %s > with%d", cases[k / 2],
                     threads, k % 2 ? "--json" : "", threads);
            ck_assert_int_eq(cli(args), 0);
        }
        same("with1", "with3");
    }
}
END_TEST

START_TEST(bad_input_is_one_line_and_writes_nothing)
{
    static const struct {
        const char *args, *message;
        int code;
    } bad[] = {
        {"--density -5", "--density -5 is out of range", 3},
        {"--density 200.5", "--density 200.5 is out of range, expected 1 to 200", 3},
        {"--density nan", "expected a number", 2},
        {"--density 48 --fill-rh 1.01", "--fill-rh 1.01 is out of range, expected 0 to 1", 3},
        {"--density 48 --years 201", "--years 201 is out of range", 3},
        {"--density 48 --years 0", "out of range", 3},
        {"--density 48 --tilt 91", "out of range", 3},
        {"--density 48 --at 5,1", "--at 5,1: 1 is out of range, expected rising years above 5", 3},
        {"--density 48 --at 1,1,1", "--at 1,1,1: 1 is out of range", 3},
        {"--density 0x30", "--density \"0x30\": expected a number", 2},
        {"--density 48 --at 0x10", "--at \"0x10\": expected up to 32 years", 2},
        {"--density inf", "expected a number", 2},
        {"--density ' 48'", "expected a number", 2},
        {"--density 48 --climate wet.json", "wet.json:2:12: \"bay_rh\"", 3},
        {"--density 48 --climate nowhere", "there is no climate \"nowhere\"", 3},
        {"--density 48 --set settle_exponent=9000", "out of range", 3},
        {"--density 48 --set colour=1", "there is no constant", 2},
        {"--density abc", "expected a number", 2},
        {"--density 48 --cells 2.5", "whole number", 2},
        {"--density 48 --vibration some", "expected quiet, light or heavy", 2},
        {"--density 48 --colour", "\"--colour\" is no option", 2},
        {"--density", "value is missing", 2},
        {"--density 48 --at ''", "expected up to 32 years", 2},
        {"--density 48 --at 1,", "expected up to 32 years", 2},
        {"--density 48 --inner plaster", "--inner and --outer are of --foam", 2},
        {"--foam typical --tilt 30", "--foam takes no tilt", 2},
        {"--foam typical --face lath", "--foam takes no tilt", 2},
        {"--foam typical --cells 4", "--foam takes no tilt", 2},
        {"field.csv --cells 4", "--cells is of --density", 2},
        {"field.csv --density 48", "either", 2},
        {"--foam typical --density 48", "--foam takes no", 2},
        {"none.csv", "none.csv: cannot open", 4},
        {".", "folder", 4},
        {"empty.csv", "empty.csv:1:1:", 3},
        {"cut.csv", "cut.csv:4:1: the file ends here, expected 2 rows", 3},
        {"dense.csv", "dense.csv:3:10: found \"250\"", 3},
        {"shift.csv", "shift.csv:3:5: found \"0.7\"", 3},
        {"field.csv --width 0.5", "the field is for 0.4, but --width says 0.5", 3},
        {"binary.csv", "binary.csv:1:1:", 3},
        {"bad.json", "bad.json:3:19: \"item\": -3 is out of range", 3},
    };
#define HEAD                                                                                       \
    "# pullback density v1 nx=2 ny=1 width_m=0.4 height_m=0.5 depth_m=0.1 tilt_deg=90 rh=0.5\n"    \
    "x_m,y_m,density_kg_m3,past_kg_m3,lateral_pa,free_frac\n"
    put("empty.csv", "");
    put("field.csv", HEAD "0.1,0.25,50,50,0,1\n0.3,0.25,50,50,0,1\n");
    put("cut.csv", HEAD "0.1,0.25,50,50,0,1\n");
    put("dense.csv", HEAD "0.1,0.25,250,50,0,1\n0.3,0.25,50,50,0,1\n");
    put("shift.csv", HEAD "0.1,0.7,50,50,0,1\n0.3,0.7,50,50,0,1\n");
    put("binary.csv", "\x7f"
                      "ELF\x01\x02");
    put("wet.json",
        "{\"name\": \"x\", \"title\": \"x\",\n \"bay_rh\": {\"mean\": 0.9, \"swing\": 0.2}}\n");
    put("bad.json", "{\n \"bay\": {\"width_m\": 0.4, \"height_m\": 1, \"depth_m\": 0.1},\n"
                    " \"column_kg_m3\": [-3]}\n");
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char args[600], frames[400];
        snprintf(args, sizeof args, "age %s%s > out 2> err", bad[i].args,
                 strstr(bad[i].args, "foam") ? "" : " --frames frames.csv");
        if (strcmp(bad[i].args, "--density") == 0) {
            snprintf(args, sizeof args, "age --density > out 2> err");
        }
        ck_assert_msg(cli(args) == bad[i].code, "%s", args);
        char *out = slurp("out"), *err = slurp("err");
        ck_assert_str_eq(out, "");
        ck_assert_msg(strstr(err, bad[i].message) != NULL, "%s: %s", bad[i].args, err);
        ck_assert_msg(strchr(err, '\n') == err + strlen(err) - 1, "more than one line: %s", err);
        snprintf(frames, sizeof frames, "%s/frames.csv", dir);
        ck_assert_int_ne(access(frames, F_OK), 0);
        free(out);
        free(err);
    }
}
END_TEST

START_TEST(frames_never_take_the_place_of_the_field)
{
    put("field.csv", HEAD "0.1,0.25,50,50,0,1\n0.3,0.25,50,50,0,1\n");
    ck_assert_int_eq(cli("age field.csv --frames ./field.csv 2> err"), 3);
    char *err = slurp("err"), *field = slurp("field.csv");
    ck_assert_ptr_nonnull(strstr(err, "\"./field.csv\" is named twice"));
    ck_assert_str_eq(field, HEAD "0.1,0.25,50,50,0,1\n0.3,0.25,50,50,0,1\n");
    free(err);
    free(field);
    ck_assert_int_eq(cli("age 2> err"), 2);
}
END_TEST

START_TEST(of_an_option_given_twice_the_last_one_counts)
{
    ck_assert_int_eq(cli("age --density 46 --at 10 --at 1,5 --json > twice.json"), 0);
    ck_assert_int_eq(cli("age --density 46 --at 1,5 --json > once.json"), 0);
    same("twice.json", "once.json");
}
END_TEST

START_TEST(a_run_file_is_played_and_aged)
{
    ck_assert_int_eq(
        cli("age '" PB_TEST_SOURCE_DIR "/tests/app/recorded.pbrun' --years 30 --json > run.json"),
        0);
    char *out = slurp("run.json");
    ck_assert_ptr_nonnull(strstr(out, "\"top_gap_m\""));
    free(out);
    /* what the run leaves as a field must age the same as the run itself */
    ck_assert_int_eq(cli("run '" PB_TEST_SOURCE_DIR
                         "/assets/exercises/plain-2x4.json' --hands '" PB_TEST_SOURCE_DIR
                         "/assets/hands/three-foot.json' --record a.pbrun "
                         "--density a.csv > /dev/null"),
                     0);
    ck_assert_int_eq(cli("age a.pbrun --years 30 --json > one.json"), 0);
    ck_assert_int_eq(cli("age a.csv --years 30 --json > two.json"), 0);
    char *one = slurp("one.json"), *two = slurp("two.json");
    char *gap1 = strstr(one, "\"void_area_m2\""), *gap2 = strstr(two, "\"void_area_m2\"");
    ck_assert_ptr_nonnull(gap1);
    ck_assert_ptr_nonnull(gap2);
    ck_assert_int_eq(strncmp(gap1, gap2, 60), 0);
    free(one);
    free(two);
    ck_assert_int_eq(cli("age /dev/null > out 2> err"), 3);
}
END_TEST

START_TEST(a_spread_can_be_stopped_and_then_writes_nothing)
{
    /* All draws take minutes. The signal is sent until the program has gone, because a shell starts
     * background jobs deaf to it until the program sets its own handler. */
    ck_assert_int_eq(
        cli("age --density 46 --cells 32 --spread 20000 --threads 2 --json > out 2> err & "
            "P=$!; sleep 0.1; while kill -INT $P 2> /dev/null; do sleep 0.2; done; wait $P"),
        1);
    char *out = slurp("out"), *err = slurp("err");
    ck_assert_str_eq(out, "");
    ck_assert_ptr_nonnull(strstr(err, "nothing was written"));
    free(out);
    free(err);
}
END_TEST

START_TEST(foam_says_what_opens)
{
    ck_assert_int_eq(cli("age --foam typical --inner painted-board --outer wood-board --years 30 "
                         "--json > f.json"),
                     0);
    json_t *j = json_of("f.json");
    size_t last = json_array_size(json_object_get(j, "years")) - 1;
    ck_assert_double_eq_tol(number(j, "shrinkage_percent", last), 5.0, 0.02);
    const json_t *gaps = json_array_get(json_object_get(j, "gaps"), last);
    double side = number(gaps, "left_m", 0) + number(gaps, "right_m", 0);
    const json_t *cracks = json_object_get(j, "cracks_along");
    for (size_t i = 0; i < json_array_size(cracks); i++) {
        side += number(json_array_get(cracks, i), "open_m", 0);
    }
    ck_assert_double_eq_tol(side, 0.01 * number(j, "shrinkage_percent", last) * 0.368, 1e-9);
    ck_assert_ptr_nonnull(strstr(json_string_value(json_object_get(j, "note")), "formaldehyde"));
    json_decref(j);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("cli_age");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, setup, teardown);
    tcase_add_test(tc, ages_a_uniform_bay_and_finds_its_threshold);
    tcase_add_test(tc, ages_files_and_writes_frames);
    tcase_add_test(tc, examples_of_the_docs_work);
    tcase_add_test(tc, one_and_three_threads_draw_the_same_bytes);
    tcase_add_test(tc, bad_input_is_one_line_and_writes_nothing);
    tcase_add_test(tc, frames_never_take_the_place_of_the_field);
    tcase_add_test(tc, of_an_option_given_twice_the_last_one_counts);
    tcase_add_test(tc, a_run_file_is_played_and_aged);
    tcase_add_test(tc, a_spread_can_be_stopped_and_then_writes_nothing);
    tcase_add_test(tc, foam_says_what_opens);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
