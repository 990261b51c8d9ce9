/* Machine files: a curve from measured points, a gate from what was weighed, refusals by place, and
 * exercises that name one. */
#include "io/exercise_file.h"
#include "io/machine_file.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define HEAD "{\"format\": \"pullback machine 1\", \"id\": \"m\", \"title\": \"M\",\n"
#define TAIL                                                                                       \
    "\"hose\": {\"length_m\": 30, \"bore_m\": 0.05},\n"                                            \
    "\"tube\": {\"length_m\": 2.6, \"bore_m\": 0.029, \"outer_m\": 0.035},\n"
#define GATE  "\"gate\": {\"max_kg_s\": 0.09, \"kg_s\": 0.065}}\n"
#define CURVE "\"curve\": {\"static_pa\": 19900, \"open_flow_m3_s\": 0.04, \"exponent\": 1},\n"

static PbStatus parse(const char *text, PbRig *rig, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_machine_parse("m.json", text, strlen(text), rig, err);
}

START_TEST(a_curve_goes_through_the_points_of_a_known_blower)
{
    static const double exponents[] = {0.8, 1.0, 1.7, 2.0};
    PbMachine known = pb_rig_default().machine, found = known;
    PbCurvePoint p[4];
    PbError err;
    int worst;
    known.static_pa = 24000.0;
    known.open_flow_m3_s = 0.055;
    known.curve_exponent = exponents[_i];
    for (int i = 0; i < 4; i++) { /* the shut end, and three throttles in no order */
        p[i].flow_m3_s = (double[]){0.02, 0.0, 0.045, 0.033}[i];
        p[i].pa = pb_curve_pa(&known, p[i].flow_m3_s);
    }
    ck_assert_msg(pb_curve_fit(p, 4, &found, &worst, &err) == PB_OK, "%s", err.message);
    ck_assert_double_eq_tol(found.static_pa, 24000.0, 24.0); /* exponents go in steps of 0.01 */
    ck_assert_double_eq_tol(found.open_flow_m3_s, 0.055, 1e-4);
    ck_assert_double_eq_tol(found.curve_exponent, known.curve_exponent, 0.011);
}
END_TEST

START_TEST(what_leaks_through_the_airlock_does_not_reach_the_hose)
{
    PbMachine known = pb_rig_default().machine, found = known;
    PbCurvePoint p[4];
    PbError err;
    int worst;
    for (int i = 0; i < 4; i++) {
        p[i].flow_m3_s = (double[]){0.0, 0.01, 0.02, 0.03}[i];
        p[i].pa = pb_curve_pa(&known, p[i].flow_m3_s);
        p[i].flow_m3_s += 0.003 * sqrt(p[i].pa / 10000.0); /* as a plate before it reads */
    }
    pb_curve_less_leak(p, 4, 0.003, 10000.0);
    p[0].flow_m3_s = 0.0; /* rounding may leave less than nothing */
    ck_assert_int_eq(pb_curve_fit(p, 4, &found, &worst, &err), PB_OK);
    ck_assert_double_eq_tol(found.static_pa, 19900.0, 20.0);
    ck_assert_double_eq_tol(found.open_flow_m3_s, 0.04, 1e-4);
}
END_TEST

START_TEST(a_gate_is_what_was_weighed)
{
    PbRig rig;
    PbError err;
    ck_assert_msg(parse(HEAD CURVE TAIL "\"gate\": {\"weighed\": [{\"open_frac\": 1, \"kg\": 5.4, "
                                        "\"s\": 60}], \"open_frac\": 0.5}}",
                        &rig, &err) == PB_OK,
                  "%d:%d: %s", err.line, err.column, err.message);
    ck_assert_double_eq_tol(rig.machine.feed_max_kg_s, 0.09, 1e-12);
    ck_assert_double_eq_tol(rig.feed_kg_s, 0.045, 1e-12);
}
END_TEST

typedef struct Refused {
    const char *text, *says;
    int line;
} Refused;

static const Refused refused[] = {
    {HEAD "\"curve\": {\"points\": [{\"flow_m3_s\": 0, \"pa\": 9000},\n"
          "{\"flow_m3_s\": 0.02, \"pa\": 5000}]},\n" TAIL GATE,
     "list [ ... ] of 3 to 16 items", 2},
    {HEAD
     "\"curve\": {\"points\": [{\"flow_m3_s\": 0, \"pa\": 9000},\n"
     "{\"flow_m3_s\": 0.01, \"pa\": -7000}, {\"flow_m3_s\": 0.02, \"pa\": 5000}]},\n" TAIL GATE,
     "\"pa\": -7000 is out of range", 3},
    {HEAD
     "\"curve\": {\"points\": [{\"flow_m3_s\": 0, \"pa\": 9000},\n"
     "{\"flow_m3_s\": 0.01, \"pa\": 7000},\n{\"flow_m3_s\": 0.02, \"pa\": 7500}]},\n" TAIL GATE,
     "pressure does not fall", 4},
    {HEAD
     "\"curve\": {\"points\": [{\"flow_m3_s\": 0.03, \"pa\": 9000},\n"
     "{\"flow_m3_s\": 0.035, \"pa\": 7000}, {\"flow_m3_s\": 0.04, \"pa\": 5000}]},\n" TAIL GATE,
     "too close together", 2},
    {HEAD "\"curve\": {\"points\": [{\"flow_m3_s\": 0, \"pa\": 9000},\n"
          "{\"flow_m3_s\": 0.01, \"pa\": 8900}, {\"flow_m3_s\": 0.011, \"pa\": 3000},\n"
          "{\"flow_m3_s\": 0.03, \"pa\": 2900}]},\n" TAIL GATE,
     "on no blower's curve", 3},
    {HEAD "\"curve\": {\"points\": [{\"flow_m3_s\": 0, \"pa\": 900},\n"
          "{\"flow_m3_s\": 0.01, \"pa\": 600}, {\"flow_m3_s\": 0.02, \"pa\": 300}]},\n" TAIL GATE,
     "expected 1000 to 40000 Pa", 2},
    {HEAD CURVE "\"airlock\": {\"leak_m3_s\": 0.001, \"at_pa\": 10000},\n" TAIL GATE,
     "\"airlock\": only a curve of \"points\"", 3},
    {HEAD CURVE "\"hose\": {\"length_m\": 30, \"bore_m\": 0.05},\n"
                "\"tube\": {\"length_m\": 2.6, \"bore_m\": 0.035, \"outer_m\": 0.029},\n" GATE,
     "expected more than the bore", 4},
    {HEAD CURVE TAIL "\"gate\": {\"weighed\": [{\"open_frac\": 1, \"kg\": 5, \"s\": 60},\n"
                     "{\"open_frac\": 0.5, \"kg\": 5, \"s\": 60}], \"open_frac\": 1}}",
     "in proportion to its opening", 5},
    {HEAD CURVE TAIL "\"gate\": {\"max_kg_s\": 0.09, \"kg_s\": 0.1}}", "0.1 is out of range", 5},
    {HEAD CURVE TAIL "\"gait\": 1,\n" GATE, "unknown key \"gait\"", 5},
};

START_TEST(refuses_by_line_and_changes_nothing)
{
    const Refused *c = &refused[_i];
    PbRig rig = pb_rig_default(), before = rig;
    PbError err;
    ck_assert_int_ne(parse(c->text, &rig, &err), PB_OK);
    ck_assert_msg(strstr(err.message, c->says) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, c->line);
    ck_assert_mem_eq(&rig, &before, sizeof rig);
}
END_TEST

/* Kept runs and grades go by this hash: a name must not make another exercise of one. */
START_TEST(an_exercise_that_names_its_machine_is_the_one_with_its_numbers)
{
    PbExercise e, plain = pb_exercise_default();
    PbError err = {0};
    ck_assert_msg(
        io_exercise_load(PB_TEST_SOURCE_DIR "/assets/exercises/plain-2x4.json", &e, &err) == PB_OK,
        "%s", err.message);
    ck_assert_mem_eq(&e.machine, &plain.machine, sizeof e.machine);
    ck_assert_double_eq(e.feed_kg_s, plain.feed_kg_s);
    ck_assert_double_eq(e.bag_kg, plain.bag_kg);
    ck_assert_str_eq(e.material, ""); /* nothing of its own: no file is asked at a run */
    ck_assert_uint_eq(io_exercise_hash(&e), io_exercise_hash(&plain));
}
END_TEST

START_TEST(an_exercise_with_a_machine_that_is_not_there_is_refused_at_the_word)
{
    static const char text[] =
        "{\"format\": \"pullback exercise 1\", \"id\": \"a\", \"title\": \"A\",\n"
        "\"bay\": {\"width_m\": 0.368, \"height_m\": 2.35, \"depth_m\": 0.089},\n"
        "\"leaks\": {\"leak75_m3_s_m2\": 0.01}, \"finish\": {\"kind\": \"gypsum-12.7\"},\n"
        "\"hole\": {\"x_m\": 0.184, \"y_m\": 0.45},\n"
        "\"machine\": {\"file\": \"no-such\"}}";
    PbExercise e;
    PbError err = {0};
    ck_assert_int_eq(io_exercise_parse("a.json", text, strlen(text), &e, &err), PB_ERR_RANGE);
    ck_assert_int_eq(err.line, 5);
    ck_assert_int_eq(err.column, 21);
    ck_assert_str_eq(err.message, "\"file\": there is no \"no-such\" in machines/");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("machine_file");
    TCase *tc = tcase_create("all");
    tcase_add_loop_test(tc, a_curve_goes_through_the_points_of_a_known_blower, 0, 4);
    tcase_add_test(tc, what_leaks_through_the_airlock_does_not_reach_the_hose);
    tcase_add_test(tc, a_gate_is_what_was_weighed);
    tcase_add_loop_test(tc, refuses_by_line_and_changes_nothing, 0,
                        sizeof refused / sizeof refused[0]);
    tcase_add_test(tc, an_exercise_that_names_its_machine_is_the_one_with_its_numbers);
    tcase_add_test(tc, an_exercise_with_a_machine_that_is_not_there_is_refused_at_the_word);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
