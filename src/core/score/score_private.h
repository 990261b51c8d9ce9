/* Shared by the files of the score; not for others. */
#ifndef SCORE_PRIVATE_H
#define SCORE_PRIVATE_H

#include "core/score.h"

/** Softest stretch of the bay. */
typedef struct PbSlice {
    double y0_m, y1_m;
    double density_kg_m3; /**< mean of it; negative = the bay has no patches */
    double worth;         /**< 0..1, least mean worth of a stretch; of another one it may be */
} PbSlice;

static inline double pb_clamp01(double v)
{
    return v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
}

/** 0..1, how much of a full patch one of this density is. */
double pb_wall_worth(double density_kg_m3, double target_kg_m3);
PbSlice pb_softest_slice(const PbScoreInput *in);
/** How soft the wall is between two heights: 0 at target, 1 at the least of a slice or under it. */
double pb_softness(const PbScoreInput *in, double y0_m, double y1_m);

/** Put a loss into the list; a full list adds its points to the last one of the same part. */
void pb_loss_add(PbScore *score, const PbLoss *loss);

/** Why a patch is soft: cause, value, band, time, lift. Points are left 0. */
PbLoss pb_soft_cause(const PbScoreInput *in, const PbPatch *patch);

/** The stop with material whose mouth was nearest to this height; negative when there is none. */
int pb_nearest_lift(const PbScoreInput *in, double y_m);
/** When a stop was left. */
double pb_lift_left_s(const PbScoreInput *in, int lift);

/** Hash with a number that came after the first rubrics; `silent` is its value in those. */
uint64_t pb_rubric_later(uint64_t h, const char *key, double value, double silent);

/** Losses of the parts that are about patches. */
void pb_lose_on_target(const PbScoreInput *in, PbScore *score);
void pb_lose_weakest(const PbScoreInput *in, PbScore *score);
void pb_lose_years(const PbScoreInput *in, PbScore *score);

/** Technique counts as far as the wall is good: the part keeps the wall share of its maximum. */
void pb_lose_held(PbScore *score, PbScorePartKind part, const PbScoreInput *in);
/** Gates and verdict; the last thing, score_gates.c. */
void pb_gate(const PbScoreInput *in, PbScore *score);
/** Wood that keeps the tube from this height, seen from each hole that was worked from; NULL when
 * there is none. */
const PbObstacle *pb_wood_before(const PbScoreInput *in, double y_m);

/** Safety steps left out, off no harm; score_cause.c. */
void pb_lose_safety(const PbScoreInput *in, PbScore *score);

#endif
