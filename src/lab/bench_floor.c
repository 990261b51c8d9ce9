/*
 * The floors of this machine, by probes small enough to be checked by eye: chains of multiplies and
 * adds that wait for each other or not, divisions, square roots, and the triad over arrays of four
 * sizes. Processor time of one thread, best of several, no fused multiply-add, as in the core.
 */
#include "bench_floor.h"

#include "bench.h"

#include <math.h>
#include <stdlib.h>
#include <time.h>

enum { CHAINS = 12, NUMBERS = 256, TIMES = 7 };

typedef struct TriadArrays {
    double *a, *b, *c;
    size_t count;
} TriadArrays;

#define WIDTH    2
#define NAMED(x) x##_base
#define TARGET
#include "bench_floor_kernels.inc"
#undef WIDTH
#undef NAMED
#undef TARGET
#if defined(__x86_64__)
#define WIDTH    4
#define NAMED(x) x##_avx2
#define TARGET   __attribute__((target("avx2")))
#include "bench_floor_kernels.inc"
#undef WIDTH
#undef NAMED
#undef TARGET
#define WIDTH    8
#define NAMED(x) x##_avx512
#if defined(__clang__) /* has no such preference */
#define TARGET __attribute__((target("avx512f,avx512dq,avx512vl")))
#else
#define TARGET __attribute__((target("avx512f,avx512dq,avx512vl,prefer-vector-width=512")))
#endif
#include "bench_floor_kernels.inc"
#endif

static const char *const width_names[FLOOR_WIDTHS] = {"baseline", "AVX2", "AVX-512"};
static const char *const size_names[FLOOR_SIZES] = {"L1", "L2", "L3", "DRAM"};
/* Doubles in each of three arrays: 24 KiB, 480 KiB, 7.5 MiB and 96 MiB together. */
static const size_t size_counts[FLOOR_SIZES] = {1024, 20480, 327680, 4194304};

typedef double (*Probe)(int rounds);
typedef struct Width {
    int is_here;
    Probe independent, divide, roots;
    double (*triad)(const TriadArrays *t, int rounds);
} Width;

static volatile double sink; /* results go somewhere, so that the work is done */

double bench_cpu_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

double bench_all_cpu_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void find_widths(Width w[FLOOR_WIDTHS])
{
    w[0] = (Width){1, independent_base, divide_base, roots_base, triad_base};
    w[1] = w[2] = (Width){0};
#if defined(__x86_64__)
    w[1] = (Width){__builtin_cpu_supports("avx2") != 0, independent_avx2, divide_avx2, roots_avx2,
                   triad_avx2};
    w[2] = (Width){__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                       __builtin_cpu_supports("avx512vl"),
                   independent_avx512, divide_avx512, roots_avx512, triad_avx512};
#endif
}

/* Best of several, ns for each of `count` things a round. */
static double best_ns(Probe probe, int rounds, double count)
{
    double best = HUGE_VAL;
    for (int i = 0; i < TIMES; i++) {
        double from = bench_cpu_s();
        sink = probe(rounds);
        best = fmin(best, bench_cpu_s() - from);
    }
    return 1e9 * best / ((double)rounds * count);
}

static double wait_for_each_other(int rounds)
{
    double x = 1.1 + sink * 0.0, m = 0.999999, a = 1e-6;
    for (int n = 0; n < rounds; n++) {
        x = x * m + a;
    }
    return x;
}

static double divide_in_turn(int rounds)
{
    double x = 1.1 + sink * 0.0;
    for (int n = 0; n < rounds; n++) {
        x = 3.0 / x;
    }
    return x;
}

static double triad_ns(const Width *w, const TriadArrays *t)
{
    int rounds = (int)(8388608 / t->count);
    double best = HUGE_VAL;
    rounds = rounds > 0 ? rounds : 1;
    for (int i = 0; i < TIMES; i++) {
        double from = bench_cpu_s();
        sink = w->triad(t, rounds);
        best = fmin(best, bench_cpu_s() - from);
    }
    return 1e9 * best / ((double)rounds * (double)t->count * 3.0 * sizeof(double));
}

/* Arrays of the largest size serve all; without the room the memory floor stays unknown. */
static void measure_memory(const Width w[FLOOR_WIDTHS], BenchFloor *f)
{
    size_t most = size_counts[FLOOR_SIZES - 1];
    double *block = malloc(3 * most * sizeof *block);
    for (size_t i = 0; block != NULL && i < 3 * most; i++) {
        block[i] = 1.0 + (double)(i & 7);
    }
    for (int size = 0; size < FLOOR_SIZES; size++) {
        f->byte_ns[size] = HUGE_VAL;
        for (int width = 0; block != NULL && width < FLOOR_WIDTHS; width++) {
            size_t n = size_counts[size];
            TriadArrays t = {block, block + n, block + 2 * n, n};
            if (w[width].is_here) {
                f->byte_ns[size] = fmin(f->byte_ns[size], triad_ns(&w[width], &t));
            }
        }
    }
    free(block);
}

static void measure(BenchFloor *f)
{
    Width w[FLOOR_WIDTHS];
    find_widths(w);
    for (int i = 0; i < FLOOR_WIDTHS; i++) {
        double lanes = (double)(2 << i);
        f->op_ns[i] = f->divide_ns[i] = f->sqrt_ns[i] = HUGE_VAL;
        if (w[i].is_here) {
            f->op_ns[i] = best_ns(w[i].independent, 300000, 2.0 * CHAINS * lanes);
            f->divide_ns[i] = best_ns(w[i].divide, 4000, NUMBERS);
            f->sqrt_ns[i] = best_ns(w[i].roots, 2000, 2.0 * NUMBERS);
        }
    }
    f->chain_ns = best_ns(wait_for_each_other, 1000000, 1.0);
    f->chain_divide_ns = best_ns(divide_in_turn, 1000000, 1.0);
    measure_memory(w, f);
}

const BenchFloor *bench_floor_get(void)
{
    static BenchFloor kept; /* one thread measures */
    if (!(kept.chain_ns > 0.0)) {
        measure(&kept);
    }
    return &kept;
}

static double best_width(const double v[FLOOR_WIDTHS])
{
    return fmin(v[0], fmin(v[1], v[2]));
}

double bench_floor_op_ns(void)
{
    return best_width(bench_floor_get()->op_ns);
}

double bench_floor_divide_ns(void)
{
    return best_width(bench_floor_get()->divide_ns);
}

double bench_floor_sqrt_ns(void)
{
    return best_width(bench_floor_get()->sqrt_ns);
}

int bench_floor(FILE *out)
{
    const BenchFloor *f = bench_floor_get();
    for (int i = 0; i < FLOOR_WIDTHS; i++) {
        if (isfinite(f->op_ns[i])) {
            fprintf(out, "floor,multiply or add,%s,%.2f,GFlop/s\n", width_names[i],
                    1.0 / f->op_ns[i]);
            fprintf(out, "floor,divide,%s,%.3f,ns\n", width_names[i], f->divide_ns[i]);
            fprintf(out, "floor,square root,%s,%.3f,ns\n", width_names[i], f->sqrt_ns[i]);
        }
    }
    fprintf(out, "floor,multiply then add in turn,scalar,%.3f,ns\n", f->chain_ns);
    fprintf(out, "floor,divide in turn,scalar,%.3f,ns\n", f->chain_divide_ns);
    for (int i = 0; i < FLOOR_SIZES; i++) {
        fprintf(out, "floor,triad,%s %zu KiB,%.1f,GB/s\n", size_names[i],
                3 * size_counts[i] * sizeof(double) / 1024u, 1.0 / f->byte_ns[i]);
    }
    return !(f->chain_ns > 0.0);
}
