/**
 * @file travel.h
 * @brief Travel of the mouth: height against time, on the height scale of the bay beside it. Every
 * stop is a block as high as its step, hatched where it is under target.
 */
#ifndef PICTURE_TRAVEL_H
#define PICTURE_TRAVEL_H

#include "core/watched.h"
#include "picture/ground.h"

/** Where the density of a stop stands that is too short for it. */
typedef enum PicStopFigures {
    PIC_FIGURES_INSIDE,  /**< nowhere: rings stand beside the stops */
    PIC_FIGURES_BESIDE,  /**< beside it, where nothing else stands */
    PIC_FIGURES_NUMBERED /**< the same, and each with the number of its stop */
} PicStopFigures;

/** All borrowed for the call. */
typedef struct PicTravel {
    GfxRect area;                  /**< time runs from its left to its right edge */
    double bottom, px_m;           /**< where height 0 lies; a metre, in units of the ground */
    double from_s, span_s;         /**< of the left edge, and from there to the right one */
    double height_m, target_kg_m3; /**< of the bay */
    const PbSample *samples;
    int sample_count;
    const PbLift *lifts;
    int lift_count;         /**< that are over */
    const PbRubric *rubric; /**< says what a stop is */
    int chosen;             /**< this lift is; negative = none */
} PicTravel;

float pic_travel_x(const PicTravel *travel, double time_s);
float pic_travel_y(const PicTravel *travel, double height_m);
/** @brief From one rule to the next: 0.5 m or 2 ft. */
double pic_travel_rule_m(int is_us);
/** @brief Rules across, from height 0 on. */
void pic_travel_rules(GfxShapes *list, const PicGround *ground, const PicTravel *travel, int is_us);
/** @brief The stops, with their densities. */
void pic_travel_stops(GfxShapes *list, const PicGround *ground, const PicTravel *travel,
                      PicStopFigures kind);
/** @brief The way of the mouth. @param[in] now where it is; NULL = the samples are all of it */
void pic_travel_trace(GfxShapes *list, const PicGround *ground, const PicTravel *travel,
                      const GfxPoint *now);
/** @brief The way of another run, in dashes. */
void pic_travel_ghost(GfxShapes *list, const PicGround *ground, const PicTravel *travel);

#endif
