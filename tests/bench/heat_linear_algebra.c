/* The heat solver's own two matrices through other people's solvers: which route is fastest.
 * Stream function (symmetric) and energy (general) of a section with 5 mm gaps, taken as the solver
 * assembles them. Best of 25, wall clock, one thread, natural setting of each library; analysis
 * (ordering) is done once and not counted. Figures are kept in docs/physics/heat.md.
 */
#include "heat/section.h"
#include "lab/verify_heat.h"

#include <cholmod.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <umfpack.h>

enum { REPEATS = 25 };

void dpbtrf_(const char *uplo, const int *n, const int *kd, double *ab, const int *ldab, int *info);
void dpbtrs_(const char *uplo, const int *n, const int *kd, const int *nrhs, const double *ab,
             const int *ldab, double *b, const int *ldb, int *info);
void dgbtrf_(const int *m, const int *n, const int *kl, const int *ku, double *ab, const int *ldab,
             int *ipiv, int *info);
void dgbtrs_(const char *trans, const int *n, const int *kl, const int *ku, const int *nrhs,
             const double *ab, const int *ldab, const int *ipiv, double *b, const int *ldb,
             int *info);

/* A matrix by columns, as assembled. */
typedef struct Columns {
    int n, b, is_symmetric;
    int *start, *row;
    double *value;
} Columns;

static Columns stream, energy;

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

/* Stands in for the factorisation and keeps a copy of what comes in. Lower triangle if symmetric.
 */
static int keep(PbBand *m)
{
    for (int filled = 0; m->fill != NULL && filled < m->n;) {
        filled += m->fill(m->fill_user, filled);
    }
    m->fill = NULL;
    Columns *c = m->is_symmetric ? &stream : &energy;
    size_t room = (size_t)m->n * (size_t)(2 * m->b + 1);
    if (c->start != NULL) {
        return pb_band_kernels()->factor(m);
    }
    *c = (Columns){m->n, m->b, m->is_symmetric, NULL, NULL, NULL};
    c->start = malloc((size_t)(m->n + 1) * sizeof(int));
    c->row = malloc(room * sizeof(int));
    c->value = malloc(room * sizeof(double));
    int at = 0;
    for (int j = 0; j < m->n; j++) {
        c->start[j] = at;
        int from = m->is_symmetric ? j : j - m->b < 0 ? 0 : j - m->b;
        for (int i = from; i <= j + m->b && i < m->n; i++) {
            double v = m->is_symmetric ? *pb_band_at(m, j, i) : *pb_band_at(m, i, j);
            if (v != 0.0) {
                c->row[at] = i;
                c->value[at++] = v;
            }
        }
    }
    c->start[m->n] = at;
    return pb_band_kernels()->factor(m);
}

static void gap_case(PbHeatCase *c, int ny)
{
    double h = 2.35, b = 0.005, x0 = 0.0127, x1 = 0.1017, e = 0.010;
    *c = pb_heat_case_default();
    c->width_m = 0.1137;
    c->height_m = h;
    c->nx = 32;
    c->ny = ny;
    c->background = (PbHeatMaterial){PB_HEAT_POROUS, 0.035, 1e-10};
    verify_heat_region(c, 0, x0, 0, h, PB_HEAT_SOLID, 0.16);
    verify_heat_region(c, x1, c->width_m, 0, h, PB_HEAT_SOLID, 0.13);
    verify_heat_region(c, x0, x0 + b, 0, h, PB_HEAT_AIR, 0.0249);
    verify_heat_region(c, x1 - b, x1, 0, h, PB_HEAT_AIR, 0.0249);
    verify_heat_region(c, x0 + b, x1 - b, 0, e, PB_HEAT_AIR, 0.0249);
    verify_heat_region(c, x0 + b, x1 - b, h - e, h, PB_HEAT_AIR, 0.0249);
    c->physics.side[0] = (PbHeatSide){PB_HEAT_FILM, 20.0, 0.13};
    c->physics.side[1] = (PbHeatSide){PB_HEAT_FILM, 0.0, 0.04};
    c->physics.radiation_w_m2k = 4.2;
}

static void report(const char *matrix, const char *route, int n, int b, double factor, double solve)
{
    printf("%-8s n %5d band %3d  %-34s factor %7.3f ms  solve %7.3f ms\n", matrix, n, b, route,
           factor, solve);
}

static void time_own(const Columns *c, const char *name, const PbBandKernels *k)
{
    PbBand m;
    PbArena a = {NULL, 0, 0};
    PbAllocator al = pb_allocator_default();
    pb_band_layout(&m, c->n, c->b, c->is_symmetric, &a);
    void *block = al.alloc(al.user, a.used);
    a = (PbArena){block, 0, a.used};
    pb_band_layout(&m, c->n, c->b, c->is_symmetric, &a);
    double *x = calloc((size_t)c->n, sizeof *x), factor = HUGE_VAL, solve = HUGE_VAL;
    for (int q = 0; q < REPEATS; q++) {
        pb_band_clear(&m);
        for (int j = 0; j < c->n; j++) {
            for (int p = c->start[j]; p < c->start[j + 1]; p++) {
                *(c->is_symmetric ? pb_band_at(&m, j, c->row[p]) : pb_band_at(&m, c->row[p], j)) =
                    c->value[p];
            }
            x[j] = 1.0;
        }
        double t0 = now_ms();
        int ok = k->factor(&m);
        double t1 = now_ms();
        k->solve(&m, x, x);
        double t2 = now_ms();
        factor = ok ? fmin(factor, t1 - t0) : factor;
        solve = fmin(solve, t2 - t1);
    }
    char route[64];
    snprintf(route, sizeof route, "own band, %s", k->name);
    report(name, route, c->n, c->b, factor, solve);
    al.free(al.user, block);
    free(x);
}

static void time_lapack(const Columns *c, const char *name)
{
    int n = c->n, b = c->b, one = 1, info = 0, rows = c->is_symmetric ? b + 1 : 3 * b + 1;
    double *ab = malloc((size_t)rows * (size_t)n * sizeof *ab), *x = malloc((size_t)n * sizeof *x);
    int *pivot = malloc((size_t)n * sizeof *pivot);
    double factor = HUGE_VAL, solve = HUGE_VAL;
    for (int q = 0; q < REPEATS; q++) {
        memset(ab, 0, (size_t)rows * (size_t)n * sizeof *ab);
        for (int j = 0; j < n; j++) {
            for (int p = c->start[j]; p < c->start[j + 1]; p++) {
                int at = c->is_symmetric ? c->row[p] - j : 2 * b + c->row[p] - j;
                ab[(size_t)j * (size_t)rows + (size_t)at] = c->value[p];
            }
            x[j] = 1.0;
        }
        double t0 = now_ms();
        if (c->is_symmetric) {
            dpbtrf_("L", &n, &b, ab, &rows, &info);
        } else {
            dgbtrf_(&n, &n, &b, &b, ab, &rows, pivot, &info);
        }
        double t1 = now_ms();
        if (c->is_symmetric) {
            dpbtrs_("L", &n, &b, &one, ab, &rows, x, &n, &info);
        } else {
            dgbtrs_("N", &n, &b, &b, &one, ab, &rows, pivot, x, &n, &info);
        }
        double t2 = now_ms();
        factor = fmin(factor, t1 - t0);
        solve = fmin(solve, t2 - t1);
    }
    report(name, c->is_symmetric ? "LAPACK dpbtrf" : "LAPACK dgbtrf", n, b, factor, solve);
    free(ab);
    free(x);
    free(pivot);
}

static void time_cholmod(const Columns *c, int supernodal)
{
    cholmod_common common;
    cholmod_start(&common);
    common.supernodal = supernodal ? CHOLMOD_SUPERNODAL : CHOLMOD_SIMPLICIAL;
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_AMD;
    size_t n = (size_t)c->n, count = (size_t)c->start[c->n];
    cholmod_sparse *a = cholmod_allocate_sparse(n, n, count, 1, 1, -1, CHOLMOD_REAL, &common);
    memcpy(a->p, c->start, (n + 1) * sizeof(int));
    memcpy(a->i, c->row, count * sizeof(int));
    memcpy(a->x, c->value, count * sizeof(double));
    cholmod_dense *rhs = cholmod_ones(n, 1, CHOLMOD_REAL, &common);
    cholmod_factor *l = cholmod_analyze(a, &common);
    double factor = HUGE_VAL, solve = HUGE_VAL;
    for (int q = 0; q < REPEATS; q++) {
        double t0 = now_ms();
        cholmod_factorize(a, l, &common);
        double t1 = now_ms();
        cholmod_dense *x = cholmod_solve(CHOLMOD_A, l, rhs, &common);
        double t2 = now_ms();
        factor = fmin(factor, t1 - t0);
        solve = fmin(solve, t2 - t1);
        cholmod_free_dense(&x, &common);
    }
    report("stream", supernodal ? "CHOLMOD supernodal, AMD" : "CHOLMOD simplicial, AMD", c->n, c->b,
           factor, solve);
    cholmod_free_factor(&l, &common);
    cholmod_free_dense(&rhs, &common);
    cholmod_free_sparse(&a, &common);
    cholmod_finish(&common);
}

static void time_umfpack(const Columns *c)
{
    double *x = malloc((size_t)c->n * sizeof *x), *rhs = malloc((size_t)c->n * sizeof *rhs);
    double factor = HUGE_VAL, solve = HUGE_VAL;
    void *symbolic, *numeric;
    for (int i = 0; i < c->n; i++) {
        rhs[i] = 1.0;
    }
    umfpack_di_symbolic(c->n, c->n, c->start, c->row, c->value, &symbolic, NULL, NULL);
    for (int q = 0; q < REPEATS; q++) {
        double t0 = now_ms();
        umfpack_di_numeric(c->start, c->row, c->value, symbolic, &numeric, NULL, NULL);
        double t1 = now_ms();
        umfpack_di_solve(UMFPACK_A, c->start, c->row, c->value, x, rhs, numeric, NULL, NULL);
        double t2 = now_ms();
        factor = fmin(factor, t1 - t0);
        solve = fmin(solve, t2 - t1);
        umfpack_di_free_numeric(&numeric);
    }
    umfpack_di_free_symbolic(&symbolic);
    report("energy", "UMFPACK", c->n, c->b, factor, solve);
    free(x);
    free(rhs);
}

static void forget(Columns *c)
{
    free(c->start);
    free(c->row);
    free(c->value);
    memset(c, 0, sizeof *c);
}

int main(void)
{
    PbHeatCase *c = malloc(sizeof *c);
    PbAllocator al = pb_allocator_default();
    for (int ny = 128; ny <= 256; ny *= 2) {
        PbHeatSection *s;
        gap_case(c, ny);
        if (c == NULL || pb_heat_case_solve(c, &al, &s, NULL) != PB_OK) {
            return 1;
        }
        PbBandKernels spy = *s->kernels;
        spy.factor = keep;
        s->kernels = &spy;
        pb_heat_flow_to_corners(s, s->psi, s->corner);
        if (!pb_heat_flow_factor(s) || !pb_heat_energy_factor(s, s->corner)) {
            return 1;
        }
        for (int level = 0; level < 3; level++) {
            const PbBandKernels *k = pb_band_kernels_level(level);
            if (k != NULL) {
                time_own(&stream, "stream", k);
                time_own(&energy, "energy", k);
            }
        }
        time_lapack(&stream, "stream");
        time_lapack(&energy, "energy");
        time_cholmod(&stream, 0);
        time_cholmod(&stream, 1);
        time_umfpack(&energy);
        pb_heat_section_destroy(s);
        forget(&stream);
        forget(&energy);
    }
    free(c);
    return 0;
}
