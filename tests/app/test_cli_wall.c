/* pullback-cli wall: the bays of a framed wall in words and as JSON, and a bay as an exercise that
 * the other verbs take. */
#include "cli_case.h"

#include <stdlib.h>
#include <string.h>

#define WALLS  PB_TEST_SOURCE_DIR "/assets/walls/"
#define WINDOW "'" WALLS "window-wall.json'"

START_TEST(bays_in_words)
{
    must("wall " WINDOW);
    says(out, "bay 5   x 1.462 to 1.605 m, y 2.190 to 2.374 m, 0.026 m2, 0.13 kg (0.3 lb), "
              "between header and plate\n");
    says(out, "bay 11  x 2.455 to 2.500 m, y 0.038 to 0.912 m, 0.039 m2, 0.20 kg (0.4 lb), "
              "between plate and sill, narrower than the hole\n");
    says(out, "A wall with one window: 4.00 x 2.45 m, 9.80 m2: lumber 1.81, windows and doors "
              "1.10, 16 bays 6.89\n"
              "to fill: 0.6136 m3, at 56.0 kg/m3 (3.50 lb/ft3) 34.4 kg (75.8 lb), 3.0 bags\n");
    must("wall '" WALLS "stair-wall.json' --bay 2");
    says(out, "parted by a brace: a hole on each side\n");
    says_not(out, "bay 3");
    must("wall '" WALLS "kitchen.json' --bay 26");
    says(out, "leave it: A register boot opens into this bay: it is a heating duct.\n");
}
END_TEST

START_TEST(bays_for_programs)
{
    must("wall " WINDOW " --json --bay 5");
    says(out, "{\"format\":\"pullback bays 1\",\"id\":\"window-wall\",\"wall_m2\":9.8");
    says(out, "\"bay\":5,\"x0_m\":1.462,\"y0_m\":2.19,\"x1_m\":1.605,\"y1_m\":2.374");
    says(out, "\"below\":\"header\",\"above\":\"plate\",\"leave\":null}]}\n");
}
END_TEST

START_TEST(a_bay_is_an_exercise)
{
    must("wall " WINDOW " --bay 4 --exercise bay4.json");
    must("check bay4.json");
    says(out, "window-wall-bay-4: A wall with one window, bay 4");
    says(out, "bay 0.187 x 2.336 x 0.089 m");
    must("run bay4.json --hands '" HANDS "'");
    says(out, "window-wall-bay-4");
    ck_assert_int_eq(cli("wall " WINDOW " --bay 4 --exercise bay4.json"), 3); /* replaces nothing */
    ck_assert_int_eq(cli("wall " WINDOW " --bay 5 --exercise bay5.json"), 3);
    says(errors, "bay 5, 0.143 x 0.184 m: \"width_m\": 0.143 is out of range, expected 0.15 to "
                 "0.75 m");
    ck_assert_int_eq(cli("check bay5.json"), 4); /* nothing was written */
}
END_TEST

START_TEST(bad_words_and_files)
{
    ck_assert_int_eq(cli("wall " WINDOW " --bay 17"), 2);
    says(errors, "--bay 17: the wall has 16 bays");
    ck_assert_int_eq(cli("wall " WINDOW " --exercise x.json"), 2);
    says(errors, "--exercise needs --bay N: which bay it is");
    ck_assert_int_eq(cli("wall '" HANDS "'"), 3);
    says(errors, "three-foot.json:");
    says(errors, "expected \"format\": \"pullback framing 1\"");
}
END_TEST

/* What is drawn can be written, read back, and is the same again. */
START_TEST(a_wall_drawn_by_era_and_seed)
{
    must("wall --era 1925 --seed 3 -o drawn.json");
    says(out, "A wall of about 1925: 3.18 x 2.60 m, 8.28 m2: lumber 1.71, windows and doors 1.33, "
              "15 bays 5.24\n");
    char *first = strdup(out);
    must("wall drawn.json");
    ck_assert_str_eq(out, first);
    must("wall --era 1925 --seed 3");
    ck_assert_str_eq(out, first);
    must("wall --era 1925 --seed 4");
    ck_assert_str_ne(out, first);
    free(first);
    ck_assert_int_eq(cli("wall --era 1925 --seed 4 -o drawn.json"), 3); /* replaces nothing */
    ck_assert_int_eq(cli("wall --era 1930"), 2);
    says(errors, "--era 1930: expected 1900, 1925, 1955 or 1978");
    ck_assert_int_eq(cli("wall " WINDOW " --seed 3"), 2);
    says(errors, "--seed goes with --era: it draws a wall");
    ck_assert_int_eq(cli("wall " WINDOW " --era 1925"), 2);
    ck_assert_int_eq(cli("wall"), 2);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli wall");
    TCase *t = tcase_create("normal");
    tcase_add_checked_fixture(t, case_start, case_stop);
    tcase_set_timeout(t, 60);
    tcase_add_test(t, bays_in_words);
    tcase_add_test(t, bays_for_programs);
    tcase_add_test(t, a_bay_is_an_exercise);
    tcase_add_test(t, bad_words_and_files);
    tcase_add_test(t, a_wall_drawn_by_era_and_seed);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
