/* The left column: what hands can do, then this stop, then a notice or the cautions. Groups are as
 * high as their text; key caps go first when room is short, then the rows about this stop. */
#include "bay/bay.h"

#include <math.h>

typedef struct Column {
    const App *app;
    GfxRect r;
    float y;
    int with_keys;
    double squeeze; /* of the gaps and rows, never of the text: 1 when there is room */
} Column;

static float gap(const Column *c, double px)
{
    return ui_px(c->app->ui, px * c->squeeze);
}

static void heading(Column *c, const char *text)
{
    Ui *ui = c->app->ui;
    ui_label(ui, c->r.x, c->y + gap(c, 15), 16, UI_BOLD, ui->theme->ink, UI_LEFT, text);
    ui_rect(ui, c->r.x, c->y + gap(c, 24), c->r.w, 1.0f, ui->theme->ink2);
    c->y += gap(c, 32);
}

/* Name left, value right; on two lines when they do not fit one. */
static void name_value(Column *c, const char *name, const char *value)
{
    Ui *ui = c->app->ui;
    float w = ui_width(ui, 14, UI_BOLD, name) + ui_width(ui, 14, UI_BOLD, value) + ui_px(ui, 8);
    ui_label(ui, c->r.x, c->y + gap(c, 14.5), 14, UI_BOLD, ui->theme->ink, UI_LEFT, name);
    if (w > c->r.w) {
        c->y += gap(c, 20);
    }
    ui_label(ui, c->r.x + c->r.w, c->y + gap(c, 14.5), 14, UI_BOLD, ui->theme->ink, UI_RIGHT,
             value);
    c->y += gap(c, 20);
}

const char *hands_cap(const App *app, int action)
{
    int is_space = app->keymap.key[action] == SDLK_SPACE;
    return is_space ? _("Space") : keymap_key_name(&app->keymap, (KeyAction)action);
}

static void keys(Column *c, int a, int b)
{
    Ui *ui = c->app->ui;
    if (c->with_keys) {
        float x = c->r.x + ui_key(ui, c->r.x, c->y, hands_cap(c->app, a)) + ui_px(ui, 4);
        if (b >= 0) {
            ui_key(ui, x, c->y, hands_cap(c->app, b));
        }
        c->y += gap(c, 26);
    }
}

/* W and S pull and push, whichever way the tube points: the hands do the same at every hole, and
 * the picture goes with the hand only by the mouse. So the two say what they do. */
static void tube_keys(Column *c)
{
    Ui *ui = c->app->ui;
    const UiTheme *t = ui->theme;
    const char *pull = _("pull out"), *push = _("push in");
    if (!c->with_keys) {
        return;
    }
    float x = c->r.x, gap_px = ui_px(ui, 4), base = c->y + ui_px(ui, 15);
    x += ui_key(ui, x, c->y, hands_cap(c->app, KEY_TUBE_OUT)) + gap_px;
    x += ui_label(ui, x, base, 12, UI_REGULAR, t->ink2, UI_LEFT, pull) + ui_px(ui, 8);
    x += ui_key(ui, x, c->y, hands_cap(c->app, KEY_TUBE_IN)) + gap_px;
    if (x + ui_width(ui, 12, UI_REGULAR, push) <= c->r.x + c->r.w) {
        ui_label(ui, x, base, 12, UI_REGULAR, t->ink2, UI_LEFT, push);
    }
    c->y += gap(c, 26);
}

static void slider(Column *c, int id, const char *mark, double value, double step, double wax)
{
    Ui *ui = c->app->ui;
    GfxRect r = {c->r.x + ui_px(ui, 7), c->y, c->r.w - ui_px(ui, 14), gap(c, 24)};
    ui_slider(ui, id, r, value, step, wax);
    app_mark(c->app, mark, r);
    c->y += gap(c, wax >= 0.0 ? 42 : 36);
}

static GfxRect row(Column *c, const char *mark, double high)
{
    GfxRect r = {c->r.x, c->y, c->r.w, gap(c, high)};
    app_mark(c->app, mark, r);
    c->y += gap(c, high + 4.0);
    return r;
}

/* What a whole slider stands for. */
static double tube_whole_m(const App *app)
{
    return fmax(run_tube_max(&app->run), 0.05);
}

static double feed_whole_kg_s(const App *app)
{
    double most = app->run.config.exercise.machine.feed_max_kg_s;
    return most > 0.0 ? most : 1.0;
}

static void tube_and_turn(Column *c)
{
    const App *app = c->app;
    const PbSignals *s = &app->run.view->signals;
    double max = tube_whole_m(app), in = run_tube_in(&app->run);
    double share =
        (app->ui->active == ID_TUBE && app->bay->tube_want_m >= 0.0 ? app->bay->tube_want_m : in) /
        max;
    share = share > 1.0 ? 1.0 : share;
    name_value(c, _("Tube in"), s->tube_in_m < -0.01 ? _("outside") : app_fmt_length(app, in));
    slider(c, ID_TUBE, "tube", share, 0.025 / max, -1.0);
    tube_keys(c);
    const char *ways[2] = {_("Down"), _("Up")};
    float y = c->y;
    ui_label(app->ui, c->r.x, y + gap(c, 14.5), 14, UI_BOLD, app->ui->theme->ink, UI_LEFT,
             _("Tube end faces"));
    c->y += gap(c, 22);
    ui_segments(app->ui, ID_TURN, row(c, "turn", 32), ways, 2, s->direction > 0);
    keys(c, KEY_TURN, -1);
}

static void blower_and_feed(Column *c)
{
    const App *app = c->app;
    const PbSignals *s = &app->run.view->signals;
    const PbMachine *m = &app->run.config.exercise.machine;
    c->y += gap(c, 4);
    name_value(c, _("Blower"), app_fmt_pressure(app, s->blower_setting * m->static_pa));
    slider(c, ID_BLOWER, "blower", s->blower_setting, 0.05, -1.0);
    keys(c, KEY_BLOWER_LESS, KEY_BLOWER_MORE);
    c->y += gap(c, 4);
    double max = feed_whole_kg_s(app);
    name_value(c, _("Feed gate"), app_fmt_feed(app, s->feed_set_kg_s));
    slider(c, ID_FEED, "feed", s->feed_set_kg_s / max, 0.05,
           app->bay->wax_feed >= 0.0 ? app->bay->wax_feed / max : -1.0);
    keys(c, KEY_FEED_LESS, KEY_FEED_MORE);
}

/* How far the plug is out: where its button was, a bar that fills, and the seconds left. */
static void clearing(Column *c, double left_s)
{
    Ui *ui = c->app->ui;
    const UiTheme *t = ui->theme;
    char text[80];
    GfxRect r = row(c, "clear", 34);
    SDL_snprintf(text, sizeof text, _("Clearing: %s"), app_fmt(c->app, 0, ceil(left_s), "s"));
    ui_round(ui, r, ui_px(ui, 6), t->well);
    ui_rect(ui, r.x, r.y + r.h - 6.0f, r.w * (float)clog_share(c->app), 6.0f, t->accent);
    ui_label(ui, r.x + r.w * 0.5f, r.y + r.h * 0.5f + ui_px(ui, 3), 14, UI_BOLD, t->ink, UI_CENTRE,
             text);
}

static void machine_and_finish(Column *c)
{
    const App *app = c->app;
    Ui *ui = app->ui;
    const PbSignals *s = &app->run.view->signals;
    const char *states[2] = {_("Off"), _("On")};
    c->y += gap(c, 4);
    ui_label(ui, c->r.x, c->y + gap(c, 14.5), 14, UI_BOLD, ui->theme->ink, UI_LEFT, _("Machine"));
    c->y += gap(c, 22);
    ui_segments(ui, ID_MACHINE, row(c, "machine", 32), states, 2, s->machine_on);
    keys(c, KEY_MACHINE, -1);
    c->y += gap(c, 4);
    if (s->clear_left_s > 0.0) {
        clearing(c, s->clear_left_s);
    } else if (s->plugged) {
        ui_button(ui, ID_CLEAR, row(c, "clear", 34), _("Clear the clog"), 0, 0);
    }
    int bleeds = app->run.view->phase == PB_PHASE_BLEEDING;
    char more[80];
    SDL_snprintf(more, sizeof more, _("More acts  %s"), hands_cap(app, KEY_ACTS));
    ui_button(ui, ID_ACTS, row(c, "acts", 34), more, 0, bleeds);
    ui_button(ui, ID_FINISH, row(c, "finish", 34),
              bleeds ? _("Pressure bleeding") : _("Close the hole, finish"), !bleeds, bleeds);
    ui_button(ui, ID_FULL, row(c, "rest", 30), _("At a glance"), 0, 0);
}

static void stop_row(Column *c, const char *name, const char *value)
{
    Ui *ui = c->app->ui;
    ui_label(ui, c->r.x, c->y + gap(c, 14.5), 14, UI_REGULAR, ui->theme->ink2, UI_LEFT, name);
    ui_label(ui, c->r.x + c->r.w, c->y + gap(c, 14.5), 14, UI_BOLD, ui->theme->ink, UI_RIGHT,
             value);
    c->y += gap(c, 22);
}

static void this_stop(Column *c)
{
    const App *app = c->app;
    const PbView *v = app->run.view;
    const PbLift *l = v->lift_count ? &v->lifts[v->lift_count - 1] : NULL;
    heading(c, _("This stop"));
    stop_row(c, _("Time here"), l ? app_fmt(app, 0, v->time_s - l->from_s, "s") : "–");
    stop_row(c, _("Last pull"), l && l->step_m > 0.0 ? app_fmt_length(app, l->step_m) : "–");
    stop_row(c, _("Blown in at this stop"), l ? app_fmt_mass(app, l->mass_kg) : "–");
}

static void triangle(Ui *ui, float x, float y, float s, GfxColor c)
{
    ui_polygon(ui, (UiPoint[3]){{x, y - s}, {x + s, y + s * 0.8f}, {x - s, y + s * 0.8f}}, 3, c);
}

/* A notice, at the foot of the column; returns how high it is. */
static float notice(const App *app, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const AppNotice *n = &app->say.notice;
    float left = r.x + ui_px(ui, 16), w = r.w - ui_px(ui, 26);
    GfxColor none = {0, 0, 0, 0}, words = n->is_danger ? t->white : t->warn;
    float head = ui_paragraph(ui, left, 0, w - ui_px(ui, 26), 14, UI_BOLD, none, n->title);
    float body = ui_paragraph(ui, left, 0, w, 13, UI_REGULAR, none, n->text);
    float high = head + body + ui_px(ui, 22);
    if (!is_drawn) {
        return high;
    }
    GfxRect box = {r.x, r.y + r.h - high, r.w, high};
    ui_round(ui, box, ui_px(ui, 6), n->is_danger ? t->danger : t->warn_wash);
    ui_round_line(ui, box, ui_px(ui, 6), n->is_danger ? 2.0f : 1.0f,
                  n->is_danger ? t->ink : t->warn);
    if (!n->is_danger) {
        ui_rect(ui, box.x, box.y, 6.0f, box.h, t->warn);
    }
    triangle(ui, left + ui_px(ui, 8), box.y + ui_px(ui, 17), ui_px(ui, 8), words);
    float y = box.y + ui_px(ui, 22);
    ui_paragraph(ui, left + ui_px(ui, 24), y, w - ui_px(ui, 26), 14, UI_BOLD, words, n->title);
    ui_paragraph(ui, left, y + head, w, 13, UI_REGULAR, n->is_danger ? t->white : t->ink, n->text);
    app_mark(app, "notice", box);
    return high;
}

static float cautions(const App *app, GfxRect r, float room, int is_drawn)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const char *text = _("Dust mask on. Stop if the wall bows or a screw pops. Local codes and "
                         "licensed trades decide.");
    GfxColor none = {0, 0, 0, 0};
    float high =
        ui_paragraph(ui, 0, 0, r.w - ui_px(ui, 26), 12, UI_REGULAR, none, text) + ui_px(ui, 18);
    int is_short = high > room;
    high = is_short ? ui_px(ui, 38) : high;
    if (!is_drawn) {
        return high;
    }
    GfxRect box = {r.x, r.y + r.h - high, r.w, high};
    if (is_short) {
        ui_button(ui, ID_CAUTIONS, box, _("Cautions F1"), 0, 0);
    } else {
        ui_round(ui, box, ui_px(ui, 6), t->warn_wash);
        ui_round_line(ui, box, ui_px(ui, 6), 1.0f, t->warn);
        ui_rect(ui, box.x, box.y, 6.0f, box.h, t->warn);
        ui_paragraph(ui, box.x + ui_px(ui, 16), box.y + ui_px(ui, 20), r.w - ui_px(ui, 26), 12,
                     UI_REGULAR, t->ink, text);
    }
    app_mark(app, "cautions", box);
    return high;
}

/* How high the controls are, with or without key caps. */
static float controls_height(const App *app, float width, int with_keys)
{
    Ui *ui = app->ui;
    float high =
        ui_px(ui, 32 + 3 * 56 + 2 * 58 + 2 * 38 + 34 + 16) + (with_keys ? 5 * ui_px(ui, 26) : 0.0f);
    const char *names[3] = {_("Tube in"), _("Blower"), _("Feed gate")};
    const char *values[3] = {app_fmt_length(app, 1.0), app_fmt_pressure(app, 20000.0),
                             app_fmt_feed(app, 0.05)};
    for (int i = 0; i < 3; i++) {
        float w = ui_width(ui, 14, UI_BOLD, names[i]) + ui_width(ui, 14, UI_BOLD, values[i]);
        high += w + ui_px(ui, 8) > width ? ui_px(ui, 20) : 0.0f;
    }
    return high + (app->run.view->signals.plugged ? ui_px(ui, 38) : 0.0f);
}

void hands_panel_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    int has_notice = app->program.now_s < app->say.notice.until_s;
    app->laid->notice_in_middle = 0;
    float least = ui_px(ui, 60);
    float tall = controls_height(app, r.w, 0) + least;
    Column c = {app, r, r.y, controls_height(app, r.w, 1) + least < r.h,
                fmin(1.0, fmax(0.6, (double)(r.h / tall)))};
    heading(&c, _("Hands"));
    tube_and_turn(&c);
    blower_and_feed(&c);
    machine_and_finish(&c);
    float room = r.y + r.h - c.y - ui_px(ui, 12);
    float foot = has_notice ? notice(app, r, 0) : cautions(app, r, room, 0);
    if (app->task.sight == SIGHT_OPEN && room - foot > ui_px(ui, 112)) {
        c.y += ui_px(ui, 10);
        this_stop(&c);
    }
    if (has_notice && foot <= room) {
        notice(app, r, 1);
        return;
    }
    cautions(app, r, room, 1);
    app->laid->notice_in_middle = has_notice;
}

void hands_panel_answer(App *app)
{
    const Ui *ui = app->ui;
    double v;
    if (ui_answered(ui, ID_TUBE, &v)) {
        app_tube_to(app, v * tube_whole_m(app));
    }
    if (ui_answered(ui, ID_TURN, &v)) {
        bay_turn(app, v > 0.5 ? 1 : -1);
    }
    if (ui_answered(ui, ID_BLOWER, &v)) {
        run_command(&app->run, PB_COMMAND_BLOWER, v);
    }
    if (ui_answered(ui, ID_FEED, &v)) {
        run_command(&app->run, PB_COMMAND_FEED, v * feed_whole_kg_s(app));
    }
    if (ui_answered(ui, ID_MACHINE, &v)) {
        app_machine(app, v > 0.5);
    }
    if (ui_answered(ui, ID_CLEAR, NULL)) {
        safety_clear_plug(app);
    }
    if (ui_answered(ui, ID_FINISH, NULL)) {
        app_finish(app);
    }
    if (ui_answered(ui, ID_ACTS, NULL)) {
        acts_open(app);
    }
    if (ui_answered(ui, ID_CAUTIONS, NULL)) {
        app->cards.cautions_open = 1;
        app->ui->focus = ID_CARD_OK;
    }
}

/* A notice must not cover what it asks for: when the column is full it stands over the foot of the
 * middle, drawn after all that is there. */
void hands_notice_draw(const App *app)
{
    if (app->laid->notice_in_middle) {
        GfxRect r = app->laid->middle;
        if (r.w < ui_px(app->ui, 220)) { /* no middle to speak of */
            r.w = app->ui->width - 16.0f - r.x;
        }
        ui_layer(app->ui, NULL);
        notice(app, r, 1);
    }
}
