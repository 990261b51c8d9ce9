/**
 * @file job.h
 * @brief A job: a crew at a framed wall, from the look at it to the last line written down.
 *
 * Acts are done one by one (pb_job_act). Those that find, open and leave bays are acts of the crew
 * (core/crew.h); the others are here. A fill is one run of the packing model in one bay, through
 * one or more of its holes: a session of its own, so a bay that nobody works costs nothing, and a
 * bay is packed as it would be alone, to the bit. What goes on from bay to bay is the clock, the
 * material that stands in the hose (blown into the next bay, so counted once) and, for bays that
 * the crew packs on its own, the habits of those packed before (core/job_hands.h).
 *
 * A fill that a person works is booked with pb_job_fill_done; the others are worked by pb_job_run,
 * on any number of threads and with the same bits. Times of acts are known when all fills are.
 *
 * Depends on (wall, constants, seed, acts) alone. All SI but minutes.
 */
#ifndef CORE_JOB_H
#define CORE_JOB_H

#include "core/bays.h"
#include "core/crew.h"
#include "core/job_hands.h"
#include "core/watched.h"

#define PB_JOB_ACTS  1536
#define PB_JOB_FILLS 96
#define PB_JOB_HANDS 8
/** Number of the hands of a fill that goes on as the bays before it were packed. */
#define PB_JOB_AS_DONE (-1)
/** An act at a place means the clear hole within this distance of it. */
#define PB_JOB_NEAR_M 0.15

/* X(name, number, word in files, minutes). Append-only: numbers stand in kept jobs. Minutes: no
 * published figure for any single act was found; all are assumptions, the middle of what a crew
 * would say, and add up to what whole houses are reported to take. Of fill: plugging and moving on
 * come on top of the run itself. */
#define PB_JOB_ACT_LIST(X)                                                                         \
    X(WALL, 0, "", 0.0)                                                                            \
    X(LOOK, 1, "look", 5.0)                                                                        \
    X(CHECK, 2, "check", 8.0)                                                                      \
    X(PROTECT, 3, "protect", 20.0)                                                                 \
    X(ESTIMATE, 4, "estimate", 5.0)                                                                \
    X(TEST, 5, "test", 15.0)                                                                       \
    X(SEAL, 6, "seal", 5.0)                                                                        \
    X(FILL, 7, "fill", 0.6)                                                                        \
    X(PLUG, 8, "plug", 0.3)                                                                        \
    X(PATCH, 9, "patch", 1.5)                                                                      \
    X(CLEAN, 10, "clean", 15.0)                                                                    \
    X(FINGER, 11, "finger", 0.1)                                                                   \
    X(CORE, 12, "core", 4.0)                                                                       \
    X(CAMERA_AFTER, 13, "camera-after", 6.0)                                                       \
    X(LEAK_TEST, 14, "leak-test", 20.0)                                                            \
    X(WRITE, 15, "write", 8.0)

typedef enum PbJobActKind {
#define PB_JOB_ENUM(name, number, word, minutes) PB_JOB_##name = number,
    PB_JOB_ACT_LIST(PB_JOB_ENUM)
#undef PB_JOB_ENUM
        PB_JOB_ACT_KINDS
} PbJobActKind;

typedef struct PbJobActTraits {
    const char *word;
    double minutes; /**< of plug and patch: each hole */
} PbJobActTraits;

typedef struct PbJobAct {
    PbJobActKind kind;
    double at_min;  /**< not before this minute of the job; 0 = as soon as the last is done */
    PbCrewAct wall; /**< of WALL: the act; of seal, fill, finger and core: its place alone */
    int hands;      /**< of fill: number of the hands, or PB_JOB_AS_DONE */
    double bags;    /**< of estimate */
} PbJobAct;

/** An act as it was done. */
typedef struct PbJobDone {
    PbJobAct act;
    int crew_act; /**< of WALL: its number in the crew's record; else -1 */
    int bay;  /**< of the wall as it is, that it was done to; -1 = none. Not for a closed wall */
    int fill; /**< of fill: its number; else -1 */
    double minutes; /**< that it took; of fill without the run itself */
} PbJobDone;

/** One bay's fill. */
typedef struct PbJobFill {
    int bay;
    int act;                 /**< that began it */
    int hands;               /**< number, or PB_JOB_AS_DONE */
    int holes[PB_MAX_HOLES]; /**< numbers in the crew's record, in the order of use */
    int hole_count;
    int is_small; /**< smaller than the packing model was made for: taken as filled at the target,
                       nothing is known of its density */
    int is_run;   /**< all below is known */
    PbExercise exercise;
    PbHands used; /**< the hands that worked it; of a person: only the name */
    PbResult result;
    PbScore score; /**< by the rubric, years left out */
    PbLift lifts[PB_SCORE_MAX_LIFTS];
    PbLiftWatch watch[PB_SCORE_MAX_LIFTS]; /**< what the machine was set to at each stop */
    int lift_count;
    double ease_s; /**< feed shut before the pull, mean over its stops */
    PbPatch patches[PB_SCORE_MAX_PATCHES];
    int patch_count;
    double leak_before_m3_s_m2, leak_after_m3_s_m2; /**< at 75 Pa; negative = not worked out */
} PbJobFill;

typedef struct PbJob PbJob;

typedef struct PbJobConfig {
    PbFraming framing; /**< copied; one that pb_framing_check accepts */
    PbConstants constants;
    uint64_t seed;
    int cells_across;
    PbAllocator allocator; /**< used on any thread by pb_job_run */
    PbJobHands hands[PB_JOB_HANDS];
    int hand_count;
} PbJobConfig;

/** Runs body(context, i) for i = 0 .. count - 1, on any threads; as PbHeatParallel. Here i is the
 * number of a fill, which is run when the call returns, or is not its turn yet. */
typedef void (*PbJobParallel)(void *user, int count, void (*body)(void *context, int index),
                              void *context);

const PbJobActTraits *pb_job_act_traits(PbJobActKind kind);

/**
 * @param[in]  config copied
 * @param[out] job    caller calls pb_job_destroy
 * @return PB_OK; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_job_create(const PbJobConfig *config, PbJob **job, PbError *err);
/** @brief NULL is allowed. */
void pb_job_destroy(PbJob *job);

/**
 * @brief Do one act. A second fill of the same bay goes on with the first, from the next hole.
 * @param[in] act copied
 * @return PB_OK; PB_ERR_RANGE, PB_ERR_STATE with the reason: refused, nothing changed
 */
PB_NODISCARD PbStatus pb_job_act(PbJob *job, const PbJobAct *act, PbError *err);
/** @brief Work every fill that is not yet run. @return PB_OK, or the first failure by number */
PB_NODISCARD PbStatus pb_job_run(PbJob *job, PbJobParallel parallel, void *user, PbError *err);
/**
 * @brief The session of a fill that a person is to work: its start, and the hands' first acts.
 * @return PB_OK; PB_ERR_RANGE when the fill is small or there is no such one
 */
PB_NODISCARD PbStatus pb_job_fill_config(const PbJob *job, int fill, PbSessionConfig *config,
                                         PbError *err);
/**
 * @brief The hands of a fill, at its start: for who steps its session (pb_job_fill_config)
 * elsewhere than in pb_job_run, to the same bits. Of PB_JOB_AS_DONE: as the bays before it were
 * packed, all of which are run.
 * @return as pb_job_fill_config
 */
PB_NODISCARD PbStatus pb_job_fill_worker(const PbJob *job, int fill, PbJobWorker *worker,
                                         PbError *err);
/** @brief Book a fill that was worked to its end elsewhere. @param[in] watched ended; borrowed;
 * NULL for a fill that is small, which is taken as filled */
PB_NODISCARD PbStatus pb_job_fill_done(PbJob *job, int fill, PbWatched *watched, PbError *err);

/** @brief Take in what the stops of a fill that is run show of the hands (core/job_hands.h). */
void pb_habits_add(PbHabits *habits, const PbJobFill *fill);

const PbFraming *pb_job_framing(const PbJob *job);
const PbBays *pb_job_bays(const PbJob *job);
const PbCrew *pb_job_crew(const PbJob *job);
const PbJobConfig *pb_job_config(const PbJob *job);
const PbJobDone *pb_job_done(const PbJob *job, int *count);
int pb_job_fill_count(const PbJob *job);
/** @brief Fill number `i`, in the order in which they were begun. */
const PbJobFill *pb_job_fill(const PbJob *job, int i);
/** @brief Fill of a bay, or NULL. */
const PbJobFill *pb_job_fill_of(const PbJob *job, int bay);
/** @brief Air through all filled bays together at 75 Pa, m3/s, before they were filled and after:
 * what a blower door on these bays would tell. Both 0 where no bay is filled that it could compare.
 * Bays that nobody filled leak as before and are not in it. */
void pb_job_leak(const PbJob *job, double *before_m3_s, double *after_m3_s);
/** @brief Minute of the job at which act `index` began, by all fills that are run. */
double pb_job_minute(const PbJob *job, int index);
/** @brief Bays that the checks of the house (act check) showed are to be left: their places and
 * reasons as in the wall's file. NULL and 0 before that act. */
const PbLeave *pb_job_known_leaves(const PbJob *job, int *count);
/** @brief Has the crew seen this opening of the wall: from the room, or when the house was checked?
 */
int pb_job_opening_is_known(const PbJob *job, int opening);
int pb_job_opening_is_sealed(const PbJob *job, int opening);
/** @brief Is this bay of the wall to be left alone, as things stand (a bay that is open to another
 * space may be filled once its openings are sealed)? */
int pb_job_is_to_leave(const PbJob *job, int bay);
/** @brief The reason given for leaving a bay, or none. @param[out] act that gave it; may be NULL */
PbLeaveReason pb_job_left(const PbJob *job, int bay, int *act);
/** @brief Density of the fill at a place, mean of the patch there; negative = nothing is known. */
double pb_job_density(const PbJob *job, double x_m, double y_m);
/** @brief Hash over seed and all fills: wall, acts and seed that are the same give the same. */
uint64_t pb_job_hash(const PbJob *job);

#endif
