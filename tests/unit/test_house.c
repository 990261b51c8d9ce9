/* A house: the default stands, every number is judged at its own place, none is ever changed. */
#include "core/house.h"

#include "suite.h"

#include <math.h>
#include <string.h>

START_TEST(the_default_stands_on_the_rows_of_the_constants)
{
    PbHouse h = pb_house_default();
    PbError err = {0};
    char field[96] = "";
    ck_assert_msg(pb_house_check(&h, field, sizeof field, &err) == PB_OK, "%s", err.message);
    const PbConstantInfo *price = pb_constant_find("fuel_price_per_kwh");
    ck_assert(h.price_per_kwh.low == price->low && h.price_per_kwh.mid == price->value &&
              h.price_per_kwh.high == price->high);
}
END_TEST

START_TEST(a_bill_gives_the_price_of_a_kwh)
{
    PbHouse h = pb_house_default();
    PbHeatRange before = h.price_per_kwh;
    pb_house_price_by_bill(&h);
    ck_assert(h.price_per_kwh.mid == before.mid); /* no bill */
    h.bill = (PbBill){pb_fuel_find("gas-therm") + 1, {1.0, 1.4, 2.0}, 0.0, {0, 0, 0}};
    pb_house_price_by_bill(&h);
    ck_assert_double_eq_tol(h.price_per_kwh.mid, 1.4 / 29.307, 1e-9);
    ck_assert_double_eq_tol(h.price_per_kwh.high, 2.0 / 29.307, 1e-9);
}
END_TEST

/* Spoil one value of a good house. */
static void spoil(PbHouse *h, int which)
{
    static const double off[] = {0.0, 1e5, (double)NAN, HUGE_VAL};
    switch (which) {
    case 0:
    case 1:
    case 2:
    case 3:
        h->wall_area_m2 = off[which];
        break;
    case 4:
        h->framing_share = 0.04;
        break;
    case 5:
        h->degree_days_k_d.low = -1.0;
        break;
    case 6:
        h->price_per_kwh.mid = h->price_per_kwh.low - 0.01;
        break;
    case 7:
        h->efficiency.high = 5.5;
        break;
    case 8:
        h->room_c = 60.0;
        break;
    case 9:
        h->outdoor_c = h->room_c - 4.0;
        break;
    case 10:
        h->customer[0] = '\0';
        break;
    case 11:
        memset(h->town, 'x', sizeof h->town);
        break;
    case 12:
        strcpy(h->fuel, "two\nlines");
        break;
    case 13:
        h->climate.bay_rh.mean = 1.5;
        break;
    case 14:
        h->bay.width_m = -1.0;
        break;
    case 15:
        strcpy(h->bay.must_not_fill, "live knob and tube wiring");
        break;
    case 16:
        h->foam = (PbFoamClass)7;
        break;
    case 17:
        h->wall.is_layered = 1; /* nothing outside of the studs */
        break;
    case 18:
        h->bill.fuel = pb_fuel_count() + 1;
        break;
    case 19:
        h->bill = (PbBill){1, {0.0, 1.0, 1.0}, 100.0, {0, 0, 0}};
        break;
    case 20: /* a million kWh is more than any dwelling burns */
        h->bill = (PbBill){1, {1.0, 1.0, 1.0}, 40000.0, {0, 0, 0}};
        break;
    case 21:
        h->bill = (PbBill){1, {1.0, 1.0, 1.0}, 100.0, {0.0, 0.5, 0.95}};
        break;
    case 22:
        h->job = (PbJob){1000.0, 1001.0, 20.0};
        break;
    case 23:
        h->job.life_years = 0.0;
        break;
    case 24:
        h->cavity = (PbCavity){PB_CAVITY_KINDS, 0.5};
        break;
    case 25:
        h->cavity = (PbCavity){PB_CAVITY_PARTLY, 0.97};
        break;
    case 26:
        h->cooling.set_c = 40.0;
        break;
    case 27:
        h->cooling.efficiency.low = 0.1;
        break;
    case 28:
        h->loose = PB_LOOSE_CASES;
        break;
    default:
        h->dense = PB_DENSE_CASES;
        break;
    }
}

static const char *const places[] = {"wall_area_m2",
                                     "wall_area_m2",
                                     "wall_area_m2",
                                     "wall_area_m2",
                                     "framing_share",
                                     "degree_days_k_d/low",
                                     "price_per_kwh/mid",
                                     "efficiency/high",
                                     "room_c",
                                     "outdoor_c",
                                     "customer",
                                     "town",
                                     "fuel",
                                     "climate",
                                     "bay",
                                     "bay",
                                     "foam",
                                     "wall/cladding",
                                     "bill/fuel",
                                     "bill/price/low",
                                     "bill/last_year",
                                     "bill/not_heating/high",
                                     "job/rebate",
                                     "job/life_years",
                                     "cavity/now",
                                     "cavity/share",
                                     "cooling/room_c",
                                     "cooling/efficiency/low",
                                     "loose",
                                     "dense"};
enum { PLACES = sizeof places / sizeof places[0] };

START_TEST(names_the_place_of_what_is_off_and_changes_nothing)
{
    PbHouse h = pb_house_default();
    PbError err = {0};
    char field[96] = "";
    spoil(&h, _i);
    PbHouse before = h;
    ck_assert_int_eq(pb_house_check(&h, field, sizeof field, &err), PB_ERR_RANGE);
    ck_assert_str_eq(field, places[_i]);
    ck_assert_msg(strstr(err.message, "expected") != NULL, "%s", err.message);
    ck_assert_mem_eq(&h, &before, sizeof h);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("house");
    TCase *all = tcase_create("all");
    tcase_add_test(all, the_default_stands_on_the_rows_of_the_constants);
    tcase_add_test(all, a_bill_gives_the_price_of_a_kwh);
    tcase_add_loop_test(all, names_the_place_of_what_is_off_and_changes_nothing, 0, PLACES);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
