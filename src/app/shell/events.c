/* Events: the shown screen has them first, then the keys that all rooms share, then the widgets.
 * Nothing here knows what a room does. */
#include "shell/shell.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void app_text_size(App *app, double by)
{
    double s = floor((app->taste.text_scale + by) * 20.0 + 0.5) / 20.0;
    app->taste.text_scale = s < 1.0 ? 1.0 : s > 2.0 ? 2.0 : s;
}

static void shot(App *app)
{
    app->program.want_shot = 1;
    SDL_snprintf(app->program.shot_name, sizeof app->program.shot_name, "pullback-%06.0f.png",
                 app->program.now_s * 100.0);
}

static void give_key(App *app, UiKey key, int shift)
{
    ui_take(app->ui, &(UiEvent){.kind = UI_KEY, .key = key, .shift = shift});
}

static void typed(App *app, const char *text)
{
    ui_take(app->ui, &(UiEvent){.kind = UI_TYPE, .text = text});
}

static void paste(App *app)
{
    char *text = SDL_GetClipboardText();
    if (text != NULL) {
        typed(app, text);
        SDL_free(text);
    }
}

/* Keys of widgets; what moves a caret or erases repeats, what chooses does not. */
static void widget_key(App *app, const SDL_KeyboardEvent *k)
{
    static const struct {
        SDL_Keycode key;
        UiKey is;
        int repeats;
    } plain[] = {{SDLK_TAB, UI_KEY_TAB, 0},         {SDLK_LEFT, UI_KEY_LEFT, 1},
                 {SDLK_RIGHT, UI_KEY_RIGHT, 1},     {SDLK_UP, UI_KEY_UP, 1},
                 {SDLK_DOWN, UI_KEY_DOWN, 1},       {SDLK_RETURN, UI_KEY_ENTER, 0},
                 {SDLK_KP_ENTER, UI_KEY_ENTER, 0},  {SDLK_SPACE, UI_KEY_SPACE, 0},
                 {SDLK_BACKSPACE, UI_KEY_ERASE, 1}, {SDLK_DELETE, UI_KEY_ERASE_NEXT, 1},
                 {SDLK_HOME, UI_KEY_HOME, 1},       {SDLK_END, UI_KEY_END, 1},
                 {SDLK_PAGEUP, UI_KEY_PAGE_UP, 1},  {SDLK_PAGEDOWN, UI_KEY_PAGE_DOWN, 1}},
      with_ctrl[] = {{SDLK_a, UI_KEY_ALL, 0}, {SDLK_c, UI_KEY_COPY, 0}, {SDLK_x, UI_KEY_CUT, 0}};
    int shift = (k->keysym.mod & KMOD_SHIFT) != 0, ctrl = (k->keysym.mod & KMOD_CTRL) != 0;
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++) {
        if (plain[i].key == k->keysym.sym && (plain[i].repeats || !k->repeat)) {
            give_key(app, plain[i].is, shift);
        }
    }
    for (size_t i = 0; ctrl && i < sizeof with_ctrl / sizeof with_ctrl[0]; i++) {
        if (with_ctrl[i].key == k->keysym.sym && !k->repeat) {
            give_key(app, with_ctrl[i].is, shift);
        }
    }
}

/* Escape, or B on a controller: what lies over the room goes. */
static void close_cards(App *app)
{
    if (app->cards.keys_open && !app->cards.cautions_open) {
        (void)controls_take_key(app, SDLK_ESCAPE);
        return;
    }
    app->cards.cautions_open = app->cards.on_after_cautions = 0;
    app_card_open(app, CARD_NONE);
}

static void cautions(App *app)
{
    app->cards.cautions_open = !app->cards.cautions_open;
    app->cards.on_after_cautions = 0;
    app->cards.keys_open = 0;
    app_card_open(app, CARD_NONE);
    app->ui->focus = app->turn.focus_next = app->cards.cautions_open ? ID_CARD_OK : 0;
}

/* In the middle of a run a slip of the hand ends nothing: it is asked for twice, at the Door. */
static void ask_to_quit(App *app)
{
    int is_asked =
        app->program.quit_asked_s > 0.0 && app->program.now_s - app->program.quit_asked_s < 6.0;
    if (!app_has_run(app) || !app->run.is_worked || is_asked) {
        app->program.is_running = 0;
        return;
    }
    app->program.quit_asked_s = app->program.now_s;
    app_go(app, SCREEN_DOOR);
    app_notice(app, _("A run is under way"),
               _("Ctrl+Q once more ends the program; the run can be gone on with later."), 0, 6);
}

static void key_down(App *app, const SDL_KeyboardEvent *k)
{
    SDL_Keycode key = k->keysym.sym;
    int ctrl = (k->keysym.mod & KMOD_CTRL) != 0;
    widget_key(app, k);
    if (k->repeat || controls_take_key(app, key)) {
        return;
    }
    if (key == SDLK_F11) {
        shot(app);
    } else if (key == SDLK_F12 && app->options.dump[0]) {
        dump_write(app, app->options.dump);
    } else if (key == SDLK_F1) {
        cautions(app);
    } else if (app->cards.cautions_open && (key == SDLK_F9 || key == SDLK_F10)) {
        return; /* no card goes under the cautions */
    } else if (key == SDLK_F9) {
        app_card_open(app, CARD_NONE);
        controls_open(app);
    } else if (key == SDLK_F10) {
        app->cards.keys_open = 0;
        app_card_open(app, app->cards.open == CARD_SETTINGS ? CARD_NONE : CARD_SETTINGS);
    } else if (ctrl && key == SDLK_q) {
        ask_to_quit(app);
    } else if (ctrl && key == SDLK_v) {
        paste(app);
    } else if (ctrl && (key == SDLK_PLUS || key == SDLK_EQUALS || key == SDLK_KP_PLUS)) {
        app_text_size(app, 0.1);
    } else if (ctrl && (key == SDLK_MINUS || key == SDLK_KP_MINUS)) {
        app_text_size(app, -0.1);
    } else if (key == SDLK_ESCAPE) {
        close_cards(app);
    }
}

static void mouse(App *app, const SDL_Event *e)
{
    if (e->type == SDL_MOUSEMOTION) {
        ui_take(app->ui, &(UiEvent){.kind = UI_MOVE,
                                    .x = (float)app_pixels(app, e->motion.x),
                                    .y = (float)app_pixels(app, e->motion.y)});
    } else if (e->button.button == SDL_BUTTON_LEFT) {
        ui_take(app->ui, &(UiEvent){.kind = e->type == SDL_MOUSEBUTTONDOWN ? UI_PRESS : UI_RELEASE,
                                    .x = (float)app_pixels(app, e->button.x),
                                    .y = (float)app_pixels(app, e->button.y),
                                    .clicks = e->button.clicks,
                                    .shift = (SDL_GetModState() & KMOD_SHIFT) != 0});
    }
}

static void pad_button(App *app, int button)
{
    if (controls_take_pad(app, button)) {
        return;
    }
    if (button == SDL_CONTROLLER_BUTTON_B && app_is_covered(app)) {
        close_cards(app);
    }
    static const int buttons[5][2] = {{SDL_CONTROLLER_BUTTON_A, UI_KEY_ENTER},
                                      {SDL_CONTROLLER_BUTTON_DPAD_UP, UI_KEY_UP},
                                      {SDL_CONTROLLER_BUTTON_DPAD_DOWN, UI_KEY_DOWN},
                                      {SDL_CONTROLLER_BUTTON_DPAD_LEFT, UI_KEY_LEFT},
                                      {SDL_CONTROLLER_BUTTON_DPAD_RIGHT, UI_KEY_RIGHT}};
    for (int i = 0; i < 5; i++) {
        if (buttons[i][0] == button) {
            give_key(app, (UiKey)buttons[i][1], 0);
        }
    }
}

static void pad_gone(App *app)
{
    if (app->win.pad != NULL) {
        SDL_GameControllerClose(app->win.pad);
        app->win.pad = NULL;
        int rate_sent = app->bay->held.rate_sent; /* the tube still has to be told to stop */
        memset(&app->bay->held, 0, sizeof app->bay->held);
        app->bay->held.rate_sent = rate_sent;
    }
}

/* Letting go, and where a stick stands, are news even to a screen that lies under a card. */
static int is_for_all(const SDL_Event *e)
{
    return e->type == SDL_KEYUP || e->type == SDL_MOUSEBUTTONUP ||
           e->type == SDL_CONTROLLERBUTTONUP || e->type == SDL_CONTROLLERAXISMOTION ||
           e->type == SDL_WINDOWEVENT;
}

/* The key that opens a card with a line to type in is no letter of that line: its text, which SDL
 * sends after the key, is let fall. */
static int is_leftover_text(App *app, const SDL_Event *e)
{
    int was = app->cards.drop_text;
    app->cards.drop_text =
        e->type == SDL_KEYDOWN || e->type == SDL_KEYUP ? 0 : app->cards.drop_text;
    return was && e->type == SDL_TEXTINPUT;
}

static UiEventKind kind_of(const SDL_Event *e)
{
    return e->type == SDL_MOUSEMOTION ? UI_MOVE : UI_KEY; /* any that is no move */
}

static void take_event(App *app, const SDL_Event *e);

/* What came before is answered first: a click by the widgets and rooms it was made on, however
 * long a picture takes. */
void app_input_event(App *app, const SDL_Event *e)
{
    int card = (int)app->cards.open;
    if (ui_must_lay_out(app->ui, kind_of(e))) {
        app_lay_out(app);
    }
    if (app->turn.go_to >= 0) {
        screens_turn(app);
        app_lay_out(app);
    } else if (app->turn.focus_next >= 0) {
        app_lay_out(app);
    }
    if (is_leftover_text(app, e)) {
        return;
    }
    take_event(app, e);
    app->cards.drop_text =
        app->cards.drop_text || (e->type == SDL_KEYDOWN && (int)app->cards.open != card);
}

static void take_event(App *app, const SDL_Event *e)
{
    const Screen *screen = screen_of(app->turn.screen);
    int is_awake = app->turn.is_entered && (!app_is_covered(app) || is_for_all(e));
    if (is_awake && screen->input != NULL && screen->input(app, e)) {
        return;
    }
    switch (e->type) {
    case SDL_QUIT:
        app->program.is_running = 0;
        break;
    case SDL_WINDOWEVENT:
        if (e->window.event == SDL_WINDOWEVENT_SIZE_CHANGED) {
            app_window_measure(app);
        }
        break;
    case SDL_KEYDOWN:
        key_down(app, &e->key);
        break;
    case SDL_TEXTINPUT:
        typed(app, e->text.text);
        break;
    case SDL_DROPFILE:
        app_open_file(app, e->drop.file);
        SDL_free(e->drop.file);
        break;
    case SDL_MOUSEMOTION:
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
        mouse(app, e);
        break;
    case SDL_MOUSEWHEEL:
        ui_take(app->ui, &(UiEvent){.kind = UI_WHEEL, .wheel = (float)app_notches(&e->wheel)});
        break;
    case SDL_CONTROLLERBUTTONDOWN:
        pad_button(app, e->cbutton.button);
        break;
    case SDL_CONTROLLERAXISMOTION:
        controls_take_axis(app, e->caxis.axis, e->caxis.value / 32767.0);
        break;
    case SDL_CONTROLLERDEVICEADDED:
        if (app->win.pad == NULL) {
            app->win.pad = SDL_GameControllerOpen(e->cdevice.which);
        }
        break;
    case SDL_CONTROLLERDEVICEREMOVED:
        pad_gone(app);
        break;
    case SDL_AUDIODEVICEADDED:
        app->sound.news |= !e->adevice.iscapture; /* a headset brings a microphone as well */
        break;
    default:
        break;
    }
}
