/* A run file whose replay parts from it: the hands of another run file, with one feed of the
 * machine noted a little off what the session was given. It is put into a store as well, past the
 * import that refuses it. parted_run FROM TO STORE */
#include "core/session.h"
#include "io/doc.h"
#include "io/run_file.h"
#include "io/run_recorder.h"
#include "io/run_summary.h"
#include "store/runs.h"

#include <stdio.h>
#include <stdlib.h>

static int copy(const PbRunFile *run, const char *to, PbError *err)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s = NULL;
    IoRecorder *r = NULL;
    PbCommand given[64], noted[64];
    int next = 0, is_changed = 0;
    config.exercise = run->exercise;
    config.constants = run->constants;
    config.seed = run->seed;
    config.cells_across = run->cells_across;
    if (pb_session_create(&config, &s, err) != PB_OK ||
        io_recorder_open(to, &config, run->who, run->started_unix_s, &r, err) != PB_OK) {
        pb_session_destroy(s);
        return 0;
    }
    for (int tick = 0; tick < run->last_tick && !pb_session_is_over(s); tick++) {
        int count = 0;
        for (; next < run->command_count && run->commands[next].tick == tick && count < 64;
             next++, count++) {
            given[count] = noted[count] = run->commands[next].command;
            if (!is_changed && tick > 60 && given[count].kind == PB_COMMAND_FEED) {
                noted[count].value *= 1.01;
                is_changed = 1;
            }
        }
        if (pb_session_step(s, given, count) != PB_OK) {
            break;
        }
        io_recorder_step(r, s, noted, count);
    }
    int is_done = is_changed && io_recorder_finish(r, s, NULL, NULL, err) == PB_OK;
    io_recorder_close(r);
    pb_session_destroy(s);
    return is_done;
}

static int put(const char *path, const char *store_at, PbError *err)
{
    Store *store;
    PbRunFile run;
    PbRunSummary m;
    char *bytes;
    size_t size;
    int64_t id;
    int is_done = 0;
    const char *when = "2026-03-04T09:30:00Z";
    if (store_open(store_at, &store, err) != PB_OK) {
        return 0;
    }
    if (io_read_file(path, IO_RUN_MAX_BYTES, &bytes, &size, err) == PB_OK &&
        io_run_decode(path, (const unsigned char *)bytes, size, &run, err) == PB_OK) {
        io_run_summary(&run, NULL, when, &m);
        is_done = store_learner_add(store, "Learner1", when, &id, err) == PB_OK &&
                  store_run_add(store, id, bytes, size, &m, when, &id, err) == PB_OK;
        io_run_free(&run);
        free(bytes);
    }
    store_close(store);
    return is_done;
}

int main(int count, char **words)
{
    PbRunFile run;
    PbError err = {0};
    if (count != 4 || io_run_read(words[1], &run, &err) != PB_OK) {
        fprintf(stderr, "parted_run: expected FROM TO STORE; %s\n", err.message);
        return 2;
    }
    int is_done = copy(&run, words[2], &err) && put(words[2], words[3], &err);
    io_run_free(&run);
    if (!is_done) {
        fprintf(stderr, "parted_run: no feed to change, or: %s\n", err.message);
    }
    return is_done ? 0 : 1;
}
