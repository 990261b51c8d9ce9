/* Bays: memory, threads, pictures, leakage, money, and what is refused. */
#include "core/heat_bay.h"
#include "core/heat_case.h"
#include "core/material.h"
#include "io/parallel.h"
#include "suite.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static PbConstants constants;
static PbBayField field;

static void setup(void)
{
    constants = pb_constants_default();
    ck_assert(pb_bay_field_create(6, 48, 0.368, 2.35, 0.089, &field) == PB_OK);
    pb_bay_field_fill(&field, 55.0);
    for (int n = 0; n < 6 * 48; n++) {
        field.density_kg_m3[n] = n / 6 > 44 ? 0.0 : 40.0 + n % 6;
    }
}

static void teardown(void)
{
    pb_bay_field_destroy(&field);
}

static PbHeatBay *solve(const PbHeatBaySetup *s)
{
    PbAllocator al = pb_allocator_default();
    PbHeatBay *bay = NULL;
    PbError err = {0};
    PbStatus status = pb_heat_bay_solve(s, &constants, &al, &bay, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    return bay;
}

START_TEST(material_follows_its_law)
{
    double sigma = pb_material_resistivity(&constants, 45.0);
    ck_assert(fabs(sigma - constants.sigma45_pa_s_m2) < 1e-9);
    double twice = pb_material_resistivity(&constants, 90.0) / sigma;
    ck_assert(fabs(twice - pow(2.0, constants.sigma_exponent)) < 1e-9);
    ck_assert(
        fabs(pb_material_permeability(&constants, 45.0) * sigma / constants.air_viscosity_pa_s -
             1.0) < 1e-12);
    double k = pb_material_conductivity(&constants, 56.0);
    ck_assert(k > 0.038 && k < 0.045); /* handbook values of dense cellulose */
}
END_TEST

START_TEST(gives_the_same_bits_on_any_number_of_threads)
{
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    s.strips = 6;
    s.with_range = 1;
    PbHeatBay *one = solve(&s);
    for (int threads = 1; threads <= 4; threads++) {
        IoParallel p = {threads};
        s.parallel = io_parallel_for;
        s.parallel_user = &p;
        PbHeatBay *other = solve(&s);
        const PbHeatBayResult *a = pb_heat_bay_result(one), *b = pb_heat_bay_result(other);
        ck_assert(a->r_m2k_w == b->r_m2k_w);
        ck_assert(a->heat_ratio.high == b->heat_ratio.high);
        ck_assert(memcmp(a->map_c, b->map_c, (size_t)(a->map_nx * a->map_ny) * sizeof(double)) ==
                  0);
        pb_heat_bay_destroy(other);
    }
    pb_heat_bay_destroy(one);
}
END_TEST

START_TEST(solves_equal_strips_once_and_slots_as_edge_strips)
{
    pb_bay_field_fill(&field, 50.0);
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    PbHeatBay *bay = solve(&s);
    ck_assert_int_eq(pb_heat_bay_result(bay)->solved_strips, 1);
    ck_assert_int_eq(pb_heat_bay_result(bay)->strip_count, 12);
    pb_heat_bay_destroy(bay);
    s.fill = (PbHeatFill){1, constants.foam_k_w_mk, constants.foam_permeability_m2};
    s.gap_count = pb_heat_shrink_gaps(&field, 0.06, PB_HEAT_SHRINK_ENDS, &constants, s.gaps);
    bay = solve(&s);
    ck_assert_int_eq(pb_heat_bay_result(bay)->solved_strips, 2);
    ck_assert_int_eq(pb_heat_bay_result(bay)->strip_count, 14);
    const PbHeatStrip *edge = pb_heat_bay_strip(bay, 0), *inner = pb_heat_bay_strip(bay, 5);
    ck_assert(edge->u_w_m2k > inner->u_w_m2k);
    pb_heat_bay_destroy(bay);
}
END_TEST

START_TEST(stays_below_the_memory_limit)
{
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    PbHeatBay *bay = solve(&s);
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    ck_assert(r->peak_bytes + r->peak_bytes / 2 < 64u * 1024u * 1024u); /* two strips at once */
    pb_heat_bay_destroy(bay);
}
END_TEST

START_TEST(pictures_show_the_void_cold_and_the_stud)
{
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    PbHeatBay *bay = solve(&s);
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    int nx = r->map_nx, mid = nx / 2;
    double low = r->map_c[(r->map_ny / 3) * nx + mid], high = r->map_c[(r->map_ny - 4) * nx + mid];
    double stud = r->map_c[(r->map_ny / 3) * nx];
    ck_assert(high < low - 2.0);
    ck_assert(stud < low - 0.5 && stud > high);
    /* the middle of a 38 mm stud reads 18.13 C in two-dimensional conduction, 20 to 0 C */
    ck_assert_msg(fabs(stud - 18.13) < 0.15, "stud %g", stud);
    pb_heat_bay_destroy(bay);
}
END_TEST

/* Half a stud and half a bay in plan, by plain conduction: x through the wall, y along it. */
static void plan_surface(double k, int count, double pitch, double *surface)
{
    PbAllocator al = pb_allocator_default();
    PbHeatSection *section;
    PbHeatCase *c = malloc(sizeof *c);
    *c = pb_heat_case_default();
    c->width_m = 0.0127 + 0.089 + 0.012;
    c->height_m = 0.203;
    c->background.k_w_mk = k;
    c->physics.flow = PB_HEAT_FLOW_NONE;
    c->regions[0] = (PbHeatRegion){0, 0, 0.0127, 0.203, {PB_HEAT_SOLID, 0.16, 0}};
    c->regions[1] = (PbHeatRegion){0.1017, 0, 0.1137, 0.203, {PB_HEAT_SOLID, 0.13, 0}};
    c->regions[2] = (PbHeatRegion){0.0127, 0, 0.1017, 0.019, {PB_HEAT_SOLID, 0.12, 0}};
    c->region_count = 3;
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FILM, 20.0, 0.13};
    c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FILM, 0.0, 0.04};
    c->nx = c->ny = 80;
    c->probe_count = count;
    for (int n = 0; n < count; n++) {
        c->probes[n] = (PbHeatProbe){.x_m = 0.0, .y_m = (n + 0.5) * pitch};
    }
    ck_assert(pb_heat_case_solve(c, &al, &section, NULL) == PB_OK);
    for (int n = 0; n < count; n++) {
        surface[n] = c->probes[n].t_c;
    }
    pb_heat_section_destroy(section);
    free(c);
}

START_TEST(picture_agrees_with_two_dimensional_conduction)
{
    /* The sheet model ignores spreading in the sheathing and across the board: 0.081 and 0.048 K
     * here. Limits stand just above, so that heat which does not follow the board (0.088 and
     * 0.054 K) is noticed. */
    static const double k[2] = {0.040, 0.15}, most[2] = {0.085, 0.051};
    for (int n = 0; n < 2; n++) {
        double plan[24], worst = 0.0;
        pb_bay_field_fill(&field, 50.0);
        PbHeatBaySetup s = pb_heat_bay_default(&field);
        s.fill = (PbHeatFill){1, k[n], 1e-12};
        PbHeatBay *bay = solve(&s);
        const PbHeatBayResult *r = pb_heat_bay_result(bay);
        plan_surface(k[n], 24, 0.406 / r->map_nx, plan);
        for (int i = 0; i < 24; i++) {
            worst = fmax(worst, fabs(plan[i] - r->map_c[r->map_nx * (r->map_ny / 2) + i]));
        }
        ck_assert_msg(worst < most[n], "k %g: %g K", k[n], worst);
        pb_heat_bay_destroy(bay);
    }
}
END_TEST

START_TEST(camera_warms_up_blurs_and_is_repeatable)
{
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    PbHeatBay *bay = solve(&s);
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    size_t n = (size_t)r->map_nx * (size_t)r->map_ny;
    double *a = malloc(n * sizeof *a), *b = malloc(n * sizeof *b);
    PbHeatCamera c = pb_heat_camera_plain();
    ck_assert(pb_heat_camera_picture(bay, &c, &constants, a) == PB_OK);
    ck_assert(memcmp(a, r->map_c, n * sizeof *a) == 0); /* plain is the surface itself */
    c.held_h = 0.0;
    ck_assert(pb_heat_camera_picture(bay, &c, &constants, a) == PB_OK);
    ck_assert(fabs(a[5] - c.start_c) < 1e-12);
    c.held_h = 4.0;
    ck_assert(pb_heat_camera_picture(bay, &c, &constants, a) == PB_OK);
    for (size_t i = 0; i < n; i++) {
        ck_assert(fabs(a[i] - r->map_c[i]) < 0.01);
    }
    c.noise_k = 0.08;
    c.blur_px = 1;
    c.emissivity = 0.9;
    c.seed = 7;
    ck_assert(pb_heat_camera_picture(bay, &c, &constants, a) == PB_OK);
    ck_assert(pb_heat_camera_picture(bay, &c, &constants, b) == PB_OK);
    ck_assert(memcmp(a, b, n * sizeof *a) == 0);
    for (int k = 0; k < 5; k++) {
        PbHeatCamera bad = c;
        bad.emissivity = k == 0 ? 0.0 : c.emissivity;
        bad.start_c = k == 1 ? (double)NAN : c.start_c;
        bad.reflected_c = k == 2 ? -300.0 : c.reflected_c;
        bad.noise_k = k == 3 ? (double)INFINITY : c.noise_k;
        bad.held_h = k == 4 ? (double)NAN : c.held_h;
        ck_assert_int_eq(pb_heat_camera_picture(bay, &bad, &constants, b), PB_ERR_RANGE);
    }
    ck_assert(memcmp(a, b, n * sizeof *a) == 0); /* what is refused draws nothing */
    free(a);
    free(b);
    s.map_nx = s.map_ny = 0;
    PbHeatBay *blind = solve(&s);
    ck_assert(pb_heat_camera_picture(blind, &c, &constants, NULL) == PB_ERR_STATE);
    pb_heat_bay_destroy(blind);
    pb_heat_bay_destroy(bay);
}
END_TEST

START_TEST(leakage_is_separate_and_falls_with_density)
{
    double last = HUGE_VAL;
    for (double d = 25.0; d < 75.0; d += 10.0) {
        pb_bay_field_fill(&field, d);
        PbHeatBaySetup s = pb_heat_bay_default(&field);
        s.map_nx = s.map_ny = 0;
        PbHeatBay *bay = solve(&s);
        const PbHeatBayResult *r = pb_heat_bay_result(bay);
        ck_assert(r->leak_75_l_s < last && r->leak_75_l_s > r->leak_50_l_s && r->leak_50_l_s > 0.0);
        last = r->leak_75_l_s;
        pb_heat_bay_destroy(bay);
    }
}
END_TEST

START_TEST(money_is_a_range)
{
    PbHeatSeason s = pb_heat_season_default(&constants, 10.0, (PbHeatRange){0.4, 0.5, 0.6});
    PbHeatMoney m;
    ck_assert(pb_heat_season_cost(&s, &m) == PB_OK);
    ck_assert(m.cost.low < m.cost.mid && m.cost.mid < m.cost.high);
    s.degree_days_k_d = (PbHeatRange){3000, 3000, 3000};
    s.price_per_kwh = (PbHeatRange){0.1, 0.1, 0.1};
    s.efficiency = (PbHeatRange){0.8, 0.8, 0.8};
    s.u_w_m2k = (PbHeatRange){0.5, 0.5, 0.5};
    ck_assert(pb_heat_season_cost(&s, &m) == PB_OK);
    ck_assert(fabs(m.heat_kwh.mid - 10 * 0.5 * 3000 * 0.024) < 1e-9); /* 360 kWh */
    ck_assert(fabs(m.cost.mid - 45.0) < 1e-9 && m.cost.low == m.cost.high);
    s.efficiency.low = 0.9;
    ck_assert(pb_heat_season_cost(&s, &m) == PB_ERR_RANGE);
}
END_TEST

START_TEST(refuses_what_it_cannot_mean)
{
    PbAllocator al = pb_allocator_default();
    PbHeatBay *bay = NULL;
    PbError err;
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    s.outdoor_c = s.room_c;
    ck_assert(pb_heat_bay_solve(&s, &constants, &al, &bay, &err) == PB_ERR_RANGE);
    s = pb_heat_bay_default(&field);
    s.gap_count = 1;
    s.gaps[0] = (PbHeatGap){0, 0.5, 0, 1, 0, 0.01};
    ck_assert(pb_heat_bay_solve(&s, &constants, &al, &bay, &err) == PB_ERR_RANGE);
    s.gaps[0] = (PbHeatGap){0, 0.3, 1, 1, 0, 0.01};
    ck_assert(pb_heat_bay_solve(&s, &constants, &al, &bay, &err) == PB_ERR_RANGE);
    s = pb_heat_bay_default(&field);
    s.nx = 4;
    ck_assert(pb_heat_bay_solve(&s, &constants, &al, &bay, &err) == PB_ERR_RANGE);
    s = pb_heat_bay_default(&field);
    field.density_kg_m3[3] = (double)NAN;
    ck_assert(pb_heat_bay_solve(&s, &constants, &al, &bay, &err) == PB_ERR_RANGE);
    ck_assert_ptr_null(bay);
}
END_TEST

/* Cracks of 4 mm through a foam, evenly up the bay. */
static PbHeatBaySetup cracked(int cracks, int ny)
{
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    s.map_nx = s.map_ny = 0;
    s.strips = 1;
    s.ny = ny;
    s.flow_off = 1; /* where the lines stand does not hang on it */
    s.fill = (PbHeatFill){1, 0.035, 1e-10};
    for (int n = 0; n < cracks; n++) {
        double y = field.height_m * (n + 0.5) / cracks;
        s.gaps[s.gap_count++] = (PbHeatGap){0, field.width_m, y, y + 0.004, 0, field.depth_m};
    }
    return s;
}

START_TEST(every_gap_has_its_lines_or_the_grid_is_refused)
{
    static const int count[4] = {6, 18, 18, 60}, rows[4] = {128, 128, 256, 128};
    PbAllocator al = pb_allocator_default();
    pb_bay_field_fill(&field, 55.0);
    for (int n = 0; n < 4; n++) {
        PbHeatBaySetup s = cracked(count[n], rows[n]);
        PbError err = {0};
        PbHeatBay *bay = NULL;
        if (rows[n] < 8 * count[n]) {
            ck_assert_int_eq(pb_heat_bay_solve(&s, &constants, &al, &bay, &err), PB_ERR_RANGE);
            ck_assert_ptr_nonnull(strstr(err.message, "too coarse for its gaps, expected"));
            continue;
        }
        bay = solve(&s);
        const PbHeatStrip *p = pb_heat_bay_strip(bay, 0);
        double open = 0.0;
        for (int j = 0; j < p->ny; j++) {
            int is_open = isinf(p->permeability_m2[j * p->nx + p->nx / 2]);
            open += is_open ? p->y_m[j + 1] - p->y_m[j] : 0.0;
        }
        ck_assert_double_eq_tol(open, 0.004 * count[n], 1e-9); /* rounding of the lines */
        pb_heat_bay_destroy(bay);
    }
    /* gaps over the whole height share the lines at both plates, however many they are */
    PbHeatBaySetup s = cracked(6, 128);
    while (s.gap_count < 40) {
        double z = 0.002 * (s.gap_count - 6);
        s.gaps[s.gap_count++] = (PbHeatGap){0, field.width_m, 0, field.height_m, z, z + 0.002};
    }
    s.nx = 128;
    pb_heat_bay_destroy(solve(&s));
}
END_TEST

START_TEST(refuses_grids_and_pictures_beyond_a_gibibyte)
{
    PbAllocator al = pb_allocator_default();
    for (int n = 0; n < 2; n++) {
        PbHeatBaySetup s = pb_heat_bay_default(&field);
        PbHeatBay *bay = NULL;
        PbError err = {0};
        *(n ? &s.map_nx : &s.nx) = 512;
        *(n ? &s.map_ny : &s.ny) = 2048;
        ck_assert_int_eq(pb_heat_bay_solve(&s, &constants, &al, &bay, &err), PB_ERR_RANGE);
        ck_assert_ptr_nonnull(strstr(err.message, "512 x 2048 needs more than 1 GiB"));
        ck_assert_ptr_null(bay);
    }
}
END_TEST

START_TEST(a_section_whose_numbers_overflow_is_not_called_solved)
{
    /* 500 W/(m K) over half of the least normal number is infinite */
    static const double x[3] = {0.0, DBL_MIN, 1.0}, y[3] = {0.0, 0.5, 1.0},
                        k[4] = {500, 500, 500, 500}, permeability[4] = {0};
    PbAllocator al = pb_allocator_default();
    PbHeatSection *section;
    PbHeatSetup s = pb_heat_setup_default();
    s.nx = s.ny = 2;
    s.x_m = x;
    s.y_m = y;
    s.k_w_mk = k;
    s.permeability_m2 = permeability;
    s.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FIXED, 20.0, 0.0};
    s.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FIXED, 0.0, 0.0};
    ck_assert_int_eq(pb_heat_section_create(&s, &al, &section, NULL), PB_OK);
    ck_assert_int_eq(pb_heat_section_solve(section), PB_ERR_DIVERGED);
    pb_heat_section_destroy(section);
}
END_TEST

START_TEST(a_case_names_the_value_that_is_off)
{
    static const struct {
        PbHeatRegion region;
        const char *field;
    } bad[] = {{{0, 0, 0.5, 0.5, {PB_HEAT_SOLID, -1.0, 0.0}}, "regions/0/k_w_mk"},
               {{0, 0, 0.5, 0.5, {PB_HEAT_POROUS, 1.0, -1.0}}, "regions/0/permeability_m2"},
               {{0, 0, 1.5, 0.5, {PB_HEAT_SOLID, 1.0, 0.0}}, "regions/0/x_m"},
               {{0, 0.5, 0.5, 0.5, {PB_HEAT_SOLID, 1.0, 0.0}}, "regions/0/y_m"}};
    PbHeatCase *c = malloc(sizeof *c);
    for (size_t n = 0; n < sizeof bad / sizeof bad[0]; n++) {
        char at[64] = "";
        *c = pb_heat_case_default();
        c->regions[0] = bad[n].region;
        c->region_count = 1;
        ck_assert_int_eq(pb_heat_case_check(c, at, sizeof at, NULL), PB_ERR_RANGE);
        ck_assert_str_eq(at, bad[n].field);
    }
    free(c);
}
END_TEST

typedef struct Failing {
    int left, live;
} Failing;

static void *failing_alloc(void *user, size_t bytes)
{
    Failing *f = user;
    if (f->left-- <= 0) {
        return NULL;
    }
    f->live++;
    PbAllocator al = pb_allocator_default();
    return al.alloc(al.user, bytes);
}

static void failing_free(void *user, void *memory)
{
    Failing *f = user;
    f->live--;
    PbAllocator al = pb_allocator_default();
    al.free(al.user, memory);
}

START_TEST(survives_every_failed_allocation)
{
    PbHeatBaySetup s = pb_heat_bay_default(&field);
    s.strips = 2;
    s.with_range = 1;
    for (int n = 0; n < 200; n++) {
        Failing f = {n, 0};
        PbAllocator al = {failing_alloc, failing_free, &f};
        PbHeatBay *bay = NULL;
        PbStatus status = pb_heat_bay_solve(&s, &constants, &al, &bay, NULL);
        pb_heat_bay_destroy(bay);
        ck_assert_int_eq(f.live, 0);
        if (status == PB_OK) {
            ck_assert(n > 5);
            return;
        }
        ck_assert_int_eq(status, PB_ERR_MEMORY);
    }
    ck_abort_msg("never succeeded");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("heat_bay");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, setup, teardown);
    tcase_set_timeout(tc, 60);
    tcase_add_test(tc, material_follows_its_law);
    tcase_add_test(tc, gives_the_same_bits_on_any_number_of_threads);
    tcase_add_test(tc, solves_equal_strips_once_and_slots_as_edge_strips);
    tcase_add_test(tc, stays_below_the_memory_limit);
    tcase_add_test(tc, pictures_show_the_void_cold_and_the_stud);
    tcase_add_test(tc, picture_agrees_with_two_dimensional_conduction);
    tcase_add_test(tc, camera_warms_up_blurs_and_is_repeatable);
    tcase_add_test(tc, leakage_is_separate_and_falls_with_density);
    tcase_add_test(tc, money_is_a_range);
    tcase_add_test(tc, refuses_what_it_cannot_mean);
    tcase_add_test(tc, every_gap_has_its_lines_or_the_grid_is_refused);
    tcase_add_test(tc, refuses_grids_and_pictures_beyond_a_gibibyte);
    tcase_add_test(tc, a_section_whose_numbers_overflow_is_not_called_solved);
    tcase_add_test(tc, a_case_names_the_value_that_is_off);
    tcase_add_test(tc, survives_every_failed_allocation);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
