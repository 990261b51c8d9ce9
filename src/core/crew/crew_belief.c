/*
 * From evidence to a wall: uprights where the rod met wood, as wide as hollow places allow; lumber
 * across where the same height is hollow beside it; plates and what stands beside a window from
 * sight. What is believed is laid down one after the other, each cut where something lies already.
 */
#include "core/crew_belief.h"

#include "evidence.h"

#include "core/pb_math.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define STUD_M   0.038 /* nominal 2 in lumber; what is not felt is taken to be that */
#define HEADER_M 0.14  /* over an opening, where nothing was felt: nominal 6 in */
#define NEAR_M   0.045 /* two places of wood nearer than this are one member */
#define SAME_X_M 0.012 /* hollow this near above or below: the wood here is no upright */
#define PLATE_M  0.15  /* a face this near to floor or ceiling is that of a plate */
#define LEAST_M  1e-3

typedef struct Belief {
    const PbCrew *crew;
    const Evidence *e;
    PbBelieved *list;
    int count;
} Belief;

static int is_meeting(const PbRect *a, const PbRect *b)
{
    return a->x0_m < b->x1_m && b->x0_m < a->x1_m && a->y0_m < b->y1_m && b->y0_m < a->y1_m;
}

/* Lay down what of `r` is still free; `from`: those before it were looked at. */
static void put(Belief *b, PbMemberKind kind, PbSurety surety, PbRect r, int from)
{
    const PbCrew *crew = b->crew;
    r.x0_m = pb_max(r.x0_m, 0.0);
    r.y0_m = pb_max(r.y0_m, 0.0);
    r.x1_m = pb_min(r.x1_m, crew->length_m);
    r.y1_m = pb_min(r.y1_m, crew->height_m);
    if (r.x1_m - r.x0_m < LEAST_M || r.y1_m - r.y0_m < LEAST_M) {
        return;
    }
    for (int n = from; n < crew->cutout_count + b->count; n++) {
        const PbRect o = n < crew->cutout_count ? crew->cutouts[n].at
                                                : b->list[n - crew->cutout_count].member.at;
        if (is_meeting(&r, &o)) {
            put(b, kind, surety, (PbRect){r.x0_m, r.y0_m, o.x0_m, r.y1_m}, n + 1);
            put(b, kind, surety, (PbRect){o.x1_m, r.y0_m, r.x1_m, r.y1_m}, n + 1);
            double x0 = pb_max(r.x0_m, o.x0_m), x1 = pb_min(r.x1_m, o.x1_m);
            put(b, kind, surety, (PbRect){x0, r.y0_m, x1, o.y0_m}, n + 1);
            put(b, kind, surety, (PbRect){x0, o.y1_m, x1, r.y1_m}, n + 1);
            return;
        }
    }
    if (b->count < PB_MAX_MEMBERS) {
        b->list[b->count++] = (PbBelieved){{kind, r}, surety};
    }
}

/* The free height around a place: from what is below it in sight to what is above. */
static void column(const PbCrew *crew, double x, double y, double *low, double *high)
{
    *low = 0.0;
    *high = crew->height_m;
    for (int n = 0; n < crew->cutout_count; n++) {
        const PbRect *r = &crew->cutouts[n].at;
        if (x > r->x0_m && x < r->x1_m) {
            if (r->y1_m <= y + LEAST_M) {
                *low = pb_max(*low, r->y1_m);
            } else if (r->y0_m >= y - LEAST_M) {
                *high = pb_min(*high, r->y0_m);
            }
        }
    }
}

/* Is there a hollow above or below this place in its column? */
static int is_hollow_at(const Belief *b, double x, double low, double high)
{
    for (int n = 0; n < b->e->hollow_count; n++) {
        const PbRect *h = &b->e->hollow[n];
        if (x > h->x0_m - SAME_X_M && x < h->x1_m + SAME_X_M && h->y1_m >= low && h->y0_m <= high) {
            return 1;
        }
    }
    return 0;
}

/* Wood beside a rod or tube is what its face says; wood before it is an upright unless the column
 * is hollow there. */
static int is_upright(const Belief *b, const Wood *w)
{
    double low, high;
    column(b->crew, w->x_m, w->y_m, &low, &high);
    return w->to_right != 0 || (w->to_top == 0 && !is_hollow_at(b, w->x_m, low, high));
}

/* Where an upright and its like stand: what is known of both faces. */
typedef struct Faces {
    double low, high;   /* of the column, or of what lies across: left and right */
    double first, last; /* felt wood */
    double from, to;    /* faces; HUGE_VAL = not felt */
} Faces;

static double middle_of(const Wood *w, int is_across)
{
    int side = is_across ? w->to_top : w->to_right;
    return (is_across ? w->y_m : w->x_m) + 0.5 * STUD_M * side;
}

static void take(Faces *f, const Wood *w, int is_across)
{
    double at = is_across ? w->y_m : w->x_m;
    int side = is_across ? w->to_top : w->to_right;
    f->first = pb_min(f->first, at);
    f->last = pb_max(f->last, at);
    if (side > 0) {
        f->from = f->from == HUGE_VAL ? at : pb_max(f->from, at);
    } else if (side < 0) {
        f->to = f->to == HUGE_VAL ? at : pb_min(f->to, at);
    }
}

/* Faces that were not felt: nominal lumber around what was, between the hollows beside it. */
static void settle(Faces *f, double before, double after)
{
    double middle = 0.5 * (f->first + f->last);
    double half = pb_max(0.5 * STUD_M, 0.5 * (f->last - f->first));
    int is_from = f->from != HUGE_VAL, is_to = f->to != HUGE_VAL;
    if (!is_from) {
        f->from = pb_max(is_to ? f->to - STUD_M : middle - half, before);
    }
    if (!is_to) {
        f->to = pb_min(is_from ? f->from + STUD_M : middle + half, after);
    }
    if (f->to - f->from < 0.005) {
        middle = 0.5 * (f->from + f->to);
        f->from = middle - 0.5 * STUD_M;
        f->to = middle + 0.5 * STUD_M;
    }
}

/* Nearest hollows beside an upright, at any height of its column. */
static void beside(const Belief *b, const Faces *f, double *before, double *after)
{
    *before = -HUGE_VAL;
    *after = HUGE_VAL;
    for (int n = 0; n < b->e->hollow_count; n++) {
        const PbRect *h = &b->e->hollow[n];
        if (h->y1_m < f->low || h->y0_m > f->high) {
            continue;
        }
        if (h->x1_m <= f->first) {
            *before = pb_max(*before, h->x1_m);
        } else if (h->x0_m >= f->last) {
            *after = pb_min(*after, h->x0_m);
        }
    }
}

static void put_uprights(Belief *b)
{
    static const double known_m = 0.15; /* hollow this near on both sides: nothing else is there */
    const Evidence *e = b->e;
    for (int n = 0; n < e->wood_count; n++) {
        Faces f = {0.0, 0.0, HUGE_VAL, -HUGE_VAL, HUGE_VAL, HUGE_VAL};
        int is_first = 1;
        if (!is_upright(b, &e->wood[n])) {
            continue;
        }
        column(b->crew, e->wood[n].x_m, e->wood[n].y_m, &f.low, &f.high);
        for (int k = 0; k < e->wood_count; k++) {
            double low, high;
            const Wood *w = &e->wood[k];
            column(b->crew, w->x_m, w->y_m, &low, &high);
            if (is_upright(b, w) && low == f.low && high == f.high &&
                fabs(middle_of(w, 0) - middle_of(&e->wood[n], 0)) < NEAR_M) {
                is_first &= k >= n;
                take(&f, w, 0);
            }
        }
        if (is_first) {
            double before, after;
            beside(b, &f, &before, &after);
            settle(&f, before, after);
            int is_sure = f.from - before < known_m && after - f.to < known_m;
            put(b, PB_MEMBER_STUD, is_sure ? PB_SURE_PROBED : PB_SURE_GUESS,
                (PbRect){f.from, f.low, f.to, f.high}, 0);
        }
    }
}

/* Nearest uprights beside a place, from what is laid down already. */
static void between(const Belief *b, double x, double y, double *left, double *right)
{
    *left = 0.0;
    *right = b->crew->length_m;
    for (int n = 0; n < b->crew->cutout_count + b->count; n++) {
        int is_cutout = n < b->crew->cutout_count;
        const PbRect *r =
            is_cutout ? &b->crew->cutouts[n].at : &b->list[n - b->crew->cutout_count].member.at;
        if (r->y0_m < y && r->y1_m > y && r->y1_m - r->y0_m > 2.0 * STUD_M) {
            if (r->x1_m <= x + LEAST_M) {
                *left = pb_max(*left, r->x1_m);
            } else if (r->x0_m >= x - LEAST_M) {
                *right = pb_min(*right, r->x0_m);
            }
        }
    }
}

/* Nearest hollows above and below, in the same column of air. */
static void above_below(const Belief *b, const Faces *f, double x, double *before, double *after)
{
    *before = -HUGE_VAL;
    *after = HUGE_VAL;
    for (int n = 0; n < b->e->hollow_count; n++) {
        const PbRect *h = &b->e->hollow[n];
        if (h->x1_m < x - SAME_X_M || h->x0_m > x + SAME_X_M) {
            continue;
        }
        if (h->y1_m <= f->first + LEAST_M) {
            *before = pb_max(*before, h->y1_m);
        } else if (h->y0_m >= f->last - LEAST_M) {
            *after = pb_min(*after, h->y0_m);
        }
    }
}

static int is_plate(const PbCrew *crew, double y)
{
    return y < PLATE_M || y > crew->height_m - PLATE_M;
}

static void put_across(Belief *b)
{
    const Evidence *e = b->e;
    for (int n = 0; n < e->wood_count; n++) {
        const Wood *w = &e->wood[n];
        Faces f = {0.0, 0.0, HUGE_VAL, -HUGE_VAL, HUGE_VAL, HUGE_VAL};
        double left, right, before, after;
        int is_first = 1;
        if (is_upright(b, w) || is_plate(b->crew, w->y_m)) {
            continue;
        }
        between(b, w->x_m, w->y_m, &left, &right);
        for (int k = 0; k < e->wood_count; k++) {
            const Wood *o = &e->wood[k];
            if (o->x_m >= left && o->x_m <= right && !is_upright(b, o) &&
                !is_plate(b->crew, o->y_m) && fabs(middle_of(o, 1) - middle_of(w, 1)) < NEAR_M) {
                is_first &= k >= n;
                take(&f, o, 1);
            }
        }
        if (is_first) {
            above_below(b, &f, w->x_m, &before, &after);
            settle(&f, before, after);
            int is_sure = before > -HUGE_VAL && after < HUGE_VAL;
            put(b, PB_MEMBER_BLOCK, is_sure ? PB_SURE_PROBED : PB_SURE_GUESS,
                (PbRect){left, f.from, right, f.to}, 0);
        }
    }
}

/* How far the header goes up from an opening, or the sill down: to the wood that was felt farthest,
 * short of the nearest hollow. */
static double edge_of_cutout(const Belief *b, const PbRect *r, int is_above)
{
    double edge = is_above ? r->y1_m : r->y0_m, sign = is_above ? 1.0 : -1.0;
    double felt = 0.0, hollow = HUGE_VAL;
    for (int n = 0; n < b->e->hollow_count; n++) {
        const PbRect *h = &b->e->hollow[n];
        double away = is_above ? h->y0_m - edge : edge - h->y1_m;
        if (h->x0_m < r->x1_m && h->x1_m > r->x0_m && away >= -LEAST_M) {
            hollow = pb_min(hollow, away);
        }
    }
    for (int n = 0; n < b->e->wood_count; n++) {
        const Wood *w = &b->e->wood[n];
        double away = sign * (w->y_m - edge);
        if (w->x_m > r->x0_m && w->x_m < r->x1_m && w->to_right == 0 && away > 0.0 &&
            away <= hollow + LEAST_M && away < 0.5) {
            felt = pb_max(felt, away);
        }
    }
    double usual = is_above ? HEADER_M : STUD_M;
    double goes = felt > 0.0 ? felt : pb_min(usual, 0.8 * hollow);
    return edge + sign * pb_max(goes, LEAST_M);
}

static void put_in_sight(Belief *b)
{
    const PbCrew *crew = b->crew;
    double length = crew->length_m, height = crew->height_m;
    put(b, PB_MEMBER_PLATE, PB_SURE_IN_SIGHT, (PbRect){0.0, 0.0, length, STUD_M}, 0);
    put(b, PB_MEMBER_PLATE, PB_SURE_IN_SIGHT, (PbRect){0.0, height - 2.0 * STUD_M, length, height},
        0);
    put(b, PB_MEMBER_STUD, PB_SURE_IN_SIGHT, (PbRect){0.0, 0.0, STUD_M, height}, 0);
    put(b, PB_MEMBER_STUD, PB_SURE_IN_SIGHT, (PbRect){length - STUD_M, 0.0, length, height}, 0);
    for (int n = 0; n < crew->cutout_count; n++) {
        const PbRect *r = &crew->cutouts[n].at;
        put(b, PB_MEMBER_JACK, PB_SURE_IN_SIGHT, (PbRect){r->x0_m - STUD_M, 0.0, r->x0_m, height},
            0);
        put(b, PB_MEMBER_JACK, PB_SURE_IN_SIGHT, (PbRect){r->x1_m, 0.0, r->x1_m + STUD_M, height},
            0);
        put(b, PB_MEMBER_HEADER, PB_SURE_IN_SIGHT,
            (PbRect){r->x0_m, r->y1_m, r->x1_m, edge_of_cutout(b, r, 1)}, 0);
        put(b, PB_MEMBER_SILL, PB_SURE_IN_SIGHT,
            (PbRect){r->x0_m, edge_of_cutout(b, r, 0), r->x1_m, r->y0_m}, 0);
    }
}

/* A pencilled member counts as probed when wood was felt in it. */
static PbSurety surety_of(const Belief *b, const PbRect *r)
{
    for (int n = 0; n < b->e->wood_count; n++) {
        const Wood *w = &b->e->wood[n];
        if (w->x_m >= r->x0_m && w->x_m <= r->x1_m && w->y_m >= r->y0_m && w->y_m <= r->y1_m) {
            return PB_SURE_PROBED;
        }
    }
    return PB_SURE_GUESS;
}

int pb_crew_lumber(const PbCrew *crew, PbBelieved *list)
{
    Evidence e;
    crew_evidence(crew, &e);
    Belief b = {crew, &e, list, 0};
    for (int n = 0; n < crew->pencilled_count; n++) {
        const PbMember *m = &crew->pencilled[n];
        put(&b, m->kind, surety_of(&b, &m->at), m->at, 0);
    }
    put_in_sight(&b);
    put_uprights(&b);
    put_across(&b);
    return b.count;
}

void pb_crew_framing(const PbCrew *crew, const PbExercise *like, PbFraming *out)
{
    PbBelieved list[PB_MAX_MEMBERS];
    memset(out, 0, sizeof *out);
    snprintf(out->id, sizeof out->id, "believed");
    snprintf(out->title, sizeof out->title, "The wall as the crew knows it");
    out->length_m = crew->length_m;
    out->height_m = crew->height_m;
    out->like = *like;
    out->cutout_count = crew->cutout_count;
    memcpy(out->cutouts, crew->cutouts, sizeof out->cutouts);
    out->member_count = pb_crew_lumber(crew, list);
    for (int n = 0; n < out->member_count; n++) {
        out->members[n] = list[n].member;
    }
}
