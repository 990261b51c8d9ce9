/* Private to ui: what is noted of each call that draws, while somebody asks; NULL = nobody does. */
#ifndef UI_LEGIBLE_H
#define UI_LEGIBLE_H

#include "ui/ui.h"

void ui_legible_begin(UiLegible *l, float width, float height);
void ui_legible_clip(UiLegible *l, const GfxRect *clip);
/* `base` is the base line, `px` the size of the letters. */
void ui_legible_text(UiLegible *l, float x, float base, float width, int px, const char *text,
                     int bytes);
/* A filled rectangle: what was drawn before it is under it. */
void ui_legible_plate(UiLegible *l, GfxRect r, GfxColor c);
/* The page is scrolled by `px`; it ends at `bottom` then. */
void ui_legible_shift(UiLegible *l, float px, float bottom);
/* Where a widget answers the pointer. */
void ui_legible_control(UiLegible *l, GfxRect r);

#endif
