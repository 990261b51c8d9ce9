/* The grain of cellulose: a tile of clumps lying over each other, each a little lighter or darker
 * than the last and with a fibre on every second. Made once; the field shader lays it large over
 * loose fill and small over packed. The tile repeats without a seam. */
#include "clumps.h"

#include <math.h>

static double scatter(unsigned *state)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) / 16777216.0;
}

static uint8_t *texel(uint8_t *tile, int x, int y)
{
    return &tile[(y & (RENDER_CLUMPS - 1)) * RENDER_CLUMPS + (x & (RENDER_CLUMPS - 1))];
}

/* An ellipse, squashed and turned, soft at its edge. */
static void clump(uint8_t *tile, double cx, double cy, double radius, double turn, double light)
{
    double c = cos(turn), s = sin(turn), flat = 0.62;
    int reach = (int)radius + 2;
    for (int y = -reach; y <= reach; y++) {
        for (int x = -reach; x <= reach; x++) {
            double u = x * c + y * s, v = (y * c - x * s) / flat;
            double cover = fmin(fmax(radius - sqrt(u * u + v * v) + 0.5, 0.0), 1.0);
            uint8_t *t = texel(tile, (int)cx + x, (int)cy + y);
            *t = (uint8_t)(*t + (light - *t) * cover * 0.8);
        }
    }
}

static void fibre(uint8_t *tile, double cx, double cy, double turn, double light)
{
    for (int k = -6; k <= 6; k++) {
        double bend = 0.04 * k * k;
        uint8_t *t = texel(tile, (int)(cx + k * cos(turn) - bend * sin(turn)),
                           (int)(cy + k * sin(turn) + bend * cos(turn)));
        *t = (uint8_t)(*t + (light - *t) * 0.7);
    }
}

void render_clumps(uint8_t tile[RENDER_CLUMPS * RENDER_CLUMPS])
{
    unsigned state = 20u;
    for (int i = 0; i < RENDER_CLUMPS * RENDER_CLUMPS; i++) {
        tile[i] = 128;
    }
    for (int i = 0; i < 520; i++) {
        double x = scatter(&state) * RENDER_CLUMPS, y = scatter(&state) * RENDER_CLUMPS;
        double turn = scatter(&state) * 3.14159265, light = 24.0 + 190.0 * scatter(&state);
        clump(tile, x, y, 5.0 + 5.0 * scatter(&state), turn, light);
        if (i & 1) {
            fibre(tile, x, y, turn, light > 128.0 ? 40.0 : 240.0);
        }
    }
}
