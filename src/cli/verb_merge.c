/*
 * merge: join the shards that `age --spread N --shard I/N` printed, on one machine or on many, into
 * what the whole would have printed, byte for byte. Every shard must be of the same case, each
 * draw there once.
 */
#include "age.h"
#include "verbs.h"

#include "io/doc.h"

#include <stdlib.h>
#include <string.h>

#define SHARD_MAX_BYTES (256u * 1024u * 1024u)
enum { MAX_DRAWS = 100000 };

typedef struct Whole {
    json_t *result, *metrics;
    long long shards, draws, times, seed;
    double *samples; /* [draws][times][metrics] */
    unsigned char *have;
} Whole;

static PbStatus load(const char *path, IoDoc *doc, PbError *err)
{
    char *text;
    size_t size;
    PB_TRY(io_read_file(path, SHARD_MAX_BYTES, &text, &size, err));
    PbStatus status = io_doc_parse(path, text, size, doc, err);
    free(text);
    return status;
}

/* What must be equal in all shards; the first one sets it. */
static void same_case(IoReader *r, IoValue *root, Whole *w, int is_first)
{
    long long version = 0, of = 0, draws = 0, times = 0, seed = 0;
    char what[32] = "";
    io_text(r, root, "what", 1, what, sizeof what);
    if (r->status == PB_OK && strcmp(what, "pullback shard") != 0) {
        io_complain(r, io_child(r, root, "what"), PB_ERR_FORMAT, "expected \"pullback shard\"");
    }
    io_integer(r, root, "version", 1, 1, 1, &version);
    io_integer(r, root, "of", 1, 1, MAX_DRAWS, &of);
    io_integer(r, root, "draws", 1, 1, MAX_DRAWS, &draws);
    io_integer(r, root, "times", 1, 1, AGE_MAX_TIMES, &times);
    io_integer(r, root, "seed", 1, 0, 2000000000, &seed);
    IoValue *metrics = io_array(r, root, "metrics", 1, 1, 16);
    IoValue *result = io_object(r, root, "result", 1);
    for (size_t m = 0; metrics != NULL && m < metrics->count; m++) {
        if (!json_is_string(metrics->child[m].json)) {
            io_complain(r, &metrics->child[m], PB_ERR_FORMAT, "expected the name of a metric");
        }
    }
    if (r->status != PB_OK) {
        return;
    }
    if (is_first) {
        w->shards = of;
        w->draws = draws;
        w->times = times;
        w->seed = seed;
        w->metrics = json_incref(metrics->json);
        w->result = json_incref(result->json);
        size_t n = (size_t)draws * (size_t)times * metrics->count;
        w->samples = calloc(n, sizeof *w->samples);
        w->have = calloc((size_t)draws, 1);
        if (w->samples == NULL || w->have == NULL) {
            io_complain(r, root, PB_ERR_MEMORY, "out of memory");
        }
    } else if (of != w->shards || draws != w->draws || times != w->times || seed != w->seed ||
               !json_equal(metrics->json, w->metrics) || !json_equal(result->json, w->result)) {
        io_complain(r, result, PB_ERR_FORMAT, "this shard is of another case than the first one");
    }
}

static void take_draws(IoReader *r, IoValue *root, Whole *w)
{
    long long shard = 0;
    size_t size = (size_t)w->times * json_array_size(w->metrics);
    io_integer(r, root, "shard", 1, 1, w->shards, &shard);
    IoValue *list = io_array(r, root, "samples", 1, 0, MAX_DRAWS);
    for (size_t k = 0; r->status == PB_OK && list != NULL && k < list->count; k++) {
        long long d = 0;
        IoValue *at = &list->child[k];
        if (!json_is_object(at->json)) {
            io_complain(r, at, PB_ERR_FORMAT, "expected a draw { ... }");
            return;
        }
        io_integer(r, at, "draw", 1, 0, w->draws - 1, &d);
        IoValue *values = io_array(r, at, "values", 1, size, size);
        if (r->status != PB_OK) {
            return;
        }
        if (w->have[d] || d % w->shards != shard - 1) {
            io_complain(r, at, PB_ERR_FORMAT,
                        w->have[d] ? "draw %lld was in another shard already"
                                   : "draw %lld is not of this shard",
                        d);
            return;
        }
        w->have[d] = 1;
        for (size_t i = 0; i < size; i++) {
            io_value_number(r, &values->child[i], -1e12, 1e12, "",
                            &w->samples[(size_t)d * size + i]);
        }
        io_end(r, at);
    }
    io_end(r, root);
}

static PbStatus add_shard(const char *path, Whole *w, int is_first, PbError *err)
{
    IoDoc doc;
    PB_TRY(load(path, &doc, err));
    IoReader r = io_reader(&doc, err);
    same_case(&r, doc.root, w, is_first);
    if (r.status == PB_OK) {
        take_draws(&r, doc.root, w);
    }
    io_doc_free(&doc);
    return r.status;
}

static PbStatus all_there(const Whole *w, PbError *err)
{
    for (long long d = 0; d < w->draws; d++) {
        if (!w->have[d]) {
            memset(err, 0, sizeof *err);
            return pb_fail(err, PB_ERR_FORMAT,
                           "shard %lld of %lld is missing: draw %lld is in no file",
                           d % w->shards + 1, w->shards, d);
        }
    }
    return PB_OK;
}

int verb_merge(int argc, char **argv)
{
    Whole w;
    PbError err = {0};
    int as_json = 0, files = 0;
    memset(&w, 0, sizeof w);
    PbStatus status = PB_OK;
    for (int i = 1; i < argc; i++) {
        if (strcmp(argv[i], "--json") == 0) {
            as_json = 1;
        } else if (strcmp(argv[i], "--help") == 0) {
            printf("usage: pullback-cli merge SHARD... [--json]\n");
            return CLI_DONE;
        } else if (strncmp(argv[i], "--", 2) == 0) {
            return cli_usage("merge", "unknown option \"%s\", expected files and --json", argv[i]);
        }
    }
    for (int i = 1; i < argc && status == PB_OK; i++) {
        if (strcmp(argv[i], "--json") != 0) {
            status = add_shard(argv[i], &w, files == 0, &err);
            files++;
        }
    }
    int code = CLI_USAGE;
    if (files == 0) {
        code = cli_usage("merge", "expected the files of all shards");
    } else {
        if (status == PB_OK) {
            status = all_there(&w, &err);
        }
        if (status == PB_OK) {
            json_object_set_new(
                w.result, "bands",
                age_bands(w.samples, (int)w.draws, (int)w.times, w.metrics, (uint64_t)w.seed));
            code = age_print(json_incref(w.result), as_json);
        } else {
            err.status = status;
            code = cli_report(&err);
        }
    }
    json_decref(w.result);
    json_decref(w.metrics);
    free(w.samples);
    free(w.have);
    return code;
}
