/* Run files into the store: the one just recorded, and those that a crash left behind. */
#include "records.h"

#include "io/doc.h"
#include "io/run_file.h"

#include <dirent.h>
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* Words of the parts, in the order of PbScorePartKind. */
static const char *const part_keys[] = {"on-target", "weakest",  "years",
                                        "no-harm",   "material", "hands"};
_Static_assert(sizeof part_keys / sizeof part_keys[0] == PB_SCORE_PARTS, "one word a part");

static void grade_of(const PbRunGrade *g, PbRunSummary *m)
{
    snprintf(m->rubric, sizeof m->rubric, "%.47s", g->is_given ? g->rubric : "none");
    m->total = g->is_given ? g->total : 0.0;
    m->is_pass = g->is_given && g->is_pass;
    for (int i = 0; g->is_given && i < g->part_count; i++) {
        PbPartPoints *p = &m->parts[m->part_count++];
        snprintf(p->key, sizeof p->key, "%s", part_keys[g->parts[i].kind]);
        p->points = g->parts[i].points;
        p->max = g->parts[i].max;
    }
}

static void summary_of(const PbRunFile *run, PbRunSummary *m)
{
    memset(m, 0, sizeof *m);
    snprintf(m->exercise_id, sizeof m->exercise_id, "%s", run->exercise.id);
    snprintf(m->exercise_title, sizeof m->exercise_title, "%s", run->exercise.title);
    m->seed = run->seed;
    m->physics_version = run->physics_version;
    m->duration_s = run->last_tick * PB_TICK_S;
    m->step_mean_m = m->step_spread_m = m->dwell_mean_s = m->dwell_spread_s = -1.0;
    records_now(m->when);
    if (run->started_unix_s > 0) {
        time_t end = (time_t)run->started_unix_s + (time_t)m->duration_s;
        struct tm t;
        gmtime_r(&end, &t);
        strftime(m->when, sizeof m->when, "%Y-%m-%dT%H:%M:%SZ", &t);
    }
    grade_of(&run->grade, m);
}

PbStatus records_take(Records *r, int64_t learner_id, const char *name, const void *bytes,
                      size_t size, PbError *err)
{
    PbRunFile run;
    PbRunSummary summary;
    char when[24];
    int64_t id = 0;
    PB_TRY(io_run_decode(name, bytes, size, &run, err));
    summary_of(&run, &summary);
    io_run_free(&run);
    records_now(when);
    return store_run_add(r->store, learner_id, bytes, size, &summary, when, &id, err);
}

/* Names are LEARNER-TIME-NUMBER-PROCESS.run; a process that still lives is writing its own. */
static int is_left_behind(const char *name, long long *learner)
{
    long process = 0;
    int number = 0, end = 0;
    if (sscanf(name, "%lld-%*17[0-9TZ]-%d-%ld.run%n", learner, &number, &process, &end) != 3 ||
        end == 0 || name[end] != '\0' || process <= 0 || process == (long)getpid()) {
        return 0;
    }
    return kill((pid_t)process, 0) != 0 && errno == ESRCH;
}

void records_gather(Records *r, const char *folder)
{
    DIR *dir = opendir(folder);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        char path[1000], *text = NULL;
        size_t size = 0;
        long long learner = 0;
        PbError err = {0};
        if (!is_left_behind(entry->d_name, &learner) ||
            snprintf(path, sizeof path, "%s/%s", folder, entry->d_name) >= (int)sizeof path ||
            io_read_file(path, IO_RUN_MAX_BYTES, &text, &size, &err) != PB_OK) {
            continue;
        }
        if (records_take(r, learner, path, text, size, &err) == PB_OK) {
            unlink(path);
            fprintf(stderr, "pullback: a run that was cut off is kept now (%s)\n", entry->d_name);
        }
        free(text);
    }
    if (dir != NULL) {
        closedir(dir);
    }
}
