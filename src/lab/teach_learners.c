/* Ten kinds of beginner, each with one habit that is wrong, who read what the result says to try
 * next and change that habit and no other. How far one reading changes a habit is an assumption;
 * which habit, is the program's. */
#include "lab/teach.h"

#include "io/parallel.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SEEDS = 4 };

static const double FOOT_M = 0.30;
static const double CONTENT_WITH = 90.0; /* a pass with so many points ends the lessons */
static const double MOST_STEP_M = 2.0;   /* by lot: the bay is not longer */
static const double MORE_BLOWER = 0.2, LESS_GATE = 0.8, LESS_STEP = 0.85;

/* Somebody new to it, with the habits of the textbook: a second of scatter, a pull off by an inch
 * and a half, every second a small chance of hearing a stall that is none. */
static TeachHabits newcomer(void)
{
    TeachHabits h = teach_textbook();
    h.step_sd_m = 0.04;
    h.wait_sd_s = 0.5;
    h.react_s = 0.4;
    h.misheard_per_s = 0.002;
    h.late_share = 0.05;
    h.late_s = 6.0;
    h.eases = 0;
    return h;
}

TeachKind teach_kind(int index)
{
    TeachHabits h = newcomer();
    switch (index) {
    case 0:
        h.step_m = 0.9;
        return (TeachKind){"long steps", "pulls three feet at a time", h};
    case 1:
        h.clock_s = 5.0;
        return (TeachKind){"by the clock", "pulls every five seconds and listens to nothing", h};
    case 2:
        h.misheard_per_s = 0.12;
        h.wait_s = 0.3;
        return (TeachKind){"leaves early", "goes at the first lull, stall or not", h};
    case 3:
        h.wait_s = 14.0;
        return (TeachKind){"waits too long", "stays fourteen seconds after each stall", h};
    case 4:
        h.feed_share = 1.35;
        return (TeachKind){"gate too rich", "opens the feed gate almost fully", h};
    case 5:
        h.feed_share = 0.33;
        h.patience_s = 25.0;
        return (TeachKind){"gate too lean", "a third of the feed, and no patience for it", h};
    case 6:
        h.blower = 0.6;
        return (TeachKind){"blower too low", "sets the blower to 60 %", h};
    case 7:
        h.far_m = 0.8;
        return (TeachKind){"upper end missed", "starts two feet and a half under the plate", h};
    case 8:
        h.ends = TEACH_FAR;
        return (TeachKind){"lower end missed", "never turns the tube down", h};
    default:
        h.checks_skipped = 6;
        return (TeachKind){"skips the checks", "starts without the safety checks", h};
    }
}

void teach_follow(TeachHabits *h, PbAdvice advice)
{
    switch (advice) {
    case PB_ADVICE_SHORTER_STEPS: /* most of the way to a foot; a foot becomes a little less */
        h->step_m = h->step_m > 1.1 * FOOT_M ? h->step_m - 0.7 * (h->step_m - FOOT_M)
                                             : LESS_STEP * h->step_m;
        break;
    case PB_ADVICE_WAIT:
        h->clock_s = 0.0;
        h->patience_s = 0.0;
        h->wait_s = 2.0;
        h->misheard_per_s *= 0.25; /* listens twice before believing it */
        break;
    case PB_ADVICE_MOVE_SOONER:
        h->wait_s = 2.0;
        break;
    case PB_ADVICE_LESS_BLOWER:
        h->eases = 1;
        h->wait_s *= 0.6;
        break;
    case PB_ADVICE_LESS_FEED:
        h->feed_share *= LESS_GATE;
        break;
    case PB_ADVICE_MORE_MATERIAL:
        h->step_m *= LESS_STEP;
        h->misheard_per_s *= 0.5;
        h->clock_s = 0.0;
        break;
    case PB_ADVICE_REACH_ENDS:
        h->ends = TEACH_FAR | TEACH_NEAR;
        h->far_m = fmin(h->far_m, 0.2);
        h->near_m = fmin(h->near_m, 0.15);
        break;
    case PB_ADVICE_END_LONGER:
        h->end_wait_s += 2.0;
        h->far_m = fmin(h->far_m, 0.12);
        h->near_m = fmin(h->near_m, 0.12);
        break;
    case PB_ADVICE_MORE_AIR:
        h->blower = fmin(1.0, h->blower + MORE_BLOWER);
        break;
    case PB_ADVICE_SAFETY:
        h->checks_skipped = 0;
        break;
    default: /* nothing that these hands could change */
        break;
    }
}

/* The contrary of an advice, by as much as following it changes the habit. */
static void go_against(TeachHabits *h, PbAdvice advice)
{
    switch (advice) {
    case PB_ADVICE_SHORTER_STEPS:
        h->step_m = fmin(h->step_m > 1.1 * FOOT_M ? FOOT_M + (h->step_m - FOOT_M) / 0.3
                                                  : h->step_m / LESS_STEP,
                         MOST_STEP_M);
        break;
    case PB_ADVICE_WAIT:
        h->wait_s *= 0.5;
        h->misheard_per_s /= 0.25;
        break;
    case PB_ADVICE_MOVE_SOONER:
        h->wait_s *= 3.0;
        break;
    case PB_ADVICE_LESS_BLOWER:
        h->eases = 0;
        h->wait_s /= 0.6;
        break;
    case PB_ADVICE_LESS_FEED:
        h->feed_share /= LESS_GATE;
        break;
    case PB_ADVICE_MORE_MATERIAL:
        h->step_m = fmin(h->step_m / LESS_STEP, MOST_STEP_M);
        h->misheard_per_s /= 0.5;
        break;
    case PB_ADVICE_REACH_ENDS:
        h->far_m += 0.3;
        h->near_m += 0.15;
        break;
    case PB_ADVICE_END_LONGER:
        h->end_wait_s = fmax(0.0, h->end_wait_s - 2.0);
        h->far_m += 0.08;
        h->near_m += 0.03;
        break;
    case PB_ADVICE_MORE_AIR:
        h->blower = fmax(0.0, h->blower - MORE_BLOWER);
        break;
    default:
        h->checks_skipped = 1;
        break;
    }
}

/* What the control does: one habit drawn by lot, changed one way or the other, by lot. Advice that
 * is right whenever it is about the habit in question would be half of the teaching. */
static PbAdvice by_lot(TeachHabits *h, PbRng *rng)
{
    static const PbAdvice any[] = {PB_ADVICE_SHORTER_STEPS, PB_ADVICE_WAIT,
                                   PB_ADVICE_MOVE_SOONER,   PB_ADVICE_LESS_BLOWER,
                                   PB_ADVICE_LESS_FEED,     PB_ADVICE_MORE_MATERIAL,
                                   PB_ADVICE_REACH_ENDS,    PB_ADVICE_END_LONGER,
                                   PB_ADVICE_MORE_AIR,      PB_ADVICE_SAFETY};
    PbAdvice advice = any[pb_rng_next(rng) % (sizeof any / sizeof any[0])];
    if (pb_rng_uniform(rng) < 0.5) {
        teach_follow(h, advice);
    } else {
        go_against(h, advice);
    }
    return advice;
}

PbStatus teach_learn(const TeachBay *bay, const TeachHabits *start, uint64_t seed, int is_random,
                     TeachCourse *course)
{
    TeachHabits h = *start;
    PbRng lot = pb_rng_make(seed, 72);
    TeachRun *run = malloc(sizeof *run);
    if (run == NULL) {
        return PB_ERR_MEMORY;
    }
    PbStatus status = PB_OK;
    memset(course, 0, sizeof *course);
    int is_content = 0;
    while (status == PB_OK && course->runs < TEACH_RUNS && !is_content) {
        int i = course->runs;
        status = teach_run(&bay->exercise, &bay->climate, &h, 100 * seed + (uint64_t)i, 0, run);
        if (status == PB_OK) {
            course->runs++;
            course->marks[i] = run->score.total;
            course->softest_kg_m3[i] = run->softest_kg_m3;
            if (run->score.is_pass && course->passed_at == 0) {
                course->passed_at = i + 1;
            }
            is_content = run->score.is_pass && (is_random || run->score.total >= CONTENT_WITH ||
                                                run->debrief.next == PB_ADVICE_KEEP);
            course->advice[i] = is_random ? by_lot(&h, &lot) : run->debrief.next;
            if (!is_random) {
                teach_follow(&h, course->advice[i]);
            }
        }
    }
    free(run);
    return status;
}

typedef struct Pupil {
    const TeachBay *bay;
    TeachHabits habits;
    uint64_t seed;
    int is_random;
    TeachCourse course;
    PbStatus status;
} Pupil;

static void teach_pupil(void *pupils, int index)
{
    Pupil *p = (Pupil *)pupils + index;
    p->status = teach_learn(p->bay, &p->habits, p->seed, p->is_random, &p->course);
}

static const char *advice_name(PbAdvice a)
{
    static const char *const names[PB_ADVICE_LIMIT] = {
        [PB_ADVICE_KEEP] = "keep",
        [PB_ADVICE_SHORTER_STEPS] = "shorter steps",
        [PB_ADVICE_WAIT] = "wait",
        [PB_ADVICE_MOVE_SOONER] = "move sooner",
        [PB_ADVICE_LESS_BLOWER] = "less blower",
        [PB_ADVICE_LESS_FEED] = "less feed",
        [PB_ADVICE_GATE_FIRST] = "gate first",
        [PB_ADVICE_MORE_MATERIAL] = "more stops",
        [PB_ADVICE_COUNT_BAGS] = "count bags",
        [PB_ADVICE_BEGIN] = "begin",
        [PB_ADVICE_LEAVE_IT] = "leave it",
        [PB_ADVICE_REACH_ENDS] = "both ends",
        [PB_ADVICE_MORE_AIR] = "more air",
        [PB_ADVICE_SAFETY] = "checks",
        [PB_ADVICE_WEAK_FACE] = "weak face",
        [PB_ADVICE_MEND_MACHINE] = "mend machine",
        [PB_ADVICE_OWN_HOLE] = "own hole",
        [PB_ADVICE_END_LONGER] = "ends longer",
    };
    return names[a];
}

/* Runs until the pass of the middle one of `count` pupils; 0 = not within TEACH_RUNS. */
static int median_pass(const Pupil *p, int count)
{
    for (int runs = 1; runs <= TEACH_RUNS; runs++) {
        int passed = 0;
        for (int i = 0; i < count; i++) {
            passed += p[i].course.passed_at > 0 && p[i].course.passed_at <= runs;
        }
        if (2 * passed > count) {
            return runs;
        }
    }
    return 0;
}

static int passed_of(const Pupil *p, int count)
{
    int passed = 0;
    for (int i = 0; i < count; i++) {
        passed += p[i].course.passed_at > 0;
    }
    return passed;
}

static double mean_mark(const Pupil *p, int count, int is_last)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += p[i].course.marks[is_last ? p[i].course.runs - 1 : 0];
    }
    return sum / count;
}

static void print_trail(const TeachCourse *c)
{
    for (int i = 0; i < c->runs; i++) {
        printf("%s%.0f", i > 0 ? ", " : "", floor(c->marks[i]));
        if (i + 1 < c->runs) {
            printf(" %s", advice_name(c->advice[i]));
        }
    }
}

static void print_kind(int kind, const Pupil *taught, const Pupil *lot, int seeds)
{
    int runs = median_pass(taught, seeds), by_chance = median_pass(lot, seeds);
    printf("| %s | ", teach_kind(kind).name);
    if (runs > 0) {
        printf("%d | ", runs);
    } else {
        printf("never | ");
    }
    printf("%d of %d | ", passed_of(taught, seeds), seeds);
    if (by_chance > 0) {
        printf("%d | ", by_chance);
    } else {
        printf("never | ");
    }
    printf("%d of %d | %.0f to %.0f | ", passed_of(lot, seeds), seeds, mean_mark(taught, seeds, 0),
           mean_mark(taught, seeds, 1));
    print_trail(&taught[0].course);
    printf(" |\n");
}

PbStatus teach_print_learners(const TeachSetup *setup, PbError *err)
{
    TeachBay bay;
    int seeds = setup->seeds > 0 ? setup->seeds : SEEDS, count = 2 * TEACH_KINDS * seeds;
    IoParallel crew = io_parallel_default();
    crew.threads = setup->threads > 0 ? setup->threads : crew.threads;
    PB_TRY(teach_bay(setup->assets, "plain-2x4", &bay, err));
    Pupil *p = calloc((size_t)count, sizeof *p);
    if (p == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    for (int i = 0; i < count; i++) {
        int kind = i / (2 * seeds), seed = i % seeds;
        p[i] = (Pupil){.bay = &bay,
                       .habits = teach_kind(kind).habits,
                       .seed = (uint64_t)(10 * kind + seed + 1),
                       .is_random = i % (2 * seeds) >= seeds};
    }
    io_parallel_for(&crew, count, teach_pupil, p);
    PbStatus status = PB_OK;
    for (int i = 0; i < count; i++) {
        status = p[i].status != PB_OK ? p[i].status : status;
    }
    printf("| kind of beginner | runs to a pass | passed | by lot: runs | passed | mark, first to "
           "last | one of them |\n|---|---|---|---|---|---|---|\n");
    for (int k = 0; k < TEACH_KINDS && status == PB_OK; k++) {
        print_kind(k, p + 2 * k * seeds, p + (2 * k + 1) * seeds, seeds);
    }
    free(p);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "a run did not come to its end");
}
