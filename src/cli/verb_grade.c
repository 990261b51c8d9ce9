/*
 * grade: replays a recorded run and marks it by a rubric. The marks are a function of run and
 * rubric alone. Exit 0 passed, 1 not passed. A run that was cut off is marked as far as it goes.
 * --range says how sure the mark is: core/mark_range.h.
 */
#include "job_run.h"
#include "outputs.h"
#include "range_run.h"
#include "replay_run.h"
#include "report_run.h"
#include "verbs.h"

#include "cli/front.h"
#include "cli/run_session.h"
#include "io/doc.h"
#include "io/machine_file.h"
#include "io/material_file.h"
#include "io/range_words.h"
#include "io/rubric_file.h"
#include "io/score_words.h"

#include <stdlib.h>
#include <string.h>

typedef struct GradeOptions {
    const char *path, *rubric, *machine, *material;
    int is_json, is_csv, is_range;
    CliPdf pdf;
} GradeOptions;

#define AT(member) .at = offsetof(GradeOptions, member)
const CliOption grade_options[] = {
    {"--rubric", "FILE.json", "other weights, limits and pass rule", cli_take_text, AT(rubric)},
    {"--json", NULL, "for programs", cli_take_flag, AT(is_json)},
    {"--csv", NULL, "for programs", cli_take_flag, AT(is_csv)},
    {"--range", NULL, "how sure the mark is: 40 draws of what is not well known", cli_take_flag,
     AT(is_range)},
    {"--machine", "NAME", "with --range: another machine in the same hands, by name or file",
     cli_take_text, AT(machine)},
    {"--material", "NAME", "with --range: another material, with what its fit left open",
     cli_take_text, AT(material)},
    {"--pdf", "OUT", "the report as pages", cli_take_page, AT(pdf.out),
     .expected = "the name of a file"},
    {"--paper", "a4|letter", "of the pages; else letter for US units, A4 for SI", cli_take_paper,
     AT(pdf.paper), .expected = "a4 or letter"},
    {"--lang", "en|es", "language of the sentences", cli_take_language, AT(pdf.taste),
     .expect = words_codes},
    {"--units", "si|us", "units of the sentences", cli_take_units, AT(pdf.taste),
     .expected = "si or us"},
    {.name = NULL},
};

static int parse(const CliVerb *verb, int argc, char **argv, GradeOptions *o)
{
    CliParsed parsed;
    *o = (GradeOptions){.pdf.taste = io_taste_here(WORDS_ENGLISH)};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    if (parsed.count == 0 || (o->is_json && o->is_csv)) {
        return cli_expected(verb);
    }
    if (o->is_range && o->is_csv) {
        return cli_usage("grade", "--range goes with text and --json, not with --csv");
    }
    if (!o->is_range && (o->machine != NULL || o->material != NULL)) {
        return cli_usage("grade", "--machine and --material go with --range: the mark itself is of "
                                  "the run as it was recorded");
    }
    o->path = argv[1];
    const char *const in[] = {o->path, o->rubric, o->machine, o->material};
    const IoPlace out[] = {{o->pdf.out, IO_BEGINS_PDF, 0}};
    return cli_check_outputs(out, 1, in, 4);
}

static PbStatus work_draw(void *context, int i, PbRangeDraw *draw, PbError *err)
{
    return pb_range_draw(context, i, draw, err);
}

/* The draws of the run with the machine and the material that were named. */
static PbStatus find_range(const GradeOptions *o, const IoPlay *r, PbMarkRange *range, PbError *err)
{
    const PbWatched *w = &r->watched;
    PbRig rig;
    PbProduct product;
    PbRangeSetup setup = {.run = &r->run,
                          .lifts = w->lifts,
                          .lift_count = w->lift_count,
                          .rubric = &w->rubric,
                          .climate = w->has_climate ? &w->climate : NULL,
                          .seed = CLI_RANGE_SEED};
    if (!r->run.is_ended) {
        return pb_fail(err, PB_ERR_RANGE, "%s",
                       "the run was cut off before its end: --range needs a whole one");
    }
    if (o->machine != NULL) {
        PB_TRY(io_machine_find(o->machine, NULL, &rig, err));
        setup.rig = &rig;
    }
    if (o->material != NULL) {
        PB_TRY(io_material_find(o->material, NULL, &product, err));
        setup.product = &product;
    }
    return cli_range(work_draw, &setup, range, err);
}

static void print_text(const GradeOptions *o, const IoPlay *r)
{
    const PbScore *s = &r->watched.score;
    const PbRubric *rubric = &r->watched.rubric;
    int language = o->pdf.taste.language;
    printf("%s: %s%s%s\n", r->run.exercise.id, r->run.who,
           r->run.is_ended ? "" : words_in(language, " (cut off before its end)"),
           pb_replay_check(r->watched.replay).is_resimulated ? words_in(language, " (re-simulated)")
                                                             : "");
    printf(words_in(language, "%d of 100, %s (pass mark %.4g; rubric %s)"), io_mark_shown(s->total),
           io_verdict_word(s->verdict, o->pdf.taste.language), s->pass_score, rubric->name);
    char sum[80];
    io_sum_words(s, o->pdf.taste, sum, sizeof sum);
    printf("%s%s\n", sum[0] != '\0' ? "; " : "", sum);
    for (int i = 0; i < PB_GATES; i++) {
        char text[320];
        if (s->gates[i].is_shut) {
            io_gate_sentence(&s->gates[i], o->pdf.taste, text, sizeof text);
            printf("  %s\n", text);
        }
    }
    int points[PB_SCORE_PARTS], lost[PB_SCORE_MAX_LOSSES];
    io_parts_shown(s, points);
    io_losses_shown(s, lost);
    for (int p = 0; p < PB_SCORE_PARTS; p++) {
        printf("\n%3d / %-4.4g %s\n", points[p], s->parts[p].max,
               io_part_name(s->parts[p].kind, o->pdf.taste.language));
        for (int i = 0; i < s->loss_count; i++) {
            char text[320];
            if ((int)s->losses[i].part == p && lost[i] > 0) {
                io_loss_sentence(&s->losses[i], o->pdf.taste, text, sizeof text);
                printf("    -%2d  %s\n", lost[i], text);
            }
        }
    }
    char took[16], usual[16];
    io_clock_words(r->watched.result.duration_s, took, sizeof took);
    io_clock_words(pb_usual_s(&r->run.exercise), usual, sizeof usual);
    if (!s->leave.applies) {
        putchar('\n');
        printf(words_in(language, "Time %s; a crew usually takes %s."), took, usual);
        putchar('\n');
    }
    if (s->has_years) {
        putchar('\n');
        printf(words_in(language,
                        "Years: %.0f years in the climate \"%s\"; a prediction with the shipped "
                        "values, no promise."),
               rubric->years, r->run.exercise.climate);
        putchar('\n');
    }
}

static void print_csv(const GradeOptions *o, const PbScore *s)
{
    printf("part,cause,points,time_s,x_m,y_m,y0_m,y1_m,value,text\n");
    for (int p = 0; p < PB_SCORE_PARTS; p++) {
        printf("%s,got,%.17g,,,,,,%.17g,\"%s\"\n", io_part_key(s->parts[p].kind),
               s->parts[p].points, s->parts[p].max,
               io_part_name(s->parts[p].kind, o->pdf.taste.language));
    }
    for (int i = 0; i < s->loss_count; i++) {
        const PbLoss *l = &s->losses[i];
        char text[320];
        io_loss_sentence(l, o->pdf.taste, text, sizeof text);
        printf("%s,%s,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,%.17g,\"%s\"\n", io_part_key(l->part),
               io_fault_key(l->cause), -l->points, l->time_s, l->x_m, l->y_m, l->y0_m, l->y1_m,
               l->value, text);
    }
}

/* range: NULL = not asked for */
static int print_json(const GradeOptions *o, const IoPlay *r, const PbMarkRange *range)
{
    const PbWatched *w = &r->watched;
    const PbView *v = pb_session_view(w->session);
    (void)io_json_short();
    json_t *json =
        io_score_to_json(&w->score, &w->rubric, v->lifts, v->lift_count, &w->watch, o->pdf.taste);
    if (json == NULL) {
        return 1;
    }
    int failed = json_object_set_new(json, "run", json_string(o->path));
    failed |= json_object_set_new(json, "exercise", json_string(r->run.exercise.id));
    failed |= json_object_set_new(json, "who", json_string(r->run.who));
    failed |= json_object_set_new(json, "is_ended", json_boolean(r->run.is_ended));
    failed |= json_object_set_new(json, "resimulated",
                                  json_boolean(pb_replay_check(r->watched.replay).is_resimulated));
    failed |= json_object_set_new(
        json, "stored_total", r->run.grade.is_given ? json_real(r->run.grade.total) : json_null());
    if (range != NULL) {
        failed |= json_object_set_new(json, "range",
                                      io_range_to_json(range, CLI_RANGE_SEED, o->pdf.taste));
    }
    failed |= json_dumpf(json, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15));
    putchar('\n');
    json_decref(json);
    return failed || io_json_short();
}

/* One replay for the marks and for the page that shows them. */
static PbStatus grade(const GradeOptions *o, IoPlay *r, PbMarkRange *range, PbError *err)
{
    PbRubric rubric = pb_rubric_default();
    CliReport report = {.play = r, .pdf = o->pdf};
    if (o->rubric != NULL) {
        PB_TRY(io_rubric_load(o->rubric, &rubric, err));
    }
    PB_TRY(cli_replay_open("grade", o->path, r, err));
    PB_TRY(cli_replay_mark(r, &rubric, err));
    if (o->is_range) {
        PB_TRY(find_range(o, r, range, err));
    }
    return o->pdf.out != NULL ? cli_report_pdf(&report, err) : PB_OK;
}

int verb_grade(const CliVerb *verb, int argc, char **argv)
{
    GradeOptions o;
    PbMarkRange range = {0};
    IoPlay r = {0};
    PbError err = {0};
    int code = parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    if (io_is_job(o.path)) {
        return cli_job_grade(o.path, o.pdf.taste, o.is_json);
    }
    PbStatus status = grade(&o, &r, &range, &err);
    if (status != PB_OK) {
        io_play_close(&r);
        err.status = status;
        return cli_report(&err);
    }
    code = r.watched.score.is_pass ? CLI_DONE : CLI_NO;
    if (o.is_json) {
        if (print_json(&o, &r, o.is_range ? &range : NULL)) {
            code = cli_printed(ferror(stdout) ? PB_ERR_IO : PB_ERR_MEMORY);
        }
    } else if (o.is_csv) {
        print_csv(&o, &r.watched.score);
    } else {
        print_text(&o, &r);
        if (o.is_range) {
            cli_range_print(&range, o.pdf.taste);
        }
    }
    io_play_close(&r);
    return code;
}
