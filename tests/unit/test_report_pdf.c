/*
 * The report as a reader and another program meet it: every number that was given stands on the
 * page as text, the pages have their size, the same data give the same bytes. Needs pdftotext and
 * pdfinfo (poppler-utils).
 */
#include "languages.h"
#include "report/report.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define FONTS PB_TEST_SOURCE_DIR "/assets/fonts"
#define WHEN  "2026-03-04T09:30:00Z"

static char folder[300];
static PbError err;
static ReportRun *r;
enum { NX = 16, NY = 100, SAMPLES = 500 };

/* Numbers that stand nowhere else on the page. */
static ReportRun *sample(void)
{
    static const double points[] = {31.4, 12.7, 9.6, 14.3, 2.9, 6.8},
                        max[] = {40, 15, 15, 15, 5, 10}, trainer[] = {33.1, -1, 8.2, -1, -1, 7.7};
    ReportRun *s = calloc(1, sizeof *s);
    s->density_kg_m3 = calloc(NX * NY, sizeof(double));
    s->free_frac = calloc(NX * NY, sizeof(double));
    s->batt_frac = calloc(NX * NY, sizeof(double));
    s->patches = calloc(96, sizeof(PbPatch));
    s->samples = calloc(SAMPLES, sizeof(PbSample));
    strcpy(s->learner, "Learner \xc3\xad");
    strcpy(s->trainer, "Trainer 1");
    strcpy(s->exercise_id, "plain-2x4");
    strcpy(s->exercise_title, "A plain wall bay");
    strcpy(s->when, WHEN);
    strcpy(s->climate, "normal");
    strcpy(s->rubric, "strict");
    s->seed = 18446744073709551615U;
    s->physics_version = 3;
    s->is_ended = 1;
    s->duration_s = 187.0;
    s->part_count = PB_SCORE_PARTS;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        snprintf(s->parts[i].name, sizeof s->parts[i].name, "%s",
                 io_part_name((PbScorePartKind)i, WORDS_ENGLISH));
        s->parts[i].points = points[i];
        s->parts[i].max = max[i];
        s->parts[i].trainer = trainer[i];
    }
    strcpy(s->parts[5].reason, "Calm hands.");
    s->total = 77.7;
    s->pass_score = 70.0;
    s->is_pass = 1;
    s->trainer_total = 79.3;
    strcpy(s->comment, "Shorten the step above the box.");
    s->width_m = 0.368;
    s->height_m = 2.35;
    s->hole_x_m = 0.184;
    s->hole_y_m = 0.45;
    s->target_kg_m3 = 56.0;
    s->mean_kg_m3 = 58.4;
    s->p5_kg_m3 = 47.3;
    s->share_at_target = 0.653;
    s->mass_kg = 4.37;
    s->bags = 0.43;
    s->panel_over_strength = 0.41;
    s->years = 30.0;
    s->top_gap_m = 0.019;
    s->nx = NX;
    s->ny = NY;
    for (int i = 0; i < NX * NY; i++) {
        s->density_kg_m3[i] = 40.0 + 30.0 * (i % 37) / 37.0;
        s->free_frac[i] = 1.0;
    }
    for (int j = 0; j < 24; j++) {
        for (int i = 0; i < 4; i++) {
            s->patches[s->patch_count++] =
                (PbPatch){0.092 * i,        0.0979 * j, 0.092 * (i + 1),
                          0.0979 * (j + 1), 0.009,      j == 20 ? 2.0 : 48.0 + j};
        }
    }
    s->sample_count = SAMPLES;
    for (int i = 0; i < SAMPLES; i++) {
        double t = 187.0 * i / SAMPLES;
        s->samples[i] = (PbSample){(float)t, (float)(2.1 - 0.3 * floor(t / 25.0)),
                                   (float)(9000.0 + 20.0 * t), (float)(0.025 - 1e-5 * t), 0.02f};
    }
    s->events[0] = (ReportEvent){60.0, 1.5, 1, "stall"};
    s->events[1] = (ReportEvent){90.0, 1.2, 0, "hose plugged"};
    s->event_count = 2;
    s->moments[0] = (ReportMoment){5.63, 112.0, 1.22, "pulled 0.60 m in one go at 1:52"};
    s->moments[1] = (ReportMoment){4.94, 89.0, 1.86, "left the stop before the flow fell"};
    s->moments[2] = (ReportMoment){1.17, 112.0, 1.22, "the hose plugged"};
    s->moment_count = 3;
    strcpy(s->cautions[0], "Power off and tested dead.");
    s->caution_count = 1;
    return s;
}

static void start(void)
{
    snprintf(folder, sizeof folder, "%s/report-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    r = sample();
}

static void stop(void)
{
    char command[400];
    report_free(r);
    snprintf(command, sizeof command, "rm -r '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

static void write_pdf(const char *name, ReportPaper paper)
{
    char path[400];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    PbStatus status = report_run_pdf(r, path, paper, FONTS, WHEN, &err);
    ck_assert_msg(status == PB_OK, "%s: %s", err.file, err.message);
}

static size_t slurp(const char *name, char *out, size_t size)
{
    char path[400];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *f = fopen(path, "rb");
    ck_assert_ptr_nonnull(f);
    size_t n = fread(out, 1, size - 1, f);
    fclose(f);
    out[n] = '\0';
    return n;
}

/* What a tool of poppler says of a file, in static storage. */
static const char *ask(const char *tool, const char *name, const char *options)
{
    static char text[100000];
    char command[1000];
    snprintf(command, sizeof command, "cd '%s' && %s '%s' %s > said 2>&1", folder, tool, name,
             options);
    ck_assert_msg(system(command) == 0, "%s is needed (poppler-utils)", tool);
    slurp("said", text, sizeof text);
    return text;
}

static void must_say(const char *text, const char *what)
{
    ck_assert_msg(strstr(text, what) != NULL, "\"%s\" is not on the page:\n%.3000s", what, text);
}

START_TEST(prints_every_number_that_was_given)
{
    static const char *const si[] = {"Learner \xc3\xad",
                                     "A plain wall bay",
                                     "plain-2x4",
                                     "2026-03-04",
                                     "09:30 UTC",
                                     "3:07",
                                     "18446744073709551615",
                                     "physics 3",
                                     "strict",
                                     "77",
                                     "79",
                                     "passed",
                                     "31 / 40",
                                     "33",
                                     "13 / 15",
                                     "9 / 15",
                                     "8",
                                     "14 / 15",
                                     "3/5",
                                     "7 / 10",
                                     "8",
                                     "58 kg/m\xc2\xb3",
                                     "47 kg/m\xc2\xb3",
                                     "65.3%",
                                     "4.37 kg",
                                     "0.43",
                                     "41%",
                                     "56 kg/m\xc2\xb3",
                                     "\xe2\x80\x93"
                                     "6",
                                     "1:52",
                                     "1.22 m",
                                     "\xe2\x80\x93"
                                     "5",
                                     "1:29",
                                     "1.86 m",
                                     "\xe2\x80\x93"
                                     "1",
                                     "pulled 0.60 m in one go at 1:52",
                                     "1:30 hose plugged",
                                     "Shorten the step above the box.",
                                     "Calm hands.",
                                     "Trainer 1",
                                     "30 years",
                                     "19 mm",
                                     "normal",
                                     "Power off and tested dead.",
                                     "kPa",
                                     "L/s",
                                     "page 2"};
    write_pdf("a.pdf", REPORT_A4);
    const char *text = ask("pdftotext -layout", "a.pdf", "-");
    for (size_t i = 0; i < sizeof si / sizeof si[0]; i++) {
        must_say(text, si[i]);
    }
}
END_TEST

START_TEST(speaks_spanish_and_us_units)
{
    /* 58.4 / 16.0184634 = 3.646; 4.37 / 0.45359237 = 9.63; 1.22 / 0.3048 = 4.003; 19 mm = 0.75 in
     */
    static const char *const es[] = {"Informe de una práctica",
                                     "77",
                                     "33",
                                     "3.6 lb/pie\xc2\xb3",
                                     "9.6 lb",
                                     "4.0 pies",
                                     "0.75 pulg.",
                                     "aprobado",
                                     "cfm",
                                     "Precauciones",
                                     "Trainer 1",
                                     "p\xc3\xa1gina 2"};
    r->taste = (IoReaderTaste){SPANISH, 1, 0};
    write_pdf("a.pdf", REPORT_LETTER);
    const char *text = ask("pdftotext -layout", "a.pdf", "-");
    for (size_t i = 0; i < sizeof es / sizeof es[0]; i++) {
        must_say(text, es[i]);
    }
}
END_TEST

/* Whoever reads the page must know when its figures are not of the recorded run. */
START_TEST(says_when_the_replay_is_not_the_recorded_run)
{
    write_pdf("same.pdf", REPORT_A4);
    const char *text = ask("pdftotext", "same.pdf", "-");
    ck_assert(strstr(text, "parts from") == NULL && strstr(text, "e-simulated") == NULL);
    ck_assert_ptr_null(strstr(text, "pass at 70.0"));
    r->parted_s = 74.2;
    r->pass_score = 72.5;
    write_pdf("parted.pdf", REPORT_A4);
    text = ask("pdftotext", "parted.pdf", "-");
    must_say(text, "The replay parts from the recording at 1:14");
    must_say(text, "pass at 72.5");
    r->taste.language = SPANISH;
    write_pdf("es.pdf", REPORT_LETTER);
    text = ask("pdftotext", "es.pdf", "-");
    must_say(text, "se aparta de la grabaci\xc3\xb3n en 1:14");
    must_say(text, "72.5");
    r->parted_s = 0.0;
    r->is_resimulated = 1; /* of other physics or constants: its hashes are not compared */
    write_pdf("other.pdf", REPORT_LETTER);
    must_say(ask("pdftotext", "other.pdf", "-"),
             "Vuelta a simular: grabada con otra f\xc3\xadsica");
}
END_TEST

START_TEST(prints_a_long_caution_whole)
{
    static const char caution[] =
        "Una tubería de agua cerca de la cara de afuera puede congelarse con la pared rellena: "
        "déjela del lado caliente o mándela mover; pregunte a un plomero con licencia.";
    ck_assert_uint_gt(sizeof caution, 160);
    r->taste = (IoReaderTaste){SPANISH, 1, 0};
    r->caution_count = 1;
    snprintf(r->cautions[0], sizeof r->cautions[0], "%s", caution);
    write_pdf("long.pdf", REPORT_LETTER);
    must_say(ask("pdftotext -raw", "long.pdf", "- | tr '\\n' ' '"), caution);
}
END_TEST

START_TEST(gives_the_same_bytes_for_the_same_data)
{
    static char a[400000], b[400000];
    write_pdf("a.pdf", REPORT_A4);
    write_pdf("b.pdf", REPORT_A4);
    size_t n = slurp("a.pdf", a, sizeof a);
    ck_assert_uint_eq(slurp("b.pdf", b, sizeof b), n);
    ck_assert_mem_eq(a, b, n);
    r->total += 0.1;
    write_pdf("b.pdf", REPORT_A4);
    size_t m = slurp("b.pdf", b, sizeof b);
    ck_assert(m != n || memcmp(a, b, n) != 0);
}
END_TEST

START_TEST(fits_both_papers_on_two_pages)
{
    write_pdf("a.pdf", REPORT_A4);
    const char *says = ask("pdfinfo", "a.pdf", "");
    must_say(says, "595.276 x 841.89 pts (A4)");
    must_say(says, "Pages:           2");
    write_pdf("l.pdf", REPORT_LETTER);
    says = ask("pdfinfo", "l.pdf", "");
    must_say(says, "612 x 792 pts (letter)");
    must_say(says, "Pages:           2");
    says = ask("pdffonts", "l.pdf", "");
    must_say(says, "B612-Regular");
    must_say(says, "B612-Bold");
}
END_TEST

/* Nothing of a long text is lost: it goes on to further pages. */
START_TEST(turns_the_page_for_long_comments)
{
    for (int k = 0; k < PB_SCORE_PARTS; k++) {
        for (int i = 0; i < 190; i++) {
            char piece[24];
            snprintf(piece, sizeof piece, "word%d%03d ", k, i);
            strcat(r->parts[k].reason, piece);
        }
    }
    memset(r->comment, 'x', 2000); /* one word, wider than the page */
    write_pdf("a.pdf", REPORT_LETTER);
    const char *text = ask("pdftotext -layout", "a.pdf", "-");
    for (int k = 0; k < PB_SCORE_PARTS; k++) {
        for (int i = 0; i < 190; i++) {
            char piece[24];
            snprintf(piece, sizeof piece, "word%d%03d", k, i);
            must_say(text, piece);
        }
    }
    size_t crosses = 0;
    for (const char *c = text; *c != '\0'; c++) {
        crosses += *c == 'x';
    }
    ck_assert_uint_ge(crosses, 2000);
    must_say(text, "page 3");
}
END_TEST

/* Whatever is in the data, it is drawn without complaint: what people can bring about. */
START_TEST(draws_runs_in_which_nothing_happened)
{
    r->sample_count = r->event_count = r->moment_count = r->patch_count = 0;
    r->duration_s = 0.0;
    r->learner[0] = r->when[0] = r->comment[0] = r->trainer[0] = '\0';
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        r->parts[i].trainer = -1.0;
        r->parts[i].reason[0] = '\0';
    }
    r->is_pass = 0;
    r->verdict = PB_VERDICT_REDO;
    r->is_ended = 0;
    r->is_blown_out = 1;
    r->years = 0.0;
    memset(r->exercise_title, 'W', sizeof r->exercise_title - 1);
    r->height_m = 6.0; /* the longest bay, and a squat one */
    r->width_m = 0.15;
    write_pdf("a.pdf", REPORT_A4);
    r->height_m = 0.5;
    r->width_m = 0.75;
    write_pdf("b.pdf", REPORT_LETTER);
    const char *text = ask("pdftotext -layout", "b.pdf", "-");
    must_say(text, "nobody named");
    must_say(text, "redo");
    must_say(text, "The wall blew out.");
    must_say(text, "cut off before its end");
    must_say(text, "No points were lost.");
    must_say(text, "Nothing was written.");
}
END_TEST

/* A named pipe is opened once: whoever reads it gets all of the page and then the end. */
START_TEST(writes_whole_into_a_pipe)
{
    static char page[400000], piped[400000];
    char pipe[400], command[900];
    snprintf(pipe, sizeof pipe, "%s/pipe", folder);
    snprintf(command, sizeof command, "timeout 20 cat '%s' > '%s/piped.pdf'", pipe, folder);
    ck_assert_int_eq(mkfifo(pipe, 0600), 0);
    pid_t child = fork();
    if (child == 0) {
        _exit(system(command) != 0);
    }
    write_pdf("pipe", REPORT_A4);
    int status;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    write_pdf("a.pdf", REPORT_A4);
    size_t n = slurp("a.pdf", page, sizeof page);
    ck_assert_uint_eq(slurp("piped.pdf", piped, sizeof piped), n);
    ck_assert_mem_eq(page, piped, n);
}
END_TEST

START_TEST(says_what_it_cannot_do)
{
    char path[400];
    snprintf(path, sizeof path, "%s/x.pdf", folder);
    ck_assert_int_eq(report_run_pdf(r, "/no/such/folder/x.pdf", REPORT_A4, FONTS, WHEN, &err),
                     PB_ERR_IO);
    ck_assert_str_eq(err.file, "/no/such/folder/x.pdf");
    ck_assert_int_eq(report_run_pdf(r, path, REPORT_A4, "/no/fonts", WHEN, &err), PB_ERR_IO);
    ck_assert_str_eq(err.message, "cannot read the font");
    ck_assert_int_ne(access(path, F_OK), 0);
    if (access("/dev/full", W_OK) == 0) {
        ck_assert_int_eq(report_run_pdf(r, "/dev/full", REPORT_A4, FONTS, WHEN, &err), PB_ERR_IO);
        ck_assert_ptr_nonnull(strstr(err.message, "No space left"));
        ck_assert_str_eq(err.file, "/dev/full");
        ck_assert_int_eq(access("/dev/full", F_OK), 0);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("report_pdf");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 60);
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_test(tc, prints_every_number_that_was_given);
    tcase_add_test(tc, speaks_spanish_and_us_units);
    tcase_add_test(tc, says_when_the_replay_is_not_the_recorded_run);
    tcase_add_test(tc, prints_a_long_caution_whole);
    tcase_add_test(tc, gives_the_same_bytes_for_the_same_data);
    tcase_add_test(tc, fits_both_papers_on_two_pages);
    tcase_add_test(tc, turns_the_page_for_long_comments);
    tcase_add_test(tc, draws_runs_in_which_nothing_happened);
    tcase_add_test(tc, writes_whole_into_a_pipe);
    tcase_add_test(tc, says_what_it_cannot_do);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
