/* Patches of 0.1 m of an aged fill: hatch under target, cross hatch where a void lies inside the
 * fill. The open room at the top is drawn as what it is: boards. */
#include "base/aged_marks.h"

#include <math.h>
#include <string.h>

/* Mean density of the part of a patch that lies below the top of the fill; negative = none does. */
static double patch_mean(const AgedPicture *p, int x0, int x1, int y0, int y1)
{
    const PbBayField *b = p->bay;
    double dy = b->height_m / b->ny, fill_top = b->height_m - p->top_gap_m, sum = 0.0;
    int cells = 0;
    for (int j = y0; j < y1 && (j + 0.5) * dy < fill_top; j++) {
        for (int i = x0; i < x1; i++) {
            if (b->free_frac[j * b->nx + i] > 0.0) {
                sum += (double)p->density[j * p->stride + i];
                cells++;
            }
        }
    }
    return cells > 0 ? sum / cells : -1.0;
}

/* Less is drawn as next to nothing (shaders/field.frag fades it out), so it carries no hatch. */
static const float seen_kg_m3 = 10.0f;

void aged_marks(const AgedPicture *p)
{
    const PbBayField *b = p->bay;
    double dy = b->height_m / b->ny, fill_top = b->height_m - p->top_gap_m;
    int px = (int)fmax(1.0, floor(b->width_m / 0.1 + 0.5));
    int py = (int)fmax(1.0, floor(b->height_m / 0.1 + 0.5));
    for (int j = 0; j < b->ny; j++) {
        memset(p->marks + (size_t)j * (size_t)p->stride, 0, (size_t)b->nx);
    }
    for (int k = 0; k < px * py; k++) {
        int x0 = k % px * b->nx / px, x1 = (k % px + 1) * b->nx / px;
        int y0 = k / px * b->ny / py, y1 = (k / px + 1) * b->ny / py;
        double mean = patch_mean(p, x0, x1, y0, y1);
        if (mean < 0.0 || mean >= p->target_kg_m3) {
            continue;
        }
        uint8_t m = mean < p->void_kg_m3 ? 2 : 1;
        /* Nothing is hatched above the fill. */
        for (int j = y0; j < y1 && j < (int)ceil(fill_top / dy); j++) {
            for (int i = x0; i < x1; i++) {
                int is_fill = p->density[j * p->stride + i] > seen_kg_m3;
                p->marks[j * p->stride + i] = m == 2 || is_fill ? m : 0;
            }
        }
    }
}
