/* The parts that run on several threads, driven so that the thread sanitizer sees them all: the
 * workers of Years later and Side by side read while they work and cancelled, a heat solve and a
 * bay's spread on four threads, the recorder's writer, the sound thread fed and lost. In other
 * builds the same calls are a plain test: results on many threads are those on one. */
#include "audio/audio_device.h"
#include "core/aged_heat.h"
#include "core/hash.h"
#include "core/session.h"
#include "io/parallel.h"
#include "io/run_recorder.h"
#include "side/job.h"
#include "suite.h"
#include "years/job.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#ifdef FAULTS_TSAN
/* SDL is not built with the sanitizer, so these would order nothing in its eyes. */
int SDL_AtomicSet(SDL_atomic_t *a, int v)
{
    return __atomic_exchange_n(&a->value, v, __ATOMIC_SEQ_CST);
}

int SDL_AtomicGet(SDL_atomic_t *a)
{
    return __atomic_load_n(&a->value, __ATOMIC_SEQ_CST);
}

int SDL_AtomicAdd(SDL_atomic_t *a, int v)
{
    return __atomic_fetch_add(&a->value, v, __ATOMIC_SEQ_CST);
}
#endif

static void nap(int ms)
{
    struct timespec t = {ms / 1000, (ms % 1000) * 1000000L};
    nanosleep(&t, NULL);
}

static PbBayField bay(void)
{
    PbBayField b;
    ck_assert_int_eq(pb_bay_field_create(4, 24, 0.368, 2.4, 0.089, &b), PB_OK);
    pb_bay_field_fill(&b, 45.0);
    return b;
}

START_TEST(the_years_worker_is_read_while_it_works)
{
    YearsInput in;
    memset(&in, 0, sizeof in);
    in.field = bay();
    in.constants = pb_constants_default();
    in.climate = pb_climate_default();
    in.room_c = 20.0;
    in.seed = 3;
    YearsJob *job = years_job_start(&in);
    ck_assert_ptr_nonnull(job);
    double seen = 0.0;
    for (int i = 0; i < 60000 && SDL_AtomicGet(&job->keys_ready) < 2; i++) {
        int frames = SDL_AtomicGet(&job->frames_ready), keys = SDL_AtomicGet(&job->keys_ready);
        for (int f = 0; f < frames; f++) { /* as the room does: what is ready is read */
            seen += job->frames[f].report.mean_kg_m3 + (double)job->frames[f].density[0];
        }
        for (int k = 0; k < keys; k++) {
            seen += job->keys[k].r_m2k_w + (double)job->keys[k].map_c[0];
        }
        (void)years_job_progress(job);
        nap(10);
    }
    ck_assert_int_ge(SDL_AtomicGet(&job->keys_ready), 2);
    ck_assert(seen > 0.0);
    years_job_cancel(job);
    years_job_free(job);
    pb_bay_field_destroy(&in.field);
}
END_TEST

START_TEST(the_side_worker_is_read_while_it_works)
{
    /* Enough to be read beside, and soon over under the thread sanitizer: few times and draws, and
     * a bay handed in for the dense pack, so that the loose blow alone is packed. */
    PbCompareSetup setup = pb_compare_default();
    setup.year_count = 2;
    setup.frames_between = 0;
    setup.draws = 1;
    setup.house.dense = PB_DENSE_OWN;
    const PbExercise *b = &setup.house.bay;
    PbBayField own;
    ck_assert_int_eq(pb_bay_field_create(4, 24, b->width_m, b->height_m, b->depth_m, &own), PB_OK);
    pb_bay_field_fill(&own, 52.0);
    own.tilt_deg = 90.0;
    setup.own = &own;
    PbCompareFigures f;
    PbError err = {0};
    SideJob *job = side_job_start(&setup, 30.0, NULL, 0, &err);
    ck_assert_msg(job != NULL, "%s", err.message);
    int seen = 0;
    for (int i = 0; i < 60000 && seen < PB_COMPARE_FILLS; i++) { /* as the room does */
        seen = 0;
        for (int k = 0; k < PB_COMPARE_FILLS; k++) {
            pb_compare_figures_at(job->compare, (PbCompareFill)k, 0.0, &f);
            seen += f.has_heat && side_job_has_frames(job, (PbCompareFill)k);
        }
        (void)side_job_progress(job);
        (void)side_job_draws(job, 30.0);
        nap(10);
    }
    ck_assert_int_eq(seen, PB_COMPARE_FILLS);
    ck_assert_int_gt(SDL_AtomicGet(&job->pieces), 0);
    side_job_cancel(job);
    side_job_free(job);
    pb_bay_field_destroy(&own);
}
END_TEST

static double heat_on(int threads)
{
    PbBayField b = bay();
    PbSettleConfig config = pb_settle_default();
    PbAllocator memory = pb_allocator_default();
    PbAgedHeat weather = {.room_c = 20.0, .outdoor_c = 0.0, .strips = 6};
    IoParallel crew = {threads};
    PbConstants constants = pb_constants_default();
    PbSettle *s;
    PbAgedBay aged;
    PbHeatBay *heat;
    PbError err;
    ck_assert_int_eq(pb_settle_create(&b, &config, &s, &err), PB_OK);
    ck_assert_int_eq(pb_settle_advance(s, 1.0), PB_OK);
    ck_assert_int_eq(pb_settle_aged(s, 0, &aged), PB_OK);
    PbHeatBaySetup setup = pb_aged_heat_setup(&weather, &aged);
    setup.parallel = io_parallel_for;
    setup.parallel_user = &crew;
    setup.map_nx = 12;
    setup.map_ny = 24;
    ck_assert_int_eq(pb_heat_bay_solve(&setup, &constants, &memory, &heat, &err), PB_OK);
    double r = pb_heat_bay_result(heat)->r_m2k_w;
    pb_heat_bay_destroy(heat);
    pb_aged_destroy(&aged);
    pb_settle_destroy(s);
    pb_bay_field_destroy(&b);
    return r;
}

START_TEST(heat_is_the_same_on_any_number_of_threads)
{
    double one = heat_on(1), four = heat_on(4);
    ck_assert(memcmp(&one, &four, sizeof one) == 0);
}
END_TEST

typedef struct Spread {
    PbBayField field;
    PbAgeSample samples[4][2];
} Spread;

static void draw(void *context, int index)
{
    static const double years[] = {1.0, 5.0};
    Spread *spread = context;
    PbAgedHeat weather = pb_aged_heat_default();
    PbEffectiveR effective = {pb_aged_r, &weather};
    PbSettleConfig config = pb_settle_default();
    PbConstants shipped = config.constants;
    config.constants = pb_spread_constants(&shipped, 7, index, 0);
    if (pb_spread_age(&spread->field, &config, years, 2, &effective, spread->samples[index],
                      NULL) != PB_OK) {
        memset(spread->samples[index], 0, sizeof spread->samples[index]);
    }
}

START_TEST(a_spread_is_the_same_on_any_number_of_threads)
{
    static Spread one, four;
    IoParallel alone = {1}, crew = {4};
    one.field = bay();
    four.field = bay();
    io_parallel_for(&alone, 4, draw, &one);
    io_parallel_for(&crew, 4, draw, &four);
    ck_assert(memcmp(one.samples, four.samples, sizeof one.samples) == 0);
    ck_assert(one.samples[3][1].effective_r_m2k_w > 0.0);
    pb_bay_field_destroy(&one.field);
    pb_bay_field_destroy(&four.field);
}
END_TEST

START_TEST(the_recorder_writes_beside_the_run)
{
    const char *path = "threads.pbrun";
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    IoRecorder *recorder;
    PbError err;
    PbRunFile run;
    size_t size;
    unlink(path);
    ck_assert_int_eq(pb_session_create(&config, &session, &err), PB_OK);
    ck_assert_int_eq(io_recorder_open(path, &config, "somebody", 0, &recorder, &err), PB_OK);
    for (int i = 0; i < 150; i++) {
        PbCommand c = {PB_COMMAND_BLOWER, 0.5 + 0.001 * i};
        ck_assert_int_eq(pb_session_step(session, &c, 1), PB_OK);
        io_recorder_step(recorder, session, &c, 1);
        ck_assert_int_eq(io_recorder_status(recorder, &err), PB_OK);
        (void)io_recorder_bytes(recorder, &size);
        nap(2);
    }
    ck_assert_int_eq(io_recorder_mark(recorder, "here", &err), PB_OK);
    io_recorder_close(recorder);
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    ck_assert_int_eq(run.last_tick, 150);
    ck_assert_int_eq(run.mark_count, 1);
    io_run_free(&run);
    pb_session_destroy(session);
    unlink(path);
}
END_TEST

START_TEST(the_sound_is_fed_muted_and_lost)
{
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    AudioDevice *d = audio_device_open(NULL, 1);
    ck_assert_ptr_nonnull(d);
    for (int i = 0; i < 40; i++) {
        AudioParams p = {.speed = 0.025f * (float)i, .volume = 1.0f, .machine_on = 1};
        audio_device_set(d, &p);
        audio_device_mute(d, i % 8 == 0);
        (void)audio_device_poll(d, 0.02 * i);
        (void)audio_device_stats(d);
        nap(10);
    }
    ck_assert_uint_gt(audio_device_stats(d).buffers, 2);
    audio_device_close(d);

    /* a file that is always full: SDL takes the device for pulled out, while its thread runs */
    setenv("SDL_AUDIODRIVER", "disk", 1);
    setenv("SDL_DISKAUDIOFILE", "/dev/full", 1);
    d = audio_device_open(NULL, 1);
    ck_assert_ptr_nonnull(d);
    AudioNotice told = AUDIO_NOTICE_NONE;
    AudioParams p = {
        .speed = 1.0f, .pressure = 0.5f, .flow = 0.5f, .volume = 1.0f, .machine_on = 1};
    for (int i = 0; i < 300 && told != AUDIO_NOTICE_LOST; i++) {
        audio_device_set(d, &p);
        told = audio_device_poll(d, 0.01 * i);
        nap(10);
    }
    ck_assert_int_eq(told, AUDIO_NOTICE_LOST);
    ck_assert(!audio_device_stats(d).is_playing);
    audio_device_close(d);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("threads");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 620); /* of patience: the workers stand back behind any other load */
    tcase_add_test(t, the_years_worker_is_read_while_it_works);
    tcase_add_test(t, the_side_worker_is_read_while_it_works);
    tcase_add_test(t, heat_is_the_same_on_any_number_of_threads);
    tcase_add_test(t, a_spread_is_the_same_on_any_number_of_threads);
    tcase_add_test(t, the_recorder_writes_beside_the_run);
    tcase_add_test(t, the_sound_is_fed_muted_and_lost);
    suite_add_tcase(s, t);
    return run_suite(s);
}
