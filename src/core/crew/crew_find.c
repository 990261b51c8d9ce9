/* Crews by rule. Whatever they learn comes back from try_act; the framing goes nowhere else. */
#include "core/crew_find.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

#define WAIST_M     1.2   /* where a crew works without bending; common practice */
#define PITCH_M     0.406 /* 16 in on centre, what a tape marks */
#define STUD_M      0.038
#define PAST_M      0.05 /* this far past a face the rod is tried again */
#define FROM_END_M  0.06
#define TOP_M       0.076 /* double plate */
#define UNDER_TOP_M 0.08  /* a hole over a header goes this far below the plate */
#define LEAST_M     0.12  /* lower than this over or under an opening nobody looks */

typedef struct Finder {
    PbCrew *crew;
    const PbFraming *f;
} Finder;

/* NULL when the act was refused. */
static const PbCrewAnswer *try_act(const Finder *w, PbCrewAct act)
{
    PbError err;
    return pb_crew_do(w->crew, w->f, &act, &err) == PB_OK
               ? &w->crew->done[w->crew->done_count - 1].answer
               : NULL;
}

static const PbCrewAnswer *probe(const Finder *w, double x, double y, double right_deg)
{
    return try_act(w,
                   (PbCrewAct){.kind = PB_CREW_PROBE, .x_m = x, .y_m = y, .right_deg = right_deg});
}

static int is_hollow(const PbCrewAnswer *a)
{
    return a != NULL && a->layer_count > 1;
}

/* Distance along the wall from the rod's hole to the wood beside it; HUGE_VAL = out of reach. */
static double reach_beside(const PbCrewAnswer *a)
{
    const double slant = PB_CREW_SLANT_MAX_DEG * PB_PI / 180.0;
    return a != NULL && a->feel == PB_FEEL_WOOD ? a->reach_m * pb_sin(slant) : HUGE_VAL;
}

/* A hole near a place, where no cable is heard and no cover is. Nought when there is none. */
static int open_bay(const Finder *w, double x, double y)
{
    static const double aside[][2] = {{0.0, 0.0}, {0.0, 0.15}, {0.0, -0.15},
                                      {0.1, 0.0}, {-0.1, 0.0}, {0.0, 0.3}};
    for (size_t n = 0; n < sizeof aside / sizeof aside[0]; n++) {
        double u = x + aside[n][0], v = y + aside[n][1];
        const PbCrewAnswer *a = try_act(w, (PbCrewAct){.kind = PB_CREW_SENSE, .x_m = u, .y_m = v});
        if (a == NULL || a->feel == PB_FEEL_WIRE || (n > 0 && !is_hollow(probe(w, u, v, 0.0)))) {
            continue;
        }
        a = try_act(w, (PbCrewAct){.kind = PB_CREW_DRILL, .x_m = u, .y_m = v});
        if (a != NULL) {
            return a->feel == PB_FEEL_NOTHING;
        }
    }
    return 0;
}

/* From the newest hole up or down to `end`, and on behind whatever stops the tube. */
static void follow(const Finder *w, int is_up, double end)
{
    for (int n = 0; n < 8; n++) {
        int hole = w->crew->hole_count - 1;
        double x = w->crew->holes[hole].x_m, y = w->crew->holes[hole].y_m;
        const PbCrewAnswer *a =
            try_act(w, (PbCrewAct){.kind = PB_CREW_TUBE, .hole = hole, .is_up = is_up});
        if (a == NULL) {
            return;
        }
        double stop = is_up ? y + a->reach_m : y - a->reach_m;
        double left = is_up ? end - stop : stop - end;
        if (left < LEAST_M) {
            return;
        }
        double aim = STUD_M + pb_min(pb_max(0.5 * (left - STUD_M), PAST_M), 0.4);
        double on = is_up ? stop + aim : stop - aim;
        if (!is_hollow(probe(w, x, on, 0.0)) || !open_bay(w, x, on)) {
            return;
        }
    }
}

/* The bay between two faces: a hole in its middle, then up and down from it. */
static void open_between(const Finder *w, double left, double right, double y, const double end[2])
{
    double x = 0.5 * (left + right);
    if (right - left < w->crew->bore_m || !open_bay(w, x, y)) {
        return;
    }
    int first = w->crew->hole_count - 1;
    follow(w, 1, end[1]);
    if (w->crew->hole_count - 1 != first) { /* what was opened above is looked at already */
        PbCrewHole *h = &w->crew->holes[first];
        const PbCrewAnswer *a = try_act(w, (PbCrewAct){.kind = PB_CREW_TUBE, .hole = first});
        if (a == NULL || h->y_m - a->reach_m - end[0] < LEAST_M) {
            return;
        }
        double on = h->y_m - a->reach_m - STUD_M - PAST_M;
        if (is_hollow(probe(w, h->x_m, on, 0.0)) && open_bay(w, h->x_m, on)) {
            follow(w, 0, end[0]);
        }
        return;
    }
    follow(w, 0, end[0]);
}

/* Along one height from one side to the other, every bay of it. */
static void walk(const Finder *w, double from, double to, double y, const double end[2])
{
    double left = from;
    for (double x = from + FROM_END_M; x < to - 0.02 && !w->crew->is_stopped;) {
        const PbCrewAnswer *a = probe(w, x, y, 0.0);
        if (a == NULL) {
            a = probe(w, x, y + 0.15, 0.0); /* a cover is in the way */
        }
        if (!is_hollow(a)) {
            x += PAST_M;
            left = x;
            continue;
        }
        double before = reach_beside(probe(w, x, y, -PB_CREW_SLANT_MAX_DEG));
        left = before < HUGE_VAL ? x - before : left;
        a = probe(w, x, y, PB_CREW_SLANT_MAX_DEG);
        double after = reach_beside(a);
        if (after == HUGE_VAL) { /* a pipe, or wider than the rod: once more from beyond */
            x = pb_min(x + (a != NULL && a->feel == PB_FEEL_METAL ? a->reach_m + PAST_M : 0.25),
                       to - 0.02);
            after = reach_beside(probe(w, x, y, PB_CREW_SLANT_MAX_DEG));
        }
        double right = after < HUGE_VAL ? x + after : pb_min(x + 0.15, to);
        open_between(w, left, right, y, end);
        left = right + STUD_M;
        x = left + PAST_M;
    }
}

/* Heights between which there is wall beside, over or under what is in sight. */
static void find_carefully(const Finder *w)
{
    const PbCrew *crew = w->crew;
    double height = crew->height_m;
    double from = 0.0;
    while (from < crew->length_m) {
        int next = -1;
        for (int n = 0; n < crew->cutout_count; n++) {
            if (crew->cutouts[n].at.x0_m >= from - 1e-9 &&
                (next < 0 || crew->cutouts[n].at.x0_m < crew->cutouts[next].at.x0_m)) {
                next = n;
            }
        }
        double to = next < 0 ? crew->length_m : crew->cutouts[next].at.x0_m;
        walk(w, from, to, pb_min(WAIST_M, 0.5 * height), (const double[2]){STUD_M, height - TOP_M});
        if (next < 0) {
            return;
        }
        const PbRect r = crew->cutouts[next].at;
        if (height - TOP_M - r.y1_m > LEAST_M) {
            double low = r.y1_m, high = height - TOP_M;
            walk(w, r.x0_m, r.x1_m, pb_max(0.5 * (low + high), high - UNDER_TOP_M),
                 (const double[2]){low, high});
        }
        if (r.y0_m > LEAST_M) {
            walk(w, r.x0_m, r.x1_m, 0.5 * r.y0_m, (const double[2]){STUD_M, r.y0_m});
        }
        from = r.x1_m;
    }
}

static void find_by_tape(const Finder *w)
{
    const PbCrew *crew = w->crew;
    double y = pb_min(WAIST_M, 0.5 * crew->height_m), stud = 0.0;
    for (double x = 0.15; x < crew->length_m; x += 0.025) {
        const PbCrewAnswer *a = probe(w, x, y, 0.0);
        if (a != NULL && !is_hollow(a)) {
            stud = x;
            break;
        }
    }
    while (stud > PITCH_M) {
        stud -= PITCH_M;
    }
    for (double x = stud - 0.5 * PITCH_M; x < crew->length_m && !crew->is_stopped; x += PITCH_M) {
        if (x > 0.0) {
            (void)try_act(w, (PbCrewAct){.kind = PB_CREW_MEASURE,
                                         .x_m = pb_max(x - PITCH_M, 0.0),
                                         .y_m = y,
                                         .x1_m = x,
                                         .y1_m = y});
            (void)try_act(w, (PbCrewAct){.kind = PB_CREW_DRILL, .x_m = x, .y_m = y});
        }
    }
}

void pb_crew_find(PbCrew *crew, const PbFraming *f, PbFindMethod method)
{
    Finder w = {crew, f};
    if (method == PB_FIND_CAREFUL) {
        find_carefully(&w);
    } else {
        find_by_tape(&w);
    }
}
