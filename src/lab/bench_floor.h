/* What this machine can do at best, measured: the floors that hot paths are held against. */
#ifndef LAB_BENCH_FLOOR_H
#define LAB_BENCH_FLOOR_H

#include <stdio.h>

enum { FLOOR_WIDTHS = 3, FLOOR_SIZES = 4 };

/* ns of one core's processor time. A width that the machine lacks is HUGE_VAL. */
typedef struct BenchFloor {
    double op_ns[FLOOR_WIDTHS];     /* an add, subtract or multiply of independent chains */
    double divide_ns[FLOOR_WIDTHS]; /* of independent numbers */
    double sqrt_ns[FLOOR_WIDTHS];
    double chain_ns;             /* a multiply and an add that wait for each other, scalar */
    double chain_divide_ns;      /* a division that waits for the one before */
    double byte_ns[FLOOR_SIZES]; /* triad a = b + s c: bytes read and written */
} BenchFloor;

typedef enum FloorSize { FLOOR_L1, FLOOR_L2, FLOOR_L3, FLOOR_DRAM } FloorSize;

/* Processor time of this thread, s: does not count what other programs take. */
double bench_cpu_s(void);
/* The same of all threads together. */
double bench_all_cpu_s(void);
/* Measured once and kept; about 1.5 s the first time. */
const BenchFloor *bench_floor_get(void);
/* The best width of each. */
double bench_floor_op_ns(void);
double bench_floor_divide_ns(void);
double bench_floor_sqrt_ns(void);
/* Prints all of it, a line each: floor,WHAT,WHERE,VALUE,UNIT. */
int bench_floor(FILE *out);

#endif
