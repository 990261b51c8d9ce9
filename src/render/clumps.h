/* Private to render: the tile of clumps that gives packed fill its grain. */
#ifndef RENDER_CLUMPS_H
#define RENDER_CLUMPS_H

#include <stdint.h>

enum { RENDER_CLUMPS = 128 }; /* texels a side, a power of two */

/* One byte of lightness a texel, 128 in the middle; the same bytes each time. */
void render_clumps(uint8_t tile[RENDER_CLUMPS * RENDER_CLUMPS]);

#endif
