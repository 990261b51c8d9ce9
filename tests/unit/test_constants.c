/* The shipped constants: every row complete, in its own range, reachable by name. */
#include "core/constants.h"

#include "suite.h"

#include <math.h>
#include <string.h>

START_TEST(rows_are_complete_and_inside_their_own_range)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    ck_assert_uint_gt(count, 0);
    for (size_t i = 0; i < count; i++) {
        const PbConstantInfo *c = &table[i];
        ck_assert_msg(isfinite(c->low) && isfinite(c->high) && c->low <= c->value &&
                          c->value <= c->high,
                      "%s: %g is not in %g .. %g", c->name, c->value, c->low, c->high);
        ck_assert_msg(c->unit[0] != '\0', "%s has no unit", c->name);
        ck_assert_msg(strlen(c->source) > 3, "%s has no source", c->name);
        ck_assert_msg(strlen(c->confidence) > 2, "%s has no confidence", c->name);
    }
}
END_TEST

START_TEST(names_are_unique_and_lead_to_their_field)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    PbConstants values = pb_constants_default();
    for (size_t i = 0; i < count; i++) {
        ck_assert_ptr_eq(pb_constant_find(table[i].name), &table[i]);
        ck_assert_double_eq(*pb_constant_at(&values, &table[i]), table[i].value);
        *pb_constant_at(&values, &table[i]) = (double)i + 0.5;
    }
    for (size_t i = 0; i < count; i++) {
        ck_assert_double_eq(*pb_constant_at(&values, &table[i]), (double)i + 0.5);
    }
}
END_TEST

START_TEST(knows_no_other_names)
{
    ck_assert_ptr_null(pb_constant_find(""));
    ck_assert_ptr_null(pb_constant_find("no_such_constant"));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("constants");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, rows_are_complete_and_inside_their_own_range);
    tcase_add_test(tc, names_are_unique_and_lead_to_their_field);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, knows_no_other_names);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
