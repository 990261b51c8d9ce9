/**
 * @file parallel.h
 * @brief Threads for the core's caller-supplied loops. Results do not depend on the count.
 */
#ifndef IO_PARALLEL_H
#define IO_PARALLEL_H

/** How many threads to use; the calling one counts. */
typedef struct IoParallel {
    int threads;
} IoParallel;

/** @brief As many as the machine has cores, 1..16. */
IoParallel io_parallel_default(void);
/** @brief A PbHeatParallel: run body(context, i) for i = 0..count-1. `user` is an IoParallel. */
void io_parallel_for(void *user, int count, void (*body)(void *context, int index), void *context);

#endif
