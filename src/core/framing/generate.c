/*
 * Draws a wall: openings, then uprights on their grid between them, then what lies across, then
 * what runs inside, then the bays to be left. Each of them has a stream of chance of its own, so
 * that one more wire does not move a stud. Next: bays.c, what it leaves.
 */
#include "core/generate.h"

#include "bay/rows.h"

#include "core/pb_math.h"
#include "core/rng.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const int pb_era_years[PB_ERAS] = {1900, 1925, 1955, 1978};

static const PbNumberRow era_rows[] = {
    {"", "length_low_m", "m", 1, 6, REQUIRED, AT(PbEra, length_low_m)},
    {"", "length_high_m", "m", 1, 6, REQUIRED, AT(PbEra, length_high_m)},
    {"", "height_m", "m", 2.2, 3.4, REQUIRED, AT(PbEra, height_m)},
    {"", "spacing_m", "m", 0.3, 0.7, REQUIRED, AT(PbEra, spacing_m)},
    {"", "wide_spacing_m", "m", 0.3, 0.7, REQUIRED, AT(PbEra, wide_spacing_m)},
    {"", "wide_share", "1", 0, 1, REQUIRED, AT(PbEra, wide_share)},
    {"", "offset_sd_m", "m", 0, 0.05, REQUIRED, AT(PbEra, offset_sd_m)},
    {"", "stud_m", "m", 0.03, 0.06, REQUIRED, AT(PbEra, stud_m)},
    {"", "depth_m", "m", 0.08, 0.15, REQUIRED, AT(PbEra, depth_m)},
    {"", "header_m", "m", 0.05, 0.2, REQUIRED, AT(PbEra, header_m)},
    {"", "plaster_share", "1", 0, 1, REQUIRED, AT(PbEra, plaster_share)},
    {"", "thin_board_share", "1", 0, 1, REQUIRED, AT(PbEra, thin_board_share)},
    {"", "leak75_m3_s_m2", "m3/s/m2", 0.001, 0.05, REQUIRED, AT(PbEra, leak75_m3_s_m2)},
    {"", "board_pitch_m", "m", 0, 0.3, REQUIRED, AT(PbEra, board_pitch_m)},
    {"", "window_share", "1", 0, 1, REQUIRED, AT(PbEra, window_share)},
    {"", "door_share", "1", 0, 1, REQUIRED, AT(PbEra, door_share)},
    {"", "chimney_share", "1", 0, 1, REQUIRED, AT(PbEra, chimney_share)},
    {"", "balloon_share", "1", 0, 1, REQUIRED, AT(PbEra, balloon_share)},
    {"", "block_share", "1", 0, 1, REQUIRED, AT(PbEra, block_share)},
    {"", "brace_share", "1", 0, 1, REQUIRED, AT(PbEra, brace_share)},
    {"", "batt_share", "1", 0, 1, REQUIRED, AT(PbEra, batt_share)},
    {"", "box_per_m", "1/m", 0, 0.6, REQUIRED, AT(PbEra, box_per_m)},
    {"", "knob_share", "1", 0, 1, REQUIRED, AT(PbEra, knob_share)},
    {"", "pipe_share", "1", 0, 1, REQUIRED, AT(PbEra, pipe_share)},
    {"", "register_share", "1", 0, 1, REQUIRED, AT(PbEra, register_share)},
    {"", "stain_share", "1", 0, 1, REQUIRED, AT(PbEra, stain_share)},
};
ROWS_OF(era_rows)

/* Sizes that are the same in every era: common practice. */
#define OFFSET_MAX_M 0.064 /* farthest stud from its grid that a repair page names */
#define SIDE_M       0.35  /* wall left beside an opening */
#define WINDOW_TOP_M 2.03  /* 6 ft 8 in, as doors */
#define CHIMNEY_M    0.9
#define BOX_WIDE_M   0.052
#define BOX_HIGH_M   0.1
#define OUTLET_M     0.3
#define CABLE_M      0.008
#define BRACE_M      0.09
#define BRACE_FRAC   0.25 /* a board of 22 mm let into the studs */
#define BATT_FRAC    0.45
#define PIPE_M       0.05
#define PIPE_BAY_M   0.25 /* narrower bays have room for a box or a pipe, not both */
#define REGISTER_W_M 0.25
#define REGISTER_H_M 0.15
#define LEAST_BAY_M  0.02 /* studs nearer than this stand together */

enum { OPENINGS_STREAM = 1, STUDS, ACROSS, BRACES, BATTS, WIRES, LEFT, FACES };

typedef struct Draw {
    const PbEra *era;
    uint64_t seed;
    PbFraming *f;
    PbRect hole[3]; /* window and door with the uprights beside them */
    int hole_count;
    double end_m; /* where the framing ends: at the chimney */
    int is_balloon;
} Draw;

static double mm(double m)
{
    return floor(m * 1000.0 + 0.5) / 1000.0;
}

static double between(PbRng *rng, double low, double high)
{
    return mm(low + (high - low) * pb_rng_uniform(rng));
}

static int chance(PbRng *rng, double share)
{
    return pb_rng_uniform(rng) < share;
}

static void add_member(Draw *d, PbMemberKind kind, double x0, double y0, double x1, double y1)
{
    if (d->f->member_count < PB_MAX_MEMBERS && x1 - x0 >= 1e-3 && y1 - y0 >= 1e-3) {
        d->f->members[d->f->member_count++] = (PbMember){kind, {x0, y0, x1, y1}};
    }
}

static void add_inside(Draw *d, PbObstacle o)
{
    if (d->f->inside_count < PB_MAX_INSIDE) {
        d->f->inside[d->f->inside_count++] = o;
    }
}

static double foot(const Draw *d)
{
    return d->is_balloon ? 0.0 : d->era->stud_m;
}

static double top(const Draw *d)
{
    return d->f->height_m - 2.0 * d->era->stud_m;
}

static void draw_face(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, FACES);
    PbExercise *like = &d->f->like;
    *like = pb_exercise_default();
    double u = pb_rng_uniform(&rng);
    like->finish = u < d->era->plaster_share                              ? PB_FINISH_PLASTER
                   : u < d->era->plaster_share + d->era->thin_board_share ? PB_FINISH_GYPSUM_9_5
                                                                          : PB_FINISH_GYPSUM_12_7;
    like->depth_m = d->era->depth_m;
    like->leak75_m3_s_m2 = d->era->leak75_m3_s_m2;
    like->board_pitch_m = d->era->board_pitch_m;
    d->f->length_m = between(&rng, d->era->length_low_m, d->era->length_high_m);
    d->f->height_m = d->era->height_m;
    d->is_balloon = chance(&rng, d->era->balloon_share);
}

/* A window or door where there is room for one. */
static void add_opening(Draw *d, PbRng *rng, PbCutoutKind kind, double wide, double low)
{
    double stud = d->era->stud_m;
    double from = SIDE_M + 2.0 * stud, to = d->end_m - SIDE_M - 2.0 * stud - wide;
    for (int attempt = 0; attempt < 8 && to > from; attempt++) {
        double x = between(rng, from, to);
        PbRect r = {x - 2.0 * stud, low, x + wide + 2.0 * stud, WINDOW_TOP_M};
        int is_free = 1;
        for (int n = 0; n < d->hole_count; n++) {
            is_free &= r.x1_m + SIDE_M < d->hole[n].x0_m || r.x0_m - SIDE_M > d->hole[n].x1_m;
        }
        if (is_free) {
            d->hole[d->hole_count++] = r;
            d->f->cutouts[d->f->cutout_count++] =
                (PbCutout){kind, {x, low, mm(x + wide), WINDOW_TOP_M}};
            return;
        }
    }
}

static void draw_openings(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, OPENINGS_STREAM);
    d->end_m = d->f->length_m;
    if (chance(&rng, d->era->chimney_share) && d->f->length_m > 3.0 * CHIMNEY_M) {
        d->end_m = mm(d->f->length_m - CHIMNEY_M);
        d->f->cutouts[d->f->cutout_count++] =
            (PbCutout){PB_CUTOUT_CHIMNEY, {d->end_m, 0.0, d->f->length_m, d->f->height_m}};
    }
    if (chance(&rng, d->era->window_share)) {
        double wide = between(&rng, 0.6, 1.1);
        add_opening(d, &rng, PB_CUTOUT_WINDOW, wide, between(&rng, 0.6, 1.0));
    }
    if (chance(&rng, d->era->door_share)) {
        add_opening(d, &rng, PB_CUTOUT_DOOR, between(&rng, 0.76, 0.86), 0.0);
    }
}

/* Members and lumber beside an opening: king and jack, header, sill. */
static void frame_opening(Draw *d, const PbCutout *c)
{
    const PbRect *r = &c->at;
    double stud = d->era->stud_m, header = pb_min(mm(r->y1_m + d->era->header_m), top(d));
    for (int side = 0; side < 2; side++) {
        double jack = side ? r->x1_m : r->x0_m - stud, king = side ? r->x1_m + stud : jack - stud;
        add_member(d, PB_MEMBER_STUD, king, foot(d), king + stud, top(d));
        add_member(d, PB_MEMBER_JACK, jack, foot(d), jack + stud, r->y1_m);
    }
    add_member(d, PB_MEMBER_HEADER, r->x0_m - stud, r->y1_m, r->x1_m + stud, header);
    if (c->kind == PB_CUTOUT_WINDOW) {
        add_member(d, PB_MEMBER_SILL, r->x0_m, r->y0_m - stud, r->x1_m, r->y0_m);
    }
}

static void draw_plates(Draw *d)
{
    double stud = d->era->stud_m, x = 0.0;
    add_member(d, PB_MEMBER_PLATE, 0.0, top(d), d->end_m, d->f->height_m);
    if (d->is_balloon) {
        return;
    }
    while (x < d->end_m) { /* the plate stops at a door */
        double to = d->end_m, next = d->end_m;
        for (int n = 0; n < d->f->cutout_count; n++) {
            const PbCutout *c = &d->f->cutouts[n];
            if (c->kind == PB_CUTOUT_DOOR && c->at.x0_m >= x && c->at.x0_m < to) {
                to = c->at.x0_m;
                next = c->at.x1_m;
            }
        }
        add_member(d, PB_MEMBER_PLATE, x, 0.0, to, stud);
        x = next;
    }
}

/* One upright of the grid: whole, or what of it is over and under an opening. Nought when
 * lumber stands there already. */
static int add_upright(Draw *d, double x)
{
    double stud = d->era->stud_m;
    for (int n = 0; n < d->hole_count; n++) {
        const PbRect *h = &d->hole[n];
        double inner0 = h->x0_m + 2.0 * stud, inner1 = h->x1_m - 2.0 * stud;
        if (x + stud + LEAST_BAY_M <= h->x0_m || x >= h->x1_m + LEAST_BAY_M) {
            continue;
        }
        if (x < inner0 + LEAST_BAY_M || x + stud > inner1 - LEAST_BAY_M) {
            return 0;
        }
        double header = pb_min(mm(h->y1_m + d->era->header_m), top(d));
        add_member(d, PB_MEMBER_CRIPPLE, x, header, x + stud, top(d));
        if (h->y0_m > stud) {
            add_member(d, PB_MEMBER_CRIPPLE, x, foot(d), x + stud, h->y0_m - stud);
        }
        return 1;
    }
    add_member(d, PB_MEMBER_STUD, x, foot(d), x + stud, top(d));
    return 1;
}

static void draw_uprights(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, STUDS);
    double stud = d->era->stud_m, last = stud, end = mm(d->end_m - stud);
    double spacing = chance(&rng, d->era->wide_share) ? d->era->wide_spacing_m : d->era->spacing_m;
    draw_plates(d);
    add_member(d, PB_MEMBER_STUD, 0.0, foot(d), stud, top(d));
    add_member(d, PB_MEMBER_STUD, end, foot(d), mm(end + stud), top(d));
    for (int n = 0; n < d->f->cutout_count; n++) {
        if (d->f->cutouts[n].kind != PB_CUTOUT_CHIMNEY) {
            frame_opening(d, &d->f->cutouts[n]);
        }
    }
    for (double grid = spacing - 0.5 * stud; grid < end; grid += spacing) {
        double off = d->era->offset_sd_m * pb_rng_normal(&rng);
        double x = mm(grid + pb_limit(off, -OFFSET_MAX_M, OFFSET_MAX_M));
        if (x > last + LEAST_BAY_M && x + stud < end - LEAST_BAY_M && add_upright(d, x)) {
            last = x + stud;
        }
    }
}

/* The full-height studs of the wall from left to right, as where they begin. */
static int studs_of(const PbFraming *f, double *x)
{
    int count = 0;
    for (int n = 0; n < f->member_count; n++) {
        if (f->members[n].kind == PB_MEMBER_STUD) {
            int place = count++;
            for (; place > 0 && x[place - 1] > f->members[n].at.x0_m; place--) {
                x[place] = x[place - 1];
            }
            x[place] = f->members[n].at.x0_m;
        }
    }
    return count;
}

static int is_at_opening(const Draw *d, double x0, double x1)
{
    for (int n = 0; n < d->hole_count; n++) {
        if (x0 < d->hole[n].x1_m - d->era->stud_m && x1 > d->hole[n].x0_m + d->era->stud_m) {
            return 1;
        }
    }
    return 0;
}

/* The plain bays between full-height studs, from left to right. */
static int plain_bays(const Draw *d, double (*out)[2])
{
    double x[PB_MAX_MEMBERS];
    int studs = studs_of(d->f, x), count = 0;
    for (int n = 0; n + 1 < studs; n++) {
        double left = x[n] + d->era->stud_m, right = x[n + 1];
        if (right - left > 0.1 && !is_at_opening(d, left, right)) {
            out[count][0] = left;
            out[count++][1] = right;
        }
    }
    return count;
}

static void draw_across(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, ACROSS);
    double bay[PB_MAX_MEMBERS][2];
    int count = plain_bays(d, bay);
    for (int n = 0; n < count; n++) {
        double y = between(&rng, 0.7, 1.8);
        if (chance(&rng, d->era->block_share)) {
            add_member(d, PB_MEMBER_BLOCK, bay[n][0], y, bay[n][1], y + d->era->stud_m);
        }
    }
    rng = pb_rng_make(d->seed, BRACES);
    for (int side = 0; side < 2; side++) {
        double rise = d->f->height_m - 2.0 * d->era->stud_m - 0.1, run = between(&rng, 1.2, 1.8);
        int has = chance(&rng, d->era->brace_share) && d->end_m > 2.0 * run;
        double x0 = side ? d->end_m - 0.05 : 0.05, x1 = side ? x0 - run : x0 + run;
        if (has && !is_at_opening(d, pb_min(x0, x1), pb_max(x0, x1))) {
            add_inside(d, (PbObstacle){PB_OBSTACLE_BRACE, x0, 0.1 + rise - 0.1, x1, 0.1, BRACE_M,
                                       BRACE_FRAC});
        }
    }
}

/* Thin old batts in most bays, above and below the blocks alike. */
static void draw_batts(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, BATTS);
    double bay[PB_MAX_MEMBERS][2];
    int count = plain_bays(d, bay);
    if (!chance(&rng, d->era->batt_share)) {
        return;
    }
    for (int n = 0; n < count; n++) {
        if (chance(&rng, 0.9)) {
            add_inside(d, (PbObstacle){PB_OBSTACLE_BATT, bay[n][0], foot(d), bay[n][1], top(d), 0.0,
                                       BATT_FRAC});
        }
    }
}

static int has_batt(const PbFraming *f, double x)
{
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        if (pb_obstacle_traits(o->kind)->is_batt && x > o->x0_m && x < o->x1_m) {
            return 1;
        }
    }
    return 0;
}

static void add_box(Draw *d, const double bay[2])
{
    double x = bay[0], y = OUTLET_M, middle = mm(x + 0.5 * BOX_WIDE_M);
    if (has_batt(d->f, middle)) {
        return; /* with a batt in the bay both would stand in one place */
    }
    add_inside(
        d, (PbObstacle){PB_OBSTACLE_BOX, x, y, mm(x + BOX_WIDE_M), mm(y + BOX_HIGH_M), 0.0, 0.7});
    add_inside(d, (PbObstacle){PB_OBSTACLE_CABLE, middle, mm(y + BOX_HIGH_M), middle, top(d),
                               CABLE_M, 0.1});
    if (d->f->opening_count < PB_MAX_WALL_OPENINGS) {
        d->f->openings[d->f->opening_count++] =
            (PbOpening){x, y, mm(x + BOX_WIDE_M), mm(y + BOX_HIGH_M), 2e-4, 0.006, "outlet box"};
    }
}

static void draw_wires(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, WIRES);
    double bay[PB_MAX_MEMBERS][2];
    int count = plain_bays(d, bay);
    double boxes = d->era->box_per_m * d->f->length_m;
    for (int n = 0; n < count; n++) {
        if (chance(&rng, boxes / count)) {
            add_box(d, bay[n]);
        }
    }
    int pipe = (int)(count * pb_rng_uniform(&rng));
    if (chance(&rng, d->era->pipe_share) && count > 0) {
        double x = mm(0.5 * (bay[pipe][0] + bay[pipe][1]));
        if (!has_batt(d->f, x) && bay[pipe][1] - bay[pipe][0] > PIPE_BAY_M) {
            add_inside(d, (PbObstacle){PB_OBSTACLE_PIPE, x, foot(d), x, top(d), PIPE_M, 0.6});
        }
    }
}

static void leave(Draw *d, double x, double y, PbLeaveReason reason, const char *why)
{
    PbFraming *f = d->f;
    if (f->leave_count < PB_MAX_LEAVE) {
        PbLeave *l = &f->leave[f->leave_count++];
        l->x_m = x;
        l->y_m = y;
        l->reason = reason;
        snprintf(l->why, sizeof l->why, "%s", why);
    }
}

/* All bays of the wall are left for one reason: a point in the middle of each. */
static void leave_all(Draw *d, PbLeaveReason reason, const char *why)
{
    double bay[PB_MAX_MEMBERS][2];
    int count = plain_bays(d, bay);
    for (int n = 0; n < count; n++) {
        leave(d, mm(0.5 * (bay[n][0] + bay[n][1])), 0.5, reason, why);
    }
}

static void open_foot(Draw *d)
{
    double bay[PB_MAX_MEMBERS][2];
    int count = plain_bays(d, bay);
    for (int n = 0; n < count && d->f->opening_count < PB_MAX_WALL_OPENINGS; n++) {
        double area = pb_min(0.9 * d->era->depth_m * (bay[n][1] - bay[n][0]), 0.1);
        d->f->openings[d->f->opening_count++] = (PbOpening){
            bay[n][0], 0.0, bay[n][1], 0.0, area, d->era->depth_m, "open into the cellar"};
        leave(d, mm(0.5 * (bay[n][0] + bay[n][1])), 0.5, PB_LEAVE_OPEN_BAY,
              "The bay is open below: block it with rigid material first, then fill.");
    }
}

static void draw_left(Draw *d)
{
    PbRng rng = pb_rng_make(d->seed, LEFT);
    double bay[PB_MAX_MEMBERS][2];
    int count = plain_bays(d, bay), is_knob = chance(&rng, d->era->knob_share);
    int at = (int)(count * pb_rng_uniform(&rng)), stain = (int)(count * pb_rng_uniform(&rng));
    int has_register = chance(&rng, d->era->register_share) && count > 0;
    int has_stain = chance(&rng, d->era->stain_share) && count > 0;
    if (is_knob) {
        for (int n = 0; n < 2; n++) {
            double y = 1.25 + 0.3 * n;
            add_inside(d,
                       (PbObstacle){PB_OBSTACLE_CABLE, 0.05, y, d->end_m - 0.05, y, CABLE_M, 0.3});
        }
        leave_all(d, PB_LEAVE_OPEN_WIRING,
                  "Open wiring runs through this bay: a licensed electrician looks at it first.");
        return;
    }
    if (d->is_balloon) {
        open_foot(d);
    }
    if (has_register && bay[at][1] - bay[at][0] > REGISTER_W_M + 0.02 && !d->is_balloon &&
        !has_batt(d->f, 0.5 * (bay[at][0] + bay[at][1])) &&
        d->f->opening_count < PB_MAX_WALL_OPENINGS) {
        double x = mm(bay[at][1] - REGISTER_W_M - 0.01), y = mm(foot(d) + 0.02);
        d->f->openings[d->f->opening_count++] = (PbOpening){
            x, y, mm(x + REGISTER_W_M), mm(y + REGISTER_H_M), 0.02, 0.09, "wall register"};
        leave(d, mm(x + 0.1), y, PB_LEAVE_APPLIANCE,
              "A register boot opens into this bay: it is a heating duct.");
    }
    if (d->end_m < d->f->length_m && count > 0) {
        leave(d, mm(0.5 * (bay[count - 1][0] + bay[count - 1][1])), 0.5, PB_LEAVE_FLUE,
              "The chimney stands beside this bay: clearance to the flue is kept.");
    }
    if (has_stain) {
        leave(d, mm(0.5 * (bay[stain][0] + bay[stain][1])), 0.5, PB_LEAVE_LEAK,
              "The wall is stained here: the leak is found and mended first.");
    }
}

void pb_generate_wall(const PbEra *era, int year, uint64_t seed, PbFraming *out)
{
    Draw d = {era, seed, out, {{0.0, 0.0, 0.0, 0.0}}, 0, 0.0, 0};
    memset(out, 0, sizeof *out);
    snprintf(out->id, sizeof out->id, "wall-%d-%llu", year, (unsigned long long)(seed % 1000000u));
    snprintf(out->title, sizeof out->title, "A wall of about %d", year);
    draw_face(&d);
    draw_openings(&d);
    draw_uprights(&d);
    draw_across(&d);
    draw_batts(&d);
    draw_wires(&d);
    draw_left(&d);
}
