/* pullback: a wall bay to pack, in a window. Options, the exercise, the window, then the loop.
 * The story of a frame is in loop.c, of a simulated step in the core's session. */
#include "shell/shell.h"

#include "door/door.h"
#include "side/side.h"

#include "io/doc.h"
#include "io/exercise_file.h"
#include "io/output_file.h"
#include "os/place.h"
#include "os/process.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The exercise that was named, or the plain bay when only frames are to be timed. */
static int load_exercise(const AppOptions *o, PbExercise *e)
{
    PbError err = {0};
    *e = pb_exercise_default();
    if (o->exercise[0] != '\0' && io_exercise_load(o->exercise, e, &err) != PB_OK) {
        char line[1024];
        io_error_line(&err, line, sizeof line);
        fprintf(stderr, "pullback: %s\n", line);
        return err.status == PB_ERR_IO ? APP_IO : APP_BAD_INPUT;
    }
    return APP_DONE;
}

/* Where it opens: in the room that was named, in the bay with an exercise that was named, else at
 * the Door. */
static int first_screen(App *app, const PbExercise *e)
{
    const AppOptions *o = &app->options;
    if (o->bench_frames == 0 && (o->is_door || (o->exercise[0] == '\0' && o->room[0] == '\0'))) {
        app_go(app, SCREEN_DOOR);
        /* Once by itself; scripts say when they want it. */
        if (o->is_guide || (!app->guiding.is_seen && o->script[0] == '\0')) {
            app_card_open(app, CARD_GUIDE);
        }
        return APP_DONE;
    }
    app_ask(app, ASK_PRACTICE, e, 0);
    app_carry_out(app);
    if (app->run.watched.session == NULL) {
        fprintf(stderr, "pullback: %s\n", app->say.notice.text);
        return APP_TROUBLE;
    }
    if (o->room[0] != '\0') {
        app_go(app, (AppScreen)screens_find(o->room));
    }
    return APP_DONE;
}

static int first_language(const AppOptions *o, const IoSettings *kept)
{
    if (o->lang[0] != '\0' || kept->lang >= 0) {
        return o->lang[0] != '\0' ? words_language_of(o->lang) : kept->lang;
    }
    const char *name = os_habit(OS_LANGUAGE);
    int lang = name != NULL ? words_language_of(name) : WORDS_ENGLISH;
    return lang >= 0 ? lang : WORDS_ENGLISH;
}

/* When the display goes away in the middle of a run, Xlib ends the process with exit() and main
 * never comes back: what has been recorded is brought in from here. */
static App *unfinished;

static void display_gone(void)
{
    App *app = unfinished;
    unfinished = NULL;
    if (app != NULL) {
        int had = app->records.runs_kept;
        records_close(&app->records, &app->run);
        fprintf(stderr, "pullback: the display went away%s\n",
                app->records.runs_kept > had ? "; the run so far is kept" : "");
    }
}

/* No picture, report or table of this window ever takes the place of the runs. */
static void protect_store(const AppOptions *o)
{
    char path[700];
    PbError ignored;
    if (store_default_path(path, sizeof path, &ignored) == PB_OK) {
        io_output_protect(path);
    }
    if (o->db[0] != '\0') {
        io_output_protect(o->db);
    }
}

/* For marks of runs that a crash left behind. */
static PbStatus find_climate(void *user, const PbExercise *exercise, PbClimate *climate,
                             PbError *err)
{
    const App *app = user;
    return app_climate(&app->options, exercise->climate, climate)
               ? PB_OK
               : pb_fail(err, PB_ERR_NO_RESULT, "there is no such climate");
}

int main(int argc, char **argv)
{
    /* Large, and one is all there is. */
    static Ui ui;
    static AppLaid laid;
    static AppFigures figures;
    static Bay bay;
    static Door door;
    static App app = {.ui = &ui, .laid = &laid, .figures = &figures, .bay = &bay, .door = &door};
    os_hold_streams();
    os_words_begin(argc, argv);
    int code = app_options_parse(argc, argv, &app.options);
    if (code >= 0) {
        return code;
    }
    screens_one_heap();
    protect_store(&app.options);
    app_places(&app.options);
    app.bay->wax_pressure_pa = app.bay->wax_feed = app.bay->wax_pitch = app.bay->wax_pulse = -1.0;
    app.bay->clear_asked_s = -100.0;
    app.bay->tube_want_m = -1.0;
    app.turn.go_to = app.turn.focus_next = -1;
    PbExercise exercise;
    code = load_exercise(&app.options, &exercise);
    app.run.config = pb_session_default(); /* what rooms show before the first run */
    app.run.config.exercise = exercise;
    if (code != APP_DONE) {
        return code;
    }
    settings_open(&app);
    app_language(&app, first_language(&app.options, &app.settings.kept));
    PbStatus status = side_house_option(&app);
    if (status != PB_OK) {
        return status == PB_ERR_IO ? APP_IO : APP_BAD_INPUT;
    }
    app_watch_signals();
    code = app_window_open(&app);
    if (code == APP_DONE) {
        controls_start(&app);
        sound_open(&app);
        if (app.options.bench_frames == 0) {
            app.records.climate = find_climate;
            app.records.climate_user = &app;
            records_open(&app.records, app.options.db, app.settings.kept.learner);
            if (atexit(display_gone) == 0) {
                unfinished = &app;
            }
        }
        code = first_screen(&app, &exercise);
    }
    if (code == APP_DONE) {
        code = app.options.bench_frames > 0 ? bench_run(&app) : app_loop(&app);
    }
    unfinished = NULL;
    screens_close(&app);
    class_card_end(&app);
    merge_card_end(&app);
    records_close(&app.records, &app.run);
    sound_close(&app);
    app_window_close(&app);
    run_free(&app.run);
    exercises_free(&app.exercises);
    SDL_Quit();
    return code;
}
