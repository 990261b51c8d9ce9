/* Private to app: which patches of an aged fill are hatched. Shared by Years later and Side by
 * side. */
#ifndef APP_AGED_MARKS_H
#define APP_AGED_MARKS_H

#include "core/field.h"

#include <stdint.h>

/* A bay inside a wider picture: rows are `stride` cells apart. */
typedef struct AgedPicture {
    const PbBayField *bay; /* sizes and free_frac */
    const float *density;  /* kg/m3 */
    uint8_t *marks;        /* written: 0 plain, 1 under target, 2 void */
    int stride;
    double top_gap_m, target_kg_m3, void_kg_m3;
} AgedPicture;

void aged_marks(const AgedPicture *p);

#endif
