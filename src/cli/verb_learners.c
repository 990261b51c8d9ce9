/* learners: the people whose runs are kept. Deleting one says first what goes with it. */
#include "learners_table.h"
#include "outputs.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/front.h"
#include "cli/run_session.h"
#include "io/clock.h"
#include "io/run_judge.h"
#include "io/settings_file.h"
#include "store/merge.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Words {
    const char *db;
    char **word;
    int is_yes;
} Words;

#define AT(member) .at = offsetof(Words, member)
const CliOption learners_options[] = {
    {"--yes", NULL, "delete without asking", cli_take_flag, AT(is_yes)},
    {"--db", "PATH", "another database than the person's own", cli_take_text, AT(db)},
    {.name = NULL},
};

static PbStatus list(Store *store, const Words *w, int *code, PbError *err)
{
    StoreLearner *people = NULL;
    int count = 0;
    (void)w;
    (void)code;
    PB_TRY(store_learner_list(store, &people, &count, err));
    printf("   id   runs  last run              name\n");
    for (int i = 0; i < count; i++) {
        printf("%5" PRId64 "  %5d  %-20s  %s\n", people[i].id, people[i].run_count,
               people[i].last_run[0] != '\0' ? people[i].last_run : "-", people[i].name);
    }
    free(people);
    return PB_OK;
}

static PbStatus add(Store *store, const Words *w, int *code, PbError *err)
{
    char now[IO_UTC_SIZE];
    int64_t id;
    (void)code;
    io_now_utc(now);
    PB_TRY(store_learner_add(store, w->word[1], now, &id, err));
    printf("learner %" PRId64 ": %s\n", id, w->word[1]);
    return PB_OK;
}

static PbStatus rename_one(Store *store, const Words *w, int *code, PbError *err)
{
    StoreLearner l;
    (void)code;
    PB_TRY(cli_find_learner(store, w->word[1], &l, err));
    PB_TRY(store_learner_rename(store, l.id, w->word[2], err));
    printf("learner %" PRId64 ": %s, before %s\n", l.id, w->word[2], l.name);
    return PB_OK;
}

/* The window remembers who learned last. */
static void forget_in_settings(const char *name)
{
    char path[600];
    IoSettings settings;
    PbError err = {0};
    if (io_settings_path(path, sizeof path, &err) != PB_OK ||
        io_settings_load(path, &settings, &err) != PB_OK || strcmp(settings.learner, name) != 0) {
        return;
    }
    memset(settings.learner, 0, sizeof settings.learner);
    if (io_settings_save(path, &settings, &err) != PB_OK) {
        fprintf(stderr, "pullback-cli: the name is still in %s: %s\n", path, err.message);
    }
}

static PbStatus delete_one(Store *store, const Words *w, int *code, PbError *err)
{
    StoreLearner l;
    StoreContents c;
    char question[400];
    PB_TRY(cli_find_learner(store, w->word[1], &l, err));
    PB_TRY(store_learner_contents(store, l.id, &c, err));
    snprintf(question, sizeof question,
             "Delete %s with %d runs (%.1f MB of run files), %d grades and %d marks of trainers? "
             "This cannot be undone.",
             l.name, c.runs, 1e-6 * (double)c.file_bytes, c.grades, c.marks);
    if (!w->is_yes && !cli_confirm(question)) {
        printf("nothing was deleted\n");
        *code = CLI_NO;
        return PB_OK;
    }
    PB_TRY(store_learner_delete(store, l.id, err));
    printf("deleted: %s, %d runs, %d grades, %d marks\n", l.name, c.runs, c.grades, c.marks);
    cli_say_remains(store);
    forget_in_settings(l.name);
    return PB_OK;
}

static PbStatus table(Store *store, const Words *w, int *code, PbError *err)
{
    (void)w;
    (void)code;
    return learners_table(store, err);
}

static PbStatus drills(Store *store, const Words *w, int *code, PbError *err)
{
    (void)w;
    (void)code;
    return learners_drills(store, err);
}

static PbStatus judge(void *user, const char *name, const void *bytes, size_t size,
                      const char *ended, PbRunSummary *summary, PbError *err)
{
    IoJudge how = {
        .climate = cli_find_climate, .user = user, .origin = PB_ORIGIN_IMPORTED, .now = ended};
    return io_run_judge(&how, name, bytes, size, summary, NULL, err);
}

static PbStatus merge(Store *store, const Words *w, int *code, PbError *err)
{
    StoreMerge *m;
    char now[IO_UTC_SIZE];
    (void)code;
    io_now_utc(now);
    PB_TRY(store_merge_begin(store, w->word[1], &m, err));
    const StoreMerged *d = store_merge_done(m);
    PbStatus status;
    while ((status = store_merge_step(m, judge, NULL, now, err)) == PB_OK) {
        if (d->done % 20 == 0) {
            fprintf(stderr, "%d of %d runs looked at\n", d->done, d->count);
        }
    }
    printf(
        "%d runs looked at; new here: runs %d, people %d, drills %d; here already: %d; broken off "
        "there and not taken: %d; refused, as they do not replay: %d\n",
        d->done, d->taken, d->people, d->drills, d->had, d->left, d->refused);
    store_merge_end(m);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

static const struct {
    const char *name;
    int words;
    PbStatus (*run)(Store *store, const Words *w, int *code, PbError *err);
} acts[] = {{"list", 1, list},         {"add", 2, add},     {"rename", 3, rename_one},
            {"delete", 2, delete_one}, {"table", 1, table}, {"drills", 1, drills},
            {"merge", 2, merge}};
enum { ACTS = sizeof acts / sizeof acts[0] };

int verb_learners(const CliVerb *verb, int argc, char **argv)
{
    Words w = {.word = argv + 1};
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, &w, 3, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    size_t at = 0;
    while (at < ACTS && (parsed.count == 0 || strcmp(acts[at].name, w.word[0]) != 0)) {
        at++;
    }
    if (at == ACTS || acts[at].words != parsed.count) {
        return cli_expected(verb);
    }
    Store *store;
    PbError err = {0};
    PbStatus status = store_open(w.db, &store, &err);
    if (status != PB_OK) {
        return cli_report(&err);
    }
    status = acts[at].run(store, &w, &code, &err);
    store_close(store);
    return status == PB_OK ? code : cli_store_report(&err, status);
}
