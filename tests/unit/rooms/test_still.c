/* Which picture is another one, and how long the loop may rest before it looks again. */
#include "rooms.h"

#include "shell/shell.h"

static App *app;
static Still still;

static void begin(void)
{
    app = rooms_open();
    still = (Still){0};
    rooms_run(app, "plain-2x4", 6.0, 0);
}

static void end(void)
{
    rooms_close(app);
}

/* Lays out and looks, as the loop does. */
static int is_new(void)
{
    const Screen *screen = screen_of(app->turn.screen);
    app_lay_out(app);
    GfxFieldData f = screen->field != NULL ? screen->field(app) : (GfxFieldData){0};
    return still_changed(&still, app, &f);
}

/* Of 60 frames in which nobody does anything. */
static int pictures_in_a_second(void)
{
    int count = 0;
    for (int i = 0; i < 60; i++) {
        app->program.now_s += 1.0 / 60.0;
        count += is_new();
    }
    return count;
}

START_TEST(a_door_that_nobody_touches_is_drawn_once)
{
    rooms_go(app, SCREEN_DOOR);
    app_lay_out(app);
    ck_assert_int_eq(pictures_in_a_second(), 1);
    ck_assert_int_eq(pictures_in_a_second(), 0);
}
END_TEST

START_TEST(a_paused_bay_is_drawn_once_and_a_step_of_the_run_draws_it_again)
{
    rooms_go(app, SCREEN_BAY);
    app->task.is_paused = 1;
    app->taste.is_still = 1;
    app_lay_out(app);
    (void)pictures_in_a_second();
    still.awake_until_s = 0.0;
    ck_assert_int_eq(still_rest_ms(&still, app, 0, 0), STILL_LOOK_MS);
    app->taste.is_still = 0;
    run_tick(&app->run);
    ck_assert_int_eq(is_new(), 1);
    app->task.is_paused = 0;
    ck_assert_int_eq(still_rest_ms(&still, app, 0, 0), STILL_MOVES_MS);
}
END_TEST

/* The fill alone, which is no part of the list. */
START_TEST(one_cell_of_the_fill_is_another_picture)
{
    rooms_go(app, SCREEN_BAY);
    app->task.is_paused = 1;
    app->taste.is_still = 1;
    (void)is_new();
    ck_assert_int_eq(is_new(), 0);
    app->run.before[40] += 0.5f;
    app->run.now[40] += 0.5f;
    ck_assert_int_eq(is_new(), 1);
    ck_assert_int_eq(is_new(), 0);
}
END_TEST

START_TEST(contrast_size_and_language_are_other_pictures)
{
    rooms_go(app, SCREEN_DOOR);
    (void)is_new();
    ck_assert_int_eq(is_new(), 0);
    app->ui->theme = ui_theme(1);
    ck_assert_int_eq(is_new(), 1);
    rooms_view(app, 1281, 800, 1.0, WORDS_ENGLISH);
    ck_assert_int_eq(is_new(), 1);
    app_language(app, app_next_language(app));
    ck_assert_int_eq(is_new(), 1);
    ck_assert_int_eq(is_new(), 0);
}
END_TEST

START_TEST(after_a_change_the_loop_lingers)
{
    rooms_go(app, SCREEN_DOOR);
    ck_assert_int_eq(still_rest_ms(&still, app, 1, 1), 0);
    app->program.now_s += 0.9 * STILL_LINGER_S;
    ck_assert_int_eq(still_rest_ms(&still, app, 0, 0), 0);
    app->program.now_s += 0.2 * STILL_LINGER_S;
    ck_assert_int_eq(still_rest_ms(&still, app, 0, 0), STILL_LOOK_MS);
}
END_TEST

START_TEST(the_second_of_a_clock_wakes_for_one_look_and_motion_for_good)
{
    rooms_go(app, SCREEN_DOOR);
    ck_assert_int_eq(still_rest_ms(&still, app, 0, 0), STILL_LOOK_MS);
    ck_assert_int_eq(still_rest_ms(&still, app, 1, 0), STILL_MOVES_MS);
    ck_assert_int_eq(still_rest_ms(&still, app, 0, 0), STILL_LOOK_MS);
    ck_assert_int_eq(still_rest_ms(&still, app, 1, 0), STILL_MOVES_MS);
    ck_assert_int_eq(still_rest_ms(&still, app, 1, 0), 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("room_still");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 60);
    tcase_add_checked_fixture(t, begin, end);
    tcase_add_test(t, a_door_that_nobody_touches_is_drawn_once);
    tcase_add_test(t, a_paused_bay_is_drawn_once_and_a_step_of_the_run_draws_it_again);
    tcase_add_test(t, one_cell_of_the_fill_is_another_picture);
    tcase_add_test(t, contrast_size_and_language_are_other_pictures);
    tcase_add_test(t, after_a_change_the_loop_lingers);
    tcase_add_test(t, the_second_of_a_clock_wakes_for_one_look_and_motion_for_good);
    suite_add_tcase(s, t);
    return run_suite(s);
}
