/* The button that writes the printed report of the run, with the trainer's marks as they stand. */
#include "debrief.h"

#include "report/report.h"

#include <stdio.h>
#include <string.h>

static void put_marks(const Debrief *d, ReportRun *p)
{
    int given = 0;
    double total = debrief_trainer_total(d, &given);
    const StoreMark *whole = debrief_current_mark(d, STORE_WHOLE_RUN, 0);
    p->trainer_total = given ? total : -1.0;
    if (whole != NULL) {
        SDL_strlcpy(p->comment, whole->reason, sizeof p->comment);
        SDL_strlcpy(p->trainer, whole->trainer, sizeof p->trainer);
    }
    for (int i = 0; i < p->part_count && i < PB_SCORE_PARTS; i++) {
        const StoreMark *points = debrief_current_mark(d, debrief_part_key(i), 1);
        const StoreMark *said = debrief_current_mark(d, debrief_part_key(i), 0);
        p->parts[i].trainer = points != NULL ? points->points : -1.0;
        SDL_strlcpy(p->parts[i].reason, said != NULL ? said->reason : "",
                    sizeof p->parts[i].reason);
    }
}

/* Beside the database: a place that this person can write to and knows from --db. */
static int report_path(const Debrief *d, char *out, size_t size)
{
    const char *db = store_path(d->store), *slash = strrchr(db, '/');
    int folder = slash != NULL ? (int)(slash - db) + 1 : 0;
    return snprintf(out, size, "%.*srun-%lld.pdf", folder, db, (long long)d->runs[0].id) <
           (int)size;
}

static int fonts_folder(const App *app, char *out, size_t size)
{
    if (!app_find(&app->options, "fonts/B612-Regular.otf", out, size)) {
        return 0;
    }
    *strrchr(out, '/') = '\0';
    return 1;
}

void debrief_pdf(App *app)
{
    Debrief *d = app->debrief;
    DebriefRun *r = &d->runs[0];
    IoReaderTaste taste = {app->lang ? IO_SPANISH : IO_ENGLISH, app->is_us};
    ReportRun *report = NULL;
    PbError err = {0};
    char fonts[700], text[800], now[24];
    if (!report_path(d, d->pdf, sizeof d->pdf) || !fonts_folder(app, fonts, sizeof fonts)) {
        debrief_say(app, _("The fonts for printing are not found."), 1);
        return;
    }
    debrief_utc_now(now, sizeof now);
    PbStatus s =
        report_gather(&r->file, r->has_climate ? &r->climate : NULL, NULL, taste, &report, &err);
    if (s == PB_OK) {
        SDL_strlcpy(report->learner, r->learner, sizeof report->learner);
        SDL_strlcpy(report->when, r->when, sizeof report->when);
        put_marks(d, report);
        s = report_run_pdf(report, d->pdf, app->is_us ? REPORT_LETTER : REPORT_A4, fonts, now,
                           &err);
    }
    report_free(report);
    if (s != PB_OK) {
        debrief_say(app, err.message, 1);
        return;
    }
    d->pdf_count++;
    snprintf(text, sizeof text, _("Report written: %s"), d->pdf);
    debrief_say(app, text, 0);
}
