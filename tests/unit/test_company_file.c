/* Company files: the example, what is missing stays empty, complaints at their place, bags by the
 * chart. */
#include "io/company_file.h"

#include "suite.h"

#include <string.h>

static PbStatus parse(const char *text, IoCompany *c, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_company_parse("company.json", text, strlen(text), c, err);
}

START_TEST(reads_the_example)
{
    IoCompany c;
    PbError err = {0};
    ck_assert_msg(io_company_load(PB_TEST_SOURCE_DIR "/docs/formats/examples/company.json", &c,
                                  &err) == PB_OK,
                  "%d:%d %s", err.line, err.column, err.message);
    ck_assert_str_eq(c.name, "Demo Company");
    ck_assert_str_eq(c.savings_notice, "");
    ck_assert_str_eq(c.product[PB_COMPARE_EMPTY].type, "");
    const IoProduct *dense = &c.product[PB_COMPARE_DENSE];
    ck_assert_str_eq(dense->sheet, "A-1");
    ck_assert_int_eq(dense->rows, 2);
    /* to 3 mm: 3 1/2 in. of a chart and 89 mm of a bay are the same */
    ck_assert_ptr_eq(io_chart_row(dense, 0.089), &dense->chart[0]);
    ck_assert_ptr_eq(io_chart_row(dense, 0.140), &dense->chart[1]);
    ck_assert_ptr_null(io_chart_row(dense, 0.0984)); /* a plastered bay: not in the chart */
}
END_TEST

/* 25 lb at 3.5 lb/ft3 and 3.5 in. cover 24.5 ft2: 1000 ft2 of cavity take 40.8 bags, so 41. */
START_TEST(counts_whole_bags)
{
    const double ft2 = 0.3048 * 0.3048;
    IoChartRow row = {0.0889, 2.29, 24.5 * ft2};
    ck_assert_int_eq(io_chart_bags(&row, 1000.0 * ft2), 41);
    ck_assert_int_eq(io_chart_bags(&row, 49.0 * ft2), 2); /* and not three by a last digit */
    row.coverage_m2 = 0.0;
    ck_assert_int_eq(io_chart_bags(&row, 93.0), 0);
}
END_TEST

START_TEST(an_empty_company_is_one)
{
    IoCompany c, none;
    PbError err;
    memset(&none, 0, sizeof none);
    ck_assert_int_eq(parse("{\"format\": \"pullback company 1\"}", &c, &err), PB_OK);
    ck_assert_mem_eq(&c, &none, sizeof c);
}
END_TEST

#define HEAD "{\"format\": \"pullback company 1\",\n"

static const struct {
    const char *text, *says;
    int line, column;
} off[] = {
    {"{\"format\": \"pullback house 1\"}", "pullback company 1", 1, 12},
    {HEAD " \"licence\": \"x\"}", "licence", 2, 2},
    {HEAD " \"name\": \"a\\nb\"}", "control characters", 2, 10},
    {HEAD " \"dense\": {\"chart\": [{\"thickness_m\": 3.5, \"r_m2k_w\": 2}]}}", "0.01 to 0.5", 2,
     38},
    {HEAD " \"dense\": {\"chart\": [{\"thickness_m\": 0.1}]}}", "r_m2k_w", 2, 22},
    {HEAD " \"dense\": {\"chart\": [{\"thickness_m\": 0.1, \"r_m2k_w\": 2},\n"
          "  {\"thickness_m\": 0.1, \"r_m2k_w\": 3}]}}",
     "thicker", 3, 3},
    {HEAD " \"loose\": [1]}", "loose", 2, 11},
};
enum { OFF = sizeof off / sizeof off[0] };

START_TEST(refuses_at_its_place)
{
    IoCompany c, before;
    PbError err;
    memset(&c, 7, sizeof c);
    before = c;
    ck_assert_int_ne(parse(off[_i].text, &c, &err), PB_OK);
    ck_assert_msg(strstr(err.message, off[_i].says) != NULL, "%s", err.message);
    ck_assert_msg(err.line == off[_i].line && err.column == off[_i].column, "%d:%d %s", err.line,
                  err.column, err.message);
    ck_assert_mem_eq(&c, &before, sizeof c);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("company_file");
    TCase *tc = tcase_create("all");
    tcase_add_test(tc, reads_the_example);
    tcase_add_test(tc, counts_whole_bags);
    tcase_add_test(tc, an_empty_company_is_one);
    tcase_add_loop_test(tc, refuses_at_its_place, 0, OFF);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
