/*
 * Checks of the packing physics: closed forms where there is one, published trade figures where a
 * whole run can be judged by them. Rows for `pullback-lab verify`.
 */
#include "lab/verify_pack.h"

#include "core/hands.h"
#include "core/material.h"
#include "core/pb_math.h"
#include "core/units.h"
#include "session/session_private.h"

#include <math.h>
#include <string.h>

enum { MAX_TICKS = 40000 };

PbSim *verify_sim(PbSession *session)
{
    return (PbSim *)(size_t)pb_session_sim(session);
}

static PbSession *open_session(const PbSessionConfig *c)
{
    PbSession *s = NULL;
    PbError err;
    return pb_session_create(c, &s, &err) == PB_OK ? s : NULL;
}

double verify_darcy_fin(int cells_across, double *leak_error)
{
    PbSessionConfig c = pb_session_default();
    c.cells_across = cells_across;
    c.exercise.leak_exponent = 1.0;
    c.exercise.board_pitch_m = 0.0;
    c.exercise.end_leak_share = 0.0;
    c.exercise.holes[0].open_frac = 0.0;
    PbSession *session = open_session(&c);
    if (session == NULL) {
        return NAN;
    }
    PbSim *s = verify_sim(session);
    double sigma = pb_airflow_sigma(s, 56.0), q = 0.01;
    s->tube_state.in_m = 0.5; /* the hole is then only the ring, and that is shut */
    memset(s->mouth_w, 0, (size_t)s->cells * sizeof(double));
    for (int at = 0; at < s->cells; at++) {
        s->sigma[at] = sigma;
    }
    for (int i = 0; i < s->nx; i++) {
        s->mouth_w[pb_at(s, i, 0)] = 1.0 / s->nx;
    }
    for (int n = 0; n < 400; n++) { /* until nothing is stored any more */
        double hole;
        pb_airflow_solve(s, &hole);
        for (int j = 0; j < s->ny; j++) {
            for (int i = 0; i < s->nx; i++) {
                int k = j * s->nx + i;
                s->gas_pa[pb_at(s, i, j)] = q * s->unit_pa[k] + s->memory_pa[k];
            }
        }
    }
    double h = s->ex.height_m, cl = s->ex.leak75_m3_s_m2 / 75.0;
    double len = sqrt(s->ex.depth_m / (sigma * cl));
    double sinh_h = 0.5 * (pb_exp(h / len) - pb_exp(-h / len));
    double line = q / s->ex.width_m / s->ex.depth_m; /* per section, m/s */
    double worst = 0.0, top = 0.0, leak = 0.0;
    for (int j = 0; j < s->ny; j++) {
        double z = (h - s->dy * (j + 0.5)) / len;
        double exact = line * sigma * len * 0.5 * (pb_exp(z) + pb_exp(-z)) / sinh_h;
        double ours = s->gas_pa[pb_at(s, s->nx / 2, j)];
        worst = pb_max(worst, fabs(ours - exact));
        top = pb_max(top, exact);
        leak += ours * cl * s->dx * s->dy * s->nx;
    }
    *leak_error = fabs(leak - q) / q;
    pb_session_destroy(session);
    return worst / top;
}

/* A bay laid full at `rho` and left to settle without gas under `times` gravity. */
static PbSession *settled_column(double rho, double times, double friction)
{
    PbSessionConfig c = pb_session_default();
    c.constants.cohesion_pa = 0.0;
    c.constants.fibre_cohesion_pa = 0.0;
    c.constants.wall_friction = friction;
    PbSession *session = open_session(&c);
    if (session == NULL) {
        return NULL;
    }
    PbSim *s = verify_sim(session);
    s->gravity_along *= times;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            s->step.kf_y[at] = s->step.kf_x[at]; /* faces only: the closed form has no studs */
            s->solid.a[at] = rho * s->phi[at];
            s->solid.b[at] = rho * s->solid.a[at];
        }
    }
    for (int n = 0; n < 2500; n++) { /* 100 s */
        pb_fill_step(s);
    }
    return session;
}

double verify_janssen(void)
{
    PbSession *session = settled_column(40.0, 40.0, 0.6);
    if (session == NULL) {
        return NAN;
    }
    PbSim *s = verify_sim(session);
    double lj = s->ex.depth_m / (2.0 * s->k.wall_friction * s->k.lateral_ratio);
    double p = 0.0, worst = 0.0, top = 0.0;
    for (int j = s->ny - 1; j >= 0; j--) {
        int at = pb_at(s, s->nx / 2, j);
        double rho = s->solid.a[at] * s->iphi[at];
        /* dp/dz = rho g - p / L over a cell at constant density, to its middle and on */
        double plateau = rho * s->gravity_along * lj;
        double middle = plateau + (p - plateau) * pb_exp(-0.5 * s->dy / lj);
        p = plateau + (p - plateau) * pb_exp(-s->dy / lj);
        top = pb_max(top, middle);
        if (rho > s->k.rest_kg_m3) {
            worst = pb_max(worst, fabs(s->solid.p[at] - middle));
        }
    }
    pb_session_destroy(session);
    return worst / top;
}

double verify_own_weight(double *base_pa, double *base_exact_pa)
{
    PbSession *session = settled_column(35.0, 10.0, 0.0);
    if (session == NULL) {
        return NAN;
    }
    PbSim *s = verify_sim(session);
    double above = 0.0, worst = 0.0;
    double rest3 = s->k.rest_kg_m3 * s->k.rest_kg_m3 * s->k.rest_kg_m3;
    for (int j = s->ny - 1; j >= 0; j--) {
        int at = pb_at(s, s->nx / 2, j);
        double rho = s->solid.a[at] * s->iphi[at], w = rho * s->gravity_along * s->dy;
        double p = above + 0.5 * w;
        double exact = pb_exp(pb_log(p / s->cv + rest3) / 3.0);
        if (rho > s->k.rest_kg_m3 && j > 0) {
            worst = pb_max(worst, fabs(rho - exact) / exact);
        }
        above += w;
        *base_pa = s->solid.p[at];
        *base_exact_pa = p;
    }
    pb_session_destroy(session);
    return worst;
}

/* Density at which the mouth begins to refuse, from the jet alone; see docs/physics/packing.md. */
static double stall_density(const PbSim *s, double delivery_kg_s)
{
    const PbMachine *m = &s->ex.machine;
    double tube_m2 = 0.25 * PB_PI * m->tube_bore_m * m->tube_bore_m;
    double speed_m_s = s->hose.flow_m3_s / tube_m2;
    double momentum_n = s->k.air_density_kg_m3 * s->hose.flow_m3_s * speed_m_s +
                        delivery_kg_s * s->k.conveying_slip * speed_m_s;
    double push_pa = s->k.mouth_thrust * momentum_n / tube_m2;
    double rest = s->k.rest_kg_m3, ref = s->k.compaction_ref_kg_m3;
    double cv = s->k.compaction_ref_pa / (ref * ref * ref - rest * rest * rest);
    return pb_pow(push_pa / cv + rest * rest * rest, 1.0 / 3.0);
}

double verify_stall(double *formula_kg_m3)
{
    PbSessionConfig c = pb_session_default();
    PbHands hands = pb_hands_default();
    PbHandsState hs;
    memset(&hs, 0, sizeof hs);
    PbSession *session = open_session(&c);
    if (session == NULL) {
        return NAN;
    }
    double ours = NAN;
    for (int n = 0; n < MAX_TICKS && isnan(ours); n++) {
        PbCommand cmd[16];
        int count = pb_hands_next(&hands, &hs, pb_session_view(session), cmd);
        if (pb_session_step(session, cmd, count) != PB_OK) {
            break;
        }
        PbSim *s = verify_sim(session);
        if (s->hose.slug_kg > 0.0) {
            ours = s->past_mouth;
            *formula_kg_m3 = stall_density(s, s->hose.delivery_kg_s);
        }
    }
    pb_session_destroy(session);
    return ours;
}

PbStatus verify_run(const PbExercise *exercise, const PbHands *hands, uint64_t seed,
                    PbResult *result, double leak75[2])
{
    PbSessionConfig c = pb_session_default();
    c.exercise = *exercise;
    c.seed = seed;
    PbSession *session = open_session(&c);
    if (session == NULL) {
        return PB_ERR_RANGE;
    }
    PbHandsState hs;
    memset(&hs, 0, sizeof hs);
    PbStatus status = PB_OK;
    for (int n = 0; n < MAX_TICKS && status == PB_OK && !pb_session_is_over(session); n++) {
        PbCommand cmd[16];
        int count = pb_hands_next(hands, &hs, pb_session_view(session), cmd);
        status = pb_session_step(session, cmd, count);
    }
    pb_session_result(session, result);
    if (status == PB_OK && leak75 != NULL) {
        status = pb_session_leak_test(session, 75.0, &leak75[0], &leak75[1]);
    }
    pb_session_destroy(session);
    return status;
}

static void closed_forms(const VerifySink *sink)
{
    double leak = NAN, base = NAN, base_exact = NAN, formula = NAN;
    double fin = verify_darcy_fin(24, &leak);
    verify_abs(sink, "pack.gas.fin", "Darcy flow in a leaky bay: worst error over peak, 24 across",
               "-", VERIFY_SOURCE(EXACT, "P = q sigma L cosh((H-y)/L) / sinh(H/L)"), 0.0, fin,
               1e-4);
    verify_abs(sink, "pack.gas.leak", "air leaked against air blown", "-",
               VERIFY_SOURCE(EXACT, "what goes in comes out"), 0.0, leak, 1e-9);
    verify_abs(sink, "pack.fill.janssen", "settled column, stress against depth, over its peak",
               "-", VERIFY_SOURCE(EXACT, "dp/dz = rho g - p/L (Janssen, Z. VDI 39, 1895)"), 0.0,
               verify_janssen(), 0.03);
    double column = verify_own_weight(&base, &base_exact);
    verify_abs(sink, "pack.fill.own_weight", "column under its own weight, density against law",
               "-",
               VERIFY_SOURCE(EXACT, "p = Cv (rho^3 - rest^3) (van Wyk, J. Textile Inst. 37, 1946)"),
               0.0, column, 0.03);
    verify_rel(sink, "pack.fill.base", "its base stress", "Pa",
               VERIFY_SOURCE(EXACT, "weight above"), base_exact, base, 0.03);
    double stall = verify_stall(&formula);
    verify_rel(
        sink, "pack.stall", "density at the mouth when it begins to refuse", "kg/m3",
        VERIFY_SOURCE(OWN_CODE, "momentum flux of the jet over the compaction law, in closed form"),
        formula, stall, 0.03);
}

/* A run for rows of `verify`: when it fails its figures are not numbers, so that its rows are there
 * and fail. */
static PbResult measured(const PbExercise *e, const PbHands *h, double leak75[2])
{
    PbResult r;
    if (verify_run(e, h, 1, &r, leak75) != PB_OK) {
        memset(&r, 0, sizeof r);
        r.mean_kg_m3 = r.mass_balance_rel = (double)NAN;
        if (leak75 != NULL) {
            leak75[0] = leak75[1] = (double)NAN;
        }
    }
    return r;
}

static void dense_pack(const VerifySink *sink)
{
    PbExercise e = pb_exercise_default();
    PbHands h = pb_hands_default();
    double leak[2];
    PbResult r = measured(&e, &h, leak);
    verify_within(
        sink, "pack.run.80in", "mean density, one-foot steps, 80 in w.c. static", "lb/ft3",
        VERIFY_SOURCE(CALIBRATED,
                      "Standard Work Specifications 4.1101.5 and 4.1103.1: 80 in w.c., at "
                      "least 3.5; a trainer on core samples: to 4.5"),
        3.5, 4.5, r.mean_kg_m3 / PB_KG_M3_PER_LB_FT3);
    verify_abs(sink, "pack.run.ledger", "mass fed against mass accounted for", "-",
               VERIFY_SOURCE(EXACT, "fed = held + lost"), 0.0, r.mass_balance_rel, 1e-12);
    verify_within(sink, "pack.leak.empty", "leakage of the empty wall at 75 Pa (a setting)",
                  "l/(s m2)", VERIFY_SOURCE(CALIBRATED, "published US field data: 2 to 20"), 2.0,
                  20.0, leak[0] * 1e3);
    verify_within(sink, "pack.leak.packed", "the same wall packed", "l/(s m2)",
                  VERIFY_SOURCE(IN_SIGHT, "published US field data: 0.2 to 1.0"), 0.2, 1.0,
                  leak[1] * 1e3);
    verify_row(sink, &(VerifyRow){"pack.leak.ratio", "empty over packed", "-",
                                  VERIFY_SOURCE(CALIBRATED, "published US field data: about 10"),
                                  10.0, 10.0, leak[0] / leak[1], 5.0, 20.0, NULL});
    e.machine.static_pa = 40.0 * PB_PA_PER_IN_WC;
    h.feed_kg_s = 0.5 * e.feed_kg_s;
    r = measured(&e, &h, NULL);
    verify_row(sink,
               &(VerifyRow){"pack.run.40in", "the same with a worn 40 in w.c. blower, feed halved",
                            "lb/ft3",
                            VERIFY_SOURCE(IN_SIGHT, "Home Energy magazine, The Dry-Pack Cellulose "
                                                    "Alternative: weak blowers stay under 3.5"),
                            -HUGE_VAL, 3.5, r.mean_kg_m3 / PB_KG_M3_PER_LB_FT3, 2.0, 3.5, NULL});
}

/* Hands of a job report: the tube starts 0.4 m from the end and goes back 0.4 m when the material
 * slows; the density is what the crew aims at, not a weighing. */
static void told_steps(const VerifySink *sink)
{
    PbExercise e = pb_exercise_default();
    PbHands h = pb_hands_default();
    h.step_m = 0.4;
    h.passes[0].first_m = e.height_m - 0.4;
    h.passes[1].first_m = 0.4;
    verify_rel(sink, "pack.run.steps_400mm", "mean density, 0.4 m steps from 0.4 m off each end",
               "kg/m3",
               VERIFY_SOURCE(HELD_OUT, "French contractor's report of caissons packed so, at 55"),
               55.0, measured(&e, &h, NULL).mean_kg_m3, 0.1);
}

/* Mean of a bay 0.241 m deep under a rental machine, kg/m3; half the height of the one told of. */
static double rental_kg_m3(double static_in_wc)
{
    PbExercise e = pb_exercise_default();
    PbHands h = pb_hands_default();
    h.wait_s = 1.0;
    e.height_m = 2.05;
    e.depth_m = 0.241;
    e.machine.static_pa = static_in_wc * PB_PA_PER_IN_WC;
    e.machine.hose_bore_m = 0.0635;
    e.machine.tube_bore_m = 0.038;
    e.machine.tube_outer_m = 0.045;
    e.feed_kg_s = 0.012;
    e.time_limit_s = 3600.0;
    h.passes[0].first_m = 1.85;
    return measured(&e, &h, NULL).mean_kg_m3;
}

static void rental_machine(const VerifySink *sink)
{
    static const VerifySource told = {
        VERIFY_IN_SIGHT, "installer's report, rental machine, its pressure not told (40 to 60 in "
                         "w.c. is usual): about 2.5 lb/ft3"};
    double told_kg_m3 = 2.5 * PB_KG_M3_PER_LB_FT3, limit = 0.15 * told_kg_m3;
    verify_rel(sink, "pack.run.rental_40in", "bay 0.241 m deep, rental machine of 40 in w.c.",
               "kg/m3", told, told_kg_m3, rental_kg_m3(40.0), 0.15);
    verify_row(sink, &(VerifyRow){"pack.run.rental_60in", "the same of 60 in w.c.", "kg/m3", told,
                                  told_kg_m3, told_kg_m3, rental_kg_m3(60.0), told_kg_m3 - limit,
                                  told_kg_m3 + limit,
                                  "a strong machine with a lean feed packs too well here"});
}

/* What the fill itself is taken to be, against figures for such fill from elsewhere. */
static void fill_itself(const VerifySink *sink)
{
    PbConstants k = pb_constants_default();
    double dense = 1e-3 * pb_material_resistivity(&k, 56.0);
    double loft = 1e-3 * pb_material_resistivity(&k, 30.0);
    verify_within(
        sink, "pack.air.wall", "air flow resistivity at 56 kg/m3", "kPa s/m2",
        VERIFY_SOURCE(HELD_OUT,
                      "Estonian installer's page: 20 to 50 % of what goes through mineral "
                      "wool, that at 6 to 7 (density not told)"),
        12.0, 35.0, dense);
    verify_row(
        sink,
        &(VerifyRow){
            "pack.air.wall_batt", "air flow resistivity at 56 kg/m3", "kPa s/m2",
            VERIFY_SOURCE(HELD_OUT, "Norwegian page after building-research leaflet 573.344: a "
                                    "sixth of what goes through batts, those at 6 to 7 (density "
                                    "not told)"),
            36.0, 42.0, dense, 36.0, 42.0, "ours is set by what crews reach (pack.run.80in)"});
    verify_row(sink, &(VerifyRow){
                         "pack.air.limit", "air flow resistivity at 56 kg/m3", "kPa s/m2",
                         VERIFY_SOURCE(HELD_OUT,
                                       "Standard Work Specifications 4.1103.1: most air permeance "
                                       "0.0178 m/s asked of other fills, as 89 mm of them"),
                         31.6, HUGE_VAL, dense, 31.6, HUGE_VAL,
                         "dense pack as modelled would not meet what is asked of other fills"});
    verify_row(sink,
               &(VerifyRow){"pack.air.loft", "air flow resistivity at 30 kg/m3", "kPa s/m2",
                            VERIFY_SOURCE(HELD_OUT, "Nordic maker's declared loft value, "
                                                    "density of 30 assumed"),
                            5.0, 6.0, loft, 5.0, 6.0, "the power law is too lean at low density"});
    double rest = k.rest_kg_m3, ref = k.compaction_ref_kg_m3, disc_pa = 41.6;
    double cv = k.compaction_ref_pa / (ref * ref * ref - rest * rest * rest);
    verify_within(sink, "pack.fill.disc",
                  "density under the disc of the settled-density test, 41.6 Pa", "kg/m3",
                  VERIFY_SOURCE(HELD_OUT, "16 CFR 1209.4(a) (75 g on 150.1 mm); settled densities "
                                          "told of by a trade answer: 22 to 26 fiberized, 32 to 40 "
                                          "hammer-milled"),
                  22.0, 40.0, pb_pow(disc_pa / cv + rest * rest * rest, 1.0 / 3.0));
    verify_within(sink, "pack.fill.conductivity", "conductivity at 56 kg/m3", "W/(m K)",
                  VERIFY_SOURCE(CALIBRATED,
                                "trainer's article on core samples, R per inch at 56 to "
                                "72 kg/m3; Maryland field guide, Table 5-1: 0.0424"),
                  0.0412, 0.0451, pb_material_conductivity(&k, 56.0));
    verify_within(sink, "pack.fill.conductivity_loft", "conductivity at 35 kg/m3", "W/(m K)",
                  VERIFY_SOURCE(HELD_OUT, "Norwegian low-energy programme: 0.039 for blown "
                                          "cellulose, given to 0.001 (density not told)"),
                  0.0385, 0.0395, pb_material_conductivity(&k, 35.0));
    verify_rel(
        sink, "pack.bag", "wall area of a 25 lb bag at 3.5 lb/ft3 in 3.5 in", "ft2",
        VERIFY_SOURCE(CALCULATED, "coverage chart in the form of 16 CFR 460.12: 24.5 ft2"), 24.5,
        pb_bag_coverage_m2(25.0 * PB_KG_PER_LB, 3.5 * PB_KG_M3_PER_LB_FT3, 3.5 * PB_M_PER_IN) /
            (PB_M_PER_FT * PB_M_PER_FT),
        0.005);
}

void verify_pack(const VerifySink *sink)
{
    closed_forms(sink);
    dense_pack(sink);
    told_steps(sink);
    rental_machine(sink);
    fill_itself(sink);
}
