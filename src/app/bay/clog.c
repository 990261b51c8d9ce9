/* A clog while it is cleared: four steps that a crew takes with the machine locked out, told and
 * drawn as the time for it runs. The time is the simulation's; how it is shared out is ours. */
#include "bay/bay.h"

#include <math.h>

/* Share of the whole time at which each step is over. */
static const double over_at[] = {0.2, 0.4, 0.8, 1.0};
enum { STEPS = sizeof over_at / sizeof over_at[0] };

double clog_share(const App *app)
{
    double whole = app->run.config.constants.clear_plug_s;
    double left = app->run.view->signals.clear_left_s;
    return left > 0.0 && whole > 0.0 ? fmin(1.0 - left / whole, 1.0) : -1.0;
}

int clog_step(const App *app)
{
    double s = clog_share(app);
    for (int i = 0; i < STEPS && s >= 0.0; i++) {
        if (s <= over_at[i]) {
            return i + 1;
        }
    }
    return 0;
}

const char *clog_words(const App *app)
{
    static const char *const words[STEPS] = {
        N_("1 of 4: machine off and locked out, so that nobody starts it."),
        N_("2 of 4: wait until the air is down, then open the hose at the coupling."),
        N_("3 of 4: shake out what is stuck. No hand goes into the machine."),
        N_("4 of 4: couple the hose again. Then unlock and switch on."),
    };
    int step = clog_step(app);
    return step > 0 ? _(words[step - 1]) : "";
}

/* How far the hose is apart, 0..1. */
float clog_gap(const App *app)
{
    double s = clog_share(app);
    double opens = (s - over_at[0]) / (over_at[1] - over_at[0]);
    double closes = (1.0 - s) / (1.0 - over_at[2]);
    return s < 0.0 ? 0.0f : (float)fmax(fmin(fmin(opens, closes), 1.0), 0.0);
}

/* What has come out lies under the open end, as much as was stuck. */
void clog_heap_draw(const App *app, float x, float floor_y, float end_y, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double out = (clog_share(app) - over_at[1]) / (over_at[2] - over_at[1]);
    int count = (int)(fmin(app->run.view->signals.hose_load_kg, 1.5) * 160.0);
    float m = (float)px_m;
    for (uint32_t k = 0; k < (uint32_t)count && out > 0.0; k++) {
        double born = (double)ui_scatter(k * 3u + 11u), age = out - born;
        if (age < 0.0) {
            continue;
        }
        float far = 0.12f * m * (2.0f * ui_scatter(k * 5u) - 1.0f);
        float high = 0.09f * m * (1.0f - fabsf(far) / (0.13f * m)) * ui_scatter(k * 5u + 1u);
        float y = app->taste.is_still ? floor_y - high
                                      : fminf(end_y + 12.0f * (float)age * m, floor_y - high);
        float turn = 6.283f * ui_scatter(k * 7u), l = 5.0f + 4.0f * ui_scatter(k * 7u + 1u);
        ui_speck(ui, x + far * fminf(4.0f * (float)age, 1.0f), y, l * cosf(turn),
                 0.5f * l * sinf(turn), 3.0f, k % 3u ? t->wood_ink : t->ink2);
    }
}
