/* Grid lines of a section from the places that must be lines, and the model of wide voids. */
#ifndef HEAT_GRID_H
#define HEAT_GRID_H

#include "core/heat_section.h"

enum { PB_GRID_MAX_BREAKS = 512 };

/* Open air wider than this is a void, narrower a gap whose flow is solved. Our choice, no source.
 */
#define PB_HEAT_VOID_WIDTH_M 0.020

/* Between two breaks. Cells grow from the wished size at either end by `growth` per length. */
typedef struct PbGridSpan {
    double length_m;
    double size_m; /* wished size of cells at the ends of this span */
    double growth; /* of the size per length, 0 = even */
    int fewest;    /* cells, at least 1 */
} PbGridSpan;

/* n cells over `count` spans from `start`: line[n + 1]. @return 0 when n is too small. */
int pb_grid_lines(const PbGridSpan *span, int count, double start, int n, double *line);

/* Sort and unite breaks closer than `closest`. @return the new count. */
int pb_grid_sort(double *at, int count, double closest);

/* How open air conducts where its flow is not solved. */
typedef struct PbHeatVoids {
    double radiation_w_m2k;
    double convection_w_m2k; /* film of level heat flow across at most 5 K */
    double air_k_w_mk;
    double slot_height_m; /* > 0: tall slots by ISO 15099, in place of ISO 6946 */
} PbHeatVoids;

/* Cells inside open air that is wider than 20 mm both ways, or narrower, between solids, where
 * ISO 6946 has it moving: conductivity (h_r + h_a) x run width, a permeability that lets loops
 * pass, no link. docs/physics/heat.md, wide voids. Of p only sizes, lines, sides and up are read.
 */
void pb_heat_wide_voids(const PbHeatSetup *p, const PbHeatVoids *v, double *k_w_mk,
                        double *permeability_m2, unsigned char *no_radiation);

/* Open air in upright slots, from plate to plate, conducts as its moving mean does.
 * @return 0, nothing changed, when the air is not all in such slots. */
int pb_heat_mean_slots(const PbHeatSetup *p, double *k_w_mk, double *permeability_m2,
                       unsigned char *no_radiation);

#endif
