/*
 * What carries a tuft through the air of a bay, for one tuft (tufts.c) and for several side by side
 * (flight.inc): seeping gas, the jet of the mouth, drag. docs/physics/packing.md#tufts
 */
#ifndef PACK_FLIGHT_H
#define PACK_FLIGHT_H

#include "core/pb_math.h"

#include <math.h>

static const double JET_CORE = 6.2;    /* free round jet: U/U0 = 6.2 D/s; Rajaratnam 1976 form */
static const double JET_SPREAD = 0.11; /* its Gaussian half width per length */
static const double JET_TURBULENCE = 0.25;
static const double JET_TURN_WIDTHS = 2.0; /* depth of the turning zone in jet widths; assumption */
static const double JET_FAR = 30.0; /* square of the widths from its axis where it has no core */
static const double SQRT_PI = 1.7724538509055159;

/** Most tufts that fly side by side. */
enum { PB_FLIGHT = 8 };

/** What carries tufts in a tick: grid, gas, jet; the laws stand below. */
typedef struct PbFlight {
    const double *phi0, *gas, *sigma, *open_x, *open_y, *a, *iphi; /* of cells, padded */
    const int *opening_at;
    int nx, ny, stride;
    double width_m, height_m, inv_dx, inv_dy;
    double reach_m;                        /* longest way of a piece */
    double fall_m_s, tuft_fall_m_s, tau_s; /* along the bay, at rest, of speeding up */
    double buried_kg_m3;
    int is_tilted; /* tufts come to rest on the lower face: none flies undisturbed */
    double mouth_x_m, mouth_y_m, bore_m;
    double jet_speed_m_s, jet_length_m, jet_way; /* way: +1 up, -1 down */
    double near_m; /* from the mouth to a stud that turns the jet; far away where none does */
    int is_right;  /* that stud is the right one */
} PbFlight;

/** Cell of a place, padded and flat; -1 where there is none for fill. */
static inline int pb_flight_cell(const PbFlight *f, double x, double y)
{
    if (!(x >= 0.0) || !(y >= 0.0) || x >= f->width_m || y >= f->height_m) {
        return -1;
    }
    int i = (int)(x * f->inv_dx), j = (int)(y * f->inv_dy);
    i = i < f->nx ? i : f->nx - 1;
    j = j < f->ny ? j : f->ny - 1;
    int at = (j + 1) * f->stride + i + 1;
    return f->phi0[at] > 0.0 ? at : -1;
}

/* Pressure drop along one axis through open shares of two faces, times two. */
static inline double pb_flight_drop(double here, double before, double after, double open_before,
                                    double open_after)
{
    return -(after * open_after + here * (1.0 - open_after) - before * open_before -
             here * (1.0 - open_before));
}

/* From the mouth on, in the jet's direction. */
static inline double pb_flight_along(const PbFlight *f, double y)
{
    return (y - f->mouth_y_m) * f->jet_way;
}

static inline double pb_flight_jet_width(const PbFlight *f, double along)
{
    return JET_SPREAD * along + 0.5 * f->bore_m;
}

/* Square of the widths from the axis: the core is exp of minus this. */
static inline double pb_flight_jet_off(const PbFlight *f, double x, double width)
{
    double off = (x - f->mouth_x_m) / width;
    return off * off;
}

/* Sideways speed of a jet that has struck, as a signed share of its centre speed: to both sides of
 * a mouth with room at both, all to the far side of a mouth close to a stud. */
static inline double pb_flight_turned(const PbFlight *f, double x, double width)
{
    int is_stud = f->near_m < JET_TURN_WIDTHS * width;
    double off = x - f->mouth_x_m, near = f->is_right ? f->width_m - x : x;
    double from = is_stud ? near : fabs(off), room = is_stud ? f->width_m : 0.5 * f->width_m;
    double share = pb_min(from / width, 1.0) * (1.0 - pb_min(from / room, 1.0));
    int is_minus = is_stud ? f->is_right : !(off > 0.0);
    return is_minus ? -share : share;
}

/*
 * Free round jet in a closed bay: Gaussian core out, what it drags along comes back beside it, and
 * where it strikes wood or fill it turns sideways within about its own width. gust is this tuft's
 * turbulence for the tick, two numbers in -1..1: drawn once a tick, so that the spread does not
 * depend on how finely a path is cut. Adds to the gas speed u, v.
 */
static inline void pb_flight_jet(const PbFlight *f, double x, double along, double width,
                                 double core, double gust0, double gust1, double *u, double *v)
{
    double centre = f->jet_speed_m_s * pb_min(1.0, JET_CORE * f->bore_m / pb_max(along, 1e-6));
    double turn = pb_min((f->jet_length_m - along) / (JET_TURN_WIDTHS * width), 1.0);
    double back = centre * width * SQRT_PI / f->width_m;
    double axial = (centre * core - back) * turn;
    double side = pb_flight_turned(f, x, width) * (1.0 - turn) * centre;
    *v = *v + axial * f->jet_way * (1.0 + JET_TURBULENCE * gust0);
    *u = *u + (side + JET_TURBULENCE * gust1 * centre * core);
}

/* Seconds of the next piece: no further than a cell, by its own speed and that through the gas. */
static inline double pb_flight_step_s(const PbFlight *f, double u, double v, double rel,
                                      double left)
{
    double speed = sqrt(u * u + v * v);
    double dt = pb_min(left, f->reach_m / pb_max(pb_max(speed, rel), 0.5));
    dt = pb_max(dt, 0.0008);
    return pb_min(dt, left);
}

/* 1 - exp of this is the share of the gas's speed that a tuft takes on. */
static inline double pb_flight_drag(const PbFlight *f, double dt, double rel)
{
    return -dt / (2.0 * f->tau_s) * (1.0 + rel / f->tuft_fall_m_s);
}

#endif
