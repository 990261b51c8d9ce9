/*
 * The face of the bay: load, bow, noise, failure.
 * Load on the face = gas + lateral fill stress (k p). A patch is 0.4 m of bay by its full width,
 * about what two pairs of fasteners see. Bow: a plate strip across the studs under uniform load,
 * w = (1 + 4 f) q L^4 / (384 EI), f = 0 clamped .. 1 pinned (Timoshenko, Strength of Materials);
 * it gives the bay volume back. Strength: mean by finish with a seeded draw for each 0.4 m.
 */
#include "sim.h"

#include "core/pb_math.h"

#include <math.h>

/* Of the mean: no draw falls below. 2.8 of 4.1 kPa: board at the least nail pull of ASTM C1396 with
 * all its bays loaded; weaker board is not sold. */
static const double WEAKEST_SHARE = 0.7;
static const double BOW_FOLLOW = 0.2; /* share of the way that the bow goes in a tick */
static const double HALF_LOAD = 0.5;

static double constant_at(const PbSim *s, size_t offset)
{
    return *(const double *)(const void *)((const char *)&s->k + offset);
}

static double mean_strength(const PbSim *s)
{
    const PbFinishTraits *finish = pb_finish_traits(s->ex.finish);
    if (s->ex.strength_pa > 0.0) {
        return s->ex.strength_pa;
    }
    double base = constant_at(s, finish->strength_pa);
    if (!finish->is_fastened) {
        return base;
    }
    /* the constants hold for fasteners 0.305 m apart and a 0.368 m bay; pull on each goes with both
     */
    return base * (0.305 / s->ex.fastener_spacing_m) * (0.368 / s->ex.width_m);
}

static double stiffness(const PbSim *s)
{
    return constant_at(s, pb_finish_traits(s->ex.finish)->stiffness_ei);
}

void pb_panel_init(PbSim *s)
{
    PbPanelState *p = &s->panel;
    double mean = mean_strength(s);
    s->strength_count = (int)ceil(s->ex.height_m / PB_FACE_PATCH_M);
    for (int n = 0; n < s->strength_count; n++) {
        double draw = 1.0 + s->k.strength_variation * pb_rng_normal(&s->rng_strength);
        p->strength_pa[n] = mean * pb_max(draw, WEAKEST_SHARE);
    }
    double w2 = s->ex.width_m * s->ex.width_m;
    p->bow_coef_m_pa = (1.0 + 4.0 * s->k.bow_share) * w2 * w2 / (384.0 * stiffness(s));
    p->peak_strength_pa = mean;
    p->expected_pa = mean;
}

static double strength_at(const PbSim *s, double y_m)
{
    int n = (int)(y_m / PB_FACE_PATCH_M);
    n = n < 0 ? 0 : (n >= s->strength_count ? s->strength_count - 1 : n);
    return s->panel.strength_pa[n];
}

/* Mean load of each row, and of cells for the view. */
static void row_loads(PbSim *s)
{
    for (int j = 0; j < s->ny; j++) {
        double sum = 0.0;
        int open = 0;
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            if (pb_is_airy(s, at)) {
                s->load_pa[at] = s->gas_pa[at] + s->k.lateral_ratio * s->solid.p[at];
                sum += s->load_pa[at];
                open++;
            }
        }
        /* wood shores the face up: a blocked row carries nothing on */
        s->row_load[j] = open > 0 ? sum / s->nx : 0.0;
    }
}

static void bow_row(PbSim *s, int j, double patch_pa)
{
    double middle = pb_max(s->panel.bow_coef_m_pa * patch_pa, 0.0);
    for (int i = 0; i < s->nx; i++) {
        int at = pb_at(s, i, j);
        double x = (i + 0.5) / s->nx;
        double shape = 16.0 * x * x * (1.0 - x) * (1.0 - x);
        s->bow_m[at] += BOW_FOLLOW * (middle * shape - s->bow_m[at]);
    }
}

static void judge(PbSim *s)
{
    PbPanelState *p = &s->panel;
    double over = p->peak_pa / p->peak_strength_pa;
    p->worst_over = pb_max(p->worst_over, over);
    if (over > HALF_LOAD && !p->said_half) {
        p->said_half = 1;
        pb_sim_event(s, PB_EVENT_BOW_HALF, p->peak_x_m, p->peak_y_m, over);
    }
    if (over > s->k.creak_share && !p->said_creak) {
        p->said_creak = 1;
        pb_sim_event(s, PB_EVENT_CREAK, p->peak_x_m, p->peak_y_m, over);
    }
    if (over < HALF_LOAD * 0.9) {
        p->said_half = 0;
    }
    if (over < s->k.creak_share * 0.9) {
        p->said_creak = 0;
    }
    p->over_s = over > 1.0 ? p->over_s + PB_TICK_S : 0.0;
}

/* The face is off: fill falls out of the patch, the run is over. */
static void blow_out(PbSim *s)
{
    PbPanelState *p = &s->panel;
    double cell_m3 = s->dx * s->dy * s->ex.depth_m;
    for (int j = 0; j < s->ny; j++) {
        if (fabs(s->dy * (j + 0.5) - p->peak_y_m) > 0.5 * PB_FACE_PATCH_M) {
            continue;
        }
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            double kg = s->solid.a[at] * cell_m3;
            PB_LEDGER_ADD(s, fallen_kg, kg);
            PB_LEDGER_ADD(s, in_bay_kg, -(kg));
            s->solid.a[at] = 0.0;
            s->solid.b[at] = 0.0;
        }
    }
    s->hose.is_on = 0;
    s->phase = PB_PHASE_BLOWN_OUT;
    pb_sim_event(s, PB_EVENT_BLOW_OUT, p->peak_x_m, p->peak_y_m, p->peak_pa);
}

void pb_panel_step(PbSim *s)
{
    PbPanelState *p = &s->panel;
    int half = (int)(0.5 * PB_FACE_PATCH_M / s->dy + 0.5);
    row_loads(s);
    p->peak_pa = 0.0;
    p->peak_x_m = 0.5 * s->ex.width_m;
    p->heaviest_pa = p->heaviest_y_m = 0.0;
    double best_over = -1.0;
    for (int j = 0; j < s->ny; j++) {
        int j0 = j - half < 0 ? 0 : j - half, j1 = j + half >= s->ny ? s->ny - 1 : j + half;
        double sum = 0.0;
        for (int n = j0; n <= j1; n++) {
            sum += s->row_load[n];
        }
        double patch = sum / (j1 - j0 + 1), y = s->dy * (j + 0.5);
        bow_row(s, j, patch);
        p->worst_pa = pb_max(p->worst_pa, patch);
        double strength = strength_at(s, y);
        if (patch > p->heaviest_pa) {
            p->heaviest_pa = patch;
            p->heaviest_y_m = y;
        }
        if (patch / strength > best_over) {
            best_over = patch / strength;
            p->peak_pa = patch;
            p->peak_y_m = y;
            p->peak_strength_pa = strength;
        }
    }
    judge(s);
    if (p->over_s > s->k.failure_time_s && s->phase != PB_PHASE_BLOWN_OUT) {
        blow_out(s);
    }
}
