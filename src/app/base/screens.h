/* Private to app: a screen is one folder, its callbacks in room.c, and one row of the table in
 * shell/screens.c.
 *
 * The loop calls the screen that is shown; a screen never calls another, it asks app_go in its
 * answer, update or input, and the change comes at the start of the next frame.
 * What a screen keeps between enter and leave hangs on a pointer of its own in App.
 * Shared widgets numbers: each screen has a hundred of its own, see app.h. */
#ifndef APP_SCREENS_H
#define APP_SCREENS_H

#include "gfxtypes/draw.h"

#include <SDL.h>

struct App;

/* Append only: scripts and tests know these numbers. */
typedef enum AppScreen {
    SCREEN_BAY,
    SCREEN_RESULT,
    SCREEN_DOOR,
    SCREEN_DEBRIEF,
    SCREEN_YEARS,
    SCREEN_SIDE,
    SCREEN_DRILL,
    SCREEN_WALL,
    SCREEN_COUNT
} AppScreen;

/* Every callback but lay may be NULL. */
typedef struct Screen {
    /* Get ready. 0 = cannot; it has told why, and the screen before stays. */
    int (*enter)(struct App *app);
    /* Give back what enter took. Also called when the program ends. */
    void (*leave)(struct App *app);
    /* At the end of the program: give back what it keeps from one visit to the next. */
    void (*close)(struct App *app);
    /* Once a frame, after the events; dt_s is time of the wall. Not while the program is closing.
     */
    void (*update)(struct App *app, double dt_s);
    /* From a state that stays as it is: what is on the screen and which places answer. */
    void (*lay)(const struct App *app);
    /* After a layout that answers something (ui_answered): the only place, with update and input,
     * where what a person did changes the room. It is laid out again then. */
    void (*answer)(struct App *app);
    /* An event before the shared keys and widgets have it. 1 = taken, nobody else gets it. Not
     * called while a card is open; letting go of keys and buttons is always passed on. */
    int (*input)(struct App *app, const SDL_Event *event);
    /* Density that the fields of this frame's draw list show; borrowed until the next frame. */
    GfxFieldData (*field)(struct App *app);
    /* Nonzero while time alone changes it, as a run that is worked, a replay, an animation. The
     * loop sleeps between inputs else, and looks a few times a second; NULL = never. */
    int (*moves)(const struct App *app);
    /* What opens it after --room; NULL where that makes no sense. */
    const char *word;
    /* Its name in the top band and on the Door; N_ marked. */
    const char *title;
    /* Height that it needs at 100 %; a lower window shows it as a page that scrolls. 0 = any. */
    float least_px;
} Screen;

/* Ask for another screen: the shell turns to it before the next frame. */
void app_go(struct App *app, AppScreen to);

extern const Screen scr_bay, scr_result, scr_door, scr_debrief, scr_years, scr_side, scr_drill,
    scr_wall;

#endif
