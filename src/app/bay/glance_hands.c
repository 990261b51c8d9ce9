/* What hands do most, under the instruments of the bay at a glance: pull a step, the tube, then a
 * row of acts for each two of them. Sliders of blower and feed are behind "All the rest". */
#include "bay/bay.h"

#include <math.h>

typedef struct Act {
    int id;
    const char *mark, *name, *value;
    int key;
    int is_disabled;
} Act;
enum { ACTS = 8 };

/* What can be done now besides moving the tube, in the order of the Tab key. */
static int acts_now(const App *app, Act *act)
{
    const PbSignals *s = &app->run.view->signals;
    int n = 0, bleeds = app->run.view->phase == PB_PHASE_BLEEDING;
    act[n++] = (Act){ID_SWITCH,    "machine",
                     _("Machine"), s->machine_on ? _("On") : _("Off"),
                     KEY_MACHINE,  s->clear_left_s > 0.0};
    act[n++] = (Act){ID_TURN_OVER, "turn", _("Tube end"), s->direction > 0 ? _("Up") : _("Down"),
                     KEY_TURN,     0};
    if (s->plugged) {
        act[n++] =
            (Act){ID_CLEAR, "clear", _("Clear the clog"), "", KEY_CLEAR, s->clear_left_s > 0.0};
    }
    act[n++] = (Act){ID_FINISH, "finish",   bleeds ? _("Pressure bleeding") : _("Plug, finish"),
                     "",        KEY_FINISH, bleeds};
    act[n++] = (Act){ID_ACTS, "acts", _("More acts"), "", KEY_ACTS, bleeds};
    act[n++] = (Act){ID_FULL, "rest", _("All the rest"), "", KEY_ALL_THE_REST, 0};
    return n;
}

static float act_width(Ui *ui, const Act *a)
{
    return ui_width(ui, 14, UI_BOLD, a->name) +
           (a->value[0] ? ui_px(ui, 8) + ui_width(ui, 14, UI_REGULAR, a->value) : 0.0f) +
           2.0f * ui_px(ui, 12);
}

static float cap_width(Ui *ui, const char *text)
{
    return ui_width(ui, 11, UI_BOLD, text) + ui_px(ui, 22);
}

/* Acts beside each other: two where their words fit, else one. */
static int columns(const App *app, float wide)
{
    Act act[ACTS];
    int n = acts_now(app, act);
    float half = (wide - ui_px(app->ui, 8)) * 0.5f;
    for (int i = 0; i < n; i++) {
        if (act_width(app->ui, &act[i]) > half) {
            return 1;
        }
    }
    return 2;
}

static void act_draw(const App *app, const Act *a, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    ui_button(ui, a->id, r, "", 0, a->is_disabled);
    app_mark(app, a->mark, r);
    int is_held = ui->active == a->id && ui->hot == a->id;
    float base = r.y + r.h * 0.5f + ui_px(ui, 5), x = r.x + ui_px(ui, 12);
    GfxColor c = a->is_disabled ? t->ink2 : is_held ? t->sheet : t->ink;
    x += ui_label(ui, x, base, 14, UI_BOLD, c, UI_LEFT, a->name) + ui_px(ui, 8);
    if (a->value[0]) {
        x += ui_label(ui, x, base, 14, UI_REGULAR, c, UI_LEFT, a->value) + ui_px(ui, 8);
    }
    const char *cap = hands_cap(app, a->key);
    float w = cap_width(ui, cap);
    if (x + w <= r.x + r.w) {
        ui_key(ui, r.x + r.w - w + ui_px(ui, 4), r.y + (r.h - ui_px(ui, 18)) * 0.5f, cap);
    }
}

/* The one thing that is done over and over. */
static void pull_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const char *words = app_said(app, _("Pull {step}")), *cap = hands_cap(app, KEY_STEP_OUT);
    ui_button(ui, ID_PULL, r, words, 1, 0);
    app_mark(app, "pull", r);
    float w = cap_width(ui, cap), half = ui_width(ui, 14, UI_BOLD, words) * 0.5f;
    if (half + w + ui_px(ui, 16) < r.w * 0.5f) {
        ui_key(ui, r.x + r.w * 0.5f + half + ui_px(ui, 14), r.y + (r.h - ui_px(ui, 18)) * 0.5f,
               cap);
    }
}

static double tube_whole_m(const App *app)
{
    return fmax(run_tube_max(&app->run), 0.05);
}

static void tube_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double max = tube_whole_m(app), in = run_tube_in(&app->run);
    const char *value =
        app->run.view->signals.tube_in_m < -0.01 ? _("outside") : app_fmt_length(app, in);
    double share =
        ui->active == ID_TUBE && app->bay->tube_want_m >= 0.0 ? app->bay->tube_want_m : in;
    ui_round(ui, r, ui_px(ui, 6), t->sheet);
    ui_round_line(ui, r, ui_px(ui, 6), 1.0f, t->edge);
    float base = r.y + ui_px(ui, 20), x = r.x + ui_px(ui, 12), right = r.x + r.w - ui_px(ui, 8);
    x += ui_label(ui, x, base, 14, UI_BOLD, t->ink, UI_LEFT, _("Tube in")) + ui_px(ui, 8);
    x += ui_label(ui, x, base, 14, UI_REGULAR, t->ink, UI_LEFT, value) + ui_px(ui, 8);
    static const int keys[2] = {KEY_TUBE_IN, KEY_TUBE_OUT}; /* from the right: out, in */
    const char *caps[2] = {hands_cap(app, keys[0]), NULL};
    float first = cap_width(ui, caps[0]) - ui_px(ui, 4);
    if (x + 2.0f * first + ui_px(ui, 4) <= right) {
        ui_key(ui, right - first, r.y + ui_px(ui, 4), caps[0]);
        caps[1] = hands_cap(app, keys[1]);
        ui_key(ui, right - first - ui_px(ui, 4) - (cap_width(ui, caps[1]) - ui_px(ui, 4)),
               r.y + ui_px(ui, 4), caps[1]);
    }
    GfxRect track = {r.x + ui_px(ui, 16), r.y + ui_px(ui, 28), r.w - ui_px(ui, 32), ui_px(ui, 22)};
    ui_slider(ui, ID_TUBE, track, fmin(share / max, 1.0), 0.025 / max, -1.0);
    app_mark(app, "tube", track);
}

float glance_hands_high(const App *app, float wide)
{
    Ui *ui = app->ui;
    Act act[ACTS];
    int n = acts_now(app, act), across = columns(app, wide);
    int rows = (n + across - 1) / across;
    return ui_px(ui, 40) + ui_px(ui, 8) + ui_px(ui, 58) +
           (float)rows * (ui_px(ui, 8) + ui_px(ui, 34));
}

void glance_hands_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    Act act[ACTS];
    float gap = ui_px(ui, 8), y = r.y;
    pull_draw(app, (GfxRect){r.x, y, r.w, ui_px(ui, 40)});
    y += ui_px(ui, 40) + gap;
    tube_draw(app, (GfxRect){r.x, y, r.w, ui_px(ui, 58)});
    y += ui_px(ui, 58) + gap;
    int n = acts_now(app, act), across = columns(app, r.w);
    float half = across == 2 ? floorf((r.w - gap) * 0.5f) : r.w;
    for (int i = 0; i < n; i++) {
        int is_last_alone = across == 2 && i == n - 1 && i % 2 == 0;
        GfxRect at = {r.x + (float)(i % across) * (half + gap), y, is_last_alone ? r.w : half,
                      ui_px(ui, 34)};
        act_draw(app, &act[i], at);
        y += i % across == across - 1 ? ui_px(ui, 34) + gap : 0.0f;
    }
}

void glance_answer(App *app)
{
    const Ui *ui = app->ui;
    const PbSignals *s = &app->run.view->signals;
    double v;
    if (ui_answered(ui, ID_TUBE, &v)) {
        app_tube_to(app, v * tube_whole_m(app));
    }
    if (ui_answered(ui, ID_PULL, NULL)) {
        bay_pull(app);
    }
    if (ui_answered(ui, ID_TURN_OVER, NULL)) {
        bay_turn(app, s->direction > 0 ? -1 : 1);
    }
    if (ui_answered(ui, ID_SWITCH, NULL)) {
        app_machine(app, !s->machine_on);
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
