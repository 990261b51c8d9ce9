/* The parts of the score that are about places: on target, weakest place, years. Soft patches with
 * one cause at one stop make one loss, so that the list stays readable. A patch counts by how far
 * it is from target, so that nothing hangs on one patch being at 55.9 or at 56.0. */
#include "score_private.h"

#include <math.h>

static const double APART_M = 0.3;
static const double MEAN_SHARE = 0.25; /* of on target goes by the mean: bags are counted */
static const double MEAN_SHORT = 0.1;  /* of the target: so much less, and that share is gone */

double pb_wall_worth(double density_kg_m3, double target_kg_m3)
{
    return pb_clamp01(density_kg_m3 / target_kg_m3);
}

PbSlice pb_softest_slice(const PbScoreInput *in)
{
    double target = in->exercise->target_kg_m3;
    PbSlice best = {.y1_m = in->exercise->height_m, .density_kg_m3 = -1.0};
    double least = 1.0;
    for (int i = 0; i < in->patch_count; i++) {
        /* every slice that begins with a row of patches; the last ones end at the top */
        double y0 =
            fmax(0.0, fmin(in->patches[i].y0_m, in->exercise->height_m - in->rubric->slice_m));
        double y1 = y0 + in->rubric->slice_m, mass = 0.0, room = 0.0, worth = 0.0;
        for (int k = 0; k < in->patch_count; k++) {
            const PbPatch *p = &in->patches[k];
            double tall = p->y1_m - p->y0_m;
            double in_m = fmin(y1, p->y1_m) - fmax(y0, p->y0_m);
            if (in_m > 0.0 && tall > 0.0) {
                double area = p->free_area_m2 * in_m / tall;
                mass += area * p->density_kg_m3;
                worth += area * pb_wall_worth(p->density_kg_m3, target);
                room += area;
            }
        }
        if (room <= 0.0) {
            continue;
        }
        least = fmin(least, worth / room);
        if (best.density_kg_m3 < 0.0 || mass / room < best.density_kg_m3) {
            best = (PbSlice){y0, y1, mass / room, 0.0};
        }
    }
    best.worth = best.density_kg_m3 >= 0.0 ? least : 0.0;
    return best;
}

double pb_softness(const PbScoreInput *in, double y0_m, double y1_m)
{
    double mass = 0.0, room = 0.0, target = in->exercise->target_kg_m3;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        double tall = p->y1_m - p->y0_m, in_m = fmin(y1_m, p->y1_m) - fmax(y0_m, p->y0_m);
        if (in_m > 0.0 && tall > 0.0) {
            mass += p->free_area_m2 * in_m / tall * p->density_kg_m3;
            room += p->free_area_m2 * in_m / tall;
        }
    }
    double span = fmax(target - in->rubric->slice_min_kg_m3, 0.05 * target);
    return room > 0.0 ? pb_clamp01((target - mass / room) / span) : 0.0;
}

/* Soft patches gathered by cause and stop. Area-weighted means until they are closed. */
typedef struct Band {
    PbLoss loss;
    double area_m2;
    double lost_m2; /* area times what is missing to a full patch */
    double x_sum, rho_sum;
} Band;

static Band *band_for(Band *bands, int *count, int max, const PbLoss *loss)
{
    for (int i = 0; i < *count; i++) {
        /* a stop in the middle may have missed both ends: two places */
        int is_apart =
            loss->cause == PB_FAULT_MISSED && (loss->y0_m > bands[i].loss.y1_m + APART_M ||
                                               loss->y1_m < bands[i].loss.y0_m - APART_M);
        if (bands[i].loss.cause == loss->cause && bands[i].loss.lift == loss->lift && !is_apart) {
            return &bands[i];
        }
    }
    if (*count == max) {
        return &bands[max - 1];
    }
    Band *b = &bands[(*count)++];
    *b = (Band){.loss = *loss};
    return b;
}

static int gather(const PbScoreInput *in, Band *bands, int max, int *soft, double *area_m2)
{
    double target = in->exercise->target_kg_m3;
    int count = 0;
    *soft = 0;
    *area_m2 = 0.0;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        if (p->free_area_m2 <= 0.0) {
            continue;
        }
        *area_m2 += p->free_area_m2;
        if (p->density_kg_m3 >= target) {
            continue;
        }
        PbLoss loss = pb_soft_cause(in, p);
        Band *b = band_for(bands, &count, max, &loss);
        b->loss.y0_m = fmin(b->loss.y0_m, p->y0_m);
        b->loss.y1_m = fmax(b->loss.y1_m, p->y1_m);
        b->area_m2 += p->free_area_m2;
        b->lost_m2 += p->free_area_m2 * (1.0 - pb_wall_worth(p->density_kg_m3, target));
        b->x_sum += p->free_area_m2 * loss.x_m;
        b->rho_sum += p->free_area_m2 * p->density_kg_m3;
        (*soft)++;
    }
    return count;
}

/* What is there of what was asked for, patch by patch and as a whole. */
static double on_target_share(const PbScoreInput *in, double wall_share)
{
    double target = in->exercise->target_kg_m3, fill = 0.0, area = 0.0;
    for (int i = 0; i < in->patch_count; i++) {
        fill += in->patches[i].free_area_m2 * in->patches[i].density_kg_m3;
        area += in->patches[i].free_area_m2;
    }
    double missing = area > 0.0 ? fmax(0.0, target - fill / area) / (MEAN_SHORT * target) : 1.0;
    double mean = wall_share > 0.0 ? 1.0 - fmin(missing, 1.0) : 0.0;
    return (1.0 - MEAN_SHARE) * wall_share + MEAN_SHARE * mean;
}

void pb_lose_on_target(const PbScoreInput *in, PbScore *score)
{
    enum { MAX_BANDS = 48 };
    Band bands[MAX_BANDS];
    PbScorePart *part = &score->parts[PB_SCORE_ON_TARGET];
    double area = 0.0, lost_m2 = 0.0;
    int soft = 0, count = gather(in, bands, MAX_BANDS, &soft, &area);
    for (int i = 0; i < count; i++) {
        lost_m2 += bands[i].lost_m2;
    }
    score->wall_share = area > 0.0 ? pb_clamp01(1.0 - lost_m2 / area) : 0.0;
    part->points = part->max * on_target_share(in, score->wall_share);
    part->count = soft;
    for (int i = 0; i < count; i++) { /* each place has its share of what is lost */
        PbLoss *l = &bands[i].loss;
        l->part = PB_SCORE_ON_TARGET;
        l->points = (part->max - part->points) * bands[i].lost_m2 / lost_m2;
        l->x_m = bands[i].x_sum / bands[i].area_m2;
        l->y_m = 0.5 * (l->y0_m + l->y1_m);
        l->density_kg_m3 = bands[i].rho_sum / bands[i].area_m2;
        pb_loss_add(score, l);
    }
}

static const PbPatch *softest_in(const PbScoreInput *in, double y0_m, double y1_m)
{
    const PbPatch *worst = NULL;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        double y = 0.5 * (p->y0_m + p->y1_m);
        if (p->free_area_m2 > 0.0 && y > y0_m && y < y1_m &&
            (worst == NULL || p->density_kg_m3 < worst->density_kg_m3)) {
            worst = p;
        }
    }
    return worst;
}

void pb_lose_weakest(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_WEAKEST];
    PbSlice slice = pb_softest_slice(in);
    const PbPatch *worst = softest_in(in, slice.y0_m, slice.y1_m);
    /* cubed: what a complaint is about is one soft foot, not the mean */
    part->points = part->max * slice.worth * slice.worth * slice.worth;
    if (worst == NULL || part->points >= part->max) {
        return;
    }
    PbLoss loss = pb_soft_cause(in, worst);
    if (loss.cause == PB_FAULT_SOFT_PATCHES) {
        loss.cause = PB_FAULT_WEAK_PLACE;
        loss.value = slice.density_kg_m3;
    }
    loss.part = PB_SCORE_WEAKEST;
    loss.points = part->max - part->points;
    loss.density_kg_m3 = slice.density_kg_m3;
    loss.y0_m = slice.y0_m;
    loss.y1_m = slice.y1_m;
    pb_loss_add(score, &loss);
}

static void lose_half(const PbScoreInput *in, PbScore *score, PbScoreFault cause, double value,
                      double share, double x_m, double y0_m, double y1_m)
{
    double y = 0.5 * (y0_m + y1_m),
           points = 0.5 * score->parts[PB_SCORE_YEARS].max * score->wall_share * share;
    int lift = pb_nearest_lift(in, y);
    if (points <= 0.0) {
        return;
    }
    PbLoss loss = {.part = PB_SCORE_YEARS,
                   .cause = cause,
                   .points = points,
                   .value = value,
                   .density_kg_m3 = -1.0,
                   .x_m = x_m,
                   .y_m = y,
                   .y0_m = y0_m,
                   .y1_m = y1_m,
                   .time_s = pb_lift_left_s(in, lift),
                   .lift = lift};
    score->parts[PB_SCORE_YEARS].points -= points;
    pb_loss_add(score, &loss);
}

void pb_lose_years(const PbScoreInput *in, PbScore *score)
{
    const PbSettleReport *y = in->years;
    const PbExercise *e = in->exercise;
    PbScorePart *part = &score->parts[PB_SCORE_YEARS];
    if (y == NULL) {
        part->points = part->max = 0.0;
        return;
    }
    score->has_years = 1;
    score->top_gap_m = y->top_gap_m;
    score->inner_void_m2 = y->inner_void_area_m2;
    score->void_area_m2 = y->void_area_m2;
    pb_lose_held(score, PB_SCORE_YEARS, in);
    double area = e->width_m * e->height_m;
    double gap = pb_clamp01(y->top_gap_m / in->rubric->top_gap_zero_m);
    double open = pb_clamp01(y->inner_void_area_m2 / area / in->rubric->void_zero_frac);
    double top = e->height_m - y->top_gap_max_m;
    lose_half(in, score, PB_FAULT_TOP_GAP, y->top_gap_m, gap, 0.5 * e->width_m,
              top < 0.0 ? 0.0 : top, e->height_m);
    lose_half(in, score, PB_FAULT_LATE_VOID, y->inner_void_area_m2, open, y->worst_x_m,
              fmax(0.0, y->worst_y_m - 0.05), fmin(e->height_m, y->worst_y_m + 0.05));
}
