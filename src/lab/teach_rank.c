/*
 * Twice forty techniques in the order in which a trainer would put their walls, 1 the best, equal
 * ranks equally good. Each set was ranked from what `teach --table walls` prints of it before any
 * of its runs had been given a mark, by somebody who had not written the marks but had read how
 * they are made: blind to the marks, not to the rules. Not to be mended to fit the marks.
 *
 * The first set went by what a crew and a homeowner lose:
 *   a face that is broken is below every wall that is whole;
 *   then an empty place, by how empty and how much of the wall; half a bay left out is the worst;
 *   then a wall loose all over, or a soft foot; under a plate it settles open, so it weighs more;
 *   a face loaded to nine tenths of what it should bear goes below walls that are a little soft;
 *   walls that are firm everywhere go by clogs and time, a clog (lock-out, a hose to open) before
 *   some minutes, and only then by what is left of density.
 * Rules 3 of marking were mended by it, so that it can no longer tell how good they are.
 *
 * The second set came after rules 4 were fixed, and nothing was mended by it. Its rule was written
 * down before the sheets were read, and worked out by it (the part about the mean came in when the
 * first sheet had been read, the last line after all four; no mark had been seen):
 *   a broken face is below every whole one, all of them alike;
 *   complaints first: of each eighth of the height what is missing to 48 kg/m3, half as much again
 *   under the upper plate, and twice what is missing of the mean to the target, since bags are
 *   counted; a load of nine tenths of the expected strength or more counts as 20 of these; two of
 *   them are one step, and walls on one step are equal so far;
 *   then the crew's time: the minutes of the run, six for each clog, one for each kg thrown away,
 *   to the minute; and last the softest 0.3 m, in steps of 4 kg/m3.
 */
#include "lab/teach.h"

static const TeachRanking rankings[TEACH_ORDER_BAYS] = {
    {"plain-2x4",
     0.9,
     {{9,  1,  1, 13, 16, 18, 7,  14, 7,  3,  15, 24, 21, 23, 27, 38, 35, 33, 31, 28,
       11, 17, 4, 5,  6,  19, 29, 32, 36, 22, 34, 26, 40, 20, 25, 37, 38, 30, 9,  12},
      {2, 13, 13, 5, 15, 12, 28, 16, 19, 21, 18, 38, 31, 26, 20, 35, 2,  2,  6,  7,
       8, 1,  36, 9, 22, 23, 33, 27, 40, 9,  29, 39, 9,  24, 30, 34, 37, 25, 32, 16}}},
    {"leaky-boards",
     0.9,
     {{9,  1,  1, 13, 16, 18, 1,  14, 8,  4,  15, 19, 24, 22, 27, 38, 35, 33, 31, 28,
       12, 17, 5, 6,  6,  20, 29, 32, 36, 23, 34, 26, 40, 21, 25, 37, 39, 30, 9,  11},
      {2, 9, 12, 6,  15, 11, 29, 17, 19, 21, 18, 38, 31, 26, 20, 35, 2,  2,  7,  8,
       2, 1, 36, 10, 22, 23, 32, 27, 40, 13, 28, 39, 13, 24, 30, 34, 37, 25, 33, 15}}},
    {"tight-bay",
     0.8,
     {{5, 8,  37, 37, 37, 37, 1,  3,  4,  7,  13, 16, 19, 21, 22, 34, 31, 28, 29, 27,
       6, 17, 10, 15, 12, 10, 24, 25, 32, 18, 30, 23, 36, 14, 20, 33, 35, 26, 2,  9},
      {5, 33, 16, 20, 10, 22, 23, 11, 15, 33, 14, 33, 33, 33, 33, 33, 1,  3,  17, 4,
       6, 21, 30, 7,  2,  12, 29, 26, 32, 8,  24, 31, 8,  19, 25, 28, 33, 18, 27, 13}}},
    {"wide-24",
     0.8,
     {{8,  1,  1, 11, 16, 14, 3,  10, 5,  9,  17, 19, 22, 23, 26, 39, 36, 34, 31, 30,
       11, 15, 4, 7,  6,  20, 28, 29, 35, 21, 33, 25, 40, 18, 27, 37, 38, 32, 24, 13},
      {1, 1,  9,  4,  17, 20, 26, 11, 14, 15, 13, 39, 33, 30, 24, 35, 6,  6,  18, 8,
       1, 16, 38, 19, 21, 23, 31, 29, 40, 10, 27, 36, 4,  22, 28, 32, 37, 25, 34, 11}}},
};

const TeachRanking *teach_rankings(void)
{
    return rankings;
}
