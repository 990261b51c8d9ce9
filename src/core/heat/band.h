/* Band matrices: factors without pivoting and solves, for the heat sections.
 *
 * Two shapes share one storage. General: rows r hold columns r-b .. r+b. Symmetric positive
 * definite: rows hold columns r .. r+b. Element (r, c) stands at origin[r * stride + c], so a
 * column has the same alignment in every row. Without pivoting is safe here: the energy matrix is
 * the sum of a positive definite and a skew part, the stream-function matrix is positive definite.
 *
 * The work is done by one body of code built for several vector widths (band_kernels.inc). All do
 * the same operations on every element in the same order, so all give the same bits.
 */
#ifndef HEAT_BAND_H
#define HEAT_BAND_H

#include "core/alloc.h"

/* Unknowns that a solve takes at a time. */
enum { PB_BAND_BLOCK = 8 };

typedef struct PbBand {
    int n;    /* rows, as asked */
    int rows; /* rows stored: n rounded up to whole blocks, the rest identity */
    int b;    /* half band */
    int is_symmetric;
    ptrdiff_t stride; /* doubles from a row to the next, less one column */
    double *memory;   /* from which all below are cut */
    double *origin;   /* element (0, 0) */
    double *inverse;  /* 1 / pivot, [rows] */
    double *blocks;   /* inverses of the diagonal blocks, [rows / 8][lower, upper][8][8] */
    double *forward;  /* scratch vectors, padded */
    double *backward;
    double *multipliers; /* scratch of the factorisation */
    /* Clears and writes some rows from `first` on, so that factors are made while they are at hand;
     * @return how many. NULL: all are written before. */
    int (*fill)(void *user, int first);
    void *fill_user;
    size_t matrix_bytes;
} PbBand;

typedef struct PbBandKernels {
    const char *name;
    int (*factor)(PbBand *band);
    void (*solve)(PbBand *band, const double *rhs, double *x);
    double (*dot)(const double *a, const double *b, int n);
    void (*axpy)(double s, const double *a, double *y, int n); /* y += s a */
} PbBandKernels;

/* Cut the arrays from the arena (a NULL base measures). The matrix has to be cleared before use. */
void pb_band_layout(PbBand *band, int n, int b, int is_symmetric, PbArena *arena);
/* A band laid out as general takes either shape. It has to be cleared afterwards. */
void pb_band_shape(PbBand *band, int is_symmetric);
/* All elements zero, padding rows identity. */
void pb_band_clear(PbBand *band);
/* The same in parts, for a matrix that is written while its rows are still at hand: what is not in
 * rows 0 to n - 1, and some of those. */
void pb_band_clear_ends(PbBand *band);
void pb_band_clear_rows(PbBand *band, int first, int count);

static inline double *pb_band_at(const PbBand *band, int r, int c)
{
    return band->origin + (ptrdiff_t)r * band->stride + c;
}

/* Widest kernels of this machine; level 0, 1, 2 asks for base, avx2, avx512 (NULL when absent). */
const PbBandKernels *pb_band_kernels(void);
const PbBandKernels *pb_band_kernels_level(int level);

extern const PbBandKernels pb_band_kernels_base;
extern const PbBandKernels pb_band_kernels_avx2;
extern const PbBandKernels pb_band_kernels_avx512;

#endif
