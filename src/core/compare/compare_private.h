/* Inside the side-by-side comparison, shared by compare*.c. */
#ifndef COMPARE_PRIVATE_H
#define COMPARE_PRIVATE_H

#include "core/compare.h"

/* Strips and cells of a key time and of a draw. Coarse cells move R by 2e-4; coarse strips move it
 * by up to 0.05 where the fill ends at another height in every column, but alike in every draw:
 * draws are scaled by what both grids give for the shipped values. Strips of foam are all alike but
 * for those at the studs, which the solver adds. */
enum {
    COMPARE_STRIPS = 12,
    COMPARE_DRAW_STRIPS = 4,
    COMPARE_FOAM_DRAW_STRIPS = 1,
    COMPARE_DRAW_NX = 24,
    COMPARE_DRAW_NY = 64
};

/* The fill at the time of one frame. */
typedef struct CompareFrame {
    float *density; /* [ny][nx], in the fill's block */
    PbSettleReport report;
    PbFoamState foam;
} CompareFrame;

/* Heat at one key time, shipped values. */
typedef struct CompareHeat {
    double r_m2k_w, coarse_r_m2k_w, surface_min_c, surface_max_c, cold_m2;
    double map_x0_m, map_x1_m;
    double leak_left; /* of the leaks through an empty bay */
    int has_loop;
    float *map_c;
} CompareHeat;

/* One draw at one key time. */
typedef struct CompareSample {
    double r_m2k_w, top_gap_m, shrink_frac; /* R on the coarse grid */
    double leak_left;
} CompareSample;

/* The house around the wall under one draw. */
typedef struct CompareHome {
    PbHome home;
    double area_m2;               /* of the walls */
    double realized;              /* of a computed saving, what is measured */
    double wall_share, air_share; /* of a usual house's loss, where no bill is known */
    double bill_w_k;              /* loss that the bill tells; 0 = no bill */
    double price, kwh;            /* of a unit of fuel, and in it; of a kWh without a bill */
    double efficiency;
    double cool_price, cool_efficiency; /* of electricity; price 0 = not cooled */
    double air_50_m3_s, air_m3_s;       /* through the house: at 50 Pa, over a winter; 0: unknown */
    double air_w_k;                     /* its part of the loss */
    double bay_share, packed_left;      /* of its leaks, through bays; left by a dense pack */
} CompareHome;

typedef struct CompareFill {
    PbBayField packed; /* as the packing left it; zeroed for foam and the empty bay */
    int is_blown_out;
    CompareFrame *frames; /* frame_count */
    float *density;       /* all pictures of the fill, one block */
    PbAgedBay *aged;      /* of the key times; cellulose only */
    CompareHeat *heat;    /* year_count */
    CompareSample *draws; /* [draws][year_count] */
} CompareFill;

struct PbCompare {
    PbCompareSetup setup;
    PbBayField bay; /* empty, with its obstacles */
    PbBayField now; /* the same with what is in it before the work */
    int frame_count, piece_count;
    PbComparePiece *piece;
    _Atomic int *is_done; /* set last, in sequence: what it guards is then to be seen */
    CompareFill fill[PB_COMPARE_FILLS];
    double *perfect_r;       /* of each draw */
    CompareHome mid, *homes; /* shipped values; of each draw */
    void *block;
};

/* Number of a piece, negative when there is none such. */
int compare_find(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index);
int compare_done(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index);
/* Draws of a fill finished from number 0 on. */
int compare_draws_done(const PbCompare *c, PbCompareFill fill);

/* The work of the pieces. */
PbStatus compare_pack(PbCompare *c, PbCompareFill fill, PbError *err);
PbStatus compare_age(PbCompare *c, PbCompareFill fill, PbError *err);
PbStatus compare_heat(PbCompare *c, PbCompareFill fill, int t, PbError *err);
PbStatus compare_draw(PbCompare *c, PbCompareFill fill, int draw, PbError *err);

PbFoamCase compare_foam_case(const PbCompare *c);
PbSettleConfig compare_settle_config(const PbCompare *c);
/* The bay with foam in it: density of dry foam and what water is left. */
void compare_foam_field(const PbCompare *c, const PbFoamState *state, double *density_kg_m3);
/* The last key time that is not after `years`; share: how far on to the next one it lies, in the
 * root of the years, 0 = at it. */
int compare_key_time(const PbCompare *c, double years, double *share);
/* Between two values of key times; never (HUGE_VAL) at one of them is never. */
double compare_between(double a, double b, double share);
PbHeatRange compare_range_between(PbHeatRange a, PbHeatRange b, double share);
/* compare_air.c: what is left of an empty bay's leaks. */
double compare_leak_left(const PbHeatBayResult *bay, const PbConstants *k, const PbFoamState *foam,
                         double width_m);
/* Leakage of the house under these constants. */
void compare_home_air(const PbHouse *h, const PbConstants *k, CompareHome *m);
/* Share of the house's leaks that goes through the bays with a fill in them that leaves `ratio` of
 * what went through before; left_now: of an empty bay's leaks, before. */
double compare_air_share(const CompareHome *m, const PbHouse *h, double ratio, double left_now);
/* Loss of the walls, with the part that was packed before. */
double compare_walls_w_k(const CompareHome *m, const PbHouse *h, double r_m2k_w,
                         double packed_m2k_w);
/* Of the whole house: of its bill, else by the usual share that walls have in what goes without
 * air, and its air. */
double compare_loss_w_k(const CompareHome *m, double walls_w_k);
/* R at a key time, shipped values. */
double compare_key_r(const PbCompare *c, PbCompareFill fill, int t);
/* What is left under a draw (negative: of shipped values). */
double compare_left(const PbCompare *c, PbCompareFill fill, int t, int draw);
/* compare_saving.c: mid and homes from the house, anew when its money changes. */
void compare_make_homes(PbCompare *c);
/* R of the wall under a draw, brought to the grid of the key times. */
double compare_drawn_r(const PbCompare *c, PbCompareFill fill, int t, int draw);

/* The wall of a house dense packed full. */
PbWallPaths compare_perfect_paths(const PbHouse *house, const PbConstants *constants);
/* R of a wall dense packed full. */
double compare_perfect_r(const PbCompareSetup *setup, const PbConstants *constants);

#endif
