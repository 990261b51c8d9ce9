/* Drills: each phase of a sitting can be read whole in every view, a press counts when it goes
 * down, and the sitting that was answered is kept with the learner. */
#include "rooms.h"

#include "drill/drill.h"
#include "shell/shell.h"

#include <math.h>
#include <stdlib.h>
#include <unistd.h>

static App *app;
static char path[64];

static void begin(void)
{
    app = rooms_open();
    rooms_run(app, "plain-2x4", 6.0, 0);
    app->options.seed = 100; /* creak, clog, stall ... */
    app->options.is_seed_given = 1;
    rooms_go(app, SCREEN_DRILL);
}

static void end(void)
{
    rooms_close(app);
}

static void update(double dt_s)
{
    app->program.now_s += dt_s;
    screen_of(SCREEN_DRILL)->update(app, dt_s);
}

static void wait_for(DrillPhase phase)
{
    for (int i = 0; app->drill->phase != phase; i++) {
        ck_assert_int_lt(i, 150000);
        update(0.0);
        SDL_Delay(2);
    }
}

/* Lets the trial run to this second of it. */
static void listen_to(double s)
{
    while (app->drill->phase == DRILL_LISTEN && app->drill->listened_s < s) {
        update(0.01);
    }
}

START_TEST(each_phase_can_be_read)
{
    Drill *d = app->drill;
    d->noise = 1; /* the level too */
    rooms_all_legible(app, "choose");
    rooms_key(app, SDLK_SPACE);
    ck_assert_int_eq(d->phase, DRILL_MAKING);
    wait_for(DRILL_LISTEN);
    for (int sight = 0; sight < 3; sight++) {
        d->sight = sight;
        rooms_all_legible(app, "listen");
    }
    rooms_key(app, SDLK_SPACE);
    ck_assert_int_eq(d->phase, DRILL_TOLD);
    d->sight = 0;
    for (PbDrillKind k = 0; k < PB_DRILL_KINDS; k++) {
        d->now->trial.kind = k;
        for (PbDrillOutcome o = PB_DRILL_GOOD; o <= PB_DRILL_LEFT; o++) {
            d->answers[0] = (PbDrillAnswer){.outcome = o, .error_s = -12.3};
            if ((int)o % 3 == (int)k % 3) {
                rooms_all_legible(app, "told");
            }
        }
    }
    drill_stop(app);
    ck_assert_int_eq(d->phase, DRILL_OVER);
    rooms_all_legible(app, "over");
}
END_TEST

/* Trial 3 of this sitting is a stall after 9.84 s: pressed 0.4 s after it by key; the clog before
 * it left alone; the creak before that pressed at once, by pointer and going down. */
START_TEST(presses_are_judged_in_tenths)
{
    Drill *d = app->drill;
    rooms_press(app, "drill_go", 0.5, 0.5);
    wait_for(DRILL_LISTEN);
    ck_assert_int_eq(d->now->run.view->tick, d->now->trial.start_tick);
    listen_to(1.0);
    app_lay_out(app);
    const AppMark *m = app_mark_find(app, "drill_go");
    SDL_Event e = {.type = SDL_MOUSEBUTTONDOWN};
    e.button.button = SDL_BUTTON_LEFT;
    e.button.x = (int)(m->rect.x + 10.0f);
    e.button.y = (int)(m->rect.y + 10.0f);
    app_input_event(app, &e);
    ck_assert_int_eq(d->phase, DRILL_TOLD);
    ck_assert_int_eq(d->answers[0].outcome, PB_DRILL_FALSE);
    ck_assert(rooms_says(app, "before it"));
    e.type = SDL_MOUSEBUTTONUP;
    app_input_event(app, &e);
    app_lay_out(app);
    rooms_key(app, SDLK_SPACE); /* on */
    wait_for(DRILL_LISTEN);
    listen_to(100.0);
    ck_assert_int_eq(d->answers[1].outcome, PB_DRILL_MISSED);
    ck_assert(rooms_says(app, "Missed"));
    update(10.0); /* on by itself */
    wait_for(DRILL_LISTEN);
    ck_assert_int_eq(d->now->trial.kind, PB_DRILL_STALL);
    listen_to(d->now->trial.event_s + 0.4);
    rooms_key(app, SDLK_SPACE);
    ck_assert_int_eq(d->answers[2].outcome, PB_DRILL_GOOD);
    ck_assert_double_eq_tol(d->answers[2].error_s, 0.4, 0.05);
    ck_assert(rooms_says(app, "Good: 0.4 s after it"));
    ck_assert_int_eq(d->tally.streak, 1);
}
END_TEST

/* Time stands under a card, and the run of the bay room is as it was left. */
START_TEST(a_card_stops_the_trial_and_the_run_stays)
{
    Drill *d = app->drill;
    int tick = app->run.view->tick;
    rooms_key(app, SDLK_SPACE);
    wait_for(DRILL_LISTEN);
    listen_to(0.5);
    double at_s = d->listened_s;
    app_card_open(app, CARD_SETTINGS);
    update(1.0);
    ck_assert_double_eq(d->listened_s, at_s);
    app_card_open(app, CARD_NONE);
    ck_assert_int_eq(screen_of(SCREEN_DRILL)->moves(app), 1);
    update(0.1);
    ck_assert_double_gt(d->listened_s, at_s);
    ck_assert_int_eq(app->run.view->tick, tick);
}
END_TEST

START_TEST(a_sitting_is_kept_with_its_learner)
{
    char why[600] = "";
    PbError err = {0};
    StoreDrill *list;
    int count = 0;
    snprintf(path, sizeof path, "drill-%d.db", (int)getpid());
    records_open(&app->records, path, "");
    ck_assert_msg(records_add(&app->records, "Learner 1", why, sizeof why), "%s", why);
    app->drill->noise = 2;
    app->drill->level = 3;
    rooms_key(app, SDLK_SPACE);
    wait_for(DRILL_LISTEN);
    listen_to(100.0);
    drill_stop(app);
    ck_assert_int_eq(
        store_drill_list(app->records.store, app->records.learner_id, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 1);
    ck_assert_int_eq(list[0].trials, 1);
    ck_assert_int_eq(list[0].events, 1);
    ck_assert_int_eq(list[0].masking, 2);
    ck_assert_int_eq(list[0].level, 3);
    ck_assert(isnan(list[0].median_s));
    ck_assert_int_eq(list[0].verdict, PB_DRILL_UNDECIDED);
    free(list);
    drill_stop(app);
    ck_assert(rooms_says(app, "Stall drill: 0 of 1"));
    records_close(&app->records, &app->run);
    unlink(path);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("room_drill");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 400);
    tcase_add_checked_fixture(t, begin, end);
    tcase_add_test(t, each_phase_can_be_read);
    tcase_add_test(t, presses_are_judged_in_tenths);
    tcase_add_test(t, a_card_stops_the_trial_and_the_run_stays);
    tcase_add_test(t, a_sitting_is_kept_with_its_learner);
    suite_add_tcase(s, t);
    return run_suite(s);
}
