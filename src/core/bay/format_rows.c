/*
 * Range tables of the file formats. The ranges say what the model was made for (bays of houses,
 * one-motor to two-motor blowers), not what is good practice: an exercise may well be a bad idea.
 * Next: exercise.c for rules that tie several numbers together.
 */
#include "bay/rows.h"

#include <stdio.h>

static const PbNumberRow exercise_rows[] = {
    {"bay", "width_m", "m", 0.15, 0.75, REQUIRED, AT(PbExercise, width_m)},
    {"bay", "height_m", "m", 0.5, 6.0, REQUIRED, AT(PbExercise, height_m)},
    {"bay", "depth_m", "m", 0.05, 0.40, REQUIRED, AT(PbExercise, depth_m)},
    {"bay", "tilt_deg", "degrees", 0, 90, OPTIONAL, AT(PbExercise, tilt_deg)},
    {"leaks", "leak75_m3_s_m2", "m3/s per m2 at 75 Pa", 1e-4, 0.2, REQUIRED,
     AT(PbExercise, leak75_m3_s_m2)},
    {"leaks", "exponent", "-", 0.5, 1, OPTIONAL, AT(PbExercise, leak_exponent)},
    {"leaks", "board_pitch_m", "m", 0.05, 0.6, OR_ZERO, AT(PbExercise, board_pitch_m)},
    {"leaks", "end_share", "-", 0, 0.95, OPTIONAL, AT(PbExercise, end_leak_share)},
    {"finish", "fastener_spacing_m", "m", 0.05, 1.0, OPTIONAL, AT(PbExercise, fastener_spacing_m)},
    {"finish", "strength_pa", "Pa", 200, 50000, OR_ZERO, AT(PbExercise, strength_pa)},
    {"hole", "x_m", "m", 0, 0.75, REQUIRED, AT(PbExercise, holes[0].x_m)},
    {"hole", "y_m", "m", 0, 6.0, REQUIRED, AT(PbExercise, holes[0].y_m)},
    {"hole", "bore_m", "m", 0.025, 0.13, OPTIONAL, AT(PbExercise, holes[0].bore_m)},
    {"hole", "open_frac", "-", 0, 1, OPTIONAL, AT(PbExercise, holes[0].open_frac)},
    {"machine", "static_pa", "Pa", 1000, 40000, OPTIONAL, AT(PbExercise, machine.static_pa)},
    {"machine", "open_flow_m3_s", "m3/s", 0.01, 0.12, OPTIONAL,
     AT(PbExercise, machine.open_flow_m3_s)},
    {"machine", "curve_exponent", "-", 0.5, 3, OPTIONAL, AT(PbExercise, machine.curve_exponent)},
    {"machine", "hose_length_m", "m", 1, 60, OPTIONAL, AT(PbExercise, machine.hose_length_m)},
    {"machine", "hose_bore_m", "m", 0.03, 0.11, OPTIONAL, AT(PbExercise, machine.hose_bore_m)},
    {"machine", "tube_length_m", "m", 0.4, 7, OPTIONAL, AT(PbExercise, machine.tube_length_m)},
    {"machine", "tube_bore_m", "m", 0.018, 0.08, OPTIONAL, AT(PbExercise, machine.tube_bore_m)},
    {"machine", "tube_outer_m", "m", 0.02, 0.09, OPTIONAL, AT(PbExercise, machine.tube_outer_m)},
    {"machine", "feed_max_kg_s", "kg/s", 0.005, 0.2, OPTIONAL,
     AT(PbExercise, machine.feed_max_kg_s)},
    {"machine", "feed_kg_s", "kg/s", 0, 0.2, OPTIONAL, AT(PbExercise, feed_kg_s)},
    {"material", "damp_frac", "kg/kg", 0, 0.5, OPTIONAL, AT(PbExercise, damp_frac)},
    {"material", "bag_kg", "kg", 2, 30, OPTIONAL, AT(PbExercise, bag_kg)},
    {"goal", "target_kg_m3", "kg/m3", 20, 90, OPTIONAL, AT(PbExercise, target_kg_m3)},
    {"goal", "pass_score", "of 100", 0, 100, OPTIONAL, AT(PbExercise, pass_score)},
    {"goal", "time_limit_s", "s", 10, 3600, OPTIONAL, AT(PbExercise, time_limit_s)},
    {"goal", "leave_kg", "kg", 0.02, 10, OR_ZERO, AT(PbExercise, leave_kg)},
    {"goal", "lost_max_kg", "kg", 0.01, 10, OR_ZERO, AT(PbExercise, lost_max_kg)},
    {"course", "level", "-", 1, 9, OR_ZERO, AT(PbExercise, level)},
    {"course", "order", "-", 1, 99, OR_ZERO, AT(PbExercise, order)},
};

/* of the list of further holes; the first one's are above */
static const PbNumberRow hole_rows[] = {
    {"", "x_m", "m", 0, 0.75, REQUIRED, AT(PbHole, x_m)},
    {"", "y_m", "m", 0, 6.0, REQUIRED, AT(PbHole, y_m)},
    {"", "bore_m", "m", 0.025, 0.13, OPTIONAL, AT(PbHole, bore_m)},
    {"", "open_frac", "-", 0, 1, OPTIONAL, AT(PbHole, open_frac)},
};

static const PbNumberRow obstacle_rows[] = {
    {"", "x0_m", "m", 0, 0.75, REQUIRED, AT(PbObstacle, x0_m)},
    {"", "y0_m", "m", 0, 6, REQUIRED, AT(PbObstacle, y0_m)},
    {"", "x1_m", "m", 0, 0.75, REQUIRED, AT(PbObstacle, x1_m)},
    {"", "y1_m", "m", 0, 6, REQUIRED, AT(PbObstacle, y1_m)},
    {"", "size_m", "m", 0.004, 0.2, OR_ZERO, AT(PbObstacle, size_m)},
    {"", "depth_frac", "-", 0.02, 1, REQUIRED, AT(PbObstacle, depth_frac)},
};

static const PbNumberRow opening_rows[] = {
    {"", "x0_m", "m", 0, 0.75, REQUIRED, AT(PbOpening, x0_m)},
    {"", "y0_m", "m", 0, 6, REQUIRED, AT(PbOpening, y0_m)},
    {"", "x1_m", "m", 0, 0.75, REQUIRED, AT(PbOpening, x1_m)},
    {"", "y1_m", "m", 0, 6, REQUIRED, AT(PbOpening, y1_m)},
    {"", "area_m2", "m2", 1e-6, 0.1, REQUIRED, AT(PbOpening, area_m2)},
    {"", "width_m", "m", 2e-4, 0.3, REQUIRED, AT(PbOpening, width_m)},
};

ROWS_OF(exercise_rows)
ROWS_OF(hole_rows)
ROWS_OF(obstacle_rows)
ROWS_OF(opening_rows)

int pb_row_allows(const PbNumberRow *row, double value)
{
    /* written so that NaN fails */
    return (value >= row->low && value <= row->high) || (row->is_zero_allowed && value == 0.0);
}

PbStatus pb_rows_check(const PbNumberRow *rows, size_t count, const void *values,
                       const char *prefix, char *field, size_t size, PbError *err)
{
    for (size_t i = 0; i < count; i++) {
        const PbNumberRow *row = &rows[i];
        double v = *(const double *)(const void *)((const char *)values + row->offset);
        if (!pb_row_allows(row, v)) {
            const char *in = prefix[0] != '\0' ? prefix : row->section;
            snprintf(field, size, "%s%s%s", in, in[0] != '\0' ? "/" : "", row->key);
            return pb_fail(err, PB_ERR_RANGE, "\"%s\": %g is out of range, expected %s%g to %g %s",
                           row->key, v, row->is_zero_allowed ? "0, or " : "", row->low, row->high,
                           row->unit);
        }
    }
    return PB_OK;
}
