/**
 * @file job_hands.h
 * @brief Hands that pack one bay after another: a rule of core/hands.h whose passes follow from the
 * holes of each bay, with the scatter of a person; and the habits of bays that were packed.
 */
#ifndef CORE_JOB_HANDS_H
#define CORE_JOB_HANDS_H

#include "core/hands.h"
#include "core/rng.h"

/** Hands for any bay. */
typedef struct PbJobHands {
    PbHands rule;     /**< its own passes are not used */
    int does_up;      /**< works the part above the hole */
    int does_down;    /**< and the part below it */
    double end_m;     /**< first stop so far from the end of the bay */
    double step_sd_m; /**< scatter of step and wait from stop to stop; 0 = none */
    double wait_sd_s;
    double early_frac; /**< share of stops left by the clock, before their stall */
    double early_s;    /**< after this long */
} PbJobHands;

/** What a packed bay or several show of the hands that did it. Zero it to start. */
typedef struct PbHabits {
    int stops, steps; /**< stops with material; steps between them */
    int waits, early; /**< stops that a step ended after the stall, and before it */
    double step_sum_m, step_square_m2;
    double wait_sum_s, wait_square_s2; /**< after the stall, over waits */
    double early_sum_s;                /**< at stops left early */
    double ease_sum_s;                 /**< feed shut before the pull, over stops */
    double feed_sum_kg_s, blower_sum;  /**< over stops */
    double end_sum_m;                  /**< first stop from the end, over ends */
    int ends, up, down;                /**< stops with the mouth up, down */
} PbHabits;

/** @brief One-foot steps, one second after the stall and one of air alone, both ways. */
PbJobHands pb_job_hands_default(void);
/** @brief Numbers of PbJobHands besides those of its rule. */
const PbNumberRow *pb_job_hands_rows(size_t *count);
/** @brief Hands with these habits. @param[in] habits with at least one stop */
PbJobHands pb_habits_hands(const PbHabits *habits, const PbJobHands *like);
/**
 * @brief The rule for one bay: passes from each hole towards both ends, as far as the tube goes.
 * @param[in] height_m of the bay
 * @param[in] hole_y_m heights of the holes, in the order of use
 */
PbHands pb_job_hands_for(const PbJobHands *hands, double height_m, const double *hole_y_m,
                         int count);

/** Hands with scatter, at work. */
typedef struct PbJobWorker {
    PbJobHands hands;
    PbHands now; /**< step and wait of this stop */
    PbHandsState state;
    PbRng rng;
    double stop_start_s;     /**< of the stop that the draw was for */
    int is_clearing, was_on; /**< a clog is being cleared; the machine was on before */
} PbJobWorker;

/** @brief Begin. @param[in] rule of pb_job_hands_for */
PbJobWorker pb_job_worker(const PbJobHands *hands, const PbHands *rule, uint64_t seed);
/** @brief Commands for the next tick, as pb_hands_next. */
int pb_job_worker_next(PbJobWorker *worker, const PbView *view, PbCommand *commands);

#endif
