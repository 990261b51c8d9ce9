/* Runs that no disk would take: they stay in memory, are tried again, and go wherever the person
 * says. What is here when the program ends is put into the first place that takes it. */
#include "base/records.h"

#include "io/clock.h"
#include "io/run_file.h"
#include "os/file.h"
#include "os/place.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int records_hold(Records *r, const unsigned char *bytes, size_t size)
{
    unsigned char *copy = r->held_count < RECORDS_HELD ? malloc(size) : NULL;
    if (copy == NULL) {
        return 0;
    }
    memcpy(copy, bytes, size);
    RecordsHeld *h = &r->held[r->held_count++];
    *h = (RecordsHeld){
        .bytes = copy, .size = size, .learner_id = r->run_learner_id, .left_id = r->run_left_id};
    io_now_utc(h->ended);
    snprintf(h->path, sizeof h->path, "%s", r->run_path);
    return 1;
}

/* The whole run is somewhere now; the part of it that the full disk took would come back as a
 * second run at the next start. */
static void let_go(Records *r, int i)
{
    if (r->held[i].path[0] != '\0') {
        (void)os_remove(r->held[i].path);
    }
    free(r->held[i].bytes);
    r->held_count--;
    memmove(&r->held[i], &r->held[i + 1], (size_t)(r->held_count - i) * sizeof r->held[0]);
}

void records_let_go(Records *r, int64_t learner_id)
{
    for (int i = r->held_count - 1; i >= 0; i--) {
        if (r->held[i].learner_id == learner_id) {
            let_go(r, i);
        }
    }
}

static PbStatus take(Records *r, const RecordsHeld *h, PbError *err)
{
    RecordsFile file = {.name = "run",
                        .bytes = h->bytes,
                        .size = h->size,
                        .learner_id = h->learner_id,
                        .left_id = h->left_id};
    memcpy(file.ended, h->ended, sizeof file.ended);
    return records_take(r, &file, err);
}

int records_retry(Records *r, char *why, size_t size)
{
    for (int i = 0; i < r->held_count;) {
        const RecordsHeld *h = &r->held[i];
        PbError err = {0};
        if (r->store == NULL || h->learner_id == 0) {
            snprintf(why, size, "%s", r->trouble);
            i++;
        } else if (take(r, h, &err) == PB_OK) {
            r->runs_kept++;
            let_go(r, i);
        } else {
            snprintf(why, size, "%s", err.message);
            i++;
        }
    }
    return r->held_count;
}

/* Nothing is written over, and half a file is taken away again. */
static int write_new(const char *path, const RecordsHeld *h)
{
    int fd = os_open_new(path, OS_READ_BY_OWNER);
    if (fd < 0) {
        return 0;
    }
    int is_whole = os_write_all(fd, h->bytes, h->size) && os_sync(fd);
    int code = errno;
    is_whole = os_close(fd) && is_whole;
    if (!is_whole) {
        (void)os_remove(path);
        errno = code;
    }
    return is_whole;
}

int records_save_elsewhere(Records *r, const char *folder, char *said, size_t size)
{
    int saved = 0;
    while (r->held_count > 0) {
        char path[900];
        int is_written = 0;
        for (int k = 1; k < 1000 && !is_written; k++) {
            snprintf(path, sizeof path, "%s/pullback-run-%d.pbrun", folder, k);
            is_written = write_new(path, &r->held[0]);
            if (!is_written && errno != EEXIST) {
                break;
            }
        }
        if (!is_written) {
            snprintf(said, size, "%s: %s", path, strerror(errno));
            return 0;
        }
        saved++;
        snprintf(said, size, "%s", path);
        let_go(r, 0);
    }
    return saved;
}

void records_hold_end(Records *r)
{
    char said[1000] = "";
    static const OsPlace places[2] = {OS_HOME, OS_PASSING};
    char place[700];
    records_retry(r, said, sizeof said);
    for (int i = 0; i < 2 && r->held_count > 0; i++) {
        if (os_place(places[i], place, sizeof place) && os_is_whole_path(place) &&
            records_save_elsewhere(r, place, said, sizeof said)) {
            fprintf(stderr, "pullback: a run that could not be kept is in %s\n", said);
        }
    }
    while (r->held_count > 0) { /* what the disk took of it stays: the next start gathers it */
        fprintf(stderr, "pullback: a run could not be kept: %s\n", said);
        r->held[0].path[0] = '\0';
        let_go(r, 0);
    }
}
