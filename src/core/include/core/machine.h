/**
 * @file machine.h
 * @brief A blowing machine as it was measured: its curve from points, and what a machine file
 * holds.
 *
 * The run itself knows P = static (1 - (Q/open)^b), of core/exercise.h: three numbers that three or
 * more points of pressure against flow give by least squares.
 */
#ifndef CORE_MACHINE_H
#define CORE_MACHINE_H

#include "core/exercise.h"
#include "core/format_rows.h"

#define PB_CURVE_POINTS 16

/** What a gauge and an orifice plate show at one throttle, the feed off. */
typedef struct PbCurvePoint {
    double flow_m3_s, pa;
} PbCurvePoint;

/** A machine by name. Plain value. */
typedef struct PbRig {
    char id[48];
    char title[96];
    PbMachine machine;
    double feed_kg_s; /**< gate setting that a run starts with */
} PbRig;

/** @brief The machine of the plain exercise. */
PbRig pb_rig_default(void);
/** @brief Numbers of PbRig outside its lists; ranges are those of the exercise. */
const PbNumberRow *pb_rig_rows(size_t *count);
/**
 * @brief What leaks through the airlock never reaches the hose: points taken before it lose that.
 * An orifice: flow goes with the root of pressure.
 * @param[in] leak_m3_s at `at_pa`
 */
void pb_curve_less_leak(PbCurvePoint *points, int count, double leak_m3_s, double at_pa);
/**
 * @brief Static pressure, open flow and exponent from points, in any order.
 * @param[in]  count   3 to PB_CURVE_POINTS
 * @param[out] machine the three numbers alone are set; untouched unless PB_OK
 * @param[out] worst   the point that the sentence is about; -1 = all of them. May not be NULL
 * @return PB_OK; PB_ERR_RANGE: no falling curve, farther than 6 % of the static pressure from a
 *         point, or numbers that no exercise takes
 */
PB_NODISCARD PbStatus pb_curve_fit(const PbCurvePoint *points, int count, PbMachine *machine,
                                   int *worst, PbError *err);
/** @brief Pressure of the curve at a flow, Pa. */
double pb_curve_pa(const PbMachine *machine, double flow_m3_s);

#endif
