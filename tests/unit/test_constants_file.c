/* Overrides of constants: taken by name, refused by name and range. */
#include "io/constants_file.h"

#include "suite.h"

#include <stdio.h>
#include <string.h>

static PbStatus parse(const char *text, PbConstants *c, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_constants_parse("trial.json", text, strlen(text), c, err);
}

START_TEST(overrides_by_name)
{
    PbConstants c = pb_constants_default(), d = c;
    PbError err;
    ck_assert_int_eq(parse("{\"constants\": [{\"name\": \"wall_friction\", \"value\": 0.7},"
                           "{\"name\": \"cohesion_pa\", \"value\": 6, \"unit\": \"Pa\"}]}",
                           &c, &err),
                     PB_OK);
    ck_assert_double_eq(c.wall_friction, 0.7);
    ck_assert_double_eq(c.cohesion_pa, 6.0);
    d.wall_friction = 0.7;
    d.cohesion_pa = 6.0;
    ck_assert_mem_eq(&c, &d, sizeof c);
}
END_TEST

START_TEST(takes_the_shipped_file_as_it_is)
{
    PbConstants c = pb_constants_default(), d = c;
    PbError err = {0};
    c.wall_friction = 0.1;
    ck_assert_msg(io_constants_load(PB_TEST_SOURCE_DIR "/assets/constants.json", &c, &err) == PB_OK,
                  "%d:%d %s", err.line, err.column, err.message);
    ck_assert_mem_eq(&c, &d, sizeof c);
}
END_TEST

static const struct {
    const char *text, *says;
    int line, column;
} refusals[] = {
    {"{}", "\"constants\" is missing", 1, 1},
    {"{\"constants\": []}", "expected a list", 1, 15},
    {"{\"constants\": [3]}", "expected a constant", 1, 16},
    {"{\"constants\": [{\"value\": 3}]}", "\"name\" is missing", 1, 16},
    {"{\"constants\": [{\"name\": \"wall_friction\"}]}", "\"value\" is missing", 1, 16},
    {"{\"constants\": [\n{\"name\": \"wall_fiction\", \"value\": 1}]}",
     "there is no constant \"wall_fiction\"", 2, 10},
    {"{\"constants\": [\n{\"name\": \"wall_friction\", \"value\": 40}]}",
     "40 is out of range, expected 0.125 to 3.2 -", 2, 36},
    {"{\"constants\": [\n{\"name\": \"wall_friction\", \"value\": \"high\"}]}", "expected a number",
     2, 36},
    {"{\"constants\": [{\"name\": \"wall_friction\", \"value\": 1},\n"
     "{\"name\": \"wall_friction\", \"value\": 1}]}",
     "given twice", 2, 10},
    {"{\"constants\": [\n{\"name\": \"wall_friction\", \"value\": 1, \"vale\": 1}]}",
     "unknown key \"vale\"", 2, 39},
    {"{\"constants\": [{\"name\": \"wall_friction\", \"value\": 1}],\n\"more\": 1}",
     "unknown key \"more\"", 2, 1},
};

START_TEST(refuses_by_every_rule)
{
    PbConstants c = pb_constants_default(), d = c;
    PbError err;
    ck_assert_int_ne(parse(refusals[_i].text, &c, &err), PB_OK);
    ck_assert_msg(strstr(err.message, refusals[_i].says) != NULL, "said: %s", err.message);
    ck_assert_msg(err.line == refusals[_i].line && err.column == refusals[_i].column,
                  "at %d:%d: %s", err.line, err.column, err.message);
    ck_assert_mem_eq(&c, &d, sizeof c);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("constants_file");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, overrides_by_name);
    tcase_add_test(tc, takes_the_shipped_file_as_it_is);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_loop_test(tc, refuses_by_every_rule, 0, (int)(sizeof refusals / sizeof refusals[0]));
    suite_add_tcase(s, tc);
    return run_suite(s);
}
