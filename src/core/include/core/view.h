/**
 * @file view.h
 * @brief Read-only picture of a running session: all that a screen, a sound or a file may know.
 *
 * Pointers are borrowed until the next call that changes the session. Fields are row-major
 * [ny][nx], x across, y along the bay, origin bottom left, cell-centred.
 */
#ifndef CORE_VIEW_H
#define CORE_VIEW_H

#include "core/exercise.h"

#include <stdint.h>

/** Rattle of the largest feed; the feed of the shipped bays, nearly three quarters of it, is heard
 * as 1. */
#define PB_RATTLE_FULL 1.4

typedef enum PbPhase {
    PB_PHASE_WORKING,  /**< the person is at it */
    PB_PHASE_BLEEDING, /**< finish was asked: machine off, pressure bleeding */
    PB_PHASE_DONE,     /**< result is final */
    PB_PHASE_BLOWN_OUT /**< the panel gave way; result is final */
} PbPhase;

/** What was done to the bay besides packing it, and what a crew knows by it. Minutes are those that
 * acts take on a job and that the run does not play out. */
typedef struct PbActs {
    int hole;                       /**< in which the tube is: its index */
    int is_hole_open[PB_MAX_HOLES]; /**< no plug in it, the tube elsewhere */
    double ring_open_frac;          /**< of the hole with the tube */
    int is_found[PB_MAX_OPENINGS];  /**< seen from the room, or fill ran out of it */
    int is_sealed[PB_MAX_OPENINGS];
    double test_left_s; /**< until the static test is done */
    double tested_pa;   /**< what it read; 0 = none was made */
    PbLeaveReason left;
    double minutes;
} PbActs;

/** What a crew can sense. Closed-wall screens may use these and nothing else of the view. */
typedef struct PbSignals {
    double time_s;
    double blower_pa;      /**< gauge at the machine outlet */
    double flow_m3_s;      /**< air through the hose; only trainers' gauges show it */
    double blower_setting; /**< 0..1 as set */
    double blower_speed;   /**< of the blower wheel against full speed, spins up and down, 0..1.3 */
    double feed_set_kg_s;  /**< gate */
    double hose_load_kg;   /**< material in the hose: how the hose feels */
    double hose_pulse;     /**< 0 still .. 1 lively: shake of the hose */
    double rattle;         /**< 0 none .. 1 dense: grains heard in tube and hose; PB_RATTLE_FULL */
    double tube_in_m;      /**< foot marks at the hole */
    int direction;         /**< +1 mouth towards larger y, -1 towards smaller */
    double push_back_n;    /**< force of the tube on the hand */
    double leak_hiss;      /**< 0..1 */
    double creak;          /**< 0..1, panel noise */
    double bags_used;
    int machine_on;
    int plugged;
    double clear_left_s; /**< until the plug is out; above 0 the machine is locked out */
    double spill_kg_s; /**< fill coming out of the hole into the room, over the last half second */
    int spilling;      /**< it is worth a word: on from 2 g/s, off under 0.5 */
    double dust_at_hole; /**< 0..1, at the hole round the tube */
    PbActs acts;
} PbSignals;

typedef struct PbTuft {
    float x_m, y_m, u_m_s, v_m_s;
} PbTuft;

/** One stop of the mouth. */
typedef struct PbLift {
    double from_s, to_s;
    double mouth_y_m;
    double step_m;        /**< distance from the stop before; 0 for the first */
    double stall_s;       /**< when delivery fell to half of the best here; negative = never */
    double mass_kg;       /**< delivered here */
    double density_kg_m3; /**< mean within half a step of the mouth when the lift ended */
    int direction;
    int hole; /**< index of the hole that the tube was in */
} PbLift;

/** fed = in_bay + in_hose + airborne + lost_hole + lost_openings + lost_leaks + lost_outside +
 * cleared + fallen */
typedef struct PbLedger {
    double fed_kg;
    double in_bay_kg;
    double in_hose_kg;
    double airborne_kg;
    double lost_hole_kg;     /**< blow-back and dust round the tube */
    double lost_openings_kg; /**< through openings of the bay */
    double lost_leaks_kg;    /**< dust through cracks */
    double lost_outside_kg;  /**< fed with the mouth outside */
    double cleared_kg;       /**< thrown away with a plug */
    double fallen_kg;        /**< out of the broken face */
} PbLedger;

/** Height of the piece of the face that is loaded, and gives way, as one: what
 * about two pairs of fasteners see. Our choice. */
#define PB_FACE_PATCH_M 0.4

typedef struct PbView {
    const PbExercise *exercise;
    PbPhase phase;
    int tick;
    double time_s;
    PbSignals signals;
    PbLedger ledger;

    int nx, ny;
    double dx_m, dy_m;
    const double *density_kg_m3;      /**< fill per free volume of the cell */
    const double *density_past_kg_m3; /**< largest density the material has seen */
    const double *gas_pa;
    const double *free_frac; /**< share of the depth that fill can take: 0 blocked, 1 open */
    const double *bow_m;     /**< outward bow of the face */
    const double *load_pa;   /**< gas plus lateral fill pressure on the face */
    const double *leak_kg_s; /**< dust leaving, per cell: where leak dust shows */

    const PbTuft *tufts;
    int tuft_count;

    double mouth_x_m, mouth_y_m;
    double mouth_pa;
    double delivery_kg_s;  /**< material leaving the mouth */
    double best_flow_m3_s; /**< at this stop */
    double tube_speed_m_s; /**< + pushing in */
    double panel_peak_pa;  /**< load of the 0.4 m patch that is nearest to its strength now */
    double panel_peak_x_m, panel_peak_y_m;
    double panel_strength_pa; /**< of that patch */
    double panel_expected_pa; /**< strength that such a face is expected to have */
    double panel_heaviest_pa; /**< most loaded 0.4 m patch now, whatever its strength */
    double panel_heaviest_y_m;
    double panel_worst_over_strength; /**< over the whole run */
    double bow_max_m;
    double opening_lost_kg[PB_MAX_OPENINGS];

    const PbLift *lifts;
    int lift_count; /**< the last one is under way while working */
} PbView;

#endif
