/* Band factors and solves: right, the same bits at every vector width, and honest about failure. */
#include "heat/band.h"

#include "core/rng.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct System {
    PbBand band;
    void *block;
    double *full; /* [n][n], the matrix in the plain form */
    double *rhs, *x;
} System;

static System make_system(int n, int b, int is_symmetric, uint64_t seed)
{
    System s;
    PbArena a = {NULL, 0, 0};
    PbAllocator al = pb_allocator_default();
    int laid_out = is_symmetric && seed % 4 == 1; /* the others become symmetric later */
    pb_band_layout(&s.band, n, b, laid_out, &a);
    s.block = al.alloc(NULL, a.used);
    a = (PbArena){s.block, 0, a.used};
    memset(s.block, 0xFF, a.size); /* no number: what is not cleared must not be used */
    pb_band_layout(&s.band, n, b, laid_out, &a);
    pb_band_shape(&s.band, is_symmetric);
    pb_band_clear(&s.band);
    s.full = calloc((size_t)n * (size_t)n, sizeof(double));
    s.rhs = calloc((size_t)n, sizeof(double));
    s.x = calloc((size_t)n, sizeof(double));
    PbRng rng = pb_rng_make(seed, 1);
    for (int r = 0; r < n; r++) {
        s.rhs[r] = pb_rng_uniform(&rng) - 0.5;
        for (int c = r; c < n && c <= r + b; c++) {
            double v = c == r ? 2.0 * b + 1.0 : pb_rng_uniform(&rng) - 0.5;
            s.full[r * n + c] = v;
            s.full[c * n + r] = c == r || is_symmetric ? v : pb_rng_uniform(&rng) - 0.5;
            *pb_band_at(&s.band, r, c) = v;
            if (!is_symmetric) {
                *pb_band_at(&s.band, c, r) = s.full[c * n + r];
            }
        }
    }
    return s;
}

static void free_system(System *s)
{
    PbAllocator al = pb_allocator_default();
    al.free(NULL, s->block);
    free(s->full);
    free(s->rhs);
    free(s->x);
}

START_TEST(solves_every_shape_and_band)
{
    static const int size[][2] = {{1, 1},  {2, 1},   {5, 2},    {7, 6},
                                  {40, 3}, {41, 17}, {120, 33}, {203, 62}};
    for (int q = 0; q < 16; q++) {
        int n = size[q / 2][0], b = size[q / 2][1];
        System s = make_system(n, b, q % 2, (uint64_t)q);
        ck_assert(pb_band_kernels()->factor(&s.band));
        pb_band_kernels()->solve(&s.band, s.rhs, s.x);
        for (int r = 0; r < n; r++) {
            double sum = -s.rhs[r];
            for (int c = 0; c < n; c++) {
                sum += s.full[r * n + c] * s.x[c];
            }
            ck_assert_msg(fabs(sum) < 1e-13 * (b + 1), "n %d b %d row %d: %g", n, b, r, sum);
        }
        free_system(&s);
    }
}
END_TEST

START_TEST(gives_the_same_bits_at_every_vector_width)
{
    for (int is_symmetric = 0; is_symmetric < 2; is_symmetric++) {
        for (int b = 1; b < 70; b += 7) {
            double *kept = NULL;
            for (int level = 0; level < 3; level++) {
                const PbBandKernels *k = pb_band_kernels_level(level);
                if (k == NULL) {
                    continue;
                }
                System s = make_system(211, b, is_symmetric, 9);
                ck_assert(k->factor(&s.band));
                k->solve(&s.band, s.rhs, s.x);
                s.rhs[0] = k->dot(s.x, s.rhs + 1, 203);
                k->axpy(0.3, s.x, s.rhs, 211);
                if (kept == NULL) {
                    kept = malloc(422 * sizeof(double));
                    memcpy(kept, s.x, 211 * sizeof(double));
                    memcpy(kept + 211, s.rhs, 211 * sizeof(double));
                }
                ck_assert_msg(memcmp(kept, s.x, 211 * sizeof(double)) == 0, "%s b %d", k->name, b);
                ck_assert(memcmp(kept + 211, s.rhs, 211 * sizeof(double)) == 0);
                free_system(&s);
            }
            free(kept);
        }
    }
}
END_TEST

START_TEST(tells_a_singular_matrix)
{
    for (int is_symmetric = 0; is_symmetric < 2; is_symmetric++) {
        System s = make_system(30, 4, is_symmetric, 3);
        for (int c = 10; c <= 14; c++) {
            *pb_band_at(&s.band, 10, c) = 0.0;
            *pb_band_at(&s.band, is_symmetric ? 10 : c, is_symmetric ? c : 10) = 0.0;
        }
        for (int r = 6; r < 10; r++) {
            *pb_band_at(&s.band, r, 10) = 0.0;
            if (!is_symmetric) {
                *pb_band_at(&s.band, 10, r) = 0.0;
            }
        }
        ck_assert(!pb_band_kernels()->factor(&s.band));
        free_system(&s);
    }
    System s = make_system(30, 4, 1, 3);
    *pb_band_at(&s.band, 12, 12) = (double)NAN;
    ck_assert(!pb_band_kernels()->factor(&s.band));
    free_system(&s);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("heat_band");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, solves_every_shape_and_band);
    tcase_add_test(tc, gives_the_same_bits_at_every_vector_width);
    tcase_add_test(tc, tells_a_singular_matrix);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
