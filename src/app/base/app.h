/* Private to app: what the window program holds together, and what every room may use of it. Who
 * knows whom: base, then the rooms (bay, result, door, debrief, years, side, drill, wall; none
 * knows another), then shell, which knows them all (tests/layers/rooms.cmake). Read shell/main.c
 * first, then shell/loop.c. */
#ifndef APP_BASE_APP_H
#define APP_BASE_APP_H

#include "base/exercises.h"
#include "base/guide.h"
#include "base/heard.h"
#include "base/keymap.h"
#include "base/records.h"
#include "base/run.h"
#include "base/screens.h"
#include "base/sight.h"
#include "base/spill.h"
#include "base/words.h"

#include "core/course.h"
#include "io/settings_file.h"
#include "io/taste.h"
#include "picture/ground.h"
#include "render/render.h"
#include "ui/ui.h"

#include <SDL.h>

/* Exit codes, as in pullback-cli. */
enum { APP_DONE = 0, APP_TROUBLE = 1, APP_USAGE = 2, APP_BAD_INPUT = 3, APP_IO = 4 };

typedef struct AppOptions {
    char exercise[512];
    char data[512];
    char script[512];
    char dump[512];  /* where SIGUSR1 and F12 write the state */
    char shots[512]; /* folder for pictures */
    char db[512];    /* database, "" = the person's own */
    char lang[16];
    double text_scale;
    double speed; /* simulated seconds a second */
    int is_us, width, height, bench_frames, is_contrast;
    double fill_kg_m3;        /* Years: an even fill instead of the run; 0 = the run */
    char room[16];            /* to open with: bay, years, side, debrief; "" = not said */
    char house[512];          /* file for Side by side; "" = the one last used, or the demo */
    int has_units, has_scale; /* given, so that settings do not decide */
    int is_door;              /* the Door although an exercise is given */
    int is_guide;             /* the guide's card at the Door, seen before or not */
    unsigned long long seed;  /* 0: a fresh one for each try */
    int is_seed_given;
} AppOptions;

/* Cards that any room may open; one at a time, and the room under it sleeps. */
typedef enum AppCard {
    CARD_NONE,
    CARD_SETTINGS,
    CARD_LEARNER,
    CARD_FILE,
    CARD_GUIDE,
    CARD_DELETE,
    CARD_ACTS, /* of the bay room */
    CARD_SEED,
    CARD_CLASS,
    CARD_MERGE
} AppCard;
/* A learner about whom is asked whether everything goes. */
typedef struct LearnerGone {
    int64_t id;
    char name[STORE_NAME_BYTES + 1];
    StoreContents contents;
} LearnerGone;

typedef struct ClassTable ClassTable;
struct StoreMerge;

/* States of the work that are told while they last. */
typedef enum AppStanding {
    STANDING_NONE,
    STANDING_PLUG,
    STANDING_CLEARING,
    STANDING_OUTSIDE
} AppStanding;

typedef struct AppNotice {
    char title[200], text[200];
    double until_s; /* program time; 0 = none */
    int is_danger;
} AppNotice;

/* What is shown of a room or card that needs more height than the window has; page.c */
typedef struct Page {
    float px;         /* how far it is scrolled */
    float least;      /* height that it is given at any rate */
    float more, want; /* over that: now, and what is needed */
    float high;       /* of the window */
    UiMark from;      /* where it begins in the list of what is drawn */
    int mark;         /* its first place */
    int focus;        /* what was last brought into view */
} Page;

/* A named place on the screen, for scripts and tests. */
#define APP_MAX_MARKS 96
typedef struct AppMark {
    char name[24];
    GfxRect rect;
} AppMark;

/* What a layout leaves behind: made anew by each, never read by the next. */
typedef struct AppLaid {
    double text_scale; /* in use: what was chosen, or less where the room has none for it */
    Page *page;        /* the one that is being laid out */
    int band_need;     /* rows that the top band wants */
    AppMark marks[APP_MAX_MARKS];
    int mark_count;
    GfxRect middle;       /* between Hands and gauges: where a notice goes when Hands is full */
    int notice_in_middle; /* Hands is full */
    GfxRect bay, look;    /* pictures by which the tube may be held; zero when not shown */
    double bay_px_m, look_px_m;
    int first_tab; /* of the bay's middle: the ones before it are not offered */
} AppLaid;

/* Rotating room for formatted figures. */
typedef struct AppFigures {
    char text[16][64];
    int next;
} AppFigures;

typedef struct AppWindow {
    SDL_Window *window;
    SDL_GLContext context;
    SDL_GameController *pad;
    Render *render;
    UiText *text;
    int width, height;    /* of the drawable */
    double display_scale; /* pixels a window point */
} AppWindow;

/* What a room may ask of the shell about runs (base/task.c). */
typedef enum AskKind {
    ASK_NOTHING,
    ASK_PRACTICE, /* of `exercise` */
    ASK_GRADED,   /* of `exercise`; counts: no hints, the sight stays */
    ASK_GUIDE,    /* practice that nobody keeps */
    ASK_AGAIN,    /* the exercise at hand */
    ASK_GO_ON,    /* with run `id`, from where it was left */
    ASK_FILL      /* a bay of a job, by `config`; by the crew's hands when it is_crew */
} AskKind;
typedef struct AppAsk {
    AskKind kind;
    PbExercise exercise;
    int64_t id;
    PbSessionConfig config;
    PbJobWorker crew;
    int is_crew;
    int is_fill; /* the run to go on with is a bay of a job */
} AppAsk;

/* Which room is shown, and which is asked for. */
typedef struct AppTurn {
    AppScreen screen;  /* shown now */
    int go_to;         /* asked for, -1 = none */
    int is_entered;    /* the screen has been entered */
    int focus_next;    /* widget to have the keyboard from the next frame on; -1 = as it is */
    int home;          /* widget of the room that has it when a card is closed; 0 = none */
    AppAsk ask;        /* a run that is asked for; carried out before the next frame */
    int is_own_wanted; /* Side by side opens with the run as its dense pack */
} AppTurn;

typedef struct AppPages {
    Page room, card; /* the room, and the card over it */
    int band_rows;   /* of the top band */
} AppPages;

/* How a person reads and hears. */
typedef struct AppTaste {
    int is_us, lang; /* lang: row of words_languages */
    int is_comma;    /* the country writes "2,5" in this language */
    double text_scale;
    int is_contrast, is_still;
    int is_uncaptioned; /* no words for what is heard */
} AppTaste;

typedef struct AppProgram {
    double now_s;      /* program time */
    uint64_t pictures; /* of fields that were numbered so far (GfxFieldData) */
    int is_running, exit_code;
    double quit_asked_s; /* when the program was asked to end in the middle of a run */
    double slow_until_s, dropped_seen_s;
    int want_shot;
    char shot_name[256];
} AppProgram;

/* What is told over the room. */
typedef struct AppSay {
    AppNotice notice;
    int is_hint, stands;  /* what kind of notice it is */
    AppStanding standing; /* what is so now and is told as long as it is */
} AppSay;

typedef struct AppCards {
    AppCard open;
    int top;
    int cautions_open, on_after_cautions;
    int keys_open;
    int keys_wait; /* controls card: 1 + the action, or KEY_ACTIONS + the axis, that waits */
    LearnerGone gone;
    ClassTable *table;          /* of the class card; NULL = not read */
    struct StoreMerge *merge;   /* another computer's store that is being taken in */
    PbLeaveReason leave_reason; /* chosen on the card of acts */
    double ring_want;           /* set on it; negative = not */
    int drop_text;              /* what a key typed that has just opened a card */
    char field[600];            /* what is typed on a card */
    char says[400];
    int is_news; /* `says` tells what was done, and no trouble */
} AppCards;

typedef struct AppSettings {
    IoSettings kept, shown; /* as in the file; as last seen on the screen */
    char path[600];         /* "" = nowhere to keep them */
    int is_watched;
} AppSettings;

typedef struct AppSound {
    struct AudioDevice *audio;
    double volume; /* 0..1 */
    int is_muted;
    int waits, news;                     /* no device: waits for news of one */
    char device[IO_SETTINGS_DEVICE + 1]; /* chosen loudspeaker; "" = the system's choice */
    int is_own;                          /* the room that is shown makes the sound, not the run */
    AudioParams own;                     /* then this is it */
} AppSound;

/* How the run at hand is done. */
typedef struct AppTask {
    int is_graded; /* no hints, and the sight level stays */
    int is_fill;   /* a bay of a job: the wall stays closed, and the way back leads to it */
    int is_paused;
    int sight, practice_sight; /* SightLevel; of runs that do not count */
    unsigned safety_ticked;    /* bits of the check list */
    int safety_skipped;        /* points left out, with plugs to be cleared under power */
    int cautions_seen;
    int result_tab;
} AppTask;

typedef struct AppGuiding {
    Guide guide;
    int is_seen;
} AppGuiding;

/* What a trainer has typed for a part of a run and not saved yet; outlasts the room. */
enum { APP_DRAFTS = 16, APP_DRAFT_TEXT = 600 };
typedef struct AppDraft {
    int64_t run_id; /* 0 = free */
    int part;
    double points; /* negative = none */
    char text[APP_DRAFT_TEXT + 1];
} AppDraft;
typedef struct AppDrafts {
    AppDraft draft[APP_DRAFTS];
    int turn; /* which goes when all are taken */
} AppDrafts;

/* Groups reached by a pointer may be written while a room is laid out from a const App: they are
 * the layout's own product (ui, laid) and scratch room (figures). */
typedef struct App {
    AppOptions options;
    AppWindow win;
    Ui *ui;
    AppLaid *laid;
    AppFigures *figures;
    AppProgram program;
    AppTurn turn;
    AppPages pages;
    AppTaste taste;
    AppSettings settings;
    AppSay say;
    AppCards cards;
    AppSound sound;
    AppGuiding guiding;
    AppTask task;
    AppDrafts drafts;
    Run run;
    Exercises exercises;
    Records records;
    Keymap keymap;
    /* What each room keeps; NULL while a room that is made anew at each visit is not shown. */
    struct Bay *bay;
    struct Door *door;
    struct Debrief *debrief;
    struct Years *years;
    struct Side *side;
    struct Drill *drill;
    struct Wall *wall;
} App;

/* Widget numbers. The bay and its result have 1 to 199, Debrief 300 to 399, Years 400 to 499, Side
 * by side 500 to 599, the Door 600 to 699 and 750 on, the drills 700 to 749, the wall 800 to 899,
 * cards that any room may open 900 and more. Those of the cautions card are highest: a card puts
 * the rest to sleep. */
enum {
    ID_UNITS = 1,
    ID_LANG,
    ID_SIZE,
    ID_BACK,
    ID_PAGE,
    ID_BAY = 10,
    ID_RESULT = 100,
    ID_DOOR = 600,
    ID_OVER = 900, /* cards of any room from here */
    ID_OVER_A,
    ID_OVER_B,
    ID_OVER_C,
    ID_OVER_D,
    ID_OVER_E,
    ID_OVER_F,
    ID_OVER_FIELD,
    ID_OVER_OK,
    ID_OVER_CLOSE,
    ID_OVER_G,
    ID_OVER_H,
    ID_OVER_I,
    ID_OVER_TOP, /* answered by a list: its first row */
    ID_OVER_ROWS = 920,
    ID_CARD = 1000,
    ID_CARD_OK,
    ID_CARD_BACK,
    ID_CARD_LAYOUT,
    ID_CARD_PAGE,
    ID_CARD_CHECK, /* and the points after it */
    ID_CARD_KEY = ID_CARD_CHECK + 16,
    ID_OVER_DELETE = 100000 /* one a learner: after any number of rows */
};

/* files.c: find a data file in --data, beside the program, in the source tree, in the prefix */
/* Tell the readers of files where machines and materials are that are called by name. */
void app_places(const AppOptions *o);
int app_find(const AppOptions *o, const char *name, char *path, size_t size);
/* A shipped climate by its name; 0 = there is none, and `climate` is as it was. */
int app_climate(const AppOptions *o, const char *name, PbClimate *climate);
/* The shipped exercises, read once. */
void app_exercises(App *app);
/* The climate of the run's exercise, for the years part of the marks; after run_start. */
void app_take_climate(App *app);
/* language.c */
void app_language(App *app, int lang);
/* The one after it, round. */
int app_next_language(const App *app);
/* As their readers call them; how many. */
int app_language_names(const char *names[WORDS_MOST]);
/* marks.c */
void app_mark(const App *app, const char *name, GfxRect rect);
const AppMark *app_mark_find(const App *app, const char *name);
/* notice.c */
void app_notice(App *app, const char *title, const char *text, int is_danger, double seconds);
void notice_draw(const App *app, GfxRect r);
/* page.c: between the two the room or card has at least `least_px` of height, and what it needs. */
void page_begin(App *app, Page *page, float least_px);
void page_end(App *app);
/* Something is `more_px` higher than its place, or lower when negative: the page grows by it. */
void page_needs(const App *app, float more_px);
/* pointer.c */
double app_pixels(const App *app, int points);
double app_notches(const SDL_MouseWheelEvent *w);
/* task.c: the run at hand. Title and lesson of a graded run are told with its result. */
const char *app_bay_title(const App *app);
const char *app_bay_lesson(const App *app);
void app_ask(App *app, AskKind kind, const PbExercise *e, int64_t id);
/* On with a bay of a job that was left as run `id`. */
void app_ask_fill_on(App *app, int64_t id);
/* A bay of a job; `crew` packs it under one's eyes, NULL = by hand. Both copied. */
void app_ask_fill(App *app, const PbSessionConfig *config, const PbJobWorker *crew);
int app_has_run(const App *app); /* one that is not over */
/* Chances of a try: those of --seed, else its own, told with what came of it; six digits, so that
 * they can be told to somebody who shall have the same. */
uint64_t app_seed(const App *app);
void guide_first_exercise(App *app); /* asks for it */
int guide_is_done(const App *app);   /* it was a guided one */
double app_shown_s(const App *app);  /* the time that moving marks are drawn at */
/* shell/class_card.c: open the table of the class; change to the person whose turn it is */
void class_card_open(App *app);
void class_turn(App *app);
/* card_plate.c */
void app_card_open(App *app, AppCard card);
/* The plate of a card in the middle, and a veil over the room; the card's page grows with it. */
GfxRect app_card_ground(const App *app, float w, float h, float radius, GfxColor c, float line,
                        GfxColor edge);
GfxRect app_card_plate(const App *app, float w, float h, const char *title);
/* The window of a card's list that holds the row in focus, `at`, and what the wheel asks for; its
 * scroll bar is drawn. Tab knows the rows in it and one more at each end, so that a long list
 * leaves it room for what comes after: the caller puts the shown ones in the order. Rows are
 * ID_OVER_ROWS and on; a moved list answers ID_OVER_TOP. */
typedef struct CardList {
    int first, count;
} CardList;
CardList app_card_list(const App *app, GfxRect r, float row_high, int all, int at);
enum { CARD_MARGIN = 16 };          /* px that stay free over and under it */
int app_is_covered(const App *app); /* by cautions, controls or another card */
/* format.c: figures in the chosen units, decimal mark of the country */
IoReaderTaste app_reader(const App *app); /* whom sentences are for */
/* Room of one text of AppFigures; good until fifteen more were asked for. */
char *app_figure_room(const App *app);
const char *app_fmt(const App *app, int decimals, double value, const char *unit);
const char *app_fmt_length(const App *app, double m);
const char *app_fmt_small(const App *app, double m);
const char *app_fmt_pressure(const App *app, double pa);
const char *app_fmt_load(const App *app, double pa);
const char *app_fmt_flow(const App *app, double m3_s);
const char *app_fmt_density(const App *app, double kg_m3, int with_unit);
/* ground.c: what pictures are laid out for here, and a picture; its list is given back. */
PicGround app_ground(const App *app);
void app_paint(const App *app, GfxShapes *shapes);
const char *app_fmt_mass(const App *app, double kg);
const char *app_fmt_feed(const App *app, double kg_s);
const char *app_fmt_points(const App *app, double points); /* a decimal only where there is one */
/* Of a part that lost less than is told. */
const char *result_little_lost(const PbScorePart *part);
/* A mark beside its pass mark, io/score_words.h. */
const char *app_fmt_mark(const App *app, double total);
const char *app_fmt_clock(const App *app, double s);
/* A sentence with its named figures, io_named_figures; good until three more were made. */
const char *app_said(const App *app, const char *text);
const char *app_fmt_unit(const App *app, IoUnit unit, double si);
const char *app_unit(const App *app, IoUnit unit);
/* top_band.c */
void app_top_band(const App *app, const char *title, const char *detail);
float app_band_height(const App *app);
float app_band_row_high(const App *app); /* of its first row */
/* In which row stand the second group and the switches, so that all of it fits: beside the title,
 * one row under it, or each in a row of its own. */
typedef struct BandPlan {
    int second, switches;
} BandPlan;
BandPlan app_band_plan(const App *app, float title, float second, float switches);
float app_band_y(const App *app, int row); /* of the buttons in it */
float app_switches_width(const App *app);
/* Units, language and text size up to `right`; those that would begin left of `least` are left out.
 * Returns the left end. */
float app_switches_draw(const App *app, float right, float y, float high, float least);
/* The largest text that leaves the room its place; a smaller one is as it was chosen. */
double app_text_most(const App *app);
/* What the switches and the way back answered, in any room. */
void app_band_answer(App *app);
/* wall.c */
void wall_draw(const App *app, GfxRect inner, double px_m);
void wall_scale_draw(const App *app, const PbExercise *e, GfxRect inner, double px_m, float x);
void wall_frame_draw(const App *app, GfxRect inner, float stud);
void wall_boards_draw(const App *app, const PbExercise *e, GfxRect r, double y0, double y1,
                      double px_m);
void wall_field_draw(const App *app, const PbExercise *e, GfxRect r, double x0, double y0,
                     double x1, double y1, double px_m);
void wall_blocks_draw(const App *app, const PbExercise *e, GfxRect r, double x0, double y0,
                      double px_m);
void wall_tube_draw(const App *app, GfxRect inner, double px_m, int is_close);
void wall_tufts_draw(const App *app, double left_px, double bottom_px, double px_m);
void wall_hose_draw(const App *app, GfxRect inner, double px_m, float lane);
/* legend.c, travel.c */
void legend_draw(const App *app, double target_kg_m3, GfxRect r);
void travel_draw(const App *app, GfxRect r, GfxRect inner, double px_m, int is_beside);
void travel_whole_draw(const App *app, GfxRect r, GfxRect inner, double px_m);

#endif
