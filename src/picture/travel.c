/* Height of the mouth against time: rules, stops, trace. */
#include "picture/travel.h"

#include "list.h"

#include "core/units.h"

#include <math.h>

enum { POINTS = 500 };

float pic_travel_x(const PicTravel *t, double time_s)
{
    return t->area.x + (float)((time_s - t->from_s) / t->span_s) * t->area.w;
}

float pic_travel_y(const PicTravel *t, double height_m)
{
    return (float)(t->bottom - height_m * t->px_m);
}

double pic_travel_rule_m(int is_us)
{
    return is_us ? 2.0 * PB_M_PER_FT : 0.5;
}

void pic_travel_rules(GfxShapes *list, const PicGround *g, const PicTravel *t, int is_us)
{
    double unit = pic_travel_rule_m(is_us);
    for (int k = 0; k * unit < t->height_m; k++) {
        float y = pic_snap(g, pic_travel_y(t, k * unit));
        pic_box(list, (GfxRect){t->area.x, y, t->area.w, g->line}, GFX_RULE);
    }
}

/* As high as its step; a first stop, or one far from the last, as high as a hand's reach. */
static GfxRect block_of(const PicGround *g, const PicTravel *t, const PbLift *l)
{
    double reach = l->step_m > 0.05 && l->step_m < 0.6 ? 0.5 * l->step_m : 0.15;
    float x0 = pic_travel_x(t, fmax(l->from_s, t->from_s)), x1 = pic_travel_x(t, l->to_s);
    float y1 = pic_travel_y(t, fmin(l->mouth_y_m + reach, t->height_m));
    float y0 = pic_travel_y(t, fmax(l->mouth_y_m - reach, 0.0));
    return (GfxRect){x0, y1, fmaxf(x1 - x0, 3.0f * g->line), y0 - y1};
}

/* The figures of one stop, and where the last ones stood beside theirs. */
typedef struct Figures {
    char density[64], stop[64];
    float wide;
    GfxPoint last;
} Figures;

static void put(GfxShapes *list, const PicGround *g, const Figures *f, GfxPoint at, GfxAlign align,
                int is_soft)
{
    pic_text(list, at, 14.0f, 1, align, is_soft ? GFX_DANGER : GFX_INK, f->density);
    at.y += pic_px(g, 15);
    pic_text(list, at, 12.0f, 0, align, GFX_INK2, f->stop);
}

/* At the right of the stop, else at its left: the stops before and after it are higher or lower. */
static void put_beside(GfxShapes *list, const PicGround *g, const PicTravel *t, Figures *f,
                       GfxRect b, const PbLift *l)
{
    float in = pic_px(g, 4), right = t->area.x + t->area.w;
    int is_left = b.x + b.w + in + f->wide > right;
    GfxPoint at = {is_left ? b.x - in : b.x + b.w + in,
                   pic_travel_y(t, l->mouth_y_m) - (is_left ? -pic_px(g, 14) : pic_px(g, 6))};
    float down = at.y + (f->stop[0] != '\0' ? pic_px(g, 15) : 0.0f);
    if (down > (float)t->bottom || (is_left && at.x - f->wide < t->area.x) ||
        (fabsf(at.x - f->last.x) < f->wide && fabsf(at.y - f->last.y) < pic_px(g, 34))) {
        return; /* the bay and the list of stops have them */
    }
    put(list, g, f, at, is_left ? GFX_RIGHT : GFX_LEFT, l->density_kg_m3 < t->target_kg_m3);
    f->last = at;
}

static void figures(GfxShapes *list, const PicGround *g, const PicTravel *t, int i,
                    PicStopFigures kind, Figures *f)
{
    const PbLift *l = &t->lifts[i];
    GfxRect b = block_of(g, t, l);
    g->figure(g->user, PIC_DENSITY, l->density_kg_m3, f->density, sizeof f->density);
    f->stop[0] = '\0';
    if (kind == PIC_FIGURES_NUMBERED) {
        g->figure(g->user, PIC_STOP, i + 1.0, f->stop, sizeof f->stop);
    }
    f->wide = fmaxf(g->width(g->user, f->density, 14.0f, 1), g->width(g->user, f->stop, 12.0f, 0));
    float high = pic_px(g, kind == PIC_FIGURES_NUMBERED ? 40 : 34);
    if (b.w <= f->wide + 6.0f * g->line || b.h <= high) {
        if (kind != PIC_FIGURES_INSIDE) {
            put_beside(list, g, t, f, b, l);
        }
        return;
    }
    GfxPoint at = {b.x + b.w * 0.5f, pic_travel_y(t, l->mouth_y_m) - pic_px(g, 6)};
    at.y += at.y - pic_px(g, 12) < b.y || f->stop[0] != '\0' ? pic_px(g, 24) : 0.0f;
    put(list, g, f, at, GFX_CENTRE, l->density_kg_m3 < t->target_kg_m3);
}

void pic_travel_stops(GfxShapes *list, const PicGround *g, const PicTravel *t, PicStopFigures kind)
{
    Figures f = {.last = {-1e9f, 0.0f}};
    for (int i = 0; i < t->lift_count; i++) {
        const PbLift *l = &t->lifts[i];
        if (l->to_s < t->from_s || !pb_is_stop(l, t->rubric)) {
            continue;
        }
        int is_soft = l->density_kg_m3 < t->target_kg_m3, is_chosen = i == t->chosen;
        GfxRect b = block_of(g, t, l);
        pic_round(list, b, 2.0f * g->line, is_soft ? GFX_DANGER_WASH : GFX_WELL);
        if (is_soft) { /* told without colour too */
            pic_hatch(list, g, b, GFX_DANGER);
        }
        pic_round_line(list, b, 2.0f * g->line, (is_chosen ? 3.0f : 1.0f) * g->line,
                       is_chosen ? GFX_ACCENT
                       : is_soft ? GFX_DANGER
                                 : GFX_EDGE);
        figures(list, g, t, i, kind, &f);
    }
}

/* The way in at most POINTS - 1 points: level stretches keep their two ends only. */
static int way(const PicGround *g, const PicTravel *t, GfxPoint p[POINTS])
{
    int n = 0, first = 0;
    while (first < t->sample_count && (double)t->samples[first].time_s < t->from_s) {
        first++;
    }
    int stride = (t->sample_count - first) / (POINTS - 20) + 1;
    float level = 0.3f * g->line;
    for (int i = first; i < t->sample_count && n < POINTS - 1; i += stride) {
        const PbSample *s = &t->samples[i];
        GfxPoint q = {pic_travel_x(t, (double)s->time_s), pic_travel_y(t, (double)s->mouth_y_m)};
        if (n >= 2 && fabsf(p[n - 1].y - q.y) < level && fabsf(p[n - 2].y - q.y) < level) {
            n--;
        }
        p[n++] = q;
    }
    return n;
}

void pic_travel_trace(GfxShapes *list, const PicGround *g, const PicTravel *t, const GfxPoint *now)
{
    GfxPoint p[POINTS];
    int n = way(g, t, p);
    if (now != NULL) {
        p[n++] = *now;
    }
    pic_path(list, p, n, 3.0f * g->line, GFX_INK);
}

void pic_travel_ghost(GfxShapes *list, const PicGround *g, const PicTravel *t)
{
    GfxPoint p[POINTS];
    int n = way(g, t, p);
    pic_dashes(list, p, n, 2.0f * g->line, 5.0f * g->line, GFX_ACCENT);
}
