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
 *
 * The second set, with other hands, faults and another seed, was ranked after that and before any
 * of its runs had been marked, from cards with shuffled names (teach --table walls), by somebody
 * who had read nothing of marks: asked for the jobs that a trainer of crews would rather have left
 * behind, what the customer keeps before what it cost the crew.
 */
#include "lab/teach.h"

static const TeachRanking rankings[TEACH_ORDER_BAYS] = {
    {"plain-2x4",
     0.9,
     {{2, 13, 13, 5, 15, 12, 28, 16, 19, 21, 18, 38, 31, 26, 20, 35, 2,  2,  6,  7,
       8, 1,  36, 9, 22, 23, 33, 27, 40, 9,  29, 39, 9,  24, 30, 34, 37, 25, 32, 16},
      {1, 1,  13, 6,  18, 27, 34, 16, 17, 10, 40, 35, 36, 31, 4, 5,  14, 8,  15, 7,
       3, 19, 22, 29, 38, 37, 24, 39, 22, 30, 26, 32, 33, 28, 9, 11, 25, 21, 20, 12}}},
    {"leaky-boards",
     0.9,
     {{2, 9, 12, 6,  15, 11, 29, 17, 19, 21, 18, 38, 31, 26, 20, 35, 2,  2,  7,  8,
       2, 1, 36, 10, 22, 23, 32, 27, 40, 13, 28, 39, 13, 24, 30, 34, 37, 25, 33, 15},
      {1, 1,  15, 5,  19, 27, 34, 16, 17, 10, 40, 35, 36, 31, 4, 5,  14, 8,  10, 7,
       3, 18, 22, 29, 37, 38, 22, 39, 24, 30, 25, 32, 33, 28, 9, 12, 26, 21, 20, 13}}},
    {"tight-bay",
     0.8,
     {{5, 33, 16, 20, 10, 22, 23, 11, 15, 33, 14, 33, 33, 33, 33, 33, 1,  3,  17, 4,
       6, 21, 30, 7,  2,  12, 29, 26, 32, 8,  24, 31, 8,  19, 25, 28, 33, 18, 27, 13},
      {1, 36, 10, 3,  14, 16, 24, 15, 17, 32, 28, 39, 38, 21, 9,  10, 37, 7,  13, 8,
       4, 2,  12, 20, 25, 26, 6,  27, 32, 22, 35, 34, 23, 31, 29, 5,  19, 39, 17, 30}}},
    {"wide-24",
     0.8,
     {{1, 1,  9,  4,  17, 20, 26, 11, 14, 15, 13, 39, 33, 30, 24, 35, 6,  6,  18, 8,
       1, 16, 38, 19, 21, 23, 31, 29, 40, 10, 27, 36, 4,  22, 28, 32, 37, 25, 34, 11},
      {1, 2,  8,  14, 21, 27, 32, 15, 16, 11, 40, 35, 34, 31, 3, 10, 13, 7,  17, 12,
       5, 25, 23, 28, 37, 36, 19, 39, 22, 26, 30, 33, 38, 29, 4, 9,  24, 19, 18, 5}}},
};

const TeachRanking *teach_rankings(void)
{
    return rankings;
}
