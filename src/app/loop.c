/* One frame: events, simulated time, the screen into a draw list, the draw list onto the window.
 * The wall clock is read here and nowhere else. */
#include "app.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static volatile sig_atomic_t dump_wanted;

static void on_usr1(int number)
{
    (void)number;
    dump_wanted = 1;
}

void app_mark(App *app, const char *name, GfxRect rect)
{
    if (app->mark_count < APP_MAX_MARKS) {
        AppMark *m = &app->marks[app->mark_count++];
        snprintf(m->name, sizeof m->name, "%s", name);
        m->rect = rect;
    }
}

const AppMark *app_mark_find(const App *app, const char *name)
{
    for (int i = 0; i < app->mark_count; i++) {
        if (strcmp(app->marks[i].name, name) == 0) {
            return &app->marks[i];
        }
    }
    return NULL;
}

void app_notice(App *app, const char *title, const char *text, int is_danger, double seconds)
{
    snprintf(app->notice.title, sizeof app->notice.title, "%s", title);
    snprintf(app->notice.text, sizeof app->notice.text, "%s", text);
    app->notice.is_danger = is_danger;
    app->notice.until_s = app->now_s + seconds;
}

/* Events of the run that people should be told in words; the rest is for gauges and ears. */
static void tell(App *app, const PbEvent *e)
{
    char line[160];
    switch (e->kind) {
    case PB_EVENT_PLUG:
        app_notice(app, _("The hose is plugged"),
                   _("Clear it: stop, open the hose, lose its material."), 0, 1e9);
        break;
    case PB_EVENT_PLUG_CLEARED:
        app_notice(app, _("Hose cleared"),
                   _("Switch on again. Pull back sooner after the flow falls."), 0, 6);
        break;
    case PB_EVENT_BLOW_OUT:
        snprintf(line, sizeof line, _("Face gave way at %s"), app_fmt_length(app, e->y_m));
        app_notice(app, line, _("Machine off. The run has ended."), 1, 1e9);
        break;
    case PB_EVENT_CREAK:
        app_notice(app, _("The face creaks"), _("Pull back or turn the blower down."), 0, 3);
        break;
    case PB_EVENT_FEED_OUTSIDE:
        app_notice(app, _("Blowing outside the bay"), _("Push the tube in or switch off."), 0, 3);
        break;
    case PB_EVENT_BLOW_BACK:
        app_notice(app, _("Blow-back at the hole"),
                   _("Switch off and let the pressure bleed before the tube comes out."), 0, 5);
        break;
    case PB_EVENT_RUNAWAY:
        app_notice(app, _("Fill is leaving the bay"),
                   _("Look for an open place and close it first."), 0, 4);
        break;
    case PB_EVENT_TURN_REFUSED:
        app_notice(app, _("Too far in to turn"), _("Pull the tube back to the hole, then turn it."),
                   0, 4);
        break;
    default:
        break;
    }
}

static void take_events(App *app)
{
    for (int i = 0; i < app->run.event_count; i++) {
        tell(app, &app->run.events[i]);
    }
    app->run.event_count = 0;
    if (app->run.has_result && app->screen == SCREEN_BAY) {
        app->screen = SCREEN_RESULT;
        app->ui.focus = 0;
    }
    if (app->run.status < 0) {
        fprintf(stderr, "pullback: the simulation broke off: %s\n",
                pb_status_name(app->run.status));
        app->exit_code = APP_TROUBLE;
        app->is_running = 0;
    }
}

static void shake_pad(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    if (app->pad != NULL && app->now_s - app->last_rumble_s > 0.1) {
        app->last_rumble_s = app->now_s;
        double low = s->machine_on && !app->is_paused ? 0.6 * s->hose_pulse : 0.0;
        double high = s->machine_on && !app->is_paused ? 0.4 * s->rattle : 0.0;
        SDL_GameControllerRumble(app->pad, (uint16_t)(low * 65535.0), (uint16_t)(high * 65535.0),
                                 200);
    }
}

static void draw(App *app)
{
    Ui *ui = &app->ui;
    app->mark_count = 0;
    app->bay = app->look = (GfxRect){0, 0, 0, 0};
    ui->modal = app->cautions_open ? ID_CARD : 0;
    ui_begin(ui, (float)app->width, (float)app->height,
             (float)(app->text_scale * app->display_scale));
    if (app->screen == SCREEN_BAY) {
        scr_bay_draw(app);
    } else {
        scr_result_draw(app);
    }
    if (app->cautions_open) {
        app_card_draw(app);
    }
    ui_end(ui);
}

static void show(App *app)
{
    GfxFieldData field = run_field(&app->run);
    render_frame(app->render, app->width, app->height, app->ui.theme->paper, &app->ui.list,
                 ui_text_atlas(app->text), &field);
    if (app->want_shot) {
        app->want_shot = 0;
        if (!shot_write(app, app->shot_name)) {
            fprintf(stderr, "pullback: the picture %s cannot be written\n", app->shot_name);
            app->exit_code = app->exit_code ? app->exit_code : APP_IO;
        }
    }
    SDL_GL_SwapWindow(app->window);
}

void app_frame(App *app, double dt_s)
{
    SDL_Event event;
    while (SDL_PollEvent(&event)) {
        app_input_event(app, &event);
    }
    app->now_s += dt_s;
    app_input_held(app, dt_s);
    if (!app->is_paused && !app->cautions_open) {
        double speed = app->options.speed;
        run_advance(&app->run, dt_s * speed, (int)(RUN_MAX_STEPS * speed));
    }
    if (app->run.dropped_s > app->dropped_seen_s + 0.1) {
        app->slow_until_s = app->now_s + 2.0;
    }
    app->dropped_seen_s = app->run.dropped_s;
    take_events(app);
    double lag = dt_s / (0.060 + dt_s);
    app->needle_pa += (app->run.view->signals.blower_pa - app->needle_pa) * lag;
    shake_pad(app);
    if (dump_wanted) {
        dump_wanted = 0;
        if (app->options.dump[0] && !dump_write(app, app->options.dump)) {
            fprintf(stderr, "pullback: the state cannot be written to %s\n", app->options.dump);
        }
    }
}

static int run_script(App *app)
{
    char why[300];
    Script *script = script_load(app->options.script, why, sizeof why);
    if (script == NULL) {
        fprintf(stderr, "pullback: %s\n", why);
        return APP_USAGE;
    }
    draw(app);
    for (long frame = 0; app->is_running && script_step(script, app); frame++) {
        app_frame(app, 1.0 / 60.0);
        draw(app);
        if (app->want_shot || frame % script_every(script) == 0) {
            show(app);
        }
    }
    script_free(script);
    return app->exit_code;
}

/* Wait for the rest of a frame; the swap does not wait everywhere. */
static void pace(uint64_t frame_start, double target_s)
{
    double f = (double)SDL_GetPerformanceFrequency();
    double left = target_s - (double)(SDL_GetPerformanceCounter() - frame_start) / f;
    if (left > 0.001) {
        SDL_Delay((uint32_t)(left * 1000.0));
    }
}

void app_draw_and_show(App *app)
{
    draw(app);
    show(app);
}

int app_loop(App *app)
{
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = on_usr1;
    sigaction(SIGUSR1, &action, NULL);
    app->is_running = 1;
    if (app->options.script[0] != '\0') {
        return run_script(app);
    }
    double f = (double)SDL_GetPerformanceFrequency(), typical = 0.008;
    uint64_t last = SDL_GetPerformanceCounter();
    while (app->is_running) {
        uint64_t start = SDL_GetPerformanceCounter();
        double dt = (double)(start - last) / f;
        last = start;
        app_frame(app, dt > 0.25 ? 0.25 : dt);
        draw(app);
        show(app);
        double work = (double)(SDL_GetPerformanceCounter() - start) / f;
        typical += (work - typical) * 0.02;
        /* A machine that cannot hold 60 frames shows 30 even ones instead of a stutter. */
        pace(start, typical > 0.0155 ? 1.0 / 30.0 : 1.0 / 60.0);
    }
    return app->exit_code;
}
