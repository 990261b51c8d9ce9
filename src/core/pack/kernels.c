/* Which build of the inner loops to run, and the shape of the band matrix. */
#include "kernels.h"

void pb_band_of_grid(PbBand *band, int nx, int ny, PbArena *arena)
{
    band->n = nx * ny;
    band->half = nx;
    band->lead = ((2 * nx + 16 + 7) & ~7) + 1;
    size_t rows = (size_t)(band->n + band->half + 12);
    band->a = pb_arena_take(arena, rows * (size_t)band->lead * sizeof(double));
    band->pair = pb_arena_take(arena, 2 * rows * sizeof(double));
}

const PbKernels *pb_kernels_pick(int path)
{
#if defined(__x86_64__)
    int has2 = __builtin_cpu_supports("avx2") != 0;
    int has512 = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                 __builtin_cpu_supports("avx512vl");
    switch (path) {
    case 0:
        return has512 ? &pb_kernels_avx512 : (has2 ? &pb_kernels_avx2 : &pb_kernels_base);
    case 1:
        return &pb_kernels_base;
    case 2:
        return has2 ? &pb_kernels_avx2 : (const PbKernels *)0;
    case 3:
        return has512 ? &pb_kernels_avx512 : (const PbKernels *)0;
    default:
        return (const PbKernels *)0;
    }
#else
    return path <= 1 ? &pb_kernels_base : (const PbKernels *)0;
#endif
}
