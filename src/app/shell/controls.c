/* The controls card (F9, or from the settings): every action with its key, changed by choosing it
 * and pressing another; three layouts, two of them for one hand. Kept at once in the user's
 * configuration folder. */
#include "shell/shell.h"

#include "io/doc.h"

#include <math.h>
#include <stdio.h>

static const char *const name[KEY_ACTIONS] = {N_("Pull the tube out, held"),
                                              N_("Push the tube in, held"),
                                              N_("A set pull"),
                                              N_("Tube end down or up"),
                                              N_("Blower less"),
                                              N_("Blower more"),
                                              N_("Feed less"),
                                              N_("Feed more"),
                                              N_("Machine on, off"),
                                              N_("Shut off, bleed"),
                                              N_("Clear a clog"),
                                              N_("Close the hole, finish"),
                                              N_("Wax mark"),
                                              N_("Pause"),
                                              N_("Close look"),
                                              N_("Next sight level"),
                                              N_("Sound on, off"),
                                              N_("At the hole and the wall"),
                                              N_("Rag round the tube"),
                                              N_("Tube to the next hole"),
                                              N_("Plug the open hole"),
                                              N_("Seal what was found"),
                                              N_("Static test"),
                                              N_("All sliders, or at a glance"),
                                              N_("Quicker first stop")};

static const char *const axis_name[KEY_AXES] = {
    N_("Tube, by a stick"), N_("Feed less, by a trigger"), N_("Feed more, by a trigger")};
enum { ROWS_ALL = KEY_ACTIONS + KEY_AXES };

static void save(App *app)
{
    char path[512];
    char line[700];
    PbError err = {0};
    if (!keymap_path(path, sizeof path)) {
        return;
    }
    if (keymap_save(path, &app->keymap, &err) != PB_OK) {
        io_error_line(&err, line, sizeof line);
        fprintf(stderr, "pullback: %s\n", line);
        app_notice(app, _("The controls could not be saved"), err.message, 0, 6);
    }
}

/* At the start: the user's own keys; one that cannot be read is told of once. */
void controls_start(App *app)
{
    char path[512], told[1300] = "";
    app->keymap = keymap_default(KEYS_BOTH);
    if (keymap_path(path, sizeof path)) {
        app->keymap = keymap_start(path, told, sizeof told);
    }
    if (told[0] != '\0') {
        fprintf(stderr, "pullback: %s\n", told);
        app_notice(app, _("Your controls could not be read"),
                   _("The usual ones are in use; the file is kept beside, ending in .bad."), 0, 10);
    }
}

void controls_open(App *app)
{
    app->cards.keys_open = !app->cards.keys_open;
    app->cards.keys_wait = 0;
    app->ui->focus = app->turn.focus_next = app->cards.keys_open ? ID_CARD_OK : 0;
}

/* A key while the card is open. 1 = it was taken. */
int controls_take_key(App *app, int key)
{
    if (!app->cards.keys_open) {
        return 0;
    }
    if (app->cards.keys_wait == 0) {
        if (key == SDLK_ESCAPE || key == SDLK_F9) {
            controls_open(app);
            return 1;
        }
        return 0;
    }
    int is_reserved = key == SDLK_TAB || key == SDLK_RETURN || key == SDLK_UP || key == SDLK_DOWN ||
                      key == SDLK_LEFT || key == SDLK_RIGHT ||
                      (key >= SDLK_F1 && key <= SDLK_F12 && key != SDLK_F4);
    if (key != SDLK_ESCAPE && !is_reserved && app->cards.keys_wait <= KEY_ACTIONS) {
        keymap_set(&app->keymap, (KeyAction)(app->cards.keys_wait - 1), key);
        save(app);
    }
    if (!is_reserved) {
        app->cards.keys_wait = 0;
    }
    app->ui->in.space = app->ui->in.enter = 0;
    return 1;
}

/* A button of the controller while an action waits. */
int controls_take_pad(App *app, int button)
{
    if (!app->cards.keys_open || app->cards.keys_wait == 0 || app->cards.keys_wait > KEY_ACTIONS) {
        return 0;
    }
    keymap_set_pad(&app->keymap, (KeyAction)(app->cards.keys_wait - 1), button);
    save(app);
    app->cards.keys_wait = 0;
    return 1;
}

/* A stick or trigger pushed well over while one of the axes waits. */
int controls_take_axis(App *app, int axis, double value)
{
    if (!app->cards.keys_open || app->cards.keys_wait <= KEY_ACTIONS || fabs(value) < 0.6) {
        return 0;
    }
    keymap_set_axis(&app->keymap, (KeyAxis)(app->cards.keys_wait - 1 - KEY_ACTIONS), axis,
                    value < 0.0 ? -1 : 1);
    save(app);
    app->cards.keys_wait = 0;
    return 1;
}

/* Sticks and buttons in words; the file of the keys keeps the library's own. */
static const char *pad_words(int button)
{
    static const char *const words[] = {
        N_("bottom button"), N_("right button"),       N_("left button"),
        N_("top button"),    N_("Back button"),        N_("Guide button"),
        N_("Start button"),  N_("left stick pressed"), N_("right stick pressed"),
        N_("left shoulder"), N_("right shoulder"),     N_("pad up"),
        N_("pad down"),      N_("pad left"),           N_("pad right"),
        N_("extra button")};
    int last = (int)(sizeof words / sizeof words[0]) - 1;
    return button < 0 ? "" : _(words[button < last ? button : last]);
}

static const char *axis_words(int axis) /* as Keymap has them: 1 + axis, negative = turned over */
{
    static const char *const words[] = {N_("left stick, sideways"),  N_("left stick, up and down"),
                                        N_("right stick, sideways"), N_("right stick, up and down"),
                                        N_("left trigger"),          N_("right trigger")};
    static const char *const over[] = {N_("left stick, sideways, reversed"),
                                       N_("left stick, up and down, reversed"),
                                       N_("right stick, sideways, reversed"),
                                       N_("right stick, up and down, reversed"),
                                       N_("left trigger"),
                                       N_("right trigger")};
    int i = abs(axis) - 1;
    return i < 0 || i > 5 ? "" : axis < 0 ? _(over[i]) : _(words[i]);
}

/* What stands on the button of a row. */
static void row_words(const App *app, int row, char *out, size_t size)
{
    const Keymap *k = &app->keymap;
    const char *pad = row < KEY_ACTIONS ? pad_words(k->pad[row]) : "";
    if (app->cards.keys_wait == row + 1) {
        SDL_snprintf(out, size, "%s", row < KEY_ACTIONS ? _("press a key") : _("push it"));
    } else if (row >= KEY_ACTIONS) {
        SDL_strlcpy(out, axis_words(k->axis[row - KEY_ACTIONS]), size);
    } else {
        const char *key =
            k->key[row] == SDLK_SPACE ? _("Space") : keymap_key_name(k, (KeyAction)row);
        SDL_snprintf(out, size, "%s%s%s", key, pad[0] ? "  /  " : "", pad);
    }
}

static void row(const App *app, GfxRect r, int action)
{
    Ui *ui = app->ui;
    char label[64];
    const char *what = _(action < KEY_ACTIONS ? name[action] : axis_name[action - KEY_ACTIONS]);
    row_words(app, action, label, sizeof label);
    float half = floorf(r.w * 0.52f);
    double size = ui_fit(ui, half - 6.0f, 13, UI_REGULAR, what);
    ui_label(ui, r.x, r.y + r.h * 0.5f + ui_px(ui, 5), size, UI_REGULAR, ui->theme->ink, UI_LEFT,
             what);
    GfxRect b = {r.x + half, r.y + 2.0f, r.w - half, r.h - 4.0f};
    ui_button(ui, ID_CARD_KEY + action, b, label, 0, 0);
    char place[24];
    SDL_snprintf(place, sizeof place, "key%d", action);
    app_mark(app, place, b);
}

void controls_draw(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float w = fminf(ui_px(ui, 760), ui->width - 2.0f * CARD_MARGIN), in = ui_px(ui, 20);
    int columns = w < ui_px(ui, 700) ? 1 : 2, rows = (ROWS_ALL + columns - 1) / columns;
    float row_high = ui_px(ui, 36), button = ui_px(ui, 120), room = w - 3 * in - button;
    const char *hint = _("Key or controller button: choose, then press. F9 opens this.");
    GfxColor none = {0, 0, 0, 0};
    float words = ui_paragraph(ui, 0, 0, room, 12, UI_REGULAR, none, hint);
    float foot = fmaxf(ui_px(ui, 60), words + ui_px(ui, 40));
    GfxRect r = app_card_ground(app, w, ui_px(ui, 90) + row_high * (float)rows + foot, ui_px(ui, 6),
                                t->sheet, 1.0f, t->edge);
    ui_label(ui, r.x + in, r.y + ui_px(ui, 32), 20, UI_BOLD, t->ink, UI_LEFT, _("Controls"));
    const char *ways[KEY_LAYOUTS] = {_("Both hands"), _("Left hand"), _("Right hand")};
    GfxRect seg = {r.x + in, r.y + ui_px(ui, 46), w - 2 * in, ui_px(ui, 32)};
    ui_segments(ui, ID_CARD_LAYOUT, seg, ways, KEY_LAYOUTS, app->keymap.layout);
    app_mark(app, "layout", seg);
    float y = r.y + ui_px(ui, 90), part = (w - in * (float)(columns + 1)) / (float)columns;
    for (int i = 0; i < ROWS_ALL; i++) {
        int column = i / rows, line = i % rows;
        row(app,
            (GfxRect){r.x + in + (float)column * (part + in), y + (float)line * row_high, part,
                      row_high},
            i);
    }
    y += (float)rows * row_high;
    GfxRect yes = {r.x + w - in - button, y + ui_px(ui, 12), button, ui_px(ui, 34)};
    app_mark(app, "keys_done", yes);
    ui_button(ui, ID_CARD_OK, yes, _("Done"), 1, 0);
    ui_paragraph(ui, r.x + in, y + ui_px(ui, 34), room, 12, UI_REGULAR, t->ink2, hint);
}

void controls_answer(App *app)
{
    double layout;
    for (int i = 0; i < ROWS_ALL; i++) {
        if (ui_answered(app->ui, ID_CARD_KEY + i, NULL)) {
            app->cards.keys_wait = i + 1;
        }
    }
    if (ui_answered(app->ui, ID_CARD_LAYOUT, &layout)) {
        app->keymap = keymap_default((KeyLayout)layout);
        app->cards.keys_wait = 0;
        save(app);
    }
    if (ui_answered(app->ui, ID_CARD_OK, NULL)) {
        app->cards.keys_open = app->cards.keys_wait = 0;
        app->ui->focus = 0;
    }
}
