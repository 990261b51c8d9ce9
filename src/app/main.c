/* pullback: a wall bay to pack, in a window. Options, the exercise, the window, then the loop.
 * The story of a frame is in loop.c, of a simulated step in the core's session. */
#include "app.h"

#include "io/doc.h"
#include "io/exercise_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int load_exercise(const AppOptions *o, PbExercise *e)
{
    PbError err = {0};
    *e = pb_exercise_default();
    if (o->exercise[0] == '\0') {
        return APP_DONE;
    }
    if (io_exercise_load(o->exercise, e, &err) != PB_OK) {
        char line[1024];
        io_error_line(&err, line, sizeof line);
        fprintf(stderr, "pullback: %s\n", line);
        return err.status == PB_ERR_IO ? APP_IO : APP_BAD_INPUT;
    }
    return APP_DONE;
}

static int start(App *app)
{
    PbError err = {0};
    PbSessionConfig config = pb_session_default();
    int code = load_exercise(&app->options, &config.exercise);
    if (code != APP_DONE) {
        return code;
    }
    config.seed = app->options.seed;
    if (run_start(&app->run, &config, &err) != PB_OK) {
        fprintf(stderr, "pullback: %s\n", err.message);
        return err.status == PB_ERR_RANGE ? APP_BAD_INPUT : APP_TROUBLE;
    }
    app_take_climate(app);
    return APP_DONE;
}

static int first_language(const AppOptions *o)
{
    if (o->lang[0] != '\0') {
        return app_language_from(o->lang);
    }
    const char *names[4] = {getenv("LANGUAGE"), getenv("LC_ALL"), getenv("LC_MESSAGES"),
                            getenv("LANG")};
    for (int i = 0; i < 4; i++) {
        if (names[i] != NULL && names[i][0] != '\0') {
            return app_language_from(names[i]) == 1 ? 1 : 0;
        }
    }
    return 0;
}

int main(int argc, char **argv)
{
    static App app; /* large, and one is all there is */
    int code = app_options_parse(argc, argv, &app.options);
    if (code >= 0) {
        return code;
    }
    app.is_us = app.options.is_us;
    app.text_scale = app.options.text_scale;
    app.wax_pressure_pa = app.wax_feed = app.wax_pitch = app.wax_pulse = -1.0;
    app.clear_asked_s = -100.0;
    app.tube_want_m = -1.0;
    app.go_to = app.options.is_debrief ? SCREEN_DEBRIEF : SCREEN_BAY;
    code = start(&app);
    if (code != APP_DONE) {
        return code;
    }
    app_language(&app, first_language(&app.options));
    code = app_window_open(&app);
    if (code == APP_DONE) {
        controls_start(&app);
        sound_open(&app);
        code = app.options.bench_frames > 0 ? bench_run(&app) : app_loop(&app);
        screens_close(&app);
        sound_close(&app);
        app_window_close(&app);
    }
    run_free(&app.run);
    SDL_Quit();
    return code;
}
