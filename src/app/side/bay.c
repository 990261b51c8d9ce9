/* One bay of Side by side, upright and in true proportion: boards, what fills it, studs and plates.
 * Foam has a look of its own, so that nobody compares its weight with cellulose; its gaps and
 * cracks are at their true size, never thinner than a line. */
#include "side/side.h"

#include <math.h>

static void cellulose(const App *app, PbCompareFill fill, GfxRect r)
{
    const Side *s = app->side;
    if (s->nx == 0 || s->wide[fill] == 0) {
        return;
    }
    /* From the middle of the outermost cells: the neighbour in the texture must not bleed in. */
    float from = ((float)s->at[fill] + 0.5f) / (float)s->nx;
    float to = ((float)(s->at[fill] + s->wide[fill]) - 0.5f) / (float)s->nx;
    ui_layer(app->ui, &r);
    ui_field(app->ui, (GfxField){.rect = r,
                                 .u0 = from,
                                 .v0 = 0.0f,
                                 .u1 = to,
                                 .v1 = (float)s->tall[fill] / (float)s->ny,
                                 .target_kg_m3 = (float)app->side->shown_house.bay.target_kg_m3,
                                 .hatch_pitch_px = 7.0f,
                                 .line_px = 0.35f});
    ui_layer(app->ui, NULL);
}

/* Loose fill of before the work, to its share of the height: grey, since nobody knows its weight.
 */
static void old_fill(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const PbCavity *cavity = &app->side->shown_house.cavity;
    if (cavity->now != PB_CAVITY_LOOSE) {
        return;
    }
    float high = floorf(r.h * (float)cavity->share), top = r.y + r.h - high;
    ui_rect(ui, r.x, top, r.w, high, ui_fade(ui->theme->ink2, 0.45));
    for (uint32_t k = 0; k < 160; k++) {
        float size = 1.5f + 2.5f * ui_scatter(k * 3u + 5u);
        ui_rect(ui, r.x + (r.w - size) * ui_scatter(k * 3u + 3u),
                top + (high - size) * ui_scatter(k * 3u + 4u), size, size,
                ui_fade(ui->theme->ink, 0.35));
    }
}

/* A gap of this many metres in pixels: none under 0.2 mm, a line at least. */
static float gap_px(double gap_m, double px_m)
{
    return gap_m < 0.0002 ? 0.0f : fmaxf((float)(gap_m * px_m), 1.5f);
}

/* A crack from one side of the foam to the other, a little wavy. */
static void crack(Ui *ui, UiPoint a, UiPoint b, float width, uint32_t seed)
{
    enum { PIECES = 13 };
    UiPoint p[PIECES];
    float dx = b.x - a.x, dy = b.y - a.y, length = hypotf(dx, dy), sway = 3.5f;
    for (int i = 0; i < PIECES; i++) {
        float s = (float)i / (PIECES - 1);
        float o = sway * sinf(6.0f * s + 6.283f * ui_scatter(seed)) +
                  1.5f * (ui_scatter(seed * 17u + (uint32_t)i) - 0.5f);
        p[i] = (UiPoint){a.x + dx * s - o * dy / length, a.y + dy * s + o * dx / length};
    }
    ui_polyline(ui, p, PIECES, width, ui->theme->ink2);
}

static void foam_cracks(Ui *ui, const PbFoamState *foam, GfxRect in, GfxRect block, double px_m)
{
    for (int i = 0; i < foam->across_count; i++) {
        float w = gap_px(foam->across[i].open_m, px_m);
        float y = in.y + in.h - (float)(foam->across[i].at_m * px_m);
        if (w > 0.0f && y > block.y && y < block.y + block.h) {
            crack(ui, (UiPoint){block.x, y}, (UiPoint){block.x + block.w, y}, w, 51u + (uint32_t)i);
        }
    }
    for (int i = 0; i < foam->along_count; i++) {
        float w = gap_px(foam->along[i].open_m, px_m);
        float x = in.x + (float)(foam->along[i].at_m * px_m);
        if (w > 0.0f && x > block.x && x < block.x + block.w) {
            crack(ui, (UiPoint){x, block.y}, (UiPoint){x, block.y + block.h}, w,
                  151u + (uint32_t)i);
        }
    }
}

static void foam(const App *app, GfxRect r, double px_m)
{
    static const GfxColor body = {0xE4, 0xE2, 0xDC, 255};
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    int f = 0;
    while (f + 1 < s->shown->frame_count && s->shown->frame_years[f + 1] <= s->rail.years + 1e-9) {
        f++;
    }
    const PbFoamState *now = pb_compare_foam(s->shown->compare, f);
    if (now == NULL) {
        return;
    }
    float left = gap_px(now->stud_gap_m[0], px_m), right = gap_px(now->stud_gap_m[1], px_m);
    float low = gap_px(now->plate_gap_m[0], px_m), top = gap_px(now->plate_gap_m[1], px_m);
    GfxRect block = {r.x + left, r.y + top, r.w - left - right, r.h - low - top};
    ui_layer(ui, &r);
    ui_rect(ui, r.x, r.y, r.w, r.h, ui_fade(t->ink, 0.82)); /* a gap is dark: nothing is in it */
    ui_rect(ui, block.x, block.y, block.w, block.h, body);
    for (uint32_t k = 0; k < 90; k++) {
        float size = 1.5f + 2.0f * ui_scatter(k * 3u + 9u);
        ui_rect(ui, block.x + (block.w - size) * ui_scatter(k * 3u + 7u),
                block.y + (block.h - size) * ui_scatter(k * 3u + 8u), size, size,
                ui_fade(t->edge, 0.55));
    }
    foam_cracks(ui, now, r, block, px_m);
    ui_layer(ui, NULL);
}

void side_bay_draw(const App *app, PbCompareFill fill, GfxRect r, double px_m, float stud)
{
    char mark[16];
    wall_boards_draw(app, &app->side->shown_house.bay, r, 0.0, app->side->shown_house.bay.height_m,
                     px_m);
    if (fill == PB_COMPARE_FOAM) {
        foam(app, r, px_m);
    } else if (fill != PB_COMPARE_EMPTY) {
        cellulose(app, fill, r);
    } else if (!side_is_stale(app->side, PB_COMPARE_EMPTY)) {
        old_fill(app, r);
    }
    wall_blocks_draw(app, &app->side->shown_house.bay, r, 0.0, 0.0, px_m);
    wall_frame_draw(app, r, stud);
    SDL_snprintf(mark, sizeof mark, "bay_%d", (int)fill + 1);
    app_mark(app, mark, r);
}

void side_legend_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    char words[160];
    float wide = fminf(ui_px(ui, 360), r.w * 0.34f), high = ui_px(ui, 13);
    legend_draw(app, app->side->shown_house.bay.target_kg_m3,
                (GfxRect){r.x + 2.0f, r.y, wide, high});
    SDL_snprintf(words, sizeof words, _("%s; hatched = under target;  1 = a full dense pack"),
                 app_unit(app, IO_UNIT_DENSITY));
    float x = r.x + wide + ui_px(ui, 16);
    GfxRect at = {x, r.y - ui_px(ui, 6), r.x + r.w - x, ui_px(ui, 28)};
    ui_words(ui, at, 13, UI_REGULAR, ui->theme->ink2, UI_LEFT, words);
}
