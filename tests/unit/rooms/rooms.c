#include "rooms.h"

#include "door/door.h"
#include "shell/shell.h"

#include "core/hands.h"
#include "core/hash.h"
#include "io/exercise_file.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static Ui ui;
static AppLaid laid;
static AppFigures figures;
static Bay bay;
static Door door;
static App app_now;

static void letters(App *app)
{
    char why[600] = "", regular[700], bold[700];
    ck_assert(app_find(&app->options, "fonts/B612-Regular.otf", regular, sizeof regular));
    ck_assert(app_find(&app->options, "fonts/B612-Bold.otf", bold, sizeof bold));
    app->win.text = ui_text_create(regular, bold, why, sizeof why);
    ck_assert_msg(app->win.text != NULL, "%s", why);
    ui_init(app->ui, app->win.text, ui_theme(0));
}

App *rooms_open(void)
{
    App *app = &app_now;
    *app = (App){.ui = &ui, .laid = &laid, .figures = &figures, .bay = &bay, .door = &door};
    memset(&laid, 0, sizeof laid);
    memset(&bay, 0, sizeof bay);
    memset(&door, 0, sizeof door);
    bay.wax_pressure_pa = bay.wax_feed = bay.wax_pitch = bay.wax_pulse = -1.0;
    bay.tube_want_m = -1.0;
    bay.clear_asked_s = -100.0;
    app->turn.go_to = app->turn.focus_next = -1;
    app->run.config = pb_session_default();
    app->run.config.exercise = pb_exercise_default();
    app->keymap = keymap_default(KEYS_BOTH);
    app->program.now_s = 1.0;
    letters(app);
    app_language(app, WORDS_ENGLISH);
    rooms_view(app, 1280, 800, 1.0, WORDS_ENGLISH);
    return app;
}

void rooms_close(App *app)
{
    screens_close(app);
    run_free(&app->run);
    exercises_free(&app->exercises);
    ui_free(app->ui);
    ui_text_destroy(app->win.text);
}

static void work(App *app, const PbHands *hands, PbHandsState *state)
{
    Run *run = &app->run;
    run->queued = pb_hands_next(hands, state, run->view, run->queue);
    run_tick(run);
}

void rooms_run(App *app, const char *exercise, double seconds, int is_finished)
{
    char path[700], name[120];
    PbError err = {0};
    PbSessionConfig config = pb_session_default();
    snprintf(name, sizeof name, "exercises/%s.json", exercise);
    ck_assert(app_find(&app->options, name, path, sizeof path));
    ck_assert_msg(io_exercise_load(path, &config.exercise, &err) == PB_OK, "%s", err.message);
    ck_assert_msg(run_start(&app->run, &config, &err) == PB_OK, "%s", err.message);
    PbHands hands = pb_hands_default();
    PbHandsState state = {0};
    while (app->run.view->time_s < seconds && app->run.view->phase == PB_PHASE_WORKING) {
        work(app, &hands, &state);
    }
    app->run.queued = 0;
    if (is_finished) {
        run_command(&app->run, PB_COMMAND_MACHINE, 0.0);
        run_command(&app->run, PB_COMMAND_FINISH, 0.0);
    }
    for (int i = 0; is_finished && !app->run.watched.has_score; i++) {
        ck_assert_int_lt(i, 20000);
        run_tick(&app->run);
    }
}

void rooms_go(App *app, AppScreen screen)
{
    app_go(app, screen);
    screens_turn(app);
    ck_assert_int_eq(app->turn.screen, screen);
}

void rooms_view(App *app, int width, int height, double text_scale, int lang)
{
    app->win.width = width;
    app->win.height = height;
    app->win.display_scale = 1.0;
    app->taste.text_scale = text_scale;
    if (lang != app->taste.lang) {
        app_language(app, lang);
    }
}

/* What a layout has left: the words of it and every corner. */
static uint64_t picture(const App *app)
{
    const GfxDrawList *l = &app->ui->list;
    uint64_t h = pb_hash_bytes(PB_HASH_START, l->vertices, l->vertex_count * sizeof *l->vertices);
    h = pb_hash_bytes(h, l->indices, l->index_count * sizeof *l->indices);
    return pb_hash_bytes(h, l->text, 4u * l->quad_count * sizeof *l->text);
}

/* The state of all rooms as far as it is no product of a layout. */
static void same_state(const App *app, const App *before, const Bay *bay_before)
{
    static App now;
    now = *app;
    now.pages = before->pages;
    ck_assert_mem_eq(&now, before, sizeof now);
    ck_assert_mem_eq(app->bay, bay_before, sizeof *bay_before);
}

/* Pages and the band find their height in a few frames: a room may get narrower as it grows. */
static void settle(App *app, const char *what)
{
    uint64_t last = 0, now = 1;
    for (int i = 0; now != last; i++) {
        ck_assert_msg(i < 8, "%s: never twice the same", what);
        last = now;
        app_lay_out(app);
        now = picture(app);
    }
}

/* What a plate that is laid over the room covers, or its button crosses, is no fault. */
static int faults_but_covered(const char *faults)
{
    int n = 0;
    for (const char *line = faults; *line != '\0'; line = strchr(line, '\n') + 1) {
        n += strncmp(line, "  covered:", 10) != 0 && strncmp(line, "  across a control", 18) != 0;
    }
    return n;
}

static double legible_in(App *app, const char *what, int is_laid_over)
{
    static char faults[16000];
    static App before;
    static Bay bay_before;
    settle(app, what);
    uint64_t first = picture(app);
    int resets = ui_text_resets(app->win.text);
    before = *app;
    bay_before = *app->bay;
    clock_t from = clock();
    app_lay_out(app);
    double took_s = (double)(clock() - from) / CLOCKS_PER_SEC;
    same_state(app, &before, &bay_before);
    ck_assert_msg(resets != ui_text_resets(app->win.text) || picture(app) == first,
                  "%s: a second layout draws something else", what);
    ui_legible_start(app->ui, (float)UI_LEAST_PX * app->ui->scale);
    app_lay_out(app);
    int n = ui_legible_faults(app->ui, faults, sizeof faults);
    ui_legible_stop(app->ui);
    n = is_laid_over && n > 0 ? faults_but_covered(faults) : n;
    ck_assert_msg(n == 0, "%s: %d cannot be read whole\n%s", what, n, faults);
    return took_s;
}

/* A sanitized layout takes ten times as long: of its views every seventh is taken, by which each
 * size, text, language and unit has its turn. What can be read is the business of the plain build.
 */
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
enum { EACH = 7 };
#else
enum { EACH = 1 };
#endif
#elif defined(__SANITIZE_ADDRESS__)
enum { EACH = 7 };
#else
enum { EACH = 1 };
#endif

static void all_legible(App *app, const char *state, int is_laid_over)
{
    static const int sizes[3][2] = {{1024, 700}, {1280, 800}, {1920, 1080}};
    AppWindow win = app->win;
    AppTaste taste = app->taste;
    Bay kept = *app->bay; /* one view may give up a tab that the next offers */
    double all_s = 0.0;
    int count = 0;
    for (int i = 0; i < 3 * 5 * 2 * words_language_count; i += EACH, count++) {
        const int *size = sizes[i % 3];
        *app->bay = kept;
        int scale = 100 + 25 * (i / 3 % 5);
        char what[200];
        app->taste.is_us = i / 15 % 2;
        rooms_view(app, size[0], size[1], scale / 100.0, i / 30);
        snprintf(what, sizeof what, "%s, %dx%d at %d %%, %s, %s", state, size[0], size[1], scale,
                 words_languages[i / 30].name, app->taste.is_us ? "US" : "SI");
        all_s += legible_in(app, what, is_laid_over);
    }
    app->win = win;
    *app->bay = kept;
    app_language(app, taste.lang);
    app->taste = taste;
    printf("%s: %d layouts, %.2f ms each\n", state, count, 1000.0 * all_s / count);
    ck_assert_msg(all_s / count < 0.1, "%s: %.1f ms a layout", state, 1000.0 * all_s / count);
}

void rooms_all_legible(App *app, const char *state)
{
    all_legible(app, state, 0);
}

void rooms_all_legible_laid_over(App *app, const char *state)
{
    all_legible(app, state, 1);
}

static void mouse(App *app, Uint32 type, GfxRect r, double across, double down)
{
    SDL_Event e = {.type = type};
    int x = (int)(r.x + r.w * (float)across), y = (int)(r.y + r.h * (float)down);
    if (type == SDL_MOUSEMOTION) {
        e.motion.x = x;
        e.motion.y = y;
    } else {
        e.button.button = SDL_BUTTON_LEFT;
        e.button.clicks = 1;
        e.button.x = x;
        e.button.y = y;
    }
    app_input_event(app, &e);
}

void rooms_press(App *app, const char *mark, double across, double down)
{
    app_lay_out(app);
    const AppMark *m = app_mark_find(app, mark);
    ck_assert_msg(m != NULL, "there is no %s", mark);
    GfxRect r = m->rect;
    mouse(app, SDL_MOUSEMOTION, r, across, down);
    mouse(app, SDL_MOUSEBUTTONDOWN, r, across, down);
    mouse(app, SDL_MOUSEBUTTONUP, r, across, down);
    app_lay_out(app);
}

void rooms_key(App *app, SDL_Keycode key)
{
    SDL_Event e = {.type = SDL_KEYDOWN};
    e.key.keysym.sym = key;
    app_input_event(app, &e);
    e.type = SDL_KEYUP;
    app_input_event(app, &e);
    app_lay_out(app);
}

int rooms_says(App *app, const char *text)
{
    static char words[60000];
    ui_legible_start(app->ui, 0.0f);
    app_lay_out(app);
    ui_legible_words(app->ui, words, sizeof words);
    ui_legible_stop(app->ui);
    return strstr(words, text) != NULL;
}
