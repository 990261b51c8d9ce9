/* Private to app: the Debrief room. Read room.c first: it says who draws what.
 * A recorded run is replayed once on opening, for the time line and the marks; after that any
 * moment is reached through the key states of core/replay.h. */
#ifndef APP_DEBRIEF_H
#define APP_DEBRIEF_H

#include "base/app.h"

#include "core/mark_range.h"
#include "core/watched.h"
#include "store/runs.h"
#include "store/store.h"

enum { DEBRIEF_TEXT = APP_DRAFT_TEXT, DEBRIEF_RUNS = 2 };

/* One run on the table. */
typedef struct DebriefRun {
    int is_open, is_scanned, is_reference;
    int is_part;    /* as in Run */
    int is_guided;  /* by the guide: it has no grade */
    int is_left;    /* broken off: it has no grade */
    PbRunGrade own; /* the grade that it came with: the trainer's points go by its parts */
    int64_t id;     /* in the store; 0 = a file */
    char learner[STORE_NAME_BYTES + 1], when[24];
    PbRunFile file;
    PbWatched watched; /* its replay: seen once, then wherever the time line stands */
    double end_s;
    PbPatch patches[PB_SCORE_MAX_PATCHES]; /* where the replay stands */
    int patch_count;
} DebriefRun;

typedef enum DebriefPanel {
    PANEL_RUBRIC,
    PANEL_SHORT,
    PANEL_LOSSES,
    PANEL_LIFTS,
    PANEL_TRAINER
} DebriefPanel;

enum { DEBRIEF_RUBRICS = 24 };

typedef enum DebriefFilterKind { FILTER_NONE, FILTER_LEARNER, FILTER_EXERCISE } DebriefFilterKind;

typedef struct DebriefPdfJob DebriefPdfJob;   /* pdf.c */
typedef struct DebriefSureJob DebriefSureJob; /* sure.c */

/* What a layout leaves behind for those after it and for its answers. */
typedef struct DebriefLaid {
    GfxRect chart;   /* left and width of everything that stands on the scale of time */
    int first_panel; /* DebriefPanel of the first tab */
} DebriefLaid;

/* What the store has: runs that the filter lets through, newest first, and whose of what there are.
 */
typedef struct DebriefKept {
    StoreRun *runs;
    int count, row, first_row; /* row: chosen, -1 none; first_row: at the top of the list */
    StoreLearner *learners;
    int learner_count;
    char exercises[32][48], titles[32][96];
    int exercise_count;
} DebriefKept;

typedef struct DebriefFilter {
    int learner, exercise; /* -1 all, else index into DebriefKept */
    int open, first_row;   /* DebriefFilterKind whose choices are listed; the top of that list */
} DebriefFilter;

/* Runs that may stand beside it: of the same exercise. */
typedef struct DebriefMates {
    StoreRun *list;
    int count, chosen; /* -1 nothing, count = the reference run */
    int has_reference;
} DebriefMates;

typedef struct DebriefMarks {
    StoreMark *list; /* oldest first */
    int count;
} DebriefMarks;

typedef struct DebriefRubrics {
    PbRubric list[DEBRIEF_RUBRICS]; /* the default first */
    int count, chosen;
} DebriefRubrics;

typedef struct DebriefGrades {
    StoreGrade *list; /* under every rubric that was asked for */
    int count;
} DebriefGrades;

/* Runs of this learner in this exercise. */
typedef struct DebriefCourse {
    StoreRun *list; /* oldest first, with parts */
    int count;
} DebriefCourse;

/* What the trainer says of one part of the run, and what was kept of it before. */
typedef struct DebriefBox {
    int64_t run; /* 0 = nothing yet */
    int part;
    double points;                /* negative = no points */
    char typed[DEBRIEF_TEXT + 1]; /* reason or comment, UTF-8 */
    double kept_points;
    char kept_text[DEBRIEF_TEXT + 1];
} DebriefBox;

typedef struct DebriefSaid {
    char text[300];
    double until_s;
    int is_trouble;
} DebriefSaid;

/* Density and hatching of one or two bays, for the renderer. */
typedef struct DebriefPicture {
    float *field;
    uint8_t *hatch;
    int field_room, hatch_room, nx, ny; /* nx, ny: of one bay */
} DebriefPicture;

typedef struct DebriefPdf {
    DebriefPdfJob *job; /* NULL = none under way */
    char path[700];     /* of the last one */
    int count;          /* written since the room was entered */
} DebriefPdf;

/* How sure the mark of the run is. */
typedef struct DebriefSure {
    DebriefSureJob *job; /* NULL = none under way */
    PbMarkRange range;   /* once is_known */
    int is_known;
} DebriefSure;

/* Which part of the room is seen where there is not room for all. */
typedef struct DebriefView {
    int panel; /* DebriefPanel */
    int is_course, is_list_open;
    int turn; /* 0 wall, 1 grade */
} DebriefView;

typedef struct Debrief {
    DebriefLaid *laid;
    Store *store;      /* the window's one; NULL: see trouble */
    char trouble[300]; /* why there are no runs */
    DebriefKept kept;
    DebriefFilter filter;
    DebriefRun runs[DEBRIEF_RUNS]; /* the run, and the one beside it */
    DebriefMates mates;
    DebriefCourse course;
    double at_s;
    int is_playing, speed; /* index into debrief_speeds */
    int loss, lift;        /* chosen, -1 none */
    int first_loss, first_lift;
    int part;
    DebriefView view;
    DebriefMarks marks;
    IoLastTime last_time; /* what the learner of the run did before in its exercise */
    DebriefBox box;
    char trainer[STORE_NAME_BYTES + 1]; /* who gives the marks; remembered in the store */
    DebriefRubrics rubrics;
    DebriefGrades grades;
    DebriefPdf pdf;
    DebriefSure sure;
    char place[500]; /* folder for runs that could not be kept */
    DebriefSaid said;
    DebriefPicture picture;
} Debrief;

enum { DEBRIEF_SPEEDS = 7 };
extern const double debrief_speeds[DEBRIEF_SPEEDS];

/* Widget numbers of this room. A list answers for two: its own with the row that was chosen, and
 * the one after it with the row that is to be its first. */
enum {
    ID_D_DOOR = 300,
    ID_D_LIST_OPEN,
    ID_D_COURSE,
    ID_D_LEARNER,
    ID_D_EXERCISE,
    ID_D_RUNS,
    ID_D_RUNS_TOP,
    ID_D_MATE,
    ID_D_PLAY,
    ID_D_SLOWER,
    ID_D_FASTER,
    ID_D_SCRUB,
    ID_D_TURN,
    ID_D_PANEL,
    ID_D_RUBRIC,
    ID_D_LOSSES,
    ID_D_LOSSES_TOP,
    ID_D_LIFTS,
    ID_D_LIFTS_TOP,
    ID_D_PART,
    ID_D_POINTS,
    ID_D_TEXT,
    ID_D_SAVE,
    ID_D_PDF,
    ID_D_SURE,
    ID_D_GRADED_BY,
    ID_D_NAME,
    ID_D_RETRY,
    ID_D_PLACE,
    ID_D_PLACE_SAVE,
    ID_D_CHOICES,
    ID_D_CHOICES_TOP,
    ID_D_CHOSEN,  /* the list of choices is done with */
    ID_D_CHART,   /* a press or a drag on the time line: place of its moment, 0..1 */
    ID_D_LEFT_OUT /* not all that was typed had room */
};

/* band.c; `is_folded`: the list of runs opens from here. */
void debrief_band_draw(const App *app, int is_folded);
void debrief_band_answer(App *app);
/* load.c: a run on the table. */
int debrief_run_open(App *app, DebriefRun *r, const void *bytes, size_t size, const char *name,
                     char *why, size_t why_size);
void debrief_run_close(DebriefRun *r);
/* Mark it by its rubric, as it stands at its end. The replay is left there. */
void debrief_run_mark(DebriefRun *r);
/* Some ticks of the first pass. Nonzero when it has just come to its end. */
int debrief_run_scan(App *app, DebriefRun *r, int ticks);
void debrief_run_seek(DebriefRun *r, double at_s);
/* store.c: what is kept. */
void debrief_pick_last(App *app); /* the run that was just worked, kept or not */
void debrief_refresh(App *app);
void debrief_pick(App *app, int row);
void debrief_pick_mate(App *app, int mate);
void debrief_next_mate(App *app); /* nothing, the reference run, then the others, newest first */
void debrief_save_mark(App *app);
void debrief_take_mark(App *app);
/* draft.c: what is typed and not saved. Once a frame while it may be typed. */
void debrief_draft_keep(App *app);
const AppDraft *debrief_draft_of(const App *app, int64_t run_id, int part);
const StoreMark *debrief_current_mark(const Debrief *d, const char *part, int with_points);
/* What changed since the last time: kept grades are compared, so by another rubric there is nothing
 * to say. */
const IoLastTime *debrief_last_time(const Debrief *d);
const char *debrief_part_key(int part);
double debrief_trainer_total(const Debrief *d, int *given);
void debrief_say(App *app, const char *text, int is_trouble);
/* rubric.c: by which rubric the run is marked. All grades asked for are kept. */
void debrief_rubrics_read(App *app);
void debrief_rubric_choose(App *app, int rubric);
void debrief_grade_keep(App *app);
void debrief_rubric_row(const App *app, GfxRect r);
void debrief_rubric_answer(App *app);
/* Points and maximum of a part in the grade that the run came with: a trainer's points are kept
 * out of that maximum. */
double debrief_own_points(const DebriefRun *r, int part, double *most);
/* Kept points of a part times this are points under the rubric in use. */
double debrief_in_use(const DebriefRun *r, int part);
/* held.c: runs that could not be kept. Returns the height that it took. */
float debrief_held_draw(const App *app, GfxRect r);
void debrief_held_answer(App *app);
/* pdf.c: the report is written on a thread of its own; look at it once a frame. */
void debrief_pdf(App *app);
void debrief_pdf_look(App *app);
void debrief_pdf_end(Debrief *d); /* waits for it */
/* sure.c: how sure the mark is. Asks for it; while it is being worked: stops that. */
void debrief_sure_ask(App *app);
void debrief_sure_look(App *app); /* once a frame */
/* Before the run on the table or its rubric changes: what is known goes, what is worked is ended.
 */
void debrief_sure_end(Debrief *d);
/* The button, or what is known. Returns its height; not drawn, it is measured. */
float debrief_sure_draw(const App *app, GfxRect r, int is_drawn);
/* map.c */
void debrief_map_draw(const App *app, GfxRect inner, double px_m, int which);
GfxFieldData debrief_field(App *app);
/* travel.c, time.c */
void debrief_travel_draw(const App *app, GfxRect r, GfxRect inner, double px_m);
/* By how many steps of 20 px (at 100 %) its ring stands aside, so that it lies on no other. */
int debrief_ring_shift(const DebriefRun *r, int rank, double px_s, double px_m);
void debrief_ring(Ui *ui, float x, float y, int number, int is_chosen);
void debrief_strips_draw(const App *app, GfxRect r, float names_x);
float debrief_play_width(const App *app); /* that the button and the clock need */
void debrief_transport_draw(const App *app, GfxRect r, float chart_x);
/* A press anywhere in `r` moves the time line there. */
void debrief_chart_drag(const App *app, GfxRect r);
void debrief_time_answer(App *app);
void debrief_play(App *app);
float debrief_x(const App *app, double t);
double debrief_span(const Debrief *d);
void debrief_go(App *app, double at_s);
void debrief_choose_loss(App *app, int loss);
void debrief_choose_lift(App *app, int lift);
/* Number of the ring of a loss: rank by points over all parts, from 1. */
int debrief_loss_rank(const PbScore *s, int loss);
int debrief_loss_at_rank(const PbScore *s, int rank);
/* grade.c, lists.c, trainer.c */
void debrief_grade_draw(const App *app, GfxRect r);
void debrief_grade_answer(App *app);
float debrief_rubric_draw(const App *app, GfxRect r, int is_tight);
void debrief_short_draw(const App *app, GfxRect r);
void debrief_losses_draw(const App *app, GfxRect r);
void debrief_lifts_draw(const App *app, GfxRect r);
void debrief_lists_answer(App *app);
void debrief_trainer_draw(const App *app, GfxRect r);
void debrief_trainer_answer(App *app);
/* side.c, filter.c, course.c */
void debrief_breaks_words(int breaks, char *out, size_t size); /* that a run was left so often */
void debrief_side_draw(const App *app, GfxRect r);
void debrief_side_answer(App *app);
/* The two buttons that say whose runs of what are listed, and the list that one of them opens. */
void debrief_filters_draw(const App *app, GfxRect r);
void debrief_filters_answer(App *app);
/* A button whose words may be long, in the middle of its width. */
void debrief_wide_button(const App *app, int id, GfxRect r, float room, const char *words,
                         int is_off);
void debrief_choices_draw(const App *app, GfxRect r);
/* Why there is nothing to list; "" when there is. */
void debrief_none_words(const App *app, char *out, size_t size);
void debrief_course_draw(const App *app, GfxRect r);
/* edit.c */
/* A list on the screen: its rows, how many of them are seen, which is chosen (-1 none) and which is
 * to be first. Rows that are not all as high (`high` 0) take the arrows alone. */
typedef struct DebriefRows {
    int count, shown, chosen, first;
    float high;
} DebriefRows;
/* Returns the first row that is seen. */
int debrief_list(Ui *ui, int id, GfxRect r, DebriefRows l);

#endif
