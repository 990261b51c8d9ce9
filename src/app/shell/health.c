/* Frame times are counted in steps of 0.25 ms, so that two hours of frames cost no memory. */
#include "shell/health.h"

#include <stdio.h>
#include <string.h>

enum { STEPS = 4000 };
static const double step_ms = 0.25;

static struct Health {
    long counts[STEPS], frames;
} health;

void health_frame(double ms)
{
    int at = (int)(ms / step_ms);
    health.counts[at < 0 ? 0 : (at < STEPS ? at : STEPS - 1)]++;
    health.frames++;
}

void health_reset(void)
{
    memset(&health, 0, sizeof health);
}

double health_frame_ms(double share)
{
    long seen = 0;
    for (int i = 0; i < STEPS; i++) {
        seen += health.counts[i];
        if (seen > 0 && (double)seen >= share * (double)health.frames) {
            return (i + 1) * step_ms;
        }
    }
    return 0.0;
}

double health_frames(void)
{
    return (double)health.frames;
}
