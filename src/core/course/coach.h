/* Private to course: what the coach judges at this moment, before it is held steady. */
#ifndef COURSE_COACH_H
#define COURSE_COACH_H

#include "core/course.h"

/* Follow the signals of this tick; the most urgent thing now. What a move did wrong is told in the
 * tick in which it ends. */
PbHint pb_coach_judge(PbCoach *c, const PbSignals *g);

#endif
