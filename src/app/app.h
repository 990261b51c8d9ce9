/* Private to app: what the window program holds together. Read main.c first, then loop.c. */
#ifndef APP_APP_H
#define APP_APP_H

#include "door.h"
#include "exercises.h"
#include "guide.h"
#include "keymap.h"
#include "records.h"
#include "run.h"
#include "screens.h"
#include "sight.h"

#include "words.h"

#include "core/course.h"
#include "core/marks.h"
#include "io/settings_file.h"
#include "io/taste.h"
#include "render/render.h"
#include "ui/ui.h"

#include <SDL.h>

/* Exit codes, as in pullback-cli. */
enum { APP_DONE = 0, APP_TROUBLE = 1, APP_USAGE = 2, APP_BAD_INPUT = 3, APP_IO = 4 };

#define APP_MAX_MARKS 96

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

/* A named place on the screen, for scripts and tests. */
typedef struct AppMark {
    char name[24];
    GfxRect rect;
} AppMark;

/* Cards that any room may open; one at a time, and the room under it sleeps. */
typedef enum AppCard {
    CARD_NONE,
    CARD_SETTINGS,
    CARD_LEARNER,
    CARD_FILE,
    CARD_GUIDE,
    CARD_DELETE
} AppCard;
/* A learner about whom is asked whether everything goes. */
typedef struct LearnerGone {
    int64_t id;
    char name[STORE_NAME_BYTES + 1];
    StoreContents contents;
} LearnerGone;

typedef enum AppDrag { DRAG_NONE, DRAG_BAY, DRAG_LOOK } AppDrag;
typedef enum AppMiddle { MIDDLE_BAY, MIDDLE_CLOSE, MIDDLE_TRAVEL } AppMiddle;

/* Keys and sticks held down now, from events alone (never polled). */
typedef struct AppHeld {
    int tube_out, tube_in, blower_less, blower_more, feed_less, feed_more;
    double stick_rate;                 /* -1..1, + pushes in */
    double trigger_less, trigger_more; /* 0..1 */
    int rate_sent;
    int down_tick[KEY_ACTIONS]; /* of the run, when the key went down */
    double down_want;           /* of blower or feed, when its key went down */
    int tap_ticks;              /* of the run at the last tap, plus 1; 0 = none yet */
    double tap_in_m;            /* where taps since that tick put the tube */
} AppHeld;

/* What a trainer has typed for a part of a run and not saved yet. */
enum { APP_DRAFTS = 16, APP_DRAFT_TEXT = 600 };
typedef struct AppDraft {
    int64_t run_id; /* 0 = free */
    int part;
    double points; /* negative = none */
    char text[APP_DRAFT_TEXT + 1];
} AppDraft;

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

typedef struct App {
    AppOptions options;
    SDL_Window *window;
    SDL_GLContext context;
    SDL_GameController *pad;
    Render *render;
    UiText *text;
    Ui ui;
    Run run;
    AppScreen screen; /* shown now */
    int go_to;        /* asked for, -1 = none */
    int is_entered;   /* the screen has been entered */
    int middle_tab, gauge_tab, result_tab;
    int width, height;                      /* of the drawable */
    double display_scale;                   /* pixels a window point */
    double now_s;                           /* program time */
    int is_running, is_paused, is_us, lang; /* lang: row of words_languages */
    int is_comma;                           /* the country writes "2,5" in this language */
    double text_scale;
    struct Debrief *debrief;          /* the room's own, NULL outside it */
    AppDraft drafts[APP_DRAFTS];      /* outlast the room; debrief_draft.c */
    int draft_turn;                   /* which goes when all are taken */
    const PbExercise *shown_exercise; /* of the wall being drawn; NULL = the run's own */
    AppHeld held;
    AppNotice notice;
    AppStanding standing; /* what is so now and is told as long as it is */
    AppCard card;
    int focus_next; /* widget to have the keyboard from the next frame on; -1 = as it is */
    int band_rows, band_need; /* of the top band: now, and what it needs */
    Page page, card_page;     /* the room, and the card over it */
    Page *laid;               /* the one that is being laid out */
    int card_top, is_watched;
    LearnerGone gone;
    int drop_text;   /* what a key typed that has just opened a card */
    char field[600]; /* what is typed on a card */
    char card_says[400];
    IoSettings kept, shown;  /* as in the file; as last seen on the screen */
    char settings_path[600]; /* "" = nowhere to keep them */
    int is_contrast, is_still;
    Exercises exercises;
    Records records;
    Door door;
    int cautions_open, cautions_seen, on_after_cautions;
    double wax_pressure_pa, wax_feed;
    AppDrag drag; /* by which picture the tube is held */
    float drag_y;
    double drag_from_m;
    double needle_pa;
    double tube_want_m;                 /* where hands hold the tube; negative = by rate */
    double blower_want, feed_want_kg_s; /* while a key moves them */
    int notice_in_middle;
    GfxRect middle;    /* between Hands and gauges: where a notice goes when Hands is full */
    GfxRect bay, look; /* on screen now; zero when not shown */
    double bay_px_m, look_px_m;
    AppMark marks[APP_MAX_MARKS];
    int mark_count;
    char words[16][64]; /* rotating room for formatted figures */
    int word;
    double slow_until_s, dropped_seen_s;
    int want_shot;
    char shot_name[256];
    double last_rumble_s;
    int exit_code;
    double quit_asked_s; /* when the program was asked to end in the middle of a run */
    struct Years *years; /* while that room is shown */
    struct Side *side;   /* the same */
    int is_own_wanted;   /* Side by side opens with the run as its dense pack */
    int sight;           /* SightLevel */
    int practice_sight;  /* of runs that do not count */
    int is_graded;       /* no hints, and the sight level stays */
    PbCoach coach;
    int coach_started, notice_is_hint, notice_stands;
    double coach_s;
    SightPlan plan;
    SightMemory memory;
    double wax_pitch, wax_pulse; /* negative = no mark */
    struct AudioDevice *audio;
    double volume;                         /* 0..1 */
    int is_muted, sound_waits, sound_news; /* no device: waits for news of one */
    char device[IO_SETTINGS_DEVICE + 1];   /* chosen loudspeaker; "" = the system's choice */
    int is_uncaptioned;                    /* no words for what is heard */
    Guide guide;
    int is_guide_seen;
    Keymap keymap;
    int keys_open;
    int keys_wait; /* controls card: 1 + the action, or KEY_ACTIONS + the axis, that waits */
    unsigned safety_ticked; /* bits of the check list */
    int safety_skipped;     /* points left out in this run, with plugs to be cleared under power */
    double clear_asked_s;   /* when a plug was asked to be cleared under power */
    int pad_index, rumbles; /* tests: virtual controller, index + 1; rumbles felt by it */
    double shake_low, shake_high;
} App;

/* Widget numbers. Those of the cautions card are highest: a card puts the rest to sleep. The bay
 * and its result have 1 to 199, Debrief 300 to 399, Years 400 to 499, Side by side 500 to 599, the
 * Door 600 to 899, cards
 * that any room may open 900 and more. */
enum {
    ID_UNITS = 1,
    ID_LANG,
    ID_SIZE,
    ID_PAUSE,
    ID_TUBE,
    ID_TURN,
    ID_BLOWER,
    ID_FEED,
    ID_MACHINE,
    ID_CLEAR,
    ID_FINISH,
    ID_CAUTIONS,
    ID_MIDDLE,
    ID_GAUGES,
    ID_AGAIN,
    ID_LEAVE,
    ID_FAN,
    ID_TO_YEARS,
    ID_TO_DEBRIEF,
    ID_TO_SIDE,
    ID_SIGHT,
    ID_SOUND,
    ID_COMB,
    ID_SHAKE,
    ID_BACK,
    ID_GUIDE_SKIP,
    ID_PAGE,
    ID_DOOR_ROOMS = 600, /* and three more */
    ID_DOOR_CHANGE = 610,
    ID_DOOR_LIST,
    ID_DOOR_START,
    ID_DOOR_RESTART,
    ID_DOOR_FILE,
    ID_DOOR_SETTINGS,
    ID_DOOR_GUIDE,
    ID_DOOR_GRADED,
    ID_DOOR_ROWS = 640, /* by mouse only, one a row */
    ID_OVER = 900,      /* cards of any room from here */
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

/* options.c */
int app_options_parse(int argc, char **argv, AppOptions *o);
/* window.c */
int app_window_open(App *app);
void app_window_close(App *app);
void app_window_measure(App *app);
/* language.c */
void app_language(App *app, int lang);
/* The one after it, round. */
int app_next_language(const App *app);
/* As their readers call them; how many. */
int app_language_names(const char *names[WORDS_MOST]);
/* files.c: find a data file in --data, beside the program, in the source tree, in the prefix */
int app_find(const AppOptions *o, const char *name, char *path, size_t size);
/* A shipped climate by its name; 0 = there is none, and `climate` is as it was. */
int app_climate(const AppOptions *o, const char *name, PbClimate *climate);
/* The climate of the run's exercise, for the years part of the marks; after run_start. */
void app_take_climate(App *app);
/* loop.c */
/* SIGUSR1 asks for a dump, SIGHUP to end; before the window can be seen. */
void app_watch_signals(void);
int app_loop(App *app);
void app_frame(App *app, double dt_s);
void app_lay_out(App *app); /* the widgets answer what was taken; nothing is shown yet */
void app_draw_and_show(App *app);
void app_mark(App *app, const char *name, GfxRect rect);
const AppMark *app_mark_find(const App *app, const char *name);
void app_notice(App *app, const char *title, const char *text, int is_danger, double seconds);
/* page.c: between the two the room or card has at least `least_px` of height, and what it needs. */
void page_begin(App *app, Page *page, float least_px);
void page_end(App *app);
/* Something is `more_px` higher than its place, or lower when negative: the page grows by it. */
void page_needs(App *app, float more_px);
/* events.c */
void app_input_event(App *app, const SDL_Event *event);
void app_text_size(App *app, double by);
double app_pixels(const App *app, int points);
double app_notches(const SDL_MouseWheelEvent *w);
/* input.c: hands in the bay room */
int bay_input(App *app, const SDL_Event *event);
void bay_held(App *app, double dt_s);
void bay_let_go(App *app);
void app_machine(App *app, int on);
void app_tube_to(App *app, double tube_in_m);
void app_finish(App *app);
/* open.c: how a run begins. They go to the bay room, or tell why not and change nothing. */
void app_run_exercise(App *app, const PbExercise *e);
void app_run_graded(App *app, const PbExercise *e); /* counts: no hints, the sight stays */
/* Title and lesson of the bay at hand; of a graded run they are told with its result. */
const char *app_bay_title(const App *app);
const char *app_bay_lesson(const App *app);
void app_run_guide(App *app);             /* practice that nobody keeps */
void app_run_go_on(App *app, int64_t id); /* a run that was left, from where it was left */
void app_open_file(App *app, const char *path);
void app_again(App *app);
int app_has_run(const App *app); /* one that is not over */
/* guide_panel.c: the guide for newcomers on the screen; its steps are in guide.c */
void guide_start(App *app);
void guide_stop(App *app);
void guide_frame(App *app);
int guide_is_done(const App *app); /* the run on the result screen was a guided one */
void guide_first_exercise(App *app);
float guide_strip_draw(App *app, GfxRect r);
void guide_ring_draw(App *app);
void guide_card_draw(App *app);
/* result_words.c */
void result_fault_text(App *app, const PbScorePart *part, char *out, size_t size);
/* Of a part that lost less than is told. */
const char *result_little_lost(const PbScorePart *part);
const char *result_verdict(App *app); /* "Passed", "Do it again", "Failed" */
float result_short_draw(App *app, GfxRect r, int is_stacked);
/* settings.c */
void settings_open(App *app);
void settings_watch(App *app);      /* once a frame: keep what the person has changed */
double app_shown_s(const App *app); /* the time that moving marks are drawn at */
/* cards.c */
void app_card_open(App *app, AppCard card);
/* The plate of a card in the middle, and a veil over the room; the card's page grows with it. */
GfxRect app_card_ground(App *app, float w, float h, float radius, GfxColor c, float line,
                        GfxColor edge);
GfxRect app_card_plate(App *app, float w, float h, const char *title);
enum { CARD_MARGIN = 16 };          /* px that stay free over and under it */
int app_is_covered(const App *app); /* by cautions, controls or another card */
/* A field, then Back and the primary button; 1 when the person wants it done. */
int app_card_field(App *app, GfxRect at, const char *hint, const char *ok, int size);
void cards_draw(App *app);
/* learner_card.c */
void learner_card_draw(App *app);
void learner_delete_draw(App *app);
void notice_draw(App *app, GfxRect r);
/* format.c: figures in the chosen units, decimal mark of the country */
IoReaderTaste app_reader(const App *app); /* whom sentences are for */
const char *app_fmt(App *app, int decimals, double value, const char *unit);
const char *app_fmt_length(App *app, double m);
const char *app_fmt_small(App *app, double m);
const char *app_fmt_pressure(App *app, double pa);
const char *app_fmt_load(App *app, double pa);
const char *app_fmt_flow(App *app, double m3_s);
const char *app_fmt_density(App *app, double kg_m3, int with_unit);
const char *app_fmt_mass(App *app, double kg);
const char *app_fmt_feed(App *app, double kg_s);
const char *app_fmt_points(App *app, double points); /* a decimal only where there is one */
/* A mark beside its pass mark, io/score_words.h. */
const char *app_fmt_mark(App *app, double total);
const char *app_fmt_clock(App *app, double s);
/* A sentence with its named figures, io_named_figures; good until three more were made. */
const char *app_said(const App *app, const char *text);
const char *app_fmt_unit(App *app, IoUnit unit, double si);
const char *app_unit(const App *app, IoUnit unit);
/* bay_step.c */
void bay_update(App *app, double dt_s);
/* scr_bay.c, card.c */
GfxFieldData bay_field(App *app);
void app_card_draw(App *app);
void app_top_band(App *app, const char *title, const char *detail);
float app_band_height(const App *app);
float app_band_row_high(const App *app); /* of its first row */
/* In which row stand the second group and the switches, so that all of it fits: beside the title,
 * one row under it, or each in a row of its own. */
typedef struct BandPlan {
    int second, switches;
} BandPlan;
BandPlan app_band_plan(App *app, float title, float second, float switches);
float app_band_y(const App *app, int row); /* of the buttons in it */
float app_switches_width(const App *app);
/* Units, language and text size up to `right`; those that would begin left of `least` are left out.
 * Returns the left end. */
float app_switches_draw(App *app, float right, float y, float high, float least);
/* wall.c */
const PbExercise *wall_exercise(const App *app);
void wall_draw(App *app, GfxRect inner, double px_m);
void wall_scale_draw(App *app, GfxRect inner, double px_m, float x);
void wall_frame_draw(App *app, GfxRect inner, float stud);
void wall_boards_draw(App *app, GfxRect r, double y0, double y1, double px_m);
void wall_field_draw(App *app, GfxRect rect, double x0, double y0, double x1, double y1,
                     double px_m);
void wall_blocks_draw(App *app, GfxRect r, double x0, double y0, double px_m);
void wall_tube_draw(App *app, GfxRect inner, double px_m, int is_close);
void wall_tufts_draw(App *app, double left_px, double bottom_px, double px_m);
void wall_hose_draw(App *app, GfxRect inner, double px_m, float lane);
/* hands_panel.c, closelook.c, travel.c, gauges.c */
void hands_panel_draw(App *app, GfxRect r);
void hands_notice_draw(App *app);
void closelook_draw(App *app, GfxRect r);
void legend_draw(App *app, GfxRect r);
void travel_draw(App *app, GfxRect r, GfxRect inner, double px_m, int is_beside);
void travel_whole_draw(App *app, GfxRect r, GfxRect inner, double px_m);
void gauges_draw(App *app, GfxRect r);
void face_draw(App *app, GfxRect r, int is_line);
float face_line_high(App *app, float wide); /* that it needs as a line */
/* sight.c, taped.c, sound.c, shake.c, controls.c, safety.c, hidden.c */
Gauge sight_gauge(App *app);
void sight_next(App *app);
void sight_wax(App *app);
float sight_switch_draw(App *app, float title_right, GfxRect middle);
void sight_closed_draw(App *app, GfxRect r);
void coach_frame(App *app);
int sight_may_tell(const App *app, PbEventKind kind);
void taped_wall_draw(App *app, GfxRect inner, double px_m);
void taped_side_draw(App *app, GfxRect r);
float taped_side_width(App *app); /* that it needs */
void sound_open(App *app);
void sound_close(App *app);
void sound_frame(App *app);
void sound_mute(App *app);
void sound_louder(App *app);
void sound_next_device(App *app);
const char *sound_device_label(App *app);
const char *sound_label(App *app);
void shake_frame(App *app);
void controls_open(App *app);
void controls_draw(App *app);
void controls_start(App *app);
int controls_take_key(App *app, int key);
int controls_take_pad(App *app, int button);
int controls_take_axis(App *app, int axis, double value);
void virtual_pad_attach(App *app);
void virtual_pad_detach(App *app);
int virtual_pad_set(App *app, const char *what, double value);
void safety_checked(App *app);
void safety_clear_plug(App *app);
int hidden_changes_frame(App *app);
/* script.c */
typedef struct Script Script;
Script *script_load(const char *path, char *why, size_t why_size);
void script_free(Script *s);
int script_step(Script *s, App *app); /* before a frame; 0 = the script is over */
int script_every(const Script *s);
int script_only_waits(const Script *s, const App *app); /* nobody looks, nothing is done */
int script_is_paced(const Script *s); /* frames wait for the clock, as a person's do */
/* dump.c, shot.c */
int dump_value(const App *app, const char *key, double *value);
int dump_write(const App *app, const char *path);
int shot_write(App *app, const char *path);
/* bench.c */
int bench_run(App *app);

#endif
