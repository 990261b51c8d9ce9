/* Material files: own constants and draws both ways, refusals by place, and a run that takes them.
 */
#include "io/exercise_file.h"
#include "io/material_file.h"
#include "io/places.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define HEAD                                                                                       \
    "{\"format\": \"pullback material 1\", \"id\": \"m\", \"title\": \"M\", \"bag_kg\": 11.34"

static PbStatus parse(const char *text, PbProduct *p, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_material_parse("m.json", text, strlen(text), p, err);
}

static PbProduct fitted(void)
{
    PbProduct p = pb_product_default();
    p.own_count = 2;
    p.draw_count = PB_PRODUCT_DRAWS;
    p.constants.sigma45_pa_s_m2 = 9000.0;
    p.constants.wall_friction = 0.7;
    for (int i = 0; i < PB_PRODUCT_DRAWS; i++) {
        for (int k = 0; k < PB_CARRIERS; k++) {
            p.draw[i][k] = pb_carrier_info(k)->value * (1.0 + 0.002 * i);
        }
    }
    return p;
}

START_TEST(a_fit_comes_back_as_it_was_written)
{
    PbProduct p = fitted(), back;
    PbError err;
    json_t *json = io_material_to_json(&p);
    char *text = json_dumps(json, JSON_REAL_PRECISION(17));
    ck_assert_msg(parse(text, &back, &err) == PB_OK, "%d:%d: %s", err.line, err.column,
                  err.message);
    ck_assert_mem_eq(back.draw, p.draw, sizeof p.draw);
    ck_assert_double_eq(back.constants.sigma45_pa_s_m2, 9000.0);
    ck_assert_int_eq(back.own_count, 2);
    /* the wall holds more: the creep stress goes down with it, as the draws of years have it */
    ck_assert_double_eq_tol(back.constants.settle_rate_pa, p.constants.settle_rate_pa * 0.6 / 0.7,
                            1e-9);
    PbConstants drawn = pb_product_drawn(&back, &back.constants, 10);
    ck_assert_double_eq(drawn.sigma45_pa_s_m2, p.draw[10][0]);
    free(text);
    json_decref(json);
}
END_TEST

typedef struct Refused {
    const char *text, *says;
    int line;
} Refused;

static const Refused refused[] = {
    {HEAD ",\n\"label\": {\"area_m2\": 3, \"depth_m\": 0.089, \"density_kg_m3\": 56}}",
     "take 14.95 kg, expected the bag's 11.34 kg", 2},
    {HEAD ",\n\"constants\": {\"gypsum_12_7_pa\": 4000}}", "is no constant of a material", 2},
    {HEAD ",\n\"constants\": {\n\"sigma45_pa_s_m2\": -8000}}", "-8000 is out of range", 3},
    {HEAD ",\n\"draws\": [{\"sigma45_pa_s_m2\": 8000}]}", "list [ ... ] of 40 to 40 items", 2},
    {HEAD ",\n\"damp_frac\": 0.6}", "0.6 is out of range, expected 0 to 0.5 kg/kg", 2},
    {HEAD ",\n\"brand\": \"x\"}", "unknown key \"brand\"", 2},
};

START_TEST(refuses_by_line_and_changes_nothing)
{
    const Refused *c = &refused[_i];
    PbProduct p = fitted(), before = p;
    PbError err;
    ck_assert_int_ne(parse(c->text, &p, &err), PB_OK);
    ck_assert_msg(strstr(err.message, c->says) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, c->line);
    ck_assert_mem_eq(&p, &before, sizeof p);
}
END_TEST

static void write_file(const char *path, const char *text)
{
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    ck_assert_int_ge(fputs(text, f), 0);
    ck_assert_int_eq(fclose(f), 0);
}

START_TEST(an_exercise_by_path_brings_the_constants_of_its_material)
{
    char exercise[64], material[64], text[700];
    PbExercise e;
    PbError err = {0};
    PbConstants c = pb_constants_default();
    snprintf(exercise, sizeof exercise, "e-%d.json", (int)getpid());
    snprintf(material, sizeof material, "m-%d.json", (int)getpid());
    write_file(material, HEAD ", \"damp_frac\": 0.05, \"constants\": {\"entry_shape\": 0.5}}");
    snprintf(text, sizeof text,
             "{\"format\": \"pullback exercise 1\", \"id\": \"a\", \"title\": \"A\",\n"
             "\"bay\": {\"width_m\": 0.368, \"height_m\": 2.35, \"depth_m\": 0.089},\n"
             "\"leaks\": {\"leak75_m3_s_m2\": 0.01}, \"finish\": {\"kind\": \"gypsum-12.7\"},\n"
             "\"hole\": {\"x_m\": 0.184, \"y_m\": 0.45}, \"material\": {\"file\": \"%s\"}}",
             material);
    write_file(exercise, text);
    ck_assert_msg(io_exercise_load(exercise, &e, &err) == PB_OK, "%s", err.message);
    ck_assert_double_eq(e.damp_frac, 0.05);
    ck_assert_int_eq(io_exercise_constants(&e, &c, &err), PB_OK);
    ck_assert_double_eq(c.entry_shape, 0.5);
    unlink(exercise);
    unlink(material);
}
END_TEST

START_TEST(a_name_is_looked_for_in_the_shipped_folder_before_a_persons_own)
{
    static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    char path[300];
    PbError err = {0};
    io_places_set(folders, 1);
    ck_assert_int_eq(io_place_of("materials", "cellulose", NULL, path, sizeof path, &err), PB_OK);
    ck_assert_str_eq(path, PB_TEST_SOURCE_DIR "/assets/materials/cellulose.json");
    ck_assert_int_eq(io_place_of("materials", "Cell ulose", NULL, path, sizeof path, &err),
                     PB_ERR_RANGE);
    ck_assert_int_eq(io_place_of("materials", "no/such.json", NULL, path, sizeof path, &err),
                     PB_ERR_RANGE);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("material_file");
    TCase *tc = tcase_create("all");
    tcase_add_test(tc, a_fit_comes_back_as_it_was_written);
    tcase_add_loop_test(tc, refuses_by_line_and_changes_nothing, 0,
                        sizeof refused / sizeof refused[0]);
    tcase_add_test(tc, an_exercise_by_path_brings_the_constants_of_its_material);
    tcase_add_test(tc, a_name_is_looked_for_in_the_shipped_folder_before_a_persons_own);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
