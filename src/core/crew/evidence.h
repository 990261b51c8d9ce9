/* What the record of a crew says about places: hollow here, wood there, a face of wood at the end
 * of a slanted rod or of a tube. */
#ifndef CREW_EVIDENCE_H
#define CREW_EVIDENCE_H

#include "core/crew.h"

enum { EVIDENCE_MAX = 2 * PB_CREW_ACTS };

/* A place of wood right behind the finish, or a face of it. */
typedef struct Wood {
    double x_m, y_m;
    int to_right; /* a face: wood begins to the right of it (1), to the left (-1), 0 = no such */
    int to_top;   /* the same above and below */
} Wood;

typedef struct Evidence {
    PbRect hollow[EVIDENCE_MAX]; /* where rod or tube went: lines, mostly */
    int hollow_count;
    Wood wood[EVIDENCE_MAX];
    int wood_count;
} Evidence;

void crew_evidence(const PbCrew *crew, Evidence *e);

#endif
