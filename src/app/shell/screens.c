/* The table of screens and the change from one to another. To add a screen: a folder whose room.c
 * has its callbacks in one `const Screen scr_<name>`, its declaration in screens.h, a row here. */
#include "base/screens.h"

#include "shell/shell.h"

#include <malloc.h>
#include <string.h>

static const Screen *const table[SCREEN_COUNT] = {
    [SCREEN_BAY] = &scr_bay,         [SCREEN_RESULT] = &scr_result, [SCREEN_DOOR] = &scr_door,
    [SCREEN_DEBRIEF] = &scr_debrief, [SCREEN_YEARS] = &scr_years,   [SCREEN_SIDE] = &scr_side,
    [SCREEN_DRILL] = &scr_drill,     [SCREEN_WALL] = &scr_wall,
};

const Screen *screen_of(AppScreen which)
{
    return table[which];
}

int screens_find(const char *word)
{
    for (int i = 0; i < SCREEN_COUNT; i++) {
        if (table[i]->word != NULL && strcmp(table[i]->word, word) == 0) {
            return i;
        }
    }
    return -1;
}

/* The C library keeps what a room's threads worked with, scattered through its heaps: some 15 MiB
 * for each report written, and an office leaves the program open for weeks. */
static void give_back(void)
{
#ifdef __GLIBC__
    (void)malloc_trim(0);
#endif
}

/* All threads share one heap: malloc_trim gives back the free end of the first alone, and the end
 * of another stays as large as work once made it, 3 to 10 MiB more in steps over an hour. */
void screens_one_heap(void)
{
#ifdef __GLIBC__
    (void)mallopt(M_ARENA_MAX, 1);
#endif
}

void screens_turn(App *app)
{
    app_carry_out(app);
    int to = app->turn.go_to;
    app->turn.go_to = -1;
    if (to < 0 || (app->turn.is_entered && to == (int)app->turn.screen)) {
        return;
    }
    const Screen *next = table[to], *last = table[app->turn.screen];
    int focus = app->ui->focus;
    app->ui->focus = 0; /* unless enter puts it somewhere */
    if (next->enter != NULL && !next->enter(app)) {
        app->ui->focus = focus;
        return;
    }
    if (app->turn.is_entered && last->leave != NULL) {
        last->leave(app);
    }
    give_back();
    app->turn.screen = (AppScreen)to;
    app->turn.is_entered = 1;
    app->ui->is_ring_shown = 0;
    app->ui->active = 0;
    app->pages.room = (Page){0};
}

void screens_close(App *app)
{
    const Screen *last = table[app->turn.screen];
    if (app->turn.is_entered && last->leave != NULL) {
        last->leave(app);
    }
    app->turn.is_entered = 0;
    for (int i = 0; i < SCREEN_COUNT; i++) {
        if (table[i]->close != NULL) {
            table[i]->close(app);
        }
    }
}
