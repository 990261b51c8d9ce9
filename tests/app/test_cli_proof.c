/* pullback-cli proof as a person meets it: what is printed, the sheet filled in and empty, on one
 * page each, and what is off in one line. Needs pdftotext and pdfinfo (poppler-utils). */
#include "house_case.h"

/* The low house as it was measured: 40 bags and three cores. */
static void measured(const char *name)
{
    json_error_t error;
    char path[400];
    json_t *house = json_load_file(LOW, 0, &error);
    ck_assert_msg(house != NULL, "%s", error.text);
    json_object_set_new(house, "proof",
                        json_pack("{s:{s:f,s:f,s:f},s:[f,f,f],s:{s:{s:f,s:f}}}", "bags", "area_m2",
                                  118.0, "count", 47.5, "bag_kg", 11.34, "cores_kg_m3", 62.0, 66.0,
                                  64.0, "camera", "after", "stripe_k", 0.3, "air_k", 13.0));
    snprintf(path, sizeof path, "%s/%s", folder, name);
    ck_assert_int_eq(json_dump_file(house, path, JSON_INDENT(1)), 0);
    json_decref(house);
}

static int proof(const char *args, char *text, size_t size)
{
    char command[1600];
    snprintf(command, sizeof command, "'%s' proof %s", PB_TEST_CLI, args);
    return shell(command, text, size);
}

/* 47.5 x 11.34 kg in 118 x 0.77 x 0.089 m3: 67 kg/m3, 4.2 lb/ft3. */
START_TEST(prints_what_it_shows)
{
    static char text[8000];
    measured("m.json");
    ck_assert_int_eq(proof("m.json --years 10 --units us", text, sizeof text), 0);
    plain(text);
    static const char *const said[] = {
        "Bags and area: 47.5 bags of 25 lb in 1270 ft² of wall are 4.2 lb/ft³ on average",
        "Density: At least 3.8",
        "One missed bay of 206 is 0.5% of the fill",
        "the target of 3.5 lb/ft³ is reached.",
        "Leakage: Test the leakage before and after",
        "10 years\n  As predicted: R, whole wall: R ",
        "  As measured: R, whole wall: R "};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        ck_assert_msg(strstr(text, said[i]) != NULL, "\"%s\" is not in: %s", said[i], text);
    }
    ck_assert_int_eq(proof(Q_LOW, text, sizeof text), 0); /* a house of before the work */
    ck_assert_ptr_nonnull(strstr(text, "Count the bags"));
    ck_assert_ptr_null(strstr(text, "As predicted"));
}
END_TEST

START_TEST(makes_the_sheet_filled_in_and_empty)
{
    static char text[8000];
    measured("m.json");
    ck_assert_int_eq(
        proof("m.json --lang es --pdf full.pdf --company 'Demo & Co' --date 2026-11-30", text,
              sizeof text),
        0);
    page_text("full.pdf", text, sizeof text);
    static const char *const said[] = {"Comprobación del día",
                                       "Demo & Co",
                                       "2026-11-30",
                                       "47.5",
                                       "11.34 kg",
                                       "118 m²",
                                       "Muestra 2 66 kg/m³",
                                       "Densidad: Al menos 6",
                                       "Según lo medido, 30 años: R, pared"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        ck_assert_msg(strstr(text, said[i]) != NULL, "\"%s\" is not in: %s", said[i], text);
    }
    ck_assert_int_eq(proof("m.json --blank --units us --pdf empty.pdf", text, sizeof text), 0);
    page_text("empty.pdf", text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "How it is measured"));
    ck_assert_ptr_nonnull(strstr(text, "Core 3 lb/ft³"));
    ck_assert_ptr_null(strstr(text, "47.5")); /* nothing of this house but its name */
    ck_assert_ptr_null(strstr(text, "As measured"));
    ck_assert_int_eq(
        shell("for f in full empty; do pdfinfo $f.pdf | grep -q 'Pages: *1$' || exit 1; "
              "done",
              text, sizeof text),
        0);
}
END_TEST

static const struct {
    const char *args;
    int code;
    const char *says;
} off[] = {
    {"", 2, "expected HOUSE.json"},
    {"m.json --blank", 2, "expected --pdf"},
    {"m.json --years 0", 2, "0.25 to 200"},
    {"bad.json", 3, "\"count\": 0 is out of range, expected 0.1 to 5000 bags"},
    {"m.json --pdf no-folder/x.pdf", 4, "no-folder/x.pdf"},
};
enum { OFF = sizeof off / sizeof off[0] };

START_TEST(what_is_off_is_one_line)
{
    static char text[4000];
    char args[300];
    measured("m.json");
    ck_assert_int_eq(
        shell("sed 's/\"count\": 47.5/\"count\": 0/' m.json > bad.json", text, sizeof text), 0);
    snprintf(args, sizeof args, "%s 2>&1", off[_i].args);
    ck_assert_msg(proof(args, text, sizeof text) == off[_i].code, "%s: %s", off[_i].args, text);
    ck_assert_msg(strstr(text, off[_i].says) != NULL, "%s: %s", off[_i].args, text);
    ck_assert_msg(strchr(text, '\n') == text + strlen(text) - 1, "more than a line: %s", text);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_proof");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_test(tc, prints_what_it_shows);
    tcase_add_test(tc, makes_the_sheet_filled_in_and_empty);
    tcase_add_loop_test(tc, what_is_off_is_one_line, 0, OFF);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
