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
    COMPARE_DRAW_NY = 64,
    /* Cells across of a coarse packing run: half the time of the usual grid. R of a loose blow
     * comes within 1.5 %, of a dense pack within 0.1 % of it (a test holds both). */
    COMPARE_PACK_ACROSS = 9,
    /* A bay of more than one story takes twice the cells for twice the time: both its grids are
     * coarser (same test), and its coarse runs take so many tufts as one. */
    COMPARE_TALL_ACROSS = 6,
    COMPARE_TALL_FINE_ACROSS = 10,
    COMPARE_TALL_TUFTS = 3,
    COMPARE_VARIANTS = 6 /* coarse packing runs: the shipped hands, then other seeds and crews */
};

/* A draw moves the yearly mean of the humidity in the wall by so much either way, and the settled
 * density of the product down to this share of the measured one. */
#define COMPARE_DAMP_RH        0.05
#define COMPARE_LEAST_MATERIAL 0.7

/* A fill that is packed is packed on two grids: the coarse one gives the first figures and all
 * draws, the fine one what stands. Foam and the empty bay have the fine one alone. */
typedef enum CompareGrid { COMPARE_COARSE, COMPARE_FINE, COMPARE_GRIDS } CompareGrid;

/* The fill at the time of one frame. */
typedef struct CompareFrame {
    float *density; /* [ny][nx], in the fill's block */
    PbSettleReport report;
    PbFoamState foam;
} CompareFrame;

/* What the wall's R is made of: u and conductance of the cavity, without framing. */
typedef struct CompareCavity {
    double u_w_m2k, layer_w_m2k;
} CompareCavity;

/* Heat at one key time, shipped values. */
typedef struct CompareHeat {
    CompareCavity cavity;
    double surface_min_c, surface_max_c, cold_m2;
    double map_x0_m, map_x1_m;
    double leak_left; /* of the leaks through an empty bay */
    int has_loop;
    float *map_c;
} CompareHeat;

/* One draw at one key time; of a coarse key time, the shipped values on the same grid. */
typedef struct CompareSample {
    CompareCavity cavity;
    double top_gap_m, shrink_frac;
    double leak_left; /* of the leaks through an empty bay */
    int has_loop;
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

/* A fill as one grid has it through the years. */
typedef struct CompareAged {
    CompareFrame *frames; /* frame_count */
    float *density;       /* all pictures, one block */
    PbAgedBay *key;       /* of the key times; cellulose only */
} CompareAged;

typedef struct CompareFill {
    /* As packed; zeroed for foam and the empty bay. Fine, and coarse by every crew: of the coarse
     * ones the first is the fine one's. An own run is both. */
    PbBayField packed, variant[COMPARE_VARIANTS];
    int is_blown_out[COMPARE_GRIDS];
    CompareAged grid[COMPARE_GRIDS];
    CompareHeat *heat;     /* year_count */
    CompareSample *coarse; /* year_count: shipped values on the grid of the draws */
    float **settled;       /* [draws]: a block each, see compare_settle */
    CompareSample *draws;  /* [draws][year_count] */
} CompareFill;

struct PbCompare {
    PbCompareSetup setup;
    PbBayField bay; /* empty, with its obstacles */
    PbBayField now; /* the same with what is in it before the work */
    int frame_count, piece_count;
    PbComparePiece *piece;
    int *number;           /* of each piece by kind, fill and index; negative = there is none */
    _Atomic int *is_done;  /* set last, in sequence: what it guards is then to be seen */
    _Atomic int *is_taken; /* by a thread of pb_compare_run_all */
    _Atomic int look;      /* see pb_compare_look */
    _Atomic int is_stopping;
    CompareFill fill[PB_COMPARE_FILLS];
    PbWallPaths mid_wall, *walls;     /* films, studs and framing: shipped values; of each draw */
    double mid_perfect_r, *perfect_r; /* dense packed full: the same */
    CompareHome mid, *homes;          /* the house around it: the same */
    void *block;
};

/* compare_pieces.c: the list of pieces, into `piece` and `number` where there is room already. */
void compare_list_pieces(PbCompare *c);
/* How many numbers the table of pieces has. */
int compare_number_count(const PbCompare *c);
/* Number of a piece, negative when there is none such. */
int compare_number(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index);
/* Is this piece done, or is there none such? */
int compare_done(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index);
/* Draws of a fill finished from number 0 on, at a key time. */
int compare_draws_done(const PbCompare *c, PbCompareFill fill, int t);
/* Index of a draw piece. */
int compare_draw_index(const PbCompare *c, int draw, int t);
int compare_is_packed(PbCompareFill fill);
int compare_is_own(const PbCompare *c, PbCompareFill fill); /* a run of the trainee */
/* The packing run that a draw goes by. */
int compare_variant_of(const PbCompare *c, PbCompareFill fill, int draw);

/* Cells of a packing run, by the height of its bay. */
void compare_set_grid(PbSessionConfig *config, int is_fine);
/* The work of the pieces. */
PbStatus compare_pack(PbCompare *c, PbCompareFill fill, int index, PbError *err);
PbStatus compare_age(PbCompare *c, PbCompareFill fill, int grid, PbError *err);
PbStatus compare_heat(PbCompare *c, PbCompareFill fill, int t, PbError *err);
PbStatus compare_coarse(PbCompare *c, PbCompareFill fill, int t, PbError *err);
/* Age a cellulose fill under a draw's constants: density and empty share of every cell at each key
 * time, as floats, after them the gap at the top of each key time. */
PbStatus compare_settle(PbCompare *c, PbCompareFill fill, int draw, PbError *err);
/* The bay of such a draw at key time t. Caller frees with pb_aged_destroy. */
PbStatus compare_settled_bay(const PbCompare *c, PbCompareFill fill, int draw, int t,
                             PbAgedBay *aged, double *top_gap_m);
PbStatus compare_draw(PbCompare *c, PbCompareFill fill, int index, PbError *err);

/* The best grid whose years are worked out; negative while there is none. */
int compare_best_grid(const PbCompare *c, PbCompareFill fill);
/* Where the pictures of a fill are kept, made once. */
PbStatus compare_make_pictures(PbCompare *c, CompareAged *fill, size_t cells, PbError *err);

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
/* Of an empty bay's leaks, with what the house has in it now, where no bay was solved. */
double compare_left_now(const PbHouse *h, const PbConstants *k);
/* What is left under a draw (negative: of shipped values). */
double compare_left(const PbCompare *c, PbCompareFill fill, int t, int draw);
/* compare_saving.c: mid and homes from the house, anew when its money changes. */
void compare_make_homes(PbCompare *c);
/* The walls of the shipped values and of the draws. */
void compare_make_walls(PbCompare *c);
/* R of a wall with this cavity. */
double compare_wall_r(const PbWallPaths *wall, CompareCavity cavity);
/* Is R at a key time there, of the shipped values? And what it is. */
int compare_has_r(const PbCompare *c, PbCompareFill fill, int t);
int compare_has_fine(const PbCompare *c, PbCompareFill fill, int t);
double compare_key_r(const PbCompare *c, PbCompareFill fill, int t);
/* R of the wall under a draw, brought to the grid of the key times. */
double compare_drawn_r(const PbCompare *c, PbCompareFill fill, int t, int draw);

/* The wall of a house dense packed full. */
PbWallPaths compare_perfect_paths(const PbHouse *house, const PbConstants *constants);

#endif
