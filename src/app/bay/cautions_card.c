/* The cautions card: shown before the machine is first switched on, and with F1. It is never left
 * out, whatever the text size. The exercise's own cautions come first, then those of every
 * job as a check list: ticked or skipped, and what was skipped is kept in the run's record. */
#include "bay/bay.h"

#include <math.h>

static const char *const always[SAFETY_POINTS] = {
    N_("Dust: mask and eye protection on; people kept out of the room."),
    N_("Wiring: checked for knob-and-tube, can lights and boxes. A licensed electrician makes the "
       "call."),
    N_("Old paint and old fill: lead, asbestos or vermiculite checked for before drilling; "
       "licensed "
       "trades if there is any."),
    N_("Heat: clearance kept at flues, chimneys and heaters. Combustion safety test after the "
       "job."),
    N_("Openings: every place cellulose could blow out is found and blocked."),
    N_("Machine: off and unplugged before anyone reaches into it; stop when a wall bows or a screw "
       "pops."),
};

/* One caution with its bullet; returns its height. */
static float item(Ui *ui, float x, float y, float w, int is_drawn, const char *text)
{
    GfxColor c = ui->theme->ink;
    if (is_drawn) {
        ui_rect(ui, x, y - ui_px(ui, 7), ui_px(ui, 5), ui_px(ui, 5), ui->theme->warn);
    }
    c.a = is_drawn ? 255 : 0;
    return ui_paragraph(ui, x + ui_px(ui, 16), y, w - ui_px(ui, 16), 14, UI_REGULAR, c, text) +
           ui_px(ui, 5);
}

/* A point to tick: the box, the words, and the whole row to press. */
static float point(const App *app, float x, float y, float w, int is_drawn, int i)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float box = ui_px(ui, 15), in = box + ui_px(ui, 8);
    GfxColor c = t->ink;
    c.a = is_drawn ? 255 : 0;
    float high = ui_paragraph(ui, x + in, y, w - in, 14, UI_REGULAR, c, _(always[i]));
    if (!is_drawn) {
        return high + ui_px(ui, 5);
    }
    GfxRect b = {x, y - box * 0.85f, box, box}, row = {x, b.y - 2.0f, w, high + 2.0f};
    int state = ui_area(ui, ID_CARD_CHECK + i, row, 1);
    int is_ticked = (app->task.safety_ticked >> i) & 1u;
    ui_round(ui, b, 3.0f, is_ticked ? t->ink : t->glass);
    ui_round_line(ui, b, 3.0f, state & UI_AREA_HOT ? 2.0f : 1.5f, t->ink);
    if (is_ticked) {
        UiPoint tick[3] = {{b.x + box * 0.2f, b.y + box * 0.55f},
                           {b.x + box * 0.42f, b.y + box * 0.76f},
                           {b.x + box * 0.8f, b.y + box * 0.25f}};
        ui_polyline(ui, tick, 3, fmaxf(2.0f, box * 0.12f), t->sheet);
    }
    if (state & UI_AREA_FOCUS) {
        ui_focus_ring(ui, b, 3.0f);
    }
    char place[16];
    SDL_snprintf(place, sizeof place, "check%d", i);
    app_mark(app, place, row);
    return high + ui_px(ui, 5);
}

static float list(const App *app, float x, float y, float w, int is_drawn)
{
    const PbExercise *e = &app->run.config.exercise;
    float high = 0.0f;
    GfxColor lesson = app->ui->theme->ink;
    lesson.a = is_drawn ? 255 : 0;
    const char *taught = app_bay_lesson(app);
    if (app->laid->text_scale >= 1.3 &&
        taught[0] != '\0') { /* the room has no other place for it then */
        high += ui_paragraph(app->ui, x, y, w, 14, UI_BOLD, lesson, taught) + ui_px(app->ui, 6);
    }
    for (int i = 0; i < e->caution_count; i++) {
        high += item(app->ui, x, y + high, w, is_drawn, _(e->cautions[i]));
    }
    for (int i = 0; i < SAFETY_POINTS; i++) {
        high += point(app, x, y + high, w, is_drawn, i);
    }
    return high;
}

static void leave(App *app, int understood)
{
    app->cards.cautions_open = 0;
    app->ui->focus = 0;
    if (understood) {
        if (!app->task.cautions_seen && app_has_run(app)) {
            safety_checked(app);
        }
        app->task.cautions_seen = 1;
        if (app->cards.on_after_cautions) {
            app_machine(app, 1);
        }
    }
    app->cards.on_after_cautions = 0;
}

/* How many points of the check list are not ticked, and what that means. */
static int checks_left(const App *app, char *out, size_t size)
{
    int left = 0;
    for (int i = 0; i < SAFETY_POINTS; i++) {
        left += !((app->task.safety_ticked >> i) & 1u);
    }
    SDL_snprintf(out, size,
                 app_plural("%d check not done. Starting now skips it and costs points.",
                            "%d checks not done. Starting now skips them and costs points.", left),
                 left);
    return left;
}

void cautions_card_draw(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float in = ui_px(ui, 24), w = fminf(ui_px(ui, 640), ui->width - 2.0f * CARD_MARGIN);
    char skipped[80] = "";
    const char *training = _("For training. Local codes and licensed trades decide real work.");
    GfxColor none = {0, 0, 0, 0};
    float high = list(app, 0, 0, w - 2 * in, 0), foot = ui_px(ui, 138);
    if (checks_left(app, skipped, sizeof skipped) == 0) {
        skipped[0] = '\0';
    }
    foot += ui_paragraph(ui, 0, 0, w - 2 * in, 12, UI_BOLD, none, skipped);
    foot += ui_paragraph(ui, 0, 0, w - 2 * in, 12, UI_REGULAR, none, training);
    GfxRect r = app_card_ground(app, w, high + foot, ui_px(ui, 6), t->warn_wash, 1.0f, t->warn);
    ui_rect(ui, r.x, r.y, 6.0f, r.h, t->warn);
    float x = r.x + in, y = r.y + ui_px(ui, 38), s = ui_px(ui, 10);
    ui_polygon(ui,
               (UiPoint[3]){{x + s, y - s * 1.5f}, {x + 2 * s, y + s * 0.3f}, {x, y + s * 0.3f}}, 3,
               t->warn);
    ui_label(ui, x + ui_px(ui, 30), y, 20, UI_BOLD, t->warn, UI_LEFT, _("Cautions"));
    list(app, x, y + ui_px(ui, 34), w - 2 * in, 1);
    y += ui_px(ui, 34) + high + ui_px(ui, 18);
    y += ui_paragraph(ui, x, y, w - 2 * in, 12, UI_BOLD, t->warn, skipped) + ui_px(ui, 3);
    ui_paragraph(ui, x, y, w - 2 * in, 12, UI_REGULAR, t->ink2, training);
    const char *ok = app->cards.on_after_cautions ? _("Switch on") : _("Understood");
    GfxRect yes = {r.x + w - in - ui_px(ui, 200), r.y + r.h - ui_px(ui, 48), ui_px(ui, 200),
                   ui_px(ui, 36)};
    GfxRect no = {yes.x - ui_px(ui, 122), yes.y, ui_px(ui, 110), yes.h};
    app_mark(app, "card_ok", yes);
    app_mark(app, "card_back", no);
    ui_button(ui, ID_CARD_BACK, no, _("Back"), 0, 0);
    ui_button(ui, ID_CARD_OK, yes, ok, 1, 0);
}

void cautions_card_answer(App *app)
{
    for (int i = 0; i < SAFETY_POINTS; i++) {
        if (ui_answered(app->ui, ID_CARD_CHECK + i, NULL)) {
            app->task.safety_ticked ^= 1u << i;
        }
    }
    if (ui_answered(app->ui, ID_CARD_OK, NULL)) {
        leave(app, 1);
    } else if (ui_answered(app->ui, ID_CARD_BACK, NULL)) {
        leave(app, 0);
    }
}
