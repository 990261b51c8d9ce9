/* The screening of ISO 13788 against twelve months by hand, and its limits. */
#include "core/moisture.h"

#include "suite.h"

#include <math.h>
#include <string.h>

/* Magnus of the standard against table values, Pa. */
START_TEST(saturation_is_that_of_the_tables)
{
    static const double rows[][2] = {
        {-10.0, 260.0}, {0.0, 611.0}, {10.0, 1228.0}, {20.0, 2339.0}, {30.0, 4245.0}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_double_eq_tol(pb_saturation_pa(rows[i][0]) / rows[i][1], 1.0, 0.003);
    }
    ck_assert_double_eq_tol(pb_moist_sd_m(5.72e-11), 3.5, 0.01); /* a perm */
}
END_TEST

/* Board with paint R 0.08 sd 0.3; fill 2.25, 0.15; sheathing 0.11, 1.5; siding 0.14, 0.5. */
static PbMoistWall wall(void)
{
    PbMoistWall w = {.count = 4, .room_film_m2k_w = 0.13, .out_film_m2k_w = 0.04};
    const PbMoistLayer layers[] = {{0.08, 0.3}, {2.25, 0.15}, {0.11, 1.5}, {0.14, 0.5}};
    memcpy(w.layer, layers, sizeof layers);
    return w;
}

/*
 * By hand, each month: temperature at the back of the fill by R, saturation there, and what comes
 * through sd 0.45 less what leaves through sd 2.0, times 2e-10 kg/(m s Pa) and 30.44 days; room at
 * 20 C and 50 %, 1168.5 Pa, outdoors at 80 %. January: 0.68 C, 641.3 Pa, 560.0 g/m2 gained.
 */
static const double outdoor_c[PB_MOIST_MONTHS] = {-1.6, 1.5,  6.9,  13.1, 18.5, 21.6,
                                                  21.6, 18.5, 13.1, 6.9,  1.5,  -1.6};
static const double sum_g_m2[PB_MOIST_MONTHS] = {1519.4, 1908.7, 1918.8, 1339.4, 74.9,  0.0,
                                                 0.0,    0.0,    0.0,    10.1,   399.4, 959.4};

static void by_hand(PbMoistMonth *months, double room_rh)
{
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        months[m] = (PbMoistMonth){20.0, room_rh * pb_saturation_pa(20.0), outdoor_c[m],
                                   0.8 * pb_saturation_pa(outdoor_c[m])};
    }
}

START_TEST(twelve_months_by_hand)
{
    PbMoistWall w = wall();
    PbMoistMonth months[PB_MOIST_MONTHS];
    PbMoistYear y;
    by_hand(months, 0.5);
    pb_moist_year(&w, months, &y);
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        ck_assert_msg(fabs(y.sum_g_m2[m] - sum_g_m2[m]) < 1.0, "month %d: %g", m + 1,
                      y.sum_g_m2[m]);
    }
    ck_assert(y.is_wet && y.left_g_m2 == 0.0);
    ck_assert_int_eq(y.layer, 1); /* at the outer face of the fill */
    ck_assert_int_eq(y.most_month, 2);
    ck_assert_int_eq(y.dry_month, 5);
    ck_assert_double_eq_tol(y.most_g_m2, 1918.8, 1.0);
}
END_TEST

/* A dry room, an open outside, an outside of metal: dry, dry, and wet for good. */
START_TEST(the_limits_are_right)
{
    PbMoistWall w = wall();
    PbMoistMonth months[PB_MOIST_MONTHS];
    PbMoistYear y;
    by_hand(months, 0.25);
    pb_moist_year(&w, months, &y);
    ck_assert(!y.is_wet && y.most_g_m2 == 0.0 && y.dry_month < 0);
    by_hand(months, 0.5);
    w.layer[2].sd_m = w.layer[3].sd_m = 0.02;
    w.layer[0].sd_m = 1.0;
    pb_moist_year(&w, months, &y);
    ck_assert(!y.is_wet);
    w = wall();
    w.layer[2].sd_m = 1500.0;
    by_hand(months, 0.65);
    pb_moist_year(&w, months, &y);
    ck_assert(y.is_wet && y.left_g_m2 > 500.0 && y.dry_month < 0);
}
END_TEST

/*
 * A published test case of the Spanish code's check of condensation (DA DB-HE/2, the equations of
 * the standard), read in public test files: a brick wall of five layers, films 0.04 and 0.13, 5 C
 * and 96 % outdoors, 20 C and 55 % indoors. R and sd from the outside: 0.16491754 and 1.10,
 * 0.02439024 and 0.10, 0.80 and 0.60, 0.06741573 and 0.30, 0.01754386 and 0.06. It condenses at two
 * faces, those of the mortar; together 31.3975 g/m2 in thirty days.
 */
START_TEST(a_published_case_wets_at_two_faces)
{
    PbMoistWall w = {.count = 5, .room_film_m2k_w = 0.13, .out_film_m2k_w = 0.04};
    const PbMoistLayer layers[] = {{0.01754386, 0.06},
                                   {0.06741573, 0.30},
                                   {0.80, 0.60},
                                   {0.02439024, 0.10},
                                   {0.16491754, 1.10}};
    const double month_days = 365.25 / 12.0;
    PbMoistMonth months[PB_MOIST_MONTHS];
    PbMoistYear y;
    memcpy(w.layer, layers, sizeof layers);
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        months[m] = (PbMoistMonth){20.0, 1285.3231, 5.0, 836.9899};
    }
    pb_moist_year(&w, months, &y);
    ck_assert_double_eq_tol(y.sum_g_m2[0] * 30.0 / month_days / 31.3975, 1.0, 0.002);
    ck_assert_int_eq(y.layer, 3); /* more of it at the outer face of the mortar */
    ck_assert_double_lt(y.most_g_m2, 0.75 * y.left_g_m2); /* and the rest at the other */
    ck_assert_double_eq_tol(y.left_g_m2, 12.0 * y.sum_g_m2[0], 1e-9);
}
END_TEST

/*
 * Turned round, the wall of a cooled room in a humid year is the mirror: wet behind the front. By
 * hand as above: May to September 31 C and 80 % outdoors against 22
 * C and 50 %; the outer face of the board is at 22.72 C, 2761.3 Pa, gets (3591.9 - 2761.3) / 0.35
 * and passes (2761.3 - 1321.2) / 20 on: 1210.4 g/m2 a month. From October 20 C and 60 %: it stands
 * at 21.84 C, 2616.6 Pa, and loses 1859.2.
 */
static const double cooled_g_m2[PB_MOIST_MONTHS] = {0.0,    0.0,    0.0,    0.0,    1210.4, 2420.8,
                                                    3631.2, 4841.6, 6052.0, 4192.8, 2333.6, 474.4};

START_TEST(cooling_wets_the_other_side)
{
    PbMoistWall w = {.count = 3, .room_film_m2k_w = 0.13, .out_film_m2k_w = 0.04};
    const PbMoistLayer layers[] = {{0.08, 20.0}, {2.25, 0.15}, {0.11, 0.2}};
    PbMoistMonth months[PB_MOIST_MONTHS];
    PbMoistYear y;
    memcpy(w.layer, layers, sizeof layers);
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        int is_summer = m > 3 && m < 9;
        months[m] = is_summer ? (PbMoistMonth){22.0, 0.5 * pb_saturation_pa(22.0), 31.0,
                                               0.8 * pb_saturation_pa(31.0)}
                              : (PbMoistMonth){22.0, 0.5 * pb_saturation_pa(22.0), 20.0,
                                               0.6 * pb_saturation_pa(20.0)};
    }
    pb_moist_year(&w, months, &y);
    ck_assert(y.is_wet);
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        ck_assert_msg(fabs(y.sum_g_m2[m] - cooled_g_m2[m]) < 2.0, "month %d: %g", m + 1,
                      y.sum_g_m2[m]);
    }
    ck_assert(y.left_g_m2 == 0.0);
    ck_assert_int_eq(y.layer, 0); /* at the outer face of the tight board */
    ck_assert_int_eq(y.most_month, 8);
}
END_TEST

/* The face of an uninsulated wall at 0 C outside: R 0.39 with 0.25 at the face, 20 C and 50 %. */
START_TEST(the_face_is_as_by_hand)
{
    PbMoistWall w = {.count = 1, .room_film_m2k_w = 0.13, .out_film_m2k_w = 0.04};
    w.layer[0] = (PbMoistLayer){0.10, 1.0};
    PbMoistMonth months[PB_MOIST_MONTHS];
    PbMoistYear y;
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        months[m] = (PbMoistMonth){20.0, 1168.5, 0.0, 489.0};
    }
    pb_moist_year(&w, months, &y);
    /* 20 - 20 x 0.25 / 0.39 = 7.18 C, 1014 Pa */
    ck_assert_double_eq_tol(y.face_rh, 1168.5 / 1014.0, 0.01);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("moisture");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, saturation_is_that_of_the_tables);
    tcase_add_test(tc, twelve_months_by_hand);
    tcase_add_test(tc, a_published_case_wets_at_two_faces);
    tcase_add_test(tc, the_limits_are_right);
    tcase_add_test(tc, cooling_wets_the_other_side);
    tcase_add_test(tc, the_face_is_as_by_hand);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
