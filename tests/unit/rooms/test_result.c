/* What came of a run: each state of it can be read whole in every view, and what is chosen there is
 * asked for after the layout and not in it. */
#include "rooms.h"

static App *app;

static void begin(void)
{
    app = rooms_open();
}

static void end(void)
{
    rooms_close(app);
}

static void each_list(const char *state)
{
    for (int tab = 0; tab < 4; tab++) {
        app->task.result_tab = tab;
        rooms_all_legible(app, state);
    }
}

START_TEST(all_can_be_read)
{
    rooms_run(app, "plain-2x4", 40.0, 1);
    rooms_go(app, SCREEN_RESULT);
    each_list("a few stops");
    app->task.is_graded = 1;
    SDL_strlcpy(app->records.kept, "Learner with a name as long as some are",
                sizeof app->records.kept);
    each_list("graded");
}
END_TEST

START_TEST(what_changed_since_the_last_time_is_told)
{
    rooms_run(app, "plain-2x4", 40.0, 1);
    rooms_go(app, SCREEN_RESULT);
    ck_assert(!rooms_says(app, "Last time"));
    IoTry last = {62, 9, 15.0, 52.0, 185.0, PB_PHYSICS_VERSION};
    app->records.last_time = (IoLastTime){3, last, last, 1, 3, last};
    app->records.last_time.now.mark = 78;
    app->records.last_time.best.mark = 81;
    ck_assert(rooms_says(app, "Last time"));
    app->task.is_graded = 1;
    each_list("with a run before");
}
END_TEST

START_TEST(a_blow_out_can_be_read)
{
    rooms_run(app, "thin-panelling", 60.0, 1);
    app->run.watched.result.blow_out = 1;
    app->run.blow_out_y_m = 1.0;
    rooms_go(app, SCREEN_RESULT);
    each_list("blow-out");
}
END_TEST

START_TEST(the_guide_can_be_read)
{
    rooms_run(app, "plain-2x4-high", 20.0, 1);
    app->guiding.guide = guide_begin(2.0);
    app->guiding.guide.step = GUIDE_DONE;
    rooms_go(app, SCREEN_RESULT);
    each_list("after the guide");
    ck_assert(rooms_says(app, "Start exercise 1"));
}
END_TEST

START_TEST(what_is_chosen_is_asked_for)
{
    static const struct {
        const char *mark;
        AppScreen to;
    } ways[] = {{"debrief", SCREEN_DEBRIEF},
                {"years", SCREEN_YEARS},
                {"side", SCREEN_SIDE},
                {"leave", SCREEN_DOOR}};
    rooms_run(app, "plain-2x4", 5.0, 1);
    rooms_go(app, SCREEN_RESULT);
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        app->turn.go_to = -1;
        app->turn.is_own_wanted = 0;
        rooms_press(app, ways[i].mark, 0.5, 0.5);
        ck_assert_int_eq(app->turn.go_to, ways[i].to);
        ck_assert_int_eq(app->turn.is_own_wanted, ways[i].to == SCREEN_SIDE);
    }
    app->turn.go_to = -1;
    rooms_press(app, "again", 0.5, 0.5);
    ck_assert_int_eq(app->turn.ask.kind, ASK_AGAIN);
    ck_assert_int_eq(app->turn.go_to, -1);
}
END_TEST

START_TEST(a_tab_is_kept)
{
    rooms_run(app, "plain-2x4", 5.0, 1);
    rooms_go(app, SCREEN_RESULT);
    rooms_view(app, 1280, 800, 2.0, 0);
    rooms_press(app, "middle", 0.9, 0.5);
    ck_assert_int_eq(app->task.result_tab, 3);
    ck_assert(rooms_says(app, "pull ft") || rooms_says(app, "pull m"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("result");
    TCase *tests = tcase_create("result");
    tcase_set_timeout(tests, 60.0);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, all_can_be_read);
    tcase_add_test(tests, what_changed_since_the_last_time_is_told);
    tcase_add_test(tests, a_blow_out_can_be_read);
    tcase_add_test(tests, the_guide_can_be_read);
    tcase_add_test(tests, what_is_chosen_is_asked_for);
    tcase_add_test(tests, a_tab_is_kept);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
