/* The band solver of the gas equation: every width of vector, the two grids whose size it knows and
 * bays of other widths, bit for bit against one pivot at a time written plainly. */
#include "pack/kernels.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

enum { MAX_UNKNOWNS = 48 * 13 };

/* Symmetric, diagonally dominant, every entry inside the band filled: nothing hides in zeros. */
static double entry(int k, int t, int half)
{
    double off = -0.3 - 0.7 * (double)((k * 31 + t * 17) % 23) / 23.0;
    return t == 0 ? 2.5 * half + 0.25 * (double)(k % 7) : off;
}

static void sides(int n, double *x, double *y)
{
    for (int k = 0; k < n; k++) {
        x[k] = (double)(k % 11) - 3.0;
        y[k] = 1.0 / (1.0 + k);
    }
}

/* The same operations on every number in the same order, without any blocks. a: [n][half + 1] */
static void plain(int n, int half, double *a, double *x, double *y)
{
    const int lead = half + 1;
    for (int k = 0; k < n; k++) {
        double *u = a + k * lead;
        const double inv = 1.0 / u[0];
        for (int j = 1; j <= half && k + j < n; j++) {
            const double m = u[j] * inv;
            for (int t = 0; t <= half - j; t++) {
                a[(k + j) * lead + t] -= m * u[j + t];
            }
            x[k + j] -= m * x[k];
            y[k + j] -= m * y[k];
        }
        u[0] = inv;
    }
    double *both[2] = {x, y};
    for (int side = 0; side < 2; side++) {
        double *v = both[side];
        for (int k = n - 1; k >= 0; k--) {
            double s[8] = {0};
            for (int t = 1; t <= half && k + t < n; t++) {
                s[(t - 1) % 8] += a[k * lead + t] * v[k + t];
            }
            v[k] = a[k * lead] *
                   (v[k] - (((s[0] + s[1]) + (s[2] + s[3])) + ((s[4] + s[5]) + (s[6] + s[7]))));
        }
    }
}

static void compare(const PbKernels *kernels, int nx, int ny)
{
    static double a[MAX_UNKNOWNS * 49], x[MAX_UNKNOWNS], y[MAX_UNKNOWNS];
    PbArena arena = {NULL, 0, 0};
    PbBand band;
    const int n = nx * ny, rows = n + nx + 8;
    pb_band_of_grid(&band, nx, ny, &arena);
    size_t size = arena.used;
    void *block = malloc(size);
    double *p = calloc((size_t)rows, sizeof *p), *q = calloc((size_t)rows, sizeof *q);
    ck_assert(block != NULL && p != NULL && q != NULL);
    arena = (PbArena){block, 0, size};
    pb_band_of_grid(&band, nx, ny, &arena);
    for (int k = 0; k < n; k++) {
        for (int t = 0; t <= nx; t++) {
            double v = k + t < n ? entry(k, t, nx) : 0.0;
            a[k * (nx + 1) + t] = v;
            band.a[(size_t)k * (size_t)band.lead + (size_t)t] = v;
        }
    }
    sides(n, x, y);
    sides(n, p, q);
    plain(n, nx, a, x, y);
    kernels->band_solve2(&band, p, q);
    for (int k = 0; k < n; k++) {
        ck_assert_msg(memcmp(&x[k], &p[k], sizeof *x) == 0 && memcmp(&y[k], &q[k], sizeof *y) == 0,
                      "%s, %d x %d, unknown %d: %.17g is not %.17g", kernels->name, nx, ny, k, p[k],
                      x[k]);
    }
    free(p);
    free(q);
    free(block);
}

START_TEST(every_width_and_size_gives_the_bits_of_one_pivot_at_a_time)
{
    for (int path = 1; path <= 3; path++) {
        const PbKernels *kernels = pb_kernels_pick(path);
        for (int nx = 8; kernels != NULL && nx <= 48; nx++) {
            compare(kernels, nx, 13); /* odd: sizes that four and eight do not divide come by */
            compare(kernels, nx, 3);
        }
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("pack band");
    TCase *t = tcase_create("band");
    tcase_add_test(t, every_width_and_size_gives_the_bits_of_one_pivot_at_a_time);
    suite_add_tcase(s, t);
    return run_suite(s);
}
