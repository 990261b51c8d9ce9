/* An old batt is insulation to everything that comes after the packing: heat, years, air along the
 * bay, files. The shipped exercise, packed by the shipped hands. */
#include "suite.h"

#include "core/aged_heat.h"
#include "core/compare.h"
#include "core/heat_bay.h"
#include "core/material.h"
#include "core/session.h"
#include "core/settle.h"
#include "io/climate_file.h"
#include "io/exercise_file.h"
#include "io/field_file.h"
#include "io/hands_file.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static double outer_r(const PbConstants *k)
{
    PbWall simple = {0};
    PbWallSkin skin = pb_wall_skin(&simple, k);
    return pb_wall_skin_r(&skin);
}

static PbBayField packed(const char *exercise)
{
    PbExercise e;
    PbHands hands;
    PbError err = {0};
    char path[400];
    PbBayField f;
    snprintf(path, sizeof path, "%s/assets/exercises/%s.json", PB_TEST_SOURCE_DIR, exercise);
    ck_assert_msg(io_exercise_load(path, &e, &err) == PB_OK, "%s", err.message);
    ck_assert_msg(
        io_hands_load(PB_TEST_SOURCE_DIR "/assets/hands/steady-foot.json", &hands, &err) == PB_OK,
        "%s", err.message);
    PbConstants k = pb_constants_default();
    PbAllocator memory = pb_allocator_default();
    ck_assert_int_eq(pb_compare_pack(&e, &hands, 1, &k, &memory, &f, &err), PB_OK);
    return f;
}

typedef struct Heat {
    double r_m2k_w, ratio, leak_75_l_s;
} Heat;

static Heat heat_of(const PbBayField *f)
{
    PbHeatBaySetup s = pb_heat_bay_default(f);
    PbConstants k = pb_constants_default();
    PbAllocator memory = pb_allocator_default();
    PbHeatBay *bay;
    PbError err = {0};
    s.strips = 4;
    s.map_nx = s.map_ny = 0;
    ck_assert_msg(pb_heat_bay_solve(&s, &k, &memory, &bay, &err) == PB_OK, "%s", err.message);
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    Heat h = {r->r_m2k_w, r->heat_ratio.mid, r->leak_75_l_s};
    pb_heat_bay_destroy(bay);
    return h;
}

/* The same cells as if wood stood there. */
static void make_wood(PbBayField *f)
{
    memset(f->batt_frac, 0, (size_t)f->nx * (size_t)f->ny * sizeof(double));
}

/* Batt and fill conduct within a few per cent of each other, so a well packed bay with a batt is
 * worth what one without it is; counted as wood it lost 30 % of its R. The plain bay is held to
 * 1 % and not closer, since its density changes by as much with each law of packing. */
START_TEST(a_packed_bay_with_a_batt_is_worth_what_a_packed_bay_is)
{
    PbBayField batt = packed("old-batt"), plain = packed("plain-2x4");
    Heat b = heat_of(&batt), p = heat_of(&plain);
    make_wood(&batt);
    Heat w = heat_of(&batt);
    printf("R %.3f and ratio %.3f with a batt, %.3f and %.3f plain, %.3f and %.3f were it wood\n",
           b.r_m2k_w, b.ratio, p.r_m2k_w, p.ratio, w.r_m2k_w, w.ratio);
    ck_assert_double_eq_tol(p.r_m2k_w, 2.18, 0.01);
    ck_assert_double_eq_tol(p.ratio, 1.01, 0.01);
    ck_assert_double_eq_tol(b.r_m2k_w, p.r_m2k_w, 0.02);
    ck_assert_double_eq_tol(b.ratio, p.ratio, 0.01);
    ck_assert_double_eq_tol(w.r_m2k_w, 0.693 * b.r_m2k_w, 0.01);
    pb_bay_field_destroy(&batt);
    pb_bay_field_destroy(&plain);
}
END_TEST

/* By hand: layers in series between two boards and two films, no stud. */
START_TEST(layers_across_the_depth_are_in_series)
{
    static const struct {
        double free, batt, kg_m3;
    } cells[] = {{0.0, 1.0, 0.0}, {0.45, 0.55, 56.0}, {0.6, 0.2, 45.0}};
    PbConstants k = pb_constants_default();
    PbAllocator memory = pb_allocator_default();
    for (size_t i = 0; i < sizeof cells / sizeof cells[0]; i++) {
        PbBayField f;
        ck_assert_int_eq(pb_bay_field_create(4, 20, 0.368, 2.35, 0.089, &f), PB_OK);
        for (int c = 0; c < 4 * 20; c++) {
            f.free_frac[c] = cells[i].free;
            f.batt_frac[c] = cells[i].batt;
            f.density_kg_m3[c] = cells[i].kg_m3;
        }
        PbHeatBaySetup s = pb_heat_bay_default(&f);
        PbHeatBay *bay;
        s.strips = 1;
        s.map_nx = s.map_ny = 0;
        PbError err = {0};
        ck_assert_msg(pb_heat_bay_solve(&s, &k, &memory, &bay, &err) == PB_OK, "%s", err.message);
        double fill = cells[i].free > 0.0
                          ? cells[i].free / pb_material_conductivity(&k, cells[i].kg_m3)
                          : 0.0;
        double wood = (1.0 - cells[i].free - cells[i].batt) / k.wood_k_w_mk;
        double cavity = f.depth_m * (fill + cells[i].batt / 0.042 + wood);
        ck_assert_double_eq_tol(pb_heat_bay_result(bay)->u_cavity_w_m2k,
                                1.0 / (outer_r(&k) + cavity), 1e-4);
        pb_heat_bay_destroy(bay);
        pb_bay_field_destroy(&f);
    }
}
END_TEST

/* Nothing behind the batt: R between that of the open bay and that of the batt alone over the whole
 * depth, and the air layer is worth what ISO 6946 gives one of 40 mm, 0.18 m2 K/W, within a
 * tenth. */
START_TEST(an_empty_place_behind_a_batt_is_a_layer_of_air)
{
    PbConstants k = pb_constants_default();
    PbAllocator memory = pb_allocator_default();
    PbBayField f;
    PbHeatBay *bay;
    ck_assert_int_eq(pb_bay_field_create(4, 20, 0.368, 2.35, 0.089, &f), PB_OK);
    for (int c = 0; c < 4 * 20; c++) {
        f.free_frac[c] = 0.45;
        f.batt_frac[c] = 0.55;
    }
    PbHeatBaySetup s = pb_heat_bay_default(&f);
    s.strips = 1;
    s.map_nx = s.map_ny = 0;
    ck_assert_int_eq(pb_heat_bay_solve(&s, &k, &memory, &bay, NULL), PB_OK);
    double layer =
        1.0 / pb_heat_bay_result(bay)->u_cavity_w_m2k - outer_r(&k) - 0.55 * f.depth_m / 0.042;
    printf("air layer beside a batt: %.3f m2 K/W\n", layer);
    ck_assert_double_eq_tol(layer, 0.18, 0.018);
    pb_heat_bay_destroy(bay);
    pb_bay_field_destroy(&f);
}
END_TEST

/* Thirty years and another grid of rows do not turn it into wood. */
START_TEST(it_stays_a_batt_through_the_years)
{
    PbBayField f = packed("old-batt");
    PbSettleConfig config = pb_settle_default();
    PbSettle *settle;
    PbAgedBay aged;
    PbError err = {0};
    ck_assert_msg(pb_settle_create(&f, &config, &settle, &err) == PB_OK, "%s", err.message);
    ck_assert_int_eq(pb_settle_advance(settle, 30.0), PB_OK);
    for (int rows = 0; rows <= 50; rows += 50) {
        double batt_m3 = 0.0, was_m3 = 0.0;
        ck_assert_int_eq(pb_settle_aged(settle, rows, &aged), PB_OK);
        for (int c = 0; c < f.nx * f.ny; c++) {
            was_m3 += f.batt_frac[c] / (f.nx * f.ny);
        }
        for (int c = 0; c < aged.field.nx * aged.field.ny; c++) {
            batt_m3 += aged.field.batt_frac[c] / (aged.field.nx * aged.field.ny);
        }
        ck_assert_double_gt(was_m3, 0.2);
        ck_assert_double_eq_tol(batt_m3, was_m3, 1e-12);
        pb_aged_destroy(&aged);
    }
    ck_assert_int_eq(pb_settle_aged(settle, 0, &aged), PB_OK);
    double r;
    ck_assert_int_eq(pb_aged_r(NULL, NULL, &aged, &r), PB_OK);
    printf("R after 30 years %.3f\n", r);
    ck_assert_double_eq_tol(r, 2.174, 0.02);
    pb_aged_destroy(&aged);
    pb_settle_destroy(settle);
    pb_bay_field_destroy(&f);
}
END_TEST

/* Through the file it stays one; a file of before, without the column, has wood there. */
START_TEST(it_stays_a_batt_through_a_file)
{
    PbBayField f = packed("old-batt"), back;
    PbError err = {0};
    char path[300];
    snprintf(path, sizeof path, "%s/batt_%ld.tmp", PB_TEST_BINARY_DIR, (long)getpid());
    ck_assert_msg(io_field_csv_write(path, &f, &err) == PB_OK, "%s", err.message);
    ck_assert_msg(io_field_csv_read(path, &back, &err) == PB_OK, "%s", err.message);
    ck_assert_mem_eq(f.batt_frac, back.batt_frac, (size_t)f.nx * (size_t)f.ny * sizeof(double));
    remove(path);
    pb_bay_field_destroy(&back);
    pb_bay_field_destroy(&f);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("batt_heat");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 300);
    tcase_add_test(all, a_packed_bay_with_a_batt_is_worth_what_a_packed_bay_is);
    tcase_add_test(all, layers_across_the_depth_are_in_series);
    tcase_add_test(all, an_empty_place_behind_a_batt_is_a_layer_of_air);
    tcase_add_test(all, it_stays_a_batt_through_the_years);
    tcase_add_test(all, it_stays_a_batt_through_a_file);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
