/* One frame: events, each answered by a layout of the screen; simulated time; the screen into a
 * draw list, the draw list onto the window. How long a frame took is measured here and nowhere
 * else. */
#include "shell/health.h"
#include "shell/shell.h"

#include "os/signal.h"

#include <math.h>
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

/* Whether a widget answered, so that what is on the screen is no longer what is so. */
static int lay(App *app)
{
    Ui *ui = app->ui;
    app->laid->text_scale = fmin(app->taste.text_scale, app_text_most(app));
    app->laid->mark_count = 0;
    app->laid->band_need = 1;
    app->laid->bay = app->laid->look = (GfxRect){0, 0, 0, 0};
    if (app->turn.focus_next >= 0) {
        ui->focus = app->turn.focus_next;
        app->turn.focus_next = -1;
    }
    ui->modal = app->cards.cautions_open || app->cards.keys_open ? ID_CARD
                : app->cards.open != CARD_NONE                   ? ID_OVER
                                                                 : 0;
    ui_begin(ui, (float)app->win.width, (float)app->win.height,
             (float)(app->laid->text_scale * app->win.display_scale));
    const Screen *screen = screen_of(app->turn.screen);
    page_begin(app, &app->pages.room, screen->least_px * ui->scale);
    screen->lay(app);
    page_end(app);
    if (!app_is_covered(app)) {
        app->pages.card = (Page){0};
    } else {
        page_begin(app, &app->pages.card, (float)app->win.height);
        cards_draw(app);
        page_end(app);
    }
    ui_end(ui);
    if (ui->answer_count > 0) {
        app_band_answer(app);
        cards_answer(app);
        if (screen->answer != NULL) {
            screen->answer(app);
        }
    }
    if (ui->copied[0] != '\0') {
        (void)SDL_SetClipboardText(ui->copied);
        ui->copied[0] = '\0';
    }
    return ui->answer_count > 0;
}

static int page_fits(const Page *p)
{
    return fabsf(p->want - p->more) < 1.0f;
}

/* What a widget answered shows at once, and a top band or a page that turns out to need more room,
 * or less, has it at once. */
static void draw(App *app)
{
    int must = lay(app);
    for (int again = 0; again < 3; again++) { /* the first gives the second its true height */
        if (!must && app->laid->band_need == app->pages.band_rows && page_fits(&app->pages.room) &&
            page_fits(&app->pages.card)) {
            return;
        }
        app->pages.band_rows = app->laid->band_need;
        app->pages.room.more = app->pages.room.want;
        app->pages.card.more = app->pages.card.want;
        must = lay(app);
    }
}

static GfxFieldData field_now(App *app)
{
    const Screen *screen = screen_of(app->turn.screen);
    return screen->field != NULL ? screen->field(app) : (GfxFieldData){0};
}

static void show(App *app)
{
    GfxFieldData field = field_now(app);
    render_frame(app->win.render, app->win.width, app->win.height, app->ui->theme->paper,
                 &app->ui->list, ui_text_atlas(app->win.text),
                 field.density != NULL ? &field : NULL);
    if (app->program.want_shot) {
        app->program.want_shot = 0;
        if (!shot_write(app, app->program.shot_name)) {
            fprintf(stderr, "pullback: the picture %s cannot be written\n", app->program.shot_name);
            app->program.exit_code = app->program.exit_code ? app->program.exit_code : APP_IO;
        }
    }
    SDL_GL_SwapWindow(app->win.window);
}

int app_frame(App *app, double dt_s)
{
    SDL_Event event;
    int events = 0;
    if (end_wanted) {
        end_wanted = 0;
        SDL_PushEvent(&(SDL_Event){.type = SDL_QUIT});
    }
    screens_turn(app);
    for (; SDL_PollEvent(&event); events++) {
        app_input_event(app, &event);
    }
    app->program.now_s += dt_s;
    const Screen *screen = screen_of(app->turn.screen);
    if (screen->update != NULL) {
        screen->update(app, dt_s);
    }
    settings_watch(app);
    merge_card_work(app);
    sound_frame(app);
    if (dump_wanted) {
        dump_wanted = 0;
        if (app->options.dump[0] && !dump_write(app, app->options.dump)) {
            fprintf(stderr, "pullback: the state cannot be written to %s\n", app->options.dump);
        }
    }
    return events;
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
    for (long frame = 0; app->program.is_running && script_step(script, app); frame++) {
        uint64_t start = SDL_GetPerformanceCounter();
        app_frame(app, 1.0 / 60.0);
        int is_shown = app->program.want_shot || frame % script_every(script) == 0;
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
    return app->program.exit_code;
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
    os_on_question(on_usr1);
    os_on_hangup(on_hangup);
}

/* The picture, when it is another than the one on the window or somebody did something (a window
 * that was covered asks for its picture by an event). Returns nonzero when it was drawn. */
static int show_news(App *app, Still *still, int events)
{
    GfxFieldData field = field_now(app);
    int is_new = still_changed(still, app, &field);
    if (!is_new && events == 0 && !app->program.want_shot) {
        return 0;
    }
    show(app);
    return 1;
}

int app_loop(App *app)
{
    app->program.is_running = 1;
    if (app->options.script[0] != '\0') {
        return run_script(app);
    }
    Still still = {0};
    double f = (double)SDL_GetPerformanceFrequency(), typical = 0.008;
    uint64_t last = SDL_GetPerformanceCounter();
    while (app->program.is_running) {
        uint64_t start = SDL_GetPerformanceCounter();
        double dt = (double)(start - last) / f;
        last = start;
        int events = app_frame(app, dt > 0.25 ? 0.25 : dt);
        draw(app);
        int is_shown = show_news(app, &still, events);
        int rest_ms = still_rest_ms(&still, app, is_shown, events > 0);
        if (rest_ms > 0) {
            uint64_t from = SDL_GetPerformanceCounter();
            still_rest(app, rest_ms);
            if (rest_ms == STILL_LOOK_MS) { /* nothing moved meanwhile, and nothing leaps now */
                app->program.now_s += since_s(from);
                last = SDL_GetPerformanceCounter();
            }
            continue;
        }
        double work = since_s(start);
        if (is_shown) {
            health_frame(1000.0 * work);
            typical += (work - typical) * 0.02;
        }
        /* A machine that cannot hold 60 frames shows 30 even ones instead of a stutter. */
        pace(start, typical > 0.0155 ? 1.0 / 30.0 : 1.0 / 60.0);
    }
    return app->program.exit_code;
}
