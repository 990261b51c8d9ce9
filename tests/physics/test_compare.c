/*
 * Side by side, honest both ways: what was done well looks good and what was done badly looks bad,
 * whichever fill it is; ranges overlap where the physics does. How the work is cut into pieces:
 * test_compare_pieces.c.
 */
#include "core/compare.h"

#include "compare_case.h"
#include "io/exercise_file.h"
#include "io/hands_file.h"

#include <math.h>
#include <string.h>

/* A comparison of which some fills alone are worked out: a bit of `fills` for each. */
static PbCompare *some(const PbCompareSetup *s, unsigned fills)
{
    PbCompare *c = make(s);
    PbError err = {0};
    int ran;
    do {
        ran = 0;
        for (int i = 0; i < pb_compare_piece_count(c); i++) {
            unsigned fill = 1u << pb_compare_piece(c, i).fill;
            if ((fills & fill) != 0 && pb_compare_can_run(c, i)) {
                ck_assert_msg(pb_compare_run(c, i, &err) == PB_OK, "%s", err.message);
                ran++;
            }
        }
    } while (ran > 0);
    return c;
}

enum {
    EMPTY = 1u << PB_COMPARE_EMPTY,
    LOOSE = 1u << PB_COMPARE_LOOSE,
    FOAM = 1u << PB_COMPARE_FOAM,
    DENSE = 1u << PB_COMPARE_DENSE
};

/* The state that the figures of the shipped values say, as if there were draws enough. */
static PbCompareSays state(const PbCompare *c, PbCompareFill fill, int t)
{
    PbCompareFigures f = at(c, fill, t);
    f.draws = PB_COMPARE_ENOUGH_DRAWS;
    return pb_compare_say_of(fill, &f).says;
}

/* Good foam beside a dense pack well done, with draws enough: packed once for all that look at it.
 */
static PbCompare *good;

static void work_out(void)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, PB_COMPARE_ENOUGH_DRAWS);
    good = whole(&s);
}

START_TEST(what_is_not_ready_shows_as_not_ready)
{
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_WELL_DONE, 2);
    PbCompare *c = make(&s);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        PbCompareFigures g = at(c, (PbCompareFill)f, 0);
        ck_assert(!g.has_fill && !g.has_heat && g.draws == 0);
        ck_assert_ptr_null(pb_compare_density(c, (PbCompareFill)f, 0).values);
        ck_assert_ptr_null(pb_compare_map(c, (PbCompareFill)f, 0, NULL, NULL).values);
        ck_assert_int_eq(pb_compare_say(c, (PbCompareFill)f, 0).says, PB_SAYS_NOTHING_YET);
    }
    ck_assert_ptr_null(pb_compare_foam(c, 0));
    ck_assert_ptr_null(pb_compare_settled(c, PB_COMPARE_DENSE, 0));
    /* The first four pieces are enough for two pictures with their heat. */
    for (int i = 0; i < 4; i++) {
        ck_assert_int_eq(pb_compare_run(c, i, NULL), PB_OK);
    }
    ck_assert(at(c, PB_COMPARE_EMPTY, 0).has_heat && at(c, PB_COMPARE_FOAM, 0).has_heat);
    ck_assert(!at(c, PB_COMPARE_LOOSE, 0).has_fill);
    pb_compare_destroy(c);
}
END_TEST

/* The first figures are those of a packing run on a coarse grid: R within 1.5 % of what
 * stands (1.2 % where it settles). */
START_TEST(first_figures_are_close_to_those_that_stand)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 0);
    PbCompare *c = make(&s);
    for (int i = 0; i < pb_compare_piece_count(c); i++) {
        PbComparePiece p = pb_compare_piece(c, i);
        int is_first = p.kind == PB_PIECE_COARSE ||
                       ((p.kind == PB_PIECE_PACK || p.kind == PB_PIECE_AGE) && p.index == 0);
        if (is_first && pb_compare_can_run(c, i)) {
            ck_assert_int_eq(pb_compare_run(c, i, NULL), PB_OK);
        }
    }
    for (int f = PB_COMPARE_LOOSE; f <= PB_COMPARE_DENSE;
         f += PB_COMPARE_DENSE - PB_COMPARE_LOOSE) {
        for (int t = 0; t < TIMES; t++) {
            PbCompareFigures first = at(c, (PbCompareFill)f, t),
                             fine = at(good, (PbCompareFill)f, t);
            ck_assert(first.has_fill && first.has_heat && !first.has_camera);
            ck_assert(fine.has_camera);
            ck_assert_double_eq_tol(first.r_m2k_w.mid / fine.r_m2k_w.mid, 1.0, 0.015);
            ck_assert_double_eq_tol(first.mean_kg_m3 / fine.mean_kg_m3, 1.0, 0.02);
            ck_assert_double_eq_tol(first.top_gap_m.mid, fine.top_gap_m.mid, 0.02);
        }
    }
    pb_compare_destroy(c);
}
END_TEST

/* A bay of two stories would take twice the cells for twice the time. Its runs have fewer, so that
 * a person waits no longer than for a plain wall, and still come to the same wall: the first
 * figures to 1.5 % of what stands. */
START_TEST(a_bay_of_two_stories_costs_no_more_than_one)
{
    enum { COARSE_RUN = 0, FINE_RUN = 6, COARSE_AGE = 0, FINE_AGE = 1 };
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 0);
    s.house.bay.height_m = 5.2;
    PbCompare *c = make(&s);
    PbCompareFigures first[PB_COMPARE_FILLS];
    for (int is_fine = 0; is_fine < 2; is_fine++) {
        int run = is_fine ? FINE_RUN : COARSE_RUN, age = is_fine ? FINE_AGE : COARSE_AGE;
        PbComparePieceKind heat = is_fine ? PB_PIECE_HEAT : PB_PIECE_COARSE;
        for (int i = 0; i < pb_compare_piece_count(c); i++) {
            PbComparePiece p = pb_compare_piece(c, i);
            int is_wanted = p.kind == PB_PIECE_PACK  ? p.index == run
                            : p.kind == PB_PIECE_AGE ? p.index == age
                                                     : p.kind == heat;
            if (is_wanted && p.fill != PB_COMPARE_FOAM && pb_compare_can_run(c, i)) {
                ck_assert_int_eq(pb_compare_run(c, i, NULL), PB_OK);
            }
        }
        for (int f = PB_COMPARE_LOOSE; f <= PB_COMPARE_DENSE;
             f += PB_COMPARE_DENSE - PB_COMPARE_LOOSE) {
            PbComparePicture p = pb_compare_density(c, (PbCompareFill)f, 0);
            PbCompareFigures now = at(c, (PbCompareFill)f, TIMES - 1);
            ck_assert_int_le(p.nx * p.ny, is_fine ? 1450 : 550);
            /* marks of soft places are laid over the bay's own cells */
            ck_assert_int_eq(p.nx == pb_compare_bay(c)->nx, is_fine);
            ck_assert(now.has_heat && now.has_camera == is_fine);
            if (is_fine) {
                ck_assert_double_eq_tol(first[f].r_m2k_w.mid / now.r_m2k_w.mid, 1.0, 0.015);
                ck_assert_double_eq_tol(first[f].mean_kg_m3 / now.mean_kg_m3, 1.0, 0.02);
                ck_assert_double_eq_tol(first[f].top_gap_m.mid, now.top_gap_m.mid, 0.04);
            }
            first[f] = now;
        }
    }
    ck_assert_double_eq_tol(first[PB_COMPARE_DENSE].mean_kg_m3, 63.0, 1.0);
    pb_compare_destroy(c);
}
END_TEST

START_TEST(foam_that_does_not_shrink_has_no_loop_and_its_full_r)
{
    PbCompareSetup s = setup_of(PB_FOAM_GOOD, PB_DENSE_WELL_DONE, 0);
    s.constants.foam_good_set = s.constants.foam_good_dry = s.constants.foam_good_age = 0.0;
    PbCompare *c = some(&s, EMPTY | FOAM);
    PbCompareFigures old = at(c, PB_COMPARE_FOAM, YEAR_30);
    ck_assert(!old.has_loop);
    ck_assert_int_eq(state(c, PB_COMPARE_FOAM, YEAR_30), PB_SAYS_FOAM_TIGHT);
    ck_assert_double_eq(old.cold_m2, 0.0);
    /* Layers in series, and both limits of ISO 6946 by hand. */
    const PbConstants *k = &s.constants;
    double d = s.house.bay.depth_m, f = s.house.framing_share;
    double outer = k->room_film_m2k_w + k->gypsum_thickness_m / k->gypsum_k_w_mk +
                   k->sheathing_thickness_m / k->sheathing_k_w_mk + k->outdoor_film_m2k_w;
    /* Dry, and on the first day with 29 kg of water a m3 in it: 0.4 W/(m K) for each share. */
    double conducts[] = {k->foam_k_w_mk, k->foam_k_w_mk + 0.4 * 0.029};
    double stud = d / k->wood_k_w_mk;
    for (int i = 0; i < 2; i++) {
        PbCompareFigures g = i == 0 ? old : at(c, PB_COMPARE_FOAM, YEAR_0);
        double foam = d / conducts[i];
        double upper = 1.0 / (f / (outer + stud) + (1.0 - f) / (outer + foam));
        double lower = outer + 1.0 / (f / stud + (1.0 - f) / foam);
        /* The solver's own error for a plain wall is under 1e-6 of U. */
        ck_assert_double_eq_tol(g.r_m2k_w.mid, 0.5 * (upper + lower), 1e-5);
        ck_assert_double_eq_tol(g.water_frac, i, 1e-3);
    }
    ck_assert_int_eq(state(c, PB_COMPARE_FOAM, YEAR_0), PB_SAYS_FOAM_WET);
    /* Better than the dense pack, and the sentence has to let that stand. */
    ck_assert_double_gt(old.r_m2k_w.mid, at(good, PB_COMPARE_DENSE, YEAR_30).r_m2k_w.mid);
    pb_compare_destroy(c);
}
END_TEST

START_TEST(foam_that_shrinks_loses_r_with_its_class)
{
    double r[3];
    for (int k = 0; k < 3; k++) {
        PbCompareSetup s = setup_of((PbFoamClass)k, PB_DENSE_WELL_DONE, 0);
        PbCompare *c = some(&s, EMPTY | FOAM);
        PbCompareFigures old = at(c, PB_COMPARE_FOAM, YEAR_30);
        r[k] = old.r_m2k_w.mid;
        ck_assert(old.has_loop);
        ck_assert_double_lt(r[k], at(c, PB_COMPARE_FOAM, YEAR_1).r_m2k_w.mid);
        ck_assert_int_eq(state(c, PB_COMPARE_FOAM, YEAR_30), PB_SAYS_FOAM_LOOP);
        pb_compare_destroy(c);
    }
    ck_assert(r[PB_FOAM_GOOD] > r[PB_FOAM_TYPICAL] && r[PB_FOAM_TYPICAL] > r[PB_FOAM_POOR]);
}
END_TEST

START_TEST(a_hasty_dense_pack_shows_voids_and_a_cold_stripe)
{
    PbCompareSetup hasty = setup_of(PB_FOAM_TYPICAL, PB_DENSE_HASTY, 0);
    PbCompare *b = some(&hasty, EMPTY | DENSE);
    for (int t = 0; t < TIMES; t++) {
        PbCompareFigures g = at(good, PB_COMPARE_DENSE, t), h = at(b, PB_COMPARE_DENSE, t);
        ck_assert(!g.has_voids && g.cold_m2 == 0.0 && !g.has_loop);
        ck_assert(h.has_voids && h.has_loop);
        ck_assert_double_gt(h.cold_m2, 0.05); /* five squares of 0.1 m at the least */
        ck_assert_double_lt(h.surface_min_c, g.surface_min_c - 1.0);
        ck_assert_double_lt(h.r_m2k_w.mid, 0.85 * g.r_m2k_w.mid);
        ck_assert_int_eq(state(b, PB_COMPARE_DENSE, t), PB_SAYS_DENSE_VOIDS);
    }
    pb_compare_destroy(b);
}
END_TEST

START_TEST(good_foam_and_a_good_dense_pack_are_close_and_said_to_be)
{
    const PbCompare *c = good;
    for (int t = 0; t < TIMES; t++) {
        PbCompareFigures foam = at(c, PB_COMPARE_FOAM, t), dense = at(c, PB_COMPARE_DENSE, t);
        ck_assert_int_eq(foam.draws, 20);
        ck_assert_double_eq_tol(foam.r_m2k_w.mid / dense.r_m2k_w.mid, 1.0, 0.10);
        ck_assert(foam.r_m2k_w.low < dense.r_m2k_w.high && dense.r_m2k_w.low < foam.r_m2k_w.high);
        ck_assert_int_eq(foam.pairs, 20);
        ck_assert(foam.against_log.low == -dense.against_log.high);
        ck_assert(foam.against_log.high == -dense.against_log.low);
        /* Wet foam is the worse one by up to 15 %; once it has dried nothing
         * tells them apart. */
        ck_assert_double_gt(foam.against_log.low, log(0.90));
        ck_assert_double_lt(foam.against_log.high, log(t == YEAR_0 ? 1.20 : 1.10));
        ck_assert_int_eq(pb_compare_say(c, PB_COMPARE_FOAM, t).beside,
                         t == YEAR_0 ? PB_BESIDE_MORE : PB_BESIDE_SAME);
        ck_assert_int_eq(pb_compare_say(c, PB_COMPARE_DENSE, t).beside,
                         t == YEAR_0 ? PB_BESIDE_LESS : PB_BESIDE_SAME);
    }
    ck_assert_int_eq(pb_compare_say(c, PB_COMPARE_LOOSE, YEAR_30).beside, PB_BESIDE_MORE);
}
END_TEST

/* Usual and careless: both are as light as an open blow is, and only the careless one leaves its
 * top empty on the first day. */
START_TEST(a_careless_loose_blow_is_a_case_of_its_own)
{
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_WELL_DONE, 0);
    s.house.loose = PB_LOOSE_CARELESS;
    PbCompare *c = some(&s, LOOSE);
    PbCompareFigures fair = at(good, PB_COMPARE_LOOSE, YEAR_0);
    PbCompareFigures bad = at(c, PB_COMPARE_LOOSE, YEAR_0);
    ck_assert_double_gt(fair.mean_kg_m3, 25.0); /* 1.6 to 2 lb/ft3 */
    ck_assert_double_lt(fair.mean_kg_m3, 32.0);
    ck_assert_double_lt(fair.void_area_m2, 0.001);
    ck_assert_double_lt(bad.mean_kg_m3, 25.0);
    ck_assert_double_gt(bad.mean_kg_m3, 18.0);
    ck_assert_double_gt(bad.void_area_m2, 0.05); /* 4 to 12 % of the face */
    ck_assert_double_lt(bad.void_area_m2, 0.12);
    ck_assert_double_lt(bad.r_m2k_w.mid, 0.9 * fair.r_m2k_w.mid);
    ck_assert_double_lt(at(c, PB_COMPARE_LOOSE, YEAR_30).r_m2k_w.mid,
                        at(good, PB_COMPARE_LOOSE, YEAR_30).r_m2k_w.mid);
    pb_compare_destroy(c);
}
END_TEST

/* Of six crews one opens the gate wide, and its loose blow ends a finger below the top plate. */
START_TEST(ranges_hold_what_crews_do)
{
    PbCompareFigures loose = at(good, PB_COMPARE_LOOSE, YEAR_0);
    PbCompareFigures dense = at(good, PB_COMPARE_DENSE, YEAR_30);
    ck_assert_double_lt(loose.top_gap_m.low, 0.002);
    ck_assert_double_gt(loose.top_gap_m.high, 0.005);
    ck_assert_double_lt(loose.top_gap_m.high, 0.03);
    ck_assert_double_lt(dense.top_gap_m.high, 0.01); /* all of them pack a wall that stays full */
}
END_TEST

/* A loose fill sinks, so it never gets better. */
START_TEST(r_of_a_settling_fill_never_rises)
{
    PbCompareSetup s = pb_compare_default();
    s.house.bay.height_m = 1.2;
    s.draws = 0;
    PbCompare *c = some(&s, LOOSE);
    double was = HUGE_VAL;
    for (int t = 0; t < s.year_count; t++) {
        double r = at(c, PB_COMPARE_LOOSE, t).r_m2k_w.mid;
        ck_assert_double_le(r, was);
        was = r;
    }
    ck_assert_double_lt(was, 0.8 * at(c, PB_COMPARE_LOOSE, 0).r_m2k_w.mid);
    pb_compare_destroy(c);
}
END_TEST

START_TEST(ranges_hold_their_mid_and_hang_together)
{
    const PbHouse *h = &pb_compare_setup(good)->house;
    for (int t = 0; t < TIMES; t++) {
        for (int f = 0; f < PB_COMPARE_FILLS; f++) {
            PbCompareFigures g = at(good, (PbCompareFill)f, t);
            const PbHeatRange all[] = {g.r_m2k_w,  g.heat_ratio, g.top_gap_m,
                                       g.heat_kwh, g.cost,       g.shrink_frac};
            for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
                ck_assert(all[i].low <= all[i].mid && all[i].mid <= all[i].high);
            }
            ck_assert(g.r_m2k_w.low < g.r_m2k_w.high);
            ck_assert(g.has_heat && g.draws == PB_COMPARE_ENOUGH_DRAWS);
            /* cost is heat times price over efficiency, mid for mid */
            ck_assert_double_eq_tol(g.cost.mid,
                                    g.heat_kwh.mid * h->price_per_kwh.mid / h->efficiency.mid,
                                    1e-9 * g.cost.mid);
            ck_assert_double_eq_tol(
                g.heat_kwh.mid, h->wall_area_m2 * h->degree_days_k_d.mid * 0.024 / g.r_m2k_w.mid,
                1e-9 * g.heat_kwh.mid);
        }
    }
}
END_TEST

START_TEST(between_key_times_figures_lie_between)
{
    const PbCompare *c = good;
    PbCompareFigures g, a = at(c, PB_COMPARE_LOOSE, YEAR_1), b = at(c, PB_COMPARE_LOOSE, YEAR_30);
    pb_compare_figures_at(c, PB_COMPARE_LOOSE, 1.0, &g);
    ck_assert_mem_eq(&g, &a, sizeof g);
    pb_compare_figures_at(c, PB_COMPARE_LOOSE, 30.0, &g);
    ck_assert_mem_eq(&g, &b, sizeof g);
    pb_compare_figures_at(c, PB_COMPARE_LOOSE, 12.0, &g);
    ck_assert(g.years == 12.0 && g.has_heat);
    ck_assert(g.r_m2k_w.mid < a.r_m2k_w.mid && g.r_m2k_w.mid > b.r_m2k_w.mid);
    ck_assert(g.top_gap_m.high > a.top_gap_m.high && g.top_gap_m.high < b.top_gap_m.high);
}
END_TEST

/* The framing share of the bay itself gives back the R that the heat solver gives for the bay. */
START_TEST(the_walls_r_is_the_bays_r_at_the_bays_own_framing)
{
    PbBayField field;
    PbHeatBay *bay;
    PbAllocator memory = pb_allocator_default();
    PbConstants k = pb_constants_default();
    ck_assert_int_eq(pb_bay_field_create(4, 40, 0.368, 2.35, 0.089, &field), PB_OK);
    pb_bay_field_fill(&field, 50.0);
    field.density_kg_m3[39 * 4] = field.density_kg_m3[38 * 4] = 0.0;
    field.tilt_deg = 90.0;
    PbHeatBaySetup setup = pb_heat_bay_default(&field);
    setup.strips = 4;
    ck_assert_int_eq(pb_heat_bay_solve(&setup, &k, &memory, &bay, NULL), PB_OK);
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    PbHouse house = {.framing_share = k.stud_width_m / (k.stud_width_m + field.width_m),
                     .bay = {.width_m = field.width_m, .depth_m = field.depth_m}};
    ck_assert_double_eq_tol(pb_compare_wall_r(r, &house, &k), r->r_m2k_w, 1e-12);
    house.framing_share = 0.25;
    ck_assert_double_lt(pb_compare_wall_r(r, &house, &k), r->r_m2k_w);
    pb_heat_bay_destroy(bay);
    pb_bay_field_destroy(&field);
}
END_TEST

static PbExercise exercise(const char *name)
{
    char path[400];
    PbExercise e;
    PbError err = {0};
    snprintf(path, sizeof path, "%s/assets/exercises/%s.json", PB_TEST_SOURCE_DIR, name);
    ck_assert_msg(io_exercise_load(path, &e, &err) == PB_OK, "%s", err.message);
    return e;
}

/* The hands of the comparison are those that the shipped files have, on the shipped bays. */
START_TEST(hands_and_the_loose_bay_are_the_shipped_ones)
{
    PbExercise plain = exercise("plain-2x4"), loose = exercise("loose-2x4");
    PbExercise bay = pb_compare_loose_bay(&plain, PB_LOOSE_FAIR);
    PbExercise low = pb_compare_loose_bay(&plain, PB_LOOSE_CARELESS);
    PbHands file, made = pb_compare_loose_hands(&low);
    PbError err = {0};
    ck_assert_int_eq(io_hands_load(PB_TEST_SOURCE_DIR "/assets/hands/no-tube.json", &file, &err),
                     PB_OK);
    ck_assert_str_eq(made.name, file.name);
    ck_assert(made.pull == file.pull && made.wait_s == file.wait_s && made.pass_count == 1);
    ck_assert(made.blower == file.blower && made.feed_kg_s == file.feed_kg_s);
    ck_assert(made.stall_frac == file.stall_frac && made.max_stop_s == file.max_stop_s);
    ck_assert_int_eq(made.passes[0].direction, file.passes[0].direction);
    ck_assert(made.passes[0].first_m == file.passes[0].first_m);
    ck_assert_int_eq(pb_compare_loose_hands(&bay).pass_count, 2);
    made = pb_compare_well_done_hands(&plain);
    PbHands steady = pb_hands_default();
    ck_assert_int_eq(made.pass_count, 2);
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(made.passes[i].direction, steady.passes[i].direction);
        ck_assert_double_eq_tol(made.passes[i].first_m, steady.passes[i].first_m, 1e-12);
        ck_assert_double_eq_tol(made.passes[i].last_m, steady.passes[i].last_m, 1e-12);
    }
    ck_assert_int_eq(bay.hole_count, 2);
    ck_assert_double_eq_tol(bay.holes[1].y_m, loose.holes[0].y_m, 1e-12);
    ck_assert_double_eq_tol(bay.holes[0].y_m, 0.5 * plain.height_m, 1e-12);
    ck_assert_int_eq(low.hole_count, 1);
    ck_assert_double_eq_tol(low.holes[0].y_m, loose.holes[0].y_m - 0.3, 1e-12);
    ck_assert_double_gt(low.feed_kg_s, bay.feed_kg_s);
    ck_assert_mem_eq(&bay.machine, &loose.machine, sizeof bay.machine);
    ck_assert(bay.feed_kg_s == loose.feed_kg_s);
}
END_TEST

static const char *const bays[] = {"plain-2x4-high", "deep-2x6",      "fire-block",
                                   "pipe-bay",       "garage-slope",  "plaster-lath",
                                   "wide-24",        "thin-panelling"};
enum { BAYS = sizeof bays / sizeof bays[0] };

/* Every kind of bay gets through, and its hands are ones that the reader would take. */
START_TEST(other_bays_get_through)
{
    PbCompareSetup s = setup_of(PB_FOAM_POOR, PB_DENSE_WELL_DONE, 1);
    char field[96];
    PbError err = {0};
    s.house.bay = exercise(bays[_i]);
    if (s.house.bay.obstacle_count == 0 && s.house.bay.holes[0].y_m < 0.6) {
        s.house.bay.height_m =
            1.2; /* what kind of bay it is does not change, and it packs sooner */
    }
    s.years[1] = 30.0;
    s.year_count = 2;
    PbHands hands[] = {pb_compare_well_done_hands(&s.house.bay),
                       pb_compare_hasty_hands(&s.house.bay)};
    for (int i = 0; i < 2; i++) {
        ck_assert_msg(pb_hands_check(&hands[i], field, sizeof field, &err) == PB_OK, "%s",
                      err.message);
    }
    PbCompare *c = make(&s);
    ck_assert_msg(pb_compare_run_all(c, NULL, NULL, NULL, NULL, NULL, &err) == PB_OK, "%s: %s",
                  bays[_i], err.message);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        PbCompareFigures g = at(c, (PbCompareFill)f, 1);
        ck_assert(g.has_heat && g.r_m2k_w.mid > 0.3 && g.r_m2k_w.mid < 6.0);
        ck_assert_int_ne(pb_compare_say(c, (PbCompareFill)f, 1).says, PB_SAYS_NOTHING_YET);
    }
    PbCompareFigures dense = at(c, PB_COMPARE_DENSE, 0);
    /* behind a fire block nothing can be packed from one hole, and that has to show */
    ck_assert_msg(dense.is_blown_out || dense.mean_kg_m3 > 45.0 || dense.void_area_m2 > 0.1,
                  "%s: %g", bays[_i], dense.mean_kg_m3);
    pb_compare_destroy(c);
}
END_TEST

START_TEST(an_own_run_takes_the_place_of_the_dense_pack)
{
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_OWN, 0);
    PbBayField own;
    PbCompare *c;
    PbError err = {0};
    ck_assert_int_eq(pb_compare_create(&s, &c, &err), PB_ERR_RANGE);
    ck_assert_int_eq(pb_bay_field_create(8, 50, s.house.bay.width_m, s.house.bay.height_m,
                                         s.house.bay.depth_m, &own),
                     PB_OK);
    pb_bay_field_fill(&own, 51.0);
    own.tilt_deg = 90.0;
    own.fill_rh_frac = 0.5;
    s.own = &own;
    c = some(&s, DENSE);
    ck_assert_double_eq_tol(at(c, PB_COMPARE_DENSE, 0).mean_kg_m3, 51.0, 1e-3);
    ck_assert_int_eq(pb_compare_density(c, PB_COMPARE_DENSE, 0).ny, 50);
    pb_compare_destroy(c);
    own.width_m = 0.4;
    ck_assert_int_eq(pb_compare_create(&s, &c, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "the own run packed"));
    own.width_m = s.house.bay.width_m;
    pb_bay_field_destroy(&own);
}
END_TEST

/* Every constant that draws move is listed as drawn, with the range of its row. */
START_TEST(every_input_is_listed_with_its_range_and_source)
{
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_WELL_DONE, 2);
    s.constants.wall_friction = 0.55; /* set by hand: no longer drawn */
    PbCompare *c = make(&s);
    PbAssumed rows[PB_COMPARE_MAX_ROWS];
    int n = pb_compare_assumed(c, rows, PB_COMPARE_MAX_ROWS), drawn = 0, seen = 0;
    ck_assert_int_lt(n, PB_COMPARE_MAX_ROWS);
    for (int i = 0; i < n; i++) {
        ck_assert(rows[i].key[0] != '\0' && rows[i].source[0] != '\0');
        ck_assert(rows[i].text != NULL ||
                  (rows[i].low <= rows[i].value && rows[i].value <= rows[i].high));
        drawn += rows[i].is_drawn;
        seen += strcmp(rows[i].key, "foam_k_w_mk") == 0 && rows[i].is_drawn;
        seen += strcmp(rows[i].key, "settle_material") == 0 && rows[i].is_drawn &&
                rows[i].low == 0.7 && rows[i].high == 1.0;
        seen += strcmp(rows[i].key, "climate/bay_rh") == 0 && rows[i].is_drawn;
        seen += strcmp(rows[i].key, "price_per_kwh") == 0;
        seen += strcmp(rows[i].key, "air_viscosity_pa_s") == 0; /* how easily air moves in a fill */
        seen += strcmp(rows[i].key, "void_kg_m3") == 0;         /* what counts as an empty place */
        seen +=
            strcmp(rows[i].key, "wall_friction") == 0 && !rows[i].is_drawn && rows[i].value == 0.55;
        ck_assert(strncmp(rows[i].key, "foam_poor", 9) != 0);
    }
    ck_assert_int_eq(seen, 7);
    ck_assert_int_gt(drawn, 25);
    pb_compare_destroy(c);
}
END_TEST

/* Money alone follows at once; heat through the wall stays what it was. */
START_TEST(a_new_price_changes_money_and_nothing_else)
{
    PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_WELL_DONE, 0);
    PbCompare *c = some(&s, EMPTY);
    PbCompareFigures before = at(c, PB_COMPARE_EMPTY, 0), after;
    PbHouse house = s.house;
    PbError err = {0};
    house.price_per_kwh.low *= 2.0;
    house.price_per_kwh.mid *= 2.0;
    house.price_per_kwh.high *= 2.0;
    ck_assert_int_eq(pb_compare_set_money(c, &house, &err), PB_OK);
    after = at(c, PB_COMPARE_EMPTY, 0);
    ck_assert_double_eq_tol(after.cost.mid, 2.0 * before.cost.mid, 1e-9 * before.cost.mid);
    ck_assert_double_eq(after.r_m2k_w.mid, before.r_m2k_w.mid);
    ck_assert_double_eq(after.heat_kwh.mid, before.heat_kwh.mid);
    house.price_per_kwh.low = 2.0 * house.price_per_kwh.high; /* no range: refused, nothing done */
    ck_assert_int_eq(pb_compare_set_money(c, &house, &err), PB_ERR_RANGE);
    ck_assert_double_eq(at(c, PB_COMPARE_EMPTY, 0).cost.mid, after.cost.mid);
    pb_compare_destroy(c);
}
END_TEST

START_TEST(a_bad_setup_is_refused)
{
    PbCompare *c = NULL;
    PbError err = {0};
    for (int k = 0; k < 6; k++) {
        PbCompareSetup s = setup_of(PB_FOAM_TYPICAL, PB_DENSE_WELL_DONE, 2);
        s.years[0] = k == 0 ? 1.0 : 0.0;
        s.years[2] = k == 1 ? 1.0 : k == 2 ? 300.0 : 30.0;
        s.draws = k == 3 ? PB_COMPARE_MAX_DRAWS + 1 : 2;
        s.frames_between = k == 4 ? 9 : 0;
        s.house.wall_area_m2 = k == 5 ? -1.0 : 100.0;
        ck_assert_int_eq(pb_compare_create(&s, &c, &err), PB_ERR_RANGE);
        ck_assert_ptr_nonnull(strstr(err.message, "expected"));
        ck_assert_ptr_null(c);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compare");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 250);
    tcase_add_unchecked_fixture(all, work_out, NULL);
    tcase_add_test(all, what_is_not_ready_shows_as_not_ready);
    tcase_add_test(all, first_figures_are_close_to_those_that_stand);
    tcase_add_test(all, a_bay_of_two_stories_costs_no_more_than_one);
    tcase_add_test(all, foam_that_does_not_shrink_has_no_loop_and_its_full_r);
    tcase_add_test(all, foam_that_shrinks_loses_r_with_its_class);
    tcase_add_test(all, a_hasty_dense_pack_shows_voids_and_a_cold_stripe);
    tcase_add_test(all, good_foam_and_a_good_dense_pack_are_close_and_said_to_be);
    tcase_add_test(all, a_careless_loose_blow_is_a_case_of_its_own);
    tcase_add_test(all, ranges_hold_what_crews_do);
    tcase_add_test(all, r_of_a_settling_fill_never_rises);
    tcase_add_test(all, ranges_hold_their_mid_and_hang_together);
    tcase_add_test(all, between_key_times_figures_lie_between);
    tcase_add_test(all, the_walls_r_is_the_bays_r_at_the_bays_own_framing);
    tcase_add_test(all, hands_and_the_loose_bay_are_the_shipped_ones);
    tcase_add_loop_test(all, other_bays_get_through, 0, some_of(2, BAYS));
    tcase_add_test(all, an_own_run_takes_the_place_of_the_dense_pack);
    tcase_add_test(all, every_input_is_listed_with_its_range_and_source);
    tcase_add_test(all, a_new_price_changes_money_and_nothing_else);
    tcase_add_test(all, a_bad_setup_is_refused);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
