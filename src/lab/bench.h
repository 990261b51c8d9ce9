/* Benchmarks by name; verb_bench.c holds the table. */
#ifndef LAB_BENCH_H
#define LAB_BENCH_H

#include "core/field.h"
#include "core/heat_case.h"

#include <stdio.h>

/* Each prints its own lines and gives nonzero when it could not run. */
int bench_pack(FILE *out);
int bench_years(FILE *out);
int bench_heat(FILE *out);
int bench_store(FILE *out);
int bench_floor(FILE *out);
int bench_paths(FILE *out);
int bench_compare(FILE *out);

/* What a unit of a hot path has to do at least, counted in the source: docs/SPEED.md. */
typedef struct BenchCost {
    double ops, divides, roots;      /* adds, subtracts and multiplies; the others */
    double bytes;                    /* read and written */
    int where;                       /* FloorSize that its data fit into */
    double in_turn, in_turn_divides; /* pairs of multiply and add, divisions that must wait */
} BenchCost;

/* Least ns of it on this machine, and which of its needs says so. */
double bench_cost_ns(const BenchCost *cost, const char **limit);
/* One line: path,NAME,UNIT,ns,floor ns,ratio,limit. */
void bench_path(FILE *out, const char *name, const char *unit, double ns, double floor_ns,
                const char *limit);
/* Paths of heat, years and store; nonzero when they could not run. */
int bench_paths_heat(FILE *out);
int bench_paths_years(FILE *out);
int bench_paths_store(FILE *out);
/* Least ns of a cell and step of 30 years. */
double bench_years_floor_ns(void);

/* What the tables and the paths share. The cases: 0 full fill, 1 gaps, 2 top void, 3 its flow
 * solved. A field: every strip different, or all the same. Caller destroys bays and fields. */
const char *bench_heat_case(PbHeatCase *c, int which);
PbStatus bench_heat_field(int same, PbBayField *f);
PbStatus bench_years_bay(int nx, int ny, double mean_kg_m3, double deviation, PbBayField *bay);
/* Best processor time of `repeats` runs over 30 years, ms; negative on failure. */
double bench_years_ms(const PbBayField *bay, int vector_path, int repeats, int *steps);
/* Best processor time of a listed row, ns, in a store of so many; negative on failure. */
double bench_store_row_ns(int rows, size_t *row_bytes);

#endif
