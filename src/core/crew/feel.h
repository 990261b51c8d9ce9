/* The wall as hand, rod, saw and tube meet it. The only part of the crew that looks at the framing
 * itself. */
#ifndef CREW_FEEL_H
#define CREW_FEEL_H

#include "core/crew.h"

/* What a tap at a point sounds like; the caller has blurred the point. */
PbFeel pb_feel_tap(const PbFraming *f, double x_m, double y_m);
/* Layers along a rod, and what stopped it. */
void pb_feel_rod(const PbFraming *f, const PbCrewAct *act, PbCrewAnswer *out);
/* Is there a cable within the reach of a contactless tester? */
int pb_feel_wire(const PbFraming *f, double x_m, double y_m);
/* What a saw of that bore meets; PB_FEEL_NOTHING = the hole opens a bay. */
PbFeel pb_feel_saw(const PbFraming *f, double x_m, double y_m, double bore_m);
/* How far a tube gets from a hole, and what stops it; PB_FEEL_NOTHING = its own end. */
PbFeel pb_feel_tube(const PbFraming *f, const PbCrewHole *hole, int is_up, double *reach_m);
/* What a camera shows of the wall, to the step of its picture. */
int pb_feel_shades(const PbFraming *f, PbCrewShade *shades);
/* Word of the cut-out, cover or edge at a point where nobody taps or drills; NULL = wall. */
const char *pb_feel_cover(const PbCrew *crew, double x_m, double y_m);

#endif
