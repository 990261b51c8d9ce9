/* pullback-cli fit: small boxes through the model, the material that comes of them, and a run and a
 * mark that take it; boxes that are off. */
#include "cli_case.h"

#define HEAD "width_m,height_m,depth_m,mass_kg,static_pa,feed_kg_s,step_m\n"
#define OURS PB_TEST_SOURCE_DIR "/tests/app/data/ours.json"

static void write_boxes(const char *text)
{
    char path[400];
    snprintf(path, sizeof path, "%s/boxes.csv", case_folder);
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    ck_assert_int_ge(fputs(text, f), 0);
    ck_assert_int_eq(fclose(f), 0);
}

/* Three boxes that the shipped constants pack at 56, 59 and 47. */
START_TEST(boxes_become_a_material)
{
    write_boxes(HEAD "0.7,0.6,0.089,2.1,19900,0.065,0.3\n"
                     "0.7,0.6,0.14,3.45,19900,0.065,0.3\n"
                     "0.7,0.6,0.089,1.75,10000,0.065,0.3\n");
    must("fit boxes.csv --quick --name ours --out ours.json");
    says(out, "constant           shipped  fitted (5 to 95 %)");
    says(out, "compaction_ref_pa  1700 ");
    says(out, "\n2     56 kg/m3 (3.5 lb/ft3)");
    says_not(out, "another box"); /* --quick */
    must("check --material ours.json");
    says(out, "material ours: Blown cellulose, 25 lb bag, fitted to boxes\n");
    says(out, "8 constants of its own, fitted: 40 draws");
    ck_assert_int_eq(cli("fit boxes.csv --quick --out ours.json"), 3); /* replaces nothing */
}
END_TEST

/* Fifteen seconds of a low bay, and the material of tests/app/data, which came of the boxes above.
 */
START_TEST(runs_and_marks_take_a_material)
{
    must("check --material '" OURS "'");
    says(out, "8 constants of its own, fitted: 40 draws");
    char command[900];
    snprintf(command, sizeof command,
             "sed 's/\"time_limit_s\": 900/\"time_limit_s\": 15/' '" PB_TEST_SOURCE_DIR
             "/tests/app/data/low-bay.json' >'%s/short.json'",
             case_folder);
    ck_assert_int_eq(system(command), 0);
    must("run short.json --hands '" HANDS "' --material '" OURS "' --record r.pbrun");
    ck_assert_int_eq(cli("grade r.pbrun --material '" OURS "'"), 2); /* the mark is as recorded */
    says(errors, "--machine and --material go with --range");
    ck_assert_int_le(cli("grade r.pbrun --range --material '" OURS "'"), 1);
    says(out, "Passes in ");
}
END_TEST

START_TEST(boxes_that_are_off_write_nothing)
{
    static const struct {
        const char *boxes, *says;
    } off[] = {
        {HEAD "0.368,1.2,0.089,0.04,19900,0.065,0.3\n", "boxes.csv:2:17: this box is lighter than "
                                                        "air"},
        {HEAD "0.368,1.2,0.089,2.3,-80,0.065,0.3\n", "boxes.csv:2:21: \"static_pa\": -80 is out of "
                                                     "range"},
        {HEAD "0.368,1.2,0.089,2.3,19900,0.065,0.3\n", "boxes.csv:2:1: 1 box cannot tell 8 "
                                                       "constants apart"},
        {HEAD "0.368,1.2,0.05,2.3,19900,0.065,0.3\n0.368,1.2,0.089,2.3,19900,0.065,2.5\n",
         "boxes.csv:3:33: \"step_m\": 2.5 is out of range"},
    };
    for (size_t i = 0; i < sizeof off / sizeof off[0]; i++) {
        write_boxes(off[i].boxes);
        ck_assert_int_eq(cli("fit boxes.csv --out none.json"), 3);
        says(errors, off[i].says);
        ck_assert_int_eq(cli("check --material none.json"), 4); /* there is no such file */
    }
    ck_assert_int_eq(cli("fit"), 2);
    ck_assert_int_eq(cli("fit boxes.csv --name 'My Wool'"), 2);
    ck_assert_int_eq(cli("fit boxes.csv --machine no-such"), 3);
    says(errors, "there is no \"no-such\" in machines/");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_fit");
    TCase *tc = tcase_create("all");
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_set_timeout(tc, 300.0);
    tcase_add_loop_test(tc, boxes_become_a_material, 0, some_of(0, 1));
    tcase_add_test(tc, runs_and_marks_take_a_material);
    tcase_add_test(tc, boxes_that_are_off_write_nothing);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
