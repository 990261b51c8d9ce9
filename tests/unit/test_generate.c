/* Ten thousand walls drawn by era and seed: areas add up, each bay is one, can be reached by a hole
 * and has its mirror image; they differ by era as the file says. */
#include "suite.h"

#include "core/bays.h"
#include "core/generate.h"
#include "io/eras_file.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
static PbEra eras[PB_ERAS];
static PbFraming f;
enum { WALLS = 2500 }; /* of each era */

static PbBays *bays_of(uint64_t seed)
{
    char field[96];
    PbError err = {0};
    PbBays *bays = NULL;
    PbAllocator allocator = pb_allocator_default();
    ck_assert_msg(pb_framing_check(&f, field, sizeof field, &err) == PB_OK, "%s %d: %s: %s",
                  f.title, (int)seed, field, err.message);
    ck_assert_int_eq(pb_bays_create(&f, &allocator, &bays), PB_OK);
    return bays;
}

/* The same wall seen from outdoors. */
static void mirror(void)
{
    for (int n = 0; n < f.member_count + f.cutout_count; n++) {
        PbRect *r = n < f.member_count ? &f.members[n].at : &f.cutouts[n - f.member_count].at;
        double x0 = f.length_m - r->x1_m;
        r->x1_m = f.length_m - r->x0_m;
        r->x0_m = x0;
    }
    f.inside_count = f.opening_count = f.leave_count = 0;
}

static void check_parts(const PbBays *bays, uint64_t seed)
{
    int count;
    const PbFramedBay *list = pb_bays_list(bays, &count);
    PbWallAreas a = pb_bays_areas(bays);
    ck_assert_double_eq_tol(a.members_m2 + a.cutouts_m2 + a.bays_m2, a.wall_m2, 1e-9);
    for (int n = 0; n < count; n++) {
        const PbRect *r = &list[n].around;
        PbExercise e;
        PbError err = {0};
        double wide = r->x1_m - r->x0_m, high = r->y1_m - r->y0_m;
        ck_assert_int_eq(pb_bays_at(bays, r->x0_m + 0.5 * wide, r->y0_m + 0.5 * high), n);
        if (pb_bays_exercise(bays, n, &e, &err) == PB_OK) {
            int hole = pb_bays_at(bays, r->x0_m + e.holes[0].x_m, r->y0_m + e.holes[0].y_m);
            ck_assert_int_eq(hole, n);
        } else { /* what the packing model was not made for */
            ck_assert_msg(wide < 0.15 || wide > 0.75 || high < 0.5, "%s seed %d, bay %d: %s",
                          f.title, (int)seed, n + 1, err.message);
        }
    }
}

static void check_mirror(const PbBays *bays)
{
    static double areas[512];
    int count, mirrored;
    const PbFramedBay *list = pb_bays_list(bays, &count);
    ck_assert_int_lt(count, 512);
    for (int n = 0; n < count; n++) {
        areas[n] = list[n].area_m2;
    }
    mirror();
    PbBays *other = bays_of(0);
    list = pb_bays_list(other, &mirrored);
    ck_assert_int_eq(mirrored, count);
    for (int k = 0; k < count; k++) { /* each area is found again, and only once */
        int m = 0;
        while (m < count && fabs(areas[m] - list[k].area_m2) > 1e-9) {
            m++;
        }
        ck_assert_int_lt(m, count);
        areas[m] = -1.0;
    }
    pb_bays_destroy(other);
}

START_TEST(drawn_walls_are_walls)
{
    int bays_all = 0;
    for (uint64_t seed = 0; seed < WALLS; seed++) {
        int count;
        pb_generate_wall(&eras[_i], pb_era_years[_i], seed, &f);
        PbBays *bays = bays_of(seed);
        (void)pb_bays_list(bays, &count);
        bays_all += count;
        check_parts(bays, seed);
        check_mirror(bays);
        pb_bays_destroy(bays);
    }
    ck_assert_int_gt(bays_all, 6 * WALLS);
}
END_TEST

static double share_of(int era, int (*has)(void))
{
    int count = 0;
    for (uint64_t seed = 0; seed < WALLS; seed++) {
        pb_generate_wall(&eras[era], pb_era_years[era], seed, &f);
        count += has();
    }
    return (double)count / WALLS;
}

static int has_plaster(void)
{
    return f.like.finish == PB_FINISH_PLASTER;
}

static int has_knob(void)
{
    return f.leave_count > 0 && f.leave[0].reason == PB_LEAVE_OPEN_WIRING;
}

static int has_chimney(void)
{
    return f.cutout_count > 0 && f.cutouts[0].kind == PB_CUTOUT_CHIMNEY;
}

/* Shares of walls come out as the file has them; 2500 draws have a standard error of 0.01. */
START_TEST(shares_are_those_of_the_file)
{
    for (int n = 0; n < PB_ERAS; n++) {
        ck_assert_double_eq_tol(share_of(n, has_plaster), eras[n].plaster_share, 0.03);
        ck_assert_double_eq_tol(share_of(n, has_knob), eras[n].knob_share, 0.035);
        ck_assert_double_le(share_of(n, has_chimney), eras[n].chimney_share + 0.03);
    }
    ck_assert_double_gt(share_of(0, has_chimney), 0.15);
}
END_TEST

START_TEST(the_same_seed_draws_the_same_wall)
{
    static PbFraming again;
    pb_generate_wall(&eras[1], 1925, 42, &f);
    pb_generate_wall(&eras[1], 1925, 42, &again);
    ck_assert_mem_eq(&f, &again, sizeof f);
    ck_assert_str_eq(f.id, "wall-1925-42");
    pb_generate_wall(&eras[1], 1925, 43, &again);
    ck_assert_mem_ne(f.members, again.members, sizeof f.members);
}
END_TEST

/* One more wire moves no stud: each purpose has a stream of chance of its own. */
START_TEST(a_row_changes_its_own_thing)
{
    static PbFraming again;
    PbEra more = eras[2];
    more.box_per_m = 0.6;
    more.block_share = 0.0;
    pb_generate_wall(&eras[2], 1955, 7, &f);
    pb_generate_wall(&more, 1955, 7, &again);
    ck_assert_double_eq(f.length_m, again.length_m);
    ck_assert_mem_eq(f.members, again.members, 6 * sizeof f.members[0]);
}
END_TEST

static void load(void)
{
    PbError err = {0};
    ck_assert_msg(io_eras_find(folders, 1, eras, &err) == PB_OK, "%s", err.message);
}

int main(void)
{
    Suite *suite = suite_create("generate");
    TCase *t = tcase_create("normal");
    tcase_add_unchecked_fixture(t, load, NULL);
    tcase_set_timeout(t, 120);
    tcase_add_loop_test(t, drawn_walls_are_walls, 0, PB_ERAS);
    tcase_add_test(t, shares_are_those_of_the_file);
    tcase_add_test(t, the_same_seed_draws_the_same_wall);
    tcase_add_test(t, a_row_changes_its_own_thing);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
