/* Pack the bay: the band, then the bay at a glance or everything that it has (F4), and what was
 * done in either. What is in each stands in its own file. */
#include "bay/bay.h"

#include <math.h>

/* Title and what goes with every room, then the switches of this one, then the exercise's name
 * where there is still room. Returns the height of the row that the switches needed. */
float bay_band(const App *app)
{
    Ui *ui = app->ui;
    const char *title = _("Pack the bay"), *detail = app_bay_title(app);
    if (app->laid->text_scale > 1.4 && ui->width < ui_px(ui, 660)) {
        title = _("Bay"); /* a second row would be the wall's */
    }
    app_top_band(app, title, "");
    const AppMark *door = app_mark_find(app, "door");
    float start = door != NULL ? door->rect.x + door->rect.w : 0.0f;
    float left = start + ui_width(ui, 20, UI_BOLD, title) + 2.0f * ui_px(ui, 16);
    float strip = sight_switch_draw(app, left, app->laid->middle);
    const AppMark *next = app_mark_find(app, strip > 0.0f ? "size" : "sound");
    float right = next != NULL ? next->rect.x : ui->width;
    if (left + ui_width(ui, 13, UI_REGULAR, detail) + ui_px(ui, 12) < right) {
        float base = floorf(app_band_row_high(app) * 0.5f + ui_px(ui, 7));
        ui_label(ui, left, base, 13, UI_REGULAR, ui->theme->ink2, UI_LEFT, detail);
    }
    return strip;
}

static void lay_out(const App *app)
{
    if (app->bay->is_full && !broke_is_on(app)) {
        full_draw(app);
    } else {
        glance_draw(app);
    }
    guide_ring_draw(app);
}

static void answer(App *app)
{
    double tab;
    if (app->bay->is_full) {
        full_answer(app);
    } else {
        glance_answer(app);
    }
    sight_answer(app);
    guide_strip_answer(app);
    if (ui_answered(app->ui, ID_GAUGES, &tab)) {
        app->bay->gauge_tab = (int)tab;
    }
    if (ui_answered(app->ui, ID_QUICKER, NULL)) {
        quick_turn(app);
    }
    if (ui_answered(app->ui, ID_FULL, NULL)) {
        bay_turn_over(app);
    }
}

static GfxFieldData field(App *app)
{
    return run_field(&app->run);
}

static int moves(const App *app)
{
    return (app_has_run(app) && !app->task.is_paused && !app_is_covered(app)) || broke_is_on(app);
}

const Screen scr_bay = {.leave = bay_let_go,
                        .update = bay_update,
                        .lay = lay_out,
                        .answer = answer,
                        .input = bay_input,
                        .field = field,
                        .moves = moves,
                        .word = "bay",
                        .title = N_("Pack the bay")};
