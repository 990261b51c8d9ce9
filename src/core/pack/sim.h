/*
 * The state of one run and the stages that advance it, in the order in which sim.c calls them.
 * Fields live in padded arrays [ny + 2][nx + 2] (flat index (j + 1) * stride + i + 1) so that the
 * loops need no edge cases; the ghost ring is closed. Private to the core.
 */
#ifndef PACK_SIM_H
#define PACK_SIM_H

#include "kernels.h"

#include "core/alloc.h"
#include "core/command.h"
#include "core/constants.h"
#include "core/event.h"
#include "core/rng.h"
#include "core/tick.h"
#include "core/view.h"

#define PB_MAX_TUFTS    4096
#define PB_MAX_LIFTS    512
#define PB_MAX_EVENTS   64
#define PB_SIGMA_TABLE  1024 /* rows of the resistivity table, 0.25 kg/m3 apart */
#define PB_LEAK_TABLE   1024
#define PB_MAX_STRENGTH 32 /* strength patches up the face */

typedef struct PbTufts {
    int count, room; /* in the air, and how many may be */
    double *x, *y, *u, *v, *kg;
    PbTuft *shown;
    double owed_kg; /* delivered, not yet a whole tuft */
} PbTufts;

typedef struct PbHoseState {
    double setting, feed_kg_s; /* as the hands set them */
    int is_on, is_plugged;
    double spin;           /* blower wheel against full speed at this setting, 0..1 */
    double flow_m3_s;      /* under-relaxed */
    double free_flow_m3_s; /* what it would be without the slug */
    double load_kg;        /* material in the hose */
    double slug_kg;        /* of it at rest: what the air or the mouth did not take */
    double delivery_kg_s;
    double outlet_pa; /* at the machine */
    double mouth_pa;
    double clear_left_s; /* time still needed to clear a plug */
} PbHoseState;

typedef struct PbTubeState {
    double in_m; /* mouth to hole along the tube; under -0.01 outside */
    double target_m, rate_m_s;
    double speed_m_s;
    double force_share; /* of what a hand can push */
    double mouth_x_m, mouth_y_m;
    int direction; /* +1 or -1 */
    int follows_target;
    int is_blocked, was_blocked_said;
} PbTubeState;

typedef struct PbPanelState {
    double strength_pa[PB_MAX_STRENGTH];
    double over_s; /* how long the worst patch has been over its strength */
    double peak_pa, peak_x_m, peak_y_m, peak_strength_pa; /* nearest to its own strength */
    double expected_pa;                                   /* mean strength of such a face */
    double heaviest_pa, heaviest_y_m;                     /* most loaded patch now */
    double worst_pa, worst_over;
    double bow_coef_m_pa; /* middle bow per Pa of patch load */
    int said_half, said_creak;
} PbPanelState;

/** How far a stop has come; it never goes back. */
typedef enum PbStallState { PB_STALL_NOT_YET, PB_STALL_STALLED, PB_STALL_PICKED_UP } PbStallState;

typedef struct PbStopState {
    double y_m;
    double best_kg_s, best_flow_m3_s; /* best since the machine feeds, best of the stop */
    double delivered_start_kg;
    PbStallState stall;
    int lift_count; /* stops so far, this one with them */
} PbStopState;

/** Fill on its way out through the hole: mass of the ledger's accounts, as a smoothed rate. */
typedef struct PbHoleState {
    double seen_kg, kg_s;            /* all of it: fed outside, blown back, dust */
    double seen_fed_kg, fed_kg_s;    /* fed with the mouth outside */
    double blown_back_kg;            /* since the last word of it */
    int is_spilling, is_fed_outside; /* with hysteresis */
} PbHoleState;

/** What was done besides packing; all zero until something is. */
typedef struct PbActState {
    int hole; /* index of the one that the tube is in */
    int left; /* PbLeaveReason */
    int is_ring_set[PB_MAX_HOLES];
    int is_open[PB_MAX_HOLES]; /* no plug, no tube */
    int is_sealed[PB_MAX_OPENINGS];
    double ring_open_frac[PB_MAX_HOLES]; /* where it was set */
    double test_left_s, tested_pa, minutes;
} PbActState;

/** No padding and every member in the table of state_hash.c, or it does not compile. */
typedef struct PbSim {
    PbExercise ex;
    PbConstants k;
    const PbKernels *kernels;
    uint64_t seed;
    int tick;
    PbPhase phase;
    double bleed_s;

    int nx, ny, stride, cells; /* cells = padded count */
    double dx, dy, inv_dx, inv_dy;
    double gravity_along, gravity_across;

    /* cells, padded */
    double *phi0;       /* free share without tube and bow */
    double *phi, *iphi; /* now, and its inverse (0 where blocked) */
    double *batt;       /* share of the cell that an old batt takes: air passes, fill does not */
    double *tube;       /* share of the cell that the tube takes */
    double *bow_m;
    double *load_pa;
    double *gas_pa;
    double *sigma; /* resistivity, Pa s/m2 */
    double *mobility;
    double *leak;     /* C of q = C |P|^n per face area, m3/(s m2 Pa^n) */
    double *leak_now; /* leak conductance of each cell this tick, m3/(s Pa) */
    double *leak_kg_s;
    double *air_x, *air_y; /* conductance of faces for air, m3/(s Pa) */
    double *rate_a;        /* injection, kg/(m3 s) */
    double *mouth_w;       /* mouth kernel, sums to 1 */
    int *fed_cells;        /* cells with an injection in this tick */
    double *fibre_hold;    /* strength of a free face, Pa */
    int *opening_at;       /* opening index + 1, 0 none */
    double *side_kf;       /* extra friction share beside studs and blocks */
    PbSolidArrays solid;
    PbSolidStep step;
    PbSolidParams solid_params;
    unsigned char *row_live; /* rows that may move in the next substep; [ny + 2] */
    unsigned char *row_next;

    /* gas system, unpadded unknowns */
    PbBand band;
    double *unit_pa, *memory_pa; /* answers per unit source, and from stored air and outside */
    double source_norm;
    double hole_conductance, solved_mouth_y_m; /* of the last solve; under 0: not in the bay */
    double solved_s;                           /* when that was */

    /* unpadded copies for the view, [ny][nx] */
    double *out_density, *out_past, *out_gas, *out_phi, *out_bow, *out_load, *out_leak;
    double *row_load; /* [ny] */
    double sigma_table[PB_SIGMA_TABLE];
    double cv; /* compaction stiffness */

    PbHoseState hose;
    PbTubeState tube_state;
    PbPanelState panel;
    PbTufts tufts;
    double leak_table[PB_LEAK_TABLE + 1]; /* |P|^(n-1) over sqrt |P| */
    PbRng rng_scatter, rng_strength;
    PbLedger ledger;
    PbLedger carry; /* rounding held back from the sums above */
    double opening_lost_kg[PB_MAX_OPENINGS];
    double delivered_kg;          /* out of the mouth so far */
    double rho_mouth, past_mouth; /* kernel means: density now, largest that it has been */
    double hole_flow_m3_s, leak_flow_m3_s;
    double dust_leak_kg_s, dust_hole_kg_s; /* riding on leaking air */
    double dust_scale;                     /* 1000^(n - 1/2): meets the leak law at 1 kPa */
    double fillable_m3;
    PbHoleState hole;
    PbActState acts;
    PbStopState stop;
    PbLift lifts[PB_MAX_LIFTS];
    PbEvent events[PB_MAX_EVENTS]; /* of the last step */
    int event_count;
    int plugs, stalls;
    int is_runaway_said, is_blow_back_said;
    int strength_count; /* patches of the face with a strength of their own */
    int has_batt;
    int is_whole; /* evaluate every row; see pb_fill_step_whole */

    double (*clock_s)(void);
    PbProfile *profile;
    PbView view;
} PbSim;

/** Flat index of cell (i, j). */
static inline int pb_at(const PbSim *s, int i, int j)
{
    return (j + 1) * s->stride + i + 1;
}

/** The hole that the tube is in, or in front of. */
static inline const PbHole *pb_hole(const PbSim *s)
{
    return &s->ex.holes[s->acts.hole];
}

/** Cell that the middle of a fill hole lies in. */
static inline int pb_hole_cell(const PbSim *s, const PbHole *hole)
{
    int i = (int)(hole->x_m / s->dx), j = (int)(hole->y_m / s->dy);
    return pb_at(s, i < s->nx ? i : s->nx - 1, j < s->ny ? j : s->ny - 1);
}

/** Does air move in this cell? In fill, in the open, or in a batt. */
static inline int pb_is_airy(const PbSim *s, int at)
{
    return s->phi0[at] > 0.0 || s->batt[at] > 0.0;
}

/** The mouth counts as in the bay from the hole inwards; pulled out 10 mm it blows outside. */
static inline int pb_tube_is_inside(const PbSim *s)
{
    return s->tube_state.in_m > -0.01;
}

/* Compensated sum (Kahan, CACM 8(1), 1965): a run adds a hundred thousand small masses, and the
 * ledger must still close to 1e-12. */
static inline void pb_sum(double *sum, double *carry, double value)
{
    double y = value - *carry;
    double t = *sum + y;
    *carry = (t - *sum) - y;
    *sum = t;
}
#define PB_LEDGER_ADD(s, field, value) pb_sum(&(s)->ledger.field, &(s)->carry.field, (value))

/* grid.c: geometry to arrays */
void pb_grid_layout(PbSim *s, PbArena *arena);
void pb_grid_init(PbSim *s);
/** Recompute free shares after tube or face moved; keeps mass. */
void pb_grid_refresh_free(PbSim *s);

/* hose.c: blower, hose, tube */
double pb_hose_blower_pa(const PbSim *s, double flow_m3_s);
double pb_hose_loss_pa(const PbSim *s, double flow_m3_s);
double pb_hose_capacity_kg_s(const PbSim *s, double flow_m3_s);
/** Called by airflow, which knows the bay: its resistance, Pa s/m3, and standing pressure. Sets the
 * flow at which blower, hose and bay agree, what it would be without the slug in the line, and the
 * pressures at machine and mouth. */
void pb_hose_solve_flow(PbSim *s, double resistance, double standing_pa);
/** Feed the hose and carry material through it for one tick. */
void pb_hose_step(PbSim *s);

/* airflow.c: gas in the bay */
double pb_airflow_sigma(const PbSim *s, double rho);
void pb_airflow_step(PbSim *s);
/** Assemble with the mouth kernel as it stands and solve; answers in unit_pa and memory_pa. */
void pb_airflow_solve(PbSim *s, double *hole_conductance);

/* tube.c: where the mouth is and what holds it */
void pb_tube_step(PbSim *s);
double pb_tube_limit_m(const PbSim *s);
int pb_tube_turn(PbSim *s, int direction);

/* tufts.c: airborne material */
void pb_tufts_step(PbSim *s);

/* fill.c: the packed solid */
void pb_fill_step(PbSim *s);
/** The same without skipping still rows: what the skipping is tested against. */
void pb_fill_step_whole(PbSim *s);
/** Weight along the bay that rubbing on its faces does not carry, N/m3; negative where it could
 * carry more. */
double pb_fill_weight_n_m3(const PbSim *s, int at);
/** Put mass into a cell as freshly laid material. */
void pb_fill_add(PbSim *s, int at, double kg);

/* slump.c: faces that cannot stand */
void pb_slump_step(PbSim *s);

/* openings.c: material leaving by holes */
void pb_openings_step(PbSim *s);

/* acts.c: holes, rag, seals, static test, leaving */
/** Is there such an act, by its number? */
int pb_act_is_sane(const PbSim *s, const PbCommand *c);
void pb_act_apply(PbSim *s, const PbCommand *c);
/** The test goes on, and is over. */
void pb_act_step(PbSim *s);
void pb_act_publish(const PbSim *s, PbActs *acts);
double pb_act_ring_open_frac(const PbSim *s);
/** Stands this hole open, with no tube and no plug in it? */
int pb_act_is_hole_open(const PbSim *s, int hole);

/* panel.c */
void pb_panel_init(PbSim *s);
void pb_panel_step(PbSim *s);

/* lifts.c: stops, stalls, lifts */
void pb_lifts_step(PbSim *s);

/* state_hash.c: what each member of PbSim is; every one has a row */
typedef enum PbStateKind {
    PB_STATE_INTS,
    PB_STATE_DOUBLES,
    PB_STATE_U64,
    PB_STATE_CELLS,      /* pointer to s->cells doubles */
    PB_STATE_UNKNOWNS,   /* pointer to nx * ny doubles */
    PB_STATE_TUFTS,      /* pointer to doubles, one a tuft */
    PB_STATE_LIFTS,      /* as many as there were stops */
    PB_STATE_EVENTS,     /* as many as the last step had */
    PB_STATE_LATER_INTS, /* came after the first runs were kept: all zero is left out of the hash */
    PB_STATE_LATER_DOUBLES,
    PB_STATE_HASHED,                  /* how many kinds go into the hash: those before this one */
    PB_STATE_INPUT = PB_STATE_HASHED, /* exercise, constants, seed, grid */
    PB_STATE_FIXED,                   /* made of the input at the start, never changed */
    PB_STATE_SCRATCH,                 /* made anew in each step before it is read */
    PB_STATE_SCRATCH_CELLS,           /* the same, pointer to s->cells doubles */
    PB_STATE_SCRATCH_SINGLES,         /* the same, pointer to s->cells floats */
    PB_STATE_SHOWN,                   /* made of the state for the view */
    PB_STATE_TOOL                     /* how a step is worked out and timed, not what comes of it */
} PbStateKind;
typedef struct PbStateRow {
    const char *name;
    size_t offset, size;
    PbStateKind kind;
} PbStateRow;
const PbStateRow *pb_state_rows(size_t *count);
/** Hash of all that a step hands to the next, begun at `start`. */
uint64_t pb_sim_hash(const PbSim *s, uint64_t start);

/* publish.c: the state as others may see it */
void pb_sim_publish(PbSim *s);

/* balance.c: what must hold of every state */
/** Is every number finite that a step hands to the next? */
int pb_balance_is_finite(const PbSim *s);
/** Fill, hose and air hold what was fed, less what left by name. */
int pb_balance_closes(const PbSim *s);

/* sim.c */
void pb_sim_event(PbSim *s, PbEventKind kind, double x_m, double y_m, double value);
PbStatus pb_sim_step(PbSim *s, const PbCommand *commands, int count);
double pb_sim_mass_kg(const PbSim *s);
/** Machine off, the pressure bleeds, then the run is over. */
void pb_sim_finish(PbSim *s);

#endif
