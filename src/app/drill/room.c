/* Drills: a piece of a run, one press, judged in tenths; fourteen of them are a sitting. Here: who
 * gets which room on the window, keys, and what a person chose. */
#include "drill/drill.h"

#include <math.h>
#include <stdlib.h>

static int enter(App *app)
{
    Drill *d = calloc(1, sizeof *d);
    App *shown = calloc(1, sizeof *shown);
    if (d == NULL || shown == NULL) {
        free(d);
        free(shown);
        app_notice(app, _("Not enough memory"), "", 0, 5);
        return 0;
    }
    d->shown = shown;
    d->kept_count = -1; /* not read yet */
    d->level = 1;
    app->drill = d;
    app->ui->focus = app->turn.home = ID_DRILL_GO;
    return 1;
}

static void leave(App *app)
{
    Drill *d = app->drill;
    if (d->phase != DRILL_CHOOSE && d->phase != DRILL_OVER) {
        drill_stop(app); /* what was answered counts */
    }
    drill_job_end(d->now);
    drill_job_end(d->next);
    free(d->kept);
    free(d->shown);
    free(d);
    app->drill = NULL;
    app->sound.is_own = 0;
}

static int moves(const App *app)
{
    DrillPhase p = app->drill->phase;
    return (p == DRILL_LISTEN || p == DRILL_MAKING || p == DRILL_TOLD) && !app_is_covered(app);
}

/* One square a trial: filled as it went; a ring round the one at hand. */
static void squares(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Drill *d = app->drill;
    float step = r.w / PB_DRILL_TRIALS, side = fminf(step - 4.0f, r.h);
    for (int i = 0; i < PB_DRILL_TRIALS; i++) {
        GfxRect q = {floorf(r.x + step * (float)i), r.y, floorf(side), floorf(side)};
        int is_done = i < d->tally.trials;
        PbDrillOutcome o = is_done ? d->answers[i].outcome : PB_DRILL_MISSED;
        int is_right = is_done && (o == PB_DRILL_GOOD || o == PB_DRILL_LEFT);
        int is_half = is_done && (o == PB_DRILL_LATE || o == PB_DRILL_SOON);
        ui_rect(ui, q.x, q.y, q.w, q.h, is_right ? t->accent : is_half ? t->accent_wash : t->well);
        ui_frame(ui, q, i == d->number && !is_done ? 2.0f : 1.0f, t->ink);
        if (is_done && !is_right && !is_half) { /* a cross, not a color alone */
            ui_line(ui, q.x + 3, q.y + 3, q.x + q.w - 3, q.y + q.h - 3, 2.0f, t->danger);
            ui_line(ui, q.x + 3, q.y + q.h - 3, q.x + q.w - 3, q.y + 3, 2.0f, t->danger);
        }
    }
}

static float said(const App *app, float x, float y, float w, double size, UiWeight weight,
                  GfxColor c, const char *text)
{
    return ui_paragraph(app->ui, x, y, w, size, weight, c, text) + ui_px(app->ui, 8);
}

static float choices(const App *app, float x, float y, float w)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Drill *d = app->drill;
    const char *sights[3] = {_("Open"), _("Taped"), _("Closed")};
    const char *noises[4] = {_("Quiet"), _("Compressor"), _("Saw"), _("Radio")};
    const char *levels[3] = {"1", "2", "3"};
    const struct {
        const char *title;
        const char *const *words;
        int id, count, now;
        const char *mark;
    } rows[] = {{_("Wall"), sights, ID_DRILL_SIGHT, 3, d->sight, "drill_sight"},
                {_("Noise beside you"), noises, ID_DRILL_NOISE, 4, d->noise, "drill_noise"},
                {_("How loud"), levels, ID_DRILL_LEVEL, 3, d->level - 1, "drill_level"}};
    for (int i = 0; i < (d->noise != 0 ? 3 : 2); i++) {
        y += said(app, x, y + ui_px(ui, 8), w, 14, UI_BOLD, t->ink, rows[i].title);
        GfxRect r = {x, y - ui_px(ui, 2), w, ui_px(ui, 34)};
        r.h = ui_segments_high(ui, w, rows[i].words, rows[i].count);
        ui_segments(ui, rows[i].id, r, rows[i].words, rows[i].count, rows[i].now);
        app_mark(app, rows[i].mark, r);
        y += r.h + ui_px(ui, 18);
    }
    return y;
}

/* The last sittings, newest first. */
static float history(const App *app, float x, float y, float w)
{
    const Drill *d = app->drill;
    const UiTheme *t = app->ui->theme;
    char line[160];
    for (int i = d->kept_count - 1, n = 0; i >= 0 && n < 3; i--, n++) {
        const StoreDrill *k = &d->kept[i];
        drill_line(app, k->good, k->events, k->median_s, line, sizeof line);
        y += said(app, x, y, w, 14, UI_REGULAR, t->ink2, line);
    }
    return y;
}

static float result(const App *app, float x, float y, float w)
{
    const Drill *d = app->drill;
    const PbDrillTally *s = &d->tally;
    const UiTheme *t = app->ui->theme;
    char line[200];
    drill_line(app, s->good, s->events, pb_drill_median_s(s), line, sizeof line);
    y += said(app, x, y, w, 20, UI_BOLD, t->ink, line);
    SDL_snprintf(line, sizeof line, _("Late or soon: %d. Missed: %d. Pressed for nothing: %d."),
                 s->late + s->soon, s->events - s->caught, s->false_presses);
    y += said(app, x, y, w, 15, UI_REGULAR, t->ink, line);
    SDL_snprintf(line, sizeof line, _("Longest row without a fault: %d"), s->best_streak);
    y += said(app, x, y, w, 15, UI_REGULAR, t->ink, line);
    y += said(app, x, y + ui_px(app->ui, 6), w, 17, UI_BOLD, t->accent_deep,
              drill_verdict_said(drill_verdict(d)));
    if (app->records.learner_id == 0) {
        y += said(app, x, y, w, 14, UI_REGULAR, t->ink2,
                  _("Nobody is chosen at the Door: this sitting is not kept."));
    }
    return y;
}

/* What is read beside the wall; returns where it ends. */
static float words(const App *app, float x, float y, float w)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Drill *d = app->drill;
    char line[120];
    switch (d->phase) {
    case DRILL_CHOOSE:
        y += said(app, x, y, w, 17, UI_BOLD, t->ink,
                  _("Press when the hands must act: the flow stalls, the line clogs, the face "
                    "creaks."));
        y +=
            said(app, x, y, w, 15, UI_REGULAR, t->ink,
                 _("An empty hopper is no stall, and sometimes nothing happens: then do not press. "
                   "Fourteen trials, about five minutes."));
        y = choices(app, x, y, w);
        return history(app, x, y + ui_px(ui, 12), w);
    case DRILL_MAKING:
        SDL_snprintf(line, sizeof line, _("Trial %d of %d"), d->number + 1, PB_DRILL_TRIALS);
        y += said(app, x, y, w, 20, UI_BOLD, t->ink, line);
        ui_rect(ui, x, y, w, ui_px(ui, 8), t->well);
        ui_rect(ui, x, y, w * (float)(d->next != NULL ? drill_job_share(d->next) : 0.0),
                ui_px(ui, 8), t->accent);
        return y + ui_px(ui, 20);
    case DRILL_LISTEN:
        SDL_snprintf(line, sizeof line, _("Trial %d of %d"), d->number + 1, PB_DRILL_TRIALS);
        y += said(app, x, y, w, 20, UI_BOLD, t->ink, line);
        return y + said(app, x, y, w, 15, UI_REGULAR, t->ink,
                        _("Listen. Press when the hands must act."));
    case DRILL_TOLD:
        y += said(app, x, y, w, 22, UI_BOLD, t->ink,
                  drill_said(app, &d->now->trial, &d->answers[d->number]));
        y += said(app, x, y, w, 15, UI_REGULAR, t->ink, drill_what_it_was(app, d->now->trial.kind));
        SDL_snprintf(line, sizeof line, _("In a row without a fault: %d"), d->tally.streak);
        return y + said(app, x, y, w, 15, UI_REGULAR, t->ink2, line);
    default:
        return result(app, x, y, w);
    }
}

static void buttons(const App *app, float x, float y, float w)
{
    Ui *ui = app->ui;
    const Drill *d = app->drill;
    char label[80];
    int may_stop = d->phase != DRILL_CHOOSE;
    float stop = may_stop ? ui_width(ui, 14, UI_BOLD, _("Stop here")) + ui_px(ui, 30) : 0.0f;
    const char *go = d->phase == DRILL_CHOOSE   ? _("Begin")
                     : d->phase == DRILL_LISTEN ? _("Now!")
                     : d->phase == DRILL_TOLD   ? _("Next")
                     : d->phase == DRILL_OVER   ? _("Again")
                                                : _("Wait");
    SDL_snprintf(label, sizeof label, "%s  %s", go, _("Space"));
    GfxRect r = {x, y, w - (may_stop ? stop + ui_px(ui, 10) : 0.0f), ui_px(ui, 52)};
    ui_button(ui, ID_DRILL_GO, r, label, 1, d->phase == DRILL_MAKING);
    app_mark(app, "drill_go", r);
    if (may_stop) {
        r = (GfxRect){x + w - stop, y, stop, ui_px(ui, 52)};
        ui_button(ui, ID_DRILL_STOP, r, d->phase == DRILL_OVER ? _("Change") : _("Stop here"), 0,
                  0);
        app_mark(app, "drill_stop", r);
    }
}

static void lay(const App *app)
{
    Ui *ui = app->ui;
    float top, gap = ui_px(ui, 20), margin = 20.0f;
    app_top_band(app, _("Drill"), "");
    top = app_band_height(app) + ui_px(ui, 14);
    float w = fminf(ui->width - 2 * margin, ui_px(ui, 1500)), wall_w = floorf(w * 0.36f);
    float x = margin + wall_w + gap * 1.5f, right = w - wall_w - gap * 1.5f;
    /* What is pressed stands in sight: at the foot, with large type at the head, as the rest is
     * longer than the window then. */
    int is_large = app->laid->text_scale > 1.3;
    float bottom = ui->height - margin, button = ui_px(ui, 52);
    float go = is_large ? top : bottom - button, from = is_large ? top + button + gap * 0.5f : top;
    float row = (is_large ? bottom : go - gap) - ui_px(ui, 26);
    drill_wall_draw(app, (GfxRect){margin, top, wall_w, bottom - top});
    ui_layer(ui, NULL);
    float end = words(app, x, from + ui_px(ui, 16), right);
    float free_h = row - gap - end;
    if (free_h > ui_px(ui, 90)) {
        float high = fminf(free_h, ui_px(ui, 260));
        drill_instruments_draw(app,
                               (GfxRect){x, row - gap - high, fminf(right, ui_px(ui, 520)), high});
    }
    page_needs(app, end + gap - row);
    squares(app, (GfxRect){x, row, fminf(right, ui_px(ui, 40) * PB_DRILL_TRIALS), ui_px(ui, 26)});
    buttons(app, x, go, right);
    notice_draw(app, (GfxRect){x, top, right, row - top});
}

static void go(App *app)
{
    switch (app->drill->phase) {
    case DRILL_CHOOSE:
    case DRILL_OVER:
        drill_begin(app);
        break;
    case DRILL_LISTEN:
        drill_press(app);
        break;
    case DRILL_TOLD:
        drill_go_on(app);
        break;
    default:
        break;
    }
}

/* While a trial runs the press counts when it goes down, by key, button of a controller or pointer;
 * a widget would answer when it is let go. */
static int input(App *app, const SDL_Event *e)
{
    int listens = app->drill->phase == DRILL_LISTEN;
    if (e->type == SDL_KEYDOWN && !e->key.repeat) {
        SDL_Keycode k = e->key.keysym.sym;
        if (k == SDLK_ESCAPE) {
            if (app->drill->phase == DRILL_CHOOSE) {
                app_go(app, SCREEN_DOOR);
            } else {
                drill_stop(app);
            }
            return 1;
        }
        if (listens && (k == SDLK_SPACE || k == SDLK_RETURN || k == SDLK_KP_ENTER)) {
            drill_press(app);
            return 1;
        }
        int focus = app->ui->focus; /* on another widget the key is that one's */
        if (k == SDLK_SPACE &&
            (focus == ID_DRILL_GO || focus == 0 || app->drill->phase == DRILL_TOLD)) {
            go(app);
            return 1;
        }
    }
    if (listens && e->type == SDL_CONTROLLERBUTTONDOWN &&
        e->cbutton.button != SDL_CONTROLLER_BUTTON_START) {
        drill_press(app);
        return 1;
    }
    if (listens && e->type == SDL_MOUSEBUTTONDOWN && e->button.button == SDL_BUTTON_LEFT) {
        const AppMark *m = app_mark_find(app, "drill_go");
        double x = app_pixels(app, e->button.x), y = app_pixels(app, e->button.y);
        if (m != NULL && x >= (double)m->rect.x && x < (double)(m->rect.x + m->rect.w) &&
            y >= (double)m->rect.y && y < (double)(m->rect.y + m->rect.h)) {
            drill_press(app);
            return 1;
        }
    }
    return 0;
}

static void answer(App *app)
{
    Drill *d = app->drill;
    double v;
    if (ui_answered(app->ui, ID_DRILL_SIGHT, &v)) {
        d->sight = (int)v;
    }
    if (ui_answered(app->ui, ID_DRILL_NOISE, &v)) {
        d->noise = (int)v;
    }
    if (ui_answered(app->ui, ID_DRILL_LEVEL, &v)) {
        d->level = 1 + (int)v;
    }
    if (ui_answered(app->ui, ID_DRILL_STOP, NULL)) {
        drill_stop(app);
    } else if (ui_answered(app->ui, ID_DRILL_GO, NULL)) {
        go(app);
    }
}

static GfxFieldData field(App *app)
{
    const Drill *d = app->drill;
    return d->now != NULL ? run_field(&d->now->run) : (GfxFieldData){0};
}

const Screen scr_drill = {.enter = enter,
                          .leave = leave,
                          .update = drill_update,
                          .lay = lay,
                          .answer = answer,
                          .input = input,
                          .field = field,
                          .moves = moves,
                          .word = "drill",
                          .title = N_("Drill"),
                          .least_px = 560.0f};
