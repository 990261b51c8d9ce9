/* Pack the bay: each sight, tab and notice of it can be read whole in every view, and what hands do
 * is asked of the run after the layout and not in it. */
#include "rooms.h"

#include "shell/shell.h"

#include <math.h>

static App *app;

static void begin(void)
{
    app = rooms_open();
    rooms_run(app, "plain-2x4", 6.0, 0);
    rooms_go(app, SCREEN_BAY);
}

static void end(void)
{
    rooms_close(app);
}

/* The newest command of this kind that waits for the next tick. */
static double asked(PbCommandKind kind)
{
    for (int i = app->run.queued - 1; i >= 0; i--) {
        if (app->run.queue[i].kind == kind) {
            return app->run.queue[i].value;
        }
    }
    ck_abort_msg("nothing of kind %d was asked", (int)kind);
    return 0.0;
}

START_TEST(each_sight_can_be_read_at_a_glance)
{
    static const char *const sights[SIGHT_LEVELS] = {"glance", "glance, taped", "glance, closed"};
    for (int sight = 0; sight < SIGHT_LEVELS; sight++) {
        for (int tab = 0; tab < 2; tab++) {
            app->task.sight = sight;
            app->bay->gauge_tab = tab;
            rooms_all_legible(app, sights[sight]);
        }
    }
    app->task.sight = SIGHT_CLOSED;
    app->task.is_graded = 1;
    rooms_all_legible(app, "glance, graded");
}
END_TEST

/* Later in a run: stops are written on the wall, the mouth points the other way, the hose is full.
 */
START_TEST(stops_can_be_read_at_a_glance)
{
    rooms_run(app, "plain-2x4", 150.0, 0);
    ck_assert_int_gt(app->run.view->lift_count, 3);
    rooms_all_legible(app, "glance, stops");
    app->bay->wax_pressure_pa = 9000.0;
    app->bay->wax_pitch = 14.0;
    app_notice(app, "Too far in to turn", "Pull the tube back to the hole, then turn it.", 0, 60.0);
    rooms_all_legible(app, "glance, notice");
    app_notice(app, "Blow-out at 4.0 ft", "Machine off. The run has ended.", 1, 60.0);
    rooms_all_legible(app, "glance, danger");
}
END_TEST

/* The large view shows 1.10 m and goes after the mouth when a pull has ended, not while it lasts.
 */
START_TEST(the_view_follows_when_a_pull_has_ended)
{
    rooms_run(app, "plain-2x4", 30.0, 0);
    app->run.queued = 0;
    for (int i = 0; i < 50; i++) {
        run_tick(&app->run);
        closed_memory_step(&app->bay->memory, &app->run.view->signals);
        glance_frame(app, PB_TICK_S);
    }
    app->bay->is_view_set = 0;
    glance_frame(app, PB_TICK_S);
    double low = app->bay->view_low_m, mouth = run_mouth_y(&app->run);
    rooms_key(app, SDLK_r);
    for (int i = 0; i < 12; i++) { /* half a second: a foot at 0.25 m/s takes longer */
        run_tick(&app->run);
        closed_memory_step(&app->bay->memory, &app->run.view->signals);
        glance_frame(app, PB_TICK_S);
    }
    ck_assert_double_gt(fabs(run_mouth_y(&app->run) - mouth), 0.05);
    ck_assert_double_eq_tol(app->bay->view_low_m, low, 0.005);
    for (int i = 0; i < 100; i++) {
        run_tick(&app->run);
        closed_memory_step(&app->bay->memory, &app->run.view->signals);
        glance_frame(app, PB_TICK_S);
    }
    ck_assert_double_gt(fabs(app->bay->view_low_m - low), 0.2);
    GlanceView v = glance_view(app, (GfxRect){212.0f, 108.0f, 680.0f, 676.0f});
    ck_assert_double_eq_tol((double)v.r.h / v.px_m, 1.10, 0.01);
    ck_assert_double_gt(run_mouth_y(&app->run), v.low_m);
    ck_assert_double_lt(run_mouth_y(&app->run), v.low_m + 1.10);
}
END_TEST

static GfxRect place(const char *name)
{
    const AppMark *m = app_mark_find(app, name);
    ck_assert_msg(m != NULL, "there is no %s", name);
    return m->rect;
}

/* By value, beside the design's table: the large view, and no part on another. */
START_TEST(the_glance_has_its_places)
{
    static const struct {
        int w, h;
        double left, right, column;
    } size[] = {
        {1024, 700, 202, 704, 288}, {1280, 800, 212, 892, 356}, {1920, 1080, 262, 1448, 440}};
    for (int i = 0; i < 3; i++) {
        rooms_view(app, size[i].w, size[i].h, 1.0, 0);
        for (int k = 0; k < 3; k++) {
            app_lay_out(app);
        }
        GfxRect look = place("look"), fan = place("fan"), flow = place("flow"),
                pull = place("pull");
        ck_assert_double_eq_tol((double)look.x, size[i].left, 12.0);
        ck_assert_double_eq_tol((double)(look.x + look.w), size[i].right, 12.0);
        ck_assert_double_eq_tol((double)fan.w, size[i].column, 4.0);
        ck_assert(fan.y + fan.h <= flow.y);
        ck_assert(flow.y + flow.h <= pull.y);
        GfxRect rest = place("rest"), bay = place("bay");
        ck_assert(rest.y + rest.h <= (float)size[i].h - 15.0f);
        ck_assert(bay.x + bay.w <= look.x);
        ck_assert_double_eq_tol((double)fan.h / (double)(fan.h + flow.h), 0.55, 0.01);
    }
    rooms_view(app, 1280, 800, 1.5, 0); /* large type: the staff gives way */
    app_lay_out(app);
    ck_assert_double_eq((double)place("look").x, 16.0);
}
END_TEST

START_TEST(what_hands_do_at_a_glance_is_answered)
{
    double whole = run_tube_max(&app->run), in = app->run.view->signals.tube_in_m;
    rooms_press(app, "pull", 0.5, 0.5);
    ck_assert_double_eq_tol(asked(PB_COMMAND_TUBE_TARGET), fmax(in - 0.3048, 0.0), 1e-6);
    rooms_press(app, "tube", 0.5, 0.5);
    ck_assert_double_eq_tol(asked(PB_COMMAND_TUBE_TARGET), 0.5 * whole, 0.02 * whole);
    int is_up = app->run.view->signals.direction > 0;
    rooms_press(app, "turn", 0.5, 0.5);
    ck_assert_double_eq(asked(PB_COMMAND_TURN), is_up ? -1.0 : 1.0);
    app->task.cautions_seen = 1;
    int is_on = app->run.view->signals.machine_on;
    rooms_press(app, "machine", 0.5, 0.5);
    ck_assert_double_eq(asked(PB_COMMAND_MACHINE), is_on ? 0.0 : 1.0);
    rooms_press(app, "finish", 0.5, 0.5);
    (void)asked(PB_COMMAND_FINISH);
    rooms_press(app, "cautions", 0.5, 0.5);
    ck_assert(app->cards.cautions_open);
}
END_TEST

/* By its key, and by a button in each of the two. */
START_TEST(all_the_rest_is_one_key_away)
{
    ck_assert(app_mark_find(app, "blower") == NULL);
    rooms_key(app, SDLK_F4);
    ck_assert(app->bay->is_full && app_mark_find(app, "blower") != NULL);
    rooms_press(app, "rest", 0.5, 0.5);
    ck_assert(!app->bay->is_full);
    rooms_press(app, "rest", 0.5, 0.5);
    ck_assert(app->bay->is_full);
    keymap_set(&app->keymap, KEY_ALL_THE_REST, SDLK_j);
    rooms_key(app, SDLK_F4);
    ck_assert(app->bay->is_full);
    rooms_key(app, SDLK_j);
    ck_assert(!app->bay->is_full);
}
END_TEST

/* Ticks of the run in so many seconds of the clock. */
static int ticks_in(double s)
{
    int before = app->run.view->tick;
    app->options.speed = 1.0;
    for (int i = 0; i < (int)(s * 60.0 + 0.5); i++) {
        bay_update(app, 1.0 / 60.0);
    }
    return app->run.view->tick - before;
}

/* Six times as fast from the button on, until the needle moves, which is well before the stall. */
START_TEST(the_long_first_stop_can_be_hurried)
{
    rooms_run(app, "plain-2x4", 12.0, 0);
    app->run.queued = 0;
    (void)ticks_in(0.5);
    app_lay_out(app);
    ck_assert_int_eq(ticks_in(1.0), 25);
    rooms_press(app, "quicker", 0.5, 0.5);
    ck_assert(app->bay->quick.is_on && rooms_says(app, "6 times as fast"));
    rooms_all_legible(app, "glance, hurried");
    ck_assert_int_ge(ticks_in(1.0), 140);
    for (int i = 0; i < 20 && app->bay->quick.is_on; i++) {
        (void)ticks_in(0.5);
    }
    ck_assert(!app->bay->quick.is_on && app->bay->quick.has_moved);
    ck_assert_double_lt(app->run.view->time_s, 45.0);
    ck_assert(app->run.view->lift_count == 1 && app->run.view->lifts[0].stall_s < 0.0);
    ck_assert_int_le(ticks_in(1.0), 26);
    app_lay_out(app);
    ck_assert(app_mark_find(app, "quicker") == NULL);
    rooms_key(app, SDLK_u); /* the needle has moved: no hurry any more */
    ck_assert(!app->bay->quick.is_on);
}
END_TEST

START_TEST(a_hand_ends_the_hurry_and_a_graded_run_has_none)
{
    rooms_run(app, "plain-2x4", 12.0, 0);
    app->run.queued = 0;
    (void)ticks_in(0.1);
    rooms_key(app, SDLK_u);
    ck_assert(app->bay->quick.is_on);
    bay_pull(app);
    (void)ticks_in(1.0);
    ck_assert(!app->bay->quick.is_on);
    rooms_run(app, "plain-2x4", 12.0, 0);
    app->run.queued = 0;
    app->task.is_graded = 1;
    (void)ticks_in(0.1);
    rooms_key(app, SDLK_u);
    ck_assert(!app->bay->quick.is_on);
    app_lay_out(app);
    ck_assert(app_mark_find(app, "quicker") == NULL);
}
END_TEST

START_TEST(each_sight_and_tab_can_be_read)
{
    app->bay->is_full = 1;
    static const char *const sights[SIGHT_LEVELS] = {"open wall", "taped wall", "closed wall"};
    for (int sight = 0; sight < SIGHT_LEVELS; sight++) {
        for (int tab = 0; tab < 3; tab++) {
            app->task.sight = sight;
            app->bay->middle_tab = app->bay->gauge_tab = tab;
            rooms_all_legible(app, sights[sight]);
        }
    }
    app->task.is_graded = 1;
    rooms_all_legible(app, "graded");
}
END_TEST

START_TEST(a_notice_can_be_read)
{
    app->bay->is_full = 1;
    app_notice(app, "The hose is clogged",
               "Clear it: shut down, open the hose, dump what is in it.", 0, 60.0);
    rooms_all_legible_laid_over(app, "notice");
    app_notice(app, "Blow-out at 4.0 ft", "Machine off. The run has ended.", 1, 60.0);
    rooms_all_legible_laid_over(app, "danger");
}
END_TEST

START_TEST(each_step_of_the_guide_can_be_read)
{
    app->guiding.guide = guide_begin(2.0);
    for (int step = 0; step < GUIDE_DONE; step++) {
        app->guiding.guide.step = (GuideStep)step;
        rooms_all_legible_laid_over(app, "guide, at a glance");
    }
}
END_TEST

START_TEST(each_step_of_the_guide_can_be_read_beside_all_the_rest)
{
    app->bay->is_full = 1;
    app->guiding.guide = guide_begin(2.0);
    for (int step = 0; step < GUIDE_DONE; step++) {
        app->guiding.guide.step = (GuideStep)step;
        rooms_all_legible_laid_over(app, "guide");
    }
}
END_TEST

START_TEST(hands_are_answered)
{
    app->bay->is_full = 1;
    double whole = run_tube_max(&app->run);
    rooms_press(app, "tube", 0.5, 0.5);
    ck_assert_double_eq_tol(asked(PB_COMMAND_TUBE_TARGET), 0.5 * whole, 0.02 * whole);
    rooms_press(app, "blower", 0.25, 0.5);
    ck_assert_double_eq_tol(asked(PB_COMMAND_BLOWER), 0.25, 0.02);
    rooms_press(app, "feed", 0.75, 0.5);
    double most = app->run.config.exercise.machine.feed_max_kg_s;
    ck_assert_double_eq_tol(asked(PB_COMMAND_FEED), 0.75 * most, 0.02 * most);
    int is_up = app->run.view->signals.direction > 0;
    rooms_press(app, "turn", is_up ? 0.25 : 0.75, 0.5);
    ck_assert_double_eq(asked(PB_COMMAND_TURN), is_up ? -1.0 : 1.0);
    ck_assert_double_lt(app->bay->tube_want_m, 0.0);
    rooms_press(app, "finish", 0.5, 0.5);
    (void)asked(PB_COMMAND_FINISH);
}
END_TEST

/* The card of acts: what there is to do at this bay, by pointer, each asked of the run. */
START_TEST(acts_are_answered)
{
    rooms_run(app, "fire-block", 1.0, 0);
    rooms_go(app, SCREEN_BAY);
    rooms_press(app, "acts", 0.5, 0.5);
    ck_assert_int_eq(app->cards.open, CARD_ACTS);
    rooms_press(app, "ring", 1.0, 0.5);
    ck_assert_double_eq_tol(asked(PB_COMMAND_RING), 1.0, 0.02);
    rooms_press(app, "holes", 0.75, 0.5);
    ck_assert_double_eq(asked(PB_COMMAND_HOLE), 2.0);
    ck_assert_int_eq(app->cards.open, CARD_NONE);
    rooms_press(app, "acts", 0.5, 0.5);
    rooms_press(app, "test", 0.5, 0.5);
    (void)asked(PB_COMMAND_STATIC_TEST);
    rooms_press(app, "acts", 0.5, 0.5);
    rooms_press(app, "leave", 0.5, 0.5); /* no reason is chosen yet */
    ck_assert_int_eq(app->cards.open, CARD_ACTS);
    rooms_press(app, "reason1", 0.5, 0.5);
    rooms_press(app, "leave", 0.5, 0.5);
    ck_assert_double_eq(asked(PB_COMMAND_LEAVE), PB_LEAVE_FLUE);
    rooms_run(app, "electrical-box", 1.0, 0);
    rooms_go(app, SCREEN_BAY);
    rooms_press(app, "acts", 0.5, 0.5);
    rooms_press(app, "seal1", 0.5, 0.5);
    ck_assert_double_eq(asked(PB_COMMAND_SEAL), 1.0);
}
END_TEST

START_TEST(acts_have_their_keys)
{
    rooms_run(app, "fire-block", 1.0, 0);
    rooms_go(app, SCREEN_BAY);
    rooms_key(app, SDLK_i);
    ck_assert_double_eq(asked(PB_COMMAND_RING), 0.5); /* the next notch over 0.15 */
    rooms_key(app, SDLK_h);
    ck_assert_double_eq(asked(PB_COMMAND_HOLE), 2.0);
    rooms_key(app, SDLK_y);
    (void)asked(PB_COMMAND_STATIC_TEST);
    rooms_key(app, SDLK_j);
    ck_assert_str_eq(app->say.notice.title, "No hole stands open");
    rooms_key(app, SDLK_x);
    ck_assert_str_eq(app->say.notice.title, "No opening has been found here yet");
    rooms_key(app, SDLK_o);
    ck_assert_int_eq(app->cards.open, CARD_ACTS);
    app_card_open(app, CARD_NONE);
    rooms_run(app, "electrical-box", 1.0, 0);
    rooms_go(app, SCREEN_BAY);
    rooms_key(app, SDLK_x);
    ck_assert_double_eq(asked(PB_COMMAND_SEAL), 1.0);
    rooms_key(app, SDLK_h);
    ck_assert_str_eq(app->say.notice.title, "This bay has one hole");
}
END_TEST

START_TEST(the_card_of_acts_can_be_read)
{
    rooms_run(app, "fire-block", 1.0, 0);
    rooms_go(app, SCREEN_BAY);
    app_card_open(app, CARD_ACTS);
    app->cards.ring_want = -1.0;
    rooms_all_legible_laid_over(app, "acts");
}
END_TEST

/* Before it is switched on the cautions come, with their own button in the hand. */
START_TEST(the_machine_asks_for_the_checks)
{
    ck_assert(!app->task.cautions_seen);
    rooms_run(app, "plain-2x4", 0.0, 0);
    rooms_press(app, "machine", 0.75, 0.5);
    ck_assert(app->cards.cautions_open);
    ck_assert_int_eq(app->ui->focus, ID_CARD_OK);
    rooms_all_legible(app, "cautions");
    rooms_press(app, "check0", 0.5, 0.5);
    ck_assert_uint_eq(app->task.safety_ticked, 1u);
    rooms_press(app, "card_ok", 0.5, 0.5);
    ck_assert(!app->cards.cautions_open && app->task.cautions_seen);
    ck_assert_int_eq(app->task.safety_skipped, SAFETY_POINTS - 1);
    ck_assert_double_eq(asked(PB_COMMAND_MACHINE), 1.0);
}
END_TEST

START_TEST(sight_and_tabs_are_answered)
{
    app->bay->is_full = 1;
    rooms_view(app, 1920, 1080, 1.0, 0);
    rooms_press(app, "sight", 0.9, 0.5);
    ck_assert_int_eq(app->task.sight, SIGHT_CLOSED);
    rooms_press(app, "sight", 0.1, 0.5);
    ck_assert_int_eq(app->task.sight, SIGHT_OPEN);
    rooms_view(app, 1280, 800, 1.75, 0);
    rooms_press(app, "middle", 0.9, 0.5);
    ck_assert_int_eq(app->bay->middle_tab, MIDDLE_TRAVEL);
    rooms_press(app, "gauges", 0.9, 0.5);
    ck_assert_int_eq(app->bay->gauge_tab, 2);
    double volume = app->sound.volume;
    rooms_view(app, 1920, 1080, 1.0, 0);
    rooms_press(app, "sound", 0.5, 0.5);
    ck_assert_double_ne(app->sound.volume, volume);
}
END_TEST

/* Where the tab of the bay is not offered, the close look is what is shown first. */
START_TEST(the_key_of_the_close_look_goes_from_what_is_shown)
{
    app->bay->is_full = 1;
    rooms_view(app, 1024, 700, 1.0, 0);
    app->bay->middle_tab = MIDDLE_BAY;
    app_lay_out(app);
    ck_assert_int_eq(app->laid->first_tab, MIDDLE_CLOSE);
    rooms_key(app, SDLK_c);
    ck_assert_int_eq(app->bay->middle_tab, MIDDLE_TRAVEL);
    rooms_key(app, SDLK_c);
    ck_assert_int_eq(app->bay->middle_tab, MIDDLE_CLOSE);
}
END_TEST

/* Each sentence of the voice, by value in both languages; none in a graded run or beside the guide.
 */
START_TEST(each_sentence_stands_over_the_bay)
{
    static const struct {
        PbSay say;
        const char *en, *es;
    } said[] = {{PB_SAY_CREAKS, "The wall creaks", "La pared cruje"},
                {PB_SAY_CLOG_OFF, "Clogged: switch off", "Tapada: apague"},
                {PB_SAY_TOO_EARLY, "Moved on before the stall", NULL},
                {PB_SAY_PULL, "Stalled: pull back a foot", NULL},
                {PB_SAY_BACK, "Pull the tube back to the hole", "Jale el tubo hasta el hoyo"},
                {PB_SAY_WEAK_AIR, "The air is weak", "Falta aire"},
                {PB_SAY_WAIT, "Wait for the stall", "Espere el stall"}};
    app->taste.is_us = 1;
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        app->bay->said = (PbSaid){said[i].say, 5.0};
        rooms_view(app, 1280, 800, 1.0, 0);
        ck_assert_msg(rooms_says(app, said[i].en), "not said: %s", said[i].en);
        rooms_view(app, 1280, 800, 1.0, 1);
        ck_assert_msg(said[i].es == NULL || rooms_says(app, said[i].es), "not said: %s",
                      said[i].es);
    }
    rooms_view(app, 1280, 800, 1.0, 0);
    app->task.is_graded = 1;
    ck_assert(!rooms_says(app, "Wait for the stall"));
    app->task.is_graded = 0;
    for (int say = 0; say < PB_SAY_NOTHING; say++) {
        char name[40];
        snprintf(name, sizeof name, "sentence %d", say);
        app->bay->said = (PbSaid){(PbSay)say, 5.0};
        rooms_all_legible(app, name);
    }
}
END_TEST

/* Harm is told before what was just refused; what has happened for good before all. */
START_TEST(the_line_says_the_most_harmful)
{
    app_notice(app, "Too far in to turn", "Pull the tube back to the hole, then turn it.", 0, 60.0);
    app->bay->said = (PbSaid){PB_SAY_WAIT, 0.0};
    ck_assert(rooms_says(app, "Too far in to turn"));
    app->bay->said = (PbSaid){PB_SAY_CREAKS, 0.0};
    ck_assert(!rooms_says(app, "Too far in to turn") && rooms_says(app, "The wall creaks"));
    app_notice(app, "Blow-out at 4.0 ft", "Machine off. The run has ended.", 1, 60.0);
    ck_assert(rooms_says(app, "Blow-out at 4.0 ft") && !rooms_says(app, "The wall creaks"));
}
END_TEST

START_TEST(the_guide_is_left)
{
    app->guiding.guide = guide_begin(2.0);
    rooms_press(app, "guide_skip", 0.5, 0.5);
    ck_assert(!app->guiding.guide.is_on && app->guiding.is_seen);
}
END_TEST

/* Two seconds, at each sight, with what it had said before; then the sheet. */
START_TEST(a_blow_out_is_looked_at_before_the_sheet)
{
    static const char *const sights[SIGHT_LEVELS] = {"blow-out", "blow-out, taped",
                                                     "blow-out, closed"};
    char words[120];
    app->run.blow_out_y_m = 1.0;
    app->run.watched.result.blow_out = app->run.watched.has_score = 1;
    ck_assert_str_eq(broke_words(app, words, sizeof words), "Machine off. The run has ended.");
    broke_creak(app);
    ck_assert_str_eq(broke_words(app, words, sizeof words), "Machine off. It had creaked once.");
    broke_creak(app);
    ck_assert_str_eq(broke_words(app, words, sizeof words), "Machine off. It had creaked 2 times.");
    bay_update(app, 0.02);
    ck_assert(broke_is_on(app) && app->turn.go_to != SCREEN_RESULT);
    ck_assert(broke_covers(app, 1.19) && broke_covers(app, 0.81) && !broke_covers(app, 1.21));
    for (int sight = 0; sight < SIGHT_LEVELS; sight++) {
        app->task.sight = sight;
        rooms_all_legible(app, sights[sight]);
    }
    app->program.now_s += 1.9;
    bay_update(app, 0.02);
    ck_assert(broke_is_on(app));
    app->program.now_s += 0.2;
    bay_update(app, 0.02);
    ck_assert(!broke_is_on(app) && !broke_covers(app, 1.0));
    ck_assert_int_eq(app->turn.go_to, SCREEN_RESULT);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("bay");
    TCase *tests = tcase_create("bay");
    tcase_set_timeout(tests, 120.0);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, each_sight_can_be_read_at_a_glance);
    tcase_add_test(tests, stops_can_be_read_at_a_glance);
    tcase_add_test(tests, the_view_follows_when_a_pull_has_ended);
    tcase_add_test(tests, the_glance_has_its_places);
    tcase_add_test(tests, what_hands_do_at_a_glance_is_answered);
    tcase_add_test(tests, all_the_rest_is_one_key_away);
    tcase_add_test(tests, the_long_first_stop_can_be_hurried);
    tcase_add_test(tests, a_hand_ends_the_hurry_and_a_graded_run_has_none);
    tcase_add_test(tests, each_sight_and_tab_can_be_read);
    tcase_add_test(tests, a_notice_can_be_read);
    tcase_add_test(tests, each_step_of_the_guide_can_be_read);
    tcase_add_test(tests, each_step_of_the_guide_can_be_read_beside_all_the_rest);
    tcase_add_test(tests, hands_are_answered);
    tcase_add_test(tests, acts_are_answered);
    tcase_add_test(tests, acts_have_their_keys);
    tcase_add_test(tests, the_card_of_acts_can_be_read);
    tcase_add_test(tests, the_machine_asks_for_the_checks);
    tcase_add_test(tests, sight_and_tabs_are_answered);
    tcase_add_test(tests, the_key_of_the_close_look_goes_from_what_is_shown);
    tcase_add_test(tests, each_sentence_stands_over_the_bay);
    tcase_add_test(tests, the_line_says_the_most_harmful);
    tcase_add_test(tests, the_guide_is_left);
    tcase_add_test(tests, a_blow_out_is_looked_at_before_the_sheet);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
