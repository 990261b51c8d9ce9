/* A kept run recorded anew: the same hands at the same ticks, in the exercise as it is shipped now
 * and under the physics of this program, with the hashes, the result and the grade that come of
 * them. renew_run FILE.pbrun SOURCE_TREE; what it had is replaced in one move. Who did it and when
 * stay as they were. */
#include "core/watched.h"
#include "io/climate_file.h"
#include "io/exercise_file.h"
#include "io/run_file.h"
#include "io/run_recorder.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static PbStatus record(const PbRunFile *old, IoRecorder *r, PbWatched *w, PbError *err)
{
    int next = 0;
    while (!w->is_ended && w->seen_tick < old->last_tick) {
        PbCommand commands[64];
        int count = 0, tick = w->seen_tick;
        for (; next < old->command_count && old->commands[next].tick == tick && count < 64;
             next++) {
            commands[count++] = old->commands[next].command;
        }
        PbStatus status = pb_watched_step(w, commands, count);
        if (status != PB_OK) {
            return pb_fail(err, status, "at tick %d: %s", tick, pb_status_name(status));
        }
        io_recorder_step(r, w->session, commands, count);
    }
    return w->is_ended
               ? PB_OK
               : pb_fail(err, PB_ERR_NO_RESULT, "the hands no longer bring the run to its end");
}

/* With a grade if it had one, by the default rubric. */
static PbStatus finish(const PbRunFile *old, IoRecorder *r, PbWatched *w, const char *tree,
                       PbError *err)
{
    char path[600];
    if (!old->grade.is_given) {
        return io_recorder_finish(r, w->session, NULL, NULL, err);
    }
    snprintf(path, sizeof path, "%s/assets/climates/%s.json", tree, old->exercise.climate);
    PB_TRY(io_climate_load(path, &w->climate, err));
    w->has_climate = 1;
    PB_TRY(pb_watched_mark(w));
    printf("%s: %.2f points, was %.2f\n", old->exercise.id, w->score.total, old->grade.total);
    return io_recorder_finish(r, w->session, &w->score, &w->rubric, err);
}

static PbStatus renew(const PbRunFile *old, const char *part, const char *tree, PbError *err)
{
    static PbWatched w;
    PbSessionConfig config = pb_session_default();
    IoRecorder *r = NULL;
    char path[600];
    snprintf(path, sizeof path, "%s/assets/exercises/%s.json", tree, old->exercise.id);
    PB_TRY(io_exercise_load(path, &config.exercise, err));
    config.seed = old->seed;
    config.cells_across = old->cells_across;
    PB_TRY(pb_watched_start(&w, &config, err));
    PbStatus status = io_recorder_open(part, &config, old->who, old->started_unix_s, &r, err);
    if (status == PB_OK) {
        status = record(old, r, &w, err);
        status = status == PB_OK ? finish(old, r, &w, tree, err) : status;
        io_recorder_close(r);
    }
    pb_watched_end(&w);
    return status;
}

int main(int argc, char **argv)
{
    PbRunFile old;
    PbError err = {0};
    char part[700];
    if (argc != 3) {
        fprintf(stderr, "renew_run: expected FILE.pbrun SOURCE_TREE\n");
        return 2;
    }
    snprintf(part, sizeof part, "%s.new", argv[1]);
    PbStatus status = io_run_read(argv[1], &old, &err);
    if (status == PB_OK) {
        status = renew(&old, part, argv[2], &err);
        io_run_free(&old);
        if (status == PB_OK && rename(part, argv[1]) != 0) {
            status = pb_fail(&err, PB_ERR_IO, "it cannot be put in place");
        }
    }
    if (status != PB_OK) {
        fprintf(stderr, "renew_run: %s: %s\n", argv[1], err.message);
        unlink(part);
        return 1;
    }
    return 0;
}
