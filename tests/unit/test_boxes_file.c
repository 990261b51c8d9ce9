/* Tables of weighed boxes: columns in any order and unit, refusals by line and column. */
#include "io/boxes_file.h"
#include "suite.h"

#include <string.h>

#define HEAD "width_m,height_m,depth_m,mass_kg,static_pa,feed_kg_s,step_m\n"
#define ONE  "0.368,1.2,0.089,2.3,19900,0.065,0.3\n"
#define TWO  "0.368,1.2,0.140,3.6,19900,0.065,0.3\n"
#define TRI  "0.368,1.2,0.089,2.1,10000,0.065,0.3\n"

static PbStatus parse(const char *text, IoBoxes *b, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_boxes_parse("b.csv", text, strlen(text), b, err);
}

START_TEST(a_crews_units_become_si)
{
    static const char text[] =
        "# weighed in May\n\n"
        "mass_lb, width_in, height_in, depth_in, static_in_wc, feed_lb_min, step_ft, gauge_in_wc\n"
        "5.2, 14.5, 48, 3.5, 80, 8.6, 1, 54\n"
        "5.2, 14.5, 48, 3.5, 40, 8.6, 1,\n"
        "8.1, 14.5, 48, 5.5, 80, 8.6, 1, 0\n";
    IoBoxes b;
    PbError err;
    ck_assert_msg(parse(text, &b, &err) == PB_OK, "%d:%d: %s", err.line, err.column, err.message);
    ck_assert_int_eq(b.count, 3);
    ck_assert_double_eq_tol(b.box[0].mass_kg, 2.3587, 1e-4);
    ck_assert_double_eq_tol(b.box[0].depth_m, 0.0889, 1e-9);
    ck_assert_double_eq_tol(b.box[0].static_pa, 19927.0, 1.0);
    ck_assert_double_eq_tol(b.box[0].feed_kg_s, 0.06502, 1e-5);
    ck_assert_double_eq_tol(b.box[0].gauge_pa, 13451.0, 1.0);
    ck_assert_double_eq(b.box[1].gauge_pa, 0.0);
    ck_assert_double_eq(b.box[1].wait_s, 1.0);                     /* as the plain hands */
    ck_assert_double_eq_tol(pb_fit_weighed(&b.box[0]), 59.1, 0.1); /* 3.7 lb/ft3 */
    ck_assert_int_eq(b.line[2], 6);
}
END_TEST

typedef struct Refused {
    const char *text, *says;
    int line, column;
} Refused;

static const Refused refused[] = {
    {HEAD ONE "0.368,1.2,0.089,0.04,19900,0.065,0.3\n" TRI,
     "this box is lighter than air: 1.02 kg/m3", 3, 17},
    {HEAD ONE TWO "0.368,1.2,0.089,2.1,-10000,0.065,0.3\n",
     "\"static_pa\": -10000 is out of range, expected 1000 to 4e+04", 4, 21},
    {HEAD ONE, "1 box cannot tell 8 constants apart, expected at least 3", 2, 1},
    {HEAD ONE ONE ONE ONE, "1 box cannot tell 8 constants apart", 5, 1},
    {HEAD ONE TWO "0.368,1.2,0.089,heavy,19900,0.065,0.3\n", "found \"heavy\", expected a number",
     4, 17},
    {HEAD ONE "0.368,1.2\n", "expected 7 values", 3, 7},
    {HEAD ONE "0.368,1.2,0.089,2.3,19900,0.065,0.3,9\n", "expected 7 values", 3, 37},
    {"width_m,height_m,depth_m,mass_kg,static_pa,feed_kg_s\n" ONE, "\"step_m\" is missing", 1, 1},
    {"width_m,height_m,depth_m,mass_kg,static_pa,feed_kg_s,stride\n" ONE,
     "found \"stride\", expected the name of a column", 1, 54},
    {"mass_lb,height_m,depth_m,mass_kg\n", "\"mass_kg\" is given twice", 1, 26},
    {"", "expected a line with the names of columns", 1, 1},
};

START_TEST(refuses_by_place_and_keeps_nothing)
{
    const Refused *c = &refused[_i];
    IoBoxes b, before;
    PbError err;
    memset(&b, 7, sizeof b);
    before = b;
    ck_assert_int_ne(parse(c->text, &b, &err), PB_OK);
    ck_assert_msg(strstr(err.message, c->says) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, c->line);
    ck_assert_int_eq(err.column, c->column);
    ck_assert_mem_eq(&b, &before, sizeof b);
}
END_TEST

START_TEST(the_example_of_the_documentation_is_taken)
{
    IoBoxes b;
    PbError err = {0};
    ck_assert_msg(io_boxes_load(PB_TEST_SOURCE_DIR "/docs/formats/examples/boxes.csv", &b, &err) ==
                      PB_OK,
                  "%s", err.message);
    ck_assert_int_eq(b.count, 6);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("boxes_file");
    TCase *tc = tcase_create("all");
    tcase_add_test(tc, a_crews_units_become_si);
    tcase_add_loop_test(tc, refuses_by_place_and_keeps_nothing, 0,
                        sizeof refused / sizeof refused[0]);
    tcase_add_test(tc, the_example_of_the_documentation_is_taken);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
