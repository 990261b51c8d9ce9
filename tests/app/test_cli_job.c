/* pullback-cli job: a wall by rule and act by act, its marks, and the job file that replay, grade
 * and check take. */
#include "cli_case.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DATA "'" PB_TEST_SOURCE_DIR "/tests/app/data/"
#define WALL DATA "low-wall.json'"
#define ACTS " --acts " DATA "low-acts.json'"

START_TEST(a_careful_crew_passes)
{
    must("job " WALL " --units us");
    says(out, "A low wall of three bays; careful crew; seed 1\n");
    says(out, "left for the right reason: chimney or flue: it needs its clearance\n");
    says(out, "through the filled bays at 75 Pa: 4 cfm before, 0 cfm after\n");
    says(out, "\nPassed: ");
    says(out, " of 100\n");
    says_not(out, "gate  ");
    /* Two of three bays are filled and one stays empty by right, so done well is no better. */
    says(out, "R of the whole wall with its wood: R 3.");
    says(out, "with 68 \xc2\xb0"
              "F in the room and 32 \xc2\xb0"
              "F outdoors: ");
    must("job " WALL " --lang es --units si");
    says(out, "dejada por el motivo correcto");
    says(out, "R de la pared completa con su madera: ");
    says_not(out, "filled");
    says_not(out, "before");
}
END_TEST

START_TEST(a_missed_bay_is_named)
{
    must("job " WALL ACTS " --units us");
    says(out, "\nNot passed. Not kept: No part missed\n"); /* before any points */
    says(out,
         "  gate  Bay 2 was never filled: 3.5 ft\xc2\xb2, 2.0 ft from the left and 1.6 ft up\n");
    must("job " WALL ACTS " --json");
    says(out,
         "{\"format\":\"pullback job result 1\",\"wall\":\"low-wall\",\"crew\":\"two of three\"");
    says(out, "\"missed\":\"shut\"");
    says(out, "\"heat\":{\"room_c\":20.0,\"outdoor_c\":0.0,");
    says(out, "\"act\":\"probe\"");
    says(out, "\"state\":\"left\"");
}
END_TEST

START_TEST(a_job_file_is_replayed_graded_and_checked)
{
    must("job " WALL ACTS " -o low.pbjob --threads 2");
    must("replay low.pbjob");
    says(out, "1 fills, to the end: the same, hash by hash\n");
    ck_assert_int_eq(cli("grade low.pbjob"), 1);
    says(out, "was never filled");
    must("check low.pbjob --acts " DATA "low-acts.json'");
    says(out, "low.pbjob: a job at low-wall (two of three), seed 1: 1 fills\n");
    says(out, "crew: two of three, no rule, 10 acts");
    ck_assert_int_eq(cli("job " WALL " -o low.pbjob"), 3); /* replaces nothing */
    must("job " WALL ACTS " --seed 2 -o two.pbjob");
    ck_assert_int_eq(cli("replay low.pbjob"), 0);
}
END_TEST

/* Text of a PDF in the case's folder, as it stands on the page, into `out`. */
static void page_of(const char *name)
{
    char command[700];
    snprintf(command, sizeof command, "cd '%s' && pdftotext -layout %s out && pdfinfo %s >err",
             case_folder, name, name);
    ck_assert_int_eq(system(command), 0);
    slurp("out", out, sizeof out);
    slurp("err", errors, sizeof errors);
    says(errors, "Pages:           1\n");
}

/* What a person would look for on the record: figures, what was left and why, the gate first. */
START_TEST(the_record_is_one_page_and_replaces_no_input)
{
    must("job " WALL ACTS " --units us --pdf low.pdf");
    page_of("low.pdf");
    says(out, "Record of the job");
    says(out, "A low wall of three bays");
    says(out, "two of three, seed 1");
    says(out, "3.50 in.");
    says(out, "2 cfm, then 0 cfm");
    says(out, "R of the whole wall");
    says(out, "Not passed. Not kept: No part missed");
    says(out, "2 3.5 ft\xc2\xb2, missed");
    says(out, "left for the right reason: chimney or flue");
    says(out, "local codes and licensed trades decide");
    must("job " WALL " --units si --lang es --pdf low-es.pdf");
    page_of("low-es.pdf");
    says(out, "Registro del trabajo");
    says(out, "89.0 mm");
    says(out, "Fuga por el relleno, 75 Pa");
    says(out, "Antes del trabajo"); /* the camera's two pictures */
    says(out, "Como qued\xc3\xb3");
    says_not(out, "in.");
    must("job " WALL ACTS " --pdf low.pdf"); /* a record again */
    ck_assert_int_ne(cli("job " WALL " --pdf " WALL), 0);
}
END_TEST

static double total_of(const char *crew)
{
    char command[800];
    snprintf(command, sizeof command,
             "job " WALL " --json --acts '" PB_TEST_SOURCE_DIR "/assets/crews/%s.json'", crew);
    must(command);
    const char *at = strstr(out, "\"total\":");
    ck_assert_ptr_nonnull(at);
    return strtod(at + 8, NULL);
}

/* As a trainer would put them. The bay with the flue is what tells those apart who pack well. */
START_TEST(crews_stand_in_a_trainers_order)
{
    double careful = total_of("careful");
    says(out, "\"is_pass\":true");
    double hasty = total_of("hasty");
    says(out, "\"is_pass\":false");
    double all = total_of("fill-all");
    says(out, "\"leave\":\"shut\"");
    says(out, "\"safety\":\"shut\"");
    says(out, "\"is_pass\":false");
    ck_assert_double_gt(careful, 95.0);
    ck_assert_double_lt(hasty, careful - 10.0);
    ck_assert_double_lt(all, careful);
}
END_TEST

START_TEST(bad_words_and_files)
{
    ck_assert_int_eq(cli("job"), 2);
    ck_assert_int_eq(cli("job " WALL " --seed x"), 2);
    ck_assert_int_eq(cli("job " WALL " --acts " WALL), 3);
    says(errors, "expected \"format\": \"pullback job acts 1\"");
    ck_assert_int_eq(cli("job " WALL " --acts none.json"), 4);
    ck_assert_int_eq(cli("job " WALL " -o none/low.pbjob"), 4);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_job");
    TCase *t = tcase_create("job");
    tcase_add_checked_fixture(t, case_start, case_stop);
    tcase_set_timeout(t, 300);
    tcase_add_test(t, a_careful_crew_passes);
    tcase_add_test(t, a_missed_bay_is_named);
    tcase_add_test(t, the_record_is_one_page_and_replaces_no_input);
    tcase_add_test(t, a_job_file_is_replayed_graded_and_checked);
    tcase_add_test(t, crews_stand_in_a_trainers_order);
    tcase_add_test(t, bad_words_and_files);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
