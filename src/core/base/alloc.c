/* The default allocator and the arena. Both give 64-byte alignment, the widest vector we use. */
#include "core/alloc.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define PB_ALIGN 64u

static size_t round_up(size_t bytes)
{
    return (bytes + (PB_ALIGN - 1u)) & ~(size_t)(PB_ALIGN - 1u);
}

/* The C library of Windows lacks aligned_alloc, and what it has instead free may not take. */
#ifdef _WIN32
#include <malloc.h>
static void *aligned_take(size_t bytes)
{
    return _aligned_malloc(bytes, PB_ALIGN);
}

static void aligned_give(void *memory)
{
    _aligned_free(memory);
}
#else
static void *aligned_take(size_t bytes)
{
    return aligned_alloc(PB_ALIGN, bytes);
}

static void aligned_give(void *memory)
{
    free(memory);
}
#endif

static void *default_alloc(void *user, size_t bytes)
{
    (void)user;
    if (bytes == 0 || bytes > SIZE_MAX - PB_ALIGN) {
        return NULL;
    }
    return aligned_take(round_up(bytes));
}

static void default_free(void *user, void *memory)
{
    (void)user;
    aligned_give(memory);
}

PbAllocator pb_allocator_default(void)
{
    PbAllocator a = {default_alloc, default_free, NULL};
    return a;
}

void *pb_arena_take_unset(PbArena *arena, size_t bytes)
{
    if (bytes > SIZE_MAX - PB_ALIGN) {
        return NULL;
    }
    size_t rounded = round_up(bytes);
    if (arena->base == NULL) {
        arena->used += rounded;
        return NULL;
    }
    if (rounded > arena->size - arena->used) {
        return NULL;
    }
    unsigned char *p = arena->base + arena->used;
    arena->used += rounded;
    return p;
}

void *pb_arena_take(PbArena *arena, size_t bytes)
{
    void *p = pb_arena_take_unset(arena, bytes);
    if (p != NULL) {
        memset(p, 0, round_up(bytes));
    }
    return p;
}
