/**
 * @file result_file.h
 * @brief What a run says of itself: the JSON result and the table of signals;
 * docs/formats/result.md.
 */
#ifndef IO_RESULT_FILE_H
#define IO_RESULT_FILE_H

#include "core/session.h"
#include "io/doc.h"

#include <stdio.h>

#define IO_RESULT_FORMAT  "pullback result 1"
#define IO_SIGNALS_FORMAT "# pullback signals v1"

/** Everything that goes into a result. Pointers are borrowed for the call. */
typedef struct IoRunResult {
    const PbExercise *exercise;
    const char *hands_name;
    const char *constants; /**< file of other numbers of the model; NULL = the shipped ones */
    uint64_t seed;
    int cells_across;
    PbResult result;
    const PbLift *lifts;
    int lift_count;
    const PbEvent *events; /**< the stalls among them are listed */
    int event_count;
    double realtime_factor;
    double leak75_empty_m3_s_m2; /**< negative = not measured */
    double leak75_packed_m3_s_m2;
} IoRunResult;

/** @brief Word of a phase as in the file: "working", "bleeding", "done", "blown-out". */
const char *io_phase_word(PbPhase phase);
/** @brief @return caller gives it back with json_decref; NULL when memory ran out. */
json_t *io_result_to_json(const IoRunResult *run);
/** @brief First lines of the signals table. */
void io_signals_header(FILE *out);
/** @brief One row of the signals table. */
void io_signals_row(FILE *out, const PbView *view);

#endif
