/* An old batt: air goes through, fill does not. The same bay with wood and with nothing in that
 * place brackets it. */
#include "core/session.h"

#include "run_cases.h"

#include <stdio.h>

/* A batt across the upper part of a bay with a low hole; all leaks in the top plate row and the
 * bottom one, so that air which wants out at the top must cross it. */
static PbExercise bay_with(PbObstacleKind kind, double depth_frac)
{
    PbExercise e = pb_exercise_default();
    e.end_leak_share = 0.95;
    e.holes[0].open_frac = 0.0;
    e.obstacles[0] = (PbObstacle){kind, 0.0, 1.3, e.width_m, 2.0, 0.0, depth_frac};
    e.obstacle_count = depth_frac > 0.0 ? 1 : 0;
    return e;
}

typedef struct Blown {
    double above_pa, inside_kg_m3, above_kg_m3, below_kg_m3;
    PbResult result;
} Blown;

/* Blow air alone, or material as well, from a mouth at 1 m for so long. */
static Blown blow(const PbExercise *e, double feed_kg_s, double seconds)
{
    PbSessionConfig c = pb_session_default();
    c.exercise = *e;
    PbSession *s;
    PbError err = {0};
    ck_assert_msg(pb_session_create(&c, &s, &err) == PB_OK, "%s", err.message);
    PbCommand first[] = {
        {PB_COMMAND_TUBE_TARGET, 0.55}, {PB_COMMAND_FEED, feed_kg_s}, {PB_COMMAND_MACHINE, 1.0}};
    for (int i = 0; i < (int)(seconds / PB_TICK_S); i++) {
        ck_assert_int_eq(pb_session_step(s, first, i == 0 ? 3 : 0), PB_OK);
    }
    const PbView *v = pb_session_view(s);
    Blown b = {0};
    int i = v->nx / 2;
    int above = (int)(2.2 / v->dy_m), inside = (int)(1.65 / v->dy_m), below = (int)(0.8 / v->dy_m);
    b.above_pa = v->gas_pa[above * v->nx + i];
    b.inside_kg_m3 = v->density_kg_m3[inside * v->nx + i];
    b.above_kg_m3 = v->density_kg_m3[above * v->nx + i];
    b.below_kg_m3 = v->density_kg_m3[below * v->nx + i];
    pb_session_result(s, &b.result);
    pb_session_destroy(s);
    return b;
}

START_TEST(air_passes_a_batt_and_not_a_block)
{
    PbExercise open = bay_with(PB_OBSTACLE_BATT, 0.0), batt = bay_with(PB_OBSTACLE_BATT, 1.0),
               block = bay_with(PB_OBSTACLE_BLOCK, 1.0);
    double through_open = blow(&open, 0.0, 5.0).above_pa;
    double through_batt = blow(&batt, 0.0, 5.0).above_pa;
    double through_block = blow(&block, 0.0, 5.0).above_pa;
    printf("above: open %.1f Pa, batt %.1f Pa, block %.1f Pa\n", through_open, through_batt,
           through_block);
    ck_assert(through_block == 0.0);
    ck_assert_double_gt(through_batt, 1.0);
    ck_assert_double_lt(through_batt, through_open);
}
END_TEST

START_TEST(fill_stays_out_of_a_full_batt_and_of_what_is_behind_it)
{
    PbExercise batt = bay_with(PB_OBSTACLE_BATT, 1.0);
    Blown b = blow(&batt, 0.03, 90.0);
    ck_assert_double_gt(b.below_kg_m3, 20.0);
    ck_assert(b.inside_kg_m3 == 0.0);
    ck_assert(b.above_kg_m3 == 0.0);
    ck_assert_double_lt(b.result.mass_balance_rel, 1e-9);
}
END_TEST

START_TEST(fill_goes_beside_half_a_batt)
{
    PbExercise batt = bay_with(PB_OBSTACLE_BATT, 0.5);
    Blown b = blow(&batt, 0.03, 110.0);
    ck_assert_double_gt(b.inside_kg_m3, 20.0);
    ck_assert_double_lt(b.result.mass_balance_rel, 1e-9);
    PbExercise open = bay_with(PB_OBSTACLE_BATT, 0.0);
    double whole = open.width_m * open.height_m * open.depth_m;
    double taken = 0.5 * open.width_m * 0.7 * open.depth_m;
    ck_assert_double_eq_tol(b.result.fillable_volume_m3, whole - taken, 0.01 * whole);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("batt");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 60);
    tcase_add_test(t, air_passes_a_batt_and_not_a_block);
    tcase_add_test(t, fill_stays_out_of_a_full_batt_and_of_what_is_behind_it);
    tcase_add_test(t, fill_goes_beside_half_a_batt);
    suite_add_tcase(s, t);
    return run_suite(s);
}
