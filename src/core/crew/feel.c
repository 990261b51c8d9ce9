/*
 * What hand, rod, saw and tube meet in a framed wall. Everything is a box of its own frame: as long
 * and wide as it is in the plane of the wall, as deep as it stands in the bay. Not here: what the
 * crew remembers (crew.c) and what it makes of it (crew_belief.c).
 */
#include "feel.h"

#include "core/pb_math.h"

#include <math.h>

/* A box: its middle, a direction in the plane, half its length along it and across, and depths from
 * the face of the finish. */
typedef struct Body {
    double x_m, y_m, ux, uy, along_m, across_m, near_m, far_m;
    PbFeel feel;
    int is_passed; /* a rod goes on through it */
} Body;

static const PbFeel FEELS[] = {PB_FEEL_WOOD, PB_FEEL_METAL, PB_FEEL_SOFT, PB_FEEL_WIRE};

static Body body_of_rect(const PbRect *r, double near_m, double far_m, PbFeel feel)
{
    return (Body){0.5 * (r->x0_m + r->x1_m),
                  0.5 * (r->y0_m + r->y1_m),
                  1.0,
                  0.0,
                  0.5 * (r->x1_m - r->x0_m),
                  0.5 * (r->y1_m - r->y0_m),
                  near_m,
                  far_m,
                  feel,
                  0};
}

static Body body_of_obstacle(const PbFraming *f, const PbObstacle *o)
{
    const PbObstacleTraits *traits = pb_obstacle_traits(o->kind);
    double front = pb_finish_traits(f->like.finish)->thickness_m, depth = f->like.depth_m;
    double takes = o->depth_frac * depth;
    double near = front + (traits->stand == PB_STAND_FRONT    ? 0.0
                           : traits->stand == PB_STAND_MIDDLE ? 0.5 * (depth - takes)
                                                              : depth - takes);
    PbRect r = {o->x0_m, o->y0_m, o->x1_m, o->y1_m};
    Body b = body_of_rect(&r, near, near + takes, FEELS[traits->touch]);
    if (!traits->is_rectangle) {
        double dx = o->x1_m - o->x0_m, dy = o->y1_m - o->y0_m, length = sqrt(dx * dx + dy * dy);
        b.ux = length > 0.0 ? dx / length : 1.0;
        b.uy = length > 0.0 ? dy / length : 0.0;
        b.along_m = 0.5 * length;
        b.across_m = 0.5 * o->size_m;
    }
    b.is_passed = b.feel == PB_FEEL_SOFT || b.feel == PB_FEEL_WIRE;
    return b;
}

/* Members, then cut-outs, then what stands inside. */
static int body_count(const PbFraming *f)
{
    return pb_framing_solids(f) + f->inside_count;
}

static Body body_at(const PbFraming *f, int n)
{
    const char *word;
    int solids = pb_framing_solids(f);
    if (n >= solids) {
        return body_of_obstacle(f, &f->inside[n - solids]);
    }
    double front = pb_finish_traits(f->like.finish)->thickness_m;
    int is_masonry =
        n >= f->member_count && f->cutouts[n - f->member_count].kind == PB_CUTOUT_CHIMNEY;
    return body_of_rect(pb_framing_solid(f, n, &word), front, front + f->like.depth_m,
                        is_masonry ? PB_FEEL_MASONRY : PB_FEEL_WOOD);
}

/* How far a point of the plane is from a body, m; nought inside. */
static double distance(const Body *b, double x, double y)
{
    double dx = x - b->x_m, dy = y - b->y_m;
    double along = pb_max(fabs(dx * b->ux + dy * b->uy) - b->along_m, 0.0);
    double across = pb_max(fabs(dy * b->ux - dx * b->uy) - b->across_m, 0.0);
    return sqrt(along * along + across * across);
}

PbFeel pb_feel_tap(const PbFraming *f, double x, double y)
{
    const PbFinishTraits *finish = pb_finish_traits(f->like.finish);
    if (finish->is_dull) {
        return PB_FEEL_DULL;
    }
    for (int n = 0; n < body_count(f); n++) {
        Body b = body_at(f, n);
        if (b.near_m <= finish->thickness_m + 1e-9 && b.feel != PB_FEEL_WIRE &&
            distance(&b, x, y) <= 0.0) {
            return PB_FEEL_DULL;
        }
    }
    return PB_FEEL_HOLLOW;
}

/* Stretch of the rod inside a body, in m along it. Nought when it misses. */
static int meets(const Body *b, const PbCrewAct *act, const double d[3], double at[2])
{
    double x = act->x_m - b->x_m, y = act->y_m - b->y_m;
    const double from[3] = {x * b->ux + y * b->uy, y * b->ux - x * b->uy,
                            -0.5 * (b->near_m + b->far_m)};
    const double go[3] = {d[0] * b->ux + d[1] * b->uy, d[1] * b->ux - d[0] * b->uy, d[2]};
    const double half[3] = {b->along_m, b->across_m, 0.5 * (b->far_m - b->near_m)};
    at[0] = 0.0;
    at[1] = PB_CREW_ROD_M;
    for (int k = 0; k < 3; k++) {
        if (go[k] == 0.0) {
            if (fabs(from[k]) > half[k]) {
                return 0;
            }
            continue;
        }
        double a = (-half[k] - from[k]) / go[k], z = (half[k] - from[k]) / go[k];
        at[0] = pb_max(at[0], pb_min(a, z));
        at[1] = pb_min(at[1], pb_max(a, z));
    }
    return at[1] > at[0];
}

static double to_step(double length_m, double step_m)
{
    return step_m * floor(length_m / step_m + 0.5);
}

static void add_layer(PbCrewAnswer *out, PbFeel feel, double from_m, double to_m)
{
    if (out->layer_count < PB_CREW_LAYERS) {
        out->layers[out->layer_count++] = (PbCrewLayer){feel, from_m, to_m};
    }
}

/* The nearest body from `from_m` on along the rod; the rod itself ends at the back of the bay. */
static PbFeel next_body(const PbFraming *f, const PbCrewAct *act, const double d[3], double from_m,
                        double at[2], int *is_passed)
{
    double back = (pb_finish_traits(f->like.finish)->thickness_m + f->like.depth_m) / d[2];
    PbFeel feel = back <= PB_CREW_ROD_M ? PB_FEEL_BACK : PB_FEEL_NOTHING;
    at[0] = at[1] = pb_min(back, PB_CREW_ROD_M);
    *is_passed = 0;
    for (int n = 0; n < body_count(f); n++) {
        double in[2];
        Body b = body_at(f, n);
        if (meets(&b, act, d, in) && in[1] > from_m + 1e-9 && pb_max(in[0], from_m) < at[0]) {
            at[0] = pb_max(in[0], from_m);
            at[1] = in[1];
            feel = b.is_passed ? PB_FEEL_SOFT : b.feel;
            *is_passed = b.is_passed;
        }
    }
    return feel;
}

void pb_feel_rod(const PbFraming *f, const PbCrewAct *act, PbCrewAnswer *out)
{
    const double degree = PB_PI / 180.0;
    double tx = pb_sin(act->right_deg * degree) / pb_cos(act->right_deg * degree);
    double ty = pb_sin(act->up_deg * degree) / pb_cos(act->up_deg * degree);
    double length = sqrt(tx * tx + ty * ty + 1.0);
    const double d[3] = {tx / length, ty / length, 1.0 / length};
    double reach = pb_finish_traits(f->like.finish)->thickness_m * length, felt = 0.0;
    int is_passed = 1;
    felt = to_step(reach, 0.001);
    add_layer(out, PB_FEEL_FINISH, 0.0, felt);
    while (is_passed) {
        double at[2];
        PbFeel feel = next_body(f, act, d, reach, at, &is_passed);
        double near = pb_max(to_step(at[0], PB_CREW_ROD_STEP_M), felt);
        double far = pb_max(to_step(at[1], PB_CREW_ROD_STEP_M), near);
        if (at[0] > reach + 1e-9) {
            add_layer(out, PB_FEEL_HOLLOW, felt, near);
            felt = near;
        }
        out->feel = feel;
        if (is_passed) {
            add_layer(out, feel, felt, far);
            felt = far;
            reach = at[1];
        }
    }
    out->reach_m = felt;
}

int pb_feel_wire(const PbFraming *f, double x, double y)
{
    for (int n = 0; n < body_count(f); n++) {
        Body b = body_at(f, n);
        if (b.feel == PB_FEEL_WIRE && distance(&b, x, y) <= PB_CREW_SENSE_M) {
            return 1;
        }
    }
    return 0;
}

PbFeel pb_feel_saw(const PbFraming *f, double x, double y, double bore_m)
{
    double deep = pb_finish_traits(f->like.finish)->thickness_m + PB_CREW_DRILL_REACH_M;
    PbFeel met = PB_FEEL_NOTHING;
    for (int n = 0; n < body_count(f); n++) {
        Body b = body_at(f, n);
        if (b.near_m < deep && b.feel != PB_FEEL_SOFT && b.feel > met &&
            distance(&b, x, y) < 0.5 * bore_m - 1e-9) {
            met = b.feel; /* in this order wire comes before masonry, metal and wood */
        }
    }
    return met;
}

PbFeel pb_feel_tube(const PbFraming *f, const PbCrewHole *hole, int is_up, double *reach_m)
{
    const PbMachine *m = &f->like.machine;
    double half = 0.5 * m->tube_outer_m, most = pb_max(m->tube_length_m - half, 0.0);
    double edge = is_up ? f->height_m - hole->y_m : hole->y_m;
    PbFeel met = edge <= most ? PB_FEEL_WOOD : PB_FEEL_NOTHING;
    most = pb_min(most, edge);
    /* In steps of a reading: a tube has a width, and braces slope. */
    int steps = (int)(most / PB_CREW_ROD_STEP_M + 1e-9);
    *reach_m = PB_CREW_ROD_STEP_M * steps;
    for (int n = 0; n < body_count(f); n++) {
        Body b = body_at(f, n);
        double left = f->like.depth_m - (b.far_m - b.near_m);
        if (left >= m->tube_outer_m || b.feel == PB_FEEL_WIRE) {
            continue; /* it goes past, as in the packing */
        }
        for (int s = 1; s <= steps; s++) {
            double along = PB_CREW_ROD_STEP_M * s;
            double y = hole->y_m + (is_up ? along : -along);
            if (along > *reach_m) {
                break;
            }
            if (distance(&b, hole->x_m - half, y) <= 0.0 || distance(&b, hole->x_m, y) <= 0.0 ||
                distance(&b, hole->x_m + half, y) <= 0.0) {
                *reach_m = PB_CREW_ROD_STEP_M * (s - 1);
                met = b.feel;
                break;
            }
        }
    }
    return met;
}

int pb_feel_shades(const PbFraming *f, PbCrewShade *shades)
{
    const double step = PB_CREW_SHADE_STEP_M;
    int count = 0;
    for (int n = 0; n < body_count(f); n++) {
        Body b = body_at(f, n);
        int is_cutout = n >= f->member_count && n < pb_framing_solids(f);
        int is_line = n >= pb_framing_solids(f) && b.ux != 1.0;
        if (is_cutout || is_line || (b.feel != PB_FEEL_WOOD && b.feel != PB_FEEL_SOFT)) {
            continue;
        }
        PbCrewShade *s = &shades[count++];
        s->feel = b.feel;
        s->at.x0_m = step * floor((b.x_m - b.along_m) / step + 1e-9);
        s->at.y0_m = step * floor((b.y_m - b.across_m) / step + 1e-9);
        s->at.x1_m = step * ceil((b.x_m + b.along_m) / step - 1e-9);
        s->at.y1_m = step * ceil((b.y_m + b.across_m) / step - 1e-9);
    }
    return count;
}

const char *pb_feel_cover(const PbCrew *crew, double x, double y)
{
    static const char *const words[] = {"the cover of a box", "a register"};
    for (int n = 0; n < crew->cutout_count; n++) {
        const PbRect *r = &crew->cutouts[n].at;
        if (crew->cutouts[n].kind != PB_CUTOUT_CHIMNEY && x > r->x0_m && x < r->x1_m &&
            y > r->y0_m && y < r->y1_m) {
            return pb_cutout_words[crew->cutouts[n].kind];
        }
    }
    for (int n = 0; n < crew->seen_count; n++) {
        const PbRect *r = &crew->seen[n].at;
        if (x >= r->x0_m && x <= r->x1_m && y >= r->y0_m && y <= r->y1_m) {
            return words[crew->seen[n].kind];
        }
    }
    return NULL;
}
