/* Between handout.c, handout_air.c, handout_bay.c, handout_label.c and handout_sources.c. */
#ifndef REPORT_HANDOUT_PRIVATE_H
#define REPORT_HANDOUT_PRIVATE_H

#include "page.h"

#include "core/house_moist.h"
#include "report/handout.h"

/* Width of a bay with its studs when it is drawn `height` points tall, plates included. */
double handout_bay_width(const PbCompare *compare, double height);
void handout_bay(const Page *page, const PbCompare *compare, PbCompareFill fill, int t, double x,
                 double top, double height);

/* One line, set smaller where it would be wider than its room. */
void handout_line(const Page *page, double x, double y, double most, const char *text, double size,
                  int bold);
/* Foot of a page of the handout. */
void handout_foot(const Page *page);
/* A new one, with its foot. */
void handout_turn(Page *page);

/* Air and moisture of the house and of each fill, screened once for all tries of a size. */
typedef struct HandoutAir {
    PbCompareAir air[PB_COMPARE_FILLS];
    PbHouseMoist moist[PB_COMPARE_FILLS];
    int warns[PB_WARNINGS];
} HandoutAir;

void handout_air_tell(const Page *page, HandoutAir *told);
double handout_air(Page *page, const HandoutAir *told, double size, int is_drawn);
/* Label and fact sheet of each kind of fill, words of the rule, the company's own notices: from
 * page->y down, as high as it answers; nothing is drawn without is_drawn. */
double handout_labels(Page *page, double size, int is_drawn);
double handout_notices(Page *page, double size, int is_drawn);
/* The pages behind the first: inputs, then constants with their sources. */
void handout_sources(Page *page);

#endif
