/**
 * @file course.h
 * @brief The ladder of exercises, hints while practising, what to say after a run.
 *
 * Pure functions: ids and numbers come out, the words belong to whoever shows them. Limits below
 * are this program's own choice, as a trainer would talk: no published source.
 */
#ifndef CORE_COURSE_H
#define CORE_COURSE_H

#include "core/score.h"

/** Passed exercises that each lower level must show before the next opens; all when it has fewer.
 */
#define PB_COURSE_NEEDED 2

/** One exercise as the ladder sees it. */
typedef struct PbCourseItem {
    int level, order; /**< of the exercise file; level 0 = not part of the course, always open */
    int is_passed;    /**< some run of it passed */
} PbCourseItem;

/** @brief The item of an exercise. One that waits for an act that has no command yet counts for no
 * level and is always open. */
PbCourseItem pb_course_item(const PbExercise *exercise, int is_passed);
/**
 * @brief Which exercises are open: level 1 always, a level once every lower level that has
 * exercises shows PB_COURSE_NEEDED passed ones.
 * @param[out] is_open caller's array of `count`; 1 open, 0 not yet
 * @return how many are open. Deterministic, allocates nothing; `count` squared in time.
 */
int pb_course_unlock(const PbCourseItem *items, int count, unsigned char *is_open);
/** @brief The first open exercise not yet passed, by level and order. @return index, -1 = none. */
int pb_course_next(const PbCourseItem *items, int count);

/**
 * @brief How much of the wall a graded run of this exercise shows: 1 taped (outline and bow of the
 * face) on level 1, 2 closed (what a crew has) on all others and off the course.
 */
int pb_course_sight(const PbExercise *exercise);

/** What to say during practice. Value in brackets. */
typedef enum PbHintKind {
    PB_HINT_NONE,
    PB_HINT_PULL_BACK,  /**< the stall has lasted [s]: pull back about a foot */
    PB_HINT_LEFT_EARLY, /**< moved on [m] before the stall: wait for it */
    PB_HINT_LONG_STEP,  /**< one move of [m]: a foot is enough */
    PB_HINT_PLUG,       /**< hose full, stuck for [s]: power off, unplug, clear it */
    PB_HINT_PANEL,      /**< the panel creaks [0..1]: turn the blower down or pull back */
    PB_HINT_OUTSIDE,    /**< material runs with the mouth outside for [s]: shut the gate */
    PB_HINT_RUNS_AWAY,  /**< [s] at one place and no stall: stop and look where it goes */
    PB_HINT_KINDS
} PbHintKind;

typedef struct PbHint {
    PbHintKind kind;
    double value;
} PbHint;

/** What the coach remembers. Plain value; set up with pb_coach_start. */
typedef struct PbCoach {
    double full_kg; /**< material that fills the bay well, from its measured size */
    double feed_max_kg_s;
    double last_s, stop_s, stop_m;
    double best_rattle, stall_s; /**< at this stop; stall negative = not yet */
    double moved_from_m, still_s, outside_s, plug_s;
    int is_moving;
    int has_stalled; /**< at this stop, if only once: a slug may follow */
    PbHint shown;
    double shown_s, quiet_until_s;
} PbCoach;

/** @brief A coach for this bay: its size and machine are all it takes from the exercise. */
PbCoach pb_coach_start(const PbExercise *exercise);
/**
 * @brief At most one hint for this moment. Call once a tick with the signals of that tick; a hint
 * stays while its cause stays, at least 3 s, and the next one waits 4 s.
 * A function of the signals so far and nothing else of the run: in a closed wall it gives nothing
 * away. Deterministic, allocates nothing.
 */
PbHint pb_coach_next(PbCoach *c, const PbSignals *g);

/** What to try next. */
typedef enum PbAdvice {
    PB_ADVICE_KEEP,          /**< nothing cost much: the next exercise */
    PB_ADVICE_SHORTER_STEPS, /**< pull back less each time */
    PB_ADVICE_WAIT,          /**< wait for the stall and two seconds more */
    PB_ADVICE_MOVE_SOONER,   /**< go on once it has stalled */
    PB_ADVICE_LESS_BLOWER,   /**< panel load: turn down, give the air a way out */
    PB_ADVICE_LESS_FEED,     /**< plugs */
    PB_ADVICE_GATE_FIRST,    /**< shut the gate before the tube comes out */
    PB_ADVICE_MORE_MATERIAL, /**< soft places and little used: more stops, each to the stall */
    PB_ADVICE_COUNT_BAGS,    /**< more used than the bay holds: find where it went */
    PB_ADVICE_BEGIN,         /**< nothing was done */
    PB_ADVICE_LEAVE_IT,      /**< a bay that must not be filled */
    PB_ADVICE_REACH_ENDS,    /**< an end of the bay that no stop came near: turn the tube */
    PB_ADVICE_MORE_AIR,      /**< blower set or worn too low to pack */
    PB_ADVICE_SAFETY,        /**< the checks before work */
    PB_ADVICE_WEAK_FACE,     /**< air was short, and this face bears no more of it */
    PB_ADVICE_MEND_MACHINE,  /**< its best is too little: not before the first bay */
    PB_ADVICE_OWN_HOLE,      /**< behind wood: a hole of its own */
    PB_ADVICE_END_LONGER,    /**< soft under a plate: closer to it, and a little longer */
    PB_ADVICE_LONGER_TUBE,   /**< out of the tube's reach: a longer one, or another hole */
    PB_ADVICE_POWER_OFF,     /**< before a plug is cleared; and less feed, so that none comes */
    PB_ADVICE_SEAL,          /**< fill went out through an opening: seal it first */
    PB_ADVICE_LIMIT          /**< number of advices */
} PbAdvice;

/** Three sentences after a run: parts by their place in the score. */
typedef struct PbDebrief {
    int best;  /**< part with the largest share of its points; the heavier of equals */
    int worst; /**< part of the gate that is shut: safety before the wall; where all are open the
                    part that lost most by itself; -1 = none lost anything worth a word */
    PbAdvice next;
} PbDebrief;

/** @brief Choose the sentences. Deterministic, allocates nothing. */
PbDebrief pb_debrief(const PbScore *score);

#endif
