/* Inside of a bay, shared by bay*.c. */
#ifndef HEAT_BAY_H
#define HEAT_BAY_H

#include "core/heat_bay.h"

/* A solved strip and what the room-side picture needs of it. */
typedef struct PbBayStrip {
    PbHeatStrip view;
    double *block; /* the arrays of view and the ones below */
    double *z, *y, *temperature, *psi, *permeability;
    double *back_w_m2; /* [ny] heat leaving the room board towards the cavity */
    double *board_c;   /* [ny] mean temperature of the room board */
    double *empty;     /* [ny] share of the depth that is open air */
    double surface_min_c, surface_max_c;
    size_t bytes; /* of the section while it was being solved */
    PbStatus status;
} PbBayStrip;

struct PbHeatBay {
    PbHeatBaySetup setup;
    PbConstants constants;
    PbWallSkin skin; /* of setup.wall with these constants */
    PbAllocator allocator;
    PbBayStrip strip[PB_HEAT_MAX_STRIPS];
    int strip_count;
    double gap_scale; /* of narrow gaps: 1, or less and more for the range */
    PbHeatBayResult result;
    double *map, *map_void;
    PbHeatGap gaps[PB_HEAT_MAX_GAPS]; /* scaled */
};

/* bay_strip.c: build, solve and store strip `index`. */
void pb_bay_solve_strip(PbHeatBay *bay, int index);
void pb_bay_free_strips(PbHeatBay *bay);
/* 1 when the two strips are made of the same cells. */
int pb_bay_strips_match(const PbHeatBay *bay, int a, int b);
/* bay_map.c: fills bay->map from the strips, and how much it works with for such a picture. */
PbStatus pb_bay_map(PbHeatBay *bay);
size_t pb_bay_map_bytes(int map_nx, int map_ny);
/* bay_leak.c: air end to end at the given pressure, m3/s. */
double pb_bay_leak(const PbHeatBay *bay, double pressure_pa, int is_perfect);
/* What the content leaves of the leaks of the same bay with nothing in it: leak_left_*. */
void pb_bay_leak_left(const PbHeatBay *bay, double pressure_pa, PbHeatBayResult *result);

/* What a window of the field holds: shares of the depth, and the density of the fill in the free
 * share, 0 where it counts as void. */
typedef struct PbBayWindow {
    double density_kg_m3, free_frac, batt_frac;
} PbBayWindow;

PbBayWindow pb_bay_window(const PbHeatBay *bay, double x0, double x1, double y0, double y1);

#endif
