/* The runs of a fit on all cores, and what comes of them: core/fit.h. */
#ifndef CLI_FIT_RUN_H
#define CLI_FIT_RUN_H

#include "core/fit.h"
#include "io/boxes_file.h"

enum { CLI_FIT_NEXT = 8 };

/* What is asked. All borrowed. */
typedef struct CliFitAsk {
    const IoBoxes *boxes;
    const PbRig *rig;
    double scatter;
    uint64_t seed;
    int asks_next; /* also what another box would teach: 240 more runs */
} CliFitAsk;

/* What came of it. Large: not on the stack. */
typedef struct CliFitDone {
    PbFit fit;
    PbFitQuadratic density[PB_FIT_BOXES], gauge[PB_FIT_BOXES];
    PbFitBox used[PB_FIT_BOXES]; /* the boxes, less gauges that could not be used */
    int gauge_unused[PB_FIT_BOXES];
    PbFitBand plain;            /* density of the first box of pb_fit_next over the draws: 10, 50,
                                   90 % */
    double stays[CLI_FIT_NEXT]; /* of its spread, after each box of pb_fit_next */
} CliFitDone;

/* PB_OK; PB_ERR_RANGE at line and column: boxes that contradict themselves, or that no run can
 * pack; PB_ERR_MEMORY; what a run gave. */
PB_NODISCARD PbStatus cli_fit(const CliFitAsk *ask, CliFitDone *done, PbError *err);

#endif
