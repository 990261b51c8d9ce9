/* What was measured on the day of the work shows: see core/proof_reading.h. */
#include "core/proof_reading.h"

#include "core/material.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Relative standard uncertainties of our own choice (no source): depth 3 mm of 89, net mass of a
 * bag 2 %, a quarter of a bag either way at the end. Area and framing go by their rows of the
 * constants. A core of 64 mm with 1 mm of bore, 3 mm of depth and a scale of 1 g: 7.8 % by error
 * sum. */
static const double depth_u = 0.03, bag_u = 0.02, rest_bags = 0.25, core_u = 0.078;
/* Between two looks of one camera at one wall, K; ours. Between two leak tests with one apparatus:
 * 5 % of each, from memory of its makers' and standards' figures. */
static const double camera_k = 0.3, leak_u95 = 0.05;

/* Student's t, 97.5 %, by degrees of freedom (Student 1908; any table). */
static const double student_t[PB_PROOF_CORES] = {0.0, 12.706, 4.303};

/* Standard uncertainty of a factor that lies evenly between the ends of its row. */
static double row_u(const char *name)
{
    const PbConstantInfo *row = pb_constant_find(name);
    return (row->high - row->low) / (2.0 * sqrt(3.0));
}

static PbHeatRange interval(double mid, double half)
{
    return (PbHeatRange){mid > half ? mid - half : 0.0, mid, mid + half};
}

static void read_bags(const PbHouse *h, PbProofReading *r)
{
    const PbProof *p = &h->proof;
    double open = 1.0 - h->framing_share, bay_m2 = h->bay.width_m * h->bay.height_m;
    if (!(p->bags > 0.0)) {
        return;
    }
    double mid = p->bags * p->bag_kg / (p->area_m2 * open * h->bay.depth_m);
    double framing = row_u("framing_scale") * h->framing_share / open;
    double area = row_u("wall_area_scale"), rest = rest_bags / sqrt(3.0) / p->bags;
    double u =
        sqrt(area * area + framing * framing + depth_u * depth_u + bag_u * bag_u + rest * rest);
    r->bags_kg_m3 = interval(mid, 2.0 * u * mid);
    r->bays = (int)floor(p->area_m2 * open / bay_m2 + 0.5);
    r->bays = r->bays < 1 ? 1 : r->bays;
    r->one_bay_share = 1.0 / r->bays;
    r->core_chance = p->core_count < r->bays ? (double)p->core_count / r->bays : 1.0;
}

static void read_cores(const PbProof *p, PbProofReading *r)
{
    int n = p->core_count;
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < n; i++) {
        sum += p->core_kg_m3[i];
    }
    if (n == 0) {
        return;
    }
    double mean = sum / n, device = 2.0 * core_u * mean / sqrt(n), half = device;
    for (int i = 0; i < n; i++) {
        squares += (p->core_kg_m3[i] - mean) * (p->core_kg_m3[i] - mean);
    }
    if (n > 1) {
        r->core_sd_kg_m3 = sqrt(squares / (n - 1));
        half = fmax(student_t[n - 1] * r->core_sd_kg_m3 / sqrt(n), device);
    }
    r->cores_kg_m3 = interval(mean, half);
}

static double half_of(const PbHeatRange *r)
{
    return r->high - r->mid;
}

/* Mean weighted by the inverse square of the intervals. One core tells one place, not the wall. */
static void combine(const PbHouse *h, PbProofReading *r)
{
    int has_bags = r->bags_kg_m3.mid > 0.0, has_cores = h->proof.core_count > 1;
    r->target_kg_m3 = h->bay.target_kg_m3;
    if (has_bags && has_cores) {
        double a = half_of(&r->bags_kg_m3), b = half_of(&r->cores_kg_m3);
        double apart = r->cores_kg_m3.mid - r->bags_kg_m3.mid;
        if (fabs(apart) > sqrt(a * a + b * b)) {
            r->contradict = apart > 0.0 ? 1 : -1;
            r->density = PB_PROOF_OPEN;
            return;
        }
        double wa = 1.0 / (a * a), wb = 1.0 / (b * b);
        r->kg_m3 = interval((wa * r->bags_kg_m3.mid + wb * r->cores_kg_m3.mid) / (wa + wb),
                            1.0 / sqrt(wa + wb));
    } else if (has_bags || has_cores) {
        r->kg_m3 = has_bags ? r->bags_kg_m3 : r->cores_kg_m3;
    }
    int is_known = r->kg_m3.mid > 0.0;
    r->density = !is_known ? (h->proof.core_count > 0 ? PB_PROOF_OPEN : PB_PROOF_NOTHING)
                 : r->kg_m3.low >= r->target_kg_m3 ? PB_PROOF_REACHED
                 : r->kg_m3.high < r->target_kg_m3 ? PB_PROOF_MISSED
                                                   : PB_PROOF_OPEN;
}

/* An empty bay beside filled ones, by the wall's layers: room film times the difference of the heat
 * that goes through each. */
static double empty_stripe_k(const PbHouse *h, const PbConstants *c)
{
    PbWallSkin skin = pb_wall_skin(&h->wall, c);
    double stud = h->bay.depth_m / c->wood_k_w_mk;
    double fill = h->bay.depth_m / pb_material_conductivity(c, h->bay.target_kg_m3);
    double air = 1.0 / (c->gap_radiation_w_m2k + c->void_convection_w_m2k);
    PbWallPaths full = pb_wall_paths(&skin, stud, h->framing_share, fill);
    PbWallPaths empty = pb_wall_paths(&skin, stud, h->framing_share, air);
    return h->proof.after.air_k * c->room_film_m2k_w * (empty.cavity_u_w_m2k - full.cavity_u_w_m2k);
}

/* Half of what an empty bay would show parts a stripe from none: a choice of ours. */
static void read_camera(const PbHouse *h, const PbConstants *c, PbProofReading *r)
{
    const PbProof *p = &h->proof;
    if (!(p->after.air_k > 0.0)) {
        r->camera = p->before.air_k > 0.0 ? PB_PROOF_OPEN : PB_PROOF_NOTHING;
        r->blind = PB_PROOF_SEES;
        return;
    }
    r->empty_k = empty_stripe_k(h, c);
    double limit = 0.5 * r->empty_k;
    int had_picture = p->before.air_k >= PB_PROOF_LEAST_AIR_K;
    r->camera = PB_PROOF_OPEN;
    if (p->after.air_k < PB_PROOF_LEAST_AIR_K) {
        r->blind = PB_PROOF_MILD;
    } else if (p->after.stripe_k - camera_k >= limit) {
        r->camera = PB_PROOF_MISSED;
    } else if (had_picture && p->before.stripe_k <= camera_k) {
        r->blind = PB_PROOF_SAW_NONE;
    } else if (p->after.stripe_k + camera_k <= limit) {
        r->camera = PB_PROOF_REACHED;
    }
}

static void read_leak(const PbProof *p, PbProofReading *r)
{
    double b = p->leak_before_m3_s, a = p->leak_after_m3_s;
    if (!(b > 0.0 && a > 0.0)) {
        return;
    }
    double half = leak_u95 * sqrt(a * a + b * b), less = b - a;
    r->leak_less_m3_s = (PbHeatRange){less - half, less, less + half};
    r->leak = less > half ? PB_PROOF_REACHED : less < -half ? PB_PROOF_MISSED : PB_PROOF_OPEN;
}

void pb_proof_read(const PbHouse *h, const PbConstants *c, PbProofReading *reading)
{
    assert(h != NULL && c != NULL && reading != NULL);
    PbProofReading r;
    memset(&r, 0, sizeof r);
    read_bags(h, &r);
    read_cores(&h->proof, &r);
    combine(h, &r);
    read_camera(h, c, &r);
    read_leak(&h->proof, &r);
    *reading = r;
}
