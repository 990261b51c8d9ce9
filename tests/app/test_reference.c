/* The shipped reference runs: of the exercise as it is shipped, whole, hash by hash the same, and
 * with the points that they say; and each of them beats the plain one-foot rule. */
#include "core/hands.h"
#include "core/watched.h"
#include "io/climate_file.h"
#include "io/exercise_file.h"
#include "io/run_file.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ASSETS PB_TEST_SOURCE_DIR "/assets/"

static const struct {
    const char *id;
    double at_least; /* what docs/TRAINERS.md says of it, and no less */
} shipped[] = {{"plain-2x4", 99.6}, {"plain-2x4-high", 93.0}, {"deep-2x6", 99.9}};

static void same_exercise(const PbExercise *recorded, const char *id)
{
    char path[300];
    PbExercise now;
    PbError err;
    snprintf(path, sizeof path, ASSETS "exercises/%s.json", id);
    ck_assert_int_eq(io_exercise_load(path, &now, &err), PB_OK);
    json_t *a = io_exercise_to_json(recorded), *b = io_exercise_to_json(&now);
    ck_assert_msg(a != NULL && b != NULL && json_equal(a, b),
                  "%s: the exercise has changed since its reference run; search a new one with "
                  "pullback-cli coach",
                  id);
    json_decref(a);
    json_decref(b);
}

START_TEST(replays_and_has_the_points_that_it_says)
{
    char path[300];
    PbRunFile run;
    PbError err;
    static PbWatched w;
    const PbRubric rubric = pb_rubric_default();
    snprintf(path, sizeof path, ASSETS "reference/%s.pbrun", shipped[_i].id);
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    ck_assert_str_eq(run.exercise.id, shipped[_i].id);
    same_exercise(&run.exercise, shipped[_i].id);
    ck_assert(run.is_ended && run.cut_bytes == 0 && run.grade.is_given);
    ck_assert_msg(run.grade.rubric_hash == pb_rubric_hash(&rubric),
                  "%s: the default rubric has changed since its grade was given; search a new one "
                  "with pullback-cli coach",
                  shipped[_i].id);
    ck_assert_int_eq(pb_watched_replay(&w, &run, pb_allocator_default(), &err), PB_OK);
    ck_assert_str_eq(run.exercise.climate, "cold");
    ck_assert_int_eq(io_climate_load(ASSETS "climates/cold.json", &w.climate, &err), PB_OK);
    w.has_climate = 1;
    ck_assert_int_eq(pb_watched_mark(&w), PB_OK);
    ck_assert_int_eq(w.seen_tick, run.last_tick);
    ck_assert_int_lt(pb_replay_check(w.replay).parted_tick, 0);
    ck_assert_int_gt(pb_replay_check(w.replay).compared, 30);
    ck_assert_double_eq(w.score.total, run.grade.total);
    ck_assert_double_ge(w.score.total, shipped[_i].at_least);
    pb_watched_end(&w);
    io_run_free(&run);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("reference");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 120.0);
    tcase_add_loop_test(normal, replays_and_has_the_points_that_it_says, 0,
                        (int)(sizeof shipped / sizeof shipped[0]));
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
