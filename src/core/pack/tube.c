/*
 * The tube in the hands: how far in it is, what stops it, which cells it takes.
 * Force on the hand: bearing of the mouth on packed fill and rubbing along the buried length
 * (friction times lateral stress times surface). docs/physics/packing.md#tube
 */
#include "sim.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

static const double TURN_REACH_M = 0.10; /* a stiff tube is turned only with its end at the hole */
static const double PLATE_GAP_M = 0.02;  /* the mouth cannot touch wood flat on */
static const double OUTSIDE_M = 0.30;    /* length that hands and hose coupling keep outside */
static const double BEARING_FACTOR =
    10.0;                            /* bearing stress over fill stress at the mouth; assumption */
static const double TUBE_SLIP = 0.3; /* fibre on smooth plastic; from memory */
/* A tube stuck in the fill at the end of a run is twisted and worked out, at this share of the
 * speed of a hand; assumption. Without it such a run would never end. */
static const double WORKED_OUT_SHARE = 0.05;

static int column_of(const PbSim *s, double x_m)
{
    int i = (int)(x_m / s->dx);
    return i < 0 ? 0 : (i >= s->nx ? s->nx - 1 : i);
}

static int row_of(const PbSim *s, double y_m)
{
    int j = (int)(y_m / s->dy);
    return j < 0 ? 0 : (j >= s->ny ? s->ny - 1 : j);
}

/* Is there room for the tube in this row? */
static int fits(const PbSim *s, int j)
{
    double half = 0.5 * s->ex.machine.tube_outer_m;
    int i0 = column_of(s, pb_hole(s)->x_m - half + 1e-9),
        i1 = column_of(s, pb_hole(s)->x_m + half - 1e-9);
    double need = s->ex.machine.tube_outer_m / s->ex.depth_m;
    for (int i = i0; i <= i1; i++) {
        if (s->phi0[pb_at(s, i, j)] < pb_min(need, 0.9)) {
            return 0;
        }
    }
    return 1;
}

double pb_tube_limit_m(const PbSim *s)
{
    int j = row_of(s, pb_hole(s)->y_m);
    int step = s->tube_state.direction;
    while (j + step >= 0 && j + step < s->ny && fits(s, j + step)) {
        j += step;
    }
    double end = step > 0 ? s->dy * (j + 1) : s->dy * j;
    double room = fabs(end - pb_hole(s)->y_m) - PLATE_GAP_M;
    double limit = pb_min(room, s->ex.machine.tube_length_m - OUTSIDE_M);
    return pb_max(limit, 0.0);
}

static void place_mouth(PbSim *s)
{
    PbTubeState *t = &s->tube_state;
    double in = pb_max(t->in_m, 0.0);
    t->mouth_x_m = pb_hole(s)->x_m;
    t->mouth_y_m = pb_hole(s)->y_m + in * t->direction;
}

int pb_tube_turn(PbSim *s, int direction)
{
    PbTubeState *t = &s->tube_state;
    if (direction == t->direction) {
        return 1;
    }
    if (t->in_m > TURN_REACH_M) {
        pb_sim_event(s, PB_EVENT_TURN_REFUSED, t->mouth_x_m, t->mouth_y_m, t->in_m);
        return 0;
    }
    t->direction = direction;
    place_mouth(s);
    pb_sim_event(s, PB_EVENT_TURNED, t->mouth_x_m, t->mouth_y_m, direction);
    return 1;
}

/* Force in N against pushing in (bearing and rubbing) or pulling out (rubbing). */
static double resisting_force(const PbSim *s, int is_pushing)
{
    const PbTubeState *t = &s->tube_state;
    if (t->in_m <= 0.0) {
        return 0.0;
    }
    double outer = s->ex.machine.tube_outer_m;
    int i = column_of(s, pb_hole(s)->x_m);
    int j0 = row_of(s, pb_hole(s)->y_m), j1 = row_of(s, t->mouth_y_m);
    double rub = 0.0;
    for (int j = j0;; j += t->direction) {
        rub += s->solid.p[pb_at(s, i, j)] * s->dy;
        if (j == j1) {
            break;
        }
    }
    double force = TUBE_SLIP * s->k.lateral_ratio * PB_PI * outer * rub;
    if (is_pushing) {
        int ahead = j1 + t->direction;
        if (ahead >= 0 && ahead < s->ny) {
            force += BEARING_FACTOR * s->solid.p[pb_at(s, i, ahead)] * 0.25 * PB_PI * outer * outer;
        }
        /* the air in the mouth pushes the tube back too */
        force +=
            s->hose.mouth_pa * 0.25 * PB_PI * s->ex.machine.tube_bore_m * s->ex.machine.tube_bore_m;
    }
    return force;
}

static void mark_cells(PbSim *s)
{
    memset(s->tube, 0, (size_t)s->cells * sizeof(double));
    const PbTubeState *t = &s->tube_state;
    if (t->in_m > 0.0) {
        double outer = s->ex.machine.tube_outer_m, half = 0.5 * outer;
        double share = 0.25 * PB_PI * outer / s->ex.depth_m; /* of the depth, over its own width */
        double y0 = pb_min(pb_hole(s)->y_m, t->mouth_y_m),
               y1 = pb_max(pb_hole(s)->y_m, t->mouth_y_m);
        int i0 = column_of(s, pb_hole(s)->x_m - half), i1 = column_of(s, pb_hole(s)->x_m + half);
        for (int j = row_of(s, y0); j <= row_of(s, y1); j++) {
            double cy = pb_min(y1, s->dy * (j + 1)) - pb_max(y0, s->dy * j);
            for (int i = i0; i <= i1; i++) {
                double cx = pb_min(pb_hole(s)->x_m + half, s->dx * (i + 1)) -
                            pb_max(pb_hole(s)->x_m - half, s->dx * i);
                if (cx > 0.0 && cy > 0.0) {
                    s->tube[pb_at(s, i, j)] = share * (cx / s->dx) * (cy / s->dy);
                }
            }
        }
    }
}

void pb_tube_step(PbSim *s)
{
    PbTubeState *t = &s->tube_state;
    double was = t->in_m;
    double want = t->follows_target ? (t->target_m - t->in_m) / PB_TICK_S : t->rate_m_s;
    want = pb_limit(want, -s->k.hand_speed_m_s, s->k.hand_speed_m_s);
    double force = resisting_force(s, want > 0.0);
    double share = force / s->k.hand_force_n;
    double least = s->phase == PB_PHASE_BLEEDING ? WORKED_OUT_SHARE : 0.0;
    double speed = want * pb_max(least, 1.0 - share);
    t->force_share = share;
    double limit = pb_tube_limit_m(s);
    double next = t->in_m + speed * PB_TICK_S;
    /* a tube already past the limit (wood never moves, so only by rounding) is not pushed back */
    next = pb_limit(next, -0.05, pb_max(limit, was));
    t->is_blocked = want > 0.0 && (next - was) < 0.1 * want * PB_TICK_S && want * PB_TICK_S > 1e-4;
    if (t->is_blocked && !t->was_blocked_said) {
        t->was_blocked_said = 1;
        pb_sim_event(s, PB_EVENT_TUBE_BLOCKED, t->mouth_x_m, t->mouth_y_m, pb_min(share, 1.0));
    } else if (!t->is_blocked) {
        t->was_blocked_said = 0;
    }
    t->in_m = next;
    t->speed_m_s = (next - was) / PB_TICK_S;
    place_mouth(s);
    mark_cells(s);
}
