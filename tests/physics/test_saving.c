/* What a fill saves: the same house and the same draw on both sides, against three houses worked by
 * hand, and held back where the walls would burn more than the bill. */
#include "core/compare.h"

#include "suite.h"

#include <math.h>
#include <string.h>

static PbWall wall_of(const char *inside, const char *sheathing, const char *paper,
                      const char *cladding)
{
    const char *const ids[PB_WALL_PLACES] = {inside, sheathing, paper, cladding, "none"};
    PbWall w = {.is_layered = 1};
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        w.layer[p] = pb_wall_layer_find((PbWallPlace)p, ids[p]);
        ck_assert_int_ge(w.layer[p], 0);
    }
    return w;
}

/*
 * Three houses by hand: R of layers from the ASHRAE Handbook, Fundamentals, 2005, chapter 25, table
 * 4, films of ISO 6946, cellulose an inch, airspace, softwood an inch, mean of
 * both limits of ISO 6946 (h ft2 F/Btu). Season: area x K d x 24 / R, with the degree days of the
 * place. The first is a balloon frame: 5.2 m from plate to plate.
 */
static const struct {
    const char *inside, *sheathing, *paper, *cladding, *climate_of;
    double area_m2, framing, degree_days, width_m, height_m, depth_m, empty_r, dense_r, saved_kwh;
    double price, efficiency, saved_money; /* of a kWh; kWh x price / efficiency */
} houses[] = {
    {"plaster-wood-lath", "boards", "felt", "wood-lap", "1925", 149.0, 0.20, 4400.0, 0.365, 5.2,
     0.098, 4.57, 13.75, 13065.0, 0.045, 0.85, 692.0},
    {"gypsum-1-2", "fiberboard-1-2", "none", "hardboard", "1962", 102.0, 0.25, 2600.0, 0.368, 2.35,
     0.089, 4.81, 12.42, 4599.0, 0.05, 0.80, 287.0},
    {"gypsum-1-2", "plywood-1-2", "none", "brick", "1978", 120.0, 0.23, 800.0, 0.368, 2.35, 0.140,
     5.02, 17.79, 1871.0, 0.14, 2.5, 105.0},
};

static PbCompareSetup setup_of(int n, int draws)
{
    PbCompareSetup s = pb_compare_default();
    s.draws = draws;
    s.year_count = 1;
    s.frames_between = 0;
    s.house.wall =
        wall_of(houses[n].inside, houses[n].sheathing, houses[n].paper, houses[n].cladding);
    s.house.wall_area_m2 = houses[n].area_m2;
    s.house.framing_share = houses[n].framing;
    double d = houses[n].degree_days;
    s.house.degree_days_k_d = (PbHeatRange){d, d, d};
    double price = houses[n].price, efficiency = houses[n].efficiency;
    s.house.price_per_kwh = (PbHeatRange){price, price, price};
    s.house.efficiency = (PbHeatRange){efficiency, efficiency, efficiency};
    PbExercise *bay = &s.house.bay;
    bay->holes[0].x_m *= houses[n].width_m / bay->width_m;
    bay->holes[0].y_m *= houses[n].height_m / bay->height_m;
    bay->width_m = houses[n].width_m;
    bay->height_m = houses[n].height_m;
    bay->depth_m = houses[n].depth_m;
    return s;
}

/* Run what these fills need and no more. */
static PbCompare *some(const PbCompareSetup *s, int with_dense)
{
    PbCompare *c;
    PbError err = {0};
    ck_assert_msg(pb_compare_create(s, &c, &err) == PB_OK, "%s", err.message);
    for (int n = 0; n < pb_compare_piece_count(c); n++) {
        PbCompareFill f = pb_compare_piece(c, n).fill;
        int is_wanted =
            f == PB_COMPARE_EMPTY || f == (with_dense ? PB_COMPARE_DENSE : PB_COMPARE_FOAM);
        ck_assert_msg(!is_wanted || pb_compare_run(c, n, &err) == PB_OK, "%s", err.message);
    }
    return c;
}

static const double us_r = 0.17611018368230583;

START_TEST(three_houses_are_those_worked_by_hand)
{
    PbCompareSetup s = setup_of(_i, _i == 0 ? PB_COMPARE_ENOUGH_DRAWS : 0);
    PbCompare *c = some(&s, 1);
    PbCompareFigures empty, dense;
    PbCompareSaving saving;
    pb_compare_figures(c, PB_COMPARE_EMPTY, 0, &empty);
    pb_compare_figures(c, PB_COMPARE_DENSE, 0, &dense);
    ck_assert_double_eq_tol(empty.r_m2k_w.mid / us_r / houses[_i].empty_r, 1.0, 0.05);
    ck_assert_double_eq_tol(dense.r_m2k_w.mid / us_r / houses[_i].dense_r, 1.0, 0.05);
    /* A balloon bay is packed by every crew, not only by the first: its range is one of constants.
     */
    ck_assert_double_gt(dense.r_m2k_w.low, 0.88 * dense.r_m2k_w.mid);
    ck_assert_double_lt(dense.top_gap_m.high, 0.05);
    double by_days = houses[_i].area_m2 * houses[_i].degree_days * 0.024 *
                     (1.0 / empty.r_m2k_w.mid - 1.0 / dense.r_m2k_w.mid);
    ck_assert_double_eq_tol(by_days / houses[_i].saved_kwh, 1.0, 0.10);
    ck_assert_double_eq_tol((empty.heat_kwh.mid - dense.heat_kwh.mid) / by_days, 1.0, 1e-9);
    ck_assert_double_eq_tol((empty.cost.mid - dense.cost.mid) / houses[_i].saved_money, 1.0, 0.10);
    pb_compare_saving(c, PB_COMPARE_DENSE, 0, &saving);
    ck_assert_double_lt(saving.units.mid, saving.wall_units.mid); /* of a mild winter too */
    /* By the house's own balance point: sun and inner heat take off, a leaky house puts on. */
    pb_compare_saving(c, PB_COMPARE_DENSE, 0, &saving);
    ck_assert(saving.is_ready && !saving.is_over_bill);
    ck_assert_double_gt(saving.heat_kwh.mid / houses[_i].saved_kwh, 0.7);
    ck_assert_double_lt(saving.heat_kwh.mid / houses[_i].saved_kwh, 1.1);
    pb_compare_destroy(c);
}
END_TEST

/* Fuel, money and years by hand from the heat saved. */
START_TEST(fuel_money_and_payback_follow_from_the_heat)
{
    PbCompareSetup s = setup_of(0, 0);
    s.year_count = 2;
    s.house.bill = (PbBill){pb_fuel_find("oil-gallon") + 1, {3.5, 3.5, 3.5}, 0.0, {0, 0, 0}};
    s.house.efficiency = (PbHeatRange){0.8, 0.8, 0.8};
    s.house.job = (PbJob){5000.0, 1000.0, 20.0};
    pb_house_price_by_bill(&s.house);
    PbCompare *c = some(&s, 0);
    PbCompareSaving saving;
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &saving);
    double gallons = saving.heat_kwh.mid / (0.8 * 40.59);
    ck_assert_double_eq_tol(saving.units.mid, gallons, 1e-9);
    ck_assert_double_eq_tol(saving.money.mid, 3.5 * gallons, 1e-9);
    ck_assert_double_eq_tol(saving.payback_years.mid, 4000.0 / (3.5 * gallons), 1e-9);
    pb_compare_saving(c, PB_COMPARE_EMPTY, 0, &saving);
    ck_assert(saving.is_ready && saving.units.mid == 0.0 && isinf(saving.payback_years.mid));
    pb_compare_saving_at(c, PB_COMPARE_EMPTY, 0.5 * (s.years[0] + s.years[1]), &saving);
    ck_assert(isinf(saving.payback_years.mid) && isinf(saving.payback_years.low));
    pb_compare_destroy(c);
}
END_TEST

/* The loss of the house comes from the bill: a saving can never be more than was burnt, and walls
 * that would burn more than the bill are told and hold the rest back. */
START_TEST(the_bill_bounds_what_is_saved)
{
    PbCompareSetup s = setup_of(0, 0);
    s.house.bill =
        (PbBill){pb_fuel_find("gas-therm") + 1, {1.4, 1.4, 1.4}, 1500.0, {0.2, 0.2, 0.2}};
    pb_house_price_by_bill(&s.house);
    PbCompare *c = some(&s, 0);
    PbCompareSaving saving;
    PbError err = {0};
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &saving);
    ck_assert(!saving.is_over_bill);
    ck_assert_double_eq_tol(saving.bill_units, 1200.0, 1e-9);
    ck_assert_double_eq_tol(saving.wall_units.mid, 1200.0 * saving.wall_share.mid, 0.5);
    ck_assert_double_lt(saving.units.mid, 1200.0);
    ck_assert_double_gt(saving.units.mid, 0.5 * saving.wall_units.mid);
    double burnt = saving.units.mid;
    s.house.bill.last_year = 500.0;
    ck_assert_int_eq(pb_compare_set_money(c, &s.house, &err), PB_OK);
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &saving);
    ck_assert(saving.is_ready && saving.is_over_bill);
    ck_assert_double_gt(saving.wall_units.mid, saving.bill_units);
    ck_assert(saving.units.mid == 0.0 && saving.money.high == 0.0 && burnt > 0.0);
    pb_compare_destroy(c);
}
END_TEST

/* At once, from R alone: the same as the comparison has for its shipped values. */
START_TEST(a_house_being_typed_has_its_middle_at_once)
{
    PbCompareSetup s = setup_of(0, 0);
    s.house.bill =
        (PbBill){pb_fuel_find("gas-therm") + 1, {1.4, 1.4, 1.4}, 1500.0, {0.2, 0.2, 0.2}};
    pb_house_price_by_bill(&s.house);
    PbCompare *c = some(&s, 0);
    PbCompareFigures empty, foam;
    PbCompareSaving worked, once;
    pb_compare_figures(c, PB_COMPARE_EMPTY, 0, &empty);
    pb_compare_figures(c, PB_COMPARE_FOAM, 0, &foam);
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &worked);
    pb_compare_saving_of(&s.house, &s.constants, empty.r_m2k_w.mid, foam.r_m2k_w.mid, &once);
    ck_assert_double_eq_tol(once.units.mid, worked.units.mid, 1e-9);
    ck_assert(once.bill_units == worked.bill_units && once.draws == 0 && once.is_ready);
    pb_compare_destroy(c);
}
END_TEST

/* One draw moves both walls alike. */
START_TEST(the_range_is_of_paired_draws)
{
    PbCompareSetup s = setup_of(1, 24);
    /* The house is held, since what is set by hand is not drawn: only the walls are. */
    s.constants.house_gains_w += 1.0;
    s.constants.house_sun_k += 0.01;
    s.constants.house_wall_share += 0.001;
    s.constants.house_realized_share -= 0.001;
    s.constants.wall_area_scale += 0.001;
    PbCompare *c = some(&s, 0);
    PbCompareFigures empty, foam;
    PbCompareSaving saving;
    pb_compare_figures(c, PB_COMPARE_EMPTY, 0, &empty);
    pb_compare_figures(c, PB_COMPARE_FOAM, 0, &foam);
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &saving);
    ck_assert_int_eq(saving.draws, 24);
    ck_assert_int_eq(saving.kept, 24);
    ck_assert_int_eq(saving.better, 24);
    ck_assert(saving.units.low < saving.units.mid && saving.units.mid < saving.units.high);
    ck_assert(empty.r_m2k_w.low < empty.r_m2k_w.mid && empty.r_m2k_w.high > empty.r_m2k_w.mid);
    /* The wall against itself saves nothing in any draw, though its R moves. */
    PbCompareSaving none;
    pb_compare_saving(c, PB_COMPARE_EMPTY, 0, &none);
    ck_assert(none.kept == 24 && none.units.low == 0.0 && none.units.high == 0.0);
    /* With the house held, the range is that of the walls: no wider than column against column. */
    double worst = empty.heat_kwh.low - foam.heat_kwh.high;
    double best = empty.heat_kwh.high - foam.heat_kwh.low;
    double paired = (saving.heat_kwh.high - saving.heat_kwh.low) / saving.heat_kwh.mid;
    ck_assert_double_lt(paired, (best - worst) / (empty.heat_kwh.mid - foam.heat_kwh.mid));
    pb_compare_destroy(c);
}
END_TEST

/* Half of the draws are of houses that save less than is computed, so the range reaches further
 * down than up, to between half and two thirds of its middle. */
START_TEST(the_low_end_knows_of_measured_savings)
{
    PbCompareSetup s = setup_of(0, 40);
    PbCompare *c = some(&s, 0);
    PbCompareSaving saving;
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &saving);
    ck_assert_double_gt(saving.units.low, 0.45 * saving.units.mid);
    ck_assert_double_lt(saving.units.low, 0.75 * saving.units.mid);
    ck_assert_double_lt(saving.units.high, 1.25 * saving.units.mid);
    pb_compare_destroy(c);
}
END_TEST

/* A bill near what the walls take: draws beyond it are left out, and too few kept hold it back. */
START_TEST(draws_beyond_the_bill_are_left_out)
{
    PbCompareSetup s = setup_of(0, 24);
    s.house.bill =
        (PbBill){pb_fuel_find("gas-therm") + 1, {1.4, 1.4, 1.4}, 700.0, {0.05, 0.1, 0.4}};
    pb_house_price_by_bill(&s.house);
    PbCompare *c = some(&s, 0);
    PbCompareSaving saving;
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &saving);
    ck_assert(!saving.is_over_bill);
    ck_assert_int_lt(saving.kept, 24);
    ck_assert_int_gt(saving.kept, 4);
    ck_assert_double_le(saving.wall_share.high, 1.0);
    ck_assert_double_lt(saving.units.high, 700.0);
    pb_compare_destroy(c);
}
END_TEST

/* Old fill to seven tenths: R of the whole by area of both parts lies near; it saves less than the
 * empty wall, and what it says is not that nothing is in it. */
START_TEST(old_fill_is_what_the_saving_is_held_against)
{
    PbCompareSetup s = setup_of(1, 0);
    PbCompare *empty = some(&s, 0);
    s.house.cavity = (PbCavity){PB_CAVITY_LOOSE, 0.7};
    PbCompare *old = some(&s, 0);
    PbCompareFigures a, b, foam;
    PbCompareSaving from_empty, from_old;
    pb_compare_figures(empty, PB_COMPARE_EMPTY, 0, &a);
    pb_compare_figures(old, PB_COMPARE_EMPTY, 0, &b);
    pb_compare_figures(old, PB_COMPARE_FOAM, 0, &foam);
    pb_compare_saving(empty, PB_COMPARE_FOAM, 0, &from_empty);
    pb_compare_saving(old, PB_COMPARE_FOAM, 0, &from_old);
    double by_area = 1.0 / (0.3 / a.r_m2k_w.mid + 0.7 / foam.r_m2k_w.mid);
    ck_assert_double_eq_tol(b.r_m2k_w.mid / by_area, 1.0, 0.10);
    ck_assert_double_lt(from_old.units.mid, 0.5 * from_empty.units.mid);
    ck_assert_double_gt(from_old.units.mid, 0.1 * from_empty.units.mid);
    ck_assert_double_eq_tol(b.top_gap_m.mid, 0.3 * s.house.bay.height_m, 1e-9);
    ck_assert_int_eq(pb_compare_say(old, PB_COMPARE_EMPTY, 0).says, PB_SAYS_NOW);
    ck_assert_int_eq(pb_compare_say(empty, PB_COMPARE_EMPTY, 0).says, PB_SAYS_EMPTY);
    pb_compare_destroy(empty);
    pb_compare_destroy(old);
}
END_TEST

/* Electricity and money by hand from both losses; a house that is not cooled has none. */
START_TEST(cooling_is_saved_beside_the_heat)
{
    PbCompareSetup s = setup_of(2, 0);
    PbError err = {0};
    PbCompareSaving none, cooled;
    s.house.climate.outdoor_c = (PbSeason){24.0, 6.0};
    PbCompare *c = some(&s, 0);
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &none);
    ck_assert(none.cool_kwh.mid == 0.0);
    s.house.cooling = (PbCooling){24.0, {0.15, 0.15, 0.15}, {3.0, 3.0, 3.0}};
    ck_assert_int_eq(pb_compare_set_money(c, &s.house, &err), PB_OK);
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &cooled);
    ck_assert(cooled.cool_kwh.mid != 0.0 && cooled.units.mid == none.units.mid);
    ck_assert_double_eq_tol(cooled.money.mid, none.money.mid + 0.15 * cooled.cool_kwh.mid, 1e-9);
    pb_compare_destroy(c);
}
END_TEST

/* A third packed already: it saves two thirds of what the whole would, of a house with a bill. */
START_TEST(what_is_packed_already_saves_nothing)
{
    PbCompareSetup s = setup_of(1, 0);
    s.house.bill = (PbBill){pb_fuel_find("gas-therm") + 1, {1.4, 1.4, 1.4}, 900.0, {0, 0, 0}};
    pb_house_price_by_bill(&s.house);
    PbCompare *c = some(&s, 0);
    PbCompareSaving whole, part;
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &whole);
    pb_compare_destroy(c);
    s.house.cavity = (PbCavity){PB_CAVITY_PARTLY, 1.0 / 3.0};
    c = some(&s, 0);
    pb_compare_saving(c, PB_COMPARE_FOAM, 0, &part);
    ck_assert_double_eq_tol(part.units.mid / whole.units.mid, 2.0 / 3.0, 0.01);
    ck_assert_double_lt(part.wall_units.mid, whole.wall_units.mid);
    pb_compare_destroy(c);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("saving");
    TCase *all = tcase_create("all");
    tcase_set_timeout(all, 60);
    tcase_add_loop_test(all, three_houses_are_those_worked_by_hand, 0, 3);
    tcase_add_test(all, fuel_money_and_payback_follow_from_the_heat);
    tcase_add_test(all, the_bill_bounds_what_is_saved);
    tcase_add_test(all, a_house_being_typed_has_its_middle_at_once);
    tcase_add_test(all, the_range_is_of_paired_draws);
    tcase_add_test(all, old_fill_is_what_the_saving_is_held_against);
    tcase_add_test(all, cooling_is_saved_beside_the_heat);
    tcase_add_test(all, what_is_packed_already_saves_nothing);
    tcase_add_test(all, the_low_end_knows_of_measured_savings);
    tcase_add_test(all, draws_beyond_the_bill_are_left_out);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
