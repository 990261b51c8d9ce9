/* What the hand is on in Years later besides the rail: the switches of the top band, the weather,
 * and how far the worker is. */
#include "years/years.h"

#include "core/units.h"

#include <math.h>

void years_band_draw(const App *app, float x, const char *title, const char *detail)
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
    ui_button(ui, ID_YEARS_SIDE, r, side, 0, 0);
    app_mark(app, "side", r);
    right = p.second == 0 ? r.x : end;
    float left = x + ui_label_cut(ui, x, base, right - x - gap, 20, UI_BOLD, t->ink, title);
    left += ui_px(ui, 16);
    if (left + ui_width(ui, 13, UI_REGULAR, detail) + ui_px(ui, 16) < right) {
        ui_label(ui, left, base, 13, UI_REGULAR, t->ink2, UI_LEFT, detail);
    }
    ui_rect(ui, 0.0f, app_band_height(app) - 2.0f, (float)app->win.width, 2.0f, t->ink);
}

/* A temperature that is moved: its words, its mark, its ends. */
typedef struct Slider {
    int id;
    const char *name, *mark;
    double low_c, high_c;
} Slider;

static const Slider outdoors = {ID_YEARS_OUT, N_("Outdoors"), "outdoor", -30.0, 10.0};
static const Slider indoors = {ID_YEARS_IN, N_("Indoors"), "indoor", 15.0, 25.0};

static void temperature(const App *app, const Slider *s, GfxRect r, double c)
{
    Ui *ui = app->ui;
    double span_c = s->high_c - s->low_c, share = (c - s->low_c) / span_c;
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, ui->theme->ink, UI_LEFT, _(s->name));
    ui_label(ui, r.x + r.w, r.y + ui_px(ui, 14), 14, UI_BOLD, ui->theme->ink, UI_RIGHT,
             years_fmt_c(app, c, 0));
    GfxRect track = {r.x + ui_px(ui, 8), r.y + ui_px(ui, 20), r.w - ui_px(ui, 16), ui_px(ui, 22)};
    app_mark(app, s->mark, track);
    ui_slider(ui, s->id, track, share, 1.0 / span_c, -1.0);
}

/* 1 = it is another one now. */
static int temperature_answer(const Ui *ui, const Slider *s, double *c)
{
    double share, was_c = *c;
    if (ui_answered(ui, s->id, &share)) {
        *c = floor(s->low_c + share * (s->high_c - s->low_c) + 0.5); /* whole degrees */
    }
    return fabs(*c - was_c) > 1e-9;
}

static void humidity(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    char words[IO_CLIMATES][24];
    const char *labels[IO_CLIMATES];
    for (int i = 0; i < y->climate_count; i++) {
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
    ui_segments(ui, ID_YEARS_HUMIDITY, s, labels, y->climate_count, y->climate);
    app_mark(app, "humidity", s);
}

/* Is what was asked for last over, and not because it was stopped? */
static int is_over(const Years *y)
{
    return years_job_is_over(y->job) && !y->is_stopped && y->restart_at_s <= 0.0;
}

static void progress(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int has_ended = is_over(y), status = SDL_AtomicGet(&y->job->status);
    float button = ui_px(ui, 86);
    GfxRect stop = {r.x + r.w - button, r.y + ui_px(ui, 16), button, ui_px(ui, 30)};
    if (has_ended && status == PB_OK) {
        ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, t->ink2, UI_LEFT, _("Figured"));
        return;
    }
    const char *what = has_ended       ? _("This bay has no answer")
                       : y->is_stopped ? _("Stopped")
                                       : _("Working");
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 14, UI_REGULAR, t->ink, UI_LEFT, what);
    GfxRect bar = {r.x, r.y + ui_px(ui, 26), r.w - button - ui_px(ui, 12), ui_px(ui, 10)};
    rail_work_draw(app, ID_YEARS_STOP, bar, stop, years_job_progress(y->job),
                   y->is_stopped || has_ended);
}

void years_weather_draw(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    float gap = ui_px(ui, 20), w = (r.w - 3.0f * gap) * 0.01f;
    ui_rect(ui, r.x, r.y - ui_px(ui, 3), r.w, 1.0f, ui->theme->rule);
    float x = r.x, top = r.y + ui_px(ui, 2);
    temperature(app, &outdoors, (GfxRect){x, top, 20.0f * w, r.h}, y->outdoor_c);
    x += 20.0f * w + gap;
    temperature(app, &indoors, (GfxRect){x, top, 20.0f * w, r.h}, y->room_c);
    x += 20.0f * w + gap;
    humidity(app, y, (GfxRect){x, top, 34.0f * w, r.h});
    x += 34.0f * w + gap;
    progress(app, y, (GfxRect){x, top, 26.0f * w, r.h});
}

/* Large type: one under the other on a page of their own. */
void years_weather_tab_draw(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    float w = fminf(r.w, ui_px(ui, 520)), row = ui_px(ui, 56);
    temperature(app, &outdoors, (GfxRect){r.x, r.y, w, row}, y->outdoor_c);
    temperature(app, &indoors, (GfxRect){r.x, r.y + row, w, row}, y->room_c);
    humidity(app, y, (GfxRect){r.x, r.y + 2.0f * row, w, row});
    progress(app, y, (GfxRect){r.x, r.y + 3.0f * row, w, row});
}

void years_weather_answer(App *app, Years *y)
{
    static const double settle_s = 0.2; /* a slider rests so long before the worker starts again */
    const Ui *ui = app->ui;
    double chosen;
    int is_moved = temperature_answer(ui, &outdoors, &y->outdoor_c);
    is_moved |= temperature_answer(ui, &indoors, &y->room_c);
    if (ui_answered(ui, ID_YEARS_HUMIDITY, &chosen)) {
        is_moved |= y->climate != (int)chosen;
        y->climate = (int)chosen;
    }
    if (is_moved) {
        y->restart_at_s = app->program.now_s + settle_s;
    }
    if (ui_answered(ui, ID_YEARS_STOP, NULL)) {
        if (y->is_stopped || is_over(y)) {
            y->restart_at_s = app->program.now_s;
        } else {
            years_job_cancel(y->job);
            y->is_stopped = 1;
        }
    }
}
