/* The summary of a run: who looks at a list of thousands of runs replays none of them. */
#include "io/run_summary.h"

#include "core/marks.h"
#include "io/clock.h"
#include "io/exercise_file.h"
#include "io/score_words.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

typedef struct Spread {
    double sum, squares;
    int n;
} Spread;

static void take(Spread *s, double value)
{
    s->sum += value;
    s->squares += value * value;
    s->n++;
}

static double mean_of(const Spread *s)
{
    return s->n > 0 ? s->sum / s->n : -1.0;
}

static double deviation_of(const Spread *s)
{
    if (s->n < 2) {
        return -1.0;
    }
    double mean = s->sum / s->n;
    double variance = (s->squares - s->n * mean * mean) / (s->n - 1);
    return sqrt(variance > 0.0 ? variance : 0.0);
}

void io_summary_hands(const PbLift *lifts, int count, const PbScoreWatch *watch,
                      const PbRubric *rubric, PbRunSummary *m)
{
    assert(watch != NULL && m != NULL);
    assert(count == 0 || lifts != NULL);
    Spread step = {0}, dwell = {0};
    for (int i = 0; i < count; i++) {
        const PbLift *l = &lifts[i];
        if (!pb_is_stop(l, rubric)) {
            continue;
        }
        if (l->step_m > 0.0) {
            take(&step, l->step_m);
        }
        double left = l->to_s;
        if (i < PB_SCORE_MAX_LIFTS && watch->lifts[i].left_s > 0.0) {
            left = watch->lifts[i].left_s;
        }
        if (l->stall_s >= 0.0 && left >= l->stall_s) {
            take(&dwell, left - l->stall_s);
        }
    }
    m->step_mean_m = mean_of(&step);
    m->step_spread_m = deviation_of(&step);
    m->dwell_mean_s = mean_of(&dwell);
    m->dwell_spread_s = deviation_of(&dwell);
}

static void set_part(PbPartPoints *p, PbScorePartKind kind, double points, double max)
{
    snprintf(p->key, sizeof p->key, "%s", io_part_key(kind));
    p->points = points;
    p->max = max;
}

_Static_assert((int)PB_SCORE_PARTS <= PB_SUMMARY_PARTS, "every part has room");

int io_part_points(const PbScore *score, PbPartPoints parts[PB_SUMMARY_PARTS])
{
    assert(score != NULL && parts != NULL);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        const PbScorePart *p = &score->parts[i];
        set_part(&parts[i], p->kind, p->points, p->max);
    }
    return PB_SCORE_PARTS;
}

static void fill_grade(const PbWatched *watched, PbRunSummary *m)
{
    if (watched == NULL ||
        !watched->has_score) { /* it was left: it stands in the lists without a grade */
        m->state = PB_RUN_LEFT;
        snprintf(m->rubric, sizeof m->rubric, "none");
        return;
    }
    memcpy(m->rubric, watched->rubric.name, sizeof m->rubric);
    m->total = watched->score.total;
    m->is_pass = watched->score.is_pass;
    m->part_count = io_part_points(&watched->score, m->parts);
}

_Static_assert(sizeof((PbRunSummary *)0)->rubric == sizeof((PbRubric *)0)->name, "same length");

int io_run_ended(const PbRunFile *run, char out[24])
{
    assert(run != NULL && out != NULL);
    int64_t lasted_s = (int64_t)(run->last_tick * PB_TICK_S);
    int64_t ended_s = run->ended_unix_s;
    out[0] = '\0';
    if (ended_s <= 0 && run->started_unix_s > 0 && run->started_unix_s <= INT64_MAX - lasted_s) {
        ended_s = run->started_unix_s + lasted_s;
    }
    return ended_s > 0 && io_utc(ended_s, out);
}

/* Days from 1970-01-01, Gregorian calendar. Years begin in March here, so that the leap day is
 * their last; POSIX before 2024 has no inverse of gmtime. */
static int64_t days_since_1970(int year, int month, int day)
{
    int64_t y = month > 2 ? year : year - 1, m = (month + 9) % 12;
    return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + day - 1 - 719468;
}

int io_local_time(const char *utc, char out[24])
{
    assert(utc != NULL && out != NULL);
    int year, month, day, hour, minute, second, used = 0;
    struct tm t;
    out[0] = '\0';
    if (sscanf(utc, "%4d-%2d-%2dT%2d:%2d:%2dZ%n", &year, &month, &day, &hour, &minute, &second,
               &used) != 6 ||
        used != 20 || utc[used] != '\0' || year < 1 || month < 1 || month > 12 || day < 1 ||
        day > 31 || hour < 0 || hour > 23 || minute < 0 || minute > 59 || second < 0 ||
        second > 60) {
        return 0;
    }
    time_t at =
        (time_t)(days_since_1970(year, month, day) * 86400 + hour * 3600 + minute * 60 + second);
    return localtime_r(&at, &t) != NULL && strftime(out, 24, "%Y-%m-%d %H:%M", &t) > 0;
}

void io_run_summary(const PbRunFile *run, const PbWatched *watched, const char *now,
                    PbRunSummary *m)
{
    assert(run != NULL && m != NULL);
    memset(m, 0, sizeof *m);
    snprintf(m->exercise_id, sizeof m->exercise_id, "%s", run->exercise.id);
    snprintf(m->exercise_title, sizeof m->exercise_title, "%s", run->exercise.title);
    m->seed = run->seed;
    m->physics_version = run->physics_version;
    m->duration_s = run->last_tick * PB_TICK_S;
    m->exercise_hash = io_exercise_hash(&run->exercise);
    m->has_claim = run->grade.is_given;
    m->claimed_total = run->grade.is_given ? run->grade.total : 0.0;
    m->claimed_pass = run->grade.is_given && run->grade.is_pass;
    m->is_scripted = pb_run_is_scripted(run);
    m->breaks = pb_run_breaks(run);
    /* times of one form compare as text; a clock that was set back ends no run in the future */
    if (!io_run_ended(run, m->when) || strcmp(m->when, now) > 0) {
        snprintf(m->when, sizeof m->when, "%.23s", now);
    }
    m->step_mean_m = m->step_spread_m = m->dwell_mean_s = m->dwell_spread_s = -1.0;
    if (watched != NULL) {
        const PbView *view = pb_session_view(watched->session);
        io_summary_hands(view->lifts, view->lift_count, &watched->watch, &watched->rubric, m);
    }
    fill_grade(watched, m);
}
