/* Framed walls: what is refused, and that the bays are what the members leave, over ten thousand
 * walls drawn at random. */
#include "suite.h"

#include "core/bays.h"
#include "core/rng.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double W = 0.038; /* a nominal 2 in stud, 1-1/2 in */
static PbFraming f;

static void add(PbMemberKind kind, double x0, double y0, double x1, double y1)
{
    f.members[f.member_count++] = (PbMember){kind, {x0, y0, x1, y1}};
}

/* A frame of plates and two end studs; the default bay's depth, machine and material. */
static void frame(double length, double height)
{
    memset(&f, 0, sizeof f);
    snprintf(f.id, sizeof f.id, "wall");
    snprintf(f.title, sizeof f.title, "A wall");
    f.length_m = length;
    f.height_m = height;
    f.like = pb_exercise_default();
    add(PB_MEMBER_PLATE, 0.0, 0.0, length, W);
    add(PB_MEMBER_PLATE, 0.0, height - W, length, height);
    add(PB_MEMBER_STUD, 0.0, W, W, height - W);
    add(PB_MEMBER_STUD, length - W, W, length, height - W);
}

static PbBays *bays_of(void)
{
    char field[96];
    PbError err = {0};
    PbBays *bays = NULL;
    PbAllocator allocator = pb_allocator_default();
    ck_assert_msg(pb_framing_check(&f, field, sizeof field, &err) == PB_OK, "%s: %s", field,
                  err.message);
    ck_assert_int_eq(pb_bays_create(&f, &allocator, &bays), PB_OK);
    return bays;
}

/* A window between its studs: over the header and under the sill there are bays that nobody
 * listed. */
START_TEST(pieces_over_and_under_a_window_are_bays)
{
    int count;
    frame(2.0, 2.4);
    add(PB_MEMBER_STUD, 0.4, W, 0.4 + W, 2.4 - W);
    add(PB_MEMBER_STUD, 1.4, W, 1.4 + W, 2.4 - W);
    add(PB_MEMBER_SILL, 0.4 + W, 0.9 - W, 1.4, 0.9);
    add(PB_MEMBER_HEADER, 0.4 + W, 1.9, 1.4, 2.04);
    f.cutouts[f.cutout_count++] = (PbCutout){PB_CUTOUT_WINDOW, {0.4 + W, 0.9, 1.4, 1.9}};
    f.leave[f.leave_count++] = (PbLeave){1.7, 1.0, "a flue", PB_LEAVE_FLUE};
    PbBays *bays = bays_of();
    const PbFramedBay *list = pb_bays_list(bays, &count);
    ck_assert_int_eq(count, 4);
    ck_assert_str_eq(list[1].above, "sill");
    ck_assert_str_eq(list[1].below, "plate");
    ck_assert_str_eq(list[2].above, "plate");
    ck_assert_str_eq(list[2].below, "header");
    ck_assert_double_eq_tol(list[2].area_m2, (1.4 - 0.4 - W) * (2.4 - W - 2.04), 1e-12);
    ck_assert_str_eq(list[3].why, "a flue");
    ck_assert_int_eq(pb_bays_at(bays, 0.9, 1.4), -1); /* the window */
    ck_assert_int_eq(pb_bays_at(bays, 0.41, 1.4), -1);
    ck_assert_int_eq(pb_bays_at(bays, 0.9, 2.2), 2);
    PbWallAreas a = pb_bays_areas(bays);
    double left = list[0].fill_m3 + list[1].fill_m3 + list[2].fill_m3;
    ck_assert_double_eq_tol(a.fill_m3, left, 1e-12);
    ck_assert_double_eq_tol(a.fill_kg, left * 56.0, 1e-12);
    ck_assert_double_eq_tol(a.fill_bags, left * 56.0 / 11.34, 1e-12);
    pb_bays_destroy(bays);
}
END_TEST

/* A block that leaves a gap: one bay, no rectangle; as an exercise the block stands in it. */
START_TEST(a_short_block_leaves_one_bay)
{
    int count;
    PbExercise e;
    PbError err = {0};
    frame(0.5, 2.4);
    add(PB_MEMBER_BLOCK, W, 1.2, 0.3, 1.2 + W);
    f.inside[f.inside_count++] = (PbObstacle){PB_OBSTACLE_CABLE, 0.4, 0.5, 0.4, 2.3, 0.008, 0.1};
    f.openings[f.opening_count++] = (PbOpening){0.2, 0.3, 0.25, 0.4, 2e-4, 0.006, "outlet box"};
    PbBays *bays = bays_of();
    const PbFramedBay *list = pb_bays_list(bays, &count);
    ck_assert_int_eq(count, 1);
    ck_assert(!list[0].is_rectangle && !list[0].is_narrow && !list[0].is_parted);
    ck_assert_msg(pb_bays_exercise(bays, 0, &e, &err) == PB_OK, "%s", err.message);
    ck_assert_str_eq(e.id, "wall-bay-1");
    ck_assert_str_eq(e.title, "A wall, bay 1");
    ck_assert_int_eq(e.obstacle_count, 2);
    ck_assert_int_eq(e.obstacles[0].kind, PB_OBSTACLE_BLOCK);
    ck_assert_double_eq_tol(e.obstacles[0].x1_m, 0.3 - W, 1e-12);
    ck_assert_double_eq_tol(e.obstacles[0].y0_m, 1.2 - W, 1e-12);
    ck_assert_double_eq_tol(e.obstacles[1].y1_m - e.obstacles[1].y0_m, 1.8, 1e-12);
    ck_assert_double_eq_tol(e.openings[0].x0_m, 0.2 - W, 1e-12);
    double cable_m2 = 1.8 * 0.008 * 0.1;
    ck_assert_double_eq_tol(list[0].fill_m3, (list[0].area_m2 - cable_m2) * 0.089, 1e-12);
    pb_bays_destroy(bays);
}
END_TEST

START_TEST(a_brace_from_edge_to_edge_parts_a_bay)
{
    int count;
    frame(0.5, 2.4);
    f.inside[f.inside_count++] = (PbObstacle){PB_OBSTACLE_BRACE, 0.0, 0.9, 0.5, 1.4, 0.09, 1.0};
    PbBays *bays = bays_of();
    ck_assert_int_eq(pb_bays_list(bays, &count)->is_parted, 1);
    pb_bays_destroy(bays);
    f.inside[0].depth_frac = 0.3; /* let in: fill passes it */
    bays = bays_of();
    ck_assert_int_eq(pb_bays_list(bays, &count)->is_parted, 0);
    pb_bays_destroy(bays);
}
END_TEST

/* Plates, studs off their grid, blocks, sometimes a window with its lumber. */
static void random_wall(PbRng *rng)
{
    double length = 1.0 + 5.0 * pb_rng_uniform(rng), height = 2.2 + 0.8 * pb_rng_uniform(rng);
    frame(length, height);
    double window = pb_rng_uniform(rng) < 0.5 ? length * 0.4 : HUGE_VAL, before = W;
    double wide = 0.5 + 0.4 * pb_rng_uniform(rng);
    for (double x = W; x < length - W;) {
        double clear = 0.2 + 0.45 * pb_rng_uniform(rng), next = x + clear;
        int is_window = before < window && next >= window && x + wide + 2.0 * W < length - W;
        next = is_window ? x + wide : next;
        if (next + W >= length - W) {
            next = length - W;
        } else {
            add(PB_MEMBER_STUD, next, W, next + W, height - W);
        }
        if (is_window) {
            add(PB_MEMBER_SILL, x, 0.9, next, 0.9 + W);
            add(PB_MEMBER_HEADER, x, 1.7, next, 1.84);
            f.cutouts[f.cutout_count++] = (PbCutout){PB_CUTOUT_WINDOW, {x, 0.9 + W, next, 1.7}};
        } else if (next - x > 0.01 && pb_rng_uniform(rng) < 0.4) {
            double y = 0.3 + (height - 0.7) * pb_rng_uniform(rng);
            double end = pb_rng_uniform(rng) < 0.8 ? next : 0.5 * (x + next);
            add(PB_MEMBER_BLOCK, x, y, end, y + W);
        }
        before = next;
        x = next + W;
    }
}

/* The same wall seen from the other room. */
static void mirror(void)
{
    for (int n = 0; n < f.member_count + f.cutout_count; n++) {
        PbRect *r = n < f.member_count ? &f.members[n].at : &f.cutouts[n - f.member_count].at;
        double x0 = f.length_m - r->x1_m;
        r->x1_m = f.length_m - r->x0_m;
        r->x0_m = x0;
    }
}

/* Every bay once, each point of it its own, and a hole in each that is large enough for one. */
static void check_bays(const PbBays *bays)
{
    int count;
    const PbFramedBay *list = pb_bays_list(bays, &count);
    PbWallAreas a = pb_bays_areas(bays);
    ck_assert_double_eq_tol(a.members_m2 + a.cutouts_m2 + a.bays_m2, a.wall_m2, 1e-9);
    for (int n = 0; n < count; n++) {
        const PbRect *r = &list[n].around;
        PbExercise e;
        PbError err = {0};
        int middle = pb_bays_at(bays, 0.5 * (r->x0_m + r->x1_m), 0.5 * (r->y0_m + r->y1_m));
        ck_assert(middle == n || !list[n].is_rectangle);
        if (pb_bays_exercise(bays, n, &e, &err) != PB_OK) {
            double wide =
                r->x1_m - r->x0_m; /* what the model was made for: docs/formats/exercise.md */
            ck_assert_msg(wide < 0.15 || wide > 0.75 || r->y1_m - r->y0_m < 0.5, "%s", err.message);
            continue;
        }
        int hole = pb_bays_at(bays, r->x0_m + e.holes[0].x_m, r->y0_m + e.holes[0].y_m);
        ck_assert_int_eq(hole, n);
    }
}

START_TEST(bays_are_what_members_leave)
{
    static double areas[256];
    PbRng rng = pb_rng_make(7, 1);
    int parts = 0;
    for (int n = 0; n < 10000; n++) {
        int count, mirrored;
        random_wall(&rng);
        PbBays *bays = bays_of();
        const PbFramedBay *list = pb_bays_list(bays, &count);
        ck_assert_int_gt(count, 0);
        ck_assert_int_lt(count, 256);
        check_bays(bays);
        for (int k = 0; k < count; k++) {
            areas[k] = list[k].area_m2;
        }
        parts += count;
        pb_bays_destroy(bays);
        mirror();
        bays = bays_of();
        list = pb_bays_list(bays, &mirrored);
        ck_assert_int_eq(mirrored, count);
        for (int k = 0; k < count; k++) { /* each area is found again, and only once */
            int m = 0;
            while (m < count && fabs(areas[m] - list[k].area_m2) > 1e-9) {
                m++;
            }
            ck_assert_int_lt(m, count);
            areas[m] = -1.0;
        }
        pb_bays_destroy(bays);
    }
    ck_assert_int_gt(parts, 50000);
}
END_TEST

typedef struct Refusal {
    void (*spoil)(void);
    const char *field, *message;
} Refusal;

static void spoil_id(void)
{
    f.id[0] = 'A';
}
static void spoil_length(void)
{
    f.length_m = 40.0;
}
static void spoil_outside(void)
{
    f.members[1].at.y1_m = 2.5;
}
static void spoil_thin(void)
{
    f.members[2].at.x1_m = 0.0;
}
static void spoil_overlap(void)
{
    add(PB_MEMBER_BLOCK, 0.0, 1.0, 0.3, 1.1);
}
static void spoil_cutout(void)
{
    f.cutouts[f.cutout_count++] = (PbCutout){PB_CUTOUT_DOOR, {0.1, 0.0, 0.4, 2.0}};
}
static void spoil_inside(void)
{
    f.inside[f.inside_count++] = (PbObstacle){PB_OBSTACLE_PIPE, 0.1, 0.1, 0.1, 2.0, 0.0, 0.5};
}
static void spoil_leave(void)
{
    f.leave[f.leave_count++] = (PbLeave){0.2, 1.0, "", PB_LEAVE_NONE};
}
static void spoil_like(void)
{
    f.like.depth_m = 3.0;
}

static const Refusal REFUSALS[] = {
    {spoil_id, "id", "\"id\": expected lower-case letters, digits and hyphens"},
    {spoil_length, "wall/length_m", "\"length_m\": 40 is out of range, expected 0.3 to 15 m"},
    {spoil_outside, "members/1/y1_m", "\"y1_m\": 2.5 is outside the wall, expected 0 to 2.4 m"},
    {spoil_thin, "members/2/x1_m", "expected a stud at least 1 mm wide and high"},
    {spoil_overlap, "members/4", "this block overlaps member 3 (a stud), expected them apart"},
    {spoil_cutout, "cutouts/0", "this door overlaps member 1 (a plate), expected them apart"},
    {spoil_inside, "inside/0", "\"size_m\": a pipe needs its thickness, in m"},
    {spoil_leave, "leave/0", "\"why\": expected some text"},
    {spoil_like, "bay", "\"depth_m\": 3 is out of range, expected 0.05 to 0.4 m"},
};

START_TEST(what_cannot_stand_is_refused_with_its_place)
{
    const Refusal *r = &REFUSALS[_i];
    char field[96] = "";
    PbError err = {0};
    frame(0.5, 2.4);
    r->spoil();
    ck_assert_int_eq(pb_framing_check(&f, field, sizeof field, &err), PB_ERR_RANGE);
    ck_assert_str_eq(field, r->field);
    ck_assert_str_eq(err.message, r->message);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("framing");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 120);
    tcase_add_test(t, pieces_over_and_under_a_window_are_bays);
    tcase_add_test(t, a_short_block_leaves_one_bay);
    tcase_add_test(t, a_brace_from_edge_to_edge_parts_a_bay);
    tcase_add_test(t, bays_are_what_members_leave);
    tcase_add_loop_test(t, what_cannot_stand_is_refused_with_its_place, 0,
                        sizeof REFUSALS / sizeof REFUSALS[0]);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
