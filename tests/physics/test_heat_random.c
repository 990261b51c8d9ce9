/* Five hundred seeded random bay sections, or each fifth of them for a sample: blobs of fill of any
 * permeability, holes, gaps at every edge, top voids, -30 to +20 C. None may fail, lose heat, or
 * take long; vector widths agree. */
#include "core/heat_section.h"
#include "core/pb_math.h"
#include "core/rng.h"
#include "heat/grid.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { NX = 32, NY_MOST = 256, FIELDS = 500, STEPS_MOST = 20 };

typedef struct Field {
    double x[NX + 1], y[NY_MOST + 1], k[NX * NY_MOST], permeability[NX * NY_MOST];
    unsigned char no_radiation[NX * NY_MOST];
    PbHeatSetup setup;
} Field;

static double between(PbRng *rng, double lo, double hi)
{
    return lo + (hi - lo) * pb_rng_uniform(rng);
}

static void air(Field *f, int c)
{
    f->k[c] = 0.0249;
    f->permeability[c] = HUGE_VAL;
}

static void lines(Field *f, double gap, double end, double high, int ny)
{
    PbGridSpan across[5] = {{0.0127, 0.003, 0.8, 2},
                            {gap, gap / 10.0, 0.1, 2},
                            {0.089 - 2.0 * gap, 0.02, 0.8, 2},
                            {gap, gap / 10.0, 0.1, 2},
                            {0.012, 0.003, 0.8, 2}};
    PbGridSpan up[4] = {{end, end / 6.0, 0.1, 2},
                        {2.35 - 2.0 * end - high, 0.02, 0.2, 2},
                        {high, 0.01, 0.2, 2},
                        {end, end / 6.0, 0.1, 2}};
    ck_assert(pb_grid_lines(across, 5, 0.0, NX, f->x));
    ck_assert(pb_grid_lines(up, 4, 0.0, ny, f->y));
}

static void make_field(Field *f, int number)
{
    PbRng rng = pb_rng_make(20240611, (uint64_t)number);
    int ny = number < 200 ? 128 : 256;
    double gap = between(&rng, 0.001, 0.012), end = between(&rng, 0.002, 0.015);
    double high = between(&rng, 0.05, 0.45);
    int gap_kinds = (int)between(&rng, 0.0, 16.0); /* hot, cold, ends, top void */
    lines(f, gap, end, high, ny);
    for (int j = 0; j < ny; j++) {
        for (int i = 0; i < NX; i++) {
            int c = j * NX + i;
            double x = 0.5 * (f->x[i] + f->x[i + 1]), y = 0.5 * (f->y[j] + f->y[j + 1]);
            f->k[c] = 0.040;
            f->permeability[c] = 2e-9;
            if (x < 0.0127 || x > 0.1017) {
                f->k[c] = x < 0.0127 ? 0.16 : 0.13;
                f->permeability[c] = 0.0;
            } else if (((gap_kinds & 1) && x < 0.0127 + gap) ||
                       ((gap_kinds & 2) && x > 0.1017 - gap) ||
                       ((gap_kinds & 4) && (y < end || y > 2.35 - end)) ||
                       ((gap_kinds & 8) && y > 2.35 - end - high)) {
                air(f, c);
            }
        }
    }
    for (int blob = 0; blob < 20; blob++) {
        double bx = between(&rng, 0.0127, 0.1017), by = between(&rng, 0.0, 2.35);
        double rx = between(&rng, 0.005, 0.06), ry = between(&rng, 0.02, 0.4);
        double k = between(&rng, 0.034, 0.05), kind = pb_rng_uniform(&rng);
        double permeability = pb_exp(between(&rng, pb_log(3e-10), pb_log(1e-7)));
        for (int c = 0; c < NX * ny; c++) {
            double x = 0.5 * (f->x[c % NX] + f->x[c % NX + 1]);
            double y = 0.5 * (f->y[c / NX] + f->y[c / NX + 1]);
            double u = (x - bx) / rx, v = (y - by) / ry;
            if (f->permeability[c] > 0.0 && !isinf(f->permeability[c]) && u * u + v * v < 1.0) {
                if (kind < 0.15) {
                    air(f, c);
                } else {
                    f->k[c] = k;
                    f->permeability[c] = permeability;
                }
            }
        }
    }
    f->setup = pb_heat_setup_default();
    f->setup.nx = NX;
    f->setup.ny = ny;
    f->setup.x_m = f->x;
    f->setup.y_m = f->y;
    f->setup.k_w_mk = f->k;
    f->setup.permeability_m2 = f->permeability;
    f->setup.no_radiation = f->no_radiation;
    f->setup.radiation_w_m2k = 4.2;
    f->setup.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FILM, 20.0, 0.13};
    f->setup.side[PB_HEAT_RIGHT] =
        (PbHeatSide){PB_HEAT_FILM, number % 10 == 9 ? 19.9 : between(&rng, -30.0, 19.0), 0.04};
    PbHeatVoids v = {4.2, 1.25, 0.0249, 0.0};
    pb_heat_wide_voids(&f->setup, &v, f->k, f->permeability, f->no_radiation);
}

static void check_field(const Field *f, int number)
{
    PbAllocator al = pb_allocator_default();
    PbHeatSection *s;
    PbError err;
    PbStatus status = pb_heat_section_create(&f->setup, &al, &s, &err);
    ck_assert_msg(status == PB_OK, "field %d: %s", number, err.message);
    status = pb_heat_section_solve(s);
    const PbHeatResult *r = pb_heat_section_result(s);
    ck_assert_msg(status == PB_OK, "field %d: %s", number, pb_status_name(status));
    ck_assert_msg(r->iterations <= STEPS_MOST, "field %d: %d steps", number, r->iterations);
    ck_assert_msg(r->balance < 1e-6, "field %d: balance %g", number, r->balance);
    double low = f->setup.side[PB_HEAT_RIGHT].temperature_c;
    for (int c = 0; c < r->nx * r->ny; c++) {
        /* central convection may overshoot a little where a loop turns */
        double spare = 0.05 * (20.0 - low);
        ck_assert_msg(r->temperature_c[c] > low - spare && r->temperature_c[c] < 20.0 + spare,
                      "field %d cell %d: %g", number, c, r->temperature_c[c]);
    }
    pb_heat_section_destroy(s);
}

START_TEST(none_of_five_hundred_random_fields_fails)
{
    Field *f = malloc(sizeof *f);
    for (int n = 0; n < FIELDS; n += all_of_it() ? 1 : 5) {
        make_field(f, n);
        check_field(f, n);
    }
    free(f);
}
END_TEST

START_TEST(vector_widths_give_the_same_bits)
{
    Field *f = malloc(sizeof *f);
    PbAllocator al = pb_allocator_default();
    for (int n = 0; n < 6; n++) {
        double heat = 0.0;
        make_field(f, n);
        for (int level = 0; level < 3; level++) {
            PbHeatSection *s;
            f->setup.kernels = level;
            if (pb_heat_section_create(&f->setup, &al, &s, NULL) != PB_OK) {
                continue; /* this machine has no such kernels */
            }
            ck_assert(pb_heat_section_solve(s) == PB_OK);
            double h = pb_heat_section_result(s)->heat_w_m[PB_HEAT_LEFT];
            ck_assert_msg(level == 0 || h == heat, "field %d level %d: %.17g %.17g", n, level, h,
                          heat);
            heat = h;
            pb_heat_section_destroy(s);
        }
    }
    free(f);
}
END_TEST

START_TEST(a_second_solve_starts_from_the_first_and_agrees)
{
    Field *f = malloc(sizeof *f);
    PbAllocator al = pb_allocator_default();
    PbHeatSection *s, *t;
    make_field(f, 3);
    ck_assert(pb_heat_section_create(&f->setup, &al, &s, NULL) == PB_OK);
    ck_assert(pb_heat_section_solve(s) == PB_OK);
    PbHeatSide side[PB_HEAT_SIDES];
    f->setup.side[PB_HEAT_RIGHT].temperature_c -= 3.0;
    memcpy(side, f->setup.side, sizeof side);
    ck_assert(pb_heat_section_set_sides(s, side) == PB_OK);
    ck_assert(pb_heat_section_solve(s) == PB_OK);
    ck_assert(pb_heat_section_create(&f->setup, &al, &t, NULL) == PB_OK);
    ck_assert(pb_heat_section_solve(t) == PB_OK);
    double a = pb_heat_section_result(s)->heat_w_m[0], b = pb_heat_section_result(t)->heat_w_m[0];
    ck_assert_msg(fabs(a / b - 1.0) < 1e-6, "%g %g", a, b);
    pb_heat_section_destroy(s);
    pb_heat_section_destroy(t);
    free(f);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("heat_random");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 250);
    tcase_add_test(tc, none_of_five_hundred_random_fields_fails);
    tcase_add_test(tc, vector_widths_give_the_same_bits);
    tcase_add_test(tc, a_second_solve_starts_from_the_first_and_agrees);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
