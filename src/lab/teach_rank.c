/*
 * The forty techniques in the order in which a trainer would put their walls, 1 the best, equal
 * ranks equally good. Ranked from what `teach --table walls` prints (mean, softest 0.3 m, share
 * under 48 kg/m3, load of the face, clogs, time) before any of these runs had been given a mark, by
 * somebody who had not written the marks but had read how they are made: blind to the marks, not to
 * the rules. It went by what a crew and a homeowner lose:
 *   a face that is broken is below every wall that is whole;
 *   then an empty place, by how empty and how much of the wall; half a bay left out is the worst;
 *   then a wall loose all over, or a soft foot; under a plate it settles open, so it weighs more;
 *   a face loaded to nine tenths of what it should bear goes below walls that are a little soft;
 *   walls that are firm everywhere go by clogs and time, a clog (lock-out, a hose to open) before
 *   some minutes, and only then by what is left of density.
 * Not to be mended to fit the marks.
 */
#include "lab/teach.h"

static const TeachRanking rankings[TEACH_ORDER_BAYS] = {
    {"plain-2x4", 0.9, {9,  1,  1,  13, 16, 18, 7,  14, 7,  3,  15, 24, 21, 23,
                        27, 38, 35, 33, 31, 28, 11, 17, 4,  5,  6,  19, 29, 32,
                        36, 22, 34, 26, 40, 20, 25, 37, 38, 30, 9,  12}},
    {"leaky-boards", 0.9, {9,  1,  1,  13, 16, 18, 1,  14, 8,  4,  15, 19, 24, 22,
                           27, 38, 35, 33, 31, 28, 12, 17, 5,  6,  6,  20, 29, 32,
                           36, 23, 34, 26, 40, 21, 25, 37, 39, 30, 9,  11}},
    {"tight-bay", 0.8, {5,  8,  37, 37, 37, 37, 1,  3,  4,  7,  13, 16, 19, 21,
                        22, 34, 31, 28, 29, 27, 6,  17, 10, 15, 12, 10, 24, 25,
                        32, 18, 30, 23, 36, 14, 20, 33, 35, 26, 2,  9}},
    {"wide-24", 0.8, {8,  1,  1,  11, 16, 14, 3,  10, 5,  9,  17, 19, 22, 23,
                      26, 39, 36, 34, 31, 30, 11, 15, 4,  7,  6,  20, 28, 29,
                      35, 21, 33, 25, 40, 18, 27, 37, 38, 32, 24, 13}},
};

const TeachRanking *teach_rankings(void)
{
    return rankings;
}
