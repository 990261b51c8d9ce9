/* The button that writes the printed report of the run, with the trainer's marks as they stand. Its
 * data are those of the replay on the table; drawing and writing go on on a thread of their own. */
#include "debrief/debrief.h"

#include "io/clock.h"
#include "report/report.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct DebriefPdfJob {
    SDL_Thread *thread;
    SDL_atomic_t is_over;
    ReportRun *report;
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
    for (int i = 0; i < d->marks.count; i++) { /* the last one who put a name to a mark */
        if (d->marks.list[i].trainer[0] != '\0') {
            SDL_strlcpy(p->trainer, d->marks.list[i].trainer, sizeof p->trainer);
        }
    }
    for (int i = 0; i < p->part_count && i < PB_SCORE_PARTS; i++) {
        const StoreMark *points = debrief_current_mark(d, debrief_part_key(i), 1);
        const StoreMark *said = debrief_current_mark(d, debrief_part_key(i), 0);
        p->parts[i].trainer_max = d->runs[0].watched.score.parts[i].max;
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

static int write_report(void *context)
{
    DebriefPdfJob *job = context;
    job->status = report_run_pdf(job->report, job->path, REPORT_PAPER_OF_READER, job->fonts,
                                 job->now, &job->err);
    SDL_AtomicSet(&job->is_over, 1);
    return 0;
}

static void free_job(DebriefPdfJob *job)
{
    if (job != NULL) {
        SDL_WaitThread(job->thread, NULL); /* NULL allowed */
        report_free(job->report);
        free(job);
    }
}

/* What the file does not say, and its words in the language of the window. */
static void put_words(const Debrief *d, ReportRun *report)
{
    const DebriefRun *r = &d->runs[0];
    const PbExercise *e = &r->file.exercise;
    SDL_strlcpy(report->learner, r->learner, sizeof report->learner);
    SDL_strlcpy(report->when, r->when, sizeof report->when);
    SDL_strlcpy(report->exercise_title, _(e->title), sizeof report->exercise_title);
    SDL_strlcpy(report->rubric, _(r->watched.rubric.name), sizeof report->rubric);
    for (int i = 0; i < e->caution_count; i++) {
        SDL_strlcpy(report->cautions[i], _(e->cautions[i]), sizeof report->cautions[i]);
    }
    io_last_time_words(debrief_last_time(d), e, report->taste, report->last_time,
                       sizeof report->last_time);
    put_marks(d, report);
}

/* From the replay, taken to its end; the next frame brings it back to the time line. */
static PbStatus gather(App *app, ReportRun **report, PbError *err)
{
    DebriefRun *r = &app->debrief->runs[0];
    PbStatus status = pb_watched_seek(&r->watched, r->watched.seen_tick);
    if (status != PB_OK) {
        return pb_fail(err, status, "%s", _("Not enough memory"));
    }
    PB_TRY(report_gather(&r->file, &r->watched, app_reader(app), report, err));
    put_words(app->debrief, *report);
    return PB_OK;
}

void debrief_pdf(App *app)
{
    Debrief *d = app->debrief;
    DebriefRun *r = &d->runs[0];
    PbError err = {0};
    if (d->pdf.job != NULL) {
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
    if (gather(app, &job->report, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
        free_job(job);
        return;
    }
    io_now_utc(job->now);
    job->thread = SDL_CreateThread(write_report, "report", job);
    if (job->thread == NULL) {
        write_report(job); /* no thread to be had: then the window waits */
    }
    d->pdf.job = job;
    debrief_say(app, _("Writing the report"), 0);
}

void debrief_pdf_look(App *app)
{
    Debrief *d = app->debrief;
    DebriefPdfJob *job = d->pdf.job;
    char text[800];
    if (job == NULL || !SDL_AtomicGet(&job->is_over)) {
        return;
    }
    d->pdf.job = NULL;
    if (job->status != PB_OK) {
        debrief_say(app, job->err.message, 1);
    } else {
        d->pdf.count++;
        SDL_strlcpy(d->pdf.path, job->path, sizeof d->pdf.path);
        snprintf(text, sizeof text, _("Report written: %s"), d->pdf.path);
        debrief_say(app, text, 0);
    }
    free_job(job);
}

void debrief_pdf_end(Debrief *d)
{
    free_job(d->pdf.job);
    d->pdf.job = NULL;
}
