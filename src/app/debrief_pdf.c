/* The button that writes the printed report of the run, with the trainer's marks as they stand. The
 * run is played again and drawn on a thread of its own; the window goes on. Words that come from
 * the catalogue are fetched before the thread starts: the language may change while it runs. */
#include "debrief.h"

#include "io/run_file.h"
#include "report/report.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct DebriefPdfJob {
    SDL_Thread *thread;
    SDL_atomic_t is_over;
    PbRunFile file; /* its own copy */
    PbClimate climate;
    int has_climate;
    PbRubric rubric;
    IoReaderTaste taste;
    ReportRun words; /* names, marks and translated texts alone */
    ReportPaper paper;
    char path[700], fonts[700], now[24];
    PbStatus status; /* these two once is_over */
    PbError err;
};

static void put_marks(const Debrief *d, ReportRun *p)
{
    int given = 0;
    double total = debrief_trainer_total(d, &given);
    const StoreMark *whole = debrief_current_mark(d, STORE_WHOLE_RUN, 0);
    p->trainer_total = given ? total : -1.0;
    if (whole != NULL) {
        SDL_strlcpy(p->comment, whole->reason, sizeof p->comment);
    }
    for (int i = 0; i < d->mark_count; i++) { /* the last one who put a name to a mark */
        if (d->marks[i].trainer[0] != '\0') {
            SDL_strlcpy(p->trainer, d->marks[i].trainer, sizeof p->trainer);
        }
    }
    for (int i = 0; i < p->part_count && i < PB_SCORE_PARTS; i++) {
        const StoreMark *points = debrief_current_mark(d, debrief_part_key(i), 1);
        const StoreMark *said = debrief_current_mark(d, debrief_part_key(i), 0);
        p->parts[i].trainer_max = d->runs[0].score.parts[i].max;
        p->parts[i].trainer =
            points != NULL ? points->points * debrief_in_use(&d->runs[0], i) : -1.0;
        SDL_strlcpy(p->parts[i].reason, said != NULL ? said->reason : "",
                    sizeof p->parts[i].reason);
    }
}

static int fonts_folder(const App *app, char *out, size_t size)
{
    if (!app_find(&app->options, "fonts/B612-Regular.otf", out, size)) {
        return 0;
    }
    *strrchr(out, '/') = '\0';
    return 1;
}

/* Into the finished report: what only the room knows. */
static void put_words(const ReportRun *words, ReportRun *report)
{
    SDL_strlcpy(report->learner, words->learner, sizeof report->learner);
    SDL_strlcpy(report->when, words->when, sizeof report->when);
    SDL_strlcpy(report->trainer, words->trainer, sizeof report->trainer);
    SDL_strlcpy(report->comment, words->comment, sizeof report->comment);
    SDL_strlcpy(report->exercise_title, words->exercise_title, sizeof report->exercise_title);
    SDL_strlcpy(report->rubric, words->rubric, sizeof report->rubric);
    memcpy(report->cautions, words->cautions, sizeof report->cautions);
    report->trainer_total = words->trainer_total;
    for (int i = 0; i < report->part_count; i++) {
        report->parts[i].trainer = words->parts[i].trainer;
        report->parts[i].trainer_max = words->parts[i].trainer_max;
        SDL_strlcpy(report->parts[i].reason, words->parts[i].reason,
                    sizeof report->parts[i].reason);
    }
}

static int write_report(void *context)
{
    DebriefPdfJob *job = context;
    ReportRun *report = NULL;
    job->status = report_gather(&job->file, job->has_climate ? &job->climate : NULL, &job->rubric,
                                job->taste, &report, &job->err);
    if (job->status == PB_OK) {
        put_words(&job->words, report);
        job->status =
            report_run_pdf(report, job->path, job->paper, job->fonts, job->now, &job->err);
    }
    report_free(report);
    SDL_AtomicSet(&job->is_over, 1);
    return 0;
}

static void free_job(DebriefPdfJob *job)
{
    if (job != NULL) {
        SDL_WaitThread(job->thread, NULL); /* NULL allowed */
        io_run_free(&job->file);
        free(job);
    }
}

static void take_words(Debrief *d, ReportRun *words)
{
    const DebriefRun *r = &d->runs[0];
    const PbExercise *e = &r->file.exercise;
    SDL_strlcpy(words->learner, r->learner, sizeof words->learner);
    SDL_strlcpy(words->when, r->when, sizeof words->when);
    SDL_strlcpy(words->exercise_title, _(e->title), sizeof words->exercise_title);
    SDL_strlcpy(words->rubric, _(r->rubric->name), sizeof words->rubric);
    for (int i = 0; i < e->caution_count; i++) {
        SDL_strlcpy(words->cautions[i], _(e->cautions[i]), sizeof words->cautions[i]);
    }
    words->part_count = PB_SCORE_PARTS;
    put_marks(d, words);
}

/* The run's own bytes, from where it is kept. */
static PbStatus take_file(Debrief *d, PbRunFile *file, PbError *err)
{
    void *bytes = NULL;
    size_t size = 0;
    PB_TRY(store_run_bytes(d->store, d->runs[0].id, &bytes, &size, err));
    PbStatus status = io_run_decode("run", bytes, size, file, err);
    free(bytes);
    return status;
}

void debrief_pdf(App *app)
{
    Debrief *d = app->debrief;
    DebriefRun *r = &d->runs[0];
    PbError err = {0};
    if (d->pdf_job != NULL) {
        return; /* one at a time; the button says so */
    }
    DebriefPdfJob *job = calloc(1, sizeof *job);
    if (job == NULL) {
        debrief_say(app, _("Not enough memory"), 1);
        return;
    }
    /* beside the database: a place that this person can write to and knows from --db */
    if (store_report_path(d->store, r->id, job->path, sizeof job->path, &err) != PB_OK ||
        !fonts_folder(app, job->fonts, sizeof job->fonts)) {
        debrief_say(app, _("The fonts for printing are not found."), 1);
        free_job(job);
        return;
    }
    if (take_file(d, &job->file, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
        free_job(job);
        return;
    }
    job->climate = r->climate;
    job->has_climate = r->has_climate;
    job->rubric = *r->rubric;
    job->taste = app_reader(app);
    job->paper = REPORT_PAPER_OF_READER;
    debrief_utc_now(job->now, sizeof job->now);
    take_words(d, &job->words);
    job->thread = SDL_CreateThread(write_report, "report", job);
    if (job->thread == NULL) {
        write_report(job); /* no thread to be had: then the window waits */
    }
    d->pdf_job = job;
    debrief_say(app, _("Writing the report"), 0);
}

void debrief_pdf_look(App *app)
{
    Debrief *d = app->debrief;
    DebriefPdfJob *job = d->pdf_job;
    char text[800];
    if (job == NULL || !SDL_AtomicGet(&job->is_over)) {
        return;
    }
    d->pdf_job = NULL;
    if (job->status != PB_OK) {
        debrief_say(app, job->err.message, 1);
    } else {
        d->pdf_count++;
        SDL_strlcpy(d->pdf, job->path, sizeof d->pdf);
        snprintf(text, sizeof text, _("Report written: %s"), d->pdf);
        debrief_say(app, text, 0);
    }
    free_job(job);
}

void debrief_pdf_end(Debrief *d)
{
    free_job(d->pdf_job);
    d->pdf_job = NULL;
}
