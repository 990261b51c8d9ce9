/* How sure the mark of the run on the table is: asked for by a button, worked on threads that leave
 * the window its core, stopped by the same button. What is worked: core/mark_range.h. */
#include "debrief/debrief.h"

#include "io/parallel.h"
#include "io/range_words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DRAW_SEED = 1 }; /* as pullback-cli grade --range: the same figures */

struct DebriefSureJob {
    SDL_Thread *thread;
    SDL_atomic_t done, is_cancelled, is_over;
    PbRunFile run; /* its arrays are the table's: the job ends before they go */
    PbLift lifts[PB_SCORE_MAX_LIFTS];
    PbRubric rubric;
    PbClimate climate;
    PbRangeSetup setup;
    PbRangeDraw draws[PB_RANGE_DRAWS];
    PbStatus status[PB_RANGE_DRAWS];
};

static void work_draw(void *context, int i)
{
    DebriefSureJob *job = context;
    PbError err;
    if (SDL_AtomicGet(&job->is_cancelled)) {
        return;
    }
    job->status[i] = pb_range_draw(&job->setup, i, &job->draws[i], &err);
    SDL_AtomicAdd(&job->done, 1);
}

static int work(void *user)
{
    DebriefSureJob *job = user;
    IoParallel crew = io_parallel_default();
    crew.threads = crew.threads > 1 ? crew.threads - 1 : 1; /* one core stays with the window */
    SDL_SetThreadPriority(SDL_THREAD_PRIORITY_LOW);
    io_parallel_for(&crew, PB_RANGE_DRAWS, work_draw, job);
    SDL_AtomicSet(&job->is_over, 1);
    return 0;
}

static int may_ask(const Debrief *d)
{
    const DebriefRun *r = &d->runs[0];
    return r->is_open && r->is_scanned && r->watched.has_score && r->file.is_ended && !r->is_left;
}

static void start(App *app)
{
    Debrief *d = app->debrief;
    const DebriefRun *r = &d->runs[0];
    const PbWatched *w = &r->watched;
    DebriefSureJob *job = calloc(1, sizeof *job);
    if (job == NULL) {
        debrief_say(app, _("Not enough memory"), 1);
        return;
    }
    job->run = r->file;
    memcpy(job->lifts, w->lifts, (size_t)w->lift_count * sizeof *w->lifts);
    job->rubric = w->rubric;
    job->climate = w->climate;
    job->setup = (PbRangeSetup){.run = &job->run,
                                .lifts = job->lifts,
                                .lift_count = w->lift_count,
                                .rubric = &job->rubric,
                                .climate = w->has_climate ? &job->climate : NULL,
                                .seed = DRAW_SEED};
    job->thread = SDL_CreateThread(work, "sure", job);
    if (job->thread == NULL) {
        free(job);
        debrief_say(app, _("Not enough memory"), 1);
        return;
    }
    d->sure.job = job;
}

void debrief_sure_ask(App *app)
{
    Debrief *d = app->debrief;
    if (d->sure.job != NULL) {
        SDL_AtomicSet(&d->sure.job->is_cancelled, 1);
    } else if (may_ask(d) && !d->sure.is_known) {
        start(app);
    }
}

static void take(App *app, const DebriefSureJob *job)
{
    Debrief *d = app->debrief;
    for (int i = 0; i < PB_RANGE_DRAWS; i++) {
        if (job->status[i] != PB_OK) {
            debrief_say(app, _("Not enough memory"), 1);
            return;
        }
    }
    d->sure.range = pb_range_sum(job->draws, PB_RANGE_DRAWS);
    d->sure.is_known = 1;
}

void debrief_sure_look(App *app)
{
    DebriefSureJob *job = app->debrief->sure.job;
    if (job == NULL || !SDL_AtomicGet(&job->is_over)) {
        return;
    }
    SDL_WaitThread(job->thread, NULL);
    if (SDL_AtomicGet(&job->done) == PB_RANGE_DRAWS) { /* else it was stopped */
        take(app, job);
    }
    free(job);
    app->debrief->sure.job = NULL;
}

void debrief_sure_end(Debrief *d)
{
    if (d->sure.job != NULL) {
        SDL_AtomicSet(&d->sure.job->is_cancelled, 1);
        SDL_WaitThread(d->sure.job->thread, NULL);
        free(d->sure.job);
    }
    d->sure = (DebriefSure){0};
}

/* The sentences under their word; not drawn, they are measured. */
static float known_draw(const App *app, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const GfxColor none = {0, 0, 0, 0};
    IoReaderTaste taste = app_reader(app);
    char said[IO_RANGE_LINES][IO_RANGE_BYTES];
    float y = r.y + ui_px(ui, 28);
    io_range_sentences(&app->debrief->sure.range, taste, said);
    if (is_drawn) {
        ui_label(ui, r.x, r.y + ui_px(ui, 12), 12, UI_BOLD, t->accent, UI_LEFT,
                 io_range_head(taste.language));
    }
    for (int i = 0; i < IO_RANGE_LINES; i++) {
        int is_small = i == IO_RANGE_LINES - 1;
        y += ui_paragraph(ui, r.x, y, r.w, is_small ? 12 : 14, UI_REGULAR,
                          !is_drawn  ? none
                          : is_small ? t->ink2
                                     : t->ink,
                          said[i]) +
             ui_px(ui, 3);
    }
    return y - r.y;
}

float debrief_sure_draw(const App *app, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    char text[120];
    if (d->sure.is_known) {
        return known_draw(app, r, is_drawn);
    }
    if (!may_ask(d)) {
        return 0.0f;
    }
    SDL_strlcpy(text, _("How sure is this mark?"), sizeof text);
    if (d->sure.job != NULL) {
        SDL_snprintf(text, sizeof text, _("Stop (%d of %d draws)"),
                     SDL_AtomicGet(&d->sure.job->done), PB_RANGE_DRAWS);
    }
    if (is_drawn) {
        float w = fminf(r.w, ui_width(ui, 14, UI_BOLD, text) + ui_px(ui, 28));
        GfxRect b = {r.x, r.y, w, ui_px(ui, 34)};
        debrief_wide_button(app, ID_D_SURE, b, w - ui_px(ui, 14), text, 0);
        app_mark(app, "sure", b);
    }
    return ui_px(ui, 42);
}
