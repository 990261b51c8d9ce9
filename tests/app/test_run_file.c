/*
 * Run files end to end: recorded, read, replayed, sought, torn at every length, damaged; the
 * recorder against read-only folders and a full disk; seeks against straight replays.
 */
#include "core/hands.h"
#include "core/hash.h"
#include "core/replay.h"
#include "core/rng.h"
#include "io/run_file.h"
#include "io/run_recorder.h"
#include "io/run_summary.h"
#include "suite.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static char folder[200];
static unsigned char *bytes; /* of one finished run with two marks, kept in memory */
static size_t size;

/* The program's own calls of ftruncate come here: a disk that is gone does not shorten files. */
static volatile int is_disk_gone;

int ftruncate(int fd, off_t length)
{
    if (is_disk_gone) {
        errno = EIO;
        return -1;
    }
    char path[40];
    snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
    return truncate(path, length);
}

static double cpu_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static PbSessionConfig config_of(void)
{
    PbSessionConfig c = pb_session_default();
    c.seed = 42;
    c.constants.saltation_slope *= 1.01; /* one that is not as shipped */
    return c;
}

/* A short run: thirty seconds of the one-foot rule, then home. */
static void record(IoRecorder *r, const PbSessionConfig *c, int ticks, int *marked)
{
    PbSession *s;
    PbHands h = pb_hands_default();
    PbHandsState state = {0};
    PbCommand commands[16];
    PbError err;
    ck_assert_int_eq(pb_session_create(c, &s, &err), PB_OK);
    while (!pb_session_is_over(s)) {
        const PbView *v = pb_session_view(s);
        int n = pb_hands_next(&h, &state, v, commands);
        if (v->tick == ticks) {
            commands[n++] = (PbCommand){PB_COMMAND_FINISH, 1.0};
        }
        ck_assert_int_eq(pb_session_step(s, commands, n), PB_OK);
        io_recorder_step(r, s, commands, n);
        if (v->tick == 300 && marked != NULL) {
            ck_assert_int_eq(io_recorder_mark(r, "watch the tube — aquí", &err), PB_OK);
            ck_assert_int_eq(io_recorder_mark(r, "bad\nline", &err), PB_ERR_RANGE);
            *marked = 1;
        }
    }
    PbStatus status = io_recorder_finish(r, s, NULL, NULL, &err);
    ck_assert(status == PB_OK || status == PB_ERR_IO);
    pb_session_destroy(s);
}

/* The run that every test reads is worked once. */
static void work_once(void)
{
    PbSessionConfig c = config_of();
    IoRecorder *r;
    PbError err;
    size_t n;
    int marked = 0;
    ck_assert_int_eq(io_recorder_open(NULL, &c, "test hands", 1234567890, &r, &err), PB_OK);
    record(r, &c, 750, &marked);
    const unsigned char *b = io_recorder_bytes(r, &n);
    bytes = malloc(n);
    memcpy(bytes, b, n);
    size = n;
    io_recorder_close(r);
}

static void forget(void)
{
    free(bytes);
}

static void start(void)
{
    snprintf(folder, sizeof folder, "%s/run-file-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void stop(void)
{
    char command[300];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

static PbRunFile read_all(void)
{
    PbRunFile run;
    PbError err;
    ck_assert_int_eq(io_run_decode("memory", bytes, size, &run, &err), PB_OK);
    return run;
}

START_TEST(a_recorded_run_reads_back_and_replays_hash_by_hash)
{
    PbRunFile run = read_all();
    PbReplay *replay;
    PbError err;
    PbSessionConfig c = config_of();
    ck_assert_uint_eq(run.cut_bytes, 0);
    ck_assert(run.is_ended);
    ck_assert_str_eq(run.who, "test hands");
    ck_assert_int_eq(run.mark_count, 1);
    ck_assert_int_eq(run.marks[0].tick, 300);
    ck_assert_uint_eq(run.seed, 42);
    ck_assert_int_eq(memcmp(&run.constants, &c.constants, sizeof c.constants), 0);
    ck_assert_double_lt((double)size * 180.0 / (run.last_tick * PB_TICK_S), 300e3);
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &replay, &err), PB_OK);
    ck_assert_int_eq(pb_replay_seek(replay, run.last_tick), PB_OK);
    PbReplayCheck check = pb_replay_check(replay);
    ck_assert(!check.is_resimulated);
    ck_assert_int_eq(check.parted_tick, -1);
    /* every one, and that of the last state where it falls between */
    ck_assert_int_eq(check.compared, run.last_tick / PB_RECORD_HASH_TICKS +
                                         (run.last_tick % PB_RECORD_HASH_TICKS != 0));
    ck_assert_uint_eq(pb_session_hash(pb_replay_session(replay)), run.end_hash);
    pb_replay_destroy(replay);
    io_run_free(&run);
}
END_TEST

/* Recorded once and kept, so that builds are held against each other over time, not against
 * themselves. When it is of another physics version it compares nothing: record it anew
 * (docs/TESTING.md). */
START_TEST(the_kept_run_replays_hash_by_hash_in_this_build)
{
    PbRunFile run;
    PbReplay *replay;
    PbError err;
    ck_assert_int_eq(io_run_read(PB_TEST_SOURCE_DIR "/tests/app/recorded.pbrun", &run, &err),
                     PB_OK);
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &replay, &err), PB_OK);
    ck_assert_int_eq(pb_replay_seek(replay, run.last_tick), PB_OK);
    PbReplayCheck check = pb_replay_check(replay);
    ck_assert(!check.is_resimulated);
    ck_assert_int_eq(check.parted_tick, -1);
    ck_assert_int_gt(check.compared, 30);
    ck_assert_uint_eq(pb_session_hash(pb_replay_session(replay)), run.end_hash);
    pb_replay_destroy(replay);
    io_run_free(&run);
}
END_TEST

/* Recorded by a program before this one, and kept as it was: never renewed. */
START_TEST(a_run_of_older_physics_opens_is_told_apart_and_played_again)
{
    PbRunFile run;
    PbReplay *replay;
    PbError err;
    char command[900];
    const char *path = PB_TEST_SOURCE_DIR "/tests/app/data/physics_2.pbrun";
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    ck_assert_int_eq(run.physics_version, 2);
    ck_assert_uint_eq(run.cut_bytes, 0);
    ck_assert(run.is_ended && run.grade.is_given);
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &replay, &err), PB_OK);
    ck_assert_int_eq(pb_replay_seek(replay, run.last_tick), PB_OK);
    ck_assert(pb_replay_is_at_end(replay));
    PbReplayCheck check = pb_replay_check(replay);
    ck_assert(check.is_resimulated);
    ck_assert_int_eq(check.compared, 0);
    ck_assert_int_eq(check.parted_tick, -1);
    ck_assert_double_gt(pb_session_view(pb_replay_session(replay))->ledger.in_bay_kg, 1.0);
    pb_replay_destroy(replay);
    io_run_free(&run);
    snprintf(command, sizeof command,
             "'%s' replay '%s' >'%s/old.txt' && grep -q 're-simulated with physics %d (recorded "
             "with 2)' '%s/old.txt'",
             PB_TEST_CLI, path, folder, PB_PHYSICS_VERSION, folder);
    ck_assert_int_eq(system(command), 0);
}
END_TEST

START_TEST(a_changed_command_makes_the_replay_part_at_the_next_hash)
{
    PbRunFile run = read_all();
    PbReplay *replay;
    PbError err;
    int at = 0;
    while (run.commands[at].tick < 60 || run.commands[at].command.kind != PB_COMMAND_FEED) {
        at++;
    }
    run.commands[at].command.value *= 1.0001;
    int tick = run.commands[at].tick;
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &replay, &err), PB_OK);
    ck_assert_int_eq(pb_replay_seek(replay, run.last_tick), PB_OK);
    ck_assert_int_gt(pb_replay_check(replay).parted_tick, tick);
    ck_assert_int_le(pb_replay_check(replay).parted_tick, tick + PB_RECORD_HASH_TICKS);
    pb_replay_destroy(replay);
    run.physics_version++;
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &replay, &err), PB_OK);
    ck_assert_int_eq(pb_replay_seek(replay, 200), PB_OK);
    ck_assert(pb_replay_check(replay).is_resimulated);
    ck_assert_int_eq(pb_replay_check(replay).compared, 0);
    pb_replay_destroy(replay);
    io_run_free(&run);
}
END_TEST

START_TEST(seeking_anywhere_gives_the_state_of_a_straight_replay)
{
    PbRunFile run = read_all();
    PbReplay *straight, *jumping;
    PbError err;
    PbRng rng = pb_rng_make(5, 1);
    uint64_t *hashes = calloc((size_t)run.last_tick + 1, sizeof *hashes);
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &straight, &err), PB_OK);
    ck_assert_int_eq(pb_replay_create(&run, pb_allocator_default(), &jumping, &err), PB_OK);
    for (int t = 0; t < run.last_tick; t++) {
        hashes[t] = pb_session_hash(pb_replay_session(straight));
        ck_assert_int_eq(pb_replay_step(straight), PB_OK);
    }
    hashes[run.last_tick] = pb_session_hash(pb_replay_session(straight));
    ck_assert_int_eq(pb_replay_step(straight), PB_ERR_STATE);
    for (int i = 0; i < 40; i++) {
        int t = (int)(pb_rng_next(&rng) % (uint64_t)(run.last_tick + 1));
        ck_assert_int_eq(pb_replay_seek(jumping, t), PB_OK);
        ck_assert_int_eq(pb_replay_tick(jumping), t);
        ck_assert_uint_eq(pb_session_hash(pb_replay_session(jumping)), hashes[t]);
    }
    ck_assert_int_eq(pb_replay_check(jumping).parted_tick, -1);
    free(hashes);
    pb_replay_destroy(straight);
    pb_replay_destroy(jumping);
    io_run_free(&run);
}
END_TEST

START_TEST(a_file_torn_anywhere_opens_with_what_stands_before)
{
    int last = 0;
    for (size_t n = 0; n <= size; n += n < 4000 ? 1 : 7) {
        PbRunFile run;
        PbError err;
        unsigned char *cut = malloc(n > 0 ? n : 1); /* its own size, for sanitizers */
        memcpy(cut, bytes, n);
        PbStatus status = io_run_decode("torn", cut, n, &run, &err);
        free(cut);
        if (status != PB_OK) {
            ck_assert_int_eq(last, 0); /* only a file without a head is refused */
            ck_assert_int_eq(status, PB_ERR_FORMAT);
            ck_assert(err.message[0] != '\0');
            continue;
        }
        ck_assert_int_ge(run.last_tick, last);
        ck_assert(n == size || !run.grade.is_given);
        ck_assert(run.cut_bytes == 0 || run.cut_reason[0] != '\0');
        last = run.last_tick;
        io_run_free(&run);
    }
    ck_assert_int_gt(last, 700);
}
END_TEST

START_TEST(one_changed_byte_is_noticed_wherever_it_is)
{
    PbRng rng = pb_rng_make(9, 2);
    for (int i = 0; i < 3000; i++) {
        PbRunFile run;
        PbError err;
        size_t at = (size_t)(pb_rng_next(&rng) % size);
        unsigned char flip = (unsigned char)(1u << (pb_rng_next(&rng) % 8));
        bytes[at] ^= flip;
        if (io_run_decode("bent", bytes, size, &run, &err) == PB_OK) {
            ck_assert_uint_gt(run.cut_bytes, 0);
            io_run_free(&run);
        }
        bytes[at] ^= flip;
    }
}
END_TEST

/* Mutants of three kinds: bytes changed and checksums left, made right by the fuzz target's way,
 * and pieces moved. A bound on time and on what one read may take. */
START_TEST(a_hundred_thousand_mutants_are_read_or_refused_quickly)
{
    PbRng rng = pb_rng_make(2026, 3);
    unsigned char *m = malloc(size);
    double worst = 0.0;
    long taken = 0, refused = 0;
    int mutants = some_of(20000, 100000);
    for (int i = 0; i < mutants; i++) {
        PbRunFile run;
        PbError err;
        memcpy(m, bytes, size);
        int n = 1 + (int)(pb_rng_next(&rng) % 6);
        for (int k = 0; k < n; k++) {
            uint64_t where = pb_rng_next(&rng);
            size_t at = (size_t)(where % (i % 3 == 0 ? 400 : size));
            m[at] = (unsigned char)(pb_rng_next(&rng) >> 11);
        }
        if (i % 2 == 0) {
            for (size_t at = 8; at + 16 <= size;) {
                size_t length = m[at + 4] | (size_t)m[at + 5] << 8 | (size_t)m[at + 6] << 16 |
                                (size_t)m[at + 7] << 24;
                if (length > size - at - 16) {
                    break;
                }
                uint64_t sum = pb_hash_bytes(PB_HASH_START, m + at, length + 8);
                for (int k = 0; k < 8; k++) {
                    m[at + 8 + length + (size_t)k] = (unsigned char)(sum >> (8 * k));
                }
                at += length + 16;
            }
        }
        double from = cpu_s();
        PbStatus status = io_run_decode("mutant", m, size, &run, &err);
        double took = cpu_s() - from;
        worst = took > worst ? took : worst;
        if (status == PB_OK) {
            taken++;
            io_run_free(&run);
        } else {
            refused++;
            ck_assert(err.message[0] != '\0');
        }
    }
    free(m);
    printf("%d mutants: %ld read, %ld refused, slowest %.2f ms\n", mutants, taken, refused,
           1e3 * worst);
    ck_assert_double_lt(worst, 1.0);
    ck_assert(taken > 1000 && refused > 1000);
}
END_TEST

START_TEST(records_are_written_read_appended_and_never_written_over)
{
    char path[300];
    PbRunFile run = read_all(), back;
    PbError err;
    unsigned char *again;
    size_t n;
    snprintf(path, sizeof path, "%s/a.pbrun", folder);
    ck_assert_int_eq(io_run_encode(&run, &again, &n, &err), PB_OK);
    free(again);
    ck_assert_int_eq(io_run_write(path, &run, &err), PB_OK);
    ck_assert_int_eq(io_run_write(path, &run, &err), PB_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, "never written over"));
    int first = run.mark_count;
    ck_assert_int_eq(io_run_add_mark(&run, 500, "later", &err), PB_OK);
    ck_assert_int_eq(io_run_add_mark(&run, run.last_tick + 1, "after", &err), PB_ERR_RANGE);
    static PbScore score = {.total = 77.0, .is_pass = 1};
    PbRubric rubric = pb_rubric_default();
    io_run_set_grade(&run, &score, &rubric);
    ck_assert_int_eq(io_run_append(path, &run, first, &err), PB_OK);
    ck_assert_int_eq(io_run_read(path, &back, &err), PB_OK);
    ck_assert_uint_eq(back.cut_bytes, 0);
    ck_assert_int_eq(back.mark_count, first + 1);
    ck_assert_str_eq(back.marks[first].text, "later");
    ck_assert(back.grade.is_given && back.grade.is_pass);
    ck_assert_double_eq(back.grade.total, 77.0);
    io_run_free(&back);
    ck_assert_int_eq(truncate(path, (off_t)(size - 3)), 0);
    ck_assert_int_eq(io_run_append(path, &run, first, &err), PB_ERR_STATE);
    io_run_free(&run);
}
END_TEST

START_TEST(a_folder_that_refuses_leaves_nothing_and_says_so)
{
    PbSessionConfig c = config_of();
    IoRecorder *r = NULL;
    PbError err;
    ck_assert_int_eq(io_recorder_open("/proc/no/such.pbrun", &c, "", 0, &r, &err), PB_ERR_IO);
    ck_assert_ptr_null(r);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot write"));
    ck_assert_int_eq(io_recorder_open("/dev/full", &c, "", 0, &r, &err), PB_ERR_IO);
    ck_assert_ptr_null(r);
}
END_TEST

/* A file-size limit stands for a full disk: writes fail from there on. */
START_TEST(a_full_disk_keeps_the_run_in_memory_until_it_is_saved_elsewhere)
{
    char path[300], other[300];
    PbSessionConfig c = config_of();
    IoRecorder *r;
    PbError err;
    PbRunFile run;
    struct rlimit before, small;
    snprintf(path, sizeof path, "%s/full.pbrun", folder);
    snprintf(other, sizeof other, "%s/elsewhere.pbrun", folder);
    signal(SIGXFSZ, SIG_IGN);
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
    ck_assert_int_eq(io_recorder_open(path, &c, "full", 0, &r, &err), PB_OK);
    small = before;
    small.rlim_cur = 4000;
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &small), 0);
    record(r, &c, 500, NULL);
    ck_assert_int_eq(io_recorder_status(r, &err), PB_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, "kept in memory"));
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &before), 0);
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK); /* what fitted, whole chunks only */
    ck_assert_uint_eq(run.cut_bytes, 0);
    ck_assert(!run.is_ended);
    io_run_free(&run);
    ck_assert_int_eq(io_recorder_save_as(r, other, &err), PB_OK);
    ck_assert_int_eq(io_run_read(other, &run, &err), PB_OK);
    ck_assert(run.is_ended);
    io_run_free(&run);
    io_recorder_close(r); /* room again: the rest goes to the first file after all */
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    ck_assert(run.is_ended);
    io_run_free(&run);
}
END_TEST

/* Half a chunk is on the disk and cannot be taken back: nothing may be written behind it. */
START_TEST(a_torn_end_goes_before_anything_is_written_behind_it)
{
    char path[300];
    PbSessionConfig c = config_of();
    IoRecorder *r;
    PbError err;
    PbRunFile run;
    struct rlimit before, small;
    struct stat st;
    snprintf(path, sizeof path, "%s/torn.pbrun", folder);
    signal(SIGXFSZ, SIG_IGN);
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
    ck_assert_int_eq(io_recorder_open(path, &c, "torn", 0, &r, &err), PB_OK);
    ck_assert_int_eq(stat(path, &st), 0);
    small = before;
    small.rlim_cur = (rlim_t)st.st_size + 10; /* ends within the first chunk behind the head */
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &small), 0);
    is_disk_gone = 1;
    record(r, &c, 500, NULL);
    is_disk_gone = 0;
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &before), 0);
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    ck_assert_uint_eq(run.cut_bytes, 10);
    io_run_free(&run);
    io_recorder_close(r);
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    ck_assert_uint_eq(run.cut_bytes, 0);
    ck_assert(run.is_ended);
    io_run_free(&run);
}
END_TEST

/* One mark more and a reader would leave away all that stands behind it. */
START_TEST(takes_as_many_marks_as_a_reader)
{
    PbSessionConfig c = config_of();
    IoRecorder *r;
    PbError err;
    PbRunFile run;
    size_t n;
    ck_assert_int_eq(io_recorder_open(NULL, &c, "marks", 0, &r, &err), PB_OK);
    for (int i = 0; i < 1000; i++) {
        ck_assert_int_eq(io_recorder_mark(r, "here", &err), PB_OK);
    }
    ck_assert_int_eq(io_recorder_mark(r, "and here", &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "at most 1000 marks"));
    record(r, &c, 100, NULL);
    const unsigned char *b = io_recorder_bytes(r, &n);
    ck_assert_int_eq(io_run_decode("memory", b, n, &run, &err), PB_OK);
    ck_assert_uint_eq(run.cut_bytes, 0);
    ck_assert_int_eq(run.mark_count, 1000);
    ck_assert(run.is_ended);
    io_run_free(&run);
    io_recorder_close(r);
}
END_TEST

/* A clock may say anything, and so may a file. */
START_TEST(a_run_ended_when_its_clock_said_or_at_no_time)
{
    static const struct {
        int64_t started_unix_s;
        const char *ended;
    } cases[] = {{0, ""},
                 {-1, ""},
                 {1, "1970-01-01T00:00:41Z"},
                 {1772616570, "2026-03-04T09:30:10Z"},
                 {253402300759, "9999-12-31T23:59:59Z"},
                 {253402300760, ""},
                 {INT64_MAX, ""},
                 {INT64_MIN, ""}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        PbRunFile run;
        char text[24];
        memset(&run, 0, sizeof run);
        run.last_tick = 1000; /* 40 s */
        run.started_unix_s = cases[i].started_unix_s;
        ck_assert_int_eq(io_run_ended(&run, text), cases[i].ended[0] != '\0');
        ck_assert_str_eq(text, cases[i].ended);
    }
}
END_TEST

START_TEST(a_stored_time_reads_in_the_time_zone_of_the_machine)
{
    static const struct {
        const char *zone, *utc, *local;
    } cases[] = {{"UTC0", "2026-03-04T09:30:00Z", "2026-03-04 09:30"},
                 {"AAA-5:30", "2026-12-31T19:00:00Z", "2027-01-01 00:30"},
                 {"BBB8", "2024-03-01T07:59:59Z", "2024-02-29 23:59"},
                 {"UTC0", "1970-01-01T00:00:00Z", "1970-01-01 00:00"},
                 {"UTC0", "9999-12-31T23:59:59Z", "9999-12-31 23:59"},
                 {"UTC0", "", ""},
                 {"UTC0", "2026-03-04T09:30:00", ""},
                 {"UTC0", "2026-03-04T09:30:00Z ", ""},
                 {"UTC0", "2026-13-04T09:30:00Z", ""},
                 {"UTC0", "26-3-4T9:30:0Z", ""}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char text[24];
        setenv("TZ", cases[i].zone, 1);
        tzset();
        ck_assert_int_eq(io_local_time(cases[i].utc, text), cases[i].local[0] != '\0');
        ck_assert_str_eq(text, cases[i].local);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("run_file");
    TCase *normal = tcase_create("normal"), *limits = tcase_create("limits");
    TCase *refusals = tcase_create("refusals");
    TCase *all[3] = {normal, limits, refusals};
    tcase_add_test(normal, a_recorded_run_reads_back_and_replays_hash_by_hash);
    tcase_add_test(normal, the_kept_run_replays_hash_by_hash_in_this_build);
    tcase_add_test(normal, seeking_anywhere_gives_the_state_of_a_straight_replay);
    tcase_add_test(normal, records_are_written_read_appended_and_never_written_over);
    tcase_add_test(normal, a_run_ended_when_its_clock_said_or_at_no_time);
    tcase_add_test(normal, a_stored_time_reads_in_the_time_zone_of_the_machine);
    tcase_add_test(limits, takes_as_many_marks_as_a_reader);
    tcase_add_test(normal, a_run_of_older_physics_opens_is_told_apart_and_played_again);
    tcase_add_test(limits, a_changed_command_makes_the_replay_part_at_the_next_hash);
    tcase_add_test(limits, a_file_torn_anywhere_opens_with_what_stands_before);
    tcase_add_test(limits, one_changed_byte_is_noticed_wherever_it_is);
    tcase_add_test(limits, a_hundred_thousand_mutants_are_read_or_refused_quickly);
    tcase_add_test(refusals, a_folder_that_refuses_leaves_nothing_and_says_so);
    tcase_add_test(refusals, a_torn_end_goes_before_anything_is_written_behind_it);
    tcase_add_test(refusals, a_full_disk_keeps_the_run_in_memory_until_it_is_saved_elsewhere);
    for (int i = 0; i < 3; i++) {
        tcase_add_unchecked_fixture(all[i], work_once, forget);
        tcase_add_checked_fixture(all[i], start, stop);
        tcase_set_timeout(all[i], 250.0);
        suite_add_tcase(suite, all[i]);
    }
    return run_suite(suite);
}
