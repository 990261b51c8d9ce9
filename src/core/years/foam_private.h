/* Between foam.c and foam_cracks.c. */
#ifndef YEARS_FOAM_PRIVATE_H
#define YEARS_FOAM_PRIVATE_H

#include "core/foam.h"

enum { FOAM_AXIS_HEIGHT = 1, FOAM_AXIS_WIDTH = 2, FOAM_AXIS_DEPTH = 3 };

/* Openings along one axis: cracks in ascending place, and the gaps at both ends.
 * Returns the count of cracks. The openings sum to shrink_frac times the span. */
int foam_open_axis(const PbFoamCase *foam, int axis, double shrink_frac, PbFoamCrack *cracks,
                   double end_gap_m[2]);
int foam_lets_go_inside(const PbFoamCase *foam);

#endif
