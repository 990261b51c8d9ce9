/*
 * pullback-cli compare as a person and another program meet it: JSON and CSV agree, nothing is
 * compared too early, bad input is one line. The handout: test_cli_handout.c.
 */
#include "house_case.h"

/* 19 draws are one too few, and page, text and JSON all say so. */
START_TEST(nothing_is_compared_before_there_are_draws_enough)
{
    static char text[40000], waiting[40000];
    static const char *const waits[2] = {"not compared yet: 19 of 20 trials.",
                                         "todavía sin comparar: 19 de 20 corridas."};
    static const char *const verdicts[] = {"as much",     "about the same", "either could",
                                           "más o menos", "deja pasar",     "lets through",
                                           "cualquiera"};
    for (int k = all_of_it() ? 0 : 1; k < 2; k++) { /* Spanish alone for a sample */
        char args[300];
        snprintf(args, sizeof args, Q_LOW " --draws 19 --lang %s --date x --pdf f.pdf --json -",
                 k ? "es" : "en");
        ck_assert_int_eq(compare(args, text, sizeof text), 0);
        snprintf(args, sizeof args, Q_LOW " --draws 19 --lang %s", k ? "es" : "en");
        ck_assert_int_eq(compare(args, text, sizeof text), 0);
        page_text("f.pdf", waiting, sizeof waiting);
        char *behind = strstr(waiting, k ? "Lo que se supone" : "What is assumed");
        ck_assert_ptr_nonnull(behind);
        *behind = '\0'; /* constants of the next page: what lets vapor through */
        plain(text);
        for (size_t i = 0; i < sizeof verdicts / sizeof verdicts[0]; i++) {
            ck_assert_msg(strstr(waiting, verdicts[i]) == NULL, "\"%s\" on %.2000s", verdicts[i],
                          waiting);
            ck_assert_msg(strstr(text, verdicts[i]) == NULL, "\"%s\" in %s", verdicts[i], text);
        }
        int count = 0;
        for (const char *at = text; (at = strstr(at, waits[k])) != NULL; at++) {
            count++;
        }
        ck_assert_int_eq(count, 8); /* four fills, two times */
        ck_assert_ptr_nonnull(strstr(text, "≈ "));
        ck_assert_ptr_nonnull(strstr(waiting, "≈ "));
        ck_assert_ptr_nonnull(strstr(waiting, waits[k]));
    }
}
END_TEST

enum { AIR_CELLS = 21 + 4 }; /* air and moisture after it */

START_TEST(json_and_csv_hold_the_same_and_threads_change_no_byte)
{
    static char text[100000], again[100000];
    ck_assert_int_eq(compare(Q_LOW
                             " --draws 3 --years 0,1,30 --threads 1 --json d.json --csv d.csv",
                             text, sizeof text),
                     0);
    ck_assert_int_eq(compare(Q_LOW " --draws 3 --years 0,1,30 --threads 3 --json e.json --csv -",
                             again, sizeof again),
                     0);
    ck_assert_int_eq(shell("cmp d.json e.json", text, sizeof text), 0);
    ck_assert_int_eq(shell("cat d.csv", text, sizeof text), 0);
    ck_assert_str_eq(text, again);
    json_t *all = load("d.json");
    char *line = strchr(text, '\n') + 1;
    for (int f = 0; f < 4; f++) {
        for (size_t t = 0; t < 3; t++) {
            char name[16];
            double years, low, mid, high;
            ck_assert_int_eq(
                sscanf(line, "%15[^,],%lf,%lf,%lf,%lf", name, &years, &low, &mid, &high), 5);
            json_t *at = time_of(all, f, t);
            ck_assert_double_eq(years, json_number_value(json_object_get(at, "years")));
            /* CSV has ten figures */
            ck_assert_double_eq_tol(low, part(at, "r_m2k_w", "low"), 1e-9);
            ck_assert_double_eq_tol(mid, part(at, "r_m2k_w", "mid"), 1e-9);
            ck_assert_double_eq_tol(high, part(at, "r_m2k_w", "high"), 1e-9);
            char *end = strchr(line, '\n'), *saved = end, unit[8];
            for (int commas = 0; commas < 7 + AIR_CELLS; commas += *saved == ',') {
                saved--;
            }
            ck_assert_int_eq(sscanf(saved, ",%lf,%lf,%lf,%7[^,]", &low, &mid, &high, unit), 4);
            ck_assert_double_eq_tol(mid, part(json_object_get(at, "saved"), "units", "mid"),
                                    1e-9 * fabs(mid) + 1e-9);
            ck_assert_str_eq(unit, "kWh");
            line = end + 1;
        }
    }
    ck_assert_str_eq(line, "");
    json_decref(all);
}
END_TEST

START_TEST(a_recorded_run_stands_in_for_the_dense_pack)
{
    static char text[20000];
    ck_assert_int_eq(compare(Q_DEMO " --draws 0 --years 30 --json f.json --own '" PB_TEST_SOURCE_DIR
                                    "/tests/app/recorded.pbrun' 2>&1",
                             text, sizeof text),
                     0);
    json_t *all = load("f.json");
    ck_assert_str_eq(json_string_value(json_object_get(all, "dense")), "own");
    ck_assert_int_eq(compare(Q_DEMO " --draws 0 --own '" DEMO "' 2>&1", text, sizeof text), 3);
    json_decref(all);
}
END_TEST

/* A bill of forty therms, where the walls alone take hundreds: told, and nothing that hangs on it.
 */
START_TEST(holds_back_what_the_bill_contradicts)
{
    static char text[20000];
    json_error_t error;
    json_t *house = json_load_file(LOW, 0, &error);
    ck_assert_msg(house != NULL, "%s", error.text);
    json_object_del(house, "price_per_kwh");
    json_object_set_new(
        house, "bill",
        json_pack("{s:s,s:f,s:i}", "fuel", "gas-therm", "price", 1.4, "last_year", 40));
    char path[400];
    snprintf(path, sizeof path, "%s/bill.json", folder);
    ck_assert_int_eq(json_dump_file(house, path, 0), 0);
    json_decref(house);
    ck_assert_int_eq(compare("bill.json --draws 0 --years 30 --json g.json", text, sizeof text), 0);
    json_t *all = load("g.json");
    for (int f = 0; f < 4; f++) {
        json_t *saved = json_object_get(time_of(all, f, 1), "saved");
        ck_assert(json_is_true(json_object_get(saved, "is_held_back")));
        ck_assert_double_gt(part(saved, "wall_units", "mid"), 40.0);
        ck_assert_ptr_null(json_object_get(saved, "units"));
        ck_assert_ptr_null(json_object_get(saved, "money"));
    }
    json_decref(all);
    ck_assert_int_eq(compare("bill.json --draws 0 --years 30", text, sizeof text), 0);
    plain(text);
    ck_assert_ptr_nonnull(strstr(text, "The walls alone would burn more than the bill: "));
    ck_assert_ptr_null(strstr(text, "Saves "));
    ck_assert_ptr_null(strstr(text, "USD"));
}
END_TEST

START_TEST(speaks_both_languages)
{
    static char text[20000];
    ck_assert_int_eq(compare(Q_LOW " --draws 0 --years 30 --lang es --units us", text, sizeof text),
                     0);
    plain(text);
    ck_assert_ptr_nonnull(strstr(text, "Empacado denso: ≈ R "));
    ck_assert_ptr_nonnull(strstr(text, "Casa de muestra, Pueblo de muestra: Una cavidad"));
    ck_assert_ptr_nonnull(strstr(text, "una promesa"));
    ck_assert_int_eq(compare(Q_LOW " --draws 0 --years 30", text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "Dense pack: "));
    ck_assert_ptr_nonnull(strstr(text, "no promise"));
}
END_TEST

static const struct {
    const char *args;
    int code;
    const char *says;
} off[] = {
    {"", 2, "expected HOUSE.json"},
    {Q_DEMO " more.json", 2, "too many"},
    {Q_DEMO " --years 30,20", 2, "rising list"},
    {Q_DEMO " --years soon", 2, "rising list"},
    {Q_DEMO " --years 0 --pdf x.pdf", 2, "a year after 0"},
    {Q_DEMO " --draws 201", 2, "0 to 200"},
    {Q_DEMO " --dense own", 2, "expected well-done or hasty"},
    {Q_DEMO " --foam", 2, "value is missing"},
    {Q_DEMO " --foam bad", 2, "expected good, typical or poor"},
    {"bad.json --json ./bad.json", 3, "\"./bad.json\" is named twice"},
    {Q_DEMO " --json - --csv -", 3, "\"-\" is named twice"},
    {"no-such.json", 4, "no-such.json"},
    {Q_LOW " --pdf x.pdf --company-file bad.json", 3,
     "bad.json:2:13: expected \"format\": \"pullback company 1\""},
    {Q_LOW " --pdf x.pdf --company-file no.json", 4, "no.json"},
    {"bad.json", 3, "bad.json:5:19: \"wall_area_m2\""},
    {Q_LOW " --draws 0 --json no-folder/x.json", 4, "no-folder/x.json"},
    {Q_LOW " --draws 0 --pdf no-folder/x.pdf", 4, "no-folder/x.pdf"},
};
enum { OFF = sizeof off / sizeof off[0] };

START_TEST(what_is_off_is_one_line_and_nothing_is_written)
{
    static char text[4000];
    char args[800];
    ck_assert_int_eq(shell("sed 's/\"wall_area_m2\": 118/\"wall_area_m2\": -4/' '" DEMO
                           "' > bad.json",
                           text, sizeof text),
                     0);
    snprintf(args, sizeof args, "%s 2>&1", off[_i].args);
    ck_assert_msg(compare(args, text, sizeof text) == off[_i].code, "%s: %s", off[_i].args, text);
    ck_assert_msg(strstr(text, off[_i].says) != NULL, "%s: %s", off[_i].args, text);
    ck_assert_msg(strchr(text, '\n') == text + strlen(text) - 1, "more than a line: %s", text);
    ck_assert_int_eq(shell("ls", text, sizeof text), 0);
    ck_assert_str_eq(text, "bad.json\n");
}
END_TEST

START_TEST(check_takes_a_house)
{
    static char text[4000];
    char command[900];
    snprintf(command, sizeof command, "'%s' check --house '%s'", PB_TEST_CLI, DEMO);
    ck_assert_int_eq(shell(command, text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "Demo house"));
    snprintf(command, sizeof command, "printf '{}' > e.json; '%s' check --house e.json 2>&1",
             PB_TEST_CLI);
    ck_assert_int_eq(shell(command, text, sizeof text), 3);
    ck_assert_ptr_nonnull(strstr(text, "e.json:1:1: "));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_compare");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_test(tc, nothing_is_compared_before_there_are_draws_enough);
    tcase_add_test(tc, json_and_csv_hold_the_same_and_threads_change_no_byte);
    tcase_add_test(tc, a_recorded_run_stands_in_for_the_dense_pack);
    tcase_add_test(tc, holds_back_what_the_bill_contradicts);
    tcase_add_test(tc, speaks_both_languages);
    tcase_add_loop_test(tc, what_is_off_is_one_line_and_nothing_is_written, 0, OFF);
    tcase_add_test(tc, check_takes_a_house);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
