/* Private to app: what the Door remembers between frames. */
#ifndef APP_DOOR_H
#define APP_DOOR_H

#include "gfxtypes/draw.h"

enum { DOOR_ROOMS = 4, DOOR_NX = 24, DOOR_NY = 64 };

typedef struct Door {
    int row;                            /* chosen exercise */
    float scroll_px, list_px, whole_px; /* of the list: top, room, all rows */
    double clicked_s;                   /* when a row was last clicked */
    int is_graded;                      /* the next run counts */
    int follow;                         /* bring the chosen row into view */
    float density[DOOR_NX * DOOR_NY];   /* the picture over the bay room */
    int is_painted;
} Door;

struct App;
/* door_wall.c, door_list.c */
void door_wall_draw(struct App *app, GfxRect r);
void door_room(struct App *app, int room);
GfxFieldData door_field(struct App *app);
void door_list_draw(struct App *app, GfxRect r);
void door_start(struct App *app);
/* scr_door.c: the shipped exercises, read once. */
void door_exercises(struct App *app);

#endif
