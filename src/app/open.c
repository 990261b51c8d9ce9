/* How a run begins: from the list at the Door, from a file that was typed or dropped, or again. */
#include "app.h"

#include "io/exercise_file.h"

#include <stdio.h>
#include <stdlib.h>
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

/* How a run is meant. */
typedef enum Purpose { FOR_PRACTICE, FOR_GRADE, FOR_GUIDE } Purpose;

/* The checks of before hold for the same bay when all were made; else they are asked for again. */
static void take_checks(App *app, int is_other)
{
    unsigned all = (1u << SAFETY_POINTS) - 1u;
    app->safety_ticked = is_other ? 0u : app->safety_ticked;
    app->cautions_seen = !is_other && app->cautions_seen && app->safety_ticked == all;
    if (app->cautions_seen) {
        run_command(&app->run, PB_COMMAND_MARK, (double)(PB_MARK_CHECKLIST + (int)all));
    }
}

/* What may be seen, and what the record says of it. A grade takes the sight of the course and the
 * guide opens the wall; after them practice has its own again. */
static void take_purpose(App *app, Purpose purpose)
{
    app->is_graded = purpose == FOR_GRADE;
    app->sight = purpose == FOR_GRADE   ? pb_course_sight(&app->run.config.exercise)
                 : purpose == FOR_GUIDE ? SIGHT_OPEN
                                        : app->practice_sight;
    app->guide.is_on = 0;
    if (purpose == FOR_GRADE) {
        run_command(&app->run, PB_COMMAND_MARK, (double)(PB_MARK_GRADED + app->sight));
    } else if (purpose == FOR_GUIDE) {
        app->guide = guide_begin(run_tube_max(&app->run));
        app->records.kept[0] = '\0';
    }
}

static void begin(App *app, const PbSessionConfig *config, Purpose purpose)
{
    PbError err = {0};
    char why[600];
    int is_other =
        app->run.session == NULL || strcmp(app->run.config.exercise.id, config->exercise.id) != 0;
    Run *next = calloc(1, sizeof *next);
    if (next == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "there is not enough memory");
    }
    /* else the run that was under way goes on, and is recorded on */
    if (next == NULL || run_start(next, config, &err) != PB_OK) {
        free(next);
        app_notice(app, _("This exercise cannot be started"), err.message, 0, 20);
        return;
    }
    if (!records_run_end(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: %s\n", why);
    }
    run_free(&app->run);
    app->run = *next;
    free(next);
    app_take_climate(app);
    fresh_hands(app);
    take_checks(app, is_other || purpose == FOR_GUIDE);
    take_purpose(app, purpose);
    int is_timed = app->options.bench_frames > 0; /* hands of the bench are nobody's run */
    if (purpose != FOR_GUIDE && !is_timed &&
        !records_run_begin(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: this run is not on the disk until it is over: %s\n", why);
        app_notice(app, _("Recorded in memory only"), why, 0, 8);
    }
    app_go(app, SCREEN_BAY);
}

static void run_for(App *app, const PbExercise *e, Purpose purpose)
{
    PbSessionConfig config = pb_session_default();
    config.exercise = *e;
    config.seed = app->options.seed;
    begin(app, &config, purpose);
}

void app_run_exercise(App *app, const PbExercise *e)
{
    run_for(app, e, FOR_PRACTICE);
}

void app_run_graded(App *app, const PbExercise *e)
{
    run_for(app, e, FOR_GRADE);
}

/* The plain bay with the hole under the plate: half of it takes a minute. */
void app_run_guide(App *app)
{
    PbExercise e = pb_exercise_default();
    PbError err = {0};
    char path[700];
    if (app_find(&app->options, "exercises/plain-2x4-high.json", path, sizeof path) &&
        io_exercise_load(path, &e, &err) != PB_OK) {
        e = pb_exercise_default();
    }
    run_for(app, &e, FOR_GUIDE);
}

void app_again(App *app)
{
    begin(app, &app->run.config, app->is_graded ? FOR_GRADE : FOR_PRACTICE);
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
