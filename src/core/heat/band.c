/* Storage of band matrices and the choice of kernels. The arithmetic is in band_kernels.inc. */
#include "heat/band.h"

#include <string.h>

/* Doubles kept free round the vectors and the matrix: kernels read whole blocks past the ends. */
enum { PAD = 32 };

static ptrdiff_t round8(ptrdiff_t v)
{
    return (v + 7) / 8 * 8;
}

/* Room between rows so that what is read of one row past its ends, 15 columns to the right and 14
 * to the left (general), meets only zeros of its own, and (symmetric) whole-vector writes 7 columns
 * left of the diagonal touch nothing that is used. */
static ptrdiff_t stride_of(int b, int is_symmetric)
{
    return round8(is_symmetric ? b + 24 : 2 * b + 16);
}

void pb_band_layout(PbBand *band, int n, int b, int is_symmetric, PbArena *arena)
{
    *band = (PbBand){.n = n, .rows = (int)round8(n), .b = b, .is_symmetric = is_symmetric};
    band->stride = stride_of(b, is_symmetric);
    /* A narrow band takes more room as symmetric, which a general one may become. */
    ptrdiff_t half = stride_of(b, 1), most = half > band->stride ? half : band->stride;
    ptrdiff_t lead = round8(b + 24);
    size_t rows = (size_t)band->rows;
    size_t count = (size_t)lead + rows * (size_t)(most + 1) + (size_t)b + 2 * PAD;
    band->matrix_bytes = count * sizeof(double);
    band->memory = pb_arena_take_unset(arena, band->matrix_bytes);
    band->blocks = pb_arena_take_unset(arena, rows * 2 * PB_BAND_BLOCK * sizeof(double));
    band->inverse = pb_arena_take_unset(arena, (rows + PAD) * sizeof(double));
    band->forward = pb_arena_take_unset(arena, (rows + (size_t)b + 2 * PAD) * sizeof(double));
    band->backward = pb_arena_take_unset(arena, (rows + (size_t)b + 2 * PAD) * sizeof(double));
    band->multipliers = pb_arena_take_unset(arena, 4 * ((size_t)b + PAD) * sizeof(double));
    band->origin = band->memory == NULL ? NULL : band->memory + lead;
}

void pb_band_shape(PbBand *band, int is_symmetric)
{
    band->is_symmetric = is_symmetric;
    band->stride = stride_of(band->b, is_symmetric);
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
    double *first = start_of(band, 0), *last = start_of(band, band->n);
    double *end = band->origin + band->rows * (band->stride + 1) + band->b + 2 * PAD;
    memset(band->memory, 0, (size_t)(first - band->memory) * sizeof(double));
    memset(last, 0, (size_t)(end - last) * sizeof(double));
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
