/* Private to app/bay: the room where the bay is packed, and what it keeps. */
#ifndef APP_BAY_BAY_H
#define APP_BAY_BAY_H

#include "base/app.h"
#include "bay/gauge.h"

#include "core/voice.h"

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

enum { BAY_STILL_TUFTS = 200 };

/* The long first stop, hurried (quick.c). */
typedef struct BayQuick {
    int is_on, has_moved; /* has_moved: the needle, since this stop began */
    int direction;        /* of the tube's end that it is about */
    double deepest_m;     /* how far in it was pushed at that end */
    double last_s, tube_in_m;
    double from_pa, rattle, since_s; /* from_pa: where the needle stood when fill came evenly;
                                        negative = not yet */
} BayQuick;

/* The face has given way: looked at for two seconds, then comes the sheet. */
typedef struct BayBreak {
    int is_on;
    double since_s; /* of the program */
    int creaks;     /* of this run, before */
} BayBreak;

typedef struct Bay {
    AppHeld held;
    AppDrag drag; /* by which picture the tube is held */
    float drag_y;
    double drag_from_m;
    double tube_want_m;                 /* where hands hold the tube; negative = by rate */
    double blower_want, feed_want_kg_s; /* while a key moves them */
    double wax_pressure_pa, wax_feed, wax_pitch, wax_pulse; /* negative = no mark */
    int is_full; /* all sliders and panels, not the bay at a glance */
    int middle_tab, gauge_tab;
    double view_low_m; /* foot of the large view, as it glides to where it should be */
    int is_view_set;   /* it has been worked out for the run at hand */
    double needle_pa;
    PbTuft still[BAY_STILL_TUFTS]; /* what flies, where the picture is to stand still */
    int still_count;
    double still_s; /* of the run, when they were taken */
    PbVoice voice;
    PbSaid said; /* what it says now; shown where it may speak */
    int coach_started;
    double coach_s;
    SightMemory memory;
    BayQuick quick;
    BayBreak broke;
    double clear_asked_s; /* when a plug was asked to be cleared under power */
    double last_rumble_s;
    int pad_index, rumbles; /* tests: virtual controller, index + 1; rumbles felt by it */
    double shake_low, shake_high;
} Bay;

enum {
    ID_PAUSE = ID_BAY,
    ID_TUBE,
    ID_TURN,
    ID_BLOWER,
    ID_FEED,
    ID_MACHINE,
    ID_CLEAR,
    ID_FINISH,
    ID_ACTS,
    ID_CAUTIONS,
    ID_MIDDLE,
    ID_GAUGES,
    ID_FAN,
    ID_SIGHT,
    ID_SOUND,
    ID_COMB,
    ID_SHAKE,
    ID_GUIDE_SKIP,
    ID_FULL,
    ID_PULL,
    ID_TURN_OVER, /* the mouth, by a button */
    ID_SWITCH,    /* the machine, by a button */
    ID_QUICKER
};

/* input.c: hands in the bay room */
extern const double bay_step_m; /* one set step of the tube */
int bay_input(App *app, const SDL_Event *event);
void bay_held(App *app, double dt_s);
void bay_let_go(App *app);
void app_machine(App *app, int on);
void app_tube_to(App *app, double tube_in_m);
void app_finish(App *app);
void bay_turn(App *app, int direction); /* of the mouth: +1 up, -1 down */
void bay_turn_over(App *app);           /* the page: at a glance, or all the rest */
void bay_pull(App *app);                /* a set step out */
/* quick.c: the long first stop, hurried */
int quick_may(const App *app);
double quick_times(const App *app); /* so many seconds of the run to one of the clock */
void quick_turn(App *app);          /* on where it may be, or off */
void quick_frame(App *app);
/* guide_panel.c: the guide for newcomers on the screen; its steps are in base/guide.c */
void guide_start(App *app);
void guide_stop(App *app);
void guide_frame(App *app);
float guide_strip_draw(const App *app, GfxRect r);
void guide_ring_draw(const App *app);
void guide_card_draw(const App *app);
void guide_card_answer(App *app);
/* room.c: the band; height of the row that its switches needed over the middle */
float bay_band(const App *app);
/* full.c: all sliders and panels */
void full_draw(const App *app);
void full_answer(App *app);
/* glance.c, glance_hands.c, glance_view.c, glance_staff.c: the bay at a glance */
void glance_draw(const App *app);
void glance_answer(App *app);
void glance_frame(App *app, double dt_s); /* the large view goes after the mouth */
/* Height that the controls need in this width; drawn at the top of `r`. */
float glance_hands_high(const App *app, float wide);
void glance_hands_draw(const App *app, GfxRect r);
/* The large view of this part of the bay. */
typedef struct GlanceView {
    GfxRect r;
    GfxRect inner; /* the whole bay on the scale of the view, most of it outside of `r` */
    double px_m, low_m;
} GlanceView;
GlanceView glance_view(const App *app, GfxRect r);
void glance_view_draw(const App *app, const GlanceView *view);
/* glance_storm.c, glance_hose.c: what moves in it */
void glance_storm_frame(App *app);
void glance_storm_draw(const App *app, const GlanceView *view);
void glance_pile_draw(const App *app, const GlanceView *view);
void glance_gap_dust_draw(const App *app, const GlanceView *view);
void glance_ring_draw(const App *app, float x, float y); /* round the mouth */
void glance_hose_draw(const App *app, const GlanceView *view, float lane);
void glance_staff_draw(const App *app, GfxRect r, const GlanceView *view);
/* Is lift i worth a name beside the wall? The one under way is, while the machine runs. */
int glance_is_stop(const App *app, int i);
float glance_staff_width(const App *app); /* that its figures need beside the bay */
/* clog.c: a clog while it is cleared */
int clog_step(const App *app);     /* 1 to 4; 0 = none is being cleared */
double clog_share(const App *app); /* of the time for it that is over, 0..1; else negative */
const char *clog_words(const App *app);
float clog_gap(const App *app);
void clog_heap_draw(const App *app, float x, float floor_y, float end_y, double px_m);
/* broke.c: the face has given way */
int broke_is_on(const App *app);
void broke_begin(App *app);
void broke_creak(App *app);
const char *broke_words(const App *app, char *out, size_t size); /* `out` or static */
int broke_covers(const App *app, double y_m); /* is the face off at this height? */
void broke_draw(const App *app, const GlanceView *view, float edge_x, float stud_px);
void broke_ring_draw(const App *app, float x, float y);
void broke_face_draw(const App *app, GfxRect bay, float floor_y, double px_m);
/* step.c */
void bay_update(App *app, double dt_s);
/* cautions_card.c */
void cautions_card_draw(const App *app);
void cautions_card_answer(App *app);
/* acts_card.c */
void acts_open(App *app);
void acts_card_draw(const App *app);
void acts_card_answer(App *app);
int acts_key(App *app, int action); /* 1 = it is an act of the card */
/* hands_panel.c, closelook.c, gauges.c */
/* After a layout: what was done on the panel, the switches, the guide's strip. */
void hands_panel_answer(App *app);
void sight_answer(App *app);
void guide_strip_answer(App *app);
void hands_panel_draw(const App *app, GfxRect r);
void hands_notice_draw(const App *app);
/* Name of the key of this action, as its cap shows it. */
const char *hands_cap(const App *app, int action);
void closelook_draw(const App *app, GfxRect r);
void gauges_draw(const App *app, GfxRect r);
void face_draw(const App *app, GfxRect r, int is_line);
/* Load of the face where it is nearest to breaking, share of its strength. */
double face_share(const App *app);
/* The face warns where marks begin to be lost for it and is in danger where none are left. */
GfxColor face_color(const App *app, GfxColor calm, GfxColor warn, GfxColor danger);
float face_line_high(const App *app, float wide); /* that it needs as a line */
/* sight.c, taped.c, sound.c, shake.c, safety.c */
Gauge sight_gauge(const App *app);
void sight_next(App *app);
void sight_wax(App *app);
float sight_switch_draw(const App *app, float title_right, GfxRect middle);
void sight_closed_draw(const App *app, GfxRect r);
void coach_frame(App *app);
/* The sentence in words, both rooms of `size`; 0 = it says nothing. */
int coach_words(const App *app, PbSaid said, char *title, char *text, size_t size);
int coach_speaks(const App *app); /* not in a graded run, nor beside the guide */
int sight_may_tell(const App *app, PbEventKind kind);
void taped_wall_draw(const App *app, GfxRect inner, double px_m);
void taped_side_draw(const App *app, GfxRect r);
float taped_side_width(const App *app); /* that it needs */
void sound_open(App *app);
void sound_close(App *app);
void sound_frame(App *app);
void sound_mute(App *app);
void sound_louder(App *app);
void sound_next_device(App *app);
const char *sound_device_label(const App *app);
const char *sound_label(const App *app);
void shake_frame(App *app);
void safety_checked(App *app);
void safety_clear_plug(App *app);

#endif
