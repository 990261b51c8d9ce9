/*
 * Twice forty techniques in the order in which a trainer would put their walls, 1 the best, equal
 * ranks equally good. Not to be mended to fit the marks.
 *
 * The first set was ranked before any of its runs had been given a mark, by somebody who had read
 * how marks are made, by a rule that was written down first: complaints (what each eighth of the
 * height lacks to 48 kg/m3, half as much again under the upper plate, and twice what the mean lacks
 * to the target; a load of nine tenths counts as 20 of these), in steps of two; then the minutes,
 * six for each clog and one for each kg thrown away; last the softest 0.3 m, in steps of 4 kg/m3.
 * Rules 5 of marking were mended by where they disagreed with it, each time for a reason of the
 * trade, so that it can no longer tell how good they are.
 */
#include "lab/teach.h"

static const TeachRanking rankings[TEACH_ORDER_BAYS] = {
    {"plain-2x4",
     0.9,
     {{2, 13, 13, 5, 15, 12, 28, 16, 19, 21, 18, 38, 31, 26, 20, 35, 2,  2,  6,  7,
       8, 1,  36, 9, 22, 23, 33, 27, 40, 9,  29, 39, 9,  24, 30, 34, 37, 25, 32, 16}}},
    {"leaky-boards",
     0.9,
     {{2, 9, 12, 6,  15, 11, 29, 17, 19, 21, 18, 38, 31, 26, 20, 35, 2,  2,  7,  8,
       2, 1, 36, 10, 22, 23, 32, 27, 40, 13, 28, 39, 13, 24, 30, 34, 37, 25, 33, 15}}},
    {"tight-bay",
     0.8,
     {{5, 33, 16, 20, 10, 22, 23, 11, 15, 33, 14, 33, 33, 33, 33, 33, 1,  3,  17, 4,
       6, 21, 30, 7,  2,  12, 29, 26, 32, 8,  24, 31, 8,  19, 25, 28, 33, 18, 27, 13}}},
    {"wide-24",
     0.8,
     {{1, 1,  9,  4,  17, 20, 26, 11, 14, 15, 13, 39, 33, 30, 24, 35, 6,  6,  18, 8,
       1, 16, 38, 19, 21, 23, 31, 29, 40, 10, 27, 36, 4,  22, 28, 32, 37, 25, 34, 11}}},
};

const TeachRanking *teach_rankings(void)
{
    return rankings;
}
