/* Benchmarks by name; verb_bench.c holds the table. */
#ifndef CLI_BENCH_H
#define CLI_BENCH_H

#include <stdio.h>

/* Each prints its own lines and gives nonzero when it could not run. */
int bench_pack(FILE *out);
int bench_store(FILE *out);

#endif
