/* Moisture of whole walls as a trade person would call it, and which warnings hold when. */
#include "core/house_moist.h"

#include "suite.h"

#include <math.h>
#include <string.h>

enum { DRAWS = 40 };

static PbHouse house_of(const char *inside, const char *sheathing, const char *paper,
                        const char *cladding)
{
    const char *const ids[PB_WALL_PLACES] = {inside, sheathing, paper, cladding, "none"};
    PbHouse h = pb_house_default();
    h.wall.is_layered = 1;
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        h.wall.layer[p] = pb_wall_layer_find((PbWallPlace)p, ids[p]);
        ck_assert_int_ge(h.wall.layer[p], 0);
    }
    return h;
}

/* A cold damp place: 7 C in the mean, -4 C in January, rooms at 55 %. */
static void make_cold_and_damp(PbHouse *h)
{
    h->climate.outdoor_c = (PbSeason){7.0, 11.0};
    h->climate.outdoor_rh = (PbSeason){0.82, 0.06};
    h->climate.indoor_rh = (PbSeason){0.55, 0.05};
    h->degree_days_k_d = (PbHeatRange){4100, 4200, 4300};
}

static PbHouseMoist moist_of(const PbHouse *h, PbCompareFill fill)
{
    PbConstants k = pb_constants_default();
    PbHouseMoist m;
    pb_house_moist(h, &k, fill, DRAWS, &m);
    return m;
}

/* Plywood under old oil paint in a cold damp place, and vented brick on fiberboard with dry rooms.
 */
START_TEST(a_painted_tight_wall_is_wet_and_a_vented_one_is_not)
{
    PbHouse tight = house_of("plaster-wood-lath", "plywood-1-2", "felt", "wood-lap");
    tight.damp.inside = PB_COAT_NONE;
    tight.damp.outside = PB_COAT_TIGHT;
    make_cold_and_damp(&tight);
    PbHouseMoist wet = moist_of(&tight, PB_COMPARE_DENSE);
    ck_assert_int_ge(wet.verdict, PB_MOIST_MAY_STAY);
    ck_assert_int_eq(wet.place, PB_MOIST_AT_BACK);
    ck_assert_double_gt(wet.most_g_m2.mid, 500.0);
    ck_assert_int_eq(wet.draws, DRAWS);
    PbHouse vented = house_of("gypsum-1-2", "fiberboard-1-2", "none", "brick");
    vented.damp.inside = PB_COAT_LATEX;
    PbHouseMoist dry = moist_of(&vented, PB_COMPARE_DENSE);
    ck_assert_int_le(dry.verdict, PB_MOIST_DRIES);
    ck_assert_double_lt(dry.most_g_m2.high, 0.2 * wet.most_g_m2.mid);
    /* the same wall in the same place with latex outside dries */
    tight.damp.outside = PB_COAT_LATEX;
    tight.damp.inside = PB_COAT_OIL;
    PbHouseMoist better = moist_of(&tight, PB_COMPARE_DENSE);
    ck_assert_double_lt(better.most_g_m2.mid, 0.5 * wet.most_g_m2.mid);
    ck_assert_int_lt(better.verdict, wet.verdict);
}
END_TEST

/* A filled wall has a colder back than an empty one. */
START_TEST(filling_makes_the_back_wetter)
{
    PbHouse h = house_of("plaster-wood-lath", "boards", "felt", "wood-lap");
    make_cold_and_damp(&h);
    PbHouseMoist empty = moist_of(&h, PB_COMPARE_EMPTY), dense = moist_of(&h, PB_COMPARE_DENSE);
    ck_assert_double_lt(empty.most_g_m2.mid, dense.most_g_m2.mid);
    ck_assert_int_ge(dense.stays, empty.stays);
    ck_assert(empty.has_mold_risk || !dense.has_mold_risk); /* the face gets warmer */
}
END_TEST

/* Hot and humid: without cooling nothing; cooled, behind vinyl wallpaper, water at the front. */
START_TEST(cooling_and_vinyl_wet_the_front)
{
    PbHouse h = house_of("gypsum-1-2", "boards", "none", "wood-lap");
    h.climate.outdoor_c = (PbSeason){26.0, 5.0};
    h.climate.outdoor_rh = (PbSeason){0.80, 0.04};
    h.climate.indoor_rh = (PbSeason){0.55, 0.05};
    h.degree_days_k_d = (PbHeatRange){100, 150, 200};
    h.damp.inside = PB_COAT_TIGHT;
    ck_assert_int_eq(moist_of(&h, PB_COMPARE_DENSE).verdict, PB_MOIST_DRY);
    h.cooling.price_kwh = (PbHeatRange){0.1, 0.14, 0.2};
    h.cooling.set_c = 22.0;
    PbHouseMoist m = moist_of(&h, PB_COMPARE_DENSE);
    ck_assert_int_ge(m.verdict, PB_MOIST_DRIES);
    ck_assert_int_eq(m.place, PB_MOIST_AT_FRONT);
    ck_assert(m.most_month >= 5 && m.most_month <= 9);
    h.damp.inside = PB_COAT_NONE;
    ck_assert_double_lt(moist_of(&h, PB_COMPARE_DENSE).most_g_m2.mid, 0.1 * m.most_g_m2.mid + 1.0);
}
END_TEST

START_TEST(a_simple_wall_is_not_screened)
{
    PbHouse h = pb_house_default();
    PbHouseMoist m = moist_of(&h, PB_COMPARE_DENSE);
    ck_assert_int_eq(m.verdict, PB_MOIST_UNKNOWN);
    ck_assert(m.most_g_m2.high == 0.0);
}
END_TEST

static void warnings(const PbHouse *h, int holds[PB_WARNINGS])
{
    PbConstants k = pb_constants_default();
    PbHouseMoist now = moist_of(h, PB_COMPARE_EMPTY), dense = moist_of(h, PB_COMPARE_DENSE);
    pb_house_damp(h, &k, &now, &dense, holds);
}

/* Each by the condition that raises it, and by no other. */
START_TEST(each_warning_has_its_condition)
{
    int holds[PB_WARNINGS];
    PbHouse h = house_of("gypsum-1-2", "plywood-1-2", "felt", "wood-lap");
    h.damp.leaks = h.damp.water = h.damp.bath = h.damp.no_overhang = PB_SEEN_NO;
    warnings(&h, holds);
    for (int w = 0; w < PB_WARNINGS; w++) {
        ck_assert_msg(!holds[w], "%d holds of a sound house", w);
    }
    h.damp.leaks = PB_SEEN_YES;
    h.damp.bath = PB_SEEN_UNKNOWN;
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_LEAKS] && holds[PB_WARN_NOT_LOOKED] && !holds[PB_WARN_BATH]);
    h.damp.bath = h.damp.water = PB_SEEN_YES;
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_BATH] && holds[PB_WARN_WATER] && !holds[PB_WARN_NOT_LOOKED]);
    h.damp.no_overhang = PB_SEEN_YES;
    warnings(&h, holds);
    ck_assert(!holds[PB_WARN_NO_OVERHANG] && !holds[PB_WARN_DRINKS]);
    h.climate.outdoor_rh.mean = 0.82;
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_NO_OVERHANG] && holds[PB_WARN_WET_CLIMATE]);
    h = house_of("gypsum-1-2", "plywood-1-2", "none", "brick");
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_DRINKS]);
    h.wall.layer[PB_WALL_PAPER] = pb_wall_layer_find(PB_WALL_PAPER, "felt");
    warnings(&h, holds);
    ck_assert(!holds[PB_WARN_DRINKS]);
    make_cold_and_damp(&h);
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_HUMID_ROOMS] && !holds[PB_WARN_MOLD]);
    h.climate.indoor_rh.mean = 0.62;
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_MOLD]);
    h.damp.outside = PB_COAT_TIGHT;
    h.damp.inside = PB_COAT_NONE;
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_STAYS]);
    h = house_of("gypsum-1-2", "boards", "none", "wood-lap");
    h.damp.inside = PB_COAT_TIGHT;
    h.climate.outdoor_c = (PbSeason){26.0, 5.0};
    h.climate.outdoor_rh = (PbSeason){0.80, 0.04};
    h.degree_days_k_d = (PbHeatRange){100, 150, 200};
    warnings(&h, holds);
    ck_assert(!holds[PB_WARN_TIGHT_FRONT]);
    h.cooling.price_kwh = (PbHeatRange){0.1, 0.14, 0.2};
    warnings(&h, holds);
    ck_assert(holds[PB_WARN_TIGHT_FRONT]);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("house_moist");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, a_painted_tight_wall_is_wet_and_a_vented_one_is_not);
    tcase_add_test(tc, filling_makes_the_back_wetter);
    tcase_add_test(tc, cooling_and_vinyl_wet_the_front);
    tcase_add_test(tc, a_simple_wall_is_not_screened);
    tcase_add_test(tc, each_warning_has_its_condition);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
