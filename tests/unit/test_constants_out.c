/* The table of constants as other programs and people read it. */
#include "core/constants.h"
#include "io/constants_out.h"

#include "suite.h"

#include <jansson.h>
#include <string.h>

START_TEST(json_brings_back_the_same_values)
{
    char *text = io_constants_json();
    ck_assert_ptr_nonnull(text);
    json_t *list = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    ck_assert_uint_eq(json_array_size(list), count);
    for (size_t i = 0; i < count; i++) {
        json_t *row = json_array_get(list, i);
        ck_assert_str_eq(json_string_value(json_object_get(row, "name")), table[i].name);
        ck_assert_str_eq(json_string_value(json_object_get(row, "source")), table[i].source);
        ck_assert_double_eq(json_real_value(json_object_get(row, "value")), table[i].value);
        ck_assert_double_eq(json_real_value(json_object_get(row, "low")), table[i].low);
        ck_assert_double_eq(json_real_value(json_object_get(row, "high")), table[i].high);
    }
    json_decref(list);
    free(text);
}
END_TEST

START_TEST(page_has_one_row_of_six_cells_for_each)
{
    char *text = io_constants_markdown();
    ck_assert_ptr_nonnull(text);
    size_t count, rows = 0;
    const PbConstantInfo *table = pb_constants_table(&count);
    for (char *line = strtok(text, "\n"); line != NULL; line = strtok(NULL, "\n")) {
        if (strncmp(line, "| `", 3) != 0) {
            continue;
        }
        ck_assert_uint_lt(rows, count);
        ck_assert_msg(strncmp(line + 3, table[rows].name, strlen(table[rows].name)) == 0, "%s",
                      line);
        int bars = 0;
        for (const char *p = line; *p != '\0'; p++) {
            bars += *p == '|' && (p == line || p[-1] != '\\');
        }
        ck_assert_msg(bars == 7, "%s", line);
        rows++;
    }
    ck_assert_uint_eq(rows, count);
    free(text);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("constants_out");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, json_brings_back_the_same_values);
    tcase_add_test(tc, page_has_one_row_of_six_cells_for_each);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
