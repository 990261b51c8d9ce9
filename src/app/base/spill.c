/* Fill that comes out of the hole into the room: a ring round the hole, and tufts that are thrown
 * and fall. In every view, since everybody in the room sees it. */
#include "base/spill.h"

#include <math.h>
#include <stdio.h>

static float share(double x)
{
    return (float)(x - floor(x));
}

void spill_draw(Ui *ui, const PbSignals *s, float x, float y, double px_m, double now_s)
{
    const UiTheme *t = ui->theme;
    if (!s->spilling) {
        return;
    }
    int count = (int)fmin(8.0 + 1500.0 * s->spill_kg_s, 60.0);
    float m = (float)px_m;
    for (int k = 0; k < count; k++) {
        float age_s = 0.9f * share(now_s * 1.1 + k * 0.618), angle = 2.39996f * (float)k;
        float speed = 0.25f + 0.5f * share(k * 0.37);
        float aside = speed * cosf(angle), up = 0.4f + speed * sinf(angle);
        float fall = 2.5f * age_s; /* tufts: slower than stones */
        ui_speck(ui, x + aside * age_s * m, y - (up - 0.5f * fall) * age_s * m, 5.0f * aside,
                 -5.0f * (up - fall), 2.5f, k % 3 ? t->ink2 : t->warn);
    }
    ui_arc(ui, x, y, fmaxf(0.05f * m, 13.0f), 0.0, 6.2831853, 3.0f, t->warn);
}

void holes_draw(Ui *ui, const PbHole *holes, int count, const PbActs *acts, UiPoint corner,
                double px_m)
{
    const UiTheme *t = ui->theme;
    for (int h = 0; h < count; h++) {
        float x = corner.x + (float)(holes[h].x_m * px_m);
        float y = corner.y - (float)(holes[h].y_m * px_m);
        float r = fmaxf((float)(holes[h].bore_m * 0.5 * px_m), 6.0f);
        char number[12];
        if (h == acts->hole) {
            continue;
        }
        ui_circle(ui, x, y, r, t->ink);
        if (!acts->is_hole_open[h]) {
            ui_circle(ui, x, y, r - 2.0f, t->well);
        }
        snprintf(number, sizeof number, "%d", h + 1);
        ui_label(ui, x + r + ui_px(ui, 4), y + ui_px(ui, 5), 13, UI_BOLD, t->ink, UI_LEFT, number);
    }
}
