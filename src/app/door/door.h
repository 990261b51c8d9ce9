/* Private to app: what the Door remembers between frames. */
#ifndef APP_DOOR_H
#define APP_DOOR_H

#include "base/app.h"

enum { DOOR_ROOMS = 6, DOOR_NX = 24, DOOR_NY = 64 };

typedef struct Door {
    int row;                          /* chosen exercise */
    float scroll_px;                  /* of the list: its top */
    double clicked_s;                 /* when a row was last clicked */
    int is_graded;                    /* the next run counts */
    int follow;                       /* bring the chosen row into view */
    float density[DOOR_NX * DOOR_NY]; /* the picture over the bay room */
    int is_painted;
} Door;

enum {
    ID_DOOR_ROOMS = ID_DOOR, /* and five more */
    ID_DOOR_CHANGE = ID_DOOR + 10,
    ID_DOOR_LIST,
    ID_DOOR_START,
    ID_DOOR_RESTART,
    ID_DOOR_FILE,
    ID_DOOR_SETTINGS,
    ID_DOOR_GUIDE,
    ID_DOOR_GRADED,
    ID_DOOR_SEED,
    ID_DOOR_SCROLL,             /* answered by the list: its top, in pixels */
    ID_DOOR_ROWS = ID_DOOR + 40 /* by mouse only, one a row */
};

/* wall.c, list.c */
void door_wall_draw(const App *app, GfxRect r);
void door_room(App *app, int room);
GfxFieldData door_field(App *app);
void door_list_draw(const App *app, GfxRect r);
void door_list_answer(App *app);
void door_start(App *app);
#endif
