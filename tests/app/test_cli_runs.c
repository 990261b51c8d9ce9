/* run --record, replay, grade and coach as a person meets them: words, exit codes, no halves left.
 */
#include "io/doc.h"
#include "suite.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* A low and shallow bay: a whole run, with its long step, in a third of the time of a shipped one.
 */
#define BAY   "'" PB_TEST_SOURCE_DIR "/tests/app/data/low-bay.json'"
#define HANDS "'" PB_TEST_SOURCE_DIR "/tests/app/data/low-three-foot.json'"

static char folder[200], kept[200]; /* of one test; of all, with the recording */
static char said[1 << 18];

/* Runs the program in the folder, both streams into `said`; gives its exit code. */
static int run(const char *format, ...) PB_PRINTF(1, 2);
static int run(const char *format, ...)
{
    char words[600], command[1200];
    va_list args;
    va_start(args, format);
    vsnprintf(words, sizeof words, format, args);
    va_end(args);
    snprintf(command, sizeof command, "cd '%s' && XDG_DATA_HOME='%s' '%s' %s 2>&1", folder, folder,
             PB_TEST_CLI, words);
    FILE *p = popen(command, "r");
    ck_assert_ptr_nonnull(p);
    size_t n = fread(said, 1, sizeof said - 1, p);
    said[n] = '\0';
    int status = pclose(p);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void make_folder(void)
{
    snprintf(folder, sizeof folder, "%s/cli-runs-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void drop_folder(const char *which)
{
    char command[300];
    snprintf(command, sizeof command, "rm -rf '%s'", which);
    ck_assert_int_eq(system(command), 0);
}

/* The run that every test has is worked once. Where many are worked, they end after twenty seconds.
 */
static void record(void)
{
    char command[500];
    make_folder();
    strcpy(kept, folder);
    ck_assert_int_eq(run("run %s --hands %s --record a.pbrun", BAY, HANDS), 0);
    snprintf(command, sizeof command,
             "sed 's/\"time_limit_s\": 900/\"time_limit_s\": 20/' " BAY " >'%s/short.json'", kept);
    ck_assert_int_eq(system(command), 0);
}

static void forget(void)
{
    drop_folder(kept);
}

static void start(void)
{
    char command[700];
    make_folder();
    snprintf(command, sizeof command, "cp '%s/a.pbrun' '%s/short.json' '%s'", kept, kept, folder);
    ck_assert_int_eq(system(command), 0);
}

static void stop(void)
{
    drop_folder(folder);
}

START_TEST(a_recording_replays_and_is_graded_the_same_every_time)
{
    static char first[sizeof said];
    ck_assert_int_eq(run("replay a.pbrun"), 0);
    ck_assert_ptr_nonnull(strstr(said, "all the same"));
    ck_assert_ptr_nonnull(strstr(said, "the file says "));
    ck_assert_int_eq(run("replay a.pbrun --to 60 --json"), 0);
    ck_assert_ptr_nonnull(strstr(said, "\"replayed_s\":60.0"));
    ck_assert_int_eq(run("grade a.pbrun"), 1); /* not passed */
    ck_assert_ptr_nonnull(strstr(said, "pulled 0.90 m in one go"));
    memcpy(first, said, sizeof said);
    ck_assert_int_eq(run("grade a.pbrun"), 1);
    ck_assert_str_eq(first, said);
    ck_assert_int_eq(run("grade a.pbrun --lang es --units us"), 1);
    ck_assert_ptr_nonnull(strstr(said, "de una vez"));
    ck_assert_ptr_nonnull(strstr(said, "lb/pie³"));
    ck_assert_int_eq(run("grade a.pbrun --csv"), 1);
    ck_assert_ptr_nonnull(strstr(said, "on_target,long_step,-"));
    ck_assert_int_eq(run("grade a.pbrun --json"), 1);
    ck_assert_ptr_nonnull(strstr(said, "\"dwell_after_stall_s\""));
}
END_TEST

/* The range stands beside the mark and does not change it, nor the answer. */
START_TEST(a_mark_says_how_sure_it_is)
{
    run("run short.json --hands %s --record b.pbrun", HANDS);
    ck_assert_int_eq(run("grade b.pbrun --range --json"), 1);
    ck_assert_ptr_nonnull(strstr(said, "\"range\":{\"draws\":40,\"seed\":1,\"passes\":"));
    ck_assert_ptr_nonnull(strstr(said, "\"text\":\"Passes in "));
    ck_assert_ptr_nonnull(strstr(said, "\"total\":"));
    ck_assert_int_eq(run("grade b.pbrun --range --csv"), 2);
    ck_assert_ptr_nonnull(strstr(said, "--range goes with text and --json"));
}
END_TEST

/* A translation may be longer than the file's 160 bytes; a warning is never cut. */
START_TEST(cautions_are_whole_in_spanish)
{
    static const char *const whole[] = {
        "Sondee la cavidad y busque cables viejos o con corriente, luces empotradas, chimeneas y "
        "fuentes de calor antes de rellenar.",
        "Mascarilla y lentes de seguridad puestos; la pintura y el relleno viejos pueden tener "
        "plomo o asbesto: mándelos analizar y déjelo a oficios con licencia.",
        "La máquina puede arrancar un dedo: desconecte y bloquee la corriente antes de meter la "
        "mano en tolva, esclusa o manguera."};
    char command[500];
    ck_assert_int_eq(run("grade a.pbrun --pdf es.pdf --lang es --units us"), 1);
    snprintf(command, sizeof command, "pdftotext -raw '%s/es.pdf' - | tr '\\n' ' '", folder);
    FILE *p = popen(command, "r");
    ck_assert_ptr_nonnull(p);
    said[fread(said, 1, sizeof said - 1, p)] = '\0';
    ck_assert_int_eq(pclose(p), 0);
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++) {
        ck_assert_msg(strstr(said, whole[i]) != NULL, "not whole: %s\n%s", whole[i], said);
    }
    ck_assert_ptr_nonnull(strstr(said, "inviernos fríos"));
    ck_assert_ptr_nonnull(strstr(said, "cuadros de 4 pulg."));
}
END_TEST

START_TEST(a_rubric_changes_the_grade)
{
    char path[300];
    snprintf(path, sizeof path, "%s/kind.json", folder);
    FILE *f = fopen(path, "wb");
    fputs("{\"format\": \"pullback rubric 1\", \"name\": \"kind\", \"pass_score\": 30}", f);
    fclose(f);
    /* it asks for fewer points, and the wall is as soft as before: the gates stay shut */
    ck_assert_int_eq(run("grade a.pbrun --rubric kind.json"), 1);
    ck_assert_ptr_nonnull(strstr(said, "redo (pass mark 30; rubric kind)"));
    ck_assert_ptr_null(strstr(said, "are wanted"));
    ck_assert_ptr_nonnull(strstr(said, "the least anywhere"));
    ck_assert_int_eq(run("grade a.pbrun --rubric no.json"), 4);
    ck_assert_int_eq(run("grade a.pbrun --rubric a.pbrun"), 3);
}
END_TEST

START_TEST(refusals_say_what_and_leave_nothing)
{
    char path[300];
    ck_assert_int_eq(run("run %s --hands %s --record a.pbrun", BAY, HANDS), 3);
    ck_assert_ptr_nonnull(strstr(said, "never written over"));
    ck_assert_int_eq(run("run %s --hands %s --record no/b.pbrun", BAY, HANDS), 4);
    ck_assert_int_eq(run("run %s --hands %s --record /proc/b.pbrun", BAY, HANDS), 4);
    ck_assert_int_eq(run("replay %s", HANDS), 3);
    ck_assert_ptr_nonnull(strstr(said, "this is not a run file"));
    ck_assert_int_eq(run("replay no.pbrun"), 4);
    ck_assert_int_eq(run("replay"), 2);
    ck_assert_int_eq(run("grade a.pbrun --lang fr"), 2);
    ck_assert_int_eq(run("coach %s --runs 1", BAY), 2);
    ck_assert_int_eq(run("coach %s --runs 2 --out a.pbrun", BAY), 3);
    ck_assert_int_eq(run("grade a.pbrun --pdf ./a.pbrun"), 3);
    ck_assert_ptr_nonnull(strstr(said, "\"./a.pbrun\" is named twice"));
    ck_assert_int_eq(run("replay a.pbrun"), 0); /* it is still the run */
    /* what a search has found is told though the run cannot be kept */
    ck_assert_int_eq(run("coach short.json --runs 2 --out no/b.pbrun"), 4);
    ck_assert_ptr_nonnull(strstr(said, "plain rule "));
    snprintf(path, sizeof path, "%s/b.pbrun", folder);
    ck_assert_int_ne(access(path, F_OK), 0);
}
END_TEST

START_TEST(a_torn_recording_says_what_was_left_away)
{
    char path[300];
    snprintf(path, sizeof path, "%s/a.pbrun", folder);
    ck_assert_int_eq(truncate(path, 5000), 0);
    ck_assert_int_eq(run("replay a.pbrun"), 0);
    ck_assert_ptr_nonnull(strstr(said, "at the end cannot be used (a chunk that is cut short)"));
    ck_assert_ptr_nonnull(strstr(said, "cut off before its end"));
}
END_TEST

START_TEST(the_coach_is_the_same_for_any_number_of_threads_and_saves_its_best)
{
    static char first[sizeof said];
    run("coach short.json --runs 3 --seed 3 --threads 1 --out one.pbrun");
    memcpy(first, said, sizeof said);
    run("coach short.json --runs 3 --seed 3 --threads 3 --out three.pbrun");
    ck_assert_str_eq(first, said);
    ck_assert_ptr_nonnull(strstr(said, "plain one-foot rule"));
    ck_assert_int_eq(run("replay three.pbrun"), 0);
    ck_assert_ptr_nonnull(strstr(said, "all the same"));
}
END_TEST

/* Where Debrief looks; a worse one does not take the place of a better one. */
START_TEST(the_coach_keeps_a_reference_run_and_a_worse_search_leaves_it_alone)
{
    char path[300];
    snprintf(path, sizeof path, "%s/pullback/reference/low-bay.pbrun", folder);
    run("coach short.json --runs 2 --seed 3 --no-save");
    ck_assert_int_ne(access(path, F_OK), 0);
    run("coach short.json --runs 2 --seed 3");
    ck_assert_ptr_nonnull(strstr(said, "Debrief shows it beside a run"));
    ck_assert_int_eq(access(path, R_OK), 0);
    ck_assert_int_eq(run("replay pullback/reference/low-bay.pbrun"), 0);
    run("coach short.json --runs 3 --seed 3");
    ck_assert_ptr_nonnull(strstr(said, "stays: it has"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_runs");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 120.0);
    tcase_add_unchecked_fixture(all, record, forget);
    tcase_add_checked_fixture(all, start, stop);
    tcase_add_test(all, a_recording_replays_and_is_graded_the_same_every_time);
    tcase_add_test(all, a_mark_says_how_sure_it_is);
    tcase_add_test(all, cautions_are_whole_in_spanish);
    tcase_add_test(all, a_rubric_changes_the_grade);
    tcase_add_test(all, a_torn_recording_says_what_was_left_away);
    tcase_add_test(all, the_coach_keeps_a_reference_run_and_a_worse_search_leaves_it_alone);
    tcase_add_test(all, the_coach_is_the_same_for_any_number_of_threads_and_saves_its_best);
    tcase_add_test(all, refusals_say_what_and_leave_nothing);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
