/* Cases behind the packing rows of `verify`, shared with tests/physics. Private to the core. */
#ifndef PACK_VERIFY_PACK_H
#define PACK_VERIFY_PACK_H

#include "sim.h"

#include "core/hands.h"
#include "core/session.h"
#include "core/verify.h"

/** The state behind a session, writable: for cases that set up what no commands can. */
PbSim *pb_verify_sim(PbSession *session);
/** Worst error over peak of gas pressure in a uniform leaky bay; leaked against blown. */
double pb_verify_darcy_fin(int cells_across, double *leak_error);
/** Worst stress error of a settled column over its peak stress. */
double pb_verify_janssen(void);
/** Worst density error of a frictionless column under its own weight. */
double pb_verify_own_weight(double *base_pa, double *base_exact_pa);
/** Mouth density at the first stall of the plain run, and by the closed form. */
double pb_verify_stall(double *formula_kg_m3);
/** One whole run; leak75 (empty, packed, m3/(s m2) at 75 Pa) may be NULL. */
PbStatus pb_verify_run(const PbExercise *exercise, const PbHands *hands, uint64_t seed,
                       PbResult *result, double leak75[2]);

#endif
