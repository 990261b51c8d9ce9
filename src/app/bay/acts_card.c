/* What hands do at the hole and at the wall besides packing: the rag, another hole, plugs, seals,
 * the static test, leaving the bay for a reason. A card, by pointer; each act has a key of its own
 * as well. What happens is told by the run's events (step.c). */
#include "bay/bay.h"

#include "io/act_words.h"

#include <math.h>
#include <stdio.h>

enum {
    ID_RING = ID_OVER_A,
    ID_HOLE = ID_OVER_B,
    ID_PLUG = ID_OVER_C,
    ID_TEST = ID_OVER_D,
    ID_SEAL = ID_OVER_ROWS,                    /* one an opening */
    ID_REASON = ID_OVER_ROWS + PB_MAX_OPENINGS /* one a reason */
};

static const double ring_notches[] = {0.0, 0.15, 0.5, 1.0};
static const double ring_step = 0.05; /* of the slider */

/* From top to bottom; without is_drawn only the height is worked out. */
typedef struct Flow {
    const App *app;
    float x, y, w;
    int is_drawn;
} Flow;

static const PbActs *acts_now(const App *app)
{
    return &app->run.view->signals.acts;
}

/* A hole that stands open, 1 and up; 0 = none. */
static int open_hole(const App *app)
{
    for (int h = 0; h < app->run.config.exercise.hole_count; h++) {
        if (acts_now(app)->is_hole_open[h]) {
            return h + 1;
        }
    }
    return 0;
}

/* An opening that was found and is not sealed, 1 and up; 0 = none. */
static int open_place(const App *app)
{
    for (int o = 0; o < app->run.config.exercise.opening_count; o++) {
        if (acts_now(app)->is_found[o] && !acts_now(app)->is_sealed[o]) {
            return o + 1;
        }
    }
    return 0;
}

static void text(Flow *f, double size, UiWeight weight, const char *words)
{
    GfxColor c = f->app->ui->theme->ink;
    c.a = f->is_drawn ? 255 : 0;
    f->y += ui_paragraph(f->app->ui, f->x, f->y + ui_px(f->app->ui, size), f->w, size, weight, c,
                         words) +
            ui_px(f->app->ui, 6);
}

static void button(Flow *f, int id, const char *mark, const char *words, int is_disabled)
{
    Ui *ui = f->app->ui;
    GfxRect r = {f->x, f->y, f->w, ui_px(ui, 34)};
    if (f->is_drawn) {
        app_mark(f->app, mark, r);
        ui_button(ui, id, r, words, 0, is_disabled);
    }
    f->y += r.h + ui_px(ui, 8);
}

/* Under a card the run stands still, so the slider is where the hand has it. */
static double ring_shown(const App *app)
{
    return app->cards.ring_want >= 0.0 ? app->cards.ring_want : acts_now(app)->ring_open_frac;
}

static void ring(Flow *f)
{
    Ui *ui = f->app->ui;
    char words[120];
    double open = ring_shown(f->app);
    snprintf(words, sizeof words, _("Rag round the tube: %s of the gap open"),
             app_fmt(f->app, 0, 100.0 * open, "%"));
    text(f, 14, UI_BOLD, words);
    GfxRect r = {f->x + ui_px(ui, 7), f->y, f->w - ui_px(ui, 14), ui_px(ui, 24)};
    if (f->is_drawn) {
        app_mark(f->app, "ring", r);
        ui_slider(ui, ID_RING, r, open, ring_step, -1.0);
    }
    f->y += ui_px(ui, 34);
}

static void holes(Flow *f)
{
    static const char *const numbers[PB_MAX_HOLES] = {"1", "2", "3", "4", "5", "6", "7", "8"};
    Ui *ui = f->app->ui;
    int count = f->app->run.config.exercise.hole_count, open = open_hole(f->app);
    char words[80];
    if (count < 2) {
        return;
    }
    text(f, 14, UI_BOLD, _("Tube at hole"));
    GfxRect r = {f->x, f->y, f->w, ui_px(ui, 34)};
    if (f->is_drawn) {
        app_mark(f->app, "holes", r);
        ui_segments(ui, ID_HOLE, r, numbers, count, acts_now(f->app)->hole);
    }
    f->y += r.h + ui_px(ui, 8);
    snprintf(words, sizeof words, _("Plug hole %d"), open);
    button(f, ID_PLUG, "plug", open > 0 ? words : _("No hole stands open"), open == 0);
}

static void seals(Flow *f)
{
    const PbExercise *e = &f->app->run.config.exercise;
    const PbActs *a = acts_now(f->app);
    int found = 0;
    for (int o = 0; o < e->opening_count; o++) {
        char words[120], mark[16];
        if (!a->is_found[o]) {
            continue;
        }
        found++;
        snprintf(words, sizeof words, a->is_sealed[o] ? _("Sealed: %s") : _("Seal: %s"),
                 _(e->openings[o].place));
        snprintf(mark, sizeof mark, "seal%d", o + 1);
        button(f, ID_SEAL + o, mark, words, a->is_sealed[o]);
    }
    if (found == 0) {
        button(f, ID_SEAL, "seal1", _("Nothing found to seal"), 1);
    }
}

static void test_row(Flow *f)
{
    const PbActs *a = acts_now(f->app);
    char words[120];
    snprintf(words, sizeof words, "%s", _("Static test: hose end covered, gate shut, full air"));
    if (a->tested_pa > 0.0) {
        snprintf(words, sizeof words, _("Static test again; it read %s"),
                 app_fmt_pressure(f->app, a->tested_pa));
    }
    button(f, ID_TEST, "test", words, a->test_left_s > 0.0);
}

/* A reason to choose: a round mark, the words, the whole row to press. */
static void reason_row(Flow *f, int reason)
{
    Ui *ui = f->app->ui;
    const UiTheme *t = ui->theme;
    float in = ui_px(ui, 24), size = ui_px(ui, 7);
    GfxColor c = t->ink;
    c.a = f->is_drawn ? 255 : 0;
    float high = ui_paragraph(ui, f->x + in, f->y + ui_px(ui, 14), f->w - in, 14, UI_REGULAR, c,
                              io_leave_words((PbLeaveReason)reason, f->app->taste.lang)) +
                 ui_px(ui, 4);
    if (f->is_drawn) {
        GfxRect r = {f->x, f->y, f->w, high};
        int state = ui_area(ui, ID_REASON + reason, r, 1);
        float x = f->x + size + 2.0f, y = f->y + ui_px(ui, 9);
        char mark[16];
        snprintf(mark, sizeof mark, "reason%d", reason);
        app_mark(f->app, mark, r);
        ui_circle(ui, x, y, size, t->ink);
        ui_circle(ui, x, y, size - (state & UI_AREA_HOT ? 2.5f : 1.5f), t->sheet);
        if ((int)f->app->cards.leave_reason == reason) {
            ui_circle(ui, x, y, size * 0.55f, t->ink);
        }
        if (state & UI_AREA_FOCUS) {
            ui_focus_ring(ui, r, 2.0f);
        }
    }
    f->y += high;
}

static void whole(Flow *f)
{
    ring(f);
    holes(f);
    seals(f);
    test_row(f);
    text(f, 14, UI_BOLD, _("Leave the bay, because of:"));
    for (int i = 1; i < PB_LEAVE_REASONS; i++) {
        reason_row(f, i);
    }
}

static float foot_high(Ui *ui)
{
    return ui_px(ui, 36 + 14);
}

void acts_card_draw(const App *app)
{
    Ui *ui = app->ui;
    float w = fminf(ui_px(ui, 600), ui->width - 2.0f * CARD_MARGIN), in = ui_px(ui, 24);
    Flow f = {app, 0.0f, 0.0f, w - 2 * in, 0};
    whole(&f);
    GfxRect at = app_card_plate(app, w, ui_px(ui, 68) + f.y + foot_high(ui) + in,
                                _("At the hole and the wall"));
    f = (Flow){app, at.x, at.y, at.w, 1};
    whole(&f);
    float high = ui_px(ui, 36), gap = ui_px(ui, 10), half = (at.w - gap) * 0.5f;
    GfxRect back = {at.x, at.y + at.h - high, half, high};
    GfxRect leave = {back.x + half + gap, back.y, half, high};
    app_mark(app, "card_close", back);
    app_mark(app, "leave", leave);
    ui_button(ui, ID_OVER_CLOSE, back, _("Back"), 1, 0);
    ui_button(ui, ID_OVER_OK, leave, _("Leave the bay"), 0,
              app->cards.leave_reason == PB_LEAVE_NONE);
}

void acts_open(App *app)
{
    if (app->run.view != NULL && app->run.view->phase == PB_PHASE_WORKING) {
        bay_let_go(app);
        app->cards.leave_reason = PB_LEAVE_NONE;
        app->cards.ring_want = -1.0;
        app_card_open(app, CARD_ACTS);
    }
}

static void to_hole(App *app, int hole)
{
    run_command(&app->run, PB_COMMAND_HOLE, hole);
    app->bay->tube_want_m = -1.0;
}

static void say(App *app, const char *words)
{
    app_notice(app, words, "", 0, 4);
}

/* The next notch above where it is, round. */
static void next_ring(App *app)
{
    double open = acts_now(app)->ring_open_frac, next = ring_notches[0];
    for (int i = (int)(sizeof ring_notches / sizeof ring_notches[0]) - 1; i >= 0; i--) {
        next = ring_notches[i] > open + 0.01 ? ring_notches[i] : next;
    }
    char words[120];
    run_command(&app->run, PB_COMMAND_RING, next);
    snprintf(words, sizeof words, _("Rag round the tube: %s of the gap open"),
             app_fmt(app, 0, 100.0 * next, "%"));
    say(app, words);
}

int acts_key(App *app, int action)
{
    int count = app->run.config.exercise.hole_count, open = open_hole(app);
    switch (action) {
    case KEY_ACTS:
        acts_open(app);
        return 1;
    case KEY_RING:
        next_ring(app);
        return 1;
    case KEY_HOLE:
        if (count < 2) {
            say(app, _("This bay has one hole"));
        } else {
            to_hole(app, (acts_now(app)->hole + 1) % count + 1);
        }
        return 1;
    case KEY_PLUG:
        if (open == 0) {
            say(app, _("No hole stands open"));
        } else {
            run_command(&app->run, PB_COMMAND_PLUG, open);
        }
        return 1;
    case KEY_SEAL:
        if (open_place(app) == 0) {
            say(app, io_refusal_words(PB_REFUSED_NOT_FOUND, app->taste.lang));
        } else {
            run_command(&app->run, PB_COMMAND_SEAL, open_place(app));
        }
        return 1;
    case KEY_TEST:
        run_command(&app->run, PB_COMMAND_STATIC_TEST, 1.0);
        return 1;
    default:
        return 0;
    }
}

/* An act that goes on in the room: the card is in its way. */
static void done(App *app, PbCommandKind kind, double value)
{
    app_card_open(app, CARD_NONE);
    run_command(&app->run, kind, value);
}

void acts_card_answer(App *app)
{
    const Ui *ui = app->ui;
    double v;
    if (ui_answered(ui, ID_RING, &v)) {
        run_command(&app->run, PB_COMMAND_RING, v);
        app->cards.ring_want = v;
    }
    if (ui_answered(ui, ID_HOLE, &v) && (int)v != acts_now(app)->hole) {
        app_card_open(app, CARD_NONE);
        to_hole(app, (int)v + 1);
    }
    if (ui_answered(ui, ID_PLUG, NULL)) {
        done(app, PB_COMMAND_PLUG, open_hole(app));
    }
    for (int o = 0; o < app->run.config.exercise.opening_count; o++) {
        if (ui_answered(ui, ID_SEAL + o, NULL)) {
            done(app, PB_COMMAND_SEAL, o + 1);
        }
    }
    if (ui_answered(ui, ID_TEST, NULL)) {
        done(app, PB_COMMAND_STATIC_TEST, 1.0);
    }
    for (int i = 1; i < PB_LEAVE_REASONS; i++) {
        if (ui_answered(ui, ID_REASON + i, NULL)) {
            app->cards.leave_reason = (PbLeaveReason)i;
        }
    }
    if (ui_answered(ui, ID_OVER_OK, NULL) && app->cards.leave_reason != PB_LEAVE_NONE) {
        done(app, PB_COMMAND_LEAVE, app->cards.leave_reason);
    } else if (ui_answered(ui, ID_OVER_CLOSE, NULL)) {
        app_card_open(app, CARD_NONE);
    }
}
