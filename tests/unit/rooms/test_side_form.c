/* The house page without a window: what is typed and chosen becomes the house, or is refused. */
#include "side/form.h"

#include "rooms.h"

#include <math.h>
#include <string.h>

static const IoReaderTaste metric = {.language = WORDS_ENGLISH};

static SideForm form_of(const PbHouse *house)
{
    static SideForm f; /* large */
    memset(&f, 0, sizeof f);
    side_form_fill(&f, house, metric);
    return f;
}

START_TEST(a_taller_bay_keeps_its_hole_where_it_was)
{
    PbHouse h = pb_house_default(), out;
    SideForm f = form_of(&h);
    double hole = h.bay.holes[0].y_m / h.bay.height_m;
    SDL_strlcpy(f.text[SIDE_BAY], "98", sizeof f.text[0]);
    SDL_strlcpy(f.text[SIDE_BAY + 2], "5200", sizeof f.text[0]);
    ck_assert(side_form_take(&f, &out));
    ck_assert_double_eq_tol(out.bay.depth_m, 0.098, 1e-12);
    ck_assert_double_eq_tol(out.bay.height_m, 5.2, 1e-12);
    ck_assert_double_eq_tol(out.bay.holes[0].y_m, hole * 5.2, 1e-9);
    ck_assert(out.bay.width_m == h.bay.width_m); /* not touched: its last digit stays */
    SDL_strlcpy(f.text[SIDE_BAY + 2], "52000", sizeof f.text[0]);
    ck_assert(!side_form_take(&f, &out));
    ck_assert_int_eq(f.bad, SIDE_BAY + 2);
    ck_assert_str_eq(f.says, "Cavity, tall: 52000 is out of range; expected 500 to 6000 mm.");
}
END_TEST

START_TEST(an_old_batt_is_put_in_and_taken_out)
{
    PbHouse h = pb_house_default(), out;
    SideForm f = form_of(&h);
    ck_assert_int_eq(side_form_cavity_now(&f), PB_CAVITY_EMPTY);
    side_form_cavity(&f, SIDE_BATT);
    ck_assert_int_eq(side_form_cavity_now(&f), SIDE_BATT);
    SDL_strlcpy(f.text[SIDE_SHARE], "40", sizeof f.text[0]);
    SDL_strlcpy(f.text[SIDE_BAY + 1], "500", sizeof f.text[0]);
    ck_assert_msg(side_form_take(&f, &out), "%s", f.says);
    ck_assert_int_eq(out.bay.obstacle_count, 1);
    const PbObstacle *o = &out.bay.obstacles[0];
    ck_assert_int_eq(o->kind, PB_OBSTACLE_BATT);
    ck_assert_double_eq_tol(o->x1_m, 0.5, 1e-12);
    ck_assert_double_eq_tol(o->y0_m, 0.6 * h.bay.height_m, 1e-9);
    ck_assert_double_eq_tol(o->y1_m, h.bay.height_m, 1e-12);
    ck_assert_int_eq(out.cavity.now, PB_CAVITY_EMPTY);
    f = form_of(&out); /* opened again: chosen, with its share */
    ck_assert_int_eq(side_form_cavity_now(&f), SIDE_BATT);
    ck_assert_str_eq(f.text[SIDE_SHARE], "40");
    side_form_cavity(&f, PB_CAVITY_LOOSE);
    ck_assert(side_form_take(&f, &out));
    ck_assert_int_eq(out.bay.obstacle_count, 0);
    ck_assert_int_eq(out.cavity.now, PB_CAVITY_LOOSE);
}
END_TEST

/* A batt that a file has elsewhere stays where it is. */
START_TEST(a_batt_of_a_file_is_left_alone)
{
    PbHouse h = pb_house_default(), out;
    h.bay.obstacles[h.bay.obstacle_count++] = (PbObstacle){
        .kind = PB_OBSTACLE_BATT, .y0_m = 1.0, .x1_m = 0.2, .y1_m = 1.5, .depth_frac = 0.5};
    SideForm f = form_of(&h);
    ck_assert_int_eq(side_form_cavity_now(&f), SIDE_BATT);
    ck_assert(side_form_take(&f, &out));
    ck_assert_mem_eq(&out.bay.obstacles[0], &h.bay.obstacles[0], sizeof h.bay.obstacles[0]);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("side_form");
    TCase *all = tcase_create("all");
    tcase_add_test(all, a_taller_bay_keeps_its_hole_where_it_was);
    tcase_add_test(all, an_old_batt_is_put_in_and_taken_out);
    tcase_add_test(all, a_batt_of_a_file_is_left_alone);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
