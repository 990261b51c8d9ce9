/* Forty techniques of this project, in words and as hands. Written before any of them was marked;
 * the rankings are in teach_rank.c. */
#include "lab/teach.h"

/* What a row does not say is as in teach_textbook. */
typedef struct Change {
    const char *name, *words;
    TeachHabits set; /* 0: as the textbook has it */
    int is_steady;   /* leaves the blower alone when the wall creaks */
    int is_at_once;  /* wait_s is 0 */
} Change;

static const Change changes[TEACH_TECHNIQUES] = {
    {.name = "one foot, 2 s",
     .words = "one foot back two seconds after each stall, blower down while the wall creaks"},
    {.name = "one foot, at once",
     .words = "one foot back as soon as the flow dies",
     .is_at_once = 1},
    {.name = "one foot, 1 s",
     .words = "one foot back a second after the stall, the blower left alone",
     .set = {.wait_s = 1.0},
     .is_steady = 1},
    {.name = "one foot, 4 s",
     .words = "one foot back four seconds after the stall",
     .set = {.wait_s = 4.0},
     .is_steady = 1},
    {.name = "one foot, 8 s",
     .words = "one foot back eight seconds after the stall",
     .set = {.wait_s = 8.0},
     .is_steady = 1},
    {.name = "one foot, 14 s",
     .words = "stays fourteen seconds after each stall",
     .set = {.wait_s = 14.0},
     .is_steady = 1},
    {.name = "half foot, 1 s",
     .words = "half a foot back a second after the stall",
     .set = {.step_m = 0.15, .wait_s = 1.0}},
    {.name = "half foot, 3 s",
     .words = "half a foot back three seconds after the stall",
     .set = {.step_m = 0.15, .wait_s = 3.0}},
    {.name = "8 in, 1 s",
     .words = "eight inches back a second after the stall",
     .set = {.step_m = 0.2, .wait_s = 1.0}},
    {.name = "16 in, 2 s",
     .words = "sixteen inches back two seconds after the stall",
     .set = {.step_m = 0.41}},
    {.name = "two feet, 2 s",
     .words = "two feet back two seconds after the stall",
     .set = {.step_m = 0.61}},
    {.name = "two feet, 6 s",
     .words = "two feet back six seconds after the stall",
     .set = {.step_m = 0.61, .wait_s = 6.0}},
    {.name = "three feet, 2 s",
     .words = "three feet back two seconds after the stall",
     .set = {.step_m = 0.91}},
    {.name = "three feet, 6 s",
     .words = "three feet back six seconds after the stall",
     .set = {.step_m = 0.91, .wait_s = 6.0}},
    {.name = "four feet, 2 s",
     .words = "four feet back two seconds after the stall",
     .set = {.step_m = 1.22}},
    {.name = "clock 5 s",
     .words = "a foot back every five seconds, stall or not",
     .set = {.clock_s = 5.0},
     .is_steady = 1},
    {.name = "clock 9 s",
     .words = "a foot back every nine seconds",
     .set = {.clock_s = 9.0},
     .is_steady = 1},
    {.name = "clock 14 s",
     .words = "a foot back every fourteen seconds",
     .set = {.clock_s = 14.0},
     .is_steady = 1},
    {.name = "clock 20 s",
     .words = "a foot back every twenty seconds",
     .set = {.clock_s = 20.0},
     .is_steady = 1},
    {.name = "clock 14 s, half foot",
     .words = "half a foot back every fourteen seconds",
     .set = {.clock_s = 14.0, .step_m = 0.15},
     .is_steady = 1},
    {.name = "gate wide",
     .words = "the gate a third wider than set, one foot, two seconds",
     .set = {.feed_share = 1.33}},
    {.name = "gate wide, 6 s",
     .words = "the gate a third wider than set, six seconds after each stall",
     .set = {.feed_share = 1.33, .wait_s = 6.0}},
    {.name = "gate half",
     .words = "the gate at half, one foot, two seconds",
     .set = {.feed_share = 0.5}},
    {.name = "gate third",
     .words = "the gate at a third, one foot, two seconds",
     .set = {.feed_share = 0.33}},
    {.name = "gate third, half foot",
     .words = "the gate at a third, half a foot",
     .set = {.feed_share = 0.33, .step_m = 0.15, .wait_s = 1.0}},
    {.name = "blower 90 %",
     .words = "the blower at 90 %, one foot, two seconds",
     .set = {.blower = 0.9}},
    {.name = "blower 80 %",
     .words = "the blower at 80 %, one foot, two seconds",
     .set = {.blower = 0.8}},
    {.name = "blower 70 %, lean",
     .words = "the blower at 70 % and the gate at half",
     .set = {.blower = 0.7, .feed_share = 0.5}},
    {.name = "blower 60 %",
     .words = "the blower at 60 %, one foot, two seconds",
     .set = {.blower = 0.6}},
    {.name = "starts 1 ft low",
     .words = "first stop a foot and a half under the upper plate",
     .set = {.far_m = 0.45}},
    {.name = "starts 2 ft low",
     .words = "first stop two feet and a half under the upper plate",
     .set = {.far_m = 0.75}},
    {.name = "short end left out",
     .words = "never turns the tube: the short end is not worked",
     .set = {.ends = TEACH_FAR}},
    {.name = "long end left out", .words = "works the short end only", .set = {.ends = TEACH_NEAR}},
    {.name = "short end from afar",
     .words = "first stop at the short end a foot away from the plate",
     .set = {.near_m = 0.35}},
    {.name = "mishears now and then",
     .words = "takes a lull for the stall once in two minutes",
     .set = {.misheard_per_s = 0.008}},
    {.name = "mishears often",
     .words = "takes a lull for the stall once in thirty seconds",
     .set = {.misheard_per_s = 0.033}},
    {.name = "mishears always",
     .words = "takes a lull for the stall once in ten seconds",
     .set = {.misheard_per_s = 0.1, .wait_s = 0.5}},
    {.name = "gives up at 20 s",
     .words = "gives each stop up after twenty seconds",
     .set = {.patience_s = 20.0}},
    {.name = "gives up at 45 s",
     .words = "gives each stop up after three quarters of a minute",
     .set = {.patience_s = 45.0}},
    {.name = "uneven hands",
     .words = "steps of a foot with four inches of scatter, a second and a half late at times",
     .set = {.step_sd_m = 0.1, .wait_sd_s = 1.0, .react_s = 0.5, .late_share = 0.2, .late_s = 6.0}},
};

static double or_book(double set, double book)
{
    return set > 0.0 ? set : book;
}

static TeachHabits changed(const Change *c)
{
    TeachHabits h = teach_textbook();
    const TeachHabits *s = &c->set;
    h.step_m = or_book(s->step_m, h.step_m);
    h.wait_s = c->is_at_once ? 0.0 : or_book(s->wait_s, h.wait_s);
    h.feed_share = or_book(s->feed_share, h.feed_share);
    h.blower = or_book(s->blower, h.blower);
    h.far_m = or_book(s->far_m, h.far_m);
    h.near_m = or_book(s->near_m, h.near_m);
    h.ends = s->ends > 0 ? s->ends : h.ends;
    h.eases = !c->is_steady;
    h.step_sd_m = s->step_sd_m;
    h.wait_sd_s = s->wait_sd_s;
    h.clock_s = s->clock_s;
    h.misheard_per_s = s->misheard_per_s;
    h.late_share = s->late_share;
    h.late_s = s->late_s;
    h.react_s = s->react_s;
    h.patience_s = s->patience_s;
    return h;
}

TeachTechnique teach_technique(int index)
{
    const Change *c = &changes[index];
    return (TeachTechnique){c->name, c->words, changed(c)};
}
