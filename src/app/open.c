/* How a run begins: from the list at the Door, from a file that was typed or dropped, or again. */
#include "app.h"

#include "io/exercise_file.h"

#include <stdio.h>
#include <string.h>

int app_has_run(const App *app)
{
    return app->run.session != NULL && !app->run.has_result;
}

/* Hands and marks as they are before anything was done. */
static void fresh_hands(App *app)
{
    app->notice.until_s = 0.0;
    app->tube_want_m = -1.0;
    app->wax_pressure_pa = app->wax_feed = app->wax_pitch = app->wax_pulse = -1.0;
    app->safety_skipped = 0;
    app->clear_asked_s = -100.0;
    app->memory.is_started = 0;
    app->coach_started = 0;
    app->is_paused = 0;
    app->held.rate_sent = 0;
    app->needle_pa = 0.0;
    app->dropped_seen_s = app->slow_until_s = 0.0;
}

static int begin(App *app, const PbSessionConfig *config)
{
    PbError err = {0};
    char why[600];
    int is_other =
        app->run.session == NULL || strcmp(app->run.config.exercise.id, config->exercise.id) != 0;
    PbSessionConfig kept = *config; /* it may be the run's own */
    if (!records_run_end(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: %s\n", why);
    }
    if (run_start(&app->run, &kept, &err) != PB_OK) {
        app_notice(app, _("This exercise cannot be started"), err.message, 0, 20);
        return 0;
    }
    app_take_climate(app);
    fresh_hands(app);
    if (is_other) {
        app->cautions_seen = 0;
        app->safety_ticked = 0;
    }
    if (!records_run_begin(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: this run is not on the disk until it is over: %s\n", why);
        app_notice(app, _("Recorded in memory only"), why, 0, 8);
    }
    app_go(app, SCREEN_BAY);
    return 1;
}

void app_run_exercise(App *app, const PbExercise *e)
{
    PbSessionConfig config = pb_session_default();
    config.exercise = *e;
    config.seed = app->options.seed;
    begin(app, &config);
}

void app_again(App *app)
{
    PbSessionConfig config = app->run.config;
    begin(app, &config);
}

void app_open_file(App *app, const char *path)
{
    PbError err = {0};
    char line[1024];
    PbExercise e;
    if (io_exercise_load(path, &e, &err) != PB_OK) {
        io_error_line(&err, line, sizeof line);
        snprintf(app->card_says, sizeof app->card_says, "%.399s", line);
        if (app->card != CARD_FILE) {
            app_notice(app, _("This file is no exercise"), line, 0, 20);
        }
        return;
    }
    app_card_open(app, CARD_NONE);
    app_run_exercise(app, &e);
}
