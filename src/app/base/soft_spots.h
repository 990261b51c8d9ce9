/* Private to app: where a packed bay is soft, as brackets of height for the result. No SDL here. */
#ifndef APP_SOFT_SPOTS_H
#define APP_SOFT_SPOTS_H

#include "core/session.h"

enum { SOFT_SPOTS_MAX = 6 };

/* A bracket says one thing, and only of the rows that it is true of. */
typedef enum SoftKind {
    SOFT_LOW,   /* a patch under target, none empty */
    SOFT_PART,  /* empty in a part of the width */
    SOFT_EMPTY, /* empty from stud to stud */
} SoftKind;

typedef struct SoftSpot {
    SoftKind kind;
    double y0_m, y1_m;
    double kg_m3; /* SOFT_PART: mean of its patches; else of the softest one */
} SoftSpot;

/* The softest brackets, at most SOFT_SPOTS_MAX, in order of height. Patches come row by row. */
int soft_spots(const PbPatch *patches, int count, double target_kg_m3, double void_kg_m3,
               SoftSpot *out);

#endif
