/* The parts of the score that are about places: on target, weakest place, years. Soft patches with
 * one cause at one stop make one loss, so that the list stays readable. */
#include "score_private.h"

#include <math.h>

static const double APART_M = 0.3;

static double clamp01(double v)
{
    return v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
}

/* Soft patches gathered by cause and stop. Area-weighted means until they are closed. */
typedef struct Band {
    PbLoss loss;
    double area_m2;
    double x_sum, rho_sum;
    int patches;
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

void pb_lose_on_target(const PbScoreInput *in, PbScore *score)
{
    enum { MAX_BANDS = 48 };
    Band bands[MAX_BANDS];
    PbScorePart *part = &score->parts[PB_SCORE_ON_TARGET];
    double soft_m2 = 0.0;
    int count = 0, soft = 0;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        if (p->free_area_m2 <= 0.0 || p->density_kg_m3 >= in->exercise->target_kg_m3) {
            continue;
        }
        PbLoss loss = pb_soft_cause(in, p);
        Band *b = band_for(bands, &count, MAX_BANDS, &loss);
        b->loss.y0_m = fmin(b->loss.y0_m, p->y0_m);
        b->loss.y1_m = fmax(b->loss.y1_m, p->y1_m);
        b->area_m2 += p->free_area_m2;
        b->x_sum += p->free_area_m2 * loss.x_m;
        b->rho_sum += p->free_area_m2 * p->density_kg_m3;
        b->patches++;
        soft_m2 += p->free_area_m2;
        soft++;
    }
    part->points = part->max * clamp01(in->result->share_at_target);
    double lost = part->max - part->points;
    for (int i = 0; i < count; i++) {
        PbLoss *l = &bands[i].loss;
        l->part = PB_SCORE_ON_TARGET;
        l->points = lost * bands[i].area_m2 / soft_m2;
        l->x_m = bands[i].x_sum / bands[i].area_m2;
        l->y_m = 0.5 * (l->y0_m + l->y1_m);
        l->density_kg_m3 = bands[i].rho_sum / bands[i].area_m2;
        pb_loss_add(score, l);
    }
    part->count = soft;
}

static const PbPatch *softest(const PbScoreInput *in)
{
    const PbPatch *worst = NULL;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        if (p->free_area_m2 > 0.0 && (worst == NULL || p->density_kg_m3 < worst->density_kg_m3)) {
            worst = p;
        }
    }
    return worst;
}

void pb_lose_weakest(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_WEAKEST];
    const PbPatch *worst = softest(in);
    part->points = part->max * clamp01(in->result->p5_patch_kg_m3 / in->exercise->target_kg_m3);
    if (worst == NULL || part->points >= part->max) {
        return;
    }
    PbLoss loss = pb_soft_cause(in, worst);
    if (loss.cause == PB_FAULT_SOFT_PATCHES) {
        loss.cause = PB_FAULT_WEAK_PLACE;
    }
    loss.part = PB_SCORE_WEAKEST;
    loss.points = part->max - part->points;
    loss.density_kg_m3 = in->result->p5_patch_kg_m3;
    if (loss.cause == PB_FAULT_WEAK_PLACE) {
        loss.value = in->result->p5_patch_kg_m3;
    }
    pb_loss_add(score, &loss);
}

static void lose_half(const PbScoreInput *in, PbScore *score, PbScoreFault cause, double value,
                      double share, double x_m, double y0_m, double y1_m)
{
    double y = 0.5 * (y0_m + y1_m), points = 0.5 * score->parts[PB_SCORE_YEARS].max * share;
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
    double area = e->width_m * e->height_m;
    double gap = clamp01(y->top_gap_m / in->rubric->top_gap_zero_m);
    double open = clamp01(y->inner_void_area_m2 / area / in->rubric->void_zero_frac);
    double top = e->height_m - y->top_gap_max_m;
    lose_half(in, score, PB_FAULT_TOP_GAP, y->top_gap_m, gap, 0.5 * e->width_m,
              top < 0.0 ? 0.0 : top, e->height_m);
    lose_half(in, score, PB_FAULT_LATE_VOID, y->inner_void_area_m2, open, y->worst_x_m,
              fmax(0.0, y->worst_y_m - 0.05), fmin(e->height_m, y->worst_y_m + 0.05));
}
