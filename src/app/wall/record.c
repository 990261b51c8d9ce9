/* The record of a job on paper: one page beside the database, or where the program was started. It
 * names nobody: deleting a learner takes all that tells of them, and such a page could not be
 * found.
 */
#include "wall/wall.h"

#include "io/clock.h"
#include "io/compare_words.h"
#include "report/job.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static int path_of(const App *app, char *out, size_t size)
{
    char name[120];
    PbError err;
    const Wall *w = app->wall;
    int n = snprintf(name, sizeof name, "job-%.60s-%" PRIu64 ".pdf", pb_job_framing(w->job)->id,
                     w->seed);
    if (app->records.store == NULL) {
        return n < (int)size && snprintf(out, size, "%s", name) > 0;
    }
    return store_beside(app->records.store, name, out, size, &err) == PB_OK;
}

void wall_record(App *app)
{
    const Wall *w = app->wall;
    ReportJob r = {.job = w->job, .marks = &w->marks, .taste = app_reader(app)};
    PbError err = {0};
    char path[700], fonts[700], now[IO_UTC_SIZE];
    int year = 0, month = 1, day = 1;
    if (!path_of(app, path, sizeof path) ||
        !app_find(&app->options, "fonts/B612-Regular.otf", fonts, sizeof fonts)) {
        app_notice(app, _("The fonts for printing are not found."), "", 0, 10);
        return;
    }
    *strrchr(fonts, '/') = '\0';
    io_now_utc(now);
    SDL_strlcpy(r.wall, wall_name(w->choice), sizeof r.wall);
    if (sscanf(now, "%d-%d-%d", &year, &month, &day) == 3) {
        io_date_words(year, month, day, r.taste, r.date, sizeof r.date);
    }
    PbJobHeat heat[PB_JOB_HEAT_CASES];
    PbStatus status =
        pb_job_heat_all(w->job, PB_JOB_HEAT_ROOM_C, PB_JOB_HEAT_ROOM_C - w->delta_k, heat, &err);
    if (status == PB_OK) {
        r.heat = heat;
        status = report_job_pdf(&r, path, REPORT_PAPER_OF_READER, fonts, now, &err);
        pb_job_heat_free_all(w->job, heat);
    }
    if (status != PB_OK) {
        app_notice(app, _("The record could not be written"), err.message, 0, 20);
        return;
    }
    app_notice(app, _("Record written"), path, 0, 12);
}
