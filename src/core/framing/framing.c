/* Words, range tables and the judgement of a framed wall. Next: bays.c, what its members leave. */
#include "core/framing.h"

#include "base/complaint.h"
#include "bay/rows.h"

#include <stdio.h>
#include <string.h>

#define SLACK_M 1e-6

const char *const pb_member_words[PB_MEMBER_KINDS] = {"stud", "plate",   "header", "sill",
                                                      "jack", "cripple", "block"};
const char *const pb_cutout_words[PB_CUTOUT_KINDS] = {"window", "door", "chimney"};

enum { LONGEST_M = 15, HIGHEST_M = 7 };

static const PbNumberRow framing_rows[] = {
    {"wall", "length_m", "m", 0.3, LONGEST_M, REQUIRED, AT(PbFraming, length_m)},
    {"wall", "height_m", "m", 0.5, HIGHEST_M, REQUIRED, AT(PbFraming, height_m)},
};
static const PbNumberRow rect_rows[] = {
    {"", "x0_m", "m", 0, LONGEST_M, REQUIRED, AT(PbRect, x0_m)},
    {"", "y0_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbRect, y0_m)},
    {"", "x1_m", "m", 0, LONGEST_M, REQUIRED, AT(PbRect, x1_m)},
    {"", "y1_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbRect, y1_m)},
};
static const PbNumberRow inside_rows[] = {
    {"", "x0_m", "m", 0, LONGEST_M, REQUIRED, AT(PbObstacle, x0_m)},
    {"", "y0_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbObstacle, y0_m)},
    {"", "x1_m", "m", 0, LONGEST_M, REQUIRED, AT(PbObstacle, x1_m)},
    {"", "y1_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbObstacle, y1_m)},
    {"", "size_m", "m", 0.004, 0.2, OR_ZERO, AT(PbObstacle, size_m)},
    {"", "depth_frac", "-", 0.02, 1, REQUIRED, AT(PbObstacle, depth_frac)},
};
static const PbNumberRow wall_opening_rows[] = {
    {"", "x0_m", "m", 0, LONGEST_M, REQUIRED, AT(PbOpening, x0_m)},
    {"", "y0_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbOpening, y0_m)},
    {"", "x1_m", "m", 0, LONGEST_M, REQUIRED, AT(PbOpening, x1_m)},
    {"", "y1_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbOpening, y1_m)},
    {"", "area_m2", "m2", 1e-6, 0.1, REQUIRED, AT(PbOpening, area_m2)},
    {"", "width_m", "m", 2e-4, 0.3, REQUIRED, AT(PbOpening, width_m)},
};
static const PbNumberRow leave_rows[] = {
    {"", "x_m", "m", 0, LONGEST_M, REQUIRED, AT(PbLeave, x_m)},
    {"", "y_m", "m", 0, HIGHEST_M, REQUIRED, AT(PbLeave, y_m)},
};

ROWS_OF(framing_rows)
ROWS_OF(rect_rows)
ROWS_OF(inside_rows)
ROWS_OF(wall_opening_rows)
ROWS_OF(leave_rows)

static PbStatus check_point(const PbFraming *f, const char *path, const char *const keys[2],
                            const double at[2], PbComplaint *c)
{
    char full[64];
    if (at[0] > f->length_m + SLACK_M) {
        snprintf(full, sizeof full, "%s/%s", path, keys[0]);
        return pb_complain(c, full, "\"%s\": %g is outside the wall, expected 0 to %g m", keys[0],
                           at[0], f->length_m);
    }
    if (at[1] > f->height_m + SLACK_M) {
        snprintf(full, sizeof full, "%s/%s", path, keys[1]);
        return pb_complain(c, full, "\"%s\": %g is outside the wall, expected 0 to %g m", keys[1],
                           at[1], f->height_m);
    }
    return PB_OK;
}

static const char *const from_keys[2] = {"x0_m", "y0_m"};
static const char *const to_keys[2] = {"x1_m", "y1_m"};

static PbStatus check_rect(const PbFraming *f, const PbRect *r, const char *path, const char *word,
                           PbComplaint *c)
{
    size_t count;
    char full[64];
    const PbNumberRow *rows = pb_rect_rows(&count);
    PB_TRY(pb_rows_check(rows, count, r, path, c->field, c->size, c->err));
    PB_TRY(check_point(f, path, from_keys, (const double[2]){r->x0_m, r->y0_m}, c));
    PB_TRY(check_point(f, path, to_keys, (const double[2]){r->x1_m, r->y1_m}, c));
    if (r->x1_m - r->x0_m < 1e-3 || r->y1_m - r->y0_m < 1e-3) {
        snprintf(full, sizeof full, "%s/%s", path, r->x1_m - r->x0_m < 1e-3 ? "x1_m" : "y1_m");
        return pb_complain(c, full, "expected a %s at least 1 mm wide and high", word);
    }
    return PB_OK;
}

static int is_overlap(const PbRect *a, const PbRect *b)
{
    return a->x0_m < b->x1_m - SLACK_M && b->x0_m < a->x1_m - SLACK_M &&
           a->y0_m < b->y1_m - SLACK_M && b->y0_m < a->y1_m - SLACK_M;
}

int pb_framing_solids(const PbFraming *f)
{
    return f->member_count + f->cutout_count;
}

const PbRect *pb_framing_solid(const PbFraming *f, int i, const char **word)
{
    if (i < f->member_count) {
        *word = pb_member_words[f->members[i].kind];
        return &f->members[i].at;
    }
    const PbCutout *cutout = &f->cutouts[i - f->member_count];
    *word = pb_cutout_words[cutout->kind];
    return &cutout->at;
}

static PbStatus check_solids(const PbFraming *f, PbComplaint *c)
{
    for (int i = 0; i < pb_framing_solids(f); i++) {
        const char *word, *other;
        char path[32];
        int is_member = i < f->member_count;
        int k = is_member ? i : i - f->member_count;
        int kind = is_member ? (int)f->members[k].kind : (int)f->cutouts[k].kind;
        snprintf(path, sizeof path, "%s/%d", is_member ? "members" : "cutouts", k);
        if (kind < 0 || kind >= (is_member ? (int)PB_MEMBER_KINDS : (int)PB_CUTOUT_KINDS)) {
            return pb_complain(c, path, "there is no such kind");
        }
        const PbRect *at = pb_framing_solid(f, i, &word);
        PB_TRY(check_rect(f, at, path, word, c));
        for (int j = 0; j < i; j++) {
            if (is_overlap(at, pb_framing_solid(f, j, &other))) {
                int is_other_member = j < f->member_count;
                return pb_complain(c, path, "this %s overlaps %s %d (a %s), expected them apart",
                                   word, is_other_member ? "member" : "cutout",
                                   (is_other_member ? j : j - f->member_count) + 1, other);
            }
        }
    }
    return PB_OK;
}

static PbStatus check_inside(const PbFraming *f, PbComplaint *c)
{
    size_t count;
    const PbNumberRow *rows = pb_inside_rows(&count);
    for (int i = 0; i < f->inside_count; i++) {
        const PbObstacle *o = &f->inside[i];
        char path[32];
        snprintf(path, sizeof path, "inside/%d", i);
        if ((int)o->kind < 0 || (int)o->kind >= PB_OBSTACLE_KINDS) {
            return pb_complain(c, path, "there is no such kind");
        }
        const PbObstacleTraits *traits = pb_obstacle_traits(o->kind);
        PB_TRY(pb_rows_check(rows, count, o, path, c->field, c->size, c->err));
        PB_TRY(check_point(f, path, from_keys, (const double[2]){o->x0_m, o->y0_m}, c));
        PB_TRY(check_point(f, path, to_keys, (const double[2]){o->x1_m, o->y1_m}, c));
        if (traits->is_rectangle && (o->x1_m <= o->x0_m || o->y1_m <= o->y0_m)) {
            return pb_complain(c, path, "expected x0_m below x1_m and y0_m below y1_m for a %s",
                               traits->word);
        }
        if (traits->is_rectangle != (o->size_m == 0.0)) {
            return pb_complain(c, path,
                               traits->is_rectangle ? "\"size_m\": a %s has none; leave it out"
                                                    : "\"size_m\": a %s needs its thickness, in m",
                               traits->word);
        }
    }
    return PB_OK;
}

static PbStatus check_points(const PbFraming *f, PbComplaint *c)
{
    static const char *const leave_keys[2] = {"x_m", "y_m"};
    size_t count;
    char path[32];
    const PbNumberRow *rows = pb_wall_opening_rows(&count);
    for (int i = 0; i < f->opening_count; i++) {
        const PbOpening *o = &f->openings[i];
        snprintf(path, sizeof path, "openings/%d", i);
        PB_TRY(pb_rows_check(rows, count, o, path, c->field, c->size, c->err));
        PB_TRY(check_point(f, path, from_keys, (const double[2]){o->x0_m, o->y0_m}, c));
        PB_TRY(check_point(f, path, to_keys, (const double[2]){o->x1_m, o->y1_m}, c));
        if (o->x1_m < o->x0_m || o->y1_m < o->y0_m) {
            return pb_complain(c, path, "expected x0_m up to x1_m and y0_m up to y1_m");
        }
        if (o->place[0] == '\0' || strnlen(o->place, sizeof o->place) == sizeof o->place) {
            return pb_complain(c, path, "\"place\": expected some text");
        }
    }
    rows = pb_leave_rows(&count);
    for (int i = 0; i < f->leave_count; i++) {
        const PbLeave *l = &f->leave[i];
        snprintf(path, sizeof path, "leave/%d", i);
        PB_TRY(pb_rows_check(rows, count, l, path, c->field, c->size, c->err));
        PB_TRY(check_point(f, path, leave_keys, (const double[2]){l->x_m, l->y_m}, c));
        if (l->why[0] == '\0' || strnlen(l->why, sizeof l->why) == sizeof l->why) {
            return pb_complain(c, path, "\"why\": expected some text");
        }
    }
    return PB_OK;
}

PbStatus pb_framing_check(const PbFraming *f, char *field, size_t size, PbError *err)
{
    PbComplaint c = {field, size, err};
    size_t count, n = strnlen(f->id, sizeof f->id);
    const PbNumberRow *rows = pb_framing_rows(&count);
    if (n == 0 || n == sizeof f->id ||
        strspn(f->id, "abcdefghijklmnopqrstuvwxyz0123456789-") != n) {
        return pb_complain(&c, "id", "\"id\": expected lower-case letters, digits and hyphens");
    }
    if (f->title[0] == '\0' || strnlen(f->title, sizeof f->title) == sizeof f->title) {
        return pb_complain(&c, "title", "\"title\": expected some text");
    }
    const struct {
        const char *path;
        int count, most;
    } lists[] = {{"members", f->member_count, PB_MAX_MEMBERS},
                 {"cutouts", f->cutout_count, PB_MAX_CUTOUTS},
                 {"inside", f->inside_count, PB_MAX_INSIDE},
                 {"openings", f->opening_count, PB_MAX_WALL_OPENINGS},
                 {"leave", f->leave_count, PB_MAX_LEAVE}};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        if (lists[i].count < 0 || lists[i].count > lists[i].most) {
            return pb_complain(&c, lists[i].path, "\"%s\": expected at most %d", lists[i].path,
                               lists[i].most);
        }
    }
    PB_TRY(pb_rows_check(rows, count, f, "", field, size, err));
    PB_TRY(check_solids(f, &c));
    PB_TRY(check_inside(f, &c));
    PB_TRY(check_points(f, &c));
    char inner[96];
    PbError like = {0};
    if (pb_exercise_check(&f->like, inner, sizeof inner, &like) != PB_OK) {
        return pb_complain(&c, "bay", "%.200s", like.message);
    }
    return PB_OK;
}
