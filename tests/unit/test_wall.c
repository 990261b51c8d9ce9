/* A wall as layers: R of whole walls against hand calculations, what a bay makes of its layers, and
 * walls that cannot be. */
#include "core/wall.h"

#include "core/heat_bay.h"

#include "suite.h"

#include <math.h>
#include <string.h>

/*
 * Both limits of ISO 6946:2017 (6.7.2) worked by hand in US units and turned into m2 K/W by 0.1761.
 * Films 0.13 and 0.04 m2 K/W (ISO 6946, table 7), closed airspace of 25 mm and more at level heat
 * flow 0.18 (table 8). R of layers, ft2 F h/Btu: ASHRAE Handbook, Fundamentals, 2005, chapter 25,
 * table 4. Softwood 1.25 an inch, the same table. Dense cellulose 0.040 W/(m K), the same table.
 * Example, wall 1: 0.17 + (0.40 + 0.98 + 0.06 + 0.80) 0.1761 = 0.5645; stud 3.5 x 1.25 x 0.1761 =
 * 0.7705; upper 1 / (0.2 / 1.3350 + 0.8 / 0.7445) = 0.8167; lower 0.5645 + 1 / (0.2 / 0.7705 + 0.8
 * / 0.18) = 0.7771.
 */
static const struct {
    const char *layer[PB_WALL_PLACES];
    double depth_in, framing, cavity_m2k_w, upper_m2k_w, lower_m2k_w;
} by_hand[] = {
    {{"plaster-wood-lath", "boards", "felt", "wood-lap", "none"}, 3.5, 0.20, 0.18, 0.8167, 0.7771},
    {{"plaster-wood-lath", "boards", "felt", "wood-lap", "none"},
     3.5,
     0.20,
     2.2225,
     2.2890,
     2.1786},
    {{"plaster-wood-lath", "boards", "felt", "wood-lap", "hollow"},
     3.5,
     0.20,
     0.18,
     0.9279,
     0.8845},
    {{"plaster-wood-lath", "boards", "none", "stucco", "none"}, 3.5, 0.20, 2.2225, 2.1568, 2.0624},
    {{"gypsum-1-2", "fiberboard-1-2", "none", "hardboard", "none"},
     3.5,
     0.20,
     0.18,
     0.8533,
     0.8123},
    {{"gypsum-1-2", "fiberboard-1-2", "none", "hardboard", "none"},
     3.5,
     0.25,
     2.2225,
     2.2311,
     2.1104},
    {{"gypsum-1-2", "fiberboard-1-2", "none", "brick", "none"}, 3.5, 0.20, 0.18, 0.9878, 0.9426},
    {{"gypsum-1-2", "plywood-1-2", "none", "hollow", "none"}, 3.5, 0.20, 2.2225, 2.1770, 2.0800},
    {{"gypsum-1-2", "none", "none", "panel-siding", "none"}, 3.5, 0.20, 0.18, 0.6292, 0.5974},
    {{"gypsum-1-2", "none", "felt", "stucco", "none"}, 3.5, 0.20, 0.18, 0.5343, 0.5076},
    {{"plaster-gypsum-lath", "boards", "felt", "wood-shingle", "none"},
     3.5,
     0.17,
     2.2225,
     2.3698,
     2.2636},
    {{"gypsum-5-8", "osb", "felt", "fiber-cement", "none"}, 5.5, 0.22, 3.4925, 2.9727, 2.8731},
};
enum { WALLS = sizeof by_hand / sizeof by_hand[0] };

static PbWall wall_of(const char *const layer[PB_WALL_PLACES])
{
    PbWall w = {.is_layered = 1};
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        w.layer[p] = pb_wall_layer_find((PbWallPlace)p, layer[p]);
        ck_assert_msg(w.layer[p] >= 0, "no %s", layer[p]);
    }
    return w;
}

START_TEST(twelve_walls_agree_with_both_limits_by_hand)
{
    PbConstants k = pb_constants_default();
    PbWall w = wall_of(by_hand[_i].layer);
    PbWallSkin skin = pb_wall_skin(&w, &k);
    double depth_m = by_hand[_i].depth_in * 0.0254;
    PbWallPaths paths = pb_wall_paths(&skin, depth_m / k.wood_k_w_mk, by_hand[_i].framing,
                                      by_hand[_i].cavity_m2k_w);
    PbWallLimits limits = pb_wall_limits(&paths);
    ck_assert_double_eq_tol(limits.upper_m2k_w / by_hand[_i].upper_m2k_w, 1.0, 0.02);
    ck_assert_double_eq_tol(limits.lower_m2k_w / by_hand[_i].lower_m2k_w, 1.0, 0.02);
    ck_assert_double_ge(limits.upper_m2k_w, limits.lower_m2k_w);
    ck_assert_double_eq(pb_wall_r(&paths), 0.5 * (limits.upper_m2k_w + limits.lower_m2k_w));
    double u_by_hand = 2.0 / (by_hand[_i].upper_m2k_w + by_hand[_i].lower_m2k_w);
    ck_assert_double_eq_tol(1.0 / pb_wall_r(&paths) / u_by_hand, 1.0, 0.02);
}
END_TEST

/* One number of a row is enough to spoil the agreement: R of the boards left out. */
START_TEST(a_missing_layer_does_not_pass_for_the_wall)
{
    PbConstants k = pb_constants_default();
    PbWall w = wall_of(by_hand[0].layer);
    w.layer[PB_WALL_PAPER] = 0;
    w.layer[PB_WALL_SHEATHING] = 0;
    PbWallSkin skin = pb_wall_skin(&w, &k);
    PbWallPaths paths = pb_wall_paths(&skin, 0.0889 / k.wood_k_w_mk, 0.20, 0.18);
    ck_assert_double_lt(pb_wall_limits(&paths).upper_m2k_w, 0.85 * by_hand[0].upper_m2k_w);
}
END_TEST

static PbStatus solve(const PbWall *w, double density_kg_m3, PbBayField *field, PbHeatBay **bay)
{
    PbConstants k = pb_constants_default();
    PbAllocator memory = pb_allocator_default();
    ck_assert_int_eq(pb_bay_field_create(4, 40, 0.368, 2.35, 0.0889, field), PB_OK);
    pb_bay_field_fill(field, density_kg_m3);
    field->tilt_deg = 90.0;
    PbHeatBaySetup setup = pb_heat_bay_default(field);
    setup.wall = *w;
    setup.strips = 1;
    setup.map_ny = 8;
    return pb_heat_bay_solve(&setup, &k, &memory, bay, NULL);
}

/* The solved bay, its own stud for framing: films, layers, wood and cavity in series by hand. */
START_TEST(a_solved_bay_has_the_layers_of_its_wall)
{
    PbConstants k = pb_constants_default();
    double share = k.stud_width_m / (k.stud_width_m + 0.368);
    for (int n = 0; n < WALLS; n++) {
        int is_empty = by_hand[n].cavity_m2k_w < 1.0;
        PbWall w = wall_of(by_hand[n].layer);
        PbBayField field;
        PbHeatBay *bay;
        if (!is_empty || n == 2) {
            continue;
        }
        ck_assert_int_eq(solve(&w, 0.0, &field, &bay), PB_OK);
        const PbHeatBayResult *r = pb_heat_bay_result(bay);
        PbWallSkin skin = pb_wall_skin(&w, &k);
        PbWallPaths paths = pb_wall_paths(&skin, 0.0889 / k.wood_k_w_mk, share, 0.18);
        ck_assert_double_eq_tol(r->r_m2k_w / pb_wall_r(&paths), 1.0, 0.02);
        ck_assert_double_eq_tol(r->u_w_m2k * pb_wall_r(&paths), 1.0, 0.02);
        /* The face of the stud, whose heat the board hardly shares across, and that of the bay. */
        ck_assert_double_gt(r->surface_min_c, 0.0);
        ck_assert_double_lt(r->surface_max_c, 20.0);
        pb_heat_bay_destroy(bay);
        pb_bay_field_destroy(&field);
    }
}
END_TEST

/* A wall with more on its outside is warmer inside and shows the camera less between bay and stud.
 */
START_TEST(the_camera_sees_less_through_more_layers)
{
    PbWall simple = {0}, clad = wall_of(by_hand[2].layer);
    const PbWall *walls[2] = {&simple, &clad};
    double contrast[2], coldest[2];
    for (int n = 0; n < 2; n++) {
        PbBayField field;
        PbHeatBay *bay;
        ck_assert_int_eq(solve(walls[n], 0.0, &field, &bay), PB_OK);
        const PbHeatBayResult *r = pb_heat_bay_result(bay);
        contrast[n] = r->surface_max_c - r->surface_min_c;
        coldest[n] = r->surface_min_c;
        pb_heat_bay_destroy(bay);
        pb_bay_field_destroy(&field);
    }
    ck_assert_double_lt(contrast[1], 0.8 * contrast[0]);
    ck_assert_double_gt(coldest[1], coldest[0] + 1.0);
}
END_TEST

START_TEST(the_simple_wall_is_the_one_of_older_files)
{
    PbConstants k = pb_constants_default();
    PbWall w = {0};
    PbWallSkin skin = pb_wall_skin(&w, &k);
    ck_assert_int_eq(pb_wall_check(&w, NULL, NULL), PB_OK);
    ck_assert(pb_wall_skin_r(&skin) == k.room_film_m2k_w + k.gypsum_thickness_m / k.gypsum_k_w_mk +
                                           k.sheathing_thickness_m / k.sheathing_k_w_mk +
                                           k.outdoor_film_m2k_w);
    ck_assert(pb_wall_uses(&w, "gypsum_k_w_mk") && !pb_wall_uses(&w, "layer_boards_m2k_w"));
}
END_TEST

START_TEST(every_row_has_its_constant_and_its_place)
{
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        int count = pb_wall_layer_count((PbWallPlace)p);
        ck_assert_int_gt(count, 1);
        for (int n = 0; n < count; n++) {
            const PbWallLayer *row = pb_wall_layer((PbWallPlace)p, n);
            ck_assert_int_eq(pb_wall_layer_find((PbWallPlace)p, row->id), n);
            ck_assert_int_eq(row->constant == NULL, strcmp(row->id, "none") == 0);
            ck_assert(row->constant == NULL ||
                      (pb_constant_find(row->constant) != NULL && row->thickness_m > 0.0));
        }
    }
    PbWall usual = pb_wall_usual();
    ck_assert_int_eq(pb_wall_check(&usual, NULL, NULL), PB_OK);
    ck_assert(pb_wall_uses(&usual, "layer_wood_lap_m2k_w") &&
              pb_wall_uses(&usual, "room_film_m2k_w") && !pb_wall_uses(&usual, "gypsum_k_w_mk"));
}
END_TEST

START_TEST(refuses_a_wall_that_cannot_be)
{
    PbWallPlace place = PB_WALL_INSIDE;
    PbError err = {0};
    PbWall open = wall_of((const char *[]){"gypsum-1-2", "none", "felt", "none", "none"});
    ck_assert_int_eq(pb_wall_check(&open, &place, &err), PB_ERR_RANGE);
    ck_assert(place == PB_WALL_CLADDING && strstr(err.message, "expected sheathing") != NULL);
    PbWall over = wall_of((const char *[]){"gypsum-1-2", "boards", "felt", "none", "hollow"});
    ck_assert_int_eq(pb_wall_check(&over, &place, &err), PB_ERR_RANGE);
    ck_assert_int_eq(place, PB_WALL_OVER);
    PbWall off = pb_wall_usual();
    off.layer[PB_WALL_PAPER] = 2;
    ck_assert_int_eq(pb_wall_check(&off, &place, &err), PB_ERR_RANGE);
    ck_assert_int_eq(place, PB_WALL_PAPER);
    off.layer[PB_WALL_PAPER] = -1;
    ck_assert_int_eq(pb_wall_check(&off, NULL, &err), PB_ERR_RANGE);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("wall");
    TCase *all = tcase_create("all");
    tcase_add_loop_test(all, twelve_walls_agree_with_both_limits_by_hand, 0, WALLS);
    tcase_add_test(all, a_missing_layer_does_not_pass_for_the_wall);
    tcase_add_test(all, a_solved_bay_has_the_layers_of_its_wall);
    tcase_add_test(all, the_camera_sees_less_through_more_layers);
    tcase_add_test(all, the_simple_wall_is_the_one_of_older_files);
    tcase_add_test(all, every_row_has_its_constant_and_its_place);
    tcase_add_test(all, refuses_a_wall_that_cannot_be);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
