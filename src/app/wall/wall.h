/* Private to app/wall: the room of a whole wall, closed until the person opens it. What is drawn of
 * a closed wall comes from the crew's record, from what the checks of the house showed and from
 * bags and gauge of what was packed; bays as they are (`truth`) and densities are for the opened
 * one and for acts. The job outlasts the room: a bay is packed in the bay room, and then it goes on
 * here. */
#ifndef APP_WALL_H
#define APP_WALL_H

#include "base/app.h"

#include "core/crew_belief.h"
#include "core/generate.h"
#include "core/job_marks.h"
#include "store/jobs.h"

enum {
    WALL_SHIPPED = 6,
    WALL_CHOICES = WALL_SHIPPED + PB_ERAS,
    WALL_PARTS = 512,
    WALL_SLANTS = 5,
    WALL_SLOTS = 2, /* bays that the crew packs at once */
    ID_WALL_FACE = 800,
    ID_WALL_TOOL,                      /* and one for each of WALL_TOOLS */
    ID_WALL_SLANT = ID_WALL_TOOL + 32, /* how the rod is held */
    ID_WALL_REASON,                    /* the next reason for leaving */
    ID_WALL_OPEN,                      /* open the wall; another wall */
    ID_WALL_AGAIN,                     /* the same wall, closed */
    ID_WALL_LEAF,                      /* which tools lie at hand */
    ID_WALL_MARKS,                     /* the marks, and back to the wall */
    ID_WALL_RECORD,                    /* the record on paper */
    ID_WALL_GO_ON,                     /* with the job that was left */
    ID_WALL_PICK = ID_WALL_FACE + 60   /* and one for each of WALL_CHOICES */
};

typedef enum WallPhase { WALL_CHOOSE, WALL_CLOSED, WALL_OPENED } WallPhase;

/* In the order of the work. */
typedef enum WallLeaf {
    LEAF_FIND,
    LEAF_OPEN,
    LEAF_FILL,
    LEAF_CLOSE,
    LEAF_PROVE,
    WALL_LEAVES
} WallLeaf;

/* Scripts and tests know these numbers. */
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
    TOOL_LOOK,
    TOOL_CHECK,
    TOOL_PROTECT,
    TOOL_ESTIMATE,
    TOOL_SEAL,
    TOOL_TEST,
    TOOL_FILL,
    TOOL_CREW,
    TOOL_WATCH,
    TOOL_PLUG,
    TOOL_PATCH,
    TOOL_CLEAN,
    TOOL_FINGER,
    TOOL_CORE,
    TOOL_CAMERA_AFTER,
    TOOL_LEAK_TEST,
    TOOL_WRITE,
    WALL_TOOLS
} WallTool;

/* hand.c */
typedef struct WallToolRow {
    WallLeaf leaf;
    const char *name, *key;
    int is_at_once; /* needs no place: done when it is chosen */
    void (*use)(App *app);
} WallToolRow;
const WallToolRow *wall_tool(WallTool tool);

/* Why the last act was refused; words.c says it. */
typedef enum WallRefusal {
    REFUSED_NOT,
    REFUSED_COVER,   /* glass, a door, a cover, or no wall */
    REFUSED_HOLE,    /* no open hole there, or one is there already */
    REFUSED_WARM,    /* too warm for a camera */
    REFUSED_STOPPED, /* a wire was met */
    REFUSED_FULL,
    REFUSED_OPENING, /* nobody has found one there, or it is sealed */
    REFUSED_PACKED,  /* the bay is */
    REFUSED_TUBE,    /* it does not go in there */
    REFUSED_EMPTY,   /* nothing is packed there */
    REFUSED_NO_OWN,  /* no bay was packed by hand yet */
    REFUSED_NONE,    /* no hole is left for the crew */
    REFUSED_WORK     /* bays are being packed: first they are finished */
} WallRefusal;

/* A bay that the crew packs on a thread of its own. The thread has nothing but its session. */
typedef struct WallSlot {
    int fill; /* -1 = free */
    PbWatched *watched;
    PbJobWorker worker;
    SDL_Thread *thread;
    SDL_atomic_t stop, is_over, mouth_mm; /* height of the mouth in the bay */
    SDL_atomic_t status;
} WallSlot;

typedef struct Wall {
    WallPhase phase;
    int choice; /* which wall; 0 .. WALL_CHOICES - 1 */
    uint64_t seed;
    double delta_k; /* room warmer than outdoors */
    PbJob *job;
    const PbCrew *crew;  /* of the job */
    const PbBays *truth; /* of the job */
    /* worked out from the crew after each act */
    PbBelieved lumber[PB_MAX_MEMBERS];
    int lumber_count;
    PbFraming belief;
    PbBays *parts;
    PbCrewPart known[WALL_PARTS];
    int number[WALL_PARTS];        /* of a felt part on the wall, from 1; 0 = nobody knows of it */
    double bags[WALL_PARTS];       /* blown into it; negative = nobody has filled it */
    int packed_count;              /* bays that are packed to the end */
    PbCrewFound found[WALL_PARTS]; /* once it is open */
    double found_m2, all_m2;
    int found_count, all_count;
    int is_job; /* more was done than to look for bays: there are marks */
    PbJobMarks marks;
    int is_marks; /* they are shown, not the wall */
    /* the hand */
    WallLeaf leaf;
    WallTool tool;
    int slant; /* 0 straight, 1 left, 2 right, 3 up, 4 down */
    PbLeaveReason reason;
    double x_m, y_m;  /* cursor */
    int is_measuring; /* the tape hangs at tape_x_m, tape_y_m */
    double tape_x_m, tape_y_m;
    WallRefusal refusal;
    /* bays that are packed */
    int pending;                /* fill that waits for the bay room; -1 = none */
    int is_watching;            /* the crew works that one */
    int told_fill;              /* packed last, and not yet followed by an act; -1 = none */
    int is_crew_on;             /* the crew goes on, or would if the room were open */
    int is_crew_done;           /* it has just come to the end */
    int is_catching_up;         /* bays that the crew had packed before the program ended */
    int64_t pending_run;        /* of the one that waits, left in the middle; 0 = none */
    int is_past[PB_CREW_HOLES]; /* holes that the crew found no way into */
    WallSlot slot[WALL_SLOTS];
    /* kept */
    int64_t kept_id; /* of the job in the store; 0 = not yet, -1 = it is not kept */
    int kept_acts;
    int has_left; /* a job of this learner was left */
    StoreJob left;
} Wall;

/* state.c */
int wall_begin(App *app, int choice, uint64_t seed);
/* Stand before this wall; `framing` is copied. 0 when it cannot be. */
int wall_stand(App *app, const PbFraming *framing);
/* Nonzero when it was done; else the refusal says why. */
int wall_act(App *app, const PbJobAct *act);
void wall_use(App *app); /* the tool in hand at the cursor */
void wall_count_bags(Wall *w);
void wall_open(App *app);
void wall_close(Wall *w);          /* gives back job and bays */
int wall_hole_near(const Wall *w); /* open hole within a hand of the cursor; -1 = none */
/* Of the opened wall: this bay holds nothing, though it should. */
int wall_is_missed(const Wall *w, int bay);
/* fill.c: bays that are packed, by hand or by the crew */
void wall_fill_by_hand(App *app);
void wall_crew_turn(App *app);      /* let it go on, or stop it */
void wall_crew_watch(App *app);     /* the next bay in the bay room */
void wall_crew_frame(App *app);     /* books what is packed, begins the next */
void wall_crew_rest(Wall *w);       /* threads end; what they have packed stays where it is */
void wall_crew_drop(Wall *w);       /* for good */
void wall_come_back(App *app);      /* from the bay room */
int wall_is_packing(const Wall *w); /* a bay is begun and not done */
int wall_fill_number(const Wall *w, const PbJobFill *fill);
/* words.c, says.c: sentences of the room */
const char *wall_name(int choice);
const char *wall_leaf_name(WallLeaf leaf);
const char *wall_fmt(const App *app, double m);
const char *wall_fmt_bags(const App *app, double bags);
void wall_says(const App *app, char *out, size_t size);
int wall_refused(const App *app, const char **text);          /* 0 = it was not */
int wall_say_packing(const App *app, char *out, size_t size); /* 0 = nothing is packed now */
void wall_say_job(const App *app, const PbJobDone *done, char *out, size_t size);
/* face.c: the wall closed or opened; where it is on the window */
typedef struct WallPlace {
    GfxRect r;
    double px_m;
} WallPlace;
float wall_px(const WallPlace *at, double x_m);
float wall_py(const WallPlace *at, double y_m);
GfxRect wall_rect(const WallPlace *at, const PbRect *r);
void wall_cutouts_draw(Ui *ui, const WallPlace *at, const PbCutout *list, int count);
void wall_flag_draw(Ui *ui, GfxRect part, int number, GfxColor plate, GfxColor ink);
void wall_crossed_draw(Ui *ui, GfxRect r);
void wall_face_draw(const App *app, const WallPlace *at);
/* opened.c */
void wall_opened_draw(const App *app, const WallPlace *at);
/* work.c: what the job has left on the closed face */
void wall_work_draw(const App *app, const WallPlace *at);
/* book.c: what stands under the wall; returns where it ends */
float wall_book_high(const App *app);
float wall_tape_draw(const App *app, const WallPlace *at, float y);
float wall_book_draw(const App *app, const WallPlace *at, float y);
void wall_feel_draw(const App *app, const WallPlace *at);
/* What the crew believes, anew; 0 = no memory, and the wall is gone. */
int wall_believe(App *app);
/* keep.c: a job in the store */
void wall_keep_acts(App *app); /* those that are new */
void wall_keep_end(App *app);
void wall_look_for_left(App *app);
void wall_go_on(App *app);          /* with the one that was left */
const char *wall_word(int choice);  /* in the store */
int wall_of_word(const char *word); /* -1 = there is none */
/* record.c: the job on one printed page; not in a build that prints nothing */
void wall_record(App *app);
/* marks.c: gates first, then points, each loss with place, minute and cause */
void wall_marks_lay(const App *app, float top);

#endif
