/*
 * Shards of a spread: printing one, and joining all into what the whole would have printed, byte
 * for byte. Every shard must be of the same case, each draw there once.
 */
#include "age_result_private.h"

#include "io/doc.h"

#include <stdlib.h>
#include <string.h>

#define SHARD_MAX_BYTES (256u * 1024u * 1024u)
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
    io_integer(r, root, "of", 1, 1, IO_AGE_MAX_DRAWS, &of);
    io_integer(r, root, "draws", 1, 1, IO_AGE_MAX_DRAWS, &draws);
    io_integer(r, root, "times", 1, 1, IO_AGE_MAX_TIMES, &times);
    io_integer(r, root, "seed", 1, 0, 2000000000, &seed);
    IoValue *metrics = io_array(r, root, "metrics", 1, 1, 16);
    IoValue *result = io_object(r, root, "result", 1);
    for (size_t m = 0; metrics != NULL && m < metrics->count; m++) {
        if (!json_is_string(metrics->child[m].json)) {
            io_complain(r, &metrics->child[m], PB_ERR_FORMAT, "expected the name of a metric");
        }
    }
    if (r->status != PB_OK || metrics == NULL || result == NULL) {
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
    IoValue *list = io_array(r, root, "samples", 1, 0, IO_AGE_MAX_DRAWS);
    for (size_t k = 0; r->status == PB_OK && list != NULL && w->have != NULL && k < list->count;
         k++) {
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
            if (err != NULL) {
                memset(err, 0, sizeof *err);
            }
            return pb_fail(err, PB_ERR_FORMAT,
                           "shard %lld of %lld is missing: draw %lld is in no file",
                           d % w->shards + 1, w->shards, d);
        }
    }
    return PB_OK;
}

static PbStatus finish(Whole *w, IoAgeResult **result, PbError *err)
{
    const char *names[16];
    size_t metrics = json_array_size(w->metrics);
    PB_TRY(all_there(w, err));
    for (size_t m = 0; m < metrics; m++) {
        names[m] = json_string_value(json_array_get(w->metrics, m));
    }
    IoAgeResult *whole = malloc(sizeof *whole);
    if (whole == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    whole->json = json_incref(w->result);
    IoAgeSamples all = {w->samples,   (int)w->draws, (int)w->times,
                        (int)metrics, names,         (uint64_t)w->seed};
    PbStatus status = io_age_bands(whole, &all);
    if (status != PB_OK) {
        io_age_free(whole);
        return pb_fail(err, status, "out of memory");
    }
    *result = whole;
    return PB_OK;
}

PbStatus io_age_merge(const char *const *paths, int count, IoAgeResult **result, PbError *err)
{
    Whole w;
    memset(&w, 0, sizeof w);
    PbStatus status = PB_OK;
    for (int i = 0; i < count && status == PB_OK; i++) {
        status = add_shard(paths[i], &w, i == 0, err);
    }
    if (status == PB_OK) {
        status = finish(&w, result, err);
    }
    json_decref(w.result);
    json_decref(w.metrics);
    free(w.samples);
    free(w.have);
    return status;
}

PbStatus io_age_shard_print(FILE *out, const IoAgeResult *result, const IoAgeSamples *s, int shard,
                            int of, int all_draws)
{
    size_t size = (size_t)s->times * (size_t)s->metrics;
    json_t *draws = json_array(), *names = json_array();
    for (int m = 0; m < s->metrics; m++) {
        json_array_append_new(names, json_string(s->names[m]));
    }
    for (int p = 0; p < s->draws; p++) {
        json_t *values = age_array(s->values + (size_t)p * size, (int)size, 1);
        json_array_append_new(draws,
                              json_pack("{s:i,s:o}", "draw", shard - 1 + p * of, "values", values));
    }
    json_t *doc =
        json_pack("{s:s,s:i,s:i,s:i,s:i,s:i,s:I,s:o,s:O,s:o}", "what", "pullback shard", "version",
                  1, "shard", shard, "of", of, "draws", all_draws, "times", s->times, "seed",
                  (json_int_t)s->seed, "metrics", names, "result", result->json, "samples", draws);
    if (doc == NULL || io_json_short()) {
        json_decref(doc);
        return PB_ERR_MEMORY;
    }
    int bad = json_dumpf(doc, out, JSON_COMPACT | JSON_REAL_PRECISION(17)) != 0;
    bad |= fprintf(out, "\n") < 0 || fflush(out) != 0;
    json_decref(doc);
    return io_json_short() ? PB_ERR_MEMORY : bad ? PB_ERR_IO : PB_OK;
}
