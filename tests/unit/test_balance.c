/* A number of the state that is lost, or a ledger that does not close, ends the run with its error,
 * in whatever tick it comes: also between two solves of the air, which work pressures out anew, and
 * in the last ticks, after which nobody looks again. */
#include "suite.h"

#include "core/session.h"
#include "session/session_private.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static PbSession *at_work(int ticks)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    const PbCommand work[] = {{PB_COMMAND_TUBE_TARGET, 1.6}, {PB_COMMAND_MACHINE, 1.0}};
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    for (int i = 0; i < ticks; i++) {
        ck_assert_int_eq(pb_session_step(s, work, i == 0 ? 2 : 0), PB_OK);
    }
    return s;
}

static PbSim *inside(const PbSession *s)
{
    return (PbSim *)(uintptr_t)pb_session_sim(s);
}

/* The numbers that a row stands for; none of those that are no numbers, or not handed on. */
static double *numbers(PbSim *sim, const PbStateRow *row, size_t *count)
{
    void *at = (unsigned char *)sim + row->offset;
    double *pointed;
    memcpy(&pointed, at, sizeof pointed);
    switch (row->kind) {
    case PB_STATE_DOUBLES:
        *count = row->size / sizeof(double);
        return at;
    case PB_STATE_CELLS:
        *count = (size_t)sim->cells;
        return pointed;
    case PB_STATE_UNKNOWNS:
        *count = (size_t)(sim->nx * sim->ny);
        return pointed;
    case PB_STATE_TUFTS:
        *count = (size_t)sim->tufts.count;
        return pointed;
    default:
        *count = 0;
        return NULL;
    }
}

/* The first, the middle and the last number of each row, in four ticks that follow each other. */
START_TEST(a_lost_number_ends_the_run_in_whatever_tick_it_comes)
{
    const double lost[] = {(double)NAN, -(double)NAN, (double)INFINITY, -(double)INFINITY};
    PbSession *s = at_work(310);
    PbSim *sim = inside(s);
    int planted = 0;
    ck_assert_int_gt(sim->tufts.count, 3);
    for (int tick = 0; tick < 4; tick++) {
        size_t rows;
        const PbStateRow *row = pb_state_rows(&rows);
        for (size_t r = 0; r < rows; r++) {
            size_t count;
            double *x = numbers(sim, &row[r], &count);
            for (size_t i = 0; i < count; i += count < 3 ? 1 : (count - 1) / 2) {
                double was = x[i];
                x[i] = lost[tick];
                ck_assert_msg(pb_session_step(s, NULL, 0) == PB_ERR_DIVERGED, "%s[%zu], tick %d",
                              row[r].name, i, sim->tick);
                x[i] = was; /* nothing was changed: it goes on from here */
                planted++;
            }
        }
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
    ck_assert_int_gt(planted, 400);
    pb_session_destroy(s);
}
END_TEST

/* A milligram of a kilogram, whatever the tick; within a second. */
START_TEST(a_ledger_that_is_off_ends_the_run)
{
    for (int tick = 300; tick < 304; tick++) {
        PbSession *s = at_work(tick);
        inside(s)->ledger.fed_kg += 1e-6;
        PbStatus status = PB_OK;
        for (int n = 0; n < 25 && status == PB_OK; n++) {
            status = pb_session_step(s, NULL, 0);
        }
        ck_assert_int_eq(status, PB_ERR_DIVERGED);
        pb_session_destroy(s);
    }
}
END_TEST

/* The run ends three seconds after all is quiet: the last tick is a 75th and no whole second. */
static PbSession *before_its_last_tick(void)
{
    PbSession *s = at_work(0);
    const PbCommand finish = {PB_COMMAND_FINISH, 0.0};
    ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    ck_assert_int_eq(pb_session_step(s, &finish, 1), PB_OK);
    while (inside(s)->bleed_s < 3.0 - 1.5 * PB_TICK_S) {
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
    ck_assert_int_ne((inside(s)->tick + 1) % 25, 0);
    return s;
}

START_TEST(the_last_tick_is_judged_too)
{
    PbSession *s = before_its_last_tick();
    ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    ck_assert(pb_session_is_over(s));
    pb_session_destroy(s);
    s = before_its_last_tick();
    inside(s)->ledger.fed_kg += 1e-6;
    ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_ERR_DIVERGED);
    pb_session_destroy(s);
    s = before_its_last_tick();
    inside(s)->k.orifice_coefficient = (double)NAN; /* no state, but the air of this tick is lost */
    ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_ERR_DIVERGED);
    pb_session_destroy(s);
}
END_TEST

START_TEST(every_width_finds_one_lost_number_in_any_place)
{
    for (int path = 1; path <= 3; path++) {
        const PbKernels *kernels = pb_kernels_pick(path);
        for (size_t count = 0; kernels != NULL && count < 20; count++) {
            double x[20] = {0.0, -0.0, 5e-324, 1.7e308, -1.7e308};
            ck_assert_int_eq(kernels->is_any_lost(x, count), 0);
            for (size_t i = 0; i < count; i++) {
                double was = x[i];
                x[i] = i % 2 == 0 ? (double)NAN : -(double)INFINITY;
                ck_assert_msg(kernels->is_any_lost(x, count), "%s: %zu of %zu", kernels->name, i,
                              count);
                x[i] = was;
            }
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("balance");
    TCase *tc = tcase_create("balance");
    tcase_set_timeout(tc, 60.0);
    tcase_add_test(tc, a_lost_number_ends_the_run_in_whatever_tick_it_comes);
    tcase_add_test(tc, a_ledger_that_is_off_ends_the_run);
    tcase_add_test(tc, the_last_tick_is_judged_too);
    tcase_add_test(tc, every_width_finds_one_lost_number_in_any_place);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
