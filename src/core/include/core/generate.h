/**
 * @file generate.h
 * @brief Walls drawn by era and seed. Every distribution is a row of one file (assets/walls/
 * eras.json), with its source or "assumption"; nothing is drawn from numbers that stand in code.
 *
 * Same row values and seed: the same wall, to the bit.
 */
#ifndef CORE_GENERATE_H
#define CORE_GENERATE_H

#include "core/format_rows.h"
#include "core/framing.h"

#include <stdint.h>

#define PB_ERAS 4
extern const int pb_era_years[PB_ERAS]; /**< 1900, 1925, 1955, 1978 */

/** One era. A share is the chance that a wall, or a bay where it says so, has the thing. */
typedef struct PbEra {
    double length_low_m, length_high_m, height_m;
    double spacing_m, wide_spacing_m, wide_share; /**< of walls with the wide spacing */
    double offset_sd_m;                           /**< of a stud from its grid, cut off at 64 mm */
    double stud_m, depth_m, header_m;
    double plaster_share, thin_board_share; /**< of walls; what is left is 1/2 in board */
    double leak75_m3_s_m2, board_pitch_m;
    double window_share, door_share, chimney_share;
    double balloon_share; /**< of walls without a plate at the foot */
    double block_share;   /**< of bays */
    double brace_share;   /**< of each of the two corners */
    double batt_share;    /**< of walls with old batts in most bays */
    double box_per_m;     /**< outlets and switches, each with its cable */
    double knob_share;    /**< of walls with open wiring */
    double pipe_share, register_share, stain_share; /**< of walls with one such bay */
} PbEra;

/** @brief Numbers of PbEra: key, unit and range. */
const PbNumberRow *pb_era_rows(size_t *count);

/**
 * @brief Draw a wall.
 * @param[out] out accepted by pb_framing_check
 */
void pb_generate_wall(const PbEra *era, int year, uint64_t seed, PbFraming *out);

#endif
