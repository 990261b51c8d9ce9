/* One run under somebody's eyes: by hands and replayed it comes to the same, going back and forth
 * changes nothing of it, and a shortage of memory is told and leaves it where it was. */
#include "core/hands.h"
#include "core/watched.h"
#include "io/exercise_file.h"
#include "io/run_file.h"
#include "io/run_recorder.h"
#include "suite.h"

#include <string.h>

static PbWatched by_hands;
static PbRunFile run;

static PbSessionConfig config(void)
{
    PbSessionConfig c = pb_session_default();
    PbError err;
    ck_assert_msg(io_exercise_load(PB_TEST_SOURCE_DIR "/tests/app/data/low-bay.json", &c.exercise,
                                   &err) == PB_OK,
                  "%s", err.message);
    c.seed = 3;
    return c;
}

/* Without the years, which take longer than all the rest. */
static void mark(PbWatched *w)
{
    ck_assert_int_eq(pb_watched_mark(w), PB_OK);
}

/* The run by hands, recorded; the record is what the replays are of. */
static void work(void)
{
    PbSessionConfig c = config();
    PbHands hands = pb_hands_default();
    PbHandsState state = {0};
    PbCommand commands[16];
    IoRecorder *recorder;
    PbError err;
    size_t size;
    ck_assert_int_eq(pb_watched_start(&by_hands, &c, &err), PB_OK);
    ck_assert_int_eq(io_recorder_open(NULL, &c, "hands", 0, &recorder, &err), PB_OK);
    while (!by_hands.is_ended) {
        int n = pb_hands_next(&hands, &state, pb_session_view(by_hands.session), commands);
        ck_assert_int_eq(pb_watched_step(&by_hands, commands, n), PB_OK);
        io_recorder_step(recorder, by_hands.session, commands, n);
    }
    mark(&by_hands);
    ck_assert_int_eq(io_recorder_finish(recorder, by_hands.session, NULL, NULL, &err), PB_OK);
    const unsigned char *bytes = io_recorder_bytes(recorder, &size);
    ck_assert_int_eq(io_run_decode("hands", bytes, size, &run, &err), PB_OK);
    io_recorder_close(recorder);
}

static void give_back(void)
{
    pb_watched_end(&by_hands);
    pb_watched_end(&by_hands); /* a second time is nothing */
    io_run_free(&run);
}

static void same(const PbWatched *w)
{
    const PbWatched *b = &by_hands;
    ck_assert_int_eq(w->is_ended, 1);
    ck_assert_int_eq(w->seen_tick, b->seen_tick);
    ck_assert_int_eq(w->sample_count, b->sample_count);
    ck_assert_mem_eq(w->samples, b->samples, (size_t)b->sample_count * sizeof *b->samples);
    ck_assert_double_eq(w->top_pa, b->top_pa);
    ck_assert_double_eq(w->top_flow_m3_s, b->top_flow_m3_s);
    ck_assert_double_eq(w->top_feed_kg_s, b->top_feed_kg_s);
    ck_assert_int_eq(w->lift_count, b->lift_count);
    ck_assert_mem_eq(w->lifts, b->lifts, (size_t)b->lift_count * sizeof *b->lifts);
    ck_assert_int_eq(w->watch.event_count, b->watch.event_count);
    for (int i = 0; i < b->watch.event_count; i++) {
        ck_assert_int_eq((int)w->watch.events[i].kind, (int)b->watch.events[i].kind);
        ck_assert_int_eq(w->watch.events[i].tick, b->watch.events[i].tick);
        ck_assert_double_eq(w->watch.events[i].value, b->watch.events[i].value);
    }
    ck_assert_double_eq(w->watch.peak_load, b->watch.peak_load);
    ck_assert_uint_eq(w->result.state_hash, b->result.state_hash);
    ck_assert_double_eq(w->result.mean_kg_m3, b->result.mean_kg_m3);
    ck_assert_double_eq(w->score.total, b->score.total);
    ck_assert_int_eq(w->score.loss_count, b->score.loss_count);
    ck_assert(w->has_score && b->score.total > 0.0);
}

START_TEST(a_replay_shows_what_the_hands_did)
{
    static PbWatched w;
    PbError err;
    ck_assert_int_eq(pb_watched_replay(&w, &run, pb_allocator_default(), &err), PB_OK);
    ck_assert_int_eq(w.sample_count, 1); /* of tick 0 */
    mark(&w);
    same(&w);
    ck_assert_int_eq(w.sample_count, run.last_tick / PB_SAMPLE_TICKS + 1);
    ck_assert_int_gt(w.lift_count, 1);
    pb_watched_end(&w);
}
END_TEST

START_TEST(going_back_and_on_sees_nothing_twice)
{
    static PbWatched w;
    PbError err;
    ck_assert_int_eq(pb_watched_replay(&w, &run, pb_allocator_default(), &err), PB_OK);
    ck_assert_int_eq(pb_watched_seek(&w, 400), PB_OK);
    ck_assert_int_eq(pb_watched_seek(&w, 33), PB_OK);
    ck_assert_int_eq(pb_replay_tick(w.replay), 33);
    ck_assert_int_eq(pb_watched_step(&w, NULL, 0), PB_OK);
    ck_assert_int_eq(w.seen_tick, 400);
    ck_assert_int_eq(w.sample_count, 81);
    ck_assert_int_eq(pb_watched_seek(&w, 555), PB_OK);
    ck_assert(!w.is_ended);
    mark(&w);
    same(&w);
    ck_assert_int_eq(pb_watched_seek(&w, 100), PB_OK); /* what was seen to the end stays */
    ck_assert_uint_eq(w.result.state_hash, by_hands.result.state_hash);
    ck_assert_ptr_eq(pb_watched_sample(&w, 4.0), &w.samples[20]);
    ck_assert_ptr_eq(pb_watched_sample(&w, 1e6), &w.samples[w.sample_count - 1]);
    mark(&w); /* and marking goes there by itself */
    same(&w);
    pb_watched_end(&w);
}
END_TEST

/* Gives nothing while it is told so. */
typedef struct Short {
    PbAllocator c;
    int is_short, refused;
} Short;

static void *short_alloc(void *user, size_t bytes)
{
    Short *s = user;
    s->refused += s->is_short;
    return s->is_short ? NULL : s->c.alloc(s->c.user, bytes);
}

static void short_free(void *user, void *memory)
{
    Short *s = user;
    s->c.free(s->c.user, memory);
}

START_TEST(without_room_for_a_sample_the_run_waits_and_says_so)
{
    static PbWatched w;
    Short s = {.c = pb_allocator_default()};
    PbSessionConfig c = config();
    PbError err;
    int next = 0;
    c.allocator = (PbAllocator){short_alloc, short_free, &s};
    ck_assert_int_eq(pb_watched_start(&w, &c, &err), PB_OK);
    while (!w.is_ended) {
        PbCommand commands[64];
        int n = 0, tick = w.seen_tick, before = w.sample_count;
        for (; next < run.command_count && run.commands[next].tick == tick; next++) {
            commands[n++] = run.commands[next].command;
        }
        uint64_t hash = before == w.sample_room ? pb_session_hash(w.session) : 0;
        s.is_short = 1;
        PbStatus status = pb_watched_step(&w, commands, n);
        s.is_short = 0;
        if (status == PB_ERR_MEMORY) {
            ck_assert_int_eq(w.seen_tick, tick);
            ck_assert_int_eq(w.sample_count, before);
            ck_assert_uint_eq(pb_session_hash(w.session), hash);
            status = pb_watched_step(&w, commands, n);
        }
        ck_assert_int_eq(status, PB_OK);
    }
    ck_assert_int_ge(s.refused, 1);
    mark(&w);
    same(&w);
    pb_watched_end(&w);
    s.is_short = 1;
    ck_assert_int_eq(pb_watched_start(&w, &c, &err), PB_ERR_MEMORY);
    ck_assert_ptr_null(w.session);
}
END_TEST

START_TEST(marks_go_by_the_rubric_and_the_climate_that_were_set)
{
    static PbWatched w;
    PbError err;
    ck_assert_int_eq(pb_watched_replay(&w, &run, pb_allocator_default(), &err), PB_OK);
    ck_assert_int_eq(pb_watched_mark(&w), PB_OK);
    ck_assert(!w.score.has_years); /* no climate, no years */
    double by_default = w.score.total;
    w.rubric.weight[PB_SCORE_HANDS] += 30.0;
    ck_assert_int_eq(pb_watched_mark(&w), PB_OK);
    ck_assert_double_ne(w.score.total, by_default);
    w.climate = pb_climate_default();
    w.has_climate = 1;
    ck_assert_int_eq(pb_watched_mark(&w), PB_OK);
    ck_assert(w.score.has_years);
    pb_watched_end(&w);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("watched");
    TCase *normal = tcase_create("normal");
    tcase_add_unchecked_fixture(normal, work, give_back);
    tcase_add_test(normal, a_replay_shows_what_the_hands_did);
    tcase_add_test(normal, going_back_and_on_sees_nothing_twice);
    tcase_add_test(normal, without_room_for_a_sample_the_run_waits_and_says_so);
    tcase_add_test(normal, marks_go_by_the_rubric_and_the_climate_that_were_set);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
