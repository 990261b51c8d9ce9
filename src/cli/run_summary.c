/* What a run file says of itself, for the list of runs. */
#include "store_options.h"

#include "io/run_file.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

/* Words of the parts, in the order of PbScorePartKind. */
static const char *const part_keys[] = {"on-target", "weakest",  "years",
                                        "no-harm",   "material", "hands"};
_Static_assert(sizeof part_keys / sizeof part_keys[0] == PB_SCORE_PARTS, "one word a part");

static void fill_grade(const PbRunGrade *g, PbRunSummary *m)
{
    snprintf(m->rubric, sizeof m->rubric, "%s", g->is_given ? g->rubric : "none");
    m->total = g->is_given ? g->total : 0.0;
    m->is_pass = g->is_given && g->is_pass;
    for (int i = 0; g->is_given && i < g->part_count; i++) {
        PbPartPoints *p = &m->parts[m->part_count++];
        snprintf(p->key, sizeof p->key, "%s", part_keys[g->parts[i].kind]);
        p->points = g->parts[i].points;
        p->max = g->parts[i].max;
    }
}

PbStatus cli_summarize(const char *name, const void *bytes, size_t size, const char *now,
                       PbRunSummary *summary, PbError *err)
{
    PbRunFile run;
    PB_TRY(io_run_decode(name, bytes, size, &run, err));
    PbRunSummary *m = summary;
    memset(m, 0, sizeof *m);
    snprintf(m->exercise_id, sizeof m->exercise_id, "%s", run.exercise.id);
    snprintf(m->exercise_title, sizeof m->exercise_title, "%s", run.exercise.title);
    m->seed = run.seed;
    m->physics_version = run.physics_version;
    m->duration_s = run.last_tick * PB_TICK_S;
    m->step_mean_m = m->step_spread_m = m->dwell_mean_s = m->dwell_spread_s = -1.0;
    snprintf(m->when, sizeof m->when, "%.23s", now);
    if (run.started_unix_s > 0) {
        time_t end = (time_t)run.started_unix_s + (time_t)m->duration_s;
        struct tm t;
        gmtime_r(&end, &t);
        strftime(m->when, sizeof m->when, "%Y-%m-%dT%H:%M:%SZ", &t);
    }
    fill_grade(&run.grade, m);
    io_run_free(&run);
    return PB_OK;
}
