/*
 * The bays of a wall: a grid of every edge of its members and cut-outs, and the parts of it that
 * hang together. What stands inside is clipped to each bay. Next: framing.c, what a wall may be.
 */
#include "core/bays.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Edges nearer than this are one. */
#define SLACK_M 1e-6

enum { FREE = -1, SOLID = -2 };

struct PbBays {
    PbAllocator allocator;
    const PbFraming *f;
    int nx, ny;  /* cells */
    double *x_m; /* [nx + 1] */
    double *y_m; /* [ny + 1] */
    int *owner;  /* [nx][ny]: number of the bay, or what it is instead */
    int *stack;  /* [nx * ny] */
    PbFramedBay *list;
    int count;
};

static int *owner_at(const PbBays *b, int i, int j)
{
    return &b->owner[i * b->ny + j];
}

static void add_edge(double *edges, int *count, double at)
{
    int n = *count, place = 0;
    while (place < n && edges[place] < at - SLACK_M) {
        place++;
    }
    if (place < n && edges[place] <= at + SLACK_M) {
        return;
    }
    memmove(&edges[place + 1], &edges[place], (size_t)(n - place) * sizeof *edges);
    edges[place] = at;
    (*count)++;
}

/* Index of the edge at `at`: of the last one that is not beyond it. */
static int edge_of(const double *edges, int cells, double at)
{
    int i = 0;
    while (i < cells && edges[i + 1] <= at + SLACK_M) {
        i++;
    }
    return i;
}

static void cut(PbBays *b)
{
    const PbFraming *f = b->f;
    int nx = 0, ny = 0;
    add_edge(b->x_m, &nx, 0.0);
    add_edge(b->x_m, &nx, f->length_m);
    add_edge(b->y_m, &ny, 0.0);
    add_edge(b->y_m, &ny, f->height_m);
    for (int n = 0; n < pb_framing_solids(f); n++) {
        const char *word;
        const PbRect *r = pb_framing_solid(f, n, &word);
        add_edge(b->x_m, &nx, r->x0_m);
        add_edge(b->x_m, &nx, r->x1_m);
        add_edge(b->y_m, &ny, r->y0_m);
        add_edge(b->y_m, &ny, r->y1_m);
    }
    b->nx = nx - 1;
    b->ny = ny - 1;
}

static void mark(PbBays *b, const PbRect *r, int what)
{
    int i1 = edge_of(b->x_m, b->nx, r->x1_m), j1 = edge_of(b->y_m, b->ny, r->y1_m);
    for (int i = edge_of(b->x_m, b->nx, r->x0_m); i < i1; i++) {
        for (int j = edge_of(b->y_m, b->ny, r->y0_m); j < j1; j++) {
            *owner_at(b, i, j) = what;
        }
    }
}

/* Everything that hangs together with a free cell becomes bay `number`. */
static void flood(PbBays *b, int i, int j, int number)
{
    int waiting = 0;
    *owner_at(b, i, j) = number;
    b->stack[waiting++] = i * b->ny + j;
    while (waiting > 0) {
        int cell = b->stack[--waiting], x = cell / b->ny, y = cell % b->ny;
        const int next[4][2] = {{x - 1, y}, {x + 1, y}, {x, y - 1}, {x, y + 1}};
        for (int k = 0; k < 4; k++) {
            int u = next[k][0], v = next[k][1];
            if (u >= 0 && u < b->nx && v >= 0 && v < b->ny && *owner_at(b, u, v) == FREE) {
                *owner_at(b, u, v) = number;
                b->stack[waiting++] = u * b->ny + v;
            }
        }
    }
}

/* Word of the member or cut-out at a point; "edge" where there is none. */
static const char *word_at(const PbFraming *f, double x, double y)
{
    for (int n = 0; n < pb_framing_solids(f); n++) {
        const char *word;
        const PbRect *r = pb_framing_solid(f, n, &word);
        if (x >= r->x0_m && x <= r->x1_m && y >= r->y0_m && y <= r->y1_m) {
            return word;
        }
    }
    return "edge";
}

/* The part of a line from (x0, y0) to (x1, y1) inside a rectangle, as shares of its length
 * (Liang and Barsky, ACM Trans. Graphics 3, 1984, 1). Nought when it misses. */
static int clip_line(const PbObstacle *o, const PbRect *r, double share[2])
{
    double dx = o->x1_m - o->x0_m, dy = o->y1_m - o->y0_m;
    const double p[4] = {-dx, dx, -dy, dy};
    const double q[4] = {o->x0_m - r->x0_m, r->x1_m - o->x0_m, o->y0_m - r->y0_m,
                         r->y1_m - o->y0_m};
    share[0] = 0.0;
    share[1] = 1.0;
    for (int k = 0; k < 4; k++) {
        if (p[k] == 0.0) {
            if (q[k] < 0.0) {
                return 0;
            }
        } else if (p[k] < 0.0) {
            share[0] = pb_max(share[0], q[k] / p[k]);
        } else {
            share[1] = pb_min(share[1], q[k] / p[k]);
        }
    }
    return share[1] > share[0];
}

/* An obstacle of the wall as far as it is in `r`, from the corner of `r`. Nought when it is not. */
static int clip(const PbObstacle *o, const PbRect *r, PbObstacle *out)
{
    *out = *o;
    if (pb_obstacle_traits(o->kind)->is_rectangle) {
        out->x0_m = pb_max(o->x0_m, r->x0_m);
        out->y0_m = pb_max(o->y0_m, r->y0_m);
        out->x1_m = pb_min(o->x1_m, r->x1_m);
        out->y1_m = pb_min(o->y1_m, r->y1_m);
        if (out->x1_m - out->x0_m <= SLACK_M || out->y1_m - out->y0_m <= SLACK_M) {
            return 0;
        }
    } else {
        double share[2], dx = o->x1_m - o->x0_m, dy = o->y1_m - o->y0_m;
        if (!clip_line(o, r, share) ||
            (share[1] - share[0]) * sqrt(dx * dx + dy * dy) < 0.01) { /* shorter is no obstacle */
            return 0;
        }
        out->x1_m = o->x0_m + share[1] * dx;
        out->y1_m = o->y0_m + share[1] * dy;
        out->x0_m = o->x0_m + share[0] * dx;
        out->y0_m = o->y0_m + share[0] * dy;
    }
    out->x0_m = pb_max(0.0, out->x0_m - r->x0_m);
    out->x1_m = pb_max(0.0, out->x1_m - r->x0_m);
    out->y0_m = pb_max(0.0, out->y0_m - r->y0_m);
    out->y1_m = pb_max(0.0, out->y1_m - r->y0_m);
    return 1;
}

/* Share of the bay's plane times depth that stands full of other things, m2. */
static double taken_m2(const PbBays *b, int number)
{
    const PbFraming *f = b->f;
    double sum = 0.0;
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        PbObstacle part;
        for (int i = 0; i < b->nx; i++) {
            for (int j = 0; j < b->ny; j++) {
                PbRect cell = {b->x_m[i], b->y_m[j], b->x_m[i + 1], b->y_m[j + 1]};
                if (*owner_at(b, i, j) != number || !clip(o, &cell, &part)) {
                    continue;
                }
                double dx = part.x1_m - part.x0_m, dy = part.y1_m - part.y0_m;
                sum += o->depth_frac * (pb_obstacle_traits(o->kind)->is_rectangle
                                            ? dx * dy
                                            : o->size_m * sqrt(dx * dx + dy * dy));
            }
        }
    }
    return sum;
}

/* Does a brace or the like, as deep as the wall, run through the rectangle from edge to edge? */
static int is_parted(const PbFraming *f, const PbRect *r)
{
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        double share[2];
        if (!pb_obstacle_traits(o->kind)->is_rectangle && o->depth_frac >= 1.0 &&
            clip_line(o, r, share) && share[0] > 0.0 && share[1] < 1.0) {
            return 1;
        }
    }
    return 0;
}

static void measure(PbBays *b, int number)
{
    PbFramedBay *bay = &b->list[number];
    PbRect *r = &bay->around;
    *r = (PbRect){HUGE_VAL, HUGE_VAL, 0.0, 0.0};
    for (int i = 0; i < b->nx; i++) {
        for (int j = 0; j < b->ny; j++) {
            if (*owner_at(b, i, j) == number) {
                bay->area_m2 += (b->x_m[i + 1] - b->x_m[i]) * (b->y_m[j + 1] - b->y_m[j]);
                r->x0_m = pb_min(r->x0_m, b->x_m[i]);
                r->y0_m = pb_min(r->y0_m, b->y_m[j]);
                r->x1_m = pb_max(r->x1_m, b->x_m[i + 1]);
                r->y1_m = pb_max(r->y1_m, b->y_m[j + 1]);
            }
        }
    }
    double box_m2 = (r->x1_m - r->x0_m) * (r->y1_m - r->y0_m), middle = 0.5 * (r->x0_m + r->x1_m);
    bay->is_rectangle = box_m2 - bay->area_m2 < SLACK_M * SLACK_M;
    bay->is_narrow =
        pb_min(r->x1_m - r->x0_m, r->y1_m - r->y0_m) < b->f->like.holes[0].bore_m - SLACK_M;
    bay->is_parted = is_parted(b->f, r);
    bay->fill_m3 = pb_max(0.0, bay->area_m2 - taken_m2(b, number)) * b->f->like.depth_m;
    bay->above = word_at(b->f, middle, r->y1_m + 2.0 * SLACK_M);
    bay->below = word_at(b->f, middle, r->y0_m - 2.0 * SLACK_M);
}

static PbStatus number_bays(PbBays *b)
{
    for (int i = 0; i < b->nx; i++) {
        for (int j = 0; j < b->ny; j++) {
            if (*owner_at(b, i, j) == FREE) {
                flood(b, i, j, b->count++);
            }
        }
    }
    size_t bytes = (size_t)(b->count > 0 ? b->count : 1) * sizeof *b->list;
    b->list = b->allocator.alloc(b->allocator.user, bytes);
    if (b->list == NULL) {
        return PB_ERR_MEMORY;
    }
    memset(b->list, 0, bytes);
    for (int n = 0; n < b->count; n++) {
        measure(b, n);
    }
    for (int n = 0; n < b->f->leave_count; n++) {
        const PbLeave *leave = &b->f->leave[n];
        int at = pb_bays_at(b, leave->x_m, leave->y_m);
        if (at >= 0) {
            b->list[at].why = leave->why;
            b->list[at].reason = leave->reason;
        }
    }
    return PB_OK;
}

PbStatus pb_bays_create(const PbFraming *f, const PbAllocator *allocator, PbBays **out)
{
    assert(f != NULL && allocator != NULL && out != NULL);
    size_t edges = 2 * (size_t)pb_framing_solids(f) + 2;
    PbBays *b = allocator->alloc(allocator->user, sizeof *b);
    if (b == NULL) {
        return PB_ERR_MEMORY;
    }
    memset(b, 0, sizeof *b);
    b->allocator = *allocator;
    b->f = f;
    b->x_m = allocator->alloc(allocator->user, edges * sizeof *b->x_m);
    b->y_m = allocator->alloc(allocator->user, edges * sizeof *b->y_m);
    b->owner = allocator->alloc(allocator->user, edges * edges * sizeof *b->owner);
    b->stack = allocator->alloc(allocator->user, edges * edges * sizeof *b->stack);
    PbStatus status = PB_ERR_MEMORY;
    if (b->x_m != NULL && b->y_m != NULL && b->owner != NULL && b->stack != NULL) {
        cut(b);
        mark(b, &(PbRect){0.0, 0.0, f->length_m, f->height_m}, FREE);
        for (int n = 0; n < pb_framing_solids(f); n++) {
            const char *word;
            mark(b, pb_framing_solid(f, n, &word), SOLID);
        }
        status = number_bays(b);
    }
    if (status != PB_OK) {
        pb_bays_destroy(b);
        return status;
    }
    *out = b;
    return PB_OK;
}

void pb_bays_destroy(PbBays *b)
{
    if (b != NULL) {
        PbAllocator a = b->allocator;
        a.free(a.user, b->x_m);
        a.free(a.user, b->y_m);
        a.free(a.user, b->owner);
        a.free(a.user, b->stack);
        a.free(a.user, b->list);
        a.free(a.user, b);
    }
}

const PbFramedBay *pb_bays_list(const PbBays *b, int *count)
{
    *count = b->count;
    return b->list;
}

PbWallAreas pb_bays_areas(const PbBays *b)
{
    const PbFraming *f = b->f;
    PbWallAreas a = {f->length_m * f->height_m, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (int n = 0; n < pb_framing_solids(f); n++) {
        const char *word;
        const PbRect *r = pb_framing_solid(f, n, &word);
        *(n < f->member_count ? &a.members_m2 : &a.cutouts_m2) +=
            (r->x1_m - r->x0_m) * (r->y1_m - r->y0_m);
    }
    for (int n = 0; n < b->count; n++) {
        a.bays_m2 += b->list[n].area_m2;
        a.fill_m3 += b->list[n].why == NULL ? b->list[n].fill_m3 : 0.0;
    }
    a.fill_kg = a.fill_m3 * f->like.target_kg_m3;
    a.fill_bags = a.fill_kg / f->like.bag_kg;
    return a;
}

int pb_bays_at(const PbBays *b, double x_m, double y_m)
{
    if (!(x_m >= 0.0 && x_m < b->f->length_m && y_m >= 0.0 && y_m < b->f->height_m)) {
        return -1;
    }
    int owner = *owner_at(b, edge_of(b->x_m, b->nx, x_m), edge_of(b->y_m, b->ny, y_m));
    return owner >= 0 ? owner : -1;
}

static int is_in(const PbRect *r, double x, double y)
{
    return x > r->x0_m - SLACK_M && x < r->x1_m + SLACK_M && y > r->y0_m - SLACK_M &&
           y < r->y1_m + SLACK_M;
}

/* Cell (i, j) of the bay's rectangle that is not the bay and is in none of the blocks yet. */
static int is_gap(const PbBays *b, int number, const PbExercise *e, int i, int j)
{
    const PbRect *around = &b->list[number].around;
    double x = 0.5 * (b->x_m[i] + b->x_m[i + 1]) - around->x0_m;
    double y = 0.5 * (b->y_m[j] + b->y_m[j + 1]) - around->y0_m;
    if (*owner_at(b, i, j) == number) {
        return 0;
    }
    for (int k = 0; k < e->obstacle_count; k++) {
        const PbObstacle *o = &e->obstacles[k];
        if (is_in(&(PbRect){o->x0_m, o->y0_m, o->x1_m, o->y1_m}, x, y)) {
            return 0;
        }
    }
    return 1;
}

static int add_obstacle(PbExercise *e, const PbObstacle *o)
{
    if (e->obstacle_count == PB_MAX_OBSTACLES) {
        return 0;
    }
    e->obstacles[e->obstacle_count++] = *o;
    return 1;
}

/* What is not the bay within its rectangle stands in the exercise as blocks: as wide as they go,
 * then as high. */
static int add_blocks(const PbBays *b, int number, PbExercise *e)
{
    const PbRect *r = &b->list[number].around;
    int i0 = edge_of(b->x_m, b->nx, r->x0_m), i1 = edge_of(b->x_m, b->nx, r->x1_m);
    int j0 = edge_of(b->y_m, b->ny, r->y0_m), j1 = edge_of(b->y_m, b->ny, r->y1_m);
    for (int j = j0; j < j1; j++) {
        for (int i = i0; i < i1; i++) {
            if (!is_gap(b, number, e, i, j)) {
                continue;
            }
            int right = i + 1, top = j + 1, is_full = 1;
            while (right < i1 && is_gap(b, number, e, right, j)) {
                right++;
            }
            while (top < j1 && is_full) {
                for (int k = i; k < right && is_full; k++) {
                    is_full = is_gap(b, number, e, k, top);
                }
                top += is_full;
            }
            PbObstacle block = {PB_OBSTACLE_BLOCK,
                                b->x_m[i] - r->x0_m,
                                b->y_m[j] - r->y0_m,
                                b->x_m[right] - r->x0_m,
                                b->y_m[top] - r->y0_m,
                                0.0,
                                1.0};
            if (!add_obstacle(e, &block)) {
                return 0;
            }
        }
    }
    return 1;
}

static int add_contents(const PbBays *b, int number, PbExercise *e)
{
    const PbFraming *f = b->f;
    const PbRect *r = &b->list[number].around;
    for (int n = 0; n < f->inside_count; n++) {
        PbObstacle part;
        if (clip(&f->inside[n], r, &part) && !add_obstacle(e, &part)) {
            return 0;
        }
    }
    for (int n = 0; n < f->opening_count; n++) {
        PbOpening o = f->openings[n];
        if (pb_bays_at(b, 0.5 * (o.x0_m + o.x1_m), 0.5 * (o.y0_m + o.y1_m)) != number) {
            continue;
        }
        if (e->opening_count == PB_MAX_OPENINGS) {
            return 0;
        }
        o.x0_m = pb_max(o.x0_m, r->x0_m) - r->x0_m;
        o.y0_m = pb_max(o.y0_m, r->y0_m) - r->y0_m;
        o.x1_m = pb_min(o.x1_m, r->x1_m) - r->x0_m;
        o.y1_m = pb_min(o.y1_m, r->y1_m) - r->y0_m;
        e->openings[e->opening_count++] = o;
    }
    return 1;
}

PbStatus pb_bays_exercise(const PbBays *b, int index, PbExercise *out, PbError *err)
{
    assert(index >= 0 && index < b->count);
    const PbFramedBay *bay = &b->list[index];
    const PbRect *r = &bay->around;
    PbExercise e = b->f->like;
    snprintf(e.id, sizeof e.id, "%.31s-bay-%d", b->f->id, index + 1);
    snprintf(e.title, sizeof e.title, "%.80s, bay %d", b->f->title, index + 1);
    e.teaches[0] = e.waits_for[0] = e.must_not_fill[0] = '\0';
    e.level = e.order = e.leave_kg = e.lost_max_kg = 0.0;
    e.leave_reason = bay->reason;
    e.hole_count = 1;
    e.obstacle_count = e.opening_count = 0;
    e.width_m = r->x1_m - r->x0_m;
    e.height_m = r->y1_m - r->y0_m;
    if (bay->why != NULL) {
        snprintf(e.must_not_fill, sizeof e.must_not_fill, "%s", bay->why);
    }
    if (!add_blocks(b, index, &e) || !add_contents(b, index, &e)) {
        return pb_fail(err, PB_ERR_RANGE, "bay %d has too much in it for an exercise", index + 1);
    }
    const double up[] = {b->f->like.holes[0].y_m / e.height_m, 0.5, 1.0 / 3.0, 2.0 / 3.0};
    const double across[] = {0.5, 0.25, 0.75};
    PbError inner = {0};
    for (int n = 0; n < 12; n++) {
        char field[96];
        e.holes[0].y_m = up[n / 3] * e.height_m;
        e.holes[0].x_m = across[n % 3] * e.width_m;
        if (pb_exercise_check(&e, field, sizeof field, &inner) == PB_OK) {
            *out = e;
            return PB_OK;
        }
    }
    return pb_fail(err, PB_ERR_RANGE, "bay %d, %.3f x %.3f m: %.200s", index + 1, e.width_m,
                   e.height_m, inner.message);
}
