/* Shared by the files of the score; not for others. */
#ifndef SCORE_PRIVATE_H
#define SCORE_PRIVATE_H

#include "core/score.h"

/** Put a loss into the list; a full list adds its points to the last one of the same part. */
void pb_loss_add(PbScore *score, const PbLoss *loss);

/** Why a patch is soft: cause, value, band, time, lift. Points are left 0. */
PbLoss pb_soft_cause(const PbScoreInput *in, const PbPatch *patch);

/** The stop with material whose mouth was nearest to this height; negative when there is none. */
int pb_nearest_lift(const PbScoreInput *in, double y_m);
/** When a stop was left. */
double pb_lift_left_s(const PbScoreInput *in, int lift);

/** Losses of the parts that are about patches. */
void pb_lose_on_target(const PbScoreInput *in, PbScore *score);
void pb_lose_weakest(const PbScoreInput *in, PbScore *score);
void pb_lose_years(const PbScoreInput *in, PbScore *score);

/** Safety steps left out, off no harm; score_cause.c. */
void pb_lose_safety(const PbScoreInput *in, PbScore *score);

#endif
