/* runs: what the store keeps, in and out of it. Next: runs_print.c. */
#include "runs_options.h"
#include "store_options.h"
#include "store_run.h"
#include "verbs.h"

#include "io/doc.h"
#include "io/output_file.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

static const char usage[] =
    "expected list [--learner NAME] [--exercise ID] [--json|--csv] | import FILE ... --learner "
    "NAME "
    "| export ID OUT | show ID | comment ID --part PART [--points X] [--reason TEXT] [--by NAME] | "
    "regrade ID --rubric FILE.json | delete ID [--yes] | pdf ID OUT [--rubric FILE.json] [--paper "
    "a4|letter] [--lang en|es] [--units si|us] | xapi "
    "[--learner NAME] --home URL | check; and [--db PATH]";

static int read_points(const char *text, double *points)
{
    char *end;
    *points = strtod(text, &end);
    return *end == '\0' && end != text && *points >= 0.0 && *points <= 100.0;
}

static int parse(int argc, char **argv, RunsOptions *o)
{
    memset(o, 0, sizeof *o);
    o->points = -1.0;
    const struct {
        const char *name;
        const char **value;
    } words[] = {{"--db", &o->db},     {"--learner", &o->learner}, {"--exercise", &o->exercise},
                 {"--part", &o->part}, {"--reason", &o->reason},   {"--by", &o->by},
                 {"--home", &o->home}, {"--rubric", &o->rubric}};
    for (int i = 1; i < argc; i++) {
        const char *value = NULL;
        int bad = CLI_DONE;
        for (size_t k = 0; k < sizeof words / sizeof words[0] && value == NULL; k++) {
            if ((value = cli_word_after(argc, argv, &i, words[k].name)) != NULL) {
                *words[k].value = value;
            }
        }
        if (value != NULL) {
            continue;
        }
        if ((value = cli_word_after(argc, argv, &i, "--points")) != NULL) {
            if (!read_points(value, &o->points)) {
                return cli_usage("runs", "--points \"%s\": expected 0 to 100", value);
            }
        } else if (cli_pdf_option("runs", argc, argv, &i, &o->pdf, &bad)) {
            if (bad != CLI_DONE) {
                return bad;
            }
        } else if ((value = cli_word_after(argc, argv, &i, "--lang")) != NULL) {
            if (!io_language_from(value, &o->pdf.taste.language)) {
                return cli_usage("runs", "--lang \"%s\": expected en or es", value);
            }
        } else if ((value = cli_word_after(argc, argv, &i, "--units")) != NULL) {
            if (strcmp(value, "si") != 0 && strcmp(value, "us") != 0) {
                return cli_usage("runs", "--units \"%s\": expected si or us", value);
            }
            o->pdf.taste.is_us = value[0] == 'u';
        } else if (strcmp(argv[i], "--json") == 0) {
            o->is_json = 1;
        } else if (strcmp(argv[i], "--csv") == 0) {
            o->is_csv = 1;
        } else if (strcmp(argv[i], "--yes") == 0) {
            o->is_yes = 1;
        } else if (argv[i][0] == '-' && argv[i][1] != '\0') {
            return cli_usage("runs", "\"%s\" is no option, or its value is missing", argv[i]);
        } else {
            argv[1 + o->count] = argv[i]; /* plain words move to the front, order kept */
            o->count++;
        }
    }
    o->word = argv + 1;
    return CLI_DONE;
}

static PbStatus import_one(Store *store, const StoreLearner *learner, const char *path,
                           PbError *err)
{
    PbRunSummary m;
    char now[24], *bytes;
    size_t size;
    int64_t id;
    cli_now(now);
    PB_TRY(cli_summarize("runs", path, now, &m, err));
    PB_TRY(io_read_file(path, STORE_FILE_BYTES, &bytes, &size, err));
    PbStatus status = store_run_add(store, learner->id, bytes, size, &m, now, &id, err);
    free(bytes);
    if (status == PB_OK) {
        printf("run %" PRId64 ": %s, %s, %.1f of 100, %s\n", id, learner->name, m.exercise_id,
               m.total, m.is_pass ? "passed" : "not passed");
    }
    return status;
}

static PbStatus import(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreLearner learner;
    (void)code;
    PB_TRY(cli_find_learner(store, o->learner, &learner, err));
    for (int i = 1; i < o->count; i++) {
        PB_TRY(import_one(store, &learner, o->word[i], err));
    }
    return PB_OK;
}

static PbStatus export_one(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    void *bytes;
    size_t size;
    IoOutput out;
    (void)code;
    PB_TRY(store_run_bytes(store, o->id, &bytes, &size, err));
    PbStatus status = io_output_open(o->word[2], &out, err);
    if (status == PB_OK) {
        fwrite(bytes, 1, size, out.file);
        status = io_output_commit(&out, err);
    }
    free(bytes);
    if (status == PB_OK) {
        printf("run %" PRId64 ": %zu bytes to %s\n", o->id, size, o->word[2]);
    }
    return status;
}

static PbStatus comment(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreMark mark;
    (void)code;
    memset(&mark, 0, sizeof mark);
    const char *reason = o->reason != NULL ? o->reason : "", *by = o->by != NULL ? o->by : "";
    if (strlen(o->part) >= sizeof mark.part || strlen(reason) >= sizeof mark.reason ||
        strlen(by) >= sizeof mark.trainer) {
        return pb_fail(err, PB_ERR_RANGE, "a part, a reason or a name is too long");
    }
    strcpy(mark.part, o->part);
    strcpy(mark.reason, reason);
    strcpy(mark.trainer, by);
    mark.points = o->points;
    cli_now(mark.marked);
    PB_TRY(store_mark_add(store, o->id, &mark, err));
    printf("run %" PRId64 ": %s noted; the computed points stand beside it\n", o->id, o->part);
    return PB_OK;
}

static PbStatus delete_one(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreRun run;
    char question[400];
    PB_TRY(store_run_get(store, o->id, &run, err));
    snprintf(question, sizeof question,
             "Delete run %" PRId64
             " of %s (%s, %s) with its file, grades and %d marks? This cannot "
             "be undone.",
             run.id, run.learner, run.summary.exercise_id, run.summary.when, run.mark_count);
    if (!o->is_yes && !cli_confirm(question)) {
        printf("nothing was deleted\n");
        *code = CLI_NO;
        return PB_OK;
    }
    PB_TRY(store_run_delete(store, o->id, err));
    printf("deleted: run %" PRId64 "\n", o->id);
    return PB_OK;
}

static PbStatus check(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    (void)o;
    (void)code;
    PB_TRY(store_check(store, err));
    printf("%s: whole; every run file is the one that was put in\n", store_path(store));
    return PB_OK;
}

/* least and most plain words; needs: i an id, l a learner, p a part, h a home, r a rubric */
static const struct {
    const char *name;
    int least, most;
    const char *needs;
    PbStatus (*run)(Store *store, const RunsOptions *o, int *code, PbError *err);
} acts[] = {
    {"list", 1, 1, "", runs_list},         {"import", 2, 10000, "l", import},
    {"export", 3, 3, "i", export_one},     {"show", 2, 2, "i", runs_show},
    {"pdf", 3, 3, "i", runs_pdf},          {"comment", 2, 2, "ip", comment},
    {"regrade", 2, 2, "ir", runs_regrade}, {"delete", 2, 2, "i", delete_one},
    {"xapi", 1, 1, "h", runs_xapi},        {"check", 1, 1, "", check},
};
enum { ACTS = sizeof acts / sizeof acts[0] };

static int check_needs(RunsOptions *o, const char *needs)
{
    if (strchr(needs, 'i') != NULL && !cli_read_id(o->word[1], &o->id)) {
        return cli_usage("runs", "\"%s\": expected the number of a run", o->word[1]);
    }
    if (strchr(needs, 'l') != NULL && o->learner == NULL) {
        return cli_usage("runs", "--learner NAME is missing");
    }
    if (strchr(needs, 'p') != NULL && (o->part == NULL || (o->points < 0.0 && o->reason == NULL))) {
        return cli_usage("runs", "--part PART and --points X or --reason TEXT are missing");
    }
    if (strchr(needs, 'r') != NULL && o->rubric == NULL) {
        return cli_usage("runs", "--rubric FILE.json is missing");
    }
    if (strchr(needs, 'h') != NULL && (o->home == NULL || !io_is_home(o->home))) {
        return cli_usage("runs", "--home is missing, or no address like https://school.example");
    }
    return CLI_DONE;
}

int verb_runs(int argc, char **argv)
{
    RunsOptions o;
    Store *store;
    PbError err = {0};
    int code = parse(argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    int at = 0;
    while (at < ACTS && (o.count == 0 || strcmp(acts[at].name, o.word[0]) != 0)) {
        at++;
    }
    if (at == ACTS || o.count < acts[at].least || o.count > acts[at].most ||
        (o.is_json && o.is_csv)) {
        return cli_usage("runs", "%s", usage);
    }
    code = check_needs(&o, acts[at].needs);
    if (code != CLI_DONE) {
        return code;
    }
    PbStatus status = store_open(o.db, &store, &err);
    if (status != PB_OK) {
        return cli_report(&err);
    }
    status = acts[at].run(store, &o, &code, &err);
    store_close(store);
    err.status = status;
    return status == PB_OK ? code : cli_store_report(&err, status);
}
