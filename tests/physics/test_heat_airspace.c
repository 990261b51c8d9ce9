/*
 * Air in an empty bay and in tall slots against published figures, each beside its source. Cases of
 * 5 to 300 mm are rows of `verify` (heat.airspace); here the bay itself, and what has no steady
 * flow.
 */
#include "core/heat_air.h"
#include "core/heat_bay.h"
#include "core/pb_math.h"
#include "lab/verify_heat.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>

/* ISO 6946:2017, Annex D: convection of level heat flow across more and less than 5 K; radiation
 * 5.1 W/(m2 K) between black faces at 10 C, emissivity 0.9. */
static double iso_m2k_w(double dt_k, double least_w_m2k, double factor, double power)
{
    double film = dt_k > 5.0 ? factor * pow(dt_k, power) : least_w_m2k;
    return 1.0 / (5.1 / (2.0 / 0.9 - 1.0) + film);
}

/* R of the room between the boards of an empty bay, and the step across it. */
static double bay_space_m2k_w(double depth_m, double tilt_deg, double outdoor_c, double *dt_k)
{
    PbConstants k = pb_constants_default();
    PbAllocator memory = pb_allocator_default();
    PbBayField f;
    PbHeatBay *bay;
    PbError err = {0};
    ck_assert_int_eq(pb_bay_field_create(4, 48, 0.368, 2.4, depth_m, &f), PB_OK);
    pb_bay_field_fill(&f, 0.0);
    f.tilt_deg = tilt_deg;
    PbHeatBaySetup setup = pb_heat_bay_default(&f);
    setup.room_c = 20.0;
    setup.outdoor_c = outdoor_c;
    setup.strips = 1;
    PbStatus status = pb_heat_bay_solve(&setup, &k, &memory, &bay, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    double u = pb_heat_bay_strip(bay, 0)->u_w_m2k;
    double layers = k.room_film_m2k_w + k.outdoor_film_m2k_w +
                    k.gypsum_thickness_m / k.gypsum_k_w_mk +
                    k.sheathing_thickness_m / k.sheathing_k_w_mk;
    pb_heat_bay_destroy(bay);
    pb_bay_field_destroy(&f);
    *dt_k = fabs(20.0 - outdoor_c) * (1.0 - u * layers);
    return 1.0 / u - layers;
}

START_TEST(an_empty_bay_is_rated_as_the_standard_rates_it)
{
    static const double depths_m[] = {0.025, 0.05, 0.089, 0.14, 0.3}, outdoor_c[] = {10.0, -20.0};
    for (int n = 0; n < 5; n++) {
        for (int q = 0; q < 2; q++) {
            double dt_k, iso, thick = depths_m[n], slim = pow(thick, -0.44);
            double r = bay_space_m2k_w(thick, 90.0, outdoor_c[q], &dt_k);
            iso = iso_m2k_w(dt_k, 1.25, 0.73, 1.0 / 3.0);
            ck_assert_msg(fabs(r / iso - 1.0) < 0.02, "wall, %g m, %g K: %g, ISO 6946 %g", thick,
                          dt_k, r, iso);
            r = bay_space_m2k_w(thick, 0.0, outdoor_c[q], &dt_k); /* a ceiling: heat goes up */
            iso = iso_m2k_w(dt_k, 1.95, 1.14, 1.0 / 3.0);
            ck_assert_msg(fabs(r / iso - 1.0) < 0.02, "up, %g m, %g K: %g, ISO 6946 %g", thick,
                          dt_k, r, iso);
            r = bay_space_m2k_w(thick, 0.0, 40.0 - outdoor_c[q], &dt_k); /* a hot attic: down */
            iso = iso_m2k_w(dt_k, fmax(0.12 * slim, 0.025 / thick), 0.09 * slim, 0.187);
            if (dt_k > 5.0 && 0.09 * slim * pow(dt_k, 0.187) < 0.025 / thick) {
                iso = iso_m2k_w(0.0, 0.025 / thick, 0.0, 0.0);
            }
            ck_assert_msg(fabs(r / iso - 1.0) < 0.02, "down, %g m, %g K: %g, ISO 6946 %g", thick,
                          dt_k, r, iso);
        }
    }
}
END_TEST

/* Table of ISO 6946:2017 for plain faces, m2 K/W, given to 0.01 (from memory). */
START_TEST(the_films_give_the_table_of_the_standard)
{
    static const struct {
        double mm, up, level, down;
    } rows[] = {{5, 0.11, 0.11, 0.11},   {7, 0.13, 0.13, 0.13},  {10, 0.15, 0.15, 0.15},
                {15, 0.16, 0.17, 0.17},  {25, 0.16, 0.18, 0.19}, {50, 0.16, 0.18, 0.21},
                {100, 0.16, 0.18, 0.22}, {300, 0.16, 0.18, 0.23}};
    double glow = 5.1 / (2.0 / 0.9 - 1.0);
    for (int n = 0; n < 8; n++) {
        for (int way = -1; way <= 1; way++) {
            double film = pb_heat_airspace_convection(0.025, 1e-3 * rows[n].mm, 3.0, way, 1.25);
            double table = way > 0 ? rows[n].up : way < 0 ? rows[n].down : rows[n].level;
            ck_assert_double_eq_tol(1.0 / (glow + film), table, 0.0055);
        }
    }
}
END_TEST

static VerifyHeatFigures slot(PbHeatCase *c, double ra, double aspect)
{
    *c = pb_heat_case_default();
    pb_heat_case_dimensionless(c, PB_HEAT_KIND_AIR, ra, 0.71, 0.0, aspect);
    return verify_heat_figures(c, 24, 96);
}

/* ElSherbiny, Raithby and Hollands, J. Heat Transfer 104 (1982) 96, from memory. */
static double measured_nusselt(double ra, double aspect)
{
    double a = 0.0605 * pow(ra, 1.0 / 3.0), c = 0.242 * pow(ra / aspect, 0.272);
    double b = 0.104 * pow(ra, 0.293) / (1.0 + pow(6310.0 / ra, 1.36));
    return fmax(a, fmax(cbrt(1.0 + b * b * b), c));
}

START_TEST(tall_slots_have_an_answer)
{
    static const double ra[] = {1e4, 1e5, 1e5}, aspect[] = {40.0, 40.0, 20.0};
    PbHeatCase *c = malloc(sizeof *c);
    ck_assert_ptr_nonnull(c);
    for (int n = 0; n < 3; n++) {
        VerifyHeatFigures f = slot(c, ra[n], aspect[n]);
        double other = measured_nusselt(ra[n], aspect[n]);
        ck_assert_int_eq(c->is_mean, 1);
        ck_assert_msg(fabs(f.nu / other - 1.0) < 0.05, "Ra %g, aspect %g: Nu %g, measured %g",
                      ra[n], aspect[n], f.nu, other);
        ck_assert_double_eq_tol(f.nu, pb_heat_slot_nusselt(ra[n], aspect[n]), 1e-6 * f.nu);
    }
    /* steady ones are solved as before */
    VerifyHeatFigures f = slot(c, 3e3, 20.0);
    ck_assert_int_eq(c->is_mean, 0);
    ck_assert_double_eq_tol(f.nu, 1.104, 0.01);
    free(c);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("heat_airspace");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 60);
    tcase_add_test(t, an_empty_bay_is_rated_as_the_standard_rates_it);
    tcase_add_test(t, the_films_give_the_table_of_the_standard);
    tcase_add_test(t, tall_slots_have_an_answer);
    suite_add_tcase(s, t);
    return run_suite(s);
}
