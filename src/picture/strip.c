/* One signal on its strip. */
#include "picture/strip.h"

#include "list.h"

double pic_signal(const PbSample *s, PicSignal signal)
{
    return (double)(signal == PIC_PRESSURE ? s->blower_pa
                    : signal == PIC_FLOW   ? s->flow_m3_s
                                           : s->feed_kg_s);
}

double pic_signal_top(const PbWatched *w, PicSignal signal)
{
    return signal == PIC_PRESSURE ? w->top_pa
           : signal == PIC_FLOW   ? w->top_flow_m3_s
                                  : w->top_feed_kg_s;
}

void pic_strip_ground(GfxShapes *list, const PicGround *g, const PicStrip *s)
{
    pic_round(list, s->area, pic_px(g, 4), GFX_GLASS);
    pic_round_line(list, s->area, pic_px(g, 4), g->line, GFX_EDGE);
}

void pic_strip_curve(GfxShapes *list, const PicGround *g, const PicStrip *s, int is_ghost)
{
    enum { POINTS = 500 };
    GfxPoint p[POINTS];
    float in = 2.0f * g->line;
    int n = 0, stride = s->sample_count / (POINTS - 20) + 1;
    for (int i = 0; i < s->sample_count && n < POINTS; i += stride) {
        float up = (float)(pic_signal(&s->samples[i], s->signal) / s->top);
        p[n++] =
            (GfxPoint){s->area.x + (float)((double)s->samples[i].time_s / s->span_s) * s->area.w,
                       s->area.y + s->area.h - in - up * (s->area.h - 2.0f * in)};
    }
    pic_path(list, p, n, (is_ghost ? 1.0f : 2.0f) * g->line, is_ghost ? GFX_ACCENT : GFX_INK);
}
