/* Cases behind the packing rows of `verify`, shared with tests/physics. They set up states that no
 * command can, so they see the core from inside. */
#ifndef LAB_VERIFY_PACK_H
#define LAB_VERIFY_PACK_H

#include "pack/sim.h"

#include "core/hands.h"
#include "core/session.h"
#include "lab/verify.h"

/** The state behind a session, writable: for cases that set up what no commands can. */
PbSim *verify_sim(PbSession *session);
/** Worst error over peak of gas pressure in a uniform leaky bay; leaked against blown. */
double verify_darcy_fin(int cells_across, double *leak_error);
/** Worst stress error of a settled column over its peak stress. */
double verify_janssen(void);
/** Worst density error of a frictionless column under its own weight. */
double verify_own_weight(double *base_pa, double *base_exact_pa);
/** Mouth density at the first stall of the plain run, and by the closed form. */
double verify_stall(double *formula_kg_m3);
/** One whole run; leak75 (empty, packed, m3/(s m2) at 75 Pa) may be NULL. */
PbStatus verify_run(const PbExercise *exercise, const PbHands *hands, uint64_t seed,
                    PbResult *result, double leak75[2]);

#endif
