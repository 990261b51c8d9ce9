/*
 * The pieces of a comparison: neither their order nor threads nor what was taken over from another
 * comparison changes a bit of what can be read.
 */
#include "compare_case.h"

#include "core/hash.h"
#include "core/rng.h"

#include <pthread.h>
#include <string.h>

/* Everything that can be read, pictures included, as one number. */
static uint64_t hash_of(const PbCompare *c)
{
    uint64_t h = PB_HASH_START;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        for (int t = 0; t < TIMES; t++) {
            PbCompareFigures g = at(c, (PbCompareFill)f, t);
            const double all[] = {g.r_m2k_w.low,     g.r_m2k_w.mid,     g.r_m2k_w.high,
                                  g.heat_ratio.low,  g.heat_ratio.high, g.top_gap_m.low,
                                  g.top_gap_m.high,  g.cost.low,        g.cost.high,
                                  g.surface_min_c,   g.cold_m2,         g.mean_kg_m3,
                                  g.shrink_frac.low, g.void_area_m2};
            h = pb_hash_doubles(h, all, sizeof all / sizeof all[0]);
            PbComparePicture map = pb_compare_map(c, (PbCompareFill)f, t, NULL, NULL);
            PbComparePicture d =
                pb_compare_density(c, (PbCompareFill)f, pb_compare_key_frame(c, t));
            ck_assert_ptr_nonnull(map.values);
            ck_assert_ptr_nonnull(d.values);
            h = pb_hash_bytes(h, map.values, (size_t)(map.nx * map.ny) * sizeof(float));
            h = pb_hash_bytes(h, d.values, (size_t)(d.nx * d.ny) * sizeof(float));
        }
    }
    return h;
}

/* In number order none is refused; in any other order what is refused changes nothing. */
START_TEST(the_order_of_pieces_changes_no_bit)
{
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_HASTY, 3);
    s.house.bay = low_bay();
    PbCompare *a = make(&s), *b = make(&s), *c = whole(&s);
    int n = pb_compare_piece_count(a), left = n, refused = 0;
    for (int i = 0; i < n; i++) {
        ck_assert(pb_compare_can_run(a, i));
        ck_assert_int_eq(pb_compare_run(a, i, NULL), PB_OK);
        ck_assert(!pb_compare_can_run(a, i) && pb_compare_is_done(a, i));
        ck_assert_int_eq(pb_compare_run(a, i, NULL), PB_OK);
    }
    PbRng rng = pb_rng_make(3, 1);
    while (left > 0) {
        int i = (int)(pb_rng_uniform(&rng) * n);
        if (pb_compare_is_done(b, i)) {
            continue;
        }
        int can = pb_compare_can_run(b, i);
        ck_assert_int_eq(pb_compare_run(b, i, NULL), can ? PB_OK : PB_ERR_STATE);
        left -= can;
        refused += !can;
    }
    ck_assert_int_gt(refused, 0);
    ck_assert_uint_eq(hash_of(a), hash_of(b));
    ck_assert_uint_eq(hash_of(a), hash_of(c));
    pb_compare_destroy(a);
    pb_compare_destroy(b);
    pb_compare_destroy(c);
}
END_TEST

typedef struct Stop {
    pthread_mutex_t lock;
    int asked, told;
} Stop;

static int stop_after_three(void *user)
{
    Stop *s = user;
    pthread_mutex_lock(&s->lock);
    int stop = ++s->asked > 3;
    pthread_mutex_unlock(&s->lock);
    return stop;
}

static void count_done(void *user, int n)
{
    Stop *s = user;
    ck_assert_int_ge(n, 0);
    pthread_mutex_lock(&s->lock);
    s->told++;
    pthread_mutex_unlock(&s->lock);
}

START_TEST(stops_between_pieces_and_goes_on_to_the_same_end)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 2);
    s.house.bay = low_bay();
    PbCompare *a = make(&s), *b = whole(&s);
    Stop stop = {PTHREAD_MUTEX_INITIALIZER, 0, 0};
    PbError err = {0};
    ck_assert_int_eq(pb_compare_run_all(a, NULL, NULL, stop_after_three, count_done, &stop, &err),
                     PB_ERR_STATE);
    ck_assert_int_eq(stop.told, 3);
    ck_assert_ptr_nonnull(strstr(err.message, "stopped"));
    ck_assert_int_eq(pb_compare_run_all(a, NULL, NULL, NULL, NULL, NULL, &err), PB_OK);
    ck_assert_uint_eq(hash_of(a), hash_of(b));
    pb_compare_destroy(a);
    pb_compare_destroy(b);
}
END_TEST

/* Pieces of each kind that are left to do. */
static void count_left(const PbCompare *c, int left[PB_PIECE_KINDS])
{
    memset(left, 0, sizeof(int) * PB_PIECE_KINDS);
    for (int i = 0; i < pb_compare_piece_count(c); i++) {
        left[pb_compare_piece(c, i).kind] += !pb_compare_is_done(c, i);
    }
}

/* A change of one input, and what of the comparison before it has to be worked out again. */
typedef struct Change {
    void (*make)(PbHouse *h);
    int packs, settles, heats; /* 0 = nothing of it, 1 = some, 2 = all */
} Change;

static void other_framing(PbHouse *h)
{
    h->framing_share = 0.15;
}
static void other_layers(PbHouse *h)
{
    h->wall = pb_wall_usual();
}
static void other_air(PbHouse *h)
{
    h->outdoor_c -= 7.0;
}
static void other_climate(PbHouse *h)
{
    h->climate.bay_rh.mean += 0.1;
}
static void other_foam(PbHouse *h)
{
    h->foam = PB_FOAM_POOR;
}
static void other_crew(PbHouse *h)
{
    h->dense = PB_DENSE_WELL_DONE;
}
static void old_fill(PbHouse *h)
{
    h->cavity = (PbCavity){PB_CAVITY_LOOSE, 0.7};
}
static void other_depth(PbHouse *h)
{
    h->bay.depth_m = 0.1;
}
static void other_seed(PbHouse *h)
{
    h->seed++;
}

static const Change changes[] = {
    {other_framing, 0, 0, 0}, {other_layers, 0, 0, 2}, {other_air, 0, 0, 2},
    {other_climate, 0, 2, 1}, {other_foam, 0, 0, 1},   {other_crew, 1, 1, 1},
    {old_fill, 0, 0, 1},      {other_depth, 2, 2, 2},  {other_seed, 2, 2, 2},
};

static void is_as_much(int left, int all, int expected)
{
    ck_assert(expected == 0 ? left == 0 : expected == 2 ? left == all : left > 0 && left < all);
}

/* What is taken over is to the bit what would have been worked out, and nothing else is. */
START_TEST(what_is_taken_over_is_what_would_have_come_out)
{
    const Change *change = &changes[_i];
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_HASTY, 2);
    s.house.bay = low_bay();
    PbCompare *before = _i % 2 ? whole(&s) : make(&s);
    int all[PB_PIECE_KINDS], left[PB_PIECE_KINDS];
    for (int i = 0; _i % 2 == 0 && i < pb_compare_piece_count(before); i++) {
        ck_assert_int_eq(pb_compare_run(before, i, NULL), PB_OK); /* on one thread */
    }
    change->make(&s.house);
    PbCompare *from_nothing = whole(&s), *c = make(&s);
    count_left(c, all);
    ck_assert_int_eq(pb_compare_take_over(c, before), PB_OK);
    count_left(c, left);
    is_as_much(left[PB_PIECE_PACK], all[PB_PIECE_PACK], change->packs);
    is_as_much(left[PB_PIECE_SETTLE], all[PB_PIECE_SETTLE], change->settles);
    is_as_much(left[PB_PIECE_HEAT], all[PB_PIECE_HEAT], change->heats);
    pb_compare_destroy(before); /* it is a copy */
    ck_assert_int_eq(pb_compare_run_all(c, NULL, NULL, NULL, NULL, NULL, NULL), PB_OK);
    ck_assert_uint_eq(hash_of(c), hash_of(from_nothing));
    pb_compare_destroy(c);
    pb_compare_destroy(from_nothing);
}
END_TEST

/* Money and labels change nothing that is worked out; half of a comparison is as good as its half.
 */
START_TEST(half_a_comparison_is_taken_over_as_far_as_it_got)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 2);
    s.house.bay = low_bay();
    PbCompare *half = make(&s), *c = make(&s), *b = whole(&s);
    int ran = pb_compare_piece_count(half) / 2;
    for (int i = 0; i < ran; i++) {
        ck_assert_int_eq(pb_compare_run(half, i, NULL), PB_OK);
    }
    ck_assert_int_eq(pb_compare_take_over(c, half), PB_OK);
    for (int i = 0; i < pb_compare_piece_count(c); i++) {
        ck_assert_int_eq(pb_compare_is_done(c, i), i < ran);
    }
    ck_assert_int_eq(pb_compare_run_all(c, NULL, NULL, NULL, NULL, NULL, NULL), PB_OK);
    ck_assert_uint_eq(hash_of(c), hash_of(b));
    pb_compare_destroy(half);
    pb_compare_destroy(c);
    pb_compare_destroy(b);
}
END_TEST

static int order_of[4096], order_count;

static void note(void *user, int n)
{
    (void)user;
    order_of[order_count++] = n;
}

/* The year that is looked at comes first: its figures, then its ranges, then the rest. */
START_TEST(the_year_that_is_looked_at_comes_first)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 2);
    s.house.bay = low_bay();
    PbCompare *c = make(&s);
    pb_compare_look(c, 30.0);
    ck_assert_int_eq(pb_compare_run_all(c, NULL, NULL, NULL, note, NULL, NULL), PB_OK);
    ck_assert_int_eq(order_count, pb_compare_piece_count(c));
    int others = 0, figures = 0, drawn = 0;
    for (int i = 0; i < order_count; i++) {
        PbComparePiece p = pb_compare_piece(c, order_of[i]);
        int is_draw = p.kind == PB_PIECE_DRAW, t = is_draw ? p.index % TIMES : p.index;
        if ((p.kind != PB_PIECE_HEAT && !is_draw) || p.fill == PB_COMPARE_EMPTY) {
            continue;
        }
        ck_assert(t != YEAR_30 || others == 0);
        ck_assert(is_draw || t != YEAR_30 || drawn == 0);
        others += t != YEAR_30;
        figures += t == YEAR_30 && !is_draw;
        drawn += t == YEAR_30 && is_draw;
    }
    ck_assert_int_eq(figures, 3);
    ck_assert_int_eq(drawn, 6);
    pb_compare_destroy(c);
}
END_TEST

START_TEST(a_comparison_that_is_stopped_stays_stopped)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 0);
    PbCompare *c = make(&s);
    PbError err = {0};
    pb_compare_stop(c);
    ck_assert_int_eq(pb_compare_run_all(c, NULL, NULL, NULL, NULL, NULL, &err), PB_ERR_STATE);
    for (int i = 0; i < pb_compare_piece_count(c); i++) {
        int packs = pb_compare_piece(c, i).kind == PB_PIECE_PACK;
        ck_assert(!pb_compare_is_done(c, i));
        ck_assert(!packs || pb_compare_run(c, i, NULL) == PB_ERR_STATE); /* at its first tick */
    }
    pb_compare_destroy(c);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compare_pieces");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 250);
    tcase_add_test(all, the_order_of_pieces_changes_no_bit);
    tcase_add_test(all, stops_between_pieces_and_goes_on_to_the_same_end);
    tcase_add_loop_test(all, what_is_taken_over_is_what_would_have_come_out, 0,
                        some_of(5, (int)(sizeof changes / sizeof changes[0])));
    tcase_add_test(all, half_a_comparison_is_taken_over_as_far_as_it_got);
    tcase_add_test(all, the_year_that_is_looked_at_comes_first);
    tcase_add_test(all, a_comparison_that_is_stopped_stays_stopped);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
