/**
 * @file strip.h
 * @brief One signal of a run against time, on a strip of its own.
 */
#ifndef PICTURE_STRIP_H
#define PICTURE_STRIP_H

#include "core/watched.h"
#include "picture/ground.h"

typedef enum PicSignal { PIC_PRESSURE, PIC_FLOW, PIC_FEED, PIC_SIGNALS } PicSignal;

/** All borrowed for the call. */
typedef struct PicStrip {
    GfxRect area;
    double span_s; /**< from its left to its right edge */
    double top;    /**< value at its upper edge, SI */
    PicSignal signal;
    const PbSample *samples;
    int sample_count;
} PicStrip;

/** @brief Pa, m3/s or kg/s of this sample. */
double pic_signal(const PbSample *sample, PicSignal signal);
/** @brief Largest value of the signal in a run. */
double pic_signal_top(const PbWatched *watched, PicSignal signal);
void pic_strip_ground(GfxShapes *list, const PicGround *ground, const PicStrip *strip);
/** @param[in] is_ghost of another run: thinner, and in another colour */
void pic_strip_curve(GfxShapes *list, const PicGround *ground, const PicStrip *strip, int is_ghost);

#endif
