/* A mark over draws of constants: what is drawn, how the hands go by the stalls of a draw, what is
 * summed up. */
#include "core/mark_range.h"
#include "core/watched.h"
#include "io/run_file.h"
#include "score/range_hands.h"
#include "suite.h"

#include <string.h>

static PbRunFile run;
static PbWatched recorded, drawn;

static void read_and_replay(void)
{
    PbError err = {0};
    ck_assert_msg(io_run_read(PB_TEST_SOURCE_DIR "/assets/reference/plain-2x4.pbrun", &run, &err) ==
                      PB_OK,
                  "%s", err.message);
    ck_assert_int_eq(pb_watched_replay(&recorded, &run, pb_allocator_default(), &err), PB_OK);
    ck_assert_int_eq(pb_watched_seek(&recorded, run.last_tick), PB_OK);
}

static void give_back(void)
{
    pb_watched_end(&recorded);
    pb_watched_end(&drawn);
    io_run_free(&run);
}

static int is_moved(const char *name)
{
    for (int i = 0; i < PB_RANGE_CONSTANTS; i++) {
        if (strcmp(pb_range_constant(i), name) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(eight_constants_are_drawn_within_their_range_and_no_other)
{
    PbConstants base = pb_constants_default();
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    int found = 0;
    for (size_t i = 0; i < count; i++) {
        int below = 0, above = 0;
        for (int k = 0; k < 200; k++) {
            PbConstants c = pb_range_constants(&base, 1, k);
            double v = pb_constant_value(&c, &table[i]);
            ck_assert_msg(strcmp(table[i].name, "settle_rate_pa") == 0 ||
                              (v >= table[i].low && v <= table[i].high),
                          "%s %g", table[i].name, v);
            below += v < table[i].value;
            above += v > table[i].value;
        }
        found += is_moved(table[i].name);
        if (is_moved(table[i].name)) {
            ck_assert_msg(below > 70 && above > 70, "%s: %d below, %d above", table[i].name, below,
                          above);
        } else if (strcmp(table[i].name, "settle_rate_pa") != 0) {
            ck_assert_msg(below == 0 && above == 0, "%s", table[i].name);
        }
    }
    ck_assert_int_eq(found, PB_RANGE_CONSTANTS);
}
END_TEST

START_TEST(a_draw_goes_by_seed_and_index_and_leaves_what_was_set_by_hand)
{
    PbConstants base = pb_constants_default(), a, b;
    a = pb_range_constants(&base, 7, 3);
    b = pb_range_constants(&base, 7, 3);
    ck_assert_mem_eq(&a, &b, sizeof a);
    b = pb_range_constants(&base, 8, 3);
    ck_assert_double_ne(a.sigma45_pa_s_m2, b.sigma45_pa_s_m2);
    b = pb_range_constants(&base, 7, 4);
    ck_assert_double_ne(a.sigma45_pa_s_m2, b.sigma45_pa_s_m2);
    base.sigma45_pa_s_m2 = 9000.0; /* known better than its range */
    b = pb_range_constants(&base, 7, 3);
    ck_assert_double_eq(b.sigma45_pa_s_m2, 9000.0);
    ck_assert_double_eq(b.compaction_ref_pa, a.compaction_ref_pa);
}
END_TEST

/* The recorded hands in a bay with these constants; by the clock or by the stalls. */
static void work(const PbConstants *constants, int by_clock)
{
    PbSessionConfig config = pb_session_default();
    PbRangeHands hands = pb_range_hands(&run, recorded.lifts, recorded.lift_count);
    PbCommand commands[PB_RANGE_COMMANDS];
    PbError err;
    int next = 0;
    pb_watched_end(&drawn);
    config.exercise = run.exercise;
    config.constants = *constants;
    config.seed = run.seed;
    config.cells_across = run.cells_across;
    ck_assert_int_eq(pb_watched_start(&drawn, &config, &err), PB_OK);
    while (!drawn.is_ended) {
        const PbView *view = pb_session_view(drawn.session);
        int count = 0;
        while (by_clock && next < run.command_count && run.commands[next].tick == view->tick) {
            commands[count++] = run.commands[next++].command;
        }
        count = by_clock ? count : pb_range_hands_next(&hands, view, commands);
        ck_assert_int_ge(count, 0);
        ck_assert_int_eq(pb_watched_step(&drawn, commands, count), PB_OK);
    }
}

/* Waiting for stalls that come when they came changes nothing: to the bit. */
START_TEST(with_its_own_constants_the_run_is_the_recorded_one)
{
    work(&run.constants, 0);
    ck_assert_uint_eq(drawn.result.state_hash, recorded.result.state_hash);
    ck_assert_double_eq(drawn.result.duration_s, recorded.result.duration_s);
}
END_TEST

/* When the first stop stalled, and how long after that the next one began. */
static double first_stall(const PbWatched *w, double *after_s)
{
    int i = 0;
    while (i + 1 < w->lift_count && w->lifts[i].stall_s < 0.0) {
        i++;
    }
    *after_s = w->lifts[i + 1].from_s - w->lifts[i].stall_s;
    return w->lifts[i].stall_s;
}

/* A tighter fill stalls the flow later: acts by the clock come before the stall, and nobody would
 * have made them. A quicker stall brings them forward. */
START_TEST(the_hands_go_by_the_stalls_of_the_draw)
{
    PbConstants late = run.constants, soon = run.constants;
    late.compaction_ref_pa = 1300.0;
    late.sigma45_pa_s_m2 = 6500.0;
    soon.entry_shape = 0.8;
    work(&late, 1);
    int by_clock = drawn.result.stall_count;
    work(&late, 0);
    ck_assert_msg(by_clock <= 3 && drawn.result.stall_count >= recorded.result.stall_count - 2,
                  "%d stalls by the clock, %d by the stalls, %d recorded", by_clock,
                  drawn.result.stall_count, recorded.result.stall_count);
    double own_s, after_s, stalled_s = first_stall(&recorded, &own_s);
    ck_assert_double_gt(first_stall(&drawn, &after_s), stalled_s + 1.0);
    ck_assert_double_eq_tol(after_s, own_s, 0.1);
    work(&soon, 0);
    ck_assert_double_lt(first_stall(&drawn, &after_s), stalled_s - 1.0);
    ck_assert_double_eq_tol(after_s, own_s, 0.1);
}
END_TEST

START_TEST(the_same_draw_gives_the_same_figures)
{
    PbRubric rubric = pb_rubric_default();
    PbRangeSetup setup = {.run = &run,
                          .lifts = recorded.lifts,
                          .lift_count = recorded.lift_count,
                          .rubric = &rubric,
                          .seed = 1};
    PbRangeDraw a, b;
    PbError err = {0};
    ck_assert_int_eq(pb_range_draw(&setup, 2, &a, &err), PB_OK);
    ck_assert_int_eq(pb_range_draw(&setup, 2, &b, &err), PB_OK);
    ck_assert_double_eq(a.mean_kg_m3, b.mean_kg_m3);
    ck_assert_double_eq(a.weakest_kg_m3, b.weakest_kg_m3);
    ck_assert_double_eq(a.total, b.total);
    ck_assert(a.weakest_kg_m3 < a.mean_kg_m3);
}
END_TEST

START_TEST(ranges_hold_eight_of_ten_draws)
{
    PbRangeDraw draws[11];
    for (int i = 0; i < 11; i++) {
        draws[i] = (PbRangeDraw){50.0 + i, 40.0 + i, 90.0 - i, i < 3};
    }
    PbMarkRange r = pb_range_sum(draws, 11);
    ck_assert_int_eq(r.draws, 11);
    ck_assert_int_eq(r.passes, 3);
    ck_assert_double_eq(r.mean_kg_m3.p10, 51.0);
    ck_assert_double_eq(r.mean_kg_m3.p90, 59.0);
    ck_assert_double_eq(r.weakest_kg_m3.median, 45.0);
    ck_assert_double_eq(r.total.p10, 81.0);
    ck_assert_double_eq(r.total.p90, 89.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("mark_range");
    TCase *draws = tcase_create("draws"), *hands = tcase_create("hands");
    tcase_add_test(draws, eight_constants_are_drawn_within_their_range_and_no_other);
    tcase_add_test(draws, a_draw_goes_by_seed_and_index_and_leaves_what_was_set_by_hand);
    tcase_add_test(draws, ranges_hold_eight_of_ten_draws);
    tcase_add_unchecked_fixture(hands, read_and_replay, give_back);
    tcase_set_timeout(hands, 60.0);
    tcase_add_test(hands, with_its_own_constants_the_run_is_the_recorded_one);
    tcase_add_test(hands, the_hands_go_by_the_stalls_of_the_draw);
    tcase_add_test(hands, the_same_draw_gives_the_same_figures);
    suite_add_tcase(suite, draws);
    suite_add_tcase(suite, hands);
    return run_suite(suite);
}
