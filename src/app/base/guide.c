/* The steps of the guide for newcomers; the words and the strip are in guide_panel.c. */
#include "base/guide.h"

#include <math.h>

static const double near_m = 0.15;      /* of the far end: close enough */
static const double foot_least_m = 0.2; /* a pull of less is holding still */
static const double thin_share = 0.5;   /* as the coach: a stall is rattle under this share */
static const double heard_full = 0.3;   /* rattle that counts as fill flowing */
static const double thin_s = 0.8;       /* so long, and it has been heard */
static const double cough_s = 0.2;      /* a stuck line lets a puff through now and then */
static const double still_s = 0.4, still_m = 0.01;

Guide guide_begin(double far_m)
{
    return (Guide){.is_on = 1, .far_m = far_m, .low_since_s = -1.0, .high_since_s = -1.0};
}

static void go_to(Guide *g, const PbSignals *s, GuideStep step)
{
    g->step = step;
    g->full = 0.0;
    g->low_since_s = -1.0;
    g->high_since_s = -1.0;
    g->from_m = s->tube_in_m;
}

/* Has the rattle of this stop thinned, and stayed so? */
static int is_stalled(Guide *g, const PbSignals *s)
{
    if (!s->machine_on || s->plugged || s->tube_in_m < 0.0) {
        g->full = 0.0; /* fill has to be heard anew before it can thin */
        g->low_since_s = -1.0;
        return 0;
    }
    g->full = fmax(g->full, s->rattle);
    if (g->full < heard_full || s->rattle > thin_share * g->full) {
        g->high_since_s = g->high_since_s < 0.0 ? s->time_s : g->high_since_s;
        g->low_since_s = s->time_s - g->high_since_s >= cough_s ? -1.0 : g->low_since_s;
        return 0;
    }
    g->high_since_s = -1.0;
    g->low_since_s = g->low_since_s < 0.0 ? s->time_s : g->low_since_s;
    return s->time_s - g->low_since_s >= thin_s;
}

/* Pulled back far enough, and the hand rests. */
static int is_pulled(const Guide *g, const PbSignals *s)
{
    return g->from_m - s->tube_in_m >= foot_least_m && s->time_s - g->still_from_s >= still_s;
}

static int is_step_done(Guide *g, const PbSignals *s, int checks_seen)
{
    switch (g->step) {
    case GUIDE_CHECKS:
        return checks_seen;
    case GUIDE_TUBE:
        return s->tube_in_m >= g->far_m - near_m;
    case GUIDE_ON:
        return s->machine_on;
    case GUIDE_STALL:
    case GUIDE_STALL_2:
    case GUIDE_STALL_3:
        return is_stalled(g, s);
    case GUIDE_PULL:
    case GUIDE_PULL_2:
        return is_pulled(g, s);
    case GUIDE_OFF:
        return !s->machine_on;
    case GUIDE_FINISH:
    case GUIDE_DONE:
    case GUIDE_STEPS:
        break;
    }
    return 0;
}

void guide_next(Guide *g, const PbSignals *s, int checks_seen, int is_over)
{
    if (!g->is_on || g->step == GUIDE_DONE) {
        return;
    }
    if (fabs(s->tube_in_m - g->last_m) > still_m) {
        g->last_m = s->tube_in_m;
        g->still_from_s = s->time_s;
    }
    if (g->step == GUIDE_PULL || g->step == GUIDE_PULL_2) {
        g->from_m = fmax(g->from_m, s->tube_in_m);
    }
    if ((g->step == GUIDE_PULL || g->step == GUIDE_PULL_2) && s->plugged) {
        go_to(g, s,
              (GuideStep)(g->step - 1)); /* waited too long: the stall has to be heard again */
    }
    if (is_over) { /* also when somebody ended it early: the result speaks for itself */
        g->done_s = s->time_s;
        g->step = GUIDE_DONE;
    } else if (is_step_done(g, s, checks_seen)) {
        go_to(g, s, (GuideStep)(g->step + 1));
    }
}

GuideNeed guide_need(const Guide *g, const PbSignals *s)
{
    int is_at_work = g->step > GUIDE_ON && g->step < GUIDE_OFF;
    if (g->step >= GUIDE_FINISH) {
        return GUIDE_NEED_NOTHING; /* the hole can be closed whatever is in the hose */
    }
    return s->clear_left_s > 0.0          ? GUIDE_NEED_WAIT
           : s->plugged && s->machine_on  ? GUIDE_NEED_OFF
           : s->plugged                   ? GUIDE_NEED_CLEAR
           : s->spilling && s->machine_on ? GUIDE_NEED_INSIDE
           : is_at_work && !s->machine_on ? GUIDE_NEED_ON
                                          : GUIDE_NEED_NOTHING;
}

int guide_hears_fill(const Guide *g, const PbSignals *s)
{
    return g->full >= heard_full || s->rattle >= heard_full;
}
