/* The window and its context, and one clear sentence when the machine cannot give them. */
#include "shell/shell.h"

#include "os/process.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int sorry(const char *what, const char *detail)
{
    char line[800];
    snprintf(line, sizeof line, "%s%s%s", what, detail[0] ? ": " : "", detail);
    fprintf(stderr, "pullback: %s\n", line);
    os_show("Pullback", line);
    SDL_Quit();
    return APP_TROUBLE;
}

/* With nothing to show a window on, asking SDL all the same only makes its libraries complain in
 * words of their own. */
static int is_display_named(void)
{
    const char *asked = getenv("SDL_VIDEODRIVER");
    return os_has_display() || (asked != NULL && asked[0] != '\0');
}

/* When it finds no display SDL quietly picks a driver that shows nothing. */
static int has_screen(void)
{
    const char *driver = SDL_GetCurrentVideoDriver();
    const char *asked = getenv("SDL_VIDEODRIVER");
    if (driver == NULL) {
        return 0;
    }
    int is_hidden = strcmp(driver, "offscreen") == 0 || strcmp(driver, "dummy") == 0 ||
                    strcmp(driver, "evdev") == 0;
    return !is_hidden || (asked != NULL && strcmp(asked, driver) == 0);
}

static void ask_for_gl33(void)
{
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 3);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_CORE);
    SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
    SDL_GL_SetAttribute(SDL_GL_DOUBLEBUFFER, 1);
}

void app_window_measure(App *app)
{
    int w = 0, h = 0, points = 0, tall = 0;
    SDL_GL_GetDrawableSize(app->win.window, &w, &h);
    SDL_GetWindowSize(app->win.window, &points, &tall);
    app->win.width = w;
    app->win.height = h;
    app->win.display_scale = points > 0 ? (double)w / points : 1.0;
}

static void open_pad(App *app)
{
    for (int i = 0; i < SDL_NumJoysticks() && app->win.pad == NULL; i++) {
        if (SDL_IsGameController(i)) {
            app->win.pad = SDL_GameControllerOpen(i);
        }
    }
}

int app_window_open(App *app)
{
    const AppOptions *o = &app->options;
    char why[600], regular[600], bold[600];
    SDL_SetHint(SDL_HINT_WINDOWS_DPI_SCALING, "1"); /* points and pixels apart there too */
    SDL_SetHint(SDL_HINT_JOYSTICK_ALLOW_BACKGROUND_EVENTS, "1");
    if (!is_display_named() || SDL_Init(SDL_INIT_VIDEO) != 0 || !has_screen()) {
        return sorry("there is no display to open a window on; start it from a desktop session",
                     "");
    }
    if (SDL_InitSubSystem(SDL_INIT_GAMECONTROLLER) != 0) {
        fprintf(stderr, "pullback: no game controller support here; mouse and keys work\n");
    }
    ask_for_gl33();
    app->win.window = SDL_CreateWindow(
        "Pullback", SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, o->width, o->height,
        SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    app->win.context = app->win.window != NULL ? SDL_GL_CreateContext(app->win.window) : NULL;
    if (app->win.context == NULL) {
        snprintf(why, sizeof why, "%s", SDL_GetError());
        app_window_close(app);
        return sorry("this computer offers no OpenGL 3.3, which the window needs", why);
    }
    /* Not to be pulled smaller than the rooms are laid out for, unless --size asked for less. */
    SDL_SetWindowMinimumSize(app->win.window, SDL_min(o->width, 900), SDL_min(o->height, 600));
    app->win.render = render_create(why, sizeof why);
    if (app->win.render == NULL) {
        app_window_close(app);
        return sorry(why, "");
    }
    if (!app_find(o, "fonts/B612-Regular.otf", regular, sizeof regular) ||
        !app_find(o, "fonts/B612-Bold.otf", bold, sizeof bold)) {
        app_window_close(app);
        return sorry("the font files are missing; give their folder's parent with --data", "");
    }
    app->win.text = ui_text_create(regular, bold, why, sizeof why);
    if (app->win.text == NULL) {
        app_window_close(app);
        return sorry(why, "");
    }
    ui_init(app->ui, app->win.text, ui_theme(app->taste.is_contrast));
    SDL_GL_SetSwapInterval(o->bench_frames > 0 || o->script[0] ? 0 : 1);
    app_window_measure(app);
    open_pad(app);
    return APP_DONE;
}

void app_window_close(App *app)
{
    if (app->win.pad != NULL) {
        SDL_GameControllerClose(app->win.pad);
    }
    ui_free(app->ui);
    ui_text_destroy(app->win.text);
    render_destroy(app->win.render);
    if (app->win.context != NULL) {
        SDL_GL_DeleteContext(app->win.context);
    }
    if (app->win.window != NULL) {
        SDL_DestroyWindow(app->win.window);
    }
    app->win.pad = NULL;
    app->win.text = NULL;
    app->win.render = NULL;
    app->win.context = NULL;
    app->win.window = NULL;
}
