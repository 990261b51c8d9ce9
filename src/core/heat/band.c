/* Storage of band matrices and the choice of kernels. The arithmetic is in band_kernels.inc. */
#include "heat/band.h"

#include <string.h>

/* Doubles kept free round the vectors and the matrix: kernels read whole blocks past the ends. */
enum { PAD = 32 };

static ptrdiff_t round8(ptrdiff_t v)
{
    return (v + 7) / 8 * 8;
}

void pb_band_layout(PbBand *band, int n, int b, int is_symmetric, PbArena *arena)
{
    *band = (PbBand){.n = n, .rows = (int)round8(n), .b = b, .is_symmetric = is_symmetric};
    /* Room between rows so that whole-vector reads of one row meet only zeros of its own, and
     * (symmetric) whole-vector writes left of the diagonal touch nothing that is used. */
    ptrdiff_t half = round8(b + 36), whole = round8(2 * b + 20);
    band->stride = is_symmetric || half > whole ? half : whole;
    ptrdiff_t lead = round8(b + 24);
    size_t rows = (size_t)band->rows;
    size_t count = (size_t)lead + rows * (size_t)(band->stride + 1) + (size_t)b + 2 * PAD;
    band->matrix_bytes = count * sizeof(double);
    band->memory = pb_arena_take_unset(arena, band->matrix_bytes);
    band->blocks = pb_arena_take_unset(arena, rows * 2 * PB_BAND_BLOCK * sizeof(double));
    band->inverse = pb_arena_take_unset(arena, (rows + PAD) * sizeof(double));
    band->forward = pb_arena_take_unset(arena, (rows + (size_t)b + 2 * PAD) * sizeof(double));
    band->backward = pb_arena_take_unset(arena, (rows + (size_t)b + 2 * PAD) * sizeof(double));
    band->multipliers = pb_arena_take_unset(arena, 4 * ((size_t)b + PAD) * sizeof(double));
    band->origin = band->memory == NULL ? NULL : band->memory + lead;
}

/* Memory of a row and its share of the room between rows. */
static double *start_of(const PbBand *band, int r)
{
    return pb_band_at(band, r, r - (band->is_symmetric ? PB_BAND_BLOCK : band->b));
}

void pb_band_clear_rows(PbBand *band, int first, int count)
{
    memset(start_of(band, first), 0, (size_t)(band->stride + 1) * (size_t)count * sizeof(double));
}

void pb_band_clear_ends(PbBand *band)
{
    char *first = (char *)start_of(band, 0), *last = (char *)start_of(band, band->n);
    memset(band->memory, 0, (size_t)(first - (char *)band->memory));
    memset(last, 0, (size_t)((char *)band->memory + band->matrix_bytes - last));
    for (int r = band->n; r < band->rows; r++) {
        *pb_band_at(band, r, r) = 1.0;
    }
}

void pb_band_clear(PbBand *band)
{
    pb_band_clear_ends(band);
    pb_band_clear_rows(band, 0, band->n);
}

const PbBandKernels *pb_band_kernels_level(int level)
{
#if defined(__x86_64__)
    if (level == 1) {
        return __builtin_cpu_supports("avx2") ? &pb_band_kernels_avx2 : NULL;
    }
    if (level == 2) {
        return __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                       __builtin_cpu_supports("avx512vl")
                   ? &pb_band_kernels_avx512
                   : NULL;
    }
#endif
    return level == 0 ? &pb_band_kernels_base : NULL;
}

const PbBandKernels *pb_band_kernels(void)
{
    for (int level = 2; level > 0; level--) {
        const PbBandKernels *k = pb_band_kernels_level(level);
        if (k != NULL) {
            return k;
        }
    }
    return &pb_band_kernels_base;
}
