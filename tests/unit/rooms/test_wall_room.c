/* The wall: each state can be read whole; a click and keys do one act each; what is closed says
 * nothing that was not felt; opened, what was missed is told. */
#include "rooms.h"

#include "core/crew_find.h"
#include "shell/shell.h"
#include "wall/wall.h"

#include <math.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static App *app;

static void begin(void)
{
    app = rooms_open();
    app->options.seed = 100;
    app->options.is_seed_given = 1;
    rooms_go(app, SCREEN_WALL);
}

static void end(void)
{
    rooms_close(app);
}

static void choose(int number)
{
    char mark[24];
    SDL_snprintf(mark, sizeof mark, "wall_pick_%d", number);
    rooms_press(app, mark, 0.5, 0.5);
    ck_assert_int_eq(app->wall->phase, WALL_CLOSED);
}

/* On the wall, in meters. */
static void press_at(double x_m, double y_m)
{
    const Wall *w = app->wall;
    rooms_press(app, "wall_face", x_m / w->crew->length_m, 1.0 - y_m / w->crew->height_m);
}

/* All acts of a search, done again by the crew of the room. */
static void search(PbFindMethod method)
{
    static PbCrew crew;
    PbError err;
    const PbFraming *f = pb_job_framing(app->wall->job);
    pb_crew_begin(f, app->wall->seed, &crew);
    pb_crew_find(&crew, f, method);
    for (int n = 0; n < crew.done_count; n++) {
        PbJobAct act = {.kind = PB_JOB_WALL, .wall = crew.done[n].act};
        ck_assert_int_eq(pb_job_act(app->wall->job, &act, &err), PB_OK);
    }
}

START_TEST(each_state_can_be_read)
{
    rooms_all_legible(app, "choose");
    choose(3);
    rooms_all_legible(app, "nothing known");
    search(PB_FIND_CAREFUL);
    rooms_key(app, SDLK_t);
    press_at(0.2, 0.6);
    rooms_all_legible(app, "all known");
    for (int n = 0; n < PB_LEAVE_REASONS - 1; n++) {
        rooms_key(app, SDLK_l);
        rooms_key(app, SDLK_RIGHTBRACKET);
        if (n % 4 == 0) {
            rooms_all_legible(app, "leave");
        }
    }
    rooms_key(app, SDLK_r);
    ck_assert_int_eq(app->wall->phase, WALL_OPENED);
    rooms_all_legible(app, "opened");
}
END_TEST

START_TEST(drawn_walls_can_be_read)
{
    choose(7);
    press_at(0.3, 0.6);
    rooms_all_legible(app, "drawn, one probe");
    rooms_key(app, SDLK_r);
    rooms_all_legible(app, "drawn, opened");
}
END_TEST

/* A wall with one window: studs at 0.387, 0.793, 1.199 m. */
START_TEST(a_click_and_a_key_do_one_act)
{
    choose(2);
    press_at(0.21, 1.0);
    const PbCrew *crew = app->wall->crew;
    ck_assert_int_eq(crew->done_count, 1);
    ck_assert_int_eq(crew->done[0].act.kind, PB_CREW_PROBE);
    ck_assert_double_eq_tol(crew->done[0].act.x_m, 0.21, 0.008);
    ck_assert_double_eq_tol(crew->done[0].act.y_m, 1.0, 0.008);
    ck_assert(rooms_says(app, "The back at 100 mm"));
    rooms_key(app, SDLK_RIGHTBRACKET); /* to the left, then to the right */
    rooms_key(app, SDLK_RIGHTBRACKET);
    rooms_key(app, SDLK_RETURN);
    ck_assert_int_eq(crew->done_count, 2);
    ck_assert(rooms_says(app, "Wood at 1"));
    rooms_press(app, "wall_leaf_2", 0.5, 0.5);
    rooms_press(app, "wall_tool_6", 0.5, 0.5); /* drill; the hand is back on the wall */
    rooms_key(app, SDLK_RIGHT);
    rooms_key(app, SDLK_SPACE);
    ck_assert_int_eq(crew->hole_count, 1);
    ck_assert_double_eq_tol(crew->holes[0].x_m, 0.22, 0.008);
    ck_assert(rooms_says(app, "The hole is open."));
    rooms_key(app, SDLK_u);
    rooms_key(app, SDLK_SPACE);
    ck_assert(rooms_says(app, "to wood, up"));
    ck_assert(rooms_says(app, "probe holes 2, fill holes 1"));
    rooms_key(app, SDLK_SPACE); /* the tube tells it again and costs its time again */
    ck_assert_double_eq_tol(crew->time_s, 2 * 42.0 + 60.0 + 4 * 24.0, 1e-9);
}
END_TEST

START_TEST(what_cannot_be_done_is_said)
{
    choose(2);
    press_at(2.0, 1.5);
    ck_assert_int_eq(app->wall->crew->done_count, 0);
    ck_assert(rooms_says(app, "A cover, glass or a door"));
    rooms_key(app, SDLK_u);
    press_at(0.2, 1.0);
    ck_assert(rooms_says(app, "There is no open hole here."));
    rooms_key(app, SDLK_i);
    app->wall->delta_k = 5.0;
    rooms_key(app, SDLK_SPACE);
    ck_assert(rooms_says(app, "Too little difference"));
    app->wall->delta_k = 15.0;
    rooms_key(app, SDLK_SPACE);
    ck_assert_int_gt(app->wall->crew->shade_count, 10);
    rooms_key(app, SDLK_m);
    press_at(0.2, 1.0);
    ck_assert(rooms_says(app, "now the other end"));
    press_at(0.2, 1.5);
    ck_assert(rooms_says(app, "by the tape"));
}
END_TEST

/* Two walls that differ in all that is hidden draw and say the same until a rod can tell. */
START_TEST(a_closed_wall_shows_nothing_hidden)
{
    static char words[2][60000];
    choose(2);
    for (int n = 0; n < 2; n++) {
        ui_legible_start(app->ui, 0.0f);
        app_lay_out(app);
        ui_legible_words(app->ui, words[n], sizeof words[n]);
        ui_legible_stop(app->ui);
        size_t corners = app->ui->list.vertex_count;
        static size_t first;
        first = n == 0 ? corners : first;
        ck_assert_uint_eq(corners, first);
        static PbFraming other;
        other = *pb_job_framing(app->wall->job);
        other.member_count = 3; /* plates alone */
        other.inside_count = 0;
        other.leave_count = 0;
        ck_assert(n == 1 || wall_stand(app, &other));
    }
    ck_assert_str_eq(words[0], words[1]);
    press_at(0.4, 1.0); /* there was a stud */
    ck_assert(rooms_says(app, "The back at"));
}
END_TEST

START_TEST(opened_it_tells_what_was_missed)
{
    choose(2);
    search(PB_FIND_TAPE);
    rooms_key(app, SDLK_l);
    press_at(3.9, 0.2); /* an act of the room, so that it believes anew */
    rooms_key(app, SDLK_r);
    const Wall *w = app->wall;
    ck_assert_int_eq(w->all_count, 15); /* 16, one narrower than the hole */
    ck_assert_int_lt(w->found_count, 12);
    ck_assert_double_lt(w->found_m2 / w->all_m2, 0.9);
    ck_assert(rooms_says(app, "Found: "));
    ck_assert(rooms_says(app, "missed"));
    rooms_key(app, SDLK_a); /* the same, closed again */
    ck_assert_int_eq(w->phase, WALL_CLOSED);
    ck_assert_int_eq(w->crew->done_count, 0);
    rooms_key(app, SDLK_ESCAPE);
    ck_assert_int_eq(app->wall->phase, WALL_CHOOSE);
}
END_TEST

START_TEST(a_wire_stops_the_job)
{
    choose(6); /* cables at 1.25 and 1.55 m behind plaster */
    rooms_key(app, SDLK_j);
    press_at(1.0, 1.25);
    ck_assert(rooms_says(app, "A live wire is near"));
    rooms_key(app, SDLK_d);
    press_at(1.0, 1.25);
    ck_assert(rooms_says(app, "A wire. The job stops: power off"));
    ck_assert_int_eq(app->wall->crew->is_stopped, 1);
    press_at(0.5, 0.5);
    ck_assert(rooms_says(app, "The job is stopped"));
    rooms_all_legible(app, "stopped");
}
END_TEST

/* One frame of whatever room is shown. */
static void frame(void)
{
    screens_turn(app);
    const Screen *screen = screen_of(app->turn.screen);
    if (screen->update != NULL) {
        screen->update(app, 1.0 / 60.0);
    }
    app_lay_out(app);
}

static void act(WallTool tool)
{
    const WallToolRow *row = wall_tool(tool);
    rooms_key(app, row->key[0] >= 'A' ? SDLK_a + (row->key[0] - 'A') : row->key[0]);
}

/* A hole in each of these bays of the two-bay wall, which has three. */
static void open_bays(int count)
{
    static const double mid_m[3] = {0.212, 0.6, 1.02};
    for (int n = 0; n < count; n++) {
        act(TOOL_PROBE);
        press_at(mid_m[n], 1.1);
        act(TOOL_DRILL);
        press_at(mid_m[n], 1.25);
    }
}

/* The bay at hand to its end, by the hands of the crew. */
static void pack_at_hand(void)
{
    PbError err;
    ck_assert_int_eq(app->turn.screen, SCREEN_BAY);
    if (!app->run.is_crew) {
        ck_assert_int_eq(
            pb_job_fill_worker(app->wall->job, app->wall->pending, &app->run.crew, &err), PB_OK);
        app->run.is_crew = 1;
    }
    while (!app->run.watched.has_score) {
        run_tick(&app->run);
    }
    frame();
    frame();
    ck_assert_int_eq(app->turn.screen, SCREEN_WALL);
    frame();
}

static void first_bay_by_hand(int holes)
{
    choose(1);
    act(TOOL_CHECK);
    act(TOOL_PROTECT);
    open_bays(holes);
    act(TOOL_ESTIMATE);
    ck_assert(rooms_says(app, "Estimate: "));
    act(TOOL_TEST);
    act(TOOL_CREW);
    ck_assert(rooms_says(app, "Fill one bay by hand first"));
    act(TOOL_FILL);
    press_at(0.212, 1.25);
    frame();
    ck_assert_int_eq(app->turn.screen, SCREEN_BAY);
}

START_TEST(a_bay_is_filled_by_hand_behind_a_closed_face)
{
    first_bay_by_hand(2);
    ck_assert_int_eq(app->task.sight, SIGHT_CLOSED);
    app->cards.cautions_open = 0;
    rooms_key(app, SDLK_v); /* nor can it be opened */
    ck_assert_int_eq(app->task.sight, SIGHT_CLOSED);
    ck_assert_str_eq(app->run.config.exercise.title, "Two bays beside an outlet, bay 1");
    rooms_go(app, SCREEN_DOOR);
    rooms_go(app, SCREEN_WALL); /* looked in on the way: the bay waits */
    ck_assert(rooms_says(app, "Bay 1 is half filled"));
    rooms_key(app, SDLK_r);
    ck_assert_int_eq(app->wall->phase, WALL_CLOSED);
    ck_assert(rooms_says(app, "finish that first"));
    act(TOOL_FILL);
    frame();
    pack_at_hand();
    ck_assert_ptr_null(app->run.view); /* no room shows what is inside */
    ck_assert(rooms_says(app, "Bay 1 took "));
    ck_assert_int_eq(app->wall->packed_count, 1);
    ck_assert_double_gt(app->wall->bags[0], 0.3);
    ck_assert(!rooms_says(app, "lb/ft"));
    act(TOOL_FILL);
    press_at(0.212, 1.25);
    ck_assert(rooms_says(app, "This bay is filled already."));
    app->say.notice.until_s = 0.0; /* that nobody keeps this run */
    rooms_all_legible(app, "one bay filled");
}
END_TEST

START_TEST(the_crew_goes_on_and_what_was_missed_fails_the_job)
{
    first_bay_by_hand(2);
    pack_at_hand();
    act(TOOL_CREW);
    ck_assert(rooms_says(app, "The crew goes on as you did."));
    frame();
    act(TOOL_CREW);
    ck_assert(rooms_says(app, "The crew has stopped."));
    ck_assert_int_eq(app->wall->packed_count, 1);
    rooms_key(app, SDLK_r);
    ck_assert_int_eq(app->wall->phase, WALL_CLOSED);
    act(TOOL_CREW);
    while (app->wall->is_crew_on) {
        SDL_Delay(1);
        frame();
    }
    ck_assert(rooms_says(app, "The crew is done. Filled: 2."));
    act(TOOL_FINGER);
    press_at(0.6, 1.25);
    ck_assert(rooms_says(app, "Firm: "));
    rooms_key(app, SDLK_r);
    ck_assert_int_eq(app->wall->phase, WALL_OPENED);
    ck_assert(rooms_says(app, "Not passed. Not kept: No part missed"));
    ck_assert_int_eq(app->wall->marks.is_pass, 0);
    app->say.notice.until_s = 0.0;
    rooms_all_legible(app, "job opened");
    rooms_key(app, SDLK_m);
    ck_assert(rooms_says(app, "Bay 3 was never filled"));
    rooms_all_legible(app, "marks");
}
END_TEST

/* Watched or in the background, a bay is the same to the bit. */
START_TEST(watching_changes_nothing)
{
    uint64_t hash[2];
    for (int watched = 0; watched < 2; watched++) {
        first_bay_by_hand(2);
        pack_at_hand();
        act(watched ? TOOL_WATCH : TOOL_CREW);
        frame();
        if (watched) {
            ck_assert(app->run.is_crew);
            pack_at_hand();
        }
        while (app->wall->is_crew_on) {
            SDL_Delay(1);
            frame();
        }
        hash[watched] = pb_job_hash(app->wall->job);
        ck_assert_int_eq(app->wall->packed_count, 2);
        rooms_key(app, SDLK_ESCAPE);
    }
    ck_assert(hash[0] == hash[1]);
}
END_TEST

static void learner(const char *path)
{
    char why[600] = "";
    records_open(&app->records, path, "Learner 1");
    if (app->records.learner_id == 0) {
        ck_assert_msg(records_add(&app->records, "Learner 1", why, sizeof why), "%s", why);
    }
}

static void until_crew_is_done(void)
{
    while (app->wall->is_crew_on || app->wall->is_catching_up) {
        SDL_Delay(1);
        frame();
    }
}

/* One bay by hand, one by the crew, the third half packed: then the program is gone, without a word
 * to anybody. Says by a pipe what the fills were. */
static void work_and_die(const char *path, int pipe_end)
{
    uint64_t hash[2];
    learner(path);
    first_bay_by_hand(2);
    pack_at_hand();
    act(TOOL_CREW);
    until_crew_is_done();
    for (int i = 0; i < 2; i++) {
        hash[i] = pb_job_fill(app->wall->job, i)->result.state_hash;
    }
    act(TOOL_DRILL);
    press_at(1.02, 1.25);
    act(TOOL_FILL);
    press_at(1.02, 1.25);
    frame();
    run_command(&app->run, PB_COMMAND_MACHINE, 1.0);
    for (int i = 0; i < 200; i++) {
        run_tick(&app->run);
    }
    SDL_Delay(1500); /* at life's pace the recorder is never behind for long */
    _exit(write(pipe_end, hash, sizeof hash) != (ssize_t)sizeof hash);
}

START_TEST(a_job_goes_on_after_the_program_was_killed)
{
    char path[64];
    uint64_t hash[2];
    int ends[2], status, count;
    snprintf(path, sizeof path, "wall-%d.db", (int)getpid());
    ck_assert_int_eq(pipe(ends), 0);
    pid_t child = fork();
    if (child == 0) {
        work_and_die(path, ends[1]);
    }
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert_int_eq(status, 0);
    ck_assert_int_eq((int)read(ends[0], hash, sizeof hash), (int)sizeof hash);
    rooms_go(app, SCREEN_DOOR);
    learner(path);
    rooms_go(app, SCREEN_WALL);
    ck_assert(rooms_says(app, "Go on with the job that was left: Two bays"));
    ck_assert_int_eq(app->wall->left.acts, 12);
    rooms_all_legible(app, "a job was left");
    rooms_press(app, "wall_go_on", 0.5, 0.5);
    until_crew_is_done();
    const Wall *w = app->wall;
    (void)pb_job_done(w->job, &count);
    ck_assert_int_eq(count, 12);
    ck_assert_int_eq(w->packed_count, 2);
    for (int i = 0; i < 2; i++) {
        ck_assert(pb_job_fill(w->job, i)->result.state_hash == hash[i]);
    }
    ck_assert_int_eq(w->pending, 2);
    act(TOOL_FILL);
    frame();
    ck_assert_int_eq(app->turn.screen, SCREEN_BAY);
    /* of 200: how far is a matter of the recorder, whose second is that of the clock (io's tests)
     */
    ck_assert_int_gt(app->run.view->tick, 0);
    ck_assert_int_eq(app->task.sight, SIGHT_CLOSED);
    run_command(&app->run, PB_COMMAND_MACHINE, 0.0);
    run_command(&app->run, PB_COMMAND_FINISH, 0.0);
    while (!app->run.watched.has_score) {
        run_tick(&app->run);
    }
    frame();
    frame();
    frame();
    ck_assert_int_eq(w->packed_count, 3);
    rooms_key(app, SDLK_r);
    ck_assert_int_eq(w->phase, WALL_OPENED);
    rooms_key(app, SDLK_r);
    ck_assert(!rooms_says(app, "Go on with the job")); /* it is over */
    records_close(&app->records, &app->run);
    unlink(path);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("room_wall");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 200);
    tcase_add_checked_fixture(t, begin, end);
    tcase_add_test(t, each_state_can_be_read);
    tcase_add_test(t, drawn_walls_can_be_read);
    tcase_add_test(t, a_click_and_a_key_do_one_act);
    tcase_add_test(t, what_cannot_be_done_is_said);
    tcase_add_test(t, a_closed_wall_shows_nothing_hidden);
    tcase_add_test(t, opened_it_tells_what_was_missed);
    tcase_add_test(t, a_wire_stops_the_job);
    tcase_add_test(t, a_bay_is_filled_by_hand_behind_a_closed_face);
    tcase_add_test(t, the_crew_goes_on_and_what_was_missed_fails_the_job);
    tcase_add_test(t, watching_changes_nothing);
    tcase_add_test(t, a_job_goes_on_after_the_program_was_killed);
    suite_add_tcase(s, t);
    return run_suite(s);
}
