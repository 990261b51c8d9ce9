/* Private to app: the guide for newcomers, who pack the lower half of a bay. A step is over when
 * the person has done it, never by the clock. It hears what a crew hears and sees nothing of the
 * fill, so a closed wall gives nothing away through it. No SDL here. */
#ifndef APP_GUIDE_H
#define APP_GUIDE_H

#include "core/view.h"

/* Append only: scripts and tests know these numbers. */
typedef enum GuideStep {
    GUIDE_CHECKS, /* the list before work */
    GUIDE_TUBE,   /* in, to the far end */
    GUIDE_ON,
    GUIDE_STALL, /* hear and see it */
    GUIDE_PULL,  /* back a foot */
    GUIDE_STALL_2,
    GUIDE_PULL_2,
    GUIDE_STALL_3,
    GUIDE_OFF,
    GUIDE_FINISH, /* plug the hole */
    GUIDE_DONE,
    GUIDE_STEPS
} GuideStep;

/* What has to be seen to before the step goes on. */
typedef enum GuideNeed {
    GUIDE_NEED_NOTHING,
    GUIDE_NEED_ON,     /* the machine, in a step that wants it on */
    GUIDE_NEED_OFF,    /* the machine, before a clogged hose is opened */
    GUIDE_NEED_CLEAR,  /* a clogged hose, with the machine off */
    GUIDE_NEED_WAIT,   /* it is being cleared, the machine is locked out */
    GUIDE_NEED_INSIDE, /* the tube: fill blows out in front of the hole */
    GUIDE_NEEDS
} GuideNeed;

typedef struct Guide {
    int is_on;
    GuideStep step;
    double far_m;             /* tube in when the mouth is at the far end */
    double full, low_since_s; /* rattle when it ran freely at this stop; when it thinned */
    double high_since_s;      /* when it was heard again; < 0 while it is thin */
    double from_m, still_from_s, last_m;
    double done_s; /* of the run */
} Guide;

/* A guide for a bay whose tube goes in as far as this. */
Guide guide_begin(double far_m);
/* Once a frame or oftener. `is_over`: the run has ended. */
void guide_next(Guide *g, const PbSignals *s, int checks_seen, int is_over);
/* What is in the way of this step now. */
GuideNeed guide_need(const Guide *g, const PbSignals *s);
/* Has fill been heard at this stop? Until then there is no rattle that could thin. */
int guide_hears_fill(const Guide *g, const PbSignals *s);

#endif
