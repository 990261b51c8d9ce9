/* Private to app/wall: the room of a whole wall, closed until the person opens it. What is drawn of
 * a closed wall comes from the crew's record alone; `truth` is for the opened one and for acts. */
#ifndef APP_WALL_H
#define APP_WALL_H

#include "base/app.h"

#include "core/crew_belief.h"
#include "core/generate.h"

enum {
    WALL_SHIPPED = 6,
    WALL_CHOICES = WALL_SHIPPED + PB_ERAS,
    WALL_PARTS = 512,
    WALL_SLANTS = 5,
    ID_WALL_FACE = 800,
    ID_WALL_TOOL,                      /* and one for each of WALL_TOOLS */
    ID_WALL_SLANT = ID_WALL_TOOL + 20, /* how the rod is held */
    ID_WALL_REASON,                    /* the next reason for leaving */
    ID_WALL_OPEN,                      /* open the wall; another wall */
    ID_WALL_AGAIN,                     /* the same wall, closed */
    ID_WALL_PICK = ID_WALL_FACE + 40   /* and one for each of WALL_CHOICES */
};

typedef enum WallPhase { WALL_CHOOSE, WALL_CLOSED, WALL_OPENED } WallPhase;

typedef enum WallTool {
    TOOL_TAP,
    TOOL_PROBE,
    TOOL_TAPE,
    TOOL_SENSE,
    TOOL_CAMERA,
    TOOL_DRILL,
    TOOL_TUBE,
    TOOL_PENCIL,
    TOOL_LEAVE,
    WALL_TOOLS
} WallTool;

/* Why the last act was refused; words.c says it. */
typedef enum WallRefusal {
    REFUSED_NOT,
    REFUSED_COVER,   /* glass, a door, a cover, or no wall */
    REFUSED_HOLE,    /* no open hole there, or one is there already */
    REFUSED_WARM,    /* too warm for a camera */
    REFUSED_STOPPED, /* a wire was met */
    REFUSED_FULL
} WallRefusal;

typedef struct Wall {
    WallPhase phase;
    int choice; /* which wall; 0 .. WALL_CHOICES - 1 */
    uint64_t seed;
    double delta_k; /* room warmer than outdoors */
    PbFraming framing;
    PbBays *truth;
    PbCrew crew;
    /* worked out from the crew after each act */
    PbBelieved lumber[PB_MAX_MEMBERS];
    int lumber_count;
    PbFraming belief;
    PbBays *parts;
    PbCrewPart known[WALL_PARTS];
    int number[WALL_PARTS];        /* of a felt part on the wall, from 1; 0 = nobody knows of it */
    PbCrewFound found[WALL_PARTS]; /* once it is open */
    double found_m2, all_m2;
    int found_count, all_count;
    /* the hand */
    WallTool tool;
    int slant; /* 0 straight, 1 left, 2 right, 3 up, 4 down */
    PbLeaveReason reason;
    double x_m, y_m;  /* cursor */
    int is_measuring; /* the tape hangs at tape_x_m, tape_y_m */
    double tape_x_m, tape_y_m;
    WallRefusal refusal;
} Wall;

/* state.c */
int wall_begin(App *app, int choice, uint64_t seed);
void wall_use(App *app); /* the tool in hand at the cursor */
void wall_open(App *app);
void wall_close(Wall *w); /* gives back bays */
/* words.c: sentences of the room */
const char *wall_name(int choice);
const char *wall_tool_name(WallTool tool);
const char *wall_tool_key(WallTool tool);
const char *wall_fmt(const App *app, double m);
void wall_says(const App *app, char *out, size_t size);
/* face.c: the wall closed or opened; where it is on the window */
typedef struct WallPlace {
    GfxRect r;
    double px_m;
} WallPlace;
void wall_face_draw(const App *app, const WallPlace *at);
void wall_opened_draw(const App *app, const WallPlace *at);
void wall_feel_draw(const App *app, const WallPlace *at);
/* book.c: what stands under the wall; returns where it ends */
float wall_tape_draw(const App *app, const WallPlace *at, float y);
float wall_book_draw(const App *app, const WallPlace *at, float y);

#endif
