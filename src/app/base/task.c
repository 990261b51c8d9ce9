/* The run at hand: its name and lesson, how far it is, and the way to another one. */
#include "base/app.h"

#include "core/hash.h"
#include "io/clock.h"

#include <math.h>

/* The shell begins the run before the next frame, or tells why it cannot and changes nothing. */
void app_ask(App *app, AskKind kind, const PbExercise *e, int64_t id)
{
    app->turn.ask.kind = kind;
    app->turn.ask.id = id;
    app->turn.ask.is_fill = 0;
    if (e != NULL) {
        app->turn.ask.exercise = *e;
    }
}

void app_ask_fill_on(App *app, int64_t id)
{
    app_ask(app, ASK_GO_ON, NULL, id);
    app->turn.ask.is_fill = 1;
}

void app_ask_fill(App *app, const PbSessionConfig *config, const PbJobWorker *crew)
{
    AppAsk *ask = &app->turn.ask;
    app_ask(app, ASK_FILL, NULL, 0);
    ask->config = *config;
    ask->is_crew = crew != NULL;
    if (crew != NULL) {
        ask->crew = *crew;
    }
}

uint64_t app_seed(const App *app)
{
    struct timespec t = io_clock_after(0.0);
    uint64_t dice = (uint64_t)t.tv_nsec ^ ((uint64_t)t.tv_sec << 30) ^ ((uint64_t)io_now() << 20);
    return app->options.seed != 0 ? app->options.seed
                                  : 1 + pb_hash_bytes(PB_HASH_START, &dice, sizeof dice) % 999999;
}

void app_go(App *app, AppScreen to)
{
    app->turn.go_to = (int)to;
}

int app_has_run(const App *app)
{
    return app->run.watched.session != NULL && !app->run.watched.has_score;
}

static int is_untold(const App *app)
{
    return app->task.is_graded && app_has_run(app);
}

const char *app_bay_title(const App *app)
{
    return is_untold(app) ? _("Graded run") : _(app->run.config.exercise.title);
}

const char *app_bay_lesson(const App *app)
{
    const char *lesson = app->run.config.exercise.teaches;
    return lesson[0] == '\0' ? ""
           : is_untold(app)  ? _("What this bay is, and what it teaches, comes with the result.")
                             : app_said(app, _(lesson));
}

int guide_is_done(const App *app)
{
    return app->guiding.guide.is_on && app->guiding.guide.step == GUIDE_DONE;
}

double app_shown_s(const App *app)
{
    return app->taste.is_still ? floor(app->program.now_s * 4.0) / 4.0 : app->program.now_s;
}

void guide_first_exercise(App *app)
{
    if (app->exercises.count > 0) { /* they stand in the order of the course */
        app_ask(app, ASK_PRACTICE, &app->exercises.rows[0].exercise, 0);
    } else {
        app_go(app, SCREEN_DOOR);
    }
}

int app_is_covered(const App *app)
{
    return app->cards.cautions_open || app->cards.keys_open || app->cards.open != CARD_NONE;
}
