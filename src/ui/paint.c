/* A picture of shapes on the screen: one of its two painters, the other is report/paint.c. */
#include "ui/ui.h"

static GfxColor colour(const UiTheme *t, const GfxShape *s)
{
    const GfxColor inks[GFX_INKS] = {
        [GFX_INK] = t->ink,       [GFX_INK2] = t->ink2,     [GFX_RULE] = t->rule,
        [GFX_EDGE] = t->edge,     [GFX_WELL] = t->well,     [GFX_GLASS] = t->glass,
        [GFX_ACCENT] = t->accent, [GFX_DANGER] = t->danger, [GFX_DANGER_WASH] = t->danger_wash};
    return s->opacity < 1.0f ? ui_fade(inks[s->ink], (double)s->opacity) : inks[s->ink];
}

static void dashes(Ui *ui, const GfxShape *s, const GfxPoint *p, GfxColor c)
{
    for (int i = 0; i + 1 < s->count; i++) {
        ui_dashes(ui, p[i].x, p[i].y, p[i + 1].x, p[i + 1].y, s->width, s->radius, c);
    }
}

static void paint(Ui *ui, const GfxShape *s, const GfxPoint *p)
{
    GfxColor c = colour(ui->theme, s);
    switch (s->kind) {
    case GFX_BOX:
        ui_rect(ui, s->box.x, s->box.y, s->box.w, s->box.h, c);
        return;
    case GFX_ROUND:
        ui_round(ui, s->box, s->radius, c);
        return;
    case GFX_ROUND_LINE:
        ui_round_line(ui, s->box, s->radius, s->width, c);
        return;
    case GFX_PATH:
        ui_polyline(ui, p, s->count, s->width, c);
        return;
    case GFX_DASHES:
        dashes(ui, s, p, c);
        return;
    case GFX_TEXT:
        ui_label(ui, s->box.x, s->box.y, (double)s->size, s->is_bold ? UI_BOLD : UI_REGULAR, c,
                 (UiAlign)s->align, s->text);
        return;
    }
}

void ui_paint(Ui *ui, const GfxShapes *shapes)
{
    for (int i = 0; i < shapes->count; i++) {
        paint(ui, &shapes->shapes[i], shapes->points + shapes->shapes[i].first);
    }
}
