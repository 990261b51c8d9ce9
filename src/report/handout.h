/* Between handout.c and handout_bay.c. */
#ifndef REPORT_HANDOUT_PRIVATE_H
#define REPORT_HANDOUT_PRIVATE_H

#include "page.h"

#include "report/handout.h"

/* Width of a bay with its studs when it is drawn `height` points tall, plates included. */
double handout_bay_width(const PbCompare *compare, double height);
void handout_bay(const Page *page, const PbCompare *compare, PbCompareFill fill, int t, double x,
                 double top, double height);

#endif
