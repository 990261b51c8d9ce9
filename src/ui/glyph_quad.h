/* Private to ui: one glyph into the draw list. Read draw.c. */
#ifndef UI_GLYPH_QUAD_H
#define UI_GLYPH_QUAD_H

#include "ui/ui.h"

/* x is the pen, y the base line, whole pixels. */
void ui_glyph_quad(Ui *ui, const UiGlyph *g, float x, float y, GfxColor c);

#endif
