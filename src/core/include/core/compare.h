/**
 * @file compare.h
 * @brief Side by side: the same bay empty, blown loose, foamed and dense packed, over years.
 *
 * Each fill is a simulated state: loose and dense are packing runs (session.h) that then settle
 * (settle.h), foam dries and shrinks (foam.h), and heat is solved over each (heat_bay.h). Ranges
 * are the 10 and 90 % points of draws over the constants that nobody knows well, and over packing
 * runs by other seeds and crews; one draw moves the same constants in all fills. Joins, ranges and
 * what can be objected: docs/physics/compare.md. Results are what the model gives for the inputs
 * shown, never a promise.
 *
 * The work is cut into pieces so that a thread can show what is ready and stop in between:
 * - Pieces are numbered 0 .. pb_compare_piece_count - 1. Any order gives the same bits. A piece
 *   whose inputs are not there yet is refused with PB_ERR_STATE and changes nothing; run in number
 *   order on one thread none is refused. pb_compare_run_all goes by what a person wants to see
 *   first: figures of the year looked at (coarse packing runs first, then fine), their ranges, then
 *   the other years.
 * - Different pieces may run on several threads at once (never the same piece twice at a time).
 *   Cancelling: stop calling, or pb_compare_stop. Nothing waits.
 * - Everything may be read at any time from any thread while pieces run: what is not finished shows
 *   as not ready, what is finished is never written again. Ranges count the draws from number 0 up
 *   to the first one that is not finished, so they depend on how many those are and on nothing
 *   else.
 * - A comparison takes over from another one what hangs on the same inputs (pb_compare_take_over),
 *   to the bit what it would come to itself.
 */
#ifndef CORE_COMPARE_H
#define CORE_COMPARE_H

#include "core/aged_heat.h"
#include "core/hands.h"
#include "core/house.h"
#include "core/session.h"

#define PB_COMPARE_MAX_TIMES  32
#define PB_COMPARE_MAX_FRAMES 128
#define PB_COMPARE_MAX_DRAWS  200
#define PB_COMPARE_MAX_ROWS   128
/** Draws that a range or a verdict takes; below it the run with shipped values stands alone and
 * nothing is held against anything. With 20, two draws are to be expected beyond either end of a
 * range, and two fills of even chance look different (18 of 20 alike) once in 2500 comparisons. A
 * choice of ours, no source. */
#define PB_COMPARE_ENOUGH_DRAWS 20
/** Room-side picture of every fill: [map_ny][map_nx], middle of one stud to the next. */
#define PB_COMPARE_MAP_NX 48
#define PB_COMPARE_MAP_NY 160

typedef enum PbCompareFill {
    PB_COMPARE_EMPTY,
    PB_COMPARE_LOOSE,
    PB_COMPARE_FOAM,
    PB_COMPARE_DENSE,
    PB_COMPARE_FILLS
} PbCompareFill;

typedef struct PbCompareSetup {
    PbHouse house;
    PbConstants constants;
    const PbBayField *own; /**< for PB_DENSE_OWN: the trainee's bay, copied; else NULL */
    double years[PB_COMPARE_MAX_TIMES]; /**< key times, ascending from 0, each 0..200 */
    int year_count;
    int frames_between; /**< pictures of the fill between two key times, 0..8; even in the root of
                           the years, as the year scale runs */
    int draws;          /**< for the ranges, 0..PB_COMPARE_MAX_DRAWS; 0: low = mid = high */
    PbAllocator allocator; /**< called from the threads that run pieces */
} PbCompareSetup;

/** @brief House default, shipped constants, 11 key times from 0 to 50 years, 2 pictures between,
 * 40 draws, C library memory. */
PbCompareSetup pb_compare_default(void);

typedef struct PbCompare PbCompare;

/**
 * @brief Judge a setup and take it over (copied). Makes the empty bay; runs nothing else.
 * @param[out] compare untouched unless PB_OK; caller destroys it
 * @return PB_OK; PB_ERR_RANGE (err says what); PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_compare_create(const PbCompareSetup *setup, PbCompare **compare,
                                        PbError *err);
/** @brief Give everything back. NULL allowed. No piece may be running. */
void pb_compare_destroy(PbCompare *compare);

typedef enum PbComparePieceKind {
    PB_PIECE_PACK,   /**< a packing run of a fill (loose, dense); nothing to do for an own bay */
    PB_PIECE_AGE,    /**< all pictures of the fill and its gaps; key bays for the heat */
    PB_PIECE_HEAT,   /**< heat, loops and room-side picture at one key time */
    PB_PIECE_COARSE, /**< heat at one key time as the draws are solved: a first figure */
    PB_PIECE_SETTLE, /**< the years of one draw of a fill */
    PB_PIECE_DRAW,   /**< heat of one draw of one fill at one key time */
    PB_PIECE_KINDS
} PbComparePieceKind;

typedef struct PbComparePiece {
    PbComparePieceKind kind;
    PbCompareFill fill;
    int index;   /**< key time of a heat piece, draw of a settled one; else a number of its own */
    double cost; /**< relative work, for a progress bar */
} PbComparePiece;

int pb_compare_piece_count(const PbCompare *compare);
/** @brief What piece n is. @param[in] n 0 .. count - 1 */
PbComparePiece pb_compare_piece(const PbCompare *compare, int n);
/** @brief Nonzero when the inputs of piece n are there and it has not run. */
int pb_compare_can_run(const PbCompare *compare, int n);
/** @brief Nonzero when piece n is finished. */
int pb_compare_is_done(const PbCompare *compare, int n);
/**
 * @brief Run one piece.
 * @return PB_OK (also when it is done already); PB_ERR_STATE when its inputs are missing;
 *         PB_ERR_MEMORY, PB_ERR_NO_RESULT, PB_ERR_DIVERGED: the piece failed, others stay good
 */
PB_NODISCARD PbStatus pb_compare_run(PbCompare *compare, int n, PbError *err);
/** @brief The time whose pieces pb_compare_run_all takes first from now on. Any thread. Changes no
 * result. @param[in] years 0 .. last key time */
void pb_compare_look(PbCompare *compare, double years);
/** @brief Pieces in hand end soon with PB_ERR_STATE and none begins any more, for good. Any thread.
 */
void pb_compare_stop(PbCompare *compare);
/**
 * @brief Copy what `from` has finished and what would come out the same here: packing runs of the
 * same bay and crew, years of the same climate, heat through the same layers.
 * @param[in] to   no piece of it may be running
 * @param[in] from pieces of it may be running
 * @return PB_OK; PB_ERR_MEMORY, what was copied so far stays good
 */
PB_NODISCARD PbStatus pb_compare_take_over(PbCompare *to, const PbCompare *from);
/**
 * @brief Run all pieces that are left, the most wanted first.
 * @param[in] parallel NULL = one after the other
 * @param[in] is_stopped may be NULL; asked before each piece, from several threads; nonzero = stop
 * @param[in] done       may be NULL; told after each piece, from several threads
 * @return PB_OK; PB_ERR_STATE when stopped; as pb_compare_run (err of the lowest piece that failed)
 */
PB_NODISCARD PbStatus pb_compare_run_all(PbCompare *compare, PbHeatParallel parallel,
                                         void *parallel_user, int (*is_stopped)(void *user),
                                         void (*done)(void *user, int n), void *user, PbError *err);

/** Everything shown of one fill at one key time. Ranges: 10 and 90 % points of the draws that are
 * finished, widened to hold `mid`, which is the run with the shipped values. Top gap and R of one
 * line belong to the same draws. */
typedef struct PbCompareFigures {
    double years;
    int is_blown_out; /**< the face gave way while it was packed */
    int has_content;  /**< empty bay: old fill or a batt is in it before the work */
    int has_fill;     /**< the fill's picture and gaps are ready: all down to has_loop */
    int has_heat;     /**< mid values are ready, of a coarse packing run to begin with */
    int has_camera; /**< what is of the room-side picture: surface_min_c, surface_max_c, cold_m2 */
    int draws;      /**< finished; 0: ranges have no width yet; fewer than
                       PB_COMPARE_ENOUGH_DRAWS: no range to show */

    PbHeatRange top_gap_m;     /**< open below the top plate; empty bay: its height */
    PbHeatRange shrink_frac;   /**< foam: linear shrinkage; else 0 */
    double water_frac;         /**< foam: of the water injected what is still in it; else 0 */
    double stud_gap_m;         /**< foam: wider of the gaps at the studs; else 0 */
    double face_gap_m;         /**< foam: gap at the face it let go of */
    double mean_kg_m3;         /**< cellulose over the whole bay, else 0 */
    double least_kg_m3;        /**< emptiest 0.1 m square, cellulose */
    double void_area_m2;       /**< empty face area, cellulose; empty bay: all of it */
    double inner_void_area_m2; /**< of it not at the top plate */
    int has_voids;             /**< inner_void_area_m2 of more than a 0.1 m square */

    int has_loop;            /**< air moves enough to matter somewhere in the bay */
    PbHeatRange r_m2k_w;     /**< whole wall, framing share of the house, films and boards in */
    PbHeatRange heat_ratio;  /**< heat through the wall over that of a wall dense packed full */
    PbHeatRange heat_kwh;    /**< a heating season through the wall area */
    PbHeatRange cost;        /**< of it; the range of the house's inputs is in it */
    int pairs;               /**< draws finished of this fill and of the one it is held against */
    PbHeatRange against_log; /**< ln of heat through this fill over heat through pb_compare_other,
                                both of the same draw; the other fill has the same range with its
                                ends exchanged and signs changed, to the last bit */
    double surface_min_c, surface_max_c; /**< of the room-side picture */
    double cold_m2; /**< of the picture, away from the studs: colder than the face of a wall dense
 packed full by more than a twentieth of the air's difference: the cold stripe */
} PbCompareFigures;

/** @brief Figures of a fill at key time t, 0 .. year_count - 1. Pure; allocates nothing. */
void pb_compare_figures(const PbCompare *compare, PbCompareFill fill, int t,
                        PbCompareFigures *figures);
/**
 * @brief Figures at any time: linear in the root of the years between the key times beside it
 * (flags of the earlier one). For a scale that is being dragged; printed pages use key times.
 * @param[in] years 0 .. last key time
 */
void pb_compare_figures_at(const PbCompare *compare, PbCompareFill fill, double years,
                           PbCompareFigures *figures);
/**
 * @brief Take over what money alone hangs on: wall area, degree-days, price, efficiency, bill, job,
 * the house's air and damp and the labels. Figures follow at once; nothing that was worked out
 * changes, and the rest of `house` is not looked at. Pieces may be running; figures may not be read
 * on another thread meanwhile.
 * @return PB_OK; PB_ERR_RANGE when the house that comes of it is refused, nothing changed
 */
PB_NODISCARD PbStatus pb_compare_set_money(PbCompare *compare, const PbHouse *house, PbError *err);
/** @brief R of the wall dense packed full, with its range; heat_ratio is against its mid. */
PbHeatRange pb_compare_perfect_r(const PbCompare *compare);

/** What a fill saves in a year against the wall as it is now, under the same draws for both: no
 * column to subtract. Ranges: 10 and 90 % points of the kept draws, widened to hold `mid`. */
typedef struct PbCompareSaving {
    int is_ready; /**< mid values are there: of the wall, and of the fill unless over the bill */
    int is_over_bill; /**< the walls alone would burn more than the bill; only wall_* and bill_units
                         hold then: the inputs are to be looked at again */
    int is_air_over; /**< it is over only with the air that leaks through the house, and wall_* have
                        that in them */
    int draws;       /**< that both fills have */
    int kept;        /**< of them, those in which the walls burn less than the bill */
    int better;      /**< of the kept, those in which the fill saves anything */
    PbHeatRange wall_units; /**< fuel less if the walls as they are lost nothing; its unit, or kWh
                               of heat content without a bill */
    PbHeatRange wall_share; /**< of the heat that the house takes */
    double bill_units;      /**< of fuel that the bill has for heating, mid; 0 = no bill */
    PbHeatRange heat_kwh;   /**< saved, into the rooms */
    PbHeatRange units;      /**< saved fuel */
    PbHeatRange solid_units, air_units; /**< of it, by conduction, and by air that no longer leaks
                                           through the walls; 0 where the air is not known */
    PbHeatRange cool_kwh; /**< saved electricity of cooling; below 0 where the fill keeps heat in;
                             0 of a house that is not cooled */
    PbHeatRange money;    /**< saved, fuel and cooling */
    PbHeatRange payback_years; /**< price of the job less rebate over money; 0 = no price, HUGE_VAL
                                  where nothing is saved */
} PbCompareSaving;

/**
 * @brief The same at once, of shipped values alone, for a house that is still being typed: a wall
 * of R `now` as it is against one of R `then`, for air packed full. No draws, no years.
 * @param[in] house judged (pb_house_check)
 */
void pb_compare_saving_of(const PbHouse *house, const PbConstants *constants, double now_m2k_w,
                          double then_m2k_w, PbCompareSaving *saving);
/** @brief Saving of a fill at key time t; the empty bay saves nothing, its wall_* hold. */
void pb_compare_saving(const PbCompare *compare, PbCompareFill fill, int t,
                       PbCompareSaving *saving);
/** @brief The same at any time, even in the root of the years between the key times beside it. */
void pb_compare_saving_at(const PbCompare *compare, PbCompareFill fill, double years,
                          PbCompareSaving *saving);

/**
 * Air through the walls of a house with a fill in them. What a fill does to it: it chokes the
 * cracks of the bays that it stands in. Plates, sills, corners, floors, attic, windows and doors
 * leak as before. At 50 Pa and in natural conditions alike, the same share is taken off. Ranges: 10
 * and 90 % points of the draws, widened to hold `mid`; docs/physics/air.md.
 */
typedef struct PbCompareAir {
    int is_known; /**< the house has a blower door's figure or a floor area */
    int is_ready;
    int is_measured;           /**< by a blower door, else assumed by age and size */
    int draws;                 /**< finished; fewer than PB_COMPARE_ENOUGH_DRAWS: no range yet */
    PbHeatRange house_50_m3_s; /**< through the whole house as it is, at 50 Pa */
    PbHeatRange house_m3_s;    /**< the same over a heating season */
    PbHeatRange share;         /**< of these, through the bays with this fill */
    PbHeatRange cut;           /**< of these, what the fill takes off */
    PbHeatRange walls_50_m3_s, walls_m3_s; /**< through the bays with this fill */
    PbHeatRange heat_kwh;                  /**< that it carries out of the rooms in a year */
} PbCompareAir;

/** @brief Air with a fill at key time t; the empty bay: the walls as they are. */
void pb_compare_air(const PbCompare *compare, PbCompareFill fill, int t, PbCompareAir *air);
/** @brief The same at any time, even in the root of the years between the key times beside it. */
void pb_compare_air_at(const PbCompare *compare, PbCompareFill fill, double years,
                       PbCompareAir *air);

/** A picture. Row-major, bottom row first; borrowed until the compare is destroyed. */
typedef struct PbComparePicture {
    int nx, ny;
    const float *values;
} PbComparePicture;

/** @brief Pictures of the fill: (year_count - 1) (frames_between + 1) + 1. */
int pb_compare_frame_count(const PbCompare *compare);
double pb_compare_frame_years(const PbCompare *compare, int frame);
/** @brief Frame of key time t. */
int pb_compare_key_frame(const PbCompare *compare, int t);
/** @brief Density, kg/m3 per free volume; foam: its density where it is. values NULL while not
 * ready. */
PbComparePicture pb_compare_density(const PbCompare *compare, PbCompareFill fill, int frame);
/** @brief Settled state of a cellulose fill at a frame; NULL while not ready and for others. */
const PbSettleReport *pb_compare_settled(const PbCompare *compare, PbCompareFill fill, int frame);
/** @brief Foam at a frame, shipped values; NULL while not ready. Its gaps are at true size. */
const PbFoamState *pb_compare_foam(const PbCompare *compare, int frame);
/** @brief Free share of each cell of the bay, [ny][nx] doubles; ready after create. */
const PbBayField *pb_compare_bay(const PbCompare *compare);
/** @brief Room-side surface temperature, C, at key time t; NULL values while not ready.
 * @param[out] x0_m, x1_m where the picture starts and ends across the bay; both may be NULL */
PbComparePicture pb_compare_map(const PbCompare *compare, PbCompareFill fill, int t, double *x0_m,
                                double *x1_m);
const PbCompareSetup *pb_compare_setup(const PbCompare *compare);

/* ---- what to say ---- */

/** State of a fill, chosen by its figures alone. */
typedef enum PbCompareSays {
    PB_SAYS_NOTHING_YET, /**< not computed yet */
    PB_SAYS_EMPTY,       /**< these four: what the bay holds and no more, until the draws are in */
    PB_SAYS_LOOSE,
    PB_SAYS_FOAM,
    PB_SAYS_DENSE,
    PB_SAYS_EMPTY_LOOP,
    PB_SAYS_EMPTY_STILL,
    PB_SAYS_LOOSE_FULL,   /**< no gap over 10 mm in any draw */
    PB_SAYS_LOOSE_MAY,    /**< gap over 10 mm in some draws */
    PB_SAYS_LOOSE_GAP,    /**< gap over 10 mm in all */
    PB_SAYS_LOOSE_HOLLOW, /**< empty places inside, and the top not open in all draws */
    PB_SAYS_LOOSE_VOIDS,  /**< empty places inside, and the top open in all draws */
    PB_SAYS_FOAM_WET,     /**< a twentieth of the water injected is still in it */
    PB_SAYS_FOAM_TIGHT,   /**< no gap over 1 mm, no loop */
    PB_SAYS_FOAM_GAPS,    /**< gaps, no loop that matters */
    PB_SAYS_FOAM_LOOP,
    PB_SAYS_DENSE_FULL,
    PB_SAYS_DENSE_MAY,
    PB_SAYS_DENSE_GAP,
    PB_SAYS_DENSE_BLOWN_OUT, /**< the face gave way */
    PB_SAYS_DENSE_VOIDS,     /**< voids inside, whatever the top does */
    PB_SAYS_NOW,             /**< old fill or a batt in it: until the draws are in, and then */
    PB_SAYS_NOW_HEAT,
    PB_SAYS_LIMIT
} PbCompareSays;

/** Against the other good fill: dense for loose and foam, foam for dense. One rule on against_log
 * for both fills, so that two sentences of a pair are always mirror images. A tenth of the heat
 * counts as no difference (ours, no source). */
typedef enum PbCompareBeside {
    PB_BESIDE_NONE,    /**< nothing computed yet, or the empty bay */
    PB_BESIDE_WAITS,   /**< fewer than PB_COMPARE_ENOUGH_DRAWS draws of both */
    PB_BESIDE_SAME,    /**< the whole range within a tenth: "about the same as" */
    PB_BESIDE_UNCLEAR, /**< the range reaches to both sides of "the same heat" */
    PB_BESIDE_MORE,    /**< more heat over the whole range */
    PB_BESIDE_LESS
} PbCompareBeside;

typedef struct PbCompareSaying {
    PbCompareSays says;
    PbCompareBeside beside;
    PbCompareFill other; /**< whom beside speaks of */
    PbCompareFigures figures;
} PbCompareSaying;

/** @brief What the figures of this fill at key time t say. Words: io/compare_words.h. */
PbCompareSaying pb_compare_say(const PbCompare *compare, PbCompareFill fill, int t);
/** @brief The same of figures from elsewhere. */
PbCompareSaying pb_compare_say_of(PbCompareFill fill, const PbCompareFigures *figures);
/** @brief Whom a fill is held against; the empty bay: itself. */
PbCompareFill pb_compare_other(PbCompareFill fill);
/**
 * @brief Heat through one fill over that through another, draw by draw: 10 and 90 % points of
 * ln(other_r / own_r), widened to hold that of the shipped values. Exchanging the two gives the
 * same range mirrored, to the last bit.
 * @param[in] own_r, other_r R of the wall under the same draws, m2 K/W, above 0; `count` of each,
 *            0..PB_COMPARE_MAX_DRAWS
 * @param[in] own_mid, other_mid of the shipped values
 */
PbHeatRange pb_compare_against(const double *own_r, const double *other_r, int count,
                               double own_mid, double other_mid);

/* ---- what is assumed ---- */

typedef enum PbAssumedFrom {
    PB_ASSUMED_HOUSE,   /**< as the house has it: key is the path in the house file */
    PB_ASSUMED_CLIMATE, /**< of the climate file */
    PB_ASSUMED_CASE,    /**< how a fill was made: text */
    PB_ASSUMED_CONSTANT /**< a row of assets/constants.json: name, source and confidence of it */
} PbAssumedFrom;

typedef struct PbAssumed {
    PbAssumedFrom from;
    const char *key;         /**< "wall_area_m2", "climate/bay_rh", "foam_typical_dry" */
    const char *text;        /**< for values that are words; NULL for numbers */
    double value, low, high; /**< low = high: one value, not drawn */
    const char *unit;
    const char *source;     /**< English, as in the constants file; house: who typed it */
    const char *confidence; /**< of a constant, as in its file; "" for others */
    int is_drawn;           /**< moves in the draws */
} PbAssumed;

/**
 * @brief Every input that the results hang on: house, climate, cases, then each constant that heat,
 * settling or foam of this comparison uses.
 * @param[out] rows caller's array of `max`; strings live as long as the compare
 * @return how many were written, at most PB_COMPARE_MAX_ROWS
 */
int pb_compare_assumed(const PbCompare *compare, PbAssumed *rows, int max);

/* ---- the parts, for tests and other rooms ---- */

/** @brief One-foot steps after each stall, both passes set by the bay and its hole. */
PbHands pb_compare_well_done_hands(const PbExercise *bay);
/** @brief Two-foot steps by the clock, stalled or not, each left at about half of the time that it
 * needs to come to the target: a choice of ours, no source. */
PbHands pb_compare_hasty_hands(const PbExercise *bay);
/** @brief The bay as it is dense packed: where the tube does not reach from the hole to the farther
 * plate, as in a balloon frame, the hole is drilled at half the height, and where that is not
 * enough the tube is longer. A bay of several holes keeps them. */
PbExercise pb_compare_dense_bay(const PbExercise *bay);
/** @brief Blown at each hole of a loose bay in turn, no tube in the bay. */
PbHands pb_compare_loose_hands(const PbExercise *bay);
/** @brief The bay as a loose blow has it: an open-blowing machine and two holes, at half the height
 * and a foot under the top plate (one in a bay under 1.5 m); careless: one hole two feet under it,
 * and more feed. */
PbExercise pb_compare_loose_bay(const PbExercise *bay, PbLooseCase how);
/** @brief Step a session to its end with these hands and copy out the bay. Caller destroys it. */
PB_NODISCARD PbStatus pb_compare_pack(const PbExercise *bay, const PbHands *hands, uint64_t seed,
                                      const PbConstants *constants, const PbAllocator *allocator,
                                      PbBayField *field, PbError *err);
/**
 * @brief Gaps of a foam state as boxes for the heat solver: face, plates, studs, then cracks, the
 * widest first, at most 16 across and 6 along, as many as a section can put lines at; their
 * openings are then widened alike so that each axis still opens by what the foam lost. Openings
 * under 0.2 mm are left out: air in them does not move.
 * @return how many
 */
int pb_foam_heat_gaps(const PbFoamState *state, double width_m, double height_m, double depth_m,
                      PbHeatGap gaps[PB_HEAT_MAX_GAPS]);
/** @brief R of the wall of a house, with its share of framing, from its bay as solved with its
 * layers: mean of the ISO 6946 limits. */
double pb_compare_wall_r(const PbHeatBayResult *bay, const PbHouse *house,
                         const PbConstants *constants);

#endif
