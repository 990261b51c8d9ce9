/*
 * Closed forms and conservation: Janssen's profile with its order of convergence, creep and
 * relaxation as power laws, the attic, mass and height, remaps, shear against brute force.
 */
#include "bays.h"

#include "core/pb_math.h"
#include "core/rng.h"
#include "core/units.h"
#include "years/settle_private.h"

#include <math.h>
#include <string.h>

/* Worst error of the sweep against Janssen, Pa: 0.1 x 1 m wall, 2.5 m high, 40 kg/m3. */
static double janssen_error(int rows, double lateral_pa)
{
    PbSettleConfig config = pb_settle_default();
    PbBayField bay;
    ck_assert_int_eq(pb_bay_field_create(1, rows, 1.0, 2.5, 0.1, &bay), PB_OK);
    pb_bay_field_fill(&bay, 40.0);
    for (int j = 0; j < rows; j++) {
        bay.lateral_pa[j] = lateral_pa;
    }
    double muk = config.constants.wall_friction * config.constants.lateral_ratio;
    double length = 0.1 / 2.2 / muk;
    double deep = 40.0 * PB_GRAVITY_M_S2 * length - lateral_pa / config.constants.lateral_ratio;
    PbSettle *s = settle_of(&bay, &config);
    pb_settle_stress(s);
    PbSettleView v = pb_settle_view(s);
    double worst = 0.0;
    for (int j = 0; j < v.rows; j++) {
        double z = 2.5 - (v.bottom_m[j] + 0.5 * v.thick_m[j]);
        worst = fmax(worst, fabs(v.stress_pa[j] - deep * (1.0 - exp(-z / length))));
    }
    pb_settle_destroy(s);
    pb_bay_field_destroy(&bay);
    return worst;
}

START_TEST(sweep_follows_janssen_to_second_order)
{
    double coarse = janssen_error(100, 1e-9), fine = janssen_error(400, 1e-9);
    ck_assert_double_lt(coarse, 0.165);
    ck_assert_double_lt(fine, 0.012);
    ck_assert_double_gt(coarse / fine, 12.0); /* 16 for second order */
    ck_assert_double_lt(janssen_error(100, 20.0), 0.055);
}
END_TEST

START_TEST(creep_and_relaxation_do_not_depend_on_the_steps)
{
    PbConstants k = pb_constants_default();
    double rho = 26.0, r = 300.0;
    for (int i = 0; i < 4000; i++) {
        rho = pb_settle_creep(&k, rho, 26.0, 37.0, 0.5, 30.0 / 4000.0);
        r = pb_settle_relax_pa(&k, r, 50.0, 50.0, 0.5, 30.0 / 4000.0);
    }
    double one = pb_settle_creep(&k, 26.0, 26.0, 37.0, 0.5, 30.0);
    ck_assert_double_eq_tol(rho, one, 1e-11);
    /* 40-digit arithmetic with the shipped constants */
    ck_assert_double_eq_tol(one, 32.260141208219463, 1e-11);
    ck_assert_double_eq_tol(r, 83.919979311215722, 1e-9);
}
END_TEST

START_TEST(the_loop_agrees_with_the_closed_form_in_every_slice)
{
    PbSettleConfig config = pb_settle_default();
    config.climate = pb_climate_steady(0.5);
    config.constants.wall_friction = 0.0; /* an attic has no walls */
    PbBayField bay;
    ck_assert_int_eq(pb_bay_field_create(1, 60, 1.0, 0.3, 0.3, &bay), PB_OK);
    pb_bay_field_fill(&bay, 38.0);
    double wet = 1.0 + pb_settle_moisture(&config.constants, 0.5), dry = 38.0 / wet, above = 0.0;
    for (int path = 1; path <= 3; path++) {
        config.vector_path = path;
        PbSettle *s;
        if (pb_settle_create(&bay, &config, &s, NULL) != PB_OK) {
            continue; /* this machine lacks the path */
        }
        ck_assert_int_eq(pb_settle_advance(s, 30.0), PB_OK);
        PbSettleView v = pb_settle_view(s);
        above = 0.0;
        for (int j = v.rows - 1; j >= 0; j--) {
            double weight = v.dry_kg_m2[j] * wet * PB_GRAVITY_M_S2;
            double exact =
                pb_settle_creep(&config.constants, dry, dry, above + 0.5 * weight, 0.5, 30.0);
            /* 390 steps of rounding in logarithms near 4 */
            ck_assert_double_eq_tol(v.dry_kg_m2[j] / v.thick_m[j] / exact, 1.0, 1e-12);
            above += weight;
        }
        pb_settle_destroy(s);
    }
    pb_bay_field_destroy(&bay);
}
END_TEST

static PbBayField wild_bay(int nx, uint64_t seed)
{
    PbBayField bay = bay_uniform(nx, 96, 45.0);
    PbRng rng = pb_rng_make(seed, 5);
    for (int j = 0; j < 96; j++) {
        for (int i = 0; i < nx; i++) {
            double u = pb_rng_uniform(&rng);
            bay_set(&bay, i, j, u < 0.05 ? 0.0 : (u < 0.1 ? 4.0 : 20.0 + 50.0 * u));
            if (u > 0.97) {
                bay_block(&bay, i, j);
            } else if (u > 0.94) {
                bay.free_frac[(size_t)j * (size_t)nx + (size_t)i] = 0.4;
            }
        }
    }
    return bay;
}

START_TEST(mass_height_and_order_hold_in_wild_fields)
{
    for (uint64_t seed = 0; seed < 12; seed++) {
        PbSettleConfig config = pb_settle_default();
        config.vibration = (PbVibration)(seed % 3);
        int nx = 1 + (int)(seed % 7);
        PbBayField bay = wild_bay(nx, seed);
        PbSettle *s = settle_of(&bay, &config);
        for (int year = 1; year <= 30; year += 7) {
            ck_assert_int_eq(pb_settle_advance(s, year), PB_OK);
            PbSettleView v = pb_settle_view(s);
            for (int i = 0; i < nx; i++) {
                double below = 0.0;
                for (int j = 0; j < v.rows; j++) {
                    size_t c = (size_t)j * (size_t)nx + (size_t)i;
                    if (v.kind[c] == 2) { /* slices never overlap */
                        ck_assert_double_ge(v.bottom_m[c], below);
                        below = v.bottom_m[c] + v.thick_m[c];
                    }
                }
                ck_assert_double_le(below, 2.4 + 1e-12);
            }
        }
        PbSettleReport r;
        pb_settle_report(s, &r);
        ck_assert_double_lt(r.mass_error, 1e-12);
        ck_assert_double_lt(r.height_error, 1e-12);
        static const int rows[] = {0, 48, 96, 131, 500};
        double mass = pb_field_mass_kg(&bay);
        for (int k = 0; k < 5; k++) {
            PbAgedBay aged;
            ck_assert_int_eq(pb_settle_aged(s, rows[k], &aged), PB_OK);
            ck_assert_double_eq_tol(pb_field_mass_kg(&aged.field) / mass, 1.0, 1e-12);
            for (int c = 0; c < aged.field.nx * aged.field.ny; c++) {
                ck_assert(aged.void_frac[c] >= 0.0 && aged.void_frac[c] <= 1.0);
                ck_assert(aged.field.free_frac[c] > 0.0 || aged.field.density_kg_m3[c] == 0.0);
            }
            pb_aged_destroy(&aged);
        }
        pb_settle_destroy(s);
        pb_bay_field_destroy(&bay);
    }
}
END_TEST

START_TEST(void_fractions_of_the_remap_add_up_to_the_void_area)
{
    PbSettleConfig config = pb_settle_default();
    PbBayField bay = bay_uniform(16, 96, 42.0);
    for (int j = 30; j < 36; j++) {
        for (int i = 4; i < 9; i++) {
            bay_set(&bay, i, j, 0.0);
        }
    }
    PbSettle *s = settle_of(&bay, &config);
    ck_assert_int_eq(pb_settle_advance(s, 30.0), PB_OK);
    PbSettleReport r;
    PbAgedBay aged;
    pb_settle_report(s, &r);
    ck_assert_int_eq(pb_settle_aged(s, 0, &aged), PB_OK);
    double sum = 0.0;
    for (int c = 0; c < 16 * 96; c++) {
        sum += aged.void_frac[c] * 0.368 * 2.4 / (16 * 96);
    }
    ck_assert_double_eq_tol(sum, r.void_area_m2,
                            1e-9); /* a slice's end within 1e-9 m snaps to a row */
    pb_aged_destroy(&aged);
    pb_settle_destroy(s);
    pb_bay_field_destroy(&bay);
}
END_TEST

/* Slow but plain: lower each link in turn until nothing moves. */
static void relax_links(int n, const double *x, const double *limits, const double *start,
                        double *q)
{
    double t[16] = {0};
    for (int pass = 0; pass < 200000; pass++) {
        for (int i = 0; i + 1 < n; i++) {
            double left = start[i] + ((i > 0 ? t[i - 1] : 0.0)) / x[i];
            double right = start[i + 1] - 0.0 + (i + 2 < n ? -t[i + 1] : 0.0) / x[i + 1];
            /* shear t moves load from left to right: q_left - t/x, q_right + t/x */
            double even = (left - right) / (1.0 / x[i] + 1.0 / x[i + 1]);
            t[i] = pb_limit(even, -limits[i], limits[i]);
        }
    }
    for (int i = 0; i < n; i++) {
        q[i] = start[i] + ((i > 0 ? t[i - 1] : 0.0) - (i + 1 < n ? t[i] : 0.0)) / x[i];
    }
}

START_TEST(shear_exchange_is_the_limit_of_endless_passes)
{
    PbRng rng = pb_rng_make(11, 1);
    for (int trial = 0; trial < 40; trial++) {
        double x[9], limits[9], start[9], q[9], slow[9], sx[10], sq[10];
        int n = 2 + trial % 8;
        double before = 0.0, after = 0.0;
        for (int i = 0; i < n; i++) {
            x[i] = trial % 2 ? 1.0 : 0.3 + 0.7 * pb_rng_uniform(&rng);
            limits[i] = 12.0 * pb_rng_uniform(&rng) * (i % 4 != 3);
            start[i] = q[i] = 60.0 * pb_rng_uniform(&rng) - 20.0;
            before += x[i] * q[i];
        }
        settle_exchange(n, x, limits, q, sx, sq, (SettleBends){0});
        relax_links(n, x, limits, start, slow);
        for (int i = 0; i < n; i++) {
            ck_assert_double_eq_tol(q[i], slow[i], 1e-9);
            after += x[i] * q[i];
        }
        ck_assert_double_eq_tol(before, after, 1e-11); /* load moves, none is lost */
    }
}
END_TEST

/* Bends remembered from the step before only save a search: without them, the same bits. */
START_TEST(remembered_bends_change_no_bit)
{
    for (int trial = 0; trial < 4; trial++) {
        PbBayField bay = bay_uniform(trial == 3 ? 13 : 16, 96, 50.0);
        PbRng rng = pb_rng_make(7, (uint64_t)trial);
        for (int c = 0; c < bay.nx * bay.ny; c++) {
            bay_set(&bay, c % bay.nx, c / bay.nx,
                    30.0 + 10.0 * trial + 20.0 * pb_rng_uniform(&rng));
        }
        PbSettleConfig config = pb_settle_default();
        PbSettle *s, *forgetful;
        ck_assert_int_eq(pb_settle_create(&bay, &config, &s, NULL), PB_OK);
        ck_assert_int_eq(pb_settle_create(&bay, &config, &forgetful, NULL), PB_OK);
        for (int month = 1; month <= 60; month++) {
            memset(forgetful->bends, 0, 6 * (size_t)(bay.nx + 1) * (size_t)forgetful->rows);
            ck_assert_int_eq(pb_settle_advance(s, month / 12.0), PB_OK);
            ck_assert_int_eq(pb_settle_advance(forgetful, month / 12.0), PB_OK);
            ck_assert_uint_eq(pb_settle_hash(s), pb_settle_hash(forgetful));
        }
        pb_settle_destroy(s);
        pb_settle_destroy(forgetful);
        pb_bay_field_destroy(&bay);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("settle_exact");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, sweep_follows_janssen_to_second_order);
    tcase_add_test(tc, creep_and_relaxation_do_not_depend_on_the_steps);
    tcase_add_test(tc, the_loop_agrees_with_the_closed_form_in_every_slice);
    tcase_add_test(tc, mass_height_and_order_hold_in_wild_fields);
    tcase_add_test(tc, void_fractions_of_the_remap_add_up_to_the_void_area);
    tcase_add_test(tc, shear_exchange_is_the_limit_of_endless_passes);
    tcase_add_test(tc, remembered_bends_change_no_bit);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
