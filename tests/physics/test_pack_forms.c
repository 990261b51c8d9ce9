/*
 * Packing physics against closed forms: gas in a leaky bay, a settled column, a column under its
 * own weight, the density of the stall. Sources stand beside each check.
 */
#include "suite.h"

#include "lab/verify_pack.h"

#include <math.h>
#include <string.h>

/* P = q sigma L cosh((H - y)/L) / sinh(H/L): uniform fill, linear leak, line source at the floor.
 */
START_TEST(gas_of_a_uniform_bay_follows_the_fin_law_to_second_order)
{
    double leak12, leak24;
    double e12 = verify_darcy_fin(12, &leak12), e24 = verify_darcy_fin(24, &leak24);
    ck_assert_double_lt(e24, 1e-4);
    /* half the cell, a quarter of the error; the band leaves room for the uneven row count */
    ck_assert_double_ge(e12 / e24, 3.5);
    ck_assert_double_le(e12 / e24, 4.5);
    ck_assert_double_lt(leak12, 1e-9);
    ck_assert_double_lt(leak24, 1e-9);
}
END_TEST

/* dp/dz = rho g - p/L (Janssen, Z. VDI 39, 1895); 3 %: first-order upwind at 23 mm cells. */
START_TEST(a_settled_column_follows_janssen)
{
    ck_assert_double_lt(verify_janssen(), 0.03);
}
END_TEST

/* p = Cv (rho^3 - rest^3) (van Wyk, J. Textile Inst. 37, 1946), without wall friction. */
START_TEST(a_column_without_friction_carries_its_own_weight)
{
    double base, exact;
    ck_assert_double_lt(verify_own_weight(&base, &exact), 0.03);
    ck_assert_double_lt(fabs(base - exact) / exact, 0.03);
}
END_TEST

START_TEST(the_stall_comes_at_the_density_that_the_air_balance_gives)
{
    double formula;
    double ours = verify_stall(&formula);
    ck_assert_double_lt(fabs(ours - formula) / formula, 0.03);
    /* and at a density that dense packing means: 3.5 to 4.6 lb/ft3 at the mouth */
    ck_assert_double_gt(ours, 56.0);
    ck_assert_double_lt(ours, 74.0);
}
END_TEST

static void lay_column(PbSim *s, int is_mirrored)
{
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, is_mirrored ? s->nx - 1 - i : i, j);
            double rho = 20.0 + 30.0 * fabs(sin(0.37 * i * i + 0.11 * j)) + (j < 20 ? 15.0 : 0.0);
            s->solid.a[at] = rho * s->phi[at];
            s->solid.b[at] = rho * s->solid.a[at];
        }
    }
}

START_TEST(the_fill_knows_no_left_or_right)
{
    PbSessionConfig c = pb_session_default();
    PbSession *a, *b;
    ck_assert_int_eq(pb_session_create(&c, &a, NULL), PB_OK);
    ck_assert_int_eq(pb_session_create(&c, &b, NULL), PB_OK);
    PbSim *sa = verify_sim(a), *sb = verify_sim(b);
    lay_column(sa, 0);
    lay_column(sb, 1);
    for (int n = 0; n < 100; n++) {
        pb_fill_step(sa);
        pb_fill_step(sb);
    }
    for (int j = 0; j < sa->ny; j++) {
        for (int i = 0; i < sa->nx; i++) {
            double x = sa->solid.a[pb_at(sa, i, j)], y = sb->solid.a[pb_at(sb, sa->nx - 1 - i, j)];
            ck_assert_msg(fabs(x - y) < 1e-12 * 60.0, "row %d column %d: %.17g %.17g", j, i, x, y);
        }
    }
    pb_session_destroy(a);
    pb_session_destroy(b);
}
END_TEST

START_TEST(skipping_still_rows_changes_no_bit)
{
    /* the same fill stepped once whole, once with rows skipped as the program does */
    PbSessionConfig c = pb_session_default();
    PbSession *a, *b;
    ck_assert_int_eq(pb_session_create(&c, &a, NULL), PB_OK);
    ck_assert_int_eq(pb_session_create(&c, &b, NULL), PB_OK);
    PbSim *sa = verify_sim(a), *sb = verify_sim(b);
    lay_column(sa, 0);
    lay_column(sb, 0);
    for (int n = 0; n < 20; n++) {
        pb_fill_step(sa);
        pb_fill_step_whole(sb);
    }
    size_t bytes = (size_t)sa->cells * sizeof(double);
    ck_assert_mem_eq(sa->solid.a, sb->solid.a, bytes);
    ck_assert_mem_eq(sa->solid.b, sb->solid.b, bytes);
    pb_session_destroy(a);
    pb_session_destroy(b);
}
END_TEST

/* A row in which only the past density moved has moved: its stress is another one. */
START_TEST(a_row_whose_past_density_alone_moved_is_not_still)
{
    PbSessionConfig c = pb_session_default();
    for (c.vector_path = 1; c.vector_path <= 3; c.vector_path++) {
        PbSession *session;
        if (pb_session_create(&c, &session, NULL) != PB_OK) {
            continue; /* this machine lacks it */
        }
        PbSim *s = verify_sim(session);
        pb_fill_step(s); /* sets the parameters; the bay is empty */
        int at = pb_at(s, 7, 5);
        unsigned char marks[8] = {0, 0, 0, 0, 0, 1, 0, 0}, changed[8];
        ck_assert_int_eq(s->kernels->solid_update(&s->step, &s->solid_params, 8, marks, changed),
                         2);
        ck_assert_int_eq(changed[5], 0);
        s->step.fa_x[at - 1] = s->step.fa_x[at] = s->step.fa_x[at + 1] = 1.0f;
        s->step.fb_x[at - 1] = s->step.fb_x[at + 1] = 30.0f;
        s->step.fb_x[at] = 40.0f;
        s->solid.a[at] = s->solid.a[at + 1] = 1.0;
        s->kernels->solid_update(&s->step, &s->solid_params, 8, marks, changed);
        ck_assert_int_eq(changed[5], 1);
        ck_assert_int_eq(changed[4] | changed[6], 0);
        pb_session_destroy(session);
    }
}
END_TEST

/* The finest grid in the narrowest bay has over a thousand cells round the mouth. */
START_TEST(every_fed_cell_gets_its_share_however_many_there_are)
{
    PbSessionConfig c = pb_session_default();
    c.cells_across = 48;
    c.exercise.width_m = 0.15;
    c.exercise.height_m = 0.5;
    c.exercise.holes[0].x_m = 0.075;
    c.exercise.holes[0].y_m = 0.25;
    PbSession *session;
    ck_assert_int_eq(pb_session_create(&c, &session, NULL), PB_OK);
    PbSim *s = verify_sim(session);
    int fed = 0;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            double x = s->dx * (i + 0.5) - 0.075, y = s->dy * (j + 0.5) - 0.25;
            if (x * x + y * y < 0.0616 * 0.0616) { /* 2.2 radii of the mouth */
                s->rate_a[pb_at(s, i, j)] = 1.0;
                fed++;
            }
        }
    }
    pb_fill_step(s);
    double want = fed * s->dx * s->dy * s->ex.depth_m * PB_TICK_S;
    ck_assert_int_gt(fed, 1000);
    ck_assert_double_eq_tol(pb_sim_mass_kg(s), want, 1e-12 * want);
    ck_assert_double_eq_tol(s->ledger.in_bay_kg, want, 1e-12 * want);
    pb_session_destroy(session);
}
END_TEST

/* The limiters would make finite speeds of it and carry on. */
START_TEST(a_pressure_that_is_no_number_is_said_within_a_second)
{
    PbSessionConfig c = pb_session_default();
    PbSession *session;
    ck_assert_int_eq(pb_session_create(&c, &session, NULL), PB_OK);
    PbSim *s = verify_sim(session);
    s->gas_pa[pb_at(s, 3, 3)] = (double)NAN;
    PbStatus status = PB_OK;
    for (int n = 0; n < 25 && status == PB_OK; n++) {
        status = pb_session_step(session, NULL, 0);
    }
    ck_assert_int_eq(status, PB_ERR_DIVERGED);
    pb_session_destroy(session);
}
END_TEST

/* A cell all but swept empty, with a trace of b and no a to it: blown on, it made pressures beyond
 * any number within a tick. */
START_TEST(a_trace_of_a_past_without_fiber_stays_a_trace)
{
    PbSessionConfig c = pb_session_default();
    PbSession *session;
    ck_assert_int_eq(pb_session_create(&c, &session, NULL), PB_OK);
    PbSim *s = verify_sim(session);
    lay_column(s, 0);
    int at = pb_at(s, 5, 30);
    s->solid.a[at] = 1e-28;
    s->solid.b[at] = 1e-3;
    s->rate_a[at] = 0.5;
    pb_fill_step(s);
    ck_assert_double_lt(s->solid.b[at], 1500.0 * s->solid.a[at] + 1e-2);
    ck_assert_int_eq(pb_balance_is_finite(s), 1);
    pb_session_destroy(session);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("pack_forms");
    TCase *tc = tcase_create("closed forms");
    tcase_set_timeout(tc, 280);
    tcase_add_test(tc, gas_of_a_uniform_bay_follows_the_fin_law_to_second_order);
    tcase_add_test(tc, a_settled_column_follows_janssen);
    tcase_add_test(tc, a_column_without_friction_carries_its_own_weight);
    tcase_add_test(tc, the_stall_comes_at_the_density_that_the_air_balance_gives);
    suite_add_tcase(s, tc);
    tc = tcase_create("symmetry and skipping");
    tcase_set_timeout(tc, 280);
    tcase_add_test(tc, the_fill_knows_no_left_or_right);
    tcase_add_test(tc, skipping_still_rows_changes_no_bit);
    tcase_add_test(tc, a_row_whose_past_density_alone_moved_is_not_still);
    suite_add_tcase(s, tc);
    tc = tcase_create("limits");
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, every_fed_cell_gets_its_share_however_many_there_are);
    tcase_add_test(tc, a_pressure_that_is_no_number_is_said_within_a_second);
    tcase_add_test(tc, a_trace_of_a_past_without_fiber_stays_a_trace);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
