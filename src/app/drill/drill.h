/* Private to app/drill: the room of the drills, and what it keeps. */
#ifndef APP_DRILL_H
#define APP_DRILL_H

#include "base/app.h"
#include "drill/job.h"

#include "store/drills.h"

enum {
    ID_DRILL_SIGHT = 700,
    ID_DRILL_NOISE,
    ID_DRILL_LEVEL,
    ID_DRILL_GO,  /* begin, go on, press: whatever is next */
    ID_DRILL_STOP /* leave the sitting */
};

typedef enum DrillPhase {
    DRILL_CHOOSE, /* view and noise */
    DRILL_MAKING, /* the trial is being made */
    DRILL_LISTEN, /* it runs */
    DRILL_TOLD,   /* what it was */
    DRILL_OVER    /* the sitting's result */
} DrillPhase;

typedef struct Drill {
    DrillPhase phase;
    int sight, noise, level; /* as chosen */
    uint64_t seed;           /* of the sitting */
    int number;              /* of the trial */
    DrillJob *now, *next;
    App *shown; /* the program with the trial's run in its place, for pictures of the wall */
    double listened_s, needle_pa, rattle, told_until_s;
    PbDrillAnswer answers[PB_DRILL_TRIALS];
    PbDrillTally tally, before;        /* of this sitting; of those before it without a verdict */
    StoreDrill *kept;                  /* of the learner */
    int kept_count, is_kept, is_short; /* this sitting is; its last trial could not be made */
} Drill;

/* words.c: sentences of the room; borrowed until fifteen more figures were asked for */
const char *drill_what_it_was(const App *app, PbDrillKind kind);
const char *drill_said(const App *app, const PbDrillTrial *trial, const PbDrillAnswer *answer);
const char *drill_verdict_said(PbDrillVerdict verdict);
/* "12 of 14, median 0.4 s" */
void drill_line(const App *app, int good, int of, double median_s, char *out, size_t size);
/* state.c */
void drill_begin(App *app);
void drill_press(App *app);
void drill_go_on(App *app);
void drill_stop(App *app);
void drill_update(App *app, double dt_s);
PbDrillVerdict drill_verdict(const Drill *d);
/* view.c: the wall as it is chosen to be seen, and the two instruments */
void drill_wall_draw(const App *app, GfxRect r);
void drill_instruments_draw(const App *app, GfxRect r);

#endif
