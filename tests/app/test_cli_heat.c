/* pullback-cli heat, as a person runs it: shipped cases, JSON, fields, and every refusal. */
#include "suite.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static char out[400000], err[4000], folder[64];

static void slurp(const char *path, char *text, size_t size)
{
    FILE *f = fopen(path, "rb");
    size_t n = f != NULL ? fread(text, 1, size - 1, f) : 0;
    text[n] = '\0';
    if (f != NULL) {
        fclose(f);
    }
}

static int run(const char *arguments)
{
    char command[4096];
    snprintf(command, sizeof command, "cd %s && '%s' heat %s >out.txt 2>err.txt", folder,
             PB_TEST_CLI, arguments);
    int code = system(command);
    snprintf(command, sizeof command, "%s/out.txt", folder);
    slurp(command, out, sizeof out);
    snprintf(command, sizeof command, "%s/err.txt", folder);
    slurp(command, err, sizeof err);
    return WIFEXITED(code) ? WEXITSTATUS(code) : -1;
}

static void put(const char *name, const char *text)
{
    char path[256];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *f = fopen(path, "wb");
    ck_assert_ptr_nonnull(f);
    fputs(text, f);
    fclose(f);
}

static void setup(void)
{
    strcpy(folder, "/tmp/pb_heat_XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void teardown(void)
{
    char command[128];
    snprintf(command, sizeof command, "rm -r %s", folder);
    ck_assert_int_eq(system(command), 0);
}

static double number(const char *key)
{
    json_t *root = json_loads(out, 0, NULL);
    ck_assert_msg(root != NULL, "not JSON: %.200s", out);
    json_t *v = json_object_get(root, key);
    double x = json_is_number(v) ? json_number_value(v) : (double)NAN;
    json_decref(root);
    return x;
}

static int shipped(const char *options, const char *name)
{
    char arguments[1024];
    snprintf(arguments, sizeof arguments, "%s '%s/assets/heat/%s'", options, PB_TEST_SOURCE_DIR,
             name);
    return run(arguments);
}

START_TEST(shipped_cavities_give_published_figures)
{
    ck_assert_int_eq(shipped("--json", "cavity_air_ra1e5.json"), 0);
    ck_assert(fabs(number("nusselt_mean") / 4.5216 - 1.0) < 0.005); /* later accurate solutions */
    ck_assert(fabs(number("nusselt_max") / 7.717 - 1.0) < 0.01);    /* de Vahl Davis 1983 */
    ck_assert(fabs(number("u_mid_max_m_s") / 34.73 - 1.0) < 0.01);
    ck_assert(number("balance_error") < 1e-6);
    ck_assert(number("u_max_m_s") >= number("u_mid_max_m_s"));
    ck_assert_int_eq(shipped("--json --grid 24x24", "cavity_air_ra1e5.json"), 0);
    ck_assert(fabs(number("nusselt_mean") / 4.5216 - 1.0) < 0.005);
    ck_assert_int_eq(shipped("--json", "cavity_darcy_ra100.json"), 0);
    ck_assert(fabs(number("nusselt_mean") / 3.1115 - 1.0) < 0.005); /* separate extrapolation */
    ck_assert_int_eq(shipped("--json", "cavity_brinkman.json"), 0);
    ck_assert(fabs(number("nusselt_mean") / 2.84 - 1.0) < 0.01); /* Lauriat and Prasad 1987 */
}
END_TEST

START_TEST(shipped_iso_cases_give_the_tables)
{
    static const double table[9] = {7.1, 0.8, 7.9, 6.3, 0.8, 16.4, 16.3, 16.8, 18.3};
    ck_assert_int_eq(shipped("--json", "iso10211_case2.json"), 0); /* ISO 10211:2007 Annex A */
    json_t *root = json_loads(out, 0, NULL), *probes = json_object_get(root, "probes");
    ck_assert_uint_eq(json_array_size(probes), 9);
    for (size_t n = 0; n < 9; n++) {
        double t = json_number_value(json_object_get(json_array_get(probes, n), "t_c"));
        ck_assert_msg(fabs(t - table[n]) < 0.1, "%zu: %g", n, t);
    }
    json_t *flow = json_object_get(root, "heat_flow_w_m");
    ck_assert(fabs(json_number_value(json_object_get(flow, "bottom")) - 9.5) < 0.1);
    ck_assert(json_is_null(json_object_get(root, "nusselt_mean")));
    json_decref(root);
    ck_assert_int_eq(shipped("", "iso10211_case1.json"), 0);
    ck_assert_ptr_nonnull(strstr(out, "no loop"));
}
END_TEST

START_TEST(a_wall_case_gives_u_and_its_loop)
{
    ck_assert_int_eq(shipped("--json", "wall_foam_gaps.json"), 0);
    /* separate finite-element solution, converged: 0.44099 */
    ck_assert(fabs(number("u_w_m2k") / 0.44099 - 1.0) < 0.005);
    ck_assert(fabs(number("r_m2k_w") * number("u_w_m2k") - 1.0) < 1e-6);
    ck_assert(number("surface_room_min_c") < 13.0 && number("surface_room_max_c") > 19.0);
    ck_assert(number("psi_max_m2_s") > 1.9e-4);
}
END_TEST

START_TEST(field_files_hold_every_cell)
{
    ck_assert_int_eq(shipped("--grid 16x20 --field f.csv", "cavity_darcy_ra100.json"), 0);
    char path[128];
    snprintf(path, sizeof path, "%s/f.csv", folder);
    slurp(path, out, sizeof out);
    ck_assert_ptr_eq(strstr(out, "x_m,y_m,t_c,u_m_s,v_m_s,psi_m2_s\n"), out);
    int lines = 0;
    for (const char *p = out; *p != '\0'; p++) {
        lines += *p == '\n';
    }
    ck_assert_int_eq(lines, 1 + 16 * 20);
    ck_assert_int_eq(shipped("--field missing/f.csv", "cavity_darcy_ra100.json"), 4);
}
END_TEST

START_TEST(a_field_file_takes_no_other_place)
{
    char command[1200], kept[256];
    snprintf(command, sizeof command, "cp '%s/assets/heat/cavity_darcy_ra100.json' %s/c.json",
             PB_TEST_SOURCE_DIR, folder);
    ck_assert_int_eq(system(command), 0);
    ck_assert_int_eq(run("c.json --field ./c.json"), 3);
    ck_assert_ptr_nonnull(strstr(err, "\"./c.json\" is named twice"));
    snprintf(kept, sizeof kept, "%s/c.json", folder);
    slurp(kept, out, sizeof out);
    ck_assert_int_eq(out[0], '{');
    /* a pipe is written to and stays a pipe */
    snprintf(
        command, sizeof command,
        "cd %s && mkfifo p && { cat p > got & '%s' heat c.json --grid 4x4 --field p > /dev/null "
        "&& wait && test -p p && test $(wc -l < got) = 17; }",
        folder, PB_TEST_CLI);
    ck_assert_int_eq(system(command), 0);
}
END_TEST

START_TEST(bays_say_what_they_are_worth)
{
    ck_assert_int_eq(shipped("--json --bay", "bay_full_60.json"), 0);
    double r_full = number("r_m2k_w");
    ck_assert(r_full > 2.0 && r_full < 2.4);
    /* Plaster on lath, boards and lapped wood in place of the simple wall's R_o of 0.342: R-2.18.
     */
    put("clad.json", "{\"state\": \"full 60\", \"wall\": {\"inside\": \"plaster-wood-lath\","
                     "\"sheathing\": \"boards\", \"cladding\": \"wood-lap\"}}");
    ck_assert_int_eq(run("--bay --json clad.json"), 0);
    ck_assert_double_eq_tol(number("r_m2k_w") - r_full, 0.17 + 2.18 * 0.1761 - 0.342, 0.02);
    ck_assert_int_eq(shipped("--json --bay", "bay_top_void.json"), 0);
    ck_assert(number("r_m2k_w") < 0.9 * r_full);
    json_t *root = json_loads(out, 0, NULL);
    json_t *cost = json_object_get(root, "season_cost_low_mid_high");
    double low = json_number_value(json_array_get(cost, 0));
    ck_assert(low < json_number_value(json_array_get(cost, 1)));
    json_t *map = json_object_get(root, "surface_map");
    json_t *rows = json_object_get(map, "rows_from_bottom_c");
    ck_assert_uint_eq(json_array_size(rows), 160);
    ck_assert_uint_eq(json_array_size(json_array_get(rows, 0)), 48);
    ck_assert(json_number_value(json_object_get(root, "leak_75_pa_l_s")) > 0.0);
    json_decref(root);
    ck_assert_int_eq(shipped("--bay", "bay_foam_6_ends_open.json"), 0);
    ck_assert_ptr_nonnull(strstr(out, "not part of R"));
    ck_assert_int_eq(shipped("--bay --field map.csv", "bay_map.json"), 0);
    put("same.json", "{\"state\": \"top void 0.2 m at 40\"}");
    ck_assert_int_eq(run("--bay --json same.json"), 0);
}
END_TEST

#define SIDES                                                                                      \
    "\"sides\": {\"left\": {\"kind\": \"fixed\", \"temperature_c\": 1},\n"                         \
    "\"right\": {\"kind\": \"fixed\", \"temperature_c\": 0},\n"                                    \
    "\"bottom\": {\"kind\": \"adiabatic\"}, \"top\": {\"kind\": \"adiabatic\"}}"
#define BACK "\"background\": {\"kind\": \"solid\", \"k_w_mk\": 1}"

typedef struct Bad {
    const char *text, *place, *says;
} Bad;

static const Bad bad_cases[] = {
    {"{\n\"width_m\": 0,\n\"height_m\": 1, " BACK ", " SIDES "}", ":2:12:", "out of range"},
    {"{\"dimensionless\": {\"kind\": \"air\",\n \"pr\": 1e6, \"ra\": 1e9}}",
     ":2:19:", "\"ra\": 1e+09 times \"pr\" is 1e+15, expected below 1e+15"},
    {"{\"dimensionless\": {\"kind\": \"brinkman\",\n \"ra\": 1e9, \"da\": 1e-12}}",
     ":2:", "\"ra\": 1e+09 over \"da\" is"},
    {"{\n\"width_m\": -1, \"height_m\": 1, " BACK ", " SIDES "}", ":2:12:", "out of range"},
    {"{\n\"width_m\": NaN, \"height_m\": 1}", ":2:", ""},
    {"{\n\"width_m\": 1e999, \"height_m\": 1}", ":2:", ""},
    {"{\"width_m\": 1, \"height_m\": 1,\n" BACK "}", ":1:1:", "\"sides\" is missing"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK
     ",\n\"sides\": {\"left\": {\"kind\": \"adiabatic\"}}}",
     ":2:", "\"right\" is missing"},
    {"{\"width_m\": 1, \"height_m\": 1,\n\"background\": {\"kind\": \"solid\", \"k_w_mk\": "
     "1000}, " SIDES "}",
     ":2:", "0.0001 to 500"},
    {"{\"width_m\": 1, \"height_m\": 1,\n\"background\": {\"kind\": \"solid\", \"k_w_mk\": "
     "1e-5}, " SIDES "}",
     ":2:", "0.0001 to 500"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES ",\n\"regions\": ["
     "{\"x_m\": [0, 0.5], \"y_m\": [0, 0.5], \"kind\": \"solid\", \"k_w_mk\": 2},\n"
     "{\"x_m\": [0.4, 0.9], \"y_m\": [0.4, 0.9], \"kind\": \"solid\", \"k_w_mk\": 2}]}",
     ":5:", "overlaps"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES ",\n\"regions\": ["
     "{\"x_m\": [0.5, 0.5], \"y_m\": [0, 0.5], \"kind\": \"solid\", \"k_w_mk\": 2}]}",
     ":4:", "lower and then a higher"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES ",\n\"regions\": ["
     "{\"x_m\": [0.5, 1.5], \"y_m\": [0, 0.5], \"kind\": \"solid\", \"k_w_mk\": 2}]}",
     ":4:", "outside"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES ",\n\"grid\": [100000, 10000]}",
     ":4:", "out of range"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES ",\n\"grid\": [2000, 2000]}",
     ":4:", "at most 400000"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES ",\n\"girth\": 4}",
     ":4:1:", "unknown key"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK ", " SIDES
     ",\n\"probes\": [{\"x_m\": 2, \"y_m\": 0}]}",
     ":4:", "out of range"},
    {"{\"width_m\": 1, \"height_m\": 1, " BACK
     ",\n\"sides\": {\"left\": {\"kind\": \"adiabatic\"}, "
     "\"right\": {\"kind\": \"adiabatic\"}, \"bottom\": {\"kind\": \"adiabatic\"}, \"top\": "
     "{\"kind\": \"adiabatic\"}}}",
     ":2:", "adiabatic"},
    {"{\"dimensionless\": {\"kind\": \"air\", \"ra\": 1e99}}", ":1:", "out of range"},
    {"{\"dimensionless\": {\"kind\": \"steam\", \"ra\": 1}}", ":1:", "expected one of"},
    {"{\"dimensionless\": {\"kind\": \"brinkman\", \"ra\": 1}}", ":1:", "\"da\" is missing"},
    {"{\"width_m\": 1,", ":1:", ""},
    {"", ":", ""},
    {"[1]", ":1:1:", "object"},
};

static const Bad bad_bays[] = {
    {"{}", ":1:1:", "\"state\" is missing"},
    {"{\n\"state\": \"half full\"}", ":2:10:", "expected \"full 60\""},
    {"{\"state\": \"full 1e9\"}", ":1:", "expected"},
    {"{\"state\": \"top void 9 m\"}", ":1:", "expected"},
    {"{\"state\": \"top void -1 m\"}", ":1:", "expected"},
    {"{\"state\": \"full nan\"}", ":1:", "expected"},
    {"{\"state\": \"full 60\", \"width_m\": 0}", ":1:", "out of range"},
    {"{\"density_map\": [[40, 40],\n[40]]}", ":2:", "row of 2"},
    {"{\"density_map\": [[40, 40],\n[40, -3]]}", ":2:", "out of range"},
    {"{\"state\": \"full 60\",\n\"gaps\": [{\"x_m\": [0.3, 0.1]}]}", ":2:", "lower and then"},
    {"{\"state\": \"full 60\",\n\"climate\": {\"room_c\": 20, \"outdoor_c\": 20}}", ":2:", "0.1 K"},
    {"{\"state\": \"full 60\",\n\"climate\": {\"efficiency\": [0.9, 0.8, 0.7]}}", ":2:", "rising"},
    {"{\"state\": \"full 60\",\n\"wall\": {\"inside\": \"gypsum-1-2\"}}", ":2:", "nothing outside"},
    {"{\"state\": \"full 60\",\n\"wall\": \"thick\"}", ":2:", "expected one of \"simple\""},
    {"{\"state\": \"full 60\",\n\"grid\": [4, 4]}", ":2:", "out of range"},
    {"{\"state\": \"full 60\", \"density_map\": [[1],[1]]}", ":1:", "unknown key"},
};

static void check_bad(const Bad *b, const char *options)
{
    char arguments[256], path[256];
    put("bad.json", b->text);
    snprintf(arguments, sizeof arguments, "%s --field never.csv bad.json", options);
    int code = run(arguments);
    ck_assert_msg(code == 3, "exit %d for %s", code, b->text);
    ck_assert_msg(strstr(err, "bad.json") != NULL && strstr(err, b->place) != NULL &&
                      strstr(err, b->says) != NULL,
                  "expected %s %s, got %s for %s", b->place, b->says, err, b->text);
    ck_assert_ptr_eq(strchr(err, '\n'), err + strlen(err) - 1); /* one line */
    ck_assert_str_eq(out, "");
    snprintf(path, sizeof path, "%s/never.csv", folder);
    ck_assert_int_ne(access(path, F_OK), 0);
}

START_TEST(refuses_bad_cases_with_their_place)
{
    for (size_t n = 0; n < sizeof bad_cases / sizeof bad_cases[0]; n++) {
        check_bad(&bad_cases[n], "");
    }
    for (size_t n = 0; n < sizeof bad_bays / sizeof bad_bays[0]; n++) {
        check_bad(&bad_bays[n], "--bay");
    }
}
END_TEST

START_TEST(refuses_bad_command_lines)
{
    ck_assert_int_eq(run(""), 2);
    ck_assert_int_eq(run("--grid 1000000x1000 x.json"), 2);
    ck_assert_int_eq(run("--grid 3 x.json"), 2);
    ck_assert_int_eq(run("--wrong x.json"), 2);
    ck_assert_int_eq(run("a.json b.json"), 2);
    ck_assert_int_eq(run("none.json"), 4);
    ck_assert_int_eq(run("--bay none.json"), 4);
    ck_assert_int_eq(run("/"), 4);
    /* a grid that cannot show the regions */
    ck_assert_int_eq(shipped("--grid 8x8", "wall_foam_gaps.json"), 3);
    ck_assert_ptr_nonnull(strstr(err, "too coarse"));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("cli_heat");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, setup, teardown);
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, shipped_cavities_give_published_figures);
    tcase_add_test(tc, shipped_iso_cases_give_the_tables);
    tcase_add_test(tc, a_wall_case_gives_u_and_its_loop);
    tcase_add_test(tc, field_files_hold_every_cell);
    tcase_add_test(tc, a_field_file_takes_no_other_place);
    tcase_add_test(tc, bays_say_what_they_are_worth);
    tcase_add_test(tc, refuses_bad_cases_with_their_place);
    tcase_add_test(tc, refuses_bad_command_lines);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
