/* How a run begins: from the list at the Door, from a file that was typed or dropped, or again. */
#include "shell/shell.h"

#include "core/hash.h"
#include "io/clock.h"
#include "io/exercise_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Hands and marks as they are before anything was done. */
static void fresh_hands(App *app)
{
    app->say.notice.until_s = 0.0;
    app->bay->tube_want_m = -1.0;
    app->bay->wax_pressure_pa = app->bay->wax_feed = app->bay->wax_pitch = app->bay->wax_pulse =
        -1.0;
    app->task.safety_skipped = 0;
    app->bay->clear_asked_s = -100.0;
    app->bay->memory.is_started = 0;
    app->bay->broke = (BayBreak){0};
    app->bay->coach_started = 0;
    app->task.is_paused = 0;
    app->bay->held.rate_sent = 0;
    app->bay->needle_pa = 0.0;
    app->program.dropped_seen_s = app->program.slow_until_s = 0.0;
}

/* How a run is meant. */
typedef enum Purpose { FOR_PRACTICE, FOR_GRADE, FOR_GUIDE, FOR_JOB } Purpose;

/* The checks of before hold for the same bay when all were made; else they are asked for again. */
static void take_checks(App *app, int is_other)
{
    unsigned all = (1u << SAFETY_POINTS) - 1u;
    app->task.safety_ticked = is_other ? 0u : app->task.safety_ticked;
    app->task.cautions_seen =
        !is_other && app->task.cautions_seen && app->task.safety_ticked == all;
    if (app->task.cautions_seen) {
        run_command(&app->run, PB_COMMAND_MARK, (double)(PB_MARK_CHECKLIST + (int)all));
    }
}

/* What may be seen, and what the record says of it. A grade takes the sight of the course and the
 * guide opens the wall, a job keeps it closed; after them practice has its own again. */
static void take_purpose(App *app, Purpose purpose)
{
    app->task.is_graded = purpose == FOR_GRADE;
    app->task.is_fill = purpose == FOR_JOB;
    app->task.sight = purpose == FOR_GRADE   ? pb_course_sight(&app->run.config.exercise)
                      : purpose == FOR_GUIDE ? SIGHT_OPEN
                      : purpose == FOR_JOB   ? SIGHT_CLOSED
                                             : app->task.practice_sight;
    app->guiding.guide.is_on = 0;
    if (purpose == FOR_GRADE) {
        run_command(&app->run, PB_COMMAND_MARK, (double)(PB_MARK_GRADED + app->task.sight));
    } else if (purpose == FOR_GUIDE) {
        app->guiding.guide = guide_begin(run_tube_max(&app->run));
        app->run.is_part = 1;
    }
}

/* A fresh run takes the place of the one that was under way, which is kept as far as it went. 0
 * when it cannot be started: that one goes on then, and is recorded on. */
static int replace_run(App *app, const PbSessionConfig *config)
{
    PbError err = {0};
    char why[600];
    Run *next = calloc(1, sizeof *next);
    if (next == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "there is not enough memory");
    }
    if (next == NULL || run_start(next, config, &err) != PB_OK) {
        free(next);
        app_notice(app, _("This exercise cannot be started"), err.message, 0, 20);
        return 0;
    }
    if (!records_run_end(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: %s\n", why);
    }
    run_free(&app->run);
    app->run = *next;
    free(next);
    app_take_climate(app);
    fresh_hands(app);
    return 1;
}

static void begin(App *app, const PbSessionConfig *config, Purpose purpose)
{
    char why[600];
    int is_other = app->run.watched.session == NULL ||
                   strcmp(app->run.config.exercise.id, config->exercise.id) != 0;
    if (!replace_run(app, config)) {
        return;
    }
    take_checks(app, is_other || purpose == FOR_GUIDE);
    take_purpose(app, purpose);
    int is_timed = app->options.bench_frames > 0; /* hands of the bench are nobody's run */
    if (purpose == FOR_GUIDE) {
        records_run_watch(&app->records, &app->run);
    } else if (!is_timed && !records_run_begin(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: this run is not on the disk until it is over: %s\n", why);
        app_notice(app, _("Recorded in memory only"), why, 0, 8);
    }
    app_go(app, SCREEN_BAY);
}

/* The checks of before hold for each bay of a job, and the crew has made its own. */
static void fill(App *app, const AppAsk *ask)
{
    unsigned ticked = app->task.safety_ticked;
    int is_seen = app->task.is_fill && app->task.cautions_seen;
    begin(app, &ask->config, FOR_JOB);
    if (app->run.watched.session == NULL || app->run.config.seed != ask->config.seed) {
        return;
    }
    app->task.safety_ticked = is_seen ? ticked : app->task.safety_ticked;
    app->task.cautions_seen |= is_seen || ask->is_crew;
    app->run.is_crew = ask->is_crew;
    app->run.crew = ask->crew;
}

static void run_for(App *app, const PbExercise *e, Purpose purpose)
{
    PbSessionConfig config = pb_session_default();
    PbError err = {0};
    char line[1024];
    config.exercise = *e;
    config.seed = app_seed(app);
    if (io_exercise_constants(e, &config.constants, &err) != PB_OK) {
        io_error_line(&err, line, sizeof line);
        app_notice(app, _("This exercise cannot be started"), line, 0, 20);
        return;
    }
    begin(app, &config, purpose);
}

/* Hands, checks and sight as the record says they were when the run was left. */
static void take_up(App *app, const PbRunFile *file)
{
    int sight = pb_run_graded_sight(file);
    app->task.is_graded = sight >= 0;
    app->task.is_fill = app->turn.ask.is_fill;
    app->task.sight = app->task.is_graded ? sight
                      : app->task.is_fill ? SIGHT_CLOSED
                                          : app->task.practice_sight;
    app->guiding.guide.is_on = 0;
    app->task.cautions_seen = 0;
    app->task.safety_ticked = 0u;
    for (int i = 0; i < file->command_count; i++) {
        const PbCommand *c = &file->commands[i].command;
        unsigned bits = (unsigned)(int)(c->value - PB_MARK_CHECKLIST);
        if (c->kind != PB_COMMAND_MARK) {
            continue;
        }
        app->task.safety_skipped +=
            pb_mark_checks_skipped(c->value) + pb_mark_is_power_on(c->value);
        if (c->value >= PB_MARK_CHECKLIST && bits < 1u << SAFETY_POINTS) {
            app->task.cautions_seen = 1;
            app->task.safety_ticked = bits;
        }
    }
    run_command(&app->run, PB_COMMAND_TUBE_RATE, 0.0); /* no key is held any more */
}

static void go_on(App *app, int64_t id, const PbRunFile *file)
{
    char why[600] = "";
    PbSessionConfig config = pb_session_default();
    config.exercise = file->exercise;
    config.constants = file->constants;
    config.seed = file->seed;
    config.cells_across = file->cells_across;
    if (!replace_run(app, &config)) {
        return;
    }
    if (!records_run_go_on(&app->records, &app->run, id, file, why, sizeof why)) {
        run_free(&app->run);
        app_notice(app, _("This run cannot be gone on with"), why, 0, 20);
        return;
    }
    take_up(app, file);
    app_go(app, SCREEN_BAY);
}

static void go_on_with(App *app, int64_t id)
{
    PbError err = {0};
    PbRunFile file;
    void *bytes;
    size_t size;
    PbStatus status = store_run_bytes(app->records.store, id, &bytes, &size, &err);
    if (status == PB_OK) {
        status = io_run_decode("run", bytes, size, &file, &err);
        free(bytes);
    }
    if (status != PB_OK) {
        app_notice(app, _("This run cannot be gone on with"), err.message, 0, 20);
        return;
    }
    go_on(app, id, &file);
    io_run_free(&file);
}

/* The plain bay with the hole under the plate: half of it takes a minute. */
static void run_guide(App *app)
{
    PbExercise e = pb_exercise_default();
    PbError err = {0};
    char path[700];
    if (app_find(&app->options, "exercises/plain-2x4-high.json", path, sizeof path) &&
        io_exercise_load(path, &e, &err) != PB_OK) {
        e = pb_exercise_default();
    }
    run_for(app, &e, FOR_GUIDE);
    if (app->guiding.guide.is_on) {
        app->cards.cautions_open = 1;
        app->turn.focus_next = ID_CARD_OK;
    }
}

void app_carry_out(App *app)
{
    AskKind kind = app->turn.ask.kind;
    app->turn.ask.kind = ASK_NOTHING;
    switch (kind) {
    case ASK_NOTHING:
        break;
    case ASK_PRACTICE:
        run_for(app, &app->turn.ask.exercise, FOR_PRACTICE);
        break;
    case ASK_GRADED:
        run_for(app, &app->turn.ask.exercise, FOR_GRADE);
        break;
    case ASK_GUIDE:
        run_guide(app);
        break;
    case ASK_AGAIN:
        begin(app, &app->run.config, app->task.is_graded ? FOR_GRADE : FOR_PRACTICE);
        break;
    case ASK_FILL:
        fill(app, &app->turn.ask);
        break;
    case ASK_GO_ON:
        go_on_with(app, app->turn.ask.id);
        break;
    }
}

void app_open_file(App *app, const char *path)
{
    PbError err = {0};
    char line[1024];
    PbExercise e;
    size_t length = strlen(path);
    if (length > 3 && strcmp(path + length - 3, ".db") == 0) {
        merge_card_begin(app, path);
        return;
    }
    if (io_exercise_load(path, &e, &err) != PB_OK) {
        io_error_line(&err, line, sizeof line);
        snprintf(app->cards.says, sizeof app->cards.says, "%.399s", line);
        if (app->cards.open != CARD_FILE) {
            app_notice(app, _("This file is no exercise"), line, 0, 20);
        }
        return;
    }
    app_card_open(app, CARD_NONE);
    app_ask(app, ASK_PRACTICE, &e, 0);
}
