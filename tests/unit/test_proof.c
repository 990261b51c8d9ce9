/* What was measured shows what the textbooks' formulas give: density by bags, mean and interval of
 * cores, a verdict only on one side of the target, what nothing shows, camera and leak test. Then
 * the words, and the block in the house file. */
#include "core/proof_reading.h"
#include "core/units.h"
#include "io/house_file.h"
#include "io/proof_words.h"

#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NB "\xC2\xA0"

static const IoReaderTaste us = {0, 1, 0}, si = {0, 0, 0}, es = {1, 0, 0};
static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};

/* 100 m2, a fifth of it wood, bays of 0.368 x 2.35 m, 0.1 m deep: 8 m3 of cavity. */
static PbHouse house(void)
{
    PbHouse h = pb_house_default();
    h.framing_share = 0.2;
    h.bay.depth_m = 0.1;
    h.bay.target_kg_m3 = 56.0;
    return h;
}

static PbProofReading read_house(const PbHouse *h)
{
    PbConstants c = pb_constants_default();
    PbProofReading r;
    pb_proof_read(h, &c, &r);
    return r;
}

static void bags(PbHouse *h, double count)
{
    h->proof.area_m2 = 100.0;
    h->proof.bags = count;
    h->proof.bag_kg = 12.0;
}

static void cores(PbHouse *h, int count, double a, double b, double c)
{
    h->proof.core_count = count;
    h->proof.core_kg_m3[0] = a;
    h->proof.core_kg_m3[1] = b;
    h->proof.core_kg_m3[2] = c;
}

/* 40 bags of 12 kg in 8 m3: 60 kg/m3. Relative uncertainties: area 0.05/sqrt 3 = 2.9 %, framing
 * 0.225/sqrt 3 of 0.2 in 0.8 = 3.2 %, depth 3 %, bag 2 %, a quarter bag 0.36 %; together 5.6 %. */
START_TEST(bags_give_a_mean_and_its_uncertainty)
{
    PbHouse h = house();
    bags(&h, 40.0);
    PbProofReading r = read_house(&h);
    ck_assert_double_eq_tol(r.bags_kg_m3.mid, 60.0, 1e-9);
    double u = sqrt(0.05 * 0.05 / 3.0 + pow(0.225 / sqrt(3.0) * 0.25, 2.0) + 0.0009 + 0.0004 +
                    pow(0.25 / 40.0, 2.0) / 3.0);
    ck_assert_double_eq_tol(r.bags_kg_m3.high - 60.0, 2.0 * u * 60.0, 0.01);
    ck_assert_double_eq_tol(60.0 - r.bags_kg_m3.low, 2.0 * u * 60.0, 0.01);
    ck_assert_int_eq(r.density, PB_PROOF_OPEN); /* 53 to 67 holds the target */
    /* 80 m2 of cavity over 0.865 m2 each; one is 1.1 % of the fill, and the count knows 11 % */
    ck_assert_int_eq(r.bays, 93);
    ck_assert(r.one_bay_share < (r.bags_kg_m3.high - 60.0) / 60.0);
    bags(&h, 46.0); /* 69: 61 to 77 */
    ck_assert_int_eq(read_house(&h).density, PB_PROOF_REACHED);
    bags(&h, 32.0); /* 48: 43 to 53 */
    ck_assert_int_eq(read_house(&h).density, PB_PROOF_MISSED);
}
END_TEST

/* Three cores of 58, 62 and 66: mean 62, s = 4, t(2) = 4.303: 62 +- 9.94. */
START_TEST(cores_give_students_interval)
{
    PbHouse h = house();
    cores(&h, 3, 58.0, 62.0, 66.0);
    PbProofReading r = read_house(&h);
    ck_assert_double_eq_tol(r.cores_kg_m3.mid, 62.0, 1e-9);
    ck_assert_double_eq_tol(r.core_sd_kg_m3, 4.0, 1e-9);
    ck_assert_double_eq_tol(r.cores_kg_m3.high - 62.0, 4.303 * 4.0 / sqrt(3.0), 1e-3);
    cores(&h, 2, 60.0, 64.0, 0.0); /* s = 2.83, t(1) = 12.706: +- 25 */
    ck_assert_double_eq_tol(read_house(&h).cores_kg_m3.high - 62.0, 12.706 * 2.0, 1e-2);
    /* luck may make them alike, but not surer than bore and scale are: 2 x 7.8 % / sqrt 3 */
    cores(&h, 3, 62.0, 62.0, 62.0);
    ck_assert_double_eq_tol(read_house(&h).cores_kg_m3.high - 62.0, 0.156 * 62.0 / sqrt(3.0), 1e-3);
    /* one core gives no mean of a wall, whatever it has */
    cores(&h, 1, 80.0, 0.0, 0.0);
    r = read_house(&h);
    ck_assert_int_eq(r.density, PB_PROOF_OPEN);
    ck_assert_double_eq(r.kg_m3.mid, 0.0);
}
END_TEST

START_TEST(both_together_are_surer_or_contradict)
{
    PbHouse h = house();
    bags(&h, 40.0);
    cores(&h, 3, 58.0, 60.0, 62.0);
    PbProofReading r = read_house(&h);
    ck_assert_int_eq(r.contradict, 0);
    ck_assert_double_eq_tol(r.kg_m3.mid, 60.0, 1e-9);
    ck_assert(r.kg_m3.high - r.kg_m3.mid < r.bags_kg_m3.high - 60.0);
    ck_assert(r.kg_m3.high - r.kg_m3.mid < r.cores_kg_m3.high - 60.0);
    ck_assert_double_eq_tol(r.core_chance, 3.0 / 93.0, 1e-9);
    cores(&h, 3, 78.0, 80.0, 82.0); /* bays are missing, or the area is wrong */
    r = read_house(&h);
    ck_assert_int_eq(r.contradict, 1);
    ck_assert_double_eq(r.kg_m3.mid, 0.0);
    ck_assert_int_eq(r.density, PB_PROOF_OPEN);
    cores(&h, 3, 38.0, 40.0, 42.0);
    ck_assert_int_eq(read_house(&h).contradict, -1);
}
END_TEST

/* Simple wall: room film 0.13, R of layers and films near 0.34. Empty cavity 1/(4.2 + 1.25) = 0.18,
 * full 0.1/0.042 = 2.4: U 1.9 and 0.37; at 15 K a stripe of 15 x 0.13 x 1.6 = 3.0 K. */
START_TEST(a_camera_is_believed_where_it_could_see)
{
    PbHouse h = house();
    h.proof.before = (PbProofPicture){1.5, 14.0};
    h.proof.after = (PbProofPicture){0.3, 15.0};
    PbProofReading r = read_house(&h);
    ck_assert_double_eq_tol(r.empty_k, 3.0, 0.3);
    ck_assert_int_eq(r.camera, PB_PROOF_REACHED);
    h.proof.after.stripe_k = 2.5;
    ck_assert_int_eq(read_house(&h).camera, PB_PROOF_MISSED);
    h.proof.after.stripe_k = 1.5;
    ck_assert_int_eq(read_house(&h).camera, PB_PROOF_OPEN);
    h.proof.after = (PbProofPicture){0.1, 9.9}; /* too mild a day */
    r = read_house(&h);
    ck_assert_int_eq(r.camera, PB_PROOF_OPEN);
    ck_assert_int_eq(r.blind, PB_PROOF_MILD);
    h.proof.before.stripe_k = 0.2; /* it saw nothing of empty bays either */
    h.proof.after = (PbProofPicture){0.1, 15.0};
    ck_assert_int_eq(read_house(&h).blind, PB_PROOF_SAW_NONE);
}
END_TEST

/* Two tests of 5 % each: 1.0 and 0.95 m3/s may be alike, 1.0 and 0.85 are not. */
START_TEST(a_leak_test_is_no_surer_than_two_tests_are)
{
    PbHouse h = house();
    h.proof.leak_before_m3_s = 1.0;
    h.proof.leak_after_m3_s = 0.95;
    ck_assert_int_eq(read_house(&h).leak, PB_PROOF_OPEN);
    h.proof.leak_after_m3_s = 0.85;
    PbProofReading r = read_house(&h);
    ck_assert_int_eq(r.leak, PB_PROOF_REACHED);
    ck_assert_double_eq_tol(r.leak_less_m3_s.high - 0.15, 0.05 * sqrt(1.0 + 0.85 * 0.85), 1e-9);
    h.proof.leak_after_m3_s = 1.2;
    ck_assert_int_eq(read_house(&h).leak, PB_PROOF_MISSED);
}
END_TEST

static void says(const PbHouse *h, IoProofSentence which, IoReaderTaste taste, const char *expected)
{
    PbProofReading r = read_house(h);
    char text[600];
    io_proof_sentence(h, &r, which, taste, text, sizeof text);
    ck_assert_msg(strstr(text, expected) != NULL, "\"%s\" is not in \"%s\"", expected, text);
    ck_assert_ptr_null(strchr(text, '{'));
}

START_TEST(reads_so)
{
    PbHouse h = house();
    says(&h, IO_PROOF_BAGS, us, "Count the bags");
    says(&h, IO_PROOF_TOGETHER, us, "No density was measured.");
    says(&h, IO_PROOF_CAMERA, us, "at least 18" NB "°F apart");
    says(&h, IO_PROOF_CAMERA, si, "at least 10" NB "K apart");
    bags(&h, 46.0);
    says(&h, IO_PROOF_BAGS, si, "46 bags of 12" NB "kg in 100" NB "m² of wall are 69" NB "kg/m³");
    says(&h, IO_PROOF_BAGS, us, "46 bags of 26.5" NB "lb in 1076" NB "ft² of wall are 4.3" NB);
    says(&h, IO_PROOF_TOGETHER, si,
         "At least 61" NB "kg/m³ on average, 19 times in 20: the target "
         "of 56" NB "kg/m³ is reached.");
    says(&h, IO_PROOF_TOGETHER, es, "Al menos 61" NB "kg/m³");
    says(&h, IO_PROOF_HIDDEN, si,
         "One missed bay of 93 is 1% of the fill, and the bag count is sure "
         "to 11% only: a camera");
    cores(&h, 1, 70.0, 0.0, 0.0);
    says(&h, IO_PROOF_CORES, si, "One core has 70" NB "kg/m³. It tells that place, to about 11" NB);
    says(&h, IO_PROOF_HIDDEN, si, "would meet it 1% of the time");
    bags(&h, 32.0);
    cores(&h, 3, 80.0, 82.0, 84.0);
    says(&h, IO_PROOF_TOGETHER, us, "contradict each other");
    h.proof.leak_before_m3_s = 1.0;
    h.proof.leak_after_m3_s = 0.8;
    says(&h, IO_PROOF_LEAK, us, "leaks 280 to 560" NB "cfm less");
    says(&h, IO_PROOF_LEAK, si, "leaks 130 to 270" NB "L/s less");
}
END_TEST

/* What is held back is said once; one draw that cannot be leaves the rest. */
START_TEST(a_saving_is_told_or_held_back_once)
{
    PbHouse h = house();
    PbProofUpdate u = {.draws = 40};
    PbCompareSaving *s = &u.measured[1].saving;
    char text[300];
    u.measured[1].r_m2k_w = (PbHeatRange){2.0, 2.1, 2.2};
    *s = (PbCompareSaving){.is_ready = 1, .draws = 40, .kept = 38, .better = 38};
    s->units = (PbHeatRange){1200, 1800, 2300};
    s->money = (PbHeatRange){170, 260, 350};
    io_proof_time_words(&u, &h, 1, 1, us, text, sizeof text);
    ck_assert_msg(strstr(text, "saved a year: 1200 to 2300" NB "kWh, 170 to 350" NB) != NULL, "%s",
                  text);
    s->kept = 19;
    io_proof_time_words(&u, &h, 1, 1, us, text, sizeof text);
    ck_assert_msg(strstr(text, "saved a year: held back") != NULL &&
                      strstr(text, "held back, held") == NULL,
                  "%s", text);
}
END_TEST

static PbStatus parse(const char *proof, PbHouse *h, PbError *err)
{
    char path[300];
    json_error_t where;
    snprintf(path, sizeof path, "%s/houses/demo.json", folders[0]);
    json_t *all = json_load_file(path, 0, &where);
    ck_assert_ptr_nonnull(all);
    json_object_set_new(all, "proof", json_loads(proof, JSON_DECODE_ANY, &where));
    char *text = json_dumps(all, JSON_INDENT(1));
    memset(err, 0, sizeof *err);
    PbStatus status = io_house_parse("h.json", text, strlen(text), folders, 1, h, err);
    free(text);
    json_decref(all);
    return status;
}

START_TEST(stands_in_the_house_file_and_comes_back)
{
    PbHouse h, again;
    PbError err;
    ck_assert_int_eq(parse("{\"bags\": {\"area_m2\": 118, \"count\": 42.5, \"bag_kg\": 11.3}, "
                           "\"cores_kg_m3\": [58, 61.5], \"camera\": {\"after\": {\"stripe_k\": 0, "
                           "\"air_k\": 12}}, \"leak_m3_s\": {\"before\": 1.1, \"after\": 0.9}}",
                           &h, &err),
                     PB_OK);
    ck_assert_double_eq(h.proof.bags, 42.5);
    ck_assert_int_eq(h.proof.core_count, 2);
    ck_assert_double_eq(h.proof.after.air_k, 12.0);
    char *text = io_house_to_text(&h, folders, 1);
    ck_assert_ptr_nonnull(text);
    ck_assert_int_eq(io_house_parse("h.json", text, strlen(text), folders, 1, &again, &err), PB_OK);
    ck_assert_mem_eq(&h.proof, &again.proof, sizeof h.proof);
    free(text);
    ck_assert_int_eq(parse("{}", &h, &err), PB_OK); /* as older files, which have no block */
    ck_assert(!pb_proof_has_any(&h.proof));
    text = io_house_to_text(&h, folders, 1);
    ck_assert_ptr_null(strstr(text, "proof"));
    free(text);
}
END_TEST

static const struct {
    const char *proof, *says;
} off[] = {
    {"{\"bags\": {\"area_m2\": 118, \"count\": 42}}", "bag_kg"},
    {"{\"bags\": {\"area_m2\": 118, \"count\": 42, \"bag_kg\": 0.5}}", "1 to 50 kg"},
    {"{\"cores_kg_m3\": [58, 60, 62, 64]}", "3"},
    {"{\"cores_kg_m3\": [3.5]}", "5 to 200 kg/m3"},
    {"{\"camera\": {\"before\": {\"stripe_k\": 9, \"air_k\": 4}}}", "difference of the airs"},
    {"{\"leak_m3_s\": {\"before\": 1800, \"after\": 1500}}", "0.005 to 20"},
    {"{\"sure\": 1}", "sure"},
};
enum { OFF = sizeof off / sizeof off[0] };

START_TEST(refuses_at_its_place)
{
    PbHouse h;
    PbError err;
    ck_assert_int_ne(parse(off[_i].proof, &h, &err), PB_OK);
    ck_assert_msg(strstr(err.message, off[_i].says) != NULL, "%s", err.message);
    ck_assert_int_gt(err.line, 20); /* near the end of the file, not at its head */
    ck_assert_int_gt(err.column, 0);
}
END_TEST

/* A low bay and few draws: measured soft, the fill lets through more and sinks; measured as
 * predicted, nothing moves but the width. */
START_TEST(the_prediction_goes_by_what_was_measured)
{
    PbHouse low;
    PbError err = {0};
    ck_assert_msg(io_house_load(PB_TEST_SOURCE_DIR "/tests/app/data/low-house.json", folders, 1,
                                &low, &err) == PB_OK,
                  "%s", err.message);
    PbCompareSetup s = pb_compare_default();
    s.house = low;
    s.draws = 0;
    PbProofUpdate u;
    ck_assert_int_eq(pb_proof_update(&s, 30.0, NULL, NULL, NULL, NULL, &u, &err), PB_ERR_RANGE);
    bags(&s.house, 1.0);
    double per_bag = 12.0 / (100.0 * (1.0 - low.framing_share) * low.bay.depth_m);
    s.house.proof.bags = 40.0 / per_bag; /* 40 kg/m3 */
    ck_assert_int_eq(pb_proof_update(&s, 30.0, NULL, NULL, NULL, NULL, &u, &err), PB_OK);
    ck_assert_double_eq(u.predicted[1].years, 30.0);
    ck_assert(u.measured[1].top_gap_m.mid > u.predicted[1].top_gap_m.mid + 0.02);
    ck_assert(u.measured[1].r_m2k_w.mid < 0.97 * u.predicted[1].r_m2k_w.mid);
    ck_assert(u.measured[1].saving.money.mid < u.predicted[1].saving.money.mid);
    ck_assert(u.measured[1].r_m2k_w.low < u.measured[1].r_m2k_w.mid);
    ck_assert(u.measured[1].r_m2k_w.high > u.measured[1].r_m2k_w.mid);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("proof");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, bags_give_a_mean_and_its_uncertainty);
    tcase_add_test(tc, cores_give_students_interval);
    tcase_add_test(tc, both_together_are_surer_or_contradict);
    tcase_add_test(tc, a_camera_is_believed_where_it_could_see);
    tcase_add_test(tc, a_leak_test_is_no_surer_than_two_tests_are);
    tcase_add_test(tc, reads_so);
    tcase_add_test(tc, a_saving_is_told_or_held_back_once);
    tcase_add_test(tc, stands_in_the_house_file_and_comes_back);
    tcase_add_loop_test(tc, refuses_at_its_place, 0, OFF);
    tcase_add_test(tc, the_prediction_goes_by_what_was_measured);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
