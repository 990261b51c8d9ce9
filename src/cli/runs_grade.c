/* Kept runs under another rubric: every grade that was asked for is kept, none takes the place of
 * the one that a run came with. */
#include "replay_run.h"
#include "runs_options.h"
#include "store_options.h"

#include "cli/front.h"

#include "io/clock.h"
#include "io/doc.h"
#include "io/rubric_file.h"
#include "io/run_summary.h"
#include "io/score_words.h"
#include "os/file.h"
#include "store/shelf.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

/* A file; its text goes to the store, so that Debrief can mark by it too. */
static PbStatus take_file(Store *store, const char *path, PbRubric *rubric, PbError *err)
{
    char *text, now[24];
    size_t size;
    PB_TRY(io_read_file(path, STORE_SHELF_BYTES, &text, &size, err));
    PbStatus status = io_rubric_parse(path, text, size, rubric, err);
    if (status == PB_OK) {
        io_now_utc(now);
        status = store_item_put(store, STORE_RUBRICS, rubric->name, text, now, err);
    }
    free(text);
    return status;
}

static PbStatus take_kept(Store *store, const char *name, PbRubric *rubric, PbError *err)
{
    char *text;
    PB_TRY(store_item_get(store, STORE_RUBRICS, name, &text, err));
    PbStatus status = io_rubric_parse(name, text, strlen(text), rubric, err);
    free(text);
    return status;
}

PbStatus runs_rubric(Store *store, const RunsOptions *o, PbRubric *rubric, PbError *err)
{
    *rubric = pb_rubric_default();
    if (o->rubric == NULL || strcmp(o->rubric, rubric->name) == 0) {
        return PB_OK;
    }
    return os_is_there(o->rubric) ? take_file(store, o->rubric, rubric, err)
                                  : take_kept(store, o->rubric, rubric, err);
}

static void fill(const PbScore *s, const PbRubric *rubric, StoreGrade *g)
{
    memset(g, 0, sizeof *g);
    snprintf(g->rubric, sizeof g->rubric, "%s", rubric->name);
    io_now_utc(g->graded);
    g->total = s->total;
    g->is_pass = s->is_pass;
    g->part_count = io_part_points(s, g->parts);
}

PbStatus runs_regrade(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    IoPlay r = {0};
    const PbScore *score = &r.watched.score;
    PbRubric rubric;
    StoreRun run;
    StoreGrade grade;
    void *bytes;
    size_t size;
    char name[40];
    PB_TRY(store_run_get(store, o->id, &run, err));
    if (run.summary.state != PB_RUN_FINISHED) {
        return pb_fail(err, PB_ERR_RANGE, "run %" PRId64 " %s: it has no grade", o->id,
                       run.summary.state == PB_RUN_LEFT ? "was left before its end"
                                                        : "is of an older version");
    }
    PB_TRY(runs_rubric(store, o, &rubric, err));
    PB_TRY(store_run_bytes(store, o->id, &bytes, &size, err));
    snprintf(name, sizeof name, "run %" PRId64, o->id);
    PbStatus status = cli_replay_decode("runs", name, bytes, size, &r, err);
    free(bytes);
    PB_TRY(status);
    status = cli_replay_mark(&r, &rubric, err);
    if (status == PB_OK) {
        fill(score, &rubric, &grade);
        status = store_grade_put(store, o->id, &grade, err);
    }
    *code = score->is_pass ? CLI_DONE : CLI_NO;
    int mark = io_mark_shown(score->total);
    PbVerdict verdict = score->verdict;
    io_play_close(&r);
    PB_TRY(status);
    printf("run %" PRId64 ": %d of 100 by %s, %s; %d by %s stands beside it\n", o->id, mark,
           rubric.name, io_verdict_word(verdict, WORDS_ENGLISH), io_mark_shown(run.summary.total),
           run.summary.rubric);
    return PB_OK;
}
