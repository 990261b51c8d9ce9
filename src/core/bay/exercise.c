/*
 * The plain exercise, and the judgement of any exercise: first every number against the range table
 * (format_rows.c), then the rules that tie numbers together: all inside the bay, nothing in the
 * same place twice, a hole that the tube fits. Not here: reading files (io/exercise_file.c).
 */
#include "core/exercise.h"

#include "base/complaint.h"
#include "core/format_rows.h"
#include "core/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Geometry is compared with this slack, so that 0.1 + 0.2 may touch 0.3. */
#define SLACK_M 1e-6

PbHole pb_hole_default(void)
{
    return (PbHole){.bore_m = 0.0635, /* 2.5 in hole saw, common practice */
                    .open_frac = 0.15};
}

PbExercise pb_exercise_default(void)
{
    PbExercise e;
    memset(&e, 0, sizeof e);
    snprintf(e.id, sizeof e.id, "plain-2x4");
    snprintf(e.title, sizeof e.title, "A plain wall bay");
    snprintf(e.teaches, sizeof e.teaches,
             "Push the tube to the top plate. At each stall pull back {step} until you reach the "
             "hole, then do the bottom end.");
    snprintf(e.cautions[0], sizeof e.cautions[0],
             "Probe the bay and look for live or old wiring, recessed lights, flues and heat "
             "sources before filling.");
    snprintf(e.cautions[1], sizeof e.cautions[1],
             "Dust mask and eye protection on; old paint and old fill may hold lead or asbestos: "
             "test, and leave it to licensed trades.");
    e.caution_count = 2;
    e.width_m = 0.368; /* clear width between studs 16 in on centre */
    e.height_m = 2.35; /* between plates of an 8 ft wall */
    e.depth_m = 0.089; /* 3.5 in */
    e.tilt_deg = 90.0;
    /* Empty walls leak 2 to 20 l/s per m2 at 75 Pa through the assembly (published US
     * field data); each face apart leaks more. 10 l/s for both faces is a wall of ordinary boards.
     */
    e.leak75_m3_s_m2 = 1e-2;
    e.leak_exponent = 0.65;
    e.board_pitch_m = 0.14;
    e.end_leak_share = 0.15;
    e.finish = PB_FINISH_GYPSUM_12_7;
    e.fastener_spacing_m = PB_M_PER_FT; /* screws 12 in apart, common practice */
    e.holes[0] = pb_hole_default();
    e.holes[0].x_m = 0.184;
    e.holes[0].y_m = 0.45;
    e.hole_count = 1;
    e.machine.static_pa = 19900.0; /* 80 in w.c., least for dense pack: SWS 4.1101.5 */
    e.machine.open_flow_m3_s = 0.040;
    e.machine.curve_exponent = 1.0;
    e.machine.hose_length_m = 30.0;
    e.machine.hose_bore_m = 0.050;
    e.machine.tube_length_m = 2.6;
    e.machine.tube_bore_m = 0.029;
    e.machine.tube_outer_m = 0.035;
    e.machine.feed_max_kg_s = 0.090;
    e.feed_kg_s = 0.065;
    e.bag_kg = 11.34;      /* 25 lb */
    e.target_kg_m3 = 56.0; /* 3.5 lb/ft3: SWS 4.1103.1 */
    e.pass_score = 70.0;
    snprintf(e.climate, sizeof e.climate, "cold");
    e.time_limit_s = 900.0;
    e.level = 1.0;
    e.order = 1.0;
    return e;
}

/* Words that become file names and keys: lower-case letters, digits and hyphens. */
static int is_word(const char *text, size_t size)
{
    size_t n = strnlen(text, size);
    return n > 0 && n < size && strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789-") == n;
}

/* Text for people: something, and it ends. */
static int is_text(const char *text, size_t size)
{
    size_t n = strnlen(text, size);
    return n > 0 && n < size;
}

static PbStatus check_words(const PbExercise *e, PbComplaint *c)
{
    if (!is_word(e->id, sizeof e->id)) {
        return pb_complain(c, "id", "\"id\": expected lower-case letters, digits and hyphens");
    }
    if (!is_text(e->title, sizeof e->title)) {
        return pb_complain(c, "title", "\"title\": expected some text");
    }
    if (!is_word(e->climate, sizeof e->climate)) {
        return pb_complain(c, "goal/climate",
                           "\"climate\": expected lower-case letters, digits and hyphens");
    }
    if (strnlen(e->teaches, sizeof e->teaches) == sizeof e->teaches) {
        return pb_complain(c, "teaches", "\"teaches\": the text does not end");
    }
    if (e->caution_count < 0 || e->caution_count > PB_MAX_CAUTIONS) {
        return pb_complain(c, "cautions", "\"cautions\": expected at most %d", PB_MAX_CAUTIONS);
    }
    for (int i = 0; i < e->caution_count; i++) {
        if (!is_text(e->cautions[i], sizeof e->cautions[i])) {
            char path[32];
            snprintf(path, sizeof path, "cautions/%d", i);
            return pb_complain(c, path, "caution %d: expected some text", i + 1);
        }
    }
    if (strnlen(e->must_not_fill, sizeof e->must_not_fill) == sizeof e->must_not_fill) {
        return pb_complain(c, "must_not_fill", "\"must_not_fill\": the text does not end");
    }
    if (strnlen(e->waits_for, sizeof e->waits_for) == sizeof e->waits_for) {
        return pb_complain(c, "course/waits_for", "\"waits_for\": the text does not end");
    }
    if ((int)e->finish < 0 || (int)e->finish >= PB_FINISHES) {
        return pb_complain(c, "finish/kind", "\"kind\": there is no such finish");
    }
    return PB_OK;
}

static int is_rectangle(PbObstacleKind kind)
{
    return pb_obstacle_traits(kind)->is_rectangle;
}

typedef struct Point {
    double x, y;
} Point;

static double segment_distance(Point p, Point a, Point b)
{
    double dx = b.x - a.x, dy = b.y - a.y;
    double len2 = dx * dx + dy * dy;
    double t = len2 > 0.0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / len2 : 0.0;
    t = t < 0.0 ? 0.0 : t > 1.0 ? 1.0 : t;
    double ex = a.x + t * dx - p.x, ey = a.y + t * dy - p.y;
    return sqrt(ex * ex + ey * ey);
}

static double turn(Point a, Point b, Point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static int segments_cross(Point a, Point b, Point c, Point d)
{
    double t1 = turn(a, b, c), t2 = turn(a, b, d), t3 = turn(c, d, a), t4 = turn(c, d, b);
    return ((t1 > 0.0) != (t2 > 0.0)) && ((t3 > 0.0) != (t4 > 0.0));
}

static double segments_distance(Point a, Point b, Point c, Point d)
{
    if (segments_cross(a, b, c, d)) {
        return 0.0;
    }
    double best = segment_distance(a, c, d);
    double others[3] = {segment_distance(b, c, d), segment_distance(c, a, b),
                        segment_distance(d, a, b)};
    for (int i = 0; i < 3; i++) {
        best = others[i] < best ? others[i] : best;
    }
    return best;
}

/* Distance between the middle lines of two obstacles; a rectangle is its four edges, and 0 when
 * the other one starts inside it. */
static double rectangle_distance(const PbObstacle *r, Point a, Point b)
{
    if (a.x > r->x0_m && a.x < r->x1_m && a.y > r->y0_m && a.y < r->y1_m) {
        return 0.0;
    }
    Point corner[5] = {{r->x0_m, r->y0_m},
                       {r->x1_m, r->y0_m},
                       {r->x1_m, r->y1_m},
                       {r->x0_m, r->y1_m},
                       {r->x0_m, r->y0_m}};
    double best = segments_distance(a, b, corner[0], corner[1]);
    for (int i = 1; i < 4; i++) {
        double d = segments_distance(a, b, corner[i], corner[i + 1]);
        best = d < best ? d : best;
    }
    return best;
}

static double line_gap(const PbObstacle *line, const PbObstacle *other)
{
    Point a = {line->x0_m, line->y0_m}, b = {line->x1_m, line->y1_m};
    if (is_rectangle(other->kind)) {
        return rectangle_distance(other, a, b) - 0.5 * line->size_m;
    }
    Point p = {other->x0_m, other->y0_m}, q = {other->x1_m, other->y1_m};
    return segments_distance(a, b, p, q) - 0.5 * (line->size_m + other->size_m);
}

/* Two things may lie one behind the other when the depth has room for both, as a cable before a
 * brace; two rectangles never may, because such a pair is better written as one. */
static int is_overlap(const PbObstacle *a, const PbObstacle *b)
{
    if (is_rectangle(a->kind) && is_rectangle(b->kind)) {
        return a->x0_m < b->x1_m - SLACK_M && b->x0_m < a->x1_m - SLACK_M &&
               a->y0_m < b->y1_m - SLACK_M && b->y0_m < a->y1_m - SLACK_M;
    }
    if (a->depth_frac + b->depth_frac <= 1.0) {
        return 0;
    }
    return (is_rectangle(a->kind) ? line_gap(b, a) : line_gap(a, b)) < -SLACK_M;
}

static PbStatus check_inside(const PbExercise *e, const char *path, double x, double y,
                             const char *x_key, const char *y_key, PbComplaint *c)
{
    char full[64];
    if (x > e->width_m + SLACK_M) {
        snprintf(full, sizeof full, "%s/%s", path, x_key);
        return pb_complain(c, full, "\"%s\": %g is outside the bay, expected 0 to %g m", x_key, x,
                           e->width_m);
    }
    if (y > e->height_m + SLACK_M) {
        snprintf(full, sizeof full, "%s/%s", path, y_key);
        return pb_complain(c, full, "\"%s\": %g is outside the bay, expected 0 to %g m", y_key, y,
                           e->height_m);
    }
    return PB_OK;
}

static PbStatus check_obstacle_shape(const PbObstacle *o, const char *path, PbComplaint *c)
{
    char full[64];
    if (is_rectangle(o->kind)) {
        if (o->x1_m <= o->x0_m || o->y1_m <= o->y0_m) {
            snprintf(full, sizeof full, "%s/%s", path, o->x1_m <= o->x0_m ? "x1_m" : "y1_m");
            return pb_complain(c, full, "expected x0_m below x1_m and y0_m below y1_m for a %s",
                               pb_obstacle_traits(o->kind)->word);
        }
        if (o->size_m != 0.0) {
            snprintf(full, sizeof full, "%s/size_m", path);
            return pb_complain(c, full, "\"size_m\": a %s has none; leave it out",
                               pb_obstacle_traits(o->kind)->word);
        }
        return PB_OK;
    }
    if (o->size_m == 0.0) {
        snprintf(full, sizeof full, "%s/size_m", path);
        return pb_complain(c, full, "\"size_m\": a %s needs its thickness, in m",
                           pb_obstacle_traits(o->kind)->word);
    }
    double dx = o->x1_m - o->x0_m, dy = o->y1_m - o->y0_m;
    if (sqrt(dx * dx + dy * dy) < 0.01) {
        return pb_complain(c, path, "a %s must be at least 0.01 m long",
                           pb_obstacle_traits(o->kind)->word);
    }
    return PB_OK;
}

static PbStatus check_obstacles(const PbExercise *e, PbComplaint *c)
{
    size_t rows_count;
    const PbNumberRow *rows = pb_obstacle_rows(&rows_count);
    if (e->obstacle_count < 0 || e->obstacle_count > PB_MAX_OBSTACLES) {
        return pb_complain(c, "obstacles", "\"obstacles\": expected at most %d", PB_MAX_OBSTACLES);
    }
    for (int i = 0; i < e->obstacle_count; i++) {
        const PbObstacle *o = &e->obstacles[i];
        char path[32];
        snprintf(path, sizeof path, "obstacles/%d", i);
        if ((int)o->kind < 0 || (int)o->kind >= PB_OBSTACLE_KINDS) {
            return pb_complain(c, path, "there is no such kind of obstacle");
        }
        PB_TRY(pb_rows_check(rows, rows_count, o, path, c->field, c->size, c->err));
        PB_TRY(check_inside(e, path, o->x0_m, o->y0_m, "x0_m", "y0_m", c));
        PB_TRY(check_inside(e, path, o->x1_m, o->y1_m, "x1_m", "y1_m", c));
        PB_TRY(check_obstacle_shape(o, path, c));
        for (int k = 0; k < i; k++) {
            if (is_overlap(o, &e->obstacles[k])) {
                return pb_complain(c, path,
                                   "this %s overlaps obstacle %d (a %s), expected them apart",
                                   pb_obstacle_traits(o->kind)->word, k + 1,
                                   pb_obstacle_traits(e->obstacles[k].kind)->word);
            }
        }
    }
    return PB_OK;
}

static PbStatus check_openings(const PbExercise *e, PbComplaint *c)
{
    size_t rows_count;
    const PbNumberRow *rows = pb_opening_rows(&rows_count);
    if (e->opening_count < 0 || e->opening_count > PB_MAX_OPENINGS) {
        return pb_complain(c, "openings", "\"openings\": expected at most %d", PB_MAX_OPENINGS);
    }
    for (int i = 0; i < e->opening_count; i++) {
        const PbOpening *o = &e->openings[i];
        char path[32], full[64];
        snprintf(path, sizeof path, "openings/%d", i);
        PB_TRY(pb_rows_check(rows, rows_count, o, path, c->field, c->size, c->err));
        PB_TRY(check_inside(e, path, o->x0_m, o->y0_m, "x0_m", "y0_m", c));
        PB_TRY(check_inside(e, path, o->x1_m, o->y1_m, "x1_m", "y1_m", c));
        if (o->x1_m < o->x0_m || o->y1_m < o->y0_m) {
            snprintf(full, sizeof full, "%s/%s", path, o->x1_m < o->x0_m ? "x1_m" : "y1_m");
            return pb_complain(c, full, "expected x0_m up to x1_m and y0_m up to y1_m");
        }
        /* the roundest hole of a given smallest width is a circle: pi/4 width^2 */
        if (o->area_m2 < 0.78 * o->width_m * o->width_m) {
            snprintf(full, sizeof full, "%s/width_m", path);
            return pb_complain(c, full, "\"width_m\": a hole %g m wide has more than %g m2 of area",
                               o->width_m, o->area_m2);
        }
        if (!is_text(o->place, sizeof o->place)) {
            snprintf(full, sizeof full, "%s/place", path);
            return pb_complain(c, full, "\"place\": expected some text");
        }
    }
    return PB_OK;
}

/* The first hole stands in "hole", the others in the list "more_holes". */
static void hole_path(int index, const char *key, char *path, size_t size)
{
    const char *between = key[0] != '\0' ? "/" : "";
    if (index == 0) {
        snprintf(path, size, "hole%s%s", between, key);
    } else {
        snprintf(path, size, "more_holes/%d%s%s", index - 1, between, key);
    }
}

static PbStatus check_hole(const PbExercise *e, int index, PbComplaint *c)
{
    const PbHole *h = &e->holes[index];
    double r = 0.5 * h->bore_m;
    char path[48];
    if (h->x_m < r - SLACK_M || h->x_m > e->width_m - r + SLACK_M) {
        hole_path(index, "x_m", path, sizeof path);
        return pb_complain(c, path, "\"x_m\": the hole is outside the bay, expected %g to %g m", r,
                           e->width_m - r);
    }
    if (h->y_m < r - SLACK_M || h->y_m > e->height_m - r + SLACK_M) {
        hole_path(index, "y_m", path, sizeof path);
        return pb_complain(c, path, "\"y_m\": the hole is outside the bay, expected %g to %g m", r,
                           e->height_m - r);
    }
    Point p = {h->x_m, h->y_m};
    hole_path(index, "", path, sizeof path);
    for (int i = 0; i < e->obstacle_count; i++) {
        const PbObstacle *o = &e->obstacles[i];
        Point a = {o->x0_m, o->y0_m}, b = {o->x1_m, o->y1_m};
        int stops_tube = pb_obstacle_traits(o->kind)->always_stops_tube || o->depth_frac >= 1.0;
        double gap = is_rectangle(o->kind) ? rectangle_distance(o, p, p)
                                           : segment_distance(p, a, b) - 0.5 * o->size_m;
        if (stops_tube && gap < r - SLACK_M) {
            return pb_complain(c, path, "the hole meets obstacle %d (a %s), expected it clear",
                               i + 1, pb_obstacle_traits(o->kind)->word);
        }
    }
    for (int k = 0; k < index; k++) {
        double dx = h->x_m - e->holes[k].x_m, dy = h->y_m - e->holes[k].y_m;
        if (sqrt(dx * dx + dy * dy) < r + 0.5 * e->holes[k].bore_m - SLACK_M) {
            return pb_complain(c, path, "the hole runs into hole %d, expected them apart", k + 1);
        }
    }
    if (e->machine.tube_outer_m > h->bore_m) {
        return pb_complain(c, "machine/tube_outer_m",
                           "\"tube_outer_m\": %g does not go into the hole of %g m",
                           e->machine.tube_outer_m, h->bore_m);
    }
    return PB_OK;
}

static PbStatus check_holes(const PbExercise *e, PbComplaint *c)
{
    size_t rows_count;
    const PbNumberRow *rows = pb_hole_rows(&rows_count);
    if (e->hole_count < 1 || e->hole_count > PB_MAX_HOLES) {
        return pb_complain(c, "more_holes", "\"more_holes\": expected at most %d",
                           PB_MAX_HOLES - 1);
    }
    for (int i = 0; i < e->hole_count; i++) {
        char path[48];
        hole_path(i, "", path, sizeof path);
        PB_TRY(pb_rows_check(rows, rows_count, &e->holes[i], path, c->field, c->size, c->err));
        PB_TRY(check_hole(e, i, c));
    }
    return PB_OK;
}

static PbStatus check_machine(const PbExercise *e, PbComplaint *c)
{
    const PbMachine *m = &e->machine;
    if (m->tube_outer_m <= m->tube_bore_m) {
        return pb_complain(c, "machine/tube_outer_m",
                           "\"tube_outer_m\": %g, expected more than the bore of %g m",
                           m->tube_outer_m, m->tube_bore_m);
    }
    if (m->tube_outer_m > e->depth_m) {
        return pb_complain(c, "machine/tube_outer_m",
                           "\"tube_outer_m\": %g does not go into a bay %g m deep", m->tube_outer_m,
                           e->depth_m);
    }
    if (e->feed_kg_s > m->feed_max_kg_s) {
        return pb_complain(c, "machine/feed_kg_s",
                           "\"feed_kg_s\": %g is more than the gate gives, expected 0 to %g kg/s",
                           e->feed_kg_s, m->feed_max_kg_s);
    }
    return PB_OK;
}

static PbStatus check_course(const PbExercise *e, PbComplaint *c)
{
    if (e->level != floor(e->level)) {
        return pb_complain(c, "course/level", "\"level\": %g, expected a whole number", e->level);
    }
    if (e->order != floor(e->order)) {
        return pb_complain(c, "course/order", "\"order\": %g, expected a whole number", e->order);
    }
    if (e->leave_kg > 0.0 && e->must_not_fill[0] == '\0') {
        return pb_complain(c, "goal/leave_kg",
                           "\"leave_kg\": only a bay with \"must_not_fill\" has one; leave it out");
    }
    if (e->leave_reason != PB_LEAVE_NONE && e->must_not_fill[0] == '\0') {
        return pb_complain(
            c, "leave_reason",
            "\"leave_reason\": only a bay with \"must_not_fill\" has one; leave it out");
    }
    if ((e->level > 0.0) != (e->order > 0.0)) {
        return pb_complain(c, "course", "\"course\": expected both level and order, or neither");
    }
    return PB_OK;
}

static PbStatus check_wall(const PbExercise *e, PbComplaint *c)
{
    PbError inner = {0};
    PbWallPlace place = PB_WALL_INSIDE;
    char path[32];
    if (pb_wall_check(&e->wall, &place, &inner) == PB_OK) {
        return PB_OK;
    }
    snprintf(path, sizeof path, "wall/%s", pb_wall_place_word(place));
    return pb_complain(c, path, "%.300s", inner.message);
}

PbStatus pb_exercise_check(const PbExercise *e, char *field, size_t size, PbError *err)
{
    PbComplaint c = {field, size, err};
    size_t count;
    const PbNumberRow *rows = pb_exercise_rows(&count);
    PB_TRY(check_words(e, &c));
    PB_TRY(pb_rows_check(rows, count, e, "", field, size, err));
    PB_TRY(check_course(e, &c));
    PB_TRY(check_obstacles(e, &c));
    PB_TRY(check_openings(e, &c));
    PB_TRY(check_holes(e, &c));
    PB_TRY(check_wall(e, &c));
    return check_machine(e, &c);
}
