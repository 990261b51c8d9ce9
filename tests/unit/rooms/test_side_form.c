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

/* What the page says at once goes by the climate that is chosen, not by that of the house before:
 * cooling hung on it tenfold. */
START_TEST(a_look_takes_the_chosen_climate)
{
    PbHouse h = pb_house_default(), out;
    SideForm f = form_of(&h);
    f.air = 1;
    ck_assert(!side_form_look(&f, &out)); /* its file was not found */
    f.airs[1] = pb_climate_steady(0.6);
    f.airs[1].outdoor_c.mean = h.climate.outdoor_c.mean + 9.0;
    ck_assert(side_form_look(&f, &out));
    ck_assert(out.climate.outdoor_c.mean == f.airs[1].outdoor_c.mean);
    SDL_strlcpy(f.text[SIDE_AREA], "none", sizeof f.text[0]);
    ck_assert(!side_form_look(&f, &out));
    ck_assert_int_eq(f.bad, -1); /* nobody asked: nothing is refused */
    ck_assert_str_eq(f.says, "");
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

/* Every figure of the page beyond either end, in both units and languages: one sentence at its
 * field, and nothing is taken over. A bill and a job, so that their fields are judged too. */
START_TEST(each_field_is_refused_at_both_ends)
{
    static const IoReaderTaste readers[] = {{.language = WORDS_ENGLISH, .is_us = 1},
                                            {.language = WORDS_ENGLISH + 1}};
    static const char *const far[] = {"-99999999", "99999999999", "x", "", "1e5", "1,000,000"};
    static SideForm f;
    PbHouse h = pb_house_default(), out, before;
    int figures = 0;
    h.bill = (PbBill){pb_fuel_find("gas-therm") + 1, {1.0, 1.2, 1.5}, 900.0, {0.1, 0.2, 0.3}};
    h.job = (PbJob){5000.0, 500.0, 20.0};
    pb_house_price_by_bill(&h);
    memset(&out, 0, sizeof out);
    memcpy(&before, &out, sizeof out);
    for (int row = 0; row < SIDE_ROWS; row++) {
        const SideRow *r = &side_rows[row];
        int is_figure = r->kind == SIDE_A_NUMBER || r->kind == SIDE_A_CAVITY;
        for (int i = 0; is_figure && i < r->fields; i++) {
            for (size_t k = 0; k < 2 * sizeof far / sizeof far[0]; k++) {
                int n = r->field + i;
                memset(&f, 0, sizeof f);
                side_form_fill(&f, &h, readers[k % 2]);
                SDL_strlcpy(f.text[n], far[k / 2], sizeof f.text[n]);
                ck_assert_msg(!side_form_take(&f, &out), "%s in field %d is taken", far[k / 2], n);
                ck_assert_int_eq(f.bad, n);
                ck_assert(f.says_is_trouble && f.says[strlen(f.says) - 1] == '.');
                ck_assert_ptr_null(strchr(f.says, '\n'));
                ck_assert_mem_eq(&out, &before, sizeof out);
            }
            figures++;
        }
    }
    ck_assert_int_eq(figures, 29);
}
END_TEST

/* A shipped bay brings its size and what stands in it, and the layers stay. */
START_TEST(another_bay_is_taken_whole)
{
    PbHouse h = pb_house_default(), out;
    PbExercise deep = pb_exercise_default();
    h.wall = pb_wall_usual();
    SideForm f = form_of(&h);
    deep.depth_m = 0.14;
    deep.obstacles[deep.obstacle_count++] = (PbObstacle){
        .kind = PB_OBSTACLE_BATT, .y0_m = 1.0, .x1_m = 0.2, .y1_m = 1.5, .depth_frac = 0.5};
    side_form_bay(&f, &deep);
    ck_assert_str_eq(f.text[SIDE_BAY], "140");
    ck_assert_msg(side_form_take(&f, &out), "%s", f.says);
    ck_assert_double_eq_tol(out.bay.depth_m, 0.14, 1e-12);
    ck_assert_int_eq(out.bay.obstacle_count, 1);
    ck_assert_mem_eq(&out.wall, &h.wall, sizeof h.wall);
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
    tcase_add_test(all, each_field_is_refused_at_both_ends);
    tcase_add_test(all, another_bay_is_taken_whole);
    tcase_add_test(all, a_taller_bay_keeps_its_hole_where_it_was);
    tcase_add_test(all, a_look_takes_the_chosen_climate);
    tcase_add_test(all, an_old_batt_is_put_in_and_taken_out);
    tcase_add_test(all, a_batt_of_a_file_is_left_alone);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
