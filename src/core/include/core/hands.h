/**
 * @file hands.h
 * @brief Scripted hands: key frames, or a rule that watches only what a crew could sense.
 *
 * A pure function of (hands, view so far): the same hands on the same session give the same
 * commands. Used by `run --hands`, by tests and by the search for a reference run.
 */
#ifndef CORE_HANDS_H
#define CORE_HANDS_H

#include "core/command.h"
#include "core/format_rows.h"
#include "core/status.h"
#include "core/view.h"

#define PB_MAX_KEY_FRAMES 512
#define PB_MAX_PASSES     16

typedef enum PbPullRule {
    PB_PULL_STALL,      /**< step back `wait_s` after the stall, which is heard: see stall_frac */
    PB_PULL_CLOCK,      /**< step back every `wait_s` */
    PB_PULL_CONTINUOUS, /**< drag at `speed_m_s` all the time */
    PB_PULL_NONE /**< leave the mouth where it is for `wait_s` after the stall, then finish */
} PbPullRule;

/**
 * One direction: run the tube to `first_m`, work back to `last_m`, both heights along the bay.
 * A height that the tube cannot reach is worked as far as the tube goes.
 */
typedef struct PbPass {
    int direction;  /**< +1 up, -1 down */
    double first_m; /**< height of the first stop */
    double last_m;  /**< height of the last stop */
    double hole;    /**< number of the hole that it is worked from; 0 = the one before */
} PbPass;

typedef struct PbKeyFrame {
    double time_s;
    PbCommand command;
} PbKeyFrame;

typedef struct PbHands {
    char name[64];
    int is_rule; /**< 0: key frames only */
    PbKeyFrame
        frames[PB_MAX_KEY_FRAMES]; /**< in order of time; with a rule they are extra commands */
    int frame_count;

    PbPullRule pull;
    double step_m;
    double wait_s;
    double stall_frac; /**< the stall is when the rattle of material (delivery at the mouth) has
                            fallen to this share of the feed, or of the best heard at this stop
                            where the blower never carried all of the feed, (0, 1) */
    double speed_m_s;  /**< of a step, or of the drag */
    double feed_kg_s;  /**< gate while packing; 0 = the exercise's */
    double blower;     /**< setting 0..1 */
    double air_only_s; /**< feed shut at the stall and air alone this long before the step */
    double max_stop_s; /**< give a stop up after this long, 0 = never */
    PbPass passes[PB_MAX_PASSES];
    int pass_count;
} PbHands;

/** Where a rule stands. Zero it to start. Plain value. */
typedef struct PbHandsState {
    int next_frame;
    int pass;
    int stage;
    double stop_y_m;     /**< where the mouth is or is going */
    double stop_start_s; /**< when packing began here */
    double best_kg_s;    /**< best delivery heard at this stop */
    double stall_s;      /**< when the stall was heard; negative = not yet */
    double stage_start_s;
    double tube_was_m; /**< tube length at the last tick, to feel that it is stuck */
    double stuck_s;    /**< how long it has not moved though pushed */
} PbHandsState;

/** @brief Numbers of PbHands outside its lists. */
const PbNumberRow *pb_hands_rows(size_t *count);
/** @brief Numbers of one PbPass. */
const PbNumberRow *pb_pass_rows(size_t *count);
/** Words of the file for PbPullRule, in the order of the enum. */
extern const char *const pb_pull_words[];
enum { PB_PULL_WORDS = PB_PULL_NONE + 1 };

/** @brief One-foot steps, one second after the stall, up from a low hole and then down. */
PbHands pb_hands_default(void);
/** @brief Judge a hands struct against an exercise-independent range table; as pb_exercise_check.
 */
PB_NODISCARD PbStatus pb_hands_check(const PbHands *hands, char *field, size_t size, PbError *err);
/**
 * @brief Commands for the next tick.
 * @param[out] commands caller's array of at least 16
 * @return how many were written; a PB_COMMAND_FINISH is the last that a rule gives
 */
int pb_hands_next(const PbHands *hands, PbHandsState *state, const PbView *view,
                  PbCommand *commands);

#endif
