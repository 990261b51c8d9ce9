/* The cautions card: shown before the machine is first switched on, and with F1. It is never left
 * out, whatever the text size. The exercise's own cautions come first, then those of every job. */
#include "app.h"

#include <math.h>

static const char *const always[5] = {
    N_("Dust: wear a mask and eye protection; keep people out of the room."),
    N_("Old wiring, lamps, flues and heaters: nothing may be buried that must stay clear. A "
       "licensed electrician decides about wiring."),
    N_("Old paint and old insulation may hold lead or asbestos: have them checked before "
       "drilling."),
    N_("Fuel-burning appliances need their air: have combustion air tested after the work."),
    N_("Stop when a face bows or a fastener lifts. Never reach into a machine that is jammed and "
       "not unplugged."),
};

/* One caution with its bullet; returns its height. */
static float item(Ui *ui, float x, float y, float w, double size, int is_drawn, const char *text)
{
    GfxColor c = ui->theme->ink;
    if (is_drawn) {
        ui_rect(ui, x, y - ui_px(ui, 7), ui_px(ui, 5), ui_px(ui, 5), ui->theme->warn);
    }
    c.a = is_drawn ? 255 : 0;
    return ui_paragraph(ui, x + ui_px(ui, 16), y, w - ui_px(ui, 16), size, UI_REGULAR, c, text) +
           ui_px(ui, 5);
}

static float list(App *app, float x, float y, float w, double size, int is_drawn)
{
    const PbExercise *e = &app->run.config.exercise;
    float high = 0.0f;
    GfxColor lesson = app->ui.theme->ink;
    lesson.a = is_drawn ? 255 : 0;
    if (app->text_scale >= 1.3 &&
        e->teaches[0] != '\0') { /* the room has no other place for it then */
        high += ui_paragraph(&app->ui, x, y, w, size, UI_BOLD, lesson, _(e->teaches)) +
                ui_px(&app->ui, 6);
    }
    for (int i = 0; i < e->caution_count; i++) {
        high += item(&app->ui, x, y + high, w, size, is_drawn, _(e->cautions[i]));
    }
    for (int i = 0; i < 5; i++) {
        high += item(&app->ui, x, y + high, w, size, is_drawn, _(always[i]));
    }
    return high;
}

static void leave(App *app, int understood)
{
    app->cautions_open = 0;
    app->ui.focus = 0;
    if (understood) {
        app->cautions_seen = 1;
        if (app->on_after_cautions) {
            app_machine(app, 1);
        }
    }
    app->on_after_cautions = 0;
}

void app_card_draw(App *app)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    float w = fminf(ui_px(ui, 640), ui->width - 40.0f), in = ui_px(ui, 24);
    double size = 14.0;
    float most = ui->height - 40.0f - ui_px(ui, 150), high = list(app, 0, 0, w - 2 * in, size, 0);
    while (high > most && size > 9.0) {
        size -= 1.0;
        w = ui->width - 40.0f;
        high = list(app, 0, 0, w - 2 * in, size, 0);
    }
    GfxRect r = {floorf((ui->width - w) * 0.5f), 0.0f, w, high + ui_px(ui, 150)};
    r.y = floorf((ui->height - r.h) * 0.5f);
    ui_layer(ui, NULL);
    ui_rect(ui, 0, 0, ui->width, ui->height, ui_fade(t->paper, 0.78));
    ui_round(ui, r, ui_px(ui, 6), t->warn_wash);
    ui_round_line(ui, r, ui_px(ui, 6), 1.0f, t->warn);
    ui_rect(ui, r.x, r.y, 6.0f, r.h, t->warn);
    float x = r.x + in, y = r.y + ui_px(ui, 38), s = ui_px(ui, 10);
    ui_polygon(ui,
               (UiPoint[3]){{x + s, y - s * 1.5f}, {x + 2 * s, y + s * 0.3f}, {x, y + s * 0.3f}}, 3,
               t->warn);
    ui_label(ui, x + ui_px(ui, 30), y, 20, UI_BOLD, t->warn, UI_LEFT, _("Cautions"));
    list(app, x, y + ui_px(ui, 34), w - 2 * in, size, 1);
    y = r.y + r.h - ui_px(ui, 62);
    ui_label(ui, x, y, 12, UI_REGULAR, t->ink2, UI_LEFT,
             _("For training. Local codes and licensed trades decide real work."));
    const char *ok = app->on_after_cautions ? _("Understood, switch on") : _("Understood");
    GfxRect yes = {r.x + w - in - ui_px(ui, 200), r.y + r.h - ui_px(ui, 48), ui_px(ui, 200),
                   ui_px(ui, 36)};
    GfxRect no = {yes.x - ui_px(ui, 122), yes.y, ui_px(ui, 110), yes.h};
    app_mark(app, "card_ok", yes);
    app_mark(app, "card_back", no);
    int back = ui_button(ui, ID_CARD_BACK, no, _("Back"), 0, 0);
    if (ui_button(ui, ID_CARD_OK, yes, ok, 1, 0)) {
        leave(app, 1);
    } else if (back) {
        leave(app, 0);
    }
}
