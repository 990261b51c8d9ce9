/*
 * Job files: read from a wall and acts or from a file of a job, worked on several threads, written
 * down as the job goes. Fills are done in any order and written in theirs, so that the same job
 * gives the same file. Next: acts_file.c, job_result.c.
 */
#include "io/job_file.h"

#include "format_rows.h"

#include "io/exercise_file.h"
#include "io/framing_file.h"
#include "io/parallel.h"
#include "os/file.h"

#include <assert.h>
#include <errno.h>
#include <inttypes.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

void io_job_free(IoJob *job)
{
    io_acts_free(&job->acts);
    json_decref(job->wall_json);
    json_decref(job->acts_json);
    job->wall_json = job->acts_json = NULL;
}

/* A crew without a file. */
static const char careful[] = "{\"format\": \"pullback job acts 1\", \"name\": \"careful crew\", "
                              "\"rule\": {\"find\": \"careful\"}}";

static PbStatus keep_json(IoJob *job, const json_t *wall, const json_t *acts, PbError *err)
{
    json_t *bay = io_exercise_to_json(&job->framing.like);
    job->wall_json = json_deep_copy(wall);
    job->acts_json = json_deep_copy(acts);
    if (job->wall_json == NULL || job->acts_json == NULL ||
        json_object_set_new(job->wall_json, "bay", bay) != 0) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    return PB_OK;
}

PbStatus io_job_of(const char *wall, const char *acts, const char *const *folders, int count,
                   IoJob *job, PbError *err)
{
    IoDoc wall_doc, acts_doc;
    PB_TRY(io_doc_load(wall, &wall_doc, err));
    IoReader r = io_reader(&wall_doc, err);
    io_framing_read(&r, wall_doc.root, folders, count, &job->framing);
    PbStatus status = r.status;
    if (status == PB_OK) {
        status = acts != NULL ? io_doc_load(acts, &acts_doc, err)
                              : io_doc_parse("the careful crew", careful, sizeof careful - 1,
                                             &acts_doc, err);
        if (status == PB_OK) {
            r = io_reader(&acts_doc, err);
            io_acts_read(&r, acts_doc.root, &job->acts);
            status = r.status == PB_OK ? keep_json(job, wall_doc.root_json, acts_doc.root_json, err)
                                       : r.status;
            io_doc_free(&acts_doc);
        }
    }
    io_doc_free(&wall_doc);
    job->seed = 1;
    job->cells_across = PB_GRID_DEFAULT;
    job->physics_version = PB_PHYSICS_VERSION;
    return status;
}

int io_is_job(const char *path)
{
    char text[sizeof IO_BEGINS_JOB] = "";
    FILE *f = os_open_stream(path, OS_TO_READ);
    if (f == NULL) {
        return 0;
    }
    size_t got = fread(text, 1, sizeof text - 1, f);
    (void)fclose(f);
    return got == sizeof text - 1 && memcmp(text, IO_BEGINS_JOB, got) == 0;
}

static void read_hash(IoReader *r, IoValue *v, const char *key, uint64_t *hash)
{
    char text[32] = "", *end = text;
    io_text(r, v, key, 1, text, sizeof text);
    errno = 0;
    *hash = strtoull(text, &end, 16);
    if (r->status == PB_OK && (end != text + 18 || strncmp(text, "0x", 2) != 0)) {
        io_complain(r, io_child(r, v, key), PB_ERR_FORMAT, "\"%s\": expected 0x and 16 digits",
                    key);
    }
}

static void read_head(IoReader *r, IoValue *v, const char *const *folders, int count, IoJob *job)
{
    long long seed = 1, cells = PB_GRID_DEFAULT, physics = 0;
    io_format(r, v, IO_JOB_FORMAT);
    io_integer(r, v, "physics", 1, 1, 1000000, &physics);
    io_integer(r, v, "seed", 1, 0, INT64_MAX, &seed);
    io_integer(r, v, "cells_across", 1, 8, 48, &cells);
    IoValue *wall = io_object(r, v, "wall", 1), *acts = io_object(r, v, "acts", 1);
    if (wall != NULL && acts != NULL) {
        io_framing_read(r, wall, folders, count, &job->framing);
        io_acts_read(r, acts, &job->acts);
        job->wall_json = json_incref(wall->json);
        job->acts_json = json_incref(acts->json);
    }
    io_end(r, v);
    job->seed = (uint64_t)seed;
    job->cells_across = (int)cells;
    job->physics_version = (int)physics;
    job->is_file = 1;
}

static void read_line(IoReader *r, IoValue *v, IoJob *job)
{
    if (io_child(r, v, "end") != NULL) {
        io_bool(r, v, "end", 1, &job->is_ended);
        read_hash(r, v, "hash", &job->hash);
        io_number(r, v, "total", 1, 0.0, 100.0, "points", &job->total);
        io_bool(r, v, "pass", 1, &job->is_pass);
    } else {
        long long fill = 0, bay = 0;
        uint64_t hash = 0;
        io_integer(r, v, "fill", 1, job->fill_count + 1, job->fill_count + 1, &fill);
        io_integer(r, v, "bay", 1, 1, PB_JOB_BAYS, &bay);
        read_hash(r, v, "hash", &hash);
        if (r->status == PB_OK && job->fill_count < PB_JOB_FILLS) {
            job->fill_bay[job->fill_count] = (int)bay - 1;
            job->fill_hash[job->fill_count++] = hash;
        }
    }
    io_end(r, v);
}

static PbStatus read_text(const char *path, const char *text, size_t size,
                          const char *const *folders, int count, IoJob *job, PbError *err)
{
    int line = 1;
    for (const char *at = text, *end; at < text + size && !job->is_ended; at = end + 1, line++) {
        IoDoc doc;
        end = memchr(at, '\n', (size_t)(text + size - at));
        if (end == NULL) {
            break; /* cut off while it was written */
        }
        PbStatus status = io_doc_parse(path, at, (size_t)(end - at), &doc, err);
        if (status == PB_OK) {
            IoReader r = io_reader(&doc, err);
            if (line == 1) {
                read_head(&r, doc.root, folders, count, job);
            } else {
                read_line(&r, doc.root, job);
            }
            status = r.status;
            io_doc_free(&doc);
        }
        if (status != PB_OK) {
            if (err != NULL) {
                err->line = line;
            }
            return status;
        }
    }
    return job->is_file ? PB_OK
                        : pb_fail(err, PB_ERR_FORMAT,
                                  "%s: expected a job file, which begins with "
                                  "one whole line",
                                  path);
}

PbStatus io_job_load(const char *path, const char *const *folders, int count, IoJob *job,
                     PbError *err)
{
    char *text;
    size_t size;
    PB_TRY(io_read_file(path, 4 * IO_MAX_BYTES, &text, &size, err));
    PbStatus status = read_text(path, text, size, folders, count, job, err);
    free(text);
    return status;
}

/* Fills as they are done, for the file. */
typedef struct Journal {
    FILE *out;
    int threads;
    const PbJob *job;
    pthread_mutex_t lock;
    int is_done[PB_JOB_FILLS];
    int written, failed;
} Journal;

/* In the order of their numbers, whoever was first. */
static void write_fills(Journal *j)
{
    int before = j->written;
    while (j->out != NULL && j->written < pb_job_fill_count(j->job) && j->is_done[j->written]) {
        const PbJobFill *f = pb_job_fill(j->job, j->written++);
        j->failed |= fprintf(j->out, "{\"fill\":%d,\"bay\":%d,\"hash\":\"0x%016" PRIx64 "\"}\n",
                             j->written, f->bay + 1, f->result.state_hash) < 0;
    }
    if (j->written > before) {
        j->failed |= fflush(j->out) != 0;
    }
}

typedef struct Step {
    Journal *journal;
    void (*body)(void *context, int index);
    void *context;
} Step;

static void step(void *context, int index)
{
    Step *s = context;
    s->body(s->context, index);
    pthread_mutex_lock(&s->journal->lock);
    s->journal->is_done[index] = pb_job_fill(s->journal->job, index)->is_run;
    write_fills(s->journal);
    pthread_mutex_unlock(&s->journal->lock);
}

static void in_parallel(void *user, int count, void (*body)(void *context, int index),
                        void *context)
{
    const Journal *j = user;
    IoParallel p = io_parallel_default();
    Step s = {user, body, context};
    p.threads = j->threads > 0 ? j->threads : p.threads;
    io_parallel_for(&p, count, step, &s);
}

static PbStatus write_head(const IoJob *in, FILE *out, PbError *err)
{
    json_t *head = json_pack("{ss si sI si sO sO}", "format", IO_JOB_FORMAT, "physics",
                             PB_PHYSICS_VERSION, "seed", (json_int_t)in->seed, "cells_across",
                             in->cells_across, "wall", in->wall_json, "acts", in->acts_json);
    if (head == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    int failed = json_dumpf(head, out, JSON_COMPACT | JSON_REAL_PRECISION(17)) != 0 ||
                 putc('\n', out) == EOF || fflush(out) != 0;
    json_decref(head);
    return failed ? pb_fail(err, PB_ERR_IO, "cannot write the job: %s", strerror(errno)) : PB_OK;
}

static PbStatus do_acts(const IoJobActs *a, PbJob *job, PbError *err)
{
    if (a->has_rule) {
        PB_TRY(pb_job_rule(job, &a->rule, err));
    }
    for (int i = 0; i < a->act_count; i++) {
        PbError inner = {0};
        PbStatus status = pb_job_act(job, &a->acts[i], &inner);
        if (status != PB_OK) {
            status = pb_fail(err, status, "act %d cannot be done: %.300s", i + 1, inner.message);
            if (err != NULL) {
                snprintf(err->file, sizeof err->file, "%s", a->file);
                err->line = a->line[i];
                err->column = a->column[i];
            }
            return status;
        }
    }
    return PB_OK;
}

PbStatus io_job_work(const IoJob *in, FILE *out, PbJob **made, PbError *err)
{
    PbJobConfig *config = malloc(sizeof *config);
    PbJob *job = NULL;
    if (config == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    *config = (PbJobConfig){.framing = in->framing,
                            .constants = pb_constants_default(),
                            .seed = in->seed,
                            .cells_across = in->cells_across,
                            .allocator = pb_allocator_default(),
                            .hand_count = in->acts.hand_count};
    memcpy(config->hands, in->acts.hands, sizeof config->hands);
    PbStatus status = pb_job_create(config, &job, err);
    free(config);
    if (status == PB_OK) {
        status = do_acts(&in->acts, job, err);
    }
    if (status == PB_OK && out != NULL) {
        status = write_head(in, out, err);
    }
    if (status == PB_OK) {
        Journal journal = {.out = out, .threads = in->threads, .job = job};
        pthread_mutex_init(&journal.lock, NULL);
        status = pb_job_run(job, in_parallel, &journal, err);
        pthread_mutex_destroy(&journal.lock);
        if (status == PB_OK && journal.failed) {
            status = pb_fail(err, PB_ERR_IO, "cannot write the job: %s", strerror(errno));
        }
    }
    if (status != PB_OK) {
        pb_job_destroy(job);
        return status;
    }
    *made = job;
    return PB_OK;
}

PbStatus io_job_end(FILE *out, const PbJob *job, const PbJobMarks *marks, PbError *err)
{
    if (fprintf(out, "{\"end\":true,\"hash\":\"0x%016" PRIx64 "\",\"total\":%.15g,\"pass\":%s}\n",
                pb_job_hash(job), marks->total, marks->is_pass ? "true" : "false") < 0 ||
        fflush(out) != 0) {
        return pb_fail(err, PB_ERR_IO, "cannot write the job: %s", strerror(errno));
    }
    return PB_OK;
}
