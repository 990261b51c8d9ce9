/**
 * @file teach.h
 * @brief Evidence that marks and advice teach: simulated hands, what they come to, and four tables.
 *
 * A hand has habits, a reaction time, scatter, and now and then takes a lull for the stall. It is
 * given what a crew can sense (PbSignals) and what can be measured before the job, nothing else of
 * the run. How large its scatter is, is an assumption: nobody has measured one.
 */
#ifndef LAB_TEACH_H
#define LAB_TEACH_H

#include "core/course.h"
#include "core/rng.h"
#include "core/session.h"

enum { TEACH_FAR = 1, TEACH_NEAR = 2 };

/** Acts besides packing. */
enum {
    TEACH_RING = 1,    /**< opens a stuffed ring when the wall creaks */
    TEACH_SEALS = 2,   /**< seals the openings that show before work */
    TEACH_HOLES = 4,   /**< works every hole that is drilled, not the first alone */
    TEACH_LOOKS = 8,   /**< looks and tests before work, and leaves a bay for its reason */
    TEACH_GENTLE = 16, /**< as reads_bay */
    TEACH_ACTS_END = 32
};

/** What somebody does, as it can be told in a sentence. Zero is none of it. */
typedef struct TeachHabits {
    double step_m, step_sd_m;  /**< mean pull and its scatter */
    double wait_s, wait_sd_s;  /**< after the stall is heard */
    double clock_s;            /**< above 0: pulls after so long, and listens to nothing */
    double misheard_per_s;     /**< chance each second that a lull is taken for the stall */
    double late_share, late_s; /**< share of stalls that are noticed so much later */
    double react_s;            /**< from hearing to doing */
    double patience_s;         /**< above 0: a stop is given up after so long */
    double first_s;            /**< above 0: only the first stop of each way is */
    double grow_m;             /**< each pull of a way is so much longer than the last */
    double left_in_m;          /**< of the tube, when it is turned or the work is done */
    double outside_s;          /**< the machine runs so long before the tube goes in */
    double feed_share;         /**< of the gate that the exercise starts with */
    double blower;             /**< setting, 0..1 */
    int eases;                 /**< turns the blower down while the wall creaks */
    int ends;             /**< TEACH_FAR: the long way from the hole, TEACH_NEAR: the short one */
    double far_m, near_m; /**< first stop so far from the plate of that way */
    double end_wait_s;    /**< more at the first stop of each way */
    int checks_skipped;   /**< of the check list before work */
    int is_live;          /**< goes to clear a clog with the machine on, before it is off */
    int reads_bay;        /**< thin paneling gently, damp material leaner: seen before work */
    double acts_share;    /**< chance, drawn for each run and act, that TEACH_* is thought of */
} TeachHabits;

/** @brief One-foot steps, two seconds after the stall, both ends, no scatter, hears everything. */
TeachHabits teach_textbook(void);

/** A hand at work. Plain value; teach_hand_make, then teach_hand_next once a tick. */
typedef struct TeachHand {
    TeachHabits habits;
    PbRng rng;
    double height_m, hole_y_m, room_m3, feed_kg_s, feed_max_kg_s, blower;
    int acts, leaves_at_once;
    PbLeaveReason reason;           /**< that it would give; none: it never leaves */
    double holes_y_m[PB_MAX_HOLES]; /**< those that it works */
    int hole, hole_count;
    int stage, pass, direction, step_count;
    double target_m, tube_was_m, stuck_s;
    double stop_s, best, go_s, eased_s;
    PbCommand *out;
    int count;
} TeachHand;

/** @param[in] seed of its scatter; the wall has its own */
TeachHand teach_hand_make(const TeachHabits *habits, const PbExercise *exercise, uint64_t seed);
/** @param[out] out caller's array of at least 16 @return how many commands were written */
int teach_hand_next(TeachHand *h, const PbSignals *g, PbCommand *out);

enum { TEACH_FEET = 8 };

/** What a run came to. */
typedef struct TeachRun {
    PbScore score;
    PbResult result;
    PbDebrief debrief;
    double load;                    /**< peak, over the strength expected of such a face */
    double softest_kg_m3;           /**< mean of the softest 0.3 m */
    double softest_y_m;             /**< its middle */
    PbScoreFault softest_for;       /**< what the score lays it to */
    double foot_kg_m3[TEACH_FEET];  /**< mean of each eighth of the height, from below */
    double least_kg_m3, most_kg_m3; /**< of the squares of 0.1 m */
    int cleared_live;               /**< clogs that somebody went to clear under power */
} TeachRun;

/**
 * @brief One run from start to end, marked by the default rubric.
 * @param[in] climate of the exercise
 * @param[in] cells across the bay, 0: as usual
 * @param[out] run untouched unless PB_OK
 */
PB_NODISCARD PbStatus teach_run(const PbExercise *exercise, const PbClimate *climate,
                                const TeachHabits *habits, uint64_t seed, int cells, TeachRun *run);

/** A shipped exercise with its climate. */
typedef struct TeachBay {
    PbExercise exercise;
    PbClimate climate;
} TeachBay;

/** @brief By id, from the folder that holds `exercises` and `climates`. */
PB_NODISCARD PbStatus teach_bay(const char *assets, const char *id, TeachBay *bay, PbError *err);

/** A run to be made, and what it came to. `bay` is borrowed. */
typedef struct TeachJob {
    const TeachBay *bay;
    TeachHabits habits;
    uint64_t seed;
    int cells; /**< as in teach_run */
    TeachRun run;
    PbStatus status;
} TeachJob;

/** @brief All of them, on so many threads; the answer is the same for any number. */
PB_NODISCARD PbStatus teach_run_all(TeachJob *jobs, int count, int threads);

/**
 * @brief The weakest patch that any of the sheets of seeds 1 to `sheets` has.
 * @param[out] share of the strength expected of such a sheet
 */
PB_NODISCARD PbStatus teach_weakest_sheet(const TeachBay *bay, int sheets, double *share);

/** Skills of the table of levels, 0 the novice. */
enum { TEACH_SKILLS = 5 };
/** @brief Assumed hands of a skill. @param[in] skill 0 .. TEACH_SKILLS - 1 */
TeachHabits teach_skill(int skill);

/* A kind of beginner: one habit that is wrong. */
typedef struct TeachKind {
    const char *name, *words;
    TeachHabits habits;
} TeachKind;

enum { TEACH_KINDS = 10, TEACH_RUNS = 5 };

/** @brief One of the ten kinds. @param[in] index 0 .. TEACH_KINDS - 1 */
TeachKind teach_kind(int index);

/** What a learner did: to the first pass by lot, to one with 90 points or nothing left to improve
 * by advice, and at most TEACH_RUNS. */
typedef struct TeachCourse {
    int runs;      /**< made */
    int passed_at; /**< 1.., 0 = never */
    double marks[TEACH_RUNS];
    PbAdvice advice[TEACH_RUNS]; /**< given after each */
    double softest_kg_m3[TEACH_RUNS];
} TeachCourse;

/**
 * @brief Change the habit that an advice names, and no other, as somebody does who reads it.
 * @param[in,out] habits of the learner
 */
void teach_follow(TeachHabits *habits, PbAdvice advice);
/**
 * @brief Run after run on one bay, each on a fresh seed.
 * @param[in] is_random the advice that is followed is drawn by lot: the control
 */
PB_NODISCARD PbStatus teach_learn(const TeachBay *bay, const TeachHabits *start, uint64_t seed,
                                  int is_random, TeachCourse *course);

/** What a table needs. */
typedef struct TeachSetup {
    const char *assets;
    int seeds;        /**< 0: as many as the table of docs/TRAINERS.md has */
    int threads;      /**< 0: as many as there are cores */
    const char *only; /**< of the levels this exercise alone, by its id; NULL: all */
} TeachSetup;

/** What walls the newest forty techniques make, without a word of marks: for whoever ranks them. */
PB_NODISCARD PbStatus teach_print_walls(const TeachSetup *setup, PbError *err);
/** Tables of docs/TRAINERS.md, printed as Markdown. @return PB_OK, or what went wrong */
PB_NODISCARD PbStatus teach_print_learners(const TeachSetup *setup, PbError *err);
PB_NODISCARD PbStatus teach_print_seeds(const TeachSetup *setup, PbError *err);
PB_NODISCARD PbStatus teach_print_smooth(const TeachSetup *setup, PbError *err);
PB_NODISCARD PbStatus teach_print_sheets(const TeachSetup *setup, PbError *err);
PB_NODISCARD PbStatus teach_print_levels(const TeachSetup *setup, PbError *err);
PB_NODISCARD PbStatus teach_print_order(const TeachSetup *setup, PbError *err);

/** A technique to be ranked, in words and as a hand. */
typedef struct TeachTechnique {
    const char *name, *words;
    TeachHabits habits;
} TeachTechnique;

/** Two sets: that by which rules 5 were mended, and one that came after them. */
enum { TEACH_SETS = 2, TEACH_TECHNIQUES = 40, TEACH_ORDER_BAYS = 4 };

/** @brief One of the forty. @param[in] set 0 .. TEACH_SETS - 1 @param[in] index 0 ..
 * TEACH_TECHNIQUES - 1 */
TeachTechnique teach_technique(int set, int index);
/** Rank of each technique on a bay, 1 the best; equal ranks are equally good. */
typedef struct TeachRanking {
    const char *bay;
    double wanted_tau;
    int rank[TEACH_SETS][TEACH_TECHNIQUES];
} TeachRanking;
/** @brief The rankings that were made before any mark was seen. @return TEACH_ORDER_BAYS */
const TeachRanking *teach_rankings(void);
/** @brief Kendall's tau-b of ranks (1 best) and marks (large best), Kendall 1945. @return -1..1 */
double teach_tau_b(const int *ranks, const double *marks, int count);

#endif
