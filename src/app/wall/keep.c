/* A job is kept act by act, so that whatever ends the program takes no more than the act under way;
 * a bay that a person packs is a run, kept as all runs are. Taken up again, acts are done anew,
 * what a person packed is played from its run, and what the crew packed is packed again to the same
 * bits. Without a learner nothing is kept, as everywhere. */
#include "wall/wall.h"

#include "io/clock.h"
#include "io/job_file.h"
#include "store/jobs.h"
#include "store/runs.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void not_kept(App *app, const PbError *err)
{
    app->wall->kept_id = -1;
    app_notice(app, _("This job is not kept"), err->message, 0, 10);
}

void wall_keep_acts(App *app)
{
    Wall *w = app->wall;
    Records *r = &app->records;
    PbError err = {0};
    char text[IO_ACT_BYTES], now[IO_UTC_SIZE];
    int count;
    const PbJobDone *d = pb_job_done(w->job, &count);
    if (r->store == NULL || w->kept_id < 0 || (w->kept_id == 0 && r->learner_id == 0)) {
        w->kept_id = -1; /* a job is kept from its first act on, or not at all */
        return;
    }
    io_now_utc(now);
    if (w->kept_id == 0 && store_job_begin(r->store, r->learner_id, wall_word(w->choice), w->seed,
                                           now, &w->kept_id, &err) != PB_OK) {
        not_kept(app, &err);
    }
    for (; w->kept_id > 0 && w->kept_acts < count; w->kept_acts++) {
        io_act_text(&d[w->kept_acts].act, text, sizeof text);
        if (store_job_act(r->store, w->kept_id, w->kept_acts, text, &err) != PB_OK) {
            not_kept(app, &err);
        }
    }
}

void wall_keep_end(App *app)
{
    Wall *w = app->wall;
    PbError err;
    if (w->kept_id > 0 && app->records.store != NULL) {
        (void)!store_job_end(app->records.store, w->kept_id, &err); /* it is offered once more */
    }
    w->kept_id = -1;
}

void wall_look_for_left(App *app)
{
    Wall *w = app->wall;
    const Records *r = &app->records;
    PbError err;
    w->has_left = r->store != NULL && r->learner_id != 0 &&
                  store_job_left(r->store, r->learner_id, &w->left, &err) == PB_OK &&
                  wall_of_word(w->left.wall) >= 0;
}

/* The acts as one file of acts, for its reader. Caller frees it; NULL = no memory. */
static char *as_file(const StoreJobAct *list, int count)
{
    static const char head[] = "{\"format\":\"" IO_ACTS_FORMAT "\",\"name\":\"kept\",\"acts\":[";
    size_t size = sizeof head + 8 + (size_t)count * (STORE_JOB_ACT_BYTES + 2), n;
    char *text = malloc(size);
    if (text == NULL) {
        return NULL;
    }
    n = (size_t)snprintf(text, size, "%s", head);
    for (int i = 0; i < count; i++) {
        n += (size_t)snprintf(text + n, size - n, "%s\n%s", i > 0 ? "," : "", list[i].content);
    }
    snprintf(text + n, size - n, "]}");
    return text;
}

static PbStatus do_again(Wall *w, const StoreJobAct *list, int count, PbError *err)
{
    IoJobActs *acts = calloc(1, sizeof *acts);
    char *text = as_file(list, count);
    if (acts == NULL || text == NULL) {
        free(acts);
        free(text);
        return pb_fail(err, PB_ERR_MEMORY, "there is not enough memory");
    }
    PbStatus status = io_acts_parse("job", text, strlen(text), acts, err);
    for (int i = 0; status == PB_OK && i < acts->act_count; i++) {
        status = pb_job_act(w->job, &acts->acts[i], err);
    }
    io_acts_free(acts);
    free(acts);
    free(text);
    return status;
}

/* The newest run in which this bay was packed since the job began; 0 = none. */
static int64_t run_of(const App *app, const PbSessionConfig *config, StoreRun *found)
{
    StoreFilter filter = {.learner_id = app->wall->left.learner_id,
                          .exercise_id = config->exercise.id};
    StoreRun *runs = NULL;
    PbError err;
    int count = 0;
    int64_t id = 0;
    if (store_run_list(app->records.store, &filter, &runs, &count, &err) != PB_OK) {
        return 0;
    }
    for (int i = 0; i < count && id == 0; i++) { /* newest first */
        const PbRunSummary *m = &runs[i].summary;
        if (m->seed == config->seed && m->physics_version == PB_PHYSICS_VERSION &&
            strcmp(runs[i].added, app->wall->left.begun) >= 0) {
            id = runs[i].id;
            *found = runs[i];
        }
    }
    free(runs);
    return id;
}

/* A run that was finished, played to its end and booked. */
static PbStatus book_run(App *app, int fill, int64_t id, PbError *err)
{
    PbRunFile file;
    void *bytes;
    size_t size;
    PbWatched *watched = calloc(1, sizeof *watched);
    PbStatus status = watched != NULL ? store_run_bytes(app->records.store, id, &bytes, &size, err)
                                      : pb_fail(err, PB_ERR_MEMORY, "there is not enough memory");
    if (status == PB_OK) {
        status = io_run_decode("run", bytes, size, &file, err);
        free(bytes);
    }
    if (status == PB_OK) {
        status = pb_watched_replay(watched, &file, pb_allocator_default(), err);
        status = status == PB_OK ? pb_watched_seek(watched, INT_MAX) : status;
        status = status == PB_OK && !watched->is_ended ? PB_ERR_STATE : status;
        status = status == PB_OK ? pb_job_fill_done(app->wall->job, fill, watched, err) : status;
        pb_watched_end(watched);
        io_run_free(&file);
    }
    free(watched);
    return status;
}

/* What a person packed, or was packing when the program ended. */
static void take_runs(App *app)
{
    Wall *w = app->wall;
    PbSessionConfig config;
    StoreRun run;
    PbError err;
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        const PbJobFill *fill = pb_job_fill(w->job, i);
        if (fill->is_small) {
            (void)!pb_job_fill_done(w->job, i, NULL, &err);
        } else if (fill->hands != PB_JOB_AS_DONE &&
                   pb_job_fill_config(w->job, i, &config, &err) == PB_OK) {
            int64_t id = run_of(app, &config, &run);
            if (id == 0 || run.summary.state != PB_RUN_FINISHED ||
                book_run(app, i, id, &err) != PB_OK) {
                w->pending = i;
                w->pending_run = id != 0 && run.summary.state == PB_RUN_LEFT ? id : 0;
            }
        } else {
            w->is_catching_up = 1;
        }
    }
}

void wall_go_on(App *app)
{
    Wall *w = app->wall;
    StoreJobAct *list = NULL;
    PbError err = {0};
    int count = 0;
    if (!wall_begin(app, wall_of_word(w->left.wall), w->left.seed)) {
        return;
    }
    PbStatus status = store_job_acts(app->records.store, w->left.id, &list, &count, &err);
    if (status == PB_OK) {
        status = do_again(w, list, count, &err);
    }
    free(list);
    if (status != PB_OK) { /* no half of a job */
        wall_close(w);
        w->phase = WALL_CHOOSE;
        app_notice(app, _("This job cannot be gone on with"), err.message, 0, 20);
        return;
    }
    w->kept_id = w->left.id;
    w->kept_acts = count;
    take_runs(app);
    (void)wall_believe(app);
}
