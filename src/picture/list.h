/* Inside src/picture: shapes into a list. Sizes in units of the ground. */
#ifndef PICTURE_LIST_H
#define PICTURE_LIST_H

#include "picture/ground.h"

/* A size of px at 100 %. */
float pic_px(const PicGround *ground, double px);
/* Where a thin line lies that goes straight across or down. */
float pic_snap(const PicGround *ground, float at);

void pic_box(GfxShapes *list, GfxRect box, GfxInk ink);
void pic_round(GfxShapes *list, GfxRect box, float radius, GfxInk ink);
void pic_round_line(GfxShapes *list, GfxRect box, float radius, float width, GfxInk ink);
/* The points are copied. */
void pic_path(GfxShapes *list, const GfxPoint *points, int count, float width, GfxInk ink);
void pic_dashes(GfxShapes *list, const GfxPoint *points, int count, float width, float dash,
                GfxInk ink);
/* Lines from lower left to upper right over the box, `pitch` apart along its edges. */
void pic_hatch(GfxShapes *list, const PicGround *ground, GfxRect box, GfxInk ink);
void pic_text(GfxShapes *list, GfxPoint at, float size, int is_bold, GfxAlign align, GfxInk ink,
              const char *text);

#endif
