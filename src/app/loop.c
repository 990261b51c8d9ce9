/* One frame: events, each answered by a layout of the screen; simulated time; the screen into a
 * draw list, the draw list onto the window. The wall clock is read here and nowhere else. */
#include "app.h"
#include "health.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static volatile sig_atomic_t dump_wanted, end_wanted;

static void on_usr1(int number)
{
    (void)number;
    dump_wanted = 1;
}

/* The terminal is gone: the window ends as it does on SIGTERM, which SDL turns into a wish to quit,
 * with the run kept and files put in their places. */
static void on_hangup(int number)
{
    (void)number;
    end_wanted = 1;
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
    app->notice_is_hint = app->notice_stands = 0;
    app->notice.until_s = app->now_s + seconds;
}

/* The bay room needs room: in a small window its text is no larger than what leaves the wall its
 * place, and the button for it says so. What the person chose stays chosen. */
static double room_scale(const App *app)
{
    double w = app->width / app->display_scale / 640.0,
           h = app->height / app->display_scale / 400.0;
    double most = fmax(1.0, floor(fmin(w, h) * 20.0) / 20.0);
    return app->screen == SCREEN_BAY ? most : 2.0;
}

static void lay(App *app)
{
    Ui *ui = &app->ui;
    app->mark_count = 0;
    app->band_need = 1;
    app->bay = app->look = (GfxRect){0, 0, 0, 0};
    if (app->focus_next >= 0) {
        ui->focus = app->focus_next;
        app->focus_next = -1;
    }
    ui->modal = app->cautions_open || app->keys_open ? ID_CARD
                : app->card != CARD_NONE             ? ID_OVER
                                                     : 0;
    ui_begin(ui, (float)app->width, (float)app->height,
             (float)(app->text_scale * app->display_scale));
    page_begin(app, &app->page, screen_of(app->screen)->least_px * ui->scale);
    screen_of(app->screen)->draw(app);
    page_end(app);
    if (!app_is_covered(app)) {
        app->card_page = (Page){0};
    } else {
        page_begin(app, &app->card_page, (float)app->height);
        cards_draw(app);
        page_end(app);
    }
    ui_end(ui);
    if (ui->copied[0] != '\0') {
        (void)SDL_SetClipboardText(ui->copied);
        ui->copied[0] = '\0';
    }
}

static int page_fits(const Page *p)
{
    return fabsf(p->want - p->more) < 1.0f;
}

/* A top band or a page that turns out to need more room, or less, is laid out with it at once. */
static void draw_scaled(App *app)
{
    lay(app);
    for (int again = 0; again < 2; again++) { /* the first gives the second its true height */
        if (app->band_need == app->band_rows && page_fits(&app->page) &&
            page_fits(&app->card_page)) {
            return;
        }
        app->band_rows = app->band_need;
        app->page.more = app->page.want;
        app->card_page.more = app->card_page.want;
        lay(app);
    }
}

static void draw(App *app)
{
    double chosen = app->text_scale, most = room_scale(app);
    if (chosen <= most) {
        draw_scaled(app);
        return;
    }
    app->text_scale = most;
    draw_scaled(app);
    if (app->text_scale == most) {
        app->text_scale = chosen;
    } else if (app->text_scale > most && app->card == CARD_NONE) {
        app->text_scale = 1.0; /* the button goes round */
    }
}

static void show(App *app)
{
    const Screen *screen = screen_of(app->screen);
    GfxFieldData field = {0};
    if (screen->field != NULL) {
        field = screen->field(app);
    }
    render_frame(app->render, app->width, app->height, app->ui.theme->paper, &app->ui.list,
                 ui_text_atlas(app->text), field.density != NULL ? &field : NULL);
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
    if (end_wanted) {
        end_wanted = 0;
        SDL_PushEvent(&(SDL_Event){.type = SDL_QUIT});
    }
    screens_turn(app);
    while (SDL_PollEvent(&event)) {
        app_input_event(app, &event);
    }
    app->now_s += dt_s;
    const Screen *screen = screen_of(app->screen);
    if (screen->update != NULL) {
        screen->update(app, dt_s);
    }
    settings_watch(app);
    sound_frame(app);
    if (dump_wanted) {
        dump_wanted = 0;
        if (app->options.dump[0] && !dump_write(app, app->options.dump)) {
            fprintf(stderr, "pullback: the state cannot be written to %s\n", app->options.dump);
        }
    }
}

static double since_s(uint64_t start)
{
    return (double)(SDL_GetPerformanceCounter() - start) / (double)SDL_GetPerformanceFrequency();
}

/* Wait for the rest of a frame; the swap does not wait everywhere. */
static void pace(uint64_t frame_start, double target_s)
{
    double left = target_s - since_s(frame_start);
    if (left > 0.001) {
        SDL_Delay((uint32_t)(left * 1000.0));
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
    screens_turn(app);
    draw(app);
    for (long frame = 0; app->is_running && script_step(script, app); frame++) {
        uint64_t start = SDL_GetPerformanceCounter();
        app_frame(app, 1.0 / 60.0);
        int is_shown = app->want_shot || frame % script_every(script) == 0;
        if (is_shown || !script_only_waits(script, app)) {
            draw(app);
        }
        if (is_shown) {
            show(app);
            health_frame(1000.0 * since_s(start));
        }
        if (script_is_paced(script)) {
            pace(start, 1.0 / 60.0);
        }
    }
    script_free(script);
    return app->exit_code;
}

void app_lay_out(App *app)
{
    draw(app);
}

void app_draw_and_show(App *app)
{
    draw(app);
    show(app);
}

void app_watch_signals(void)
{
    struct sigaction action, now;
    memset(&action, 0, sizeof action);
    action.sa_handler = on_usr1;
    sigaction(SIGUSR1, &action, NULL);
    action.sa_handler = on_hangup;
    if (sigaction(SIGHUP, NULL, &now) == 0 && now.sa_handler == SIG_DFL) {
        sigaction(SIGHUP, &action, NULL);
    }
}

int app_loop(App *app)
{
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
        double work = since_s(start);
        health_frame(1000.0 * work);
        typical += (work - typical) * 0.02;
        /* A machine that cannot hold 60 frames shows 30 even ones instead of a stutter. */
        pace(start, typical > 0.0155 ? 1.0 / 30.0 : 1.0 / 60.0);
    }
    return app->exit_code;
}
