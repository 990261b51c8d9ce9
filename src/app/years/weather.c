/* What the hand is on in Years later besides the rail: the switches of the top band, the weather,
 * and how far the worker is. */
#include "years/years.h"

#include "core/units.h"

#include <math.h>

void years_band_draw(App *app, float x, const char *title, const char *detail)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const char *side = _("Side by side");
    float base = floorf(app_band_row_high(app) * 0.5f + ui_px(ui, 7));
    float high = ui_px(ui, 30), gap = ui_px(ui, 8), end = (float)app->win.width - 16.0f;
    float need = ui_width(ui, 20, UI_BOLD, title) + ui_px(ui, 20);
    float w = ui_width(ui, 14, UI_BOLD, side) + ui_px(ui, 22);
    BandPlan p = app_band_plan(app, x - 16.0f + need, w + gap, app_switches_width(app));
    float right = app_switches_draw(app, end, app_band_y(app, p.switches), high, -1e9f) - gap;
    right = p.switches == p.second ? right : end;
    GfxRect r = {right - w, app_band_y(app, p.second), w, high};
    if (ui_button(ui, ID_YEARS_SIDE, r, side, 0, 0)) {
        app->turn.is_own_wanted = 1;
        app_go(app, SCREEN_SIDE);
    }
    app_mark(app, "side", r);
    right = p.second == 0 ? r.x : end;
    float left = x + ui_label_cut(ui, x, base, right - x - gap, 20, UI_BOLD, t->ink, title);
    left += ui_px(ui, 16);
    if (left + ui_width(ui, 13, UI_REGULAR, detail) + ui_px(ui, 16) < right) {
        ui_label(ui, left, base, 13, UI_REGULAR, t->ink2, UI_LEFT, detail);
    }
    ui_rect(ui, 0.0f, app_band_height(app) - 2.0f, (float)app->win.width, 2.0f, t->ink);
}

static void temperature(App *app, int id, GfxRect r, const char *name, const char *mark, double *c,
                        double low, double high)
{
    Ui *ui = app->ui;
    double share = (*c - low) / (high - low);
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, ui->theme->ink, UI_LEFT, name);
    ui_label(ui, r.x + r.w, r.y + ui_px(ui, 14), 14, UI_BOLD, ui->theme->ink, UI_RIGHT,
             years_fmt_c(app, *c, 0));
    GfxRect track = {r.x + ui_px(ui, 8), r.y + ui_px(ui, 20), r.w - ui_px(ui, 16), ui_px(ui, 22)};
    app_mark(app, mark, track);
    if (ui_slider(ui, id, track, &share, 1.0 / (high - low), -1.0)) {
        *c = floor(low + share * (high - low) + 0.5); /* whole degrees */
    }
}

static void humidity(App *app, Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    char words[YEARS_CLIMATES][24];
    const char *labels[YEARS_CLIMATES];
    for (int i = 0; i < YEARS_CLIMATES; i++) {
        double mean = y->climates[i].bay_rh.mean * 100.0,
               swing = y->climates[i].bay_rh.swing * 100.0;
        if (swing > 0.5) {
            SDL_snprintf(words[i], sizeof words[i], "%.0f–%s", mean - swing,
                         app_fmt(app, 0, mean + swing, "%"));
        } else {
            SDL_snprintf(words[i], sizeof words[i], "%s", app_fmt(app, 0, mean, "%"));
        }
        labels[i] = words[i];
    }
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, ui->theme->ink, UI_LEFT,
             _("Humidity in the fill"));
    GfxRect s = {r.x, r.y + ui_px(ui, 20), r.w, ui_px(ui, 28)};
    y->climate = ui_segments(ui, ID_YEARS_HUMIDITY, s, labels, YEARS_CLIMATES, y->climate);
    app_mark(app, "humidity", s);
}

static void progress(App *app, Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int is_over = years_job_is_over(y->job) && !y->is_stopped && y->restart_at_s <= 0.0;
    int status = SDL_AtomicGet(&y->job->status);
    float button = ui_px(ui, 86);
    GfxRect stop = {r.x + r.w - button, r.y + ui_px(ui, 16), button, ui_px(ui, 30)};
    if (is_over && status == PB_OK) {
        ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, t->ink2, UI_LEFT, _("Figured"));
        return;
    }
    const char *what = is_over         ? _("This bay has no answer")
                       : y->is_stopped ? _("Stopped")
                                       : _("Working");
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, t->ink, UI_LEFT, what);
    GfxRect bar = {r.x, r.y + ui_px(ui, 26), r.w - button - ui_px(ui, 12), ui_px(ui, 10)};
    int goes_on = y->is_stopped || is_over;
    if (rail_work_draw(app, ID_YEARS_STOP, bar, stop, years_job_progress(y->job), goes_on)) {
        if (goes_on) {
            y->restart_at_s = app->program.now_s;
        } else {
            years_job_cancel(y->job);
            y->is_stopped = 1;
        }
    }
}

void years_weather_draw(App *app, Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    float gap = ui_px(ui, 20), w = (r.w - 3.0f * gap) * 0.01f;
    ui_rect(ui, r.x, r.y - ui_px(ui, 3), r.w, 1.0f, ui->theme->rule);
    float x = r.x, top = r.y + ui_px(ui, 2);
    temperature(app, ID_YEARS_OUT, (GfxRect){x, top, 20.0f * w, r.h}, _("Outdoors"), "outdoor",
                &y->outdoor_c, -30.0, 10.0);
    x += 20.0f * w + gap;
    temperature(app, ID_YEARS_IN, (GfxRect){x, top, 20.0f * w, r.h}, _("Indoors"), "indoor",
                &y->room_c, 15.0, 25.0);
    x += 20.0f * w + gap;
    humidity(app, y, (GfxRect){x, top, 34.0f * w, r.h});
    x += 34.0f * w + gap;
    progress(app, y, (GfxRect){x, top, 26.0f * w, r.h});
}

/* Large type: one under the other on a page of their own. */
void years_weather_tab_draw(App *app, Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    float w = fminf(r.w, ui_px(ui, 520)), row = ui_px(ui, 56);
    temperature(app, ID_YEARS_OUT, (GfxRect){r.x, r.y, w, row}, _("Outdoors"), "outdoor",
                &y->outdoor_c, -30.0, 10.0);
    temperature(app, ID_YEARS_IN, (GfxRect){r.x, r.y + row, w, row}, _("Indoors"), "indoor",
                &y->room_c, 15.0, 25.0);
    humidity(app, y, (GfxRect){r.x, r.y + 2.0f * row, w, row});
    progress(app, y, (GfxRect){r.x, r.y + 3.0f * row, w, row});
}
