/* Runs that no disk has taken yet: what is the matter, once more, or into a folder of one's own
 * choosing. Shown over the whole room while there are any. */
#include "debrief/debrief.h"

#include <stdio.h>

static void retry(App *app)
{
    char why[600] = "";
    if (records_retry(&app->records, why, sizeof why) == 0) {
        debrief_say(app, _("Saved now."), 0);
        debrief_refresh(app);
    } else {
        debrief_say(app, why, 1);
    }
}

static void save(App *app)
{
    Debrief *d = app->debrief;
    char said[1000], text[1100];
    if (records_save_elsewhere(&app->records, d->place, said, sizeof said)) {
        snprintf(text, sizeof text, _("Saved as %s; pullback-cli runs import takes it back."),
                 said);
        debrief_say(app, text, 0);
    } else {
        debrief_say(app, said, 1);
    }
}

float debrief_held_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    int held = app->records.held_count;
    char text[160];
    if (held == 0) {
        return 0.0f;
    }
    float high = ui_px(ui, 30), gap = ui_px(ui, 8), y = r.y + ui_px(ui, 24);
    SDL_snprintf(text, sizeof text,
                 app_plural("%d run could not be saved: the disk or folder will not take it.",
                            "%d runs could not be saved: the disk or folder will not take them.",
                            held),
                 held);
    const GfxColor none = {0, 0, 0, 0};
    float more = ui_paragraph(ui, 0, 0, r.w - 2 * gap, 14, UI_BOLD, none, text) - ui_px(ui, 20);
    y += more;
    ui_round(ui, (GfxRect){r.x, r.y, r.w, ui_px(ui, 66) + more}, ui_px(ui, 6), t->danger_wash);
    ui_paragraph(ui, r.x + gap, r.y + ui_px(ui, 17), r.w - 2 * gap, 14, UI_BOLD, t->danger, text);
    float again = ui_width(ui, 14, UI_BOLD, _("Try again")) + ui_px(ui, 24);
    float there = ui_width(ui, 14, UI_BOLD, _("Save in this folder")) + ui_px(ui, 24);
    GfxRect one = {r.x + gap, y, again, high};
    GfxRect last = {r.x + r.w - gap - there, y, there, high};
    GfxRect place = {one.x + again + gap, y, last.x - gap - (one.x + again + gap), high};
    app_mark(app, "held_retry", one);
    app_mark(app, "held_place", place);
    app_mark(app, "held_save", last);
    char typed[sizeof d->place];
    SDL_strlcpy(typed, d->place, sizeof typed);
    ui_button(ui, ID_D_RETRY, one, _("Try again"), 0, 0);
    ui_text_field(ui, ID_D_PLACE, place, typed, (int)sizeof typed, _("Folder"));
    ui_button(ui, ID_D_PLACE_SAVE, last, _("Save in this folder"), 1, 0);
    return ui_px(ui, 66) + more + gap;
}

void debrief_held_answer(App *app)
{
    const Ui *ui = app->ui;
    double is_entered = 0.0;
    if (ui_answered(ui, ID_D_RETRY, NULL)) {
        retry(app);
    }
    if (ui_answered(ui, ID_D_PLACE, &is_entered)) {
        SDL_strlcpy(app->debrief->place, ui->answer_text, sizeof app->debrief->place);
    }
    if (ui_answered(ui, ID_D_PLACE_SAVE, NULL) || is_entered > 0.5) {
        save(app);
    }
}
