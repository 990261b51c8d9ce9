/* The guide for newcomers on the screen: the card that offers it, the strip over the middle of the
 * bay room with this step in words, a ring round what to take hold of. Steps: guide.c. */
#include "bay/bay.h"

#include <math.h>
#include <stdio.h>

void guide_start(App *app)
{
    app->guiding.is_seen = 1;
    app_card_open(app, CARD_NONE);
    app_ask(app, ASK_GUIDE, NULL, 0);
}

void guide_stop(App *app)
{
    app->guiding.guide.is_on = 0;
    app->guiding.is_seen = 1;
    app->run.is_part = app->run.config.exercise.must_not_fill[0] != '\0'; /* as any practice now */
}

void guide_frame(App *app)
{
    guide_next(&app->guiding.guide, &app->run.view->signals, app->task.cautions_seen,
               app->run.watched.has_score);
}

typedef struct KeyText {
    char text[32];
} KeyText;

static KeyText key(const App *app, KeyAction action) /* a copy: the name's own room is used again */
{
    KeyText k;
    int is_space = app->keymap.key[action] == SDLK_SPACE;
    snprintf(k.text, sizeof k.text, "%s",
             is_space ? _("Space") : keymap_key_name(&app->keymap, action));
    return k;
}

/* What stands in the way, and what to do about it. */
static const char *need_words(const App *app, GuideNeed need, char *text, size_t size)
{
    switch (need) {
    case GUIDE_NEED_OFF:
        snprintf(text, size,
                 _("The hose is full of cellulose: the stall went on too long. Press %s to switch "
                   "off before the hose is opened."),
                 key(app, KEY_MACHINE).text);
        return _("Clogged: switch off");
    case GUIDE_NEED_CLEAR:
        snprintf(text, size, _("Press %s or choose Clear the clog."), key(app, KEY_CLEAR).text);
        return _("Clogged: clear the hose");
    case GUIDE_NEED_WAIT:
        snprintf(text, size,
                 _("The hose is open and the machine is locked out: %s to go. Then switch on, and "
                   "listen for the stall again."),
                 app_fmt(app, 0, ceil(app->run.view->signals.clear_left_s), "s"));
        return _("The hose is being cleared");
    case GUIDE_NEED_INSIDE:
        snprintf(text, size, _("Cellulose blows out in front of the hole. Hold %s, or switch off."),
                 key(app, KEY_TUBE_IN).text);
        return _("Push the tube in");
    default:
        snprintf(text, size,
                 _("Press %s or choose On. Listen: air first, then the rattle of cellulose."),
                 key(app, KEY_MACHINE).text);
        return _("Switch the machine on");
    }
}

/* What to do now, with the keys as they are set. */
static const char *step_words(const App *app, char *text, size_t size)
{
    const PbSignals *s = &app->run.view->signals;
    GuideNeed need = guide_need(&app->guiding.guide, s);
    int is_heard = guide_hears_fill(&app->guiding.guide, s);
    text[0] = '\0';
    if (need != GUIDE_NEED_NOTHING) {
        return need_words(app, need, text, size);
    }
    switch (app->guiding.guide.step) {
    case GUIDE_CHECKS:
        snprintf(text, size, "%s",
                 _("F1 opens the list. Check off what is done, then choose Understood."));
        return _("Checks before work");
    case GUIDE_TUBE:
        snprintf(text, size,
                 _("Hold %s, drag the tube with the mouse, or push the stick down, until the tube "
                   "end is at the bottom plate."),
                 key(app, KEY_TUBE_IN).text);
        return _("Push the tube in");
    case GUIDE_ON:
        return need_words(app, GUIDE_NEED_ON, text, size);
    case GUIDE_STALL:
        snprintf(
            text, size, "%s",
            !is_heard
                ? _("Air first: cellulose is on its way down the hose. Listen for the rattle.")
                : _("Dense rattle: cellulose is flowing. When it packs tight around the tube end "
                    "the rattle thins, the pitch rises and the needle climbs. That is the stall."));
        return _("Wait for the stall");
    case GUIDE_PULL:
        snprintf(text, size,
                 _("Press %s for {step}, hold %s, or drag the tube. More than {step} leaves a soft "
                   "spot in between."),
                 key(app, KEY_STEP_OUT).text, key(app, KEY_TUBE_OUT).text);
        return _("Stalled: pull back {step}");
    case GUIDE_STALL_2:
        snprintf(text, size, "%s",
                 is_heard ? _("The tube end has room: the rattle is back. Wait until it thins.")
                          : _("Listen: the rattle comes back where the tube end has room."));
        return _("And again: wait");
    case GUIDE_PULL_2:
        snprintf(text, size, _("Press %s, as before. Each stop packs about {step} of the bay."),
                 key(app, KEY_STEP_OUT).text);
        return _("Stalled: pull back {step}");
    case GUIDE_STALL_3:
        snprintf(text, size, "%s",
                 _("Look away from the wall this time: ear and needle are enough. In a real house "
                   "they are all there is."));
        return _("Once more, by ear");
    case GUIDE_OFF:
        snprintf(text, size,
                 _("Half of the bay is packed. Press %s: the machine runs down and the pressure "
                   "bleeds."),
                 key(app, KEY_MACHINE).text);
        return _("Switch off");
    case GUIDE_FINISH:
        snprintf(text, size,
                 _("Press %s. The bay is measured, and you read what was good and what to try."),
                 key(app, KEY_FINISH).text);
        return _("Close the hole");
    case GUIDE_DONE:
    case GUIDE_STEPS:
        break;
    }
    return "";
}

static void progress(Ui *ui, GfxRect r, int step)
{
    float gap = 3.0f, w = (r.w - gap * (float)(GUIDE_DONE - 1)) / (float)GUIDE_DONE;
    for (int i = 0; i < GUIDE_DONE; i++) {
        ui_rect(ui, floorf(r.x + (w + gap) * (float)i), r.y, floorf(w), r.h,
                i <= step ? ui->theme->accent : ui->theme->rule);
    }
}

/* Large type in a small window leaves no middle worth its name: then the strip lies at the foot. */
static int is_at_foot(const App *app)
{
    return app->laid->middle.w < ui_px(app->ui, 280);
}

static float strip(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    char raw[400], head[160];
    GfxColor none = {0, 0, 0, 0};
    if (!app->guiding.guide.is_on || app->guiding.guide.step >= GUIDE_DONE) {
        return 0.0f;
    }
    const char *title = app_said(app, step_words(app, raw, sizeof raw)),
               *skip = _("Skip the guide");
    const char *text = app_said(app, raw);
    snprintf(head, sizeof head, "%d/%d  %s", (int)app->guiding.guide.step + 1, (int)GUIDE_DONE,
             title);
    float in = ui_px(ui, 14), skip_w = ui_width(ui, 14, UI_BOLD, skip) + ui_px(ui, 24);
    int is_under = ui_width(ui, 16, UI_BOLD, head) + skip_w + 3.0f * in > r.w; /* button below */
    float room = r.w - 2 * in - (is_under ? 0.0f : skip_w);
    float words = ui_paragraph(ui, 0, 0, room, 14, UI_REGULAR, none, text);
    float title_high =
        is_under ? ui_paragraph(ui, 0, 0, r.w - 2 * in, 16, UI_BOLD, none, head) : ui_px(ui, 22);
    float button = ui_px(ui, 30);
    float high = ui_px(ui, 14) + title_high + words + ui_px(ui, 12) + (is_under ? button : 0.0f);
    GfxRect box = {r.x, is_at_foot(app) ? r.y + r.h - high : r.y, r.w, high};
    ui_layer(ui, NULL);
    ui_round(ui, box, ui_px(ui, 6), t->accent_wash);
    ui_round_line(ui, box, ui_px(ui, 6), 1.0f, t->accent);
    progress(ui, (GfxRect){box.x + in, box.y + 5.0f, box.w - 2 * in, 3.0f},
             (int)app->guiding.guide.step);
    float y = box.y + ui_px(ui, 28);
    ui_paragraph(ui, box.x + in, y, r.w - 2 * in, 16, UI_BOLD, t->ink, head);
    ui_paragraph(ui, box.x + in, y + title_high, room, 14, UI_REGULAR, t->ink, text);
    GfxRect b = {box.x + box.w - ui_px(ui, 8) - skip_w,
                 is_under ? box.y + high - button - ui_px(ui, 6) : box.y + ui_px(ui, 11), skip_w,
                 button};
    app_mark(app, "guide_skip", b);
    app_mark(app, "guide", box);
    ui_button(ui, ID_GUIDE_SKIP, b, skip, 0, 0);
    return high + ui_px(ui, 10);
}

/* Draws at the top of `r`; returns the height used there. */
float guide_strip_draw(const App *app, GfxRect r)
{
    return is_at_foot(app) ? 0.0f : strip(app, r);
}

void guide_strip_answer(App *app)
{
    if (ui_answered(app->ui, ID_GUIDE_SKIP, NULL)) {
        guide_stop(app);
    }
}

/* Round what this step is about, and the strip when it lies over other things; drawn last. */
void guide_ring_draw(const App *app)
{
    static const char *const places[GUIDE_STEPS] = {
        [GUIDE_CHECKS] = "cautions", [GUIDE_TUBE] = "tube",   [GUIDE_ON] = "machine",
        [GUIDE_STALL] = "comb",      [GUIDE_PULL] = "tube",   [GUIDE_STALL_2] = "comb",
        [GUIDE_PULL_2] = "tube",     [GUIDE_STALL_3] = "fan", [GUIDE_OFF] = "machine",
        [GUIDE_FINISH] = "finish"};
    static const char *const needed[GUIDE_NEEDS] = {[GUIDE_NEED_ON] = "machine",
                                                    [GUIDE_NEED_OFF] = "machine",
                                                    [GUIDE_NEED_CLEAR] = "clear",
                                                    [GUIDE_NEED_WAIT] = "clear",
                                                    [GUIDE_NEED_INSIDE] = "tube"};
    Ui *ui = app->ui;
    const Guide *g = &app->guiding.guide;
    if (!g->is_on || g->step >= GUIDE_DONE) {
        return;
    }
    GuideNeed need = guide_need(g, &app->run.view->signals);
    const AppMark *m = app_mark_find(app, needed[need] != NULL ? needed[need] : places[g->step]);
    if (m != NULL) {
        GfxRect r = {m->rect.x - 4.0f, m->rect.y - 4.0f, m->rect.w + 8.0f, m->rect.h + 8.0f};
        ui_layer(ui, NULL);
        ui_round_line(ui, r, ui_px(ui, 8), 3.0f, ui->theme->accent);
    }
    if (is_at_foot(app)) {
        GfxRect foot = app->laid->middle;
        foot.w = ui->width - 16.0f - foot.x;
        strip(app, foot);
    }
}

/* Opens by itself the first time, and from the Door. */
void guide_card_draw(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    GfxColor none = {0, 0, 0, 0};
    const char *text =
        app_said(app, _("A few minutes: push a tube into a wall bay, hear it stall, pull back "
                        "{step}, and pack half of the bay. Each step waits for you. Quit any time; "
                        "it is on the start screen under Guide."));
    float wide = fminf(ui_px(ui, 560), ui->width - 32.0f) - 2.0f * ui_px(ui, 24);
    float words = ui_paragraph(ui, 0, 0, wide, 15, UI_REGULAR, none, text);
    GfxRect at = app_card_plate(app, ui_px(ui, 560), ui_px(ui, 68 + 24 + 36 + 36 + 34) + words,
                                _("New here?"));
    ui_paragraph(ui, at.x, at.y + ui_px(ui, 12), at.w, 15, UI_REGULAR, t->ink, text);
    const char *languages[WORDS_MOST];
    float high = ui_px(ui, 36), gap = ui_px(ui, 10), w = (at.w - gap) * 0.5f;
    GfxRect no = {at.x, at.y + at.h - high, w, high}, yes = {no.x + w + gap, no.y, w, high};
    GfxRect which = {at.x, no.y - high - gap, at.w, high};
    ui_segments(ui, ID_OVER_A, which, languages, app_language_names(languages), app->taste.lang);
    app_mark(app, "set_lang", which);
    app_mark(app, "card_close", no);
    app_mark(app, "card_ok", yes);
    ui_button(ui, ID_OVER_CLOSE, no, _("Skip"), 0, 0);
    ui_button(ui, ID_OVER_OK, yes, _("Start the guide"), 1, 0);
}

void guide_card_answer(App *app)
{
    double lang;
    if (ui_answered(app->ui, ID_OVER_A, &lang)) {
        app_language(app, (int)lang);
    }
    if (ui_answered(app->ui, ID_OVER_OK, NULL)) {
        guide_start(app);
    } else if (ui_answered(app->ui, ID_OVER_CLOSE, NULL)) {
        guide_stop(app);
        app_card_open(app, CARD_NONE);
    }
}
