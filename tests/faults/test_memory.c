/* Memory that runs out at the n-th call, for every n until the work gets through: creating,
 * reading, replaying, ageing, heat, recording, the store and the report. Each time there must be
 * either a refusal that blames memory in words, or the very result of an undisturbed run; and no
 * block more than before. n that fails once and n from which all fail are both tried.
 *
 * FAULTS_STEP in the environment tries every step-th n only beyond the first hundred (1 = all). */
#include "core/aged_heat.h"
#include "core/climate.h"
#include "core/hash.h"
#include "core/heat_case.h"
#include "core/spread.h"
#include "core/watched.h"
#include "fail_alloc.h"
#include "io/age_result.h"
#include "io/climate_file.h"
#include "io/constants_file.h"
#include "io/exercise_file.h"
#include "io/field_file.h"
#include "io/hands_file.h"
#include "io/heat_file.h"
#include "io/parallel.h"
#include "io/rubric_file.h"
#include "io/run_recorder.h"
#include "io/settings_file.h"
#include "report/report.h"
#include "store_case.h"

#include <stdint.h>
#include <stdlib.h>

#define ASSET(name) PB_TEST_SOURCE_DIR "/assets/" name

/* One piece of work: on PB_OK *result says what came out. */
typedef PbStatus (*Work)(uint64_t *result, PbError *err);

enum { KEEPS_CACHES = 1 };

static uint64_t hash(uint64_t h, const void *bytes, size_t size)
{
    return pb_hash_bytes(h, bytes, size);
}

static long step_beyond(long n, long by)
{
    const char *asked = getenv("FAULTS_STEP");
    long step = asked != NULL && atol(asked) > 0 ? atol(asked) : by;
    return n < 100 ? 1 : step;
}

static void judge(const char *name, long n, long failed, PbStatus status, const PbError *err,
                  uint64_t result, uint64_t expected)
{
    if (status == PB_OK) {
        ck_assert_msg(result == expected, "%s: call %ld failed, and the result is another", name,
                      n);
        return;
    }
    ck_assert_msg(failed > 0, "%s: refused though nothing failed: %s", name, err->message);
    ck_assert_msg(status == PB_ERR_MEMORY || status == PB_ERR_IO,
                  "%s: call %ld failed, and the blame is on %s: %s", name, n,
                  pb_status_name(status), err->message);
    ck_assert_msg(err->message[0] != '\0', "%s: call %ld failed without a word", name, n);
}

static void sweep(const char *name, Work work, int flags, long by)
{
    uint64_t expected = 0, result = 0;
    PbError err = {0};
    for (int warm = 0; warm < 2; warm++) { /* what is made once and kept is made now */
        PbStatus status = work(&expected, &err);
        ck_assert_msg(status == PB_OK, "%s: %s", name, err.message);
    }
    long tried = 0, refused = 0;
    for (int lasts = 0; lasts < 2; lasts++) {
        long failed = 1;
        for (long n = 1; failed > 0; n += step_beyond(n, by)) {
            long before = fail_alloc_live();
            memset(&err, 0, sizeof err);
            fail_alloc_start(n, lasts);
            PbStatus status = work(&result, &err);
            failed = fail_alloc_stop();
            long after = fail_alloc_live();
            judge(name, n, failed, status, &err, result, expected);
            ck_assert_msg((flags & KEEPS_CACHES) != 0 || after == before,
                          "%s: call %ld failed, and %ld blocks were not given back", name, n,
                          after - before);
            tried++;
            refused += status != PB_OK;
        }
    }
    printf("%s: %ld shortages, %ld refused, the others got through with the same result\n", name,
           tried, refused);
    ck_assert_int_gt(refused, 0);
}

/* ---- reading ---- */

static PbStatus read_exercise(uint64_t *result, PbError *err)
{
    PbExercise e = pb_exercise_default();
    PbStatus status = io_exercise_load(ASSET("exercises/electrical-box.json"), &e, err);
    *result = hash(PB_HASH_START, e.id, sizeof e.id) + (uint64_t)e.obstacle_count;
    return status;
}

static PbStatus read_hands(uint64_t *result, PbError *err)
{
    PbHands h = pb_hands_default();
    PbStatus status = io_hands_load(ASSET("hands/steady-foot.json"), &h, err);
    *result = hash(PB_HASH_START, &h.step_m, sizeof h.step_m) + (uint64_t)h.pass_count;
    return status;
}

static PbStatus read_rubric(uint64_t *result, PbError *err)
{
    PbRubric r = pb_rubric_default();
    PbStatus status = io_rubric_load(ASSET("rubrics/default.json"), &r, err);
    *result = hash(PB_HASH_START, &r.pass_score, sizeof r.pass_score);
    return status;
}

static PbStatus read_constants(uint64_t *result, PbError *err)
{
    PbConstants c = pb_constants_default();
    PbStatus status = io_constants_load(ASSET("constants.json"), &c, err);
    *result = pb_constants_hash(&c);
    return status;
}

static PbStatus read_climate(uint64_t *result, PbError *err)
{
    PbClimate c;
    memset(&c, 0, sizeof c);
    PbStatus status = io_climate_load(ASSET("climates/damp.json"), &c, err);
    *result = hash(PB_HASH_START, &c, sizeof c);
    return status;
}

static PbStatus read_run(uint64_t *result, PbError *err)
{
    PbRunFile run;
    PB_TRY(io_run_read(PB_TEST_SOURCE_DIR "/tests/app/recorded.pbrun", &run, err));
    *result = run.end_hash + (uint64_t)run.command_count + (uint64_t)run.hash_count;
    io_run_free(&run);
    return PB_OK;
}

static PbStatus read_settings(uint64_t *result, PbError *err)
{
    IoSettings s = io_settings_default();
    PB_TRY(io_settings_save("faults-settings.json", &s, err));
    PB_TRY(io_settings_load("faults-settings.json", &s, err));
    *result = (uint64_t)(s.text_scale * 100.0);
    return PB_OK;
}

START_TEST(every_reader_blames_memory_and_gives_all_back)
{
    sweep("exercise", read_exercise, 0, 1);
    sweep("hands", read_hands, 0, 1);
    sweep("rubric", read_rubric, 0, 1);
    sweep("constants", read_constants, 0, 7);
    sweep("climate", read_climate, 0, 1);
    sweep("run file", read_run, 0, 1);
    sweep("settings", read_settings, 0, 1);
    unlink("faults-settings.json");
}
END_TEST

/* ---- packing, recording, replaying ---- */

static PbStatus pack(uint64_t *result, PbError *err)
{
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    PbBayField field;
    PB_TRY(pb_session_create(&config, &session, err));
    PbCommand on = {PB_COMMAND_MACHINE, 1.0};
    PbStatus status = PB_OK;
    for (int i = 0; i < 50 && status == PB_OK; i++) {
        status = pb_session_step(session, &on, i == 0);
    }
    *result = pb_session_hash(session);
    if (status == PB_OK) {
        status = pb_session_field(session, &field);
    }
    if (status == PB_OK) {
        pb_bay_field_destroy(&field);
    } else {
        pb_fail(err, status, "the session: %s", pb_status_name(status));
    }
    pb_session_destroy(session);
    return status;
}

/* A run recorded into memory. When memory runs out the recorder says so, and what it holds is still
 * a run file. */
static PbStatus record(uint64_t *result, PbError *err)
{
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    IoRecorder *recorder = NULL;
    size_t size = 0;
    PB_TRY(pb_session_create(&config, &session, err));
    PbStatus status = io_recorder_open(NULL, &config, "somebody", 0, &recorder, err);
    for (int i = 0; i < 60 && status == PB_OK; i++) {
        PbCommand c = {PB_COMMAND_BLOWER, 0.5 + 0.001 * i};
        status = pb_session_step(session, &c, 1);
        io_recorder_step(recorder, session, &c, 1);
    }
    if (status == PB_OK) {
        status = io_recorder_status(recorder, err);
        const unsigned char *bytes = io_recorder_bytes(recorder, &size);
        *result = hash(PB_HASH_START, bytes, size);
        PbRunFile run;
        PbError other = {0};
        PbStatus readable = io_run_decode("memory", bytes, size, &run, &other);
        if (readable == PB_OK) {
            io_run_free(&run);
        } else if (readable != PB_ERR_MEMORY) { /* Check itself needs memory: not asked here */
            printf("what was kept: %s\n", other.message);
            *result = 0;
        }
        if (status == PB_OK) {
            status = io_recorder_status(recorder, err);
        }
        if (*result == 0) {
            status = PB_ERR_FORMAT;
        }
    }
    io_recorder_close(recorder);
    pb_session_destroy(session);
    return status;
}

static PbRunFile recorded;

static PbStatus replay(uint64_t *result, PbError *err)
{
    PbReplay *r;
    PB_TRY(pb_replay_create(&recorded, pb_allocator_default(), &r, err));
    PbStatus status = pb_replay_seek(r, 600);
    if (status == PB_OK) {
        status = pb_replay_seek(r, 250);
    }
    *result = pb_session_hash(pb_replay_session(r));
    pb_replay_destroy(r);
    return status == PB_OK ? status : pb_fail(err, status, "replay: %s", pb_status_name(status));
}

START_TEST(a_session_is_made_whole_or_not_at_all)
{
    sweep("session", pack, 0, 1);
}
END_TEST

START_TEST(a_recording_that_runs_out_of_memory_says_so_and_stays_readable)
{
    sweep("recorder", record, 0, 5);
}
END_TEST

START_TEST(a_replay_goes_on_without_key_states_or_refuses)
{
    PbError err;
    ck_assert_int_eq(io_run_read(PB_TEST_SOURCE_DIR "/tests/app/recorded.pbrun", &recorded, &err),
                     PB_OK);
    sweep("replay", replay, 0, 1);
    io_run_free(&recorded);
}
END_TEST

/* ---- years ---- */

static PbBayField bay;

static PbStatus age(uint64_t *result, PbError *err)
{
    PbSettleConfig config = pb_settle_default();
    PbSettle *s;
    PbAgedBay aged;
    config.max_step_years = 1.0;
    PB_TRY(pb_settle_create(&bay, &config, &s, err));
    PbStatus status = pb_settle_advance(s, 3.0);
    if (status == PB_OK) {
        status = pb_settle_aged(s, 0, &aged);
    }
    *result = pb_settle_hash(s);
    if (status == PB_OK) {
        pb_aged_destroy(&aged);
    } else {
        pb_fail(err, status, "age: %s", pb_status_name(status));
    }
    pb_settle_destroy(s);
    return status;
}

static PbStatus spread(uint64_t *result, PbError *err)
{
    static const double years[] = {1.0, 5.0};
    PbAgedHeat weather = pb_aged_heat_default();
    PbEffectiveR effective = {pb_aged_r, &weather};
    PbSettleConfig config = pb_settle_default();
    PbAgeSample samples[2];
    config.constants = pb_spread_constants(&config.constants, 7, 1, 0);
    config.max_step_years = 1.0;
    PB_TRY(pb_spread_age(&bay, &config, years, 2, &effective, samples, err));
    *result = hash(PB_HASH_START, samples, sizeof samples);
    return PB_OK;
}

static PbStatus threshold(uint64_t *result, PbError *err)
{
    PbSettleConfig config = pb_settle_default();
    double kg_m3 = 0.0;
    config.max_step_years = 1.0;
    PB_TRY(pb_settle_threshold(&bay, &config, 10.0, &kg_m3, err));
    *result = hash(PB_HASH_START, &kg_m3, sizeof kg_m3);
    return PB_OK;
}

static PbStatus field_file(uint64_t *result, PbError *err)
{
    PbBayField back;
    PB_TRY(io_field_csv_write("faults-field.csv", &bay, err));
    PB_TRY(io_field_csv_read("faults-field.csv", &back, err));
    *result =
        hash(PB_HASH_START, back.density_kg_m3, (size_t)back.nx * (size_t)back.ny * sizeof(double));
    pb_bay_field_destroy(&back);
    return PB_OK;
}

START_TEST(years_come_whole_or_not_at_all)
{
    ck_assert_int_eq(pb_bay_field_create(4, 24, 0.368, 2.4, 0.089, &bay), PB_OK);
    pb_bay_field_fill(&bay, 45.0);
    sweep("age", age, 0, 1);
    sweep("field file", field_file, 0, 1);
    sweep("spread with heat", spread, 0, 5);
    sweep("threshold", threshold, 0, 1);
    pb_bay_field_destroy(&bay);
    unlink("faults-field.csv");
}
END_TEST

/* ---- heat ---- */

static PbStatus heat_case(uint64_t *result, PbError *err)
{
    PbAllocator memory = pb_allocator_default();
    static PbHeatCase c;
    PbHeatSection *section;
    PB_TRY(io_heat_case_load(ASSET("heat/iso10211_case1.json"), &c, err));
    c.nx = 16;
    c.ny = 32;
    PB_TRY(pb_heat_case_solve(&c, &memory, &section, err));
    const PbHeatResult *r = pb_heat_section_result(section);
    *result = hash(PB_HASH_START, r->heat_w_m, sizeof r->heat_w_m);
    pb_heat_section_destroy(section);
    return PB_OK;
}

static int heat_threads;

static PbStatus heat_bay(uint64_t *result, PbError *err)
{
    PbAllocator memory = pb_allocator_default();
    PbConstants constants = pb_constants_default();
    IoParallel crew = {heat_threads};
    static IoHeatBay b;
    PbHeatBay *heat;
    PB_TRY(io_heat_bay_load(ASSET("heat/bay_top_void.json"), &constants, &b, err));
    b.setup.strips = 3;
    b.setup.nx = 16;
    b.setup.ny = 32;
    b.setup.map_nx = 12;
    b.setup.map_ny = 24;
    b.setup.parallel = heat_threads > 1 ? io_parallel_for : NULL;
    b.setup.parallel_user = &crew;
    PbStatus status = pb_heat_bay_solve(&b.setup, &constants, &memory, &heat, err);
    if (status == PB_OK) {
        const PbHeatBayResult *r = pb_heat_bay_result(heat);
        *result = hash(PB_HASH_START, &r->r_m2k_w, sizeof r->r_m2k_w);
        *result = hash(*result, r->map_c, 12 * 24 * sizeof(double));
        pb_heat_bay_destroy(heat);
    }
    io_heat_bay_free(&b);
    return status;
}

START_TEST(heat_is_solved_whole_or_not_at_all)
{
    sweep("heat of a section", heat_case, 0, 1);
    heat_threads = 1;
    sweep("heat of a bay", heat_bay, 0, 1);
}
END_TEST

START_TEST(heat_on_two_threads_too)
{
    /* A thread that cannot be made is done without, and glibc keeps the stacks of those that were:
     * blocks are not counted here. */
    heat_threads = 2;
    sweep("heat of a bay, two threads", heat_bay, KEEPS_CACHES, 1);
}
END_TEST

/* ---- store and report ---- */

static PbStatus keep(uint64_t *result, PbError *err)
{
    static unsigned char bytes[20000];
    static int turn; /* no two runs are the same */
    Store *store = NULL;
    StoreRun *runs = NULL;
    PbRunSummary m = case_summary(1);
    size_t size = case_bytes(++turn, bytes, sizeof bytes);
    int64_t learner = 0, id = 0;
    int count = 0;
    StoreFilter filter = {.with_parts = 1};
    StoreLearner who;
    PbStatus status = store_open(case_path, &store, err);
    if (status == PB_OK) {
        status = store_learner_find(store, "Learner1", &who, err);
        learner = status == PB_OK ? who.id : 0;
    }
    if (status == PB_OK) {
        status = store_run_add(store, learner, bytes, size, &m, WHEN, &id, err);
    }
    if (status == PB_OK) {
        StoreMark mark = {.part = "run", .points = 70.0, .reason = "Calm hands.", .marked = WHEN};
        status = store_mark_add(store, id, &mark, err);
    }
    if (status == PB_OK) {
        filter.learner_id = learner;
        status = store_run_list(store, &filter, &runs, &count, err);
    }
    *result = status == PB_OK ? (uint64_t)(runs[0].checksum != 0) + runs[0].summary.seed : 0;
    free(runs);
    store_close(store);
    return status;
}

START_TEST(the_store_is_sound_after_every_shortage)
{
    PbError err = {0};
    StoreRun *runs;
    int count = 0, whole = 0;
    case_start();
    Store *store = case_open();
    case_learner(store, "Learner1");
    store_close(store);
    sweep("store", keep, KEEPS_CACHES, 41);
    store = case_open();
    PbStatus status = store_check(store, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    StoreFilter filter = {.with_parts = 1};
    ck_assert_int_eq(store_run_list(store, &filter, &runs, &count, &err), PB_OK);
    for (int i = 0; i < count; i++) {
        whole += runs[i].summary.part_count == 2;
    }
    ck_assert_int_eq(whole, count); /* a run is in with its parts, or not in */
    free(runs);
    store_close(store);
    case_stop();
}
END_TEST

static ReportRun *gathered;
static PbWatched watched;

static PbStatus watch(uint64_t *result, PbError *err)
{
    static PbWatched w;
    PB_TRY(pb_watched_replay(&w, &recorded, pb_allocator_default(), err));
    w.climate = pb_climate_default();
    w.has_climate = 1;
    PbStatus status = pb_watched_mark(&w);
    if (status == PB_OK) {
        *result = hash(PB_HASH_START, w.samples, (size_t)w.sample_count * sizeof *w.samples) +
                  (uint64_t)(w.score.total * 1e6);
    }
    pb_watched_end(&w);
    return status == PB_OK ? status : pb_fail(err, status, "watch: %s", pb_status_name(status));
}

static PbStatus gather(uint64_t *result, PbError *err)
{
    IoReaderTaste taste = {WORDS_ENGLISH, 0, 0};
    ReportRun *r;
    PB_TRY(report_gather(&recorded, &watched, taste, &r, err));
    *result = hash(PB_HASH_START, r->samples, (size_t)r->sample_count * sizeof *r->samples);
    *result =
        hash(*result, r->density_kg_m3, (size_t)r->nx * (size_t)r->ny * sizeof *r->density_kg_m3);
    *result += (uint64_t)(r->total * 1e6) + (uint64_t)r->patch_count;
    report_free(r);
    return PB_OK;
}

static PbStatus print_pdf(uint64_t *result, PbError *err)
{
    const char *path = "faults-report.pdf";
    char *text;
    size_t size;
    unlink(path);
    PbStatus status = report_run_pdf(gathered, path, REPORT_A4, ASSET("fonts"), WHEN, err);
    if (status != PB_OK) {
        if (access(path, F_OK) == 0) {
            printf("half a report was left\n");
            return PB_ERR_FORMAT;
        }
        return status;
    }
    PB_TRY(io_read_file(path, 1u << 24, &text, &size, err));
    *result = hash(PB_HASH_START, text, size);
    free(text);
    return PB_OK;
}

START_TEST(a_report_is_whole_or_not_there)
{
    PbError err;
    IoReaderTaste taste = {WORDS_ENGLISH, 0, 0};
    ck_assert_int_eq(io_run_read(PB_TEST_SOURCE_DIR "/tests/app/recorded.pbrun", &recorded, &err),
                     PB_OK);
    recorded.last_tick = 500; /* the whole run takes seconds each time */
    recorded.is_ended = 0;
    for (; recorded.command_count > 0 && recorded.commands[recorded.command_count - 1].tick >= 500;
         recorded.command_count--) {
    }
    for (; recorded.hash_count > 0 && recorded.hashes[recorded.hash_count - 1].tick > 500;
         recorded.hash_count--) {
    }
    sweep("a run watched", watch, 0, 5);
    ck_assert_int_eq(pb_watched_replay(&watched, &recorded, pb_allocator_default(), &err), PB_OK);
    ck_assert_int_eq(pb_watched_mark(&watched), PB_OK);
    ck_assert_int_eq(report_gather(&recorded, &watched, taste, &gathered, &err), PB_OK);
    sweep("report's figures", gather, 0, 1);
    /* Not always survived by cairo itself: Debian's 1.16 may read through NULL in its own replay of
     * a page, and it passes over what its compressor says. Everything else that asks for memory,
     * FreeType included, is tried. */
    fail_alloc_spare("libcairo");
    fail_alloc_spare("libpixman");
    fail_alloc_spare("libz");
    sweep("report's pages", print_pdf, KEEPS_CACHES, 97);
    report_free(gathered);
    pb_watched_end(&watched);
    io_run_free(&recorded);
    unlink("faults-report.pdf");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("memory");
    const struct {
        const char *name;
        const TTest *test;
    } cases[] = {
        {"read", every_reader_blames_memory_and_gives_all_back},
        {"session", a_session_is_made_whole_or_not_at_all},
        {"record", a_recording_that_runs_out_of_memory_says_so_and_stays_readable},
        {"replay", a_replay_goes_on_without_key_states_or_refuses},
        {"years", years_come_whole_or_not_at_all},
        {"heat", heat_is_solved_whole_or_not_at_all},
        {"threads", heat_on_two_threads_too},
        {"store", the_store_is_sound_after_every_shortage},
        {"report", a_report_is_whole_or_not_there},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        TCase *t = tcase_create(cases[i].name); /* CK_RUN_CASE=store runs one of them */
        tcase_set_timeout(t, 240);
        tcase_add_test(t, cases[i].test);
        suite_add_tcase(s, t);
    }
    return run_suite(s);
}
