/* What a run amounts to: mass, densities by 0.1 m patches, panel, hands. */
#include "session_private.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

enum { MAX_PATCHES = 1024 };

static const double PATCH_M = 0.1;
static const double MIN_FREE_SHARE = 0.05; /* of a patch: less room than this is not scored */

/* Mass and free volume of a patch from the cells that it overlaps, per depth. */
static void measure(const PbSim *s, PbPatch *p)
{
    double mass = 0.0, room = 0.0, area = 0.0;
    int i0 = (int)(p->x0_m / s->dx), j0 = (int)(p->y0_m / s->dy);
    for (int j = j0; j < s->ny && s->dy * j < p->y1_m; j++) {
        double wy = pb_overlap(p->y0_m, p->y1_m, s->dy * j, s->dy * (j + 1));
        for (int i = i0; i < s->nx && s->dx * i < p->x1_m; i++) {
            double w = wy * pb_overlap(p->x0_m, p->x1_m, s->dx * i, s->dx * (i + 1));
            int at = pb_at(s, i, j);
            mass += w * s->solid.a[at];
            room += w * s->phi[at];
            area += w * s->phi0[at];
        }
    }
    p->free_area_m2 = area;
    p->density_kg_m3 = room > 0.0 ? mass / room : 0.0;
}

int pb_session_patches(const PbSession *session, PbPatch *patches, int max)
{
    const PbSim *s = pb_session_sim(session);
    int px = (int)(s->ex.width_m / PATCH_M + 0.5), py = (int)(s->ex.height_m / PATCH_M + 0.5);
    px = px < 1 ? 1 : px;
    py = py < 1 ? 1 : py;
    double w = s->ex.width_m / px, h = s->ex.height_m / py;
    int count = 0;
    for (int j = 0; j < py; j++) {
        for (int i = 0; i < px && count < max; i++) {
            PbPatch p = {w * i, h * j, w * (i + 1), h * (j + 1), 0.0, 0.0};
            measure(s, &p);
            if (p.free_area_m2 > MIN_FREE_SHARE * w * h) {
                patches[count++] = p;
            }
        }
    }
    return count;
}

/* Softest first; equal ones keep their places, so that sums over them have one order everywhere. */
static void sort_by_density(PbPatch *p, int count)
{
    for (int i = 1; i < count; i++) {
        PbPatch moved = p[i];
        int j = i;
        while (j > 0 && p[j - 1].density_kg_m3 > moved.density_kg_m3) {
            p[j] = p[j - 1];
            j--;
        }
        p[j] = moved;
    }
}

static double share_at_least(const PbPatch *p, int count, double density, double area)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += p[i].density_kg_m3 >= density ? p[i].free_area_m2 : 0.0;
    }
    return area > 0.0 ? sum / area : 0.0;
}

static void judge_patches(const PbSession *session, PbResult *r)
{
    const PbSim *s = pb_session_sim(session);
    static const double P5 = 0.05;
    PbPatch p[MAX_PATCHES];
    int count = pb_session_patches(session, p, MAX_PATCHES);
    sort_by_density(p, count);
    double area = 0.0, below = 0.0;
    for (int i = 0; i < count; i++) {
        area += p[i].free_area_m2;
        r->void_area_m2 += p[i].density_kg_m3 < s->k.void_kg_m3 ? p[i].free_area_m2 : 0.0;
    }
    if (count == 0) {
        return;
    }
    r->min_patch_kg_m3 = p[0].density_kg_m3;
    r->p5_patch_kg_m3 = p[count - 1].density_kg_m3;
    for (int i = 0; i < count; i++) {
        below += p[i].free_area_m2;
        if (below >= P5 * area) {
            r->p5_patch_kg_m3 = p[i].density_kg_m3;
            break;
        }
    }
    r->share_at_target = share_at_least(p, count, s->ex.target_kg_m3, area);
    r->share_below_48_kg_m3 = 1.0 - share_at_least(p, count, 48.0, area);
    r->share_below_56_kg_m3 = 1.0 - share_at_least(p, count, 56.0, area);
}

void pb_session_result(const PbSession *session, PbResult *result)
{
    const PbSim *s = pb_session_sim(session);
    PbResult r;
    memset(&r, 0, sizeof r);
    const PbLedger *l = &s->ledger;
    r.ledger = s->view.ledger;
    r.mass_in_bay_kg = pb_sim_mass_kg(s);
    r.mass_fed_kg = l->fed_kg;
    r.mass_lost_kg = l->lost_hole_kg + l->lost_openings_kg + l->lost_leaks_kg + l->lost_outside_kg +
                     l->cleared_kg + l->fallen_kg;
    double held = r.mass_in_bay_kg + r.ledger.in_hose_kg + r.ledger.airborne_kg;
    r.mass_balance_rel = fabs(l->fed_kg - held - r.mass_lost_kg) / pb_max(l->fed_kg, 1e-9);
    r.fillable_volume_m3 = s->fillable_m3;
    r.mean_kg_m3 = r.mass_in_bay_kg / s->fillable_m3;
    judge_patches(session, &r);
    r.peak_panel_pa = s->panel.worst_pa;
    r.peak_panel_over_strength = s->panel.worst_over;
    r.blow_out = s->phase == PB_PHASE_BLOWN_OUT;
    r.plugs = s->plugs;
    r.stall_count = s->stalls;
    r.lift_count = s->stop.lift_count;
    r.duration_s = s->tick * PB_TICK_S;
    r.bags = l->fed_kg / s->ex.bag_kg;
    r.phase = s->phase;
    pb_act_publish(s, &r.acts);
    r.state_hash = pb_session_hash(session);
    *result = r;
}

double pb_bag_coverage_m2(double bag_kg, double density_kg_m3, double depth_m)
{
    return bag_kg / (density_kg_m3 * depth_m);
}
