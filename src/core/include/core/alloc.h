/**
 * @file alloc.h
 * @brief Memory by the caller's rule, and an arena so that a step allocates nothing.
 */
#ifndef CORE_ALLOC_H
#define CORE_ALLOC_H

#include "core/status.h"

/** Passed in at creation and copied. alloc returns NULL on failure; memory is 64-byte aligned. */
typedef struct PbAllocator {
    void *(*alloc)(void *user, size_t bytes);
    void (*free)(void *user, void *memory);
    void *user;
} PbAllocator;

/** @brief The C library's aligned_alloc and free. */
PbAllocator pb_allocator_default(void);

/** Bump allocator over one block: everything in it dies together. */
typedef struct PbArena {
    unsigned char *base;
    size_t used;
    size_t size;
} PbArena;

/**
 * @brief Take bytes from the arena, zeroed, 64-byte aligned.
 * A NULL base measures: used grows and NULL comes back, so one layout function both sizes and
 * places. @return NULL when measuring or full.
 */
void *pb_arena_take(PbArena *arena, size_t bytes);
/** @brief The same with whatever stands there: for what is written before it is read. */
void *pb_arena_take_unset(PbArena *arena, size_t bytes);

#endif
