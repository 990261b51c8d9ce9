/* What the numbers of marks mean; core/marks.h. */
#include "core/marks.h"

int pb_mark_checks_skipped(double mark)
{
    int open = PB_CHECK_POINTS;
    double bits = mark - PB_MARK_CHECKLIST;
    if (!(bits >= 0.0 && bits < (double)(1 << PB_CHECK_POINTS))) {
        return 0;
    }
    for (unsigned left = (unsigned)bits; left != 0; left &= left - 1) {
        open--;
    }
    return open;
}

int pb_mark_is_power_on(double mark)
{
    return mark == PB_MARK_PLUG_POWER_ON;
}

int pb_mark_graded_sight(double mark)
{
    double sight = mark - PB_MARK_GRADED;
    return sight == 0.0 || sight == 1.0 || sight == 2.0 ? (int)sight : -1;
}
