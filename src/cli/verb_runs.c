/* runs: what the store keeps, in and out of it. Next: runs_judge.c, runs_print.c. */
#include "outputs.h"
#include "runs_options.h"
#include "shipped.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/front.h"

#include "io/clock.h"
#include "io/doc.h"
#include "io/output_file.h"
#include "os/file.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#define AT(member) .at = offsetof(RunsOptions, member)
const CliOption runs_options[] = {
    {"--learner", "NAME", "list, import, xapi: whose runs", cli_take_text, AT(learner)},
    {"--exercise", "ID", "list, xapi: of this exercise alone", cli_take_text, AT(exercise)},
    {"--json", NULL, "list: for programs", cli_take_flag, AT(is_json)},
    {"--csv", NULL, "list: for programs", cli_take_flag, AT(is_csv)},
    {"--part", "PART", "comment: which part of the grade", cli_take_text, AT(part)},
    {"--points", "X", "comment: the trainer's points", cli_take_number, AT(points), "0 to 100", 0.0,
     100.0},
    {"--reason", "TEXT", "comment: why", cli_take_text, AT(reason)},
    {"--by", "NAME", "comment: who says so", cli_take_text, AT(by)},
    {"--rubric", "FILE.json", "regrade, pdf: mark by it; both grades stay", cli_take_text,
     AT(rubric)},
    {"--yes", NULL, "delete: without asking", cli_take_flag, AT(is_yes)},
    {"--paper", "a4|letter", "pdf: else letter for US units, A4 for SI", cli_take_paper,
     AT(pdf.paper), .expected = "a4 or letter"},
    {"--lang", "en|es", "pdf: language of the sentences", cli_take_language, AT(pdf.taste),
     .expect = words_codes},
    {"--units", "si|us", "pdf: units of the sentences", cli_take_units, AT(pdf.taste),
     .expected = "si or us"},
    {"--home", "URL", "xapi: address that the statements name", cli_take_text, AT(home)},
    {"--quick", NULL, "check: the bytes alone, no run is played", cli_take_flag, AT(is_quick)},
    {"--db", "PATH", "another database than the person's own", cli_take_text, AT(db)},
    {.name = NULL},
};

/* Nonzero when these bytes are there already. */
static int is_there(const char *path, const void *bytes, size_t size)
{
    char *old;
    size_t old_size;
    PbError err;
    OsLook look = os_look(path);
    if (look.kind != OS_FILE || look.bytes != size ||
        io_read_file(path, STORE_FILE_BYTES, &old, &old_size, &err) != PB_OK) {
        return 0;
    }
    int is_it = old_size == size && memcmp(old, bytes, size) == 0;
    free(old);
    return is_it;
}

static PbStatus write_run(const char *path, const void *bytes, size_t size, PbError *err)
{
    IoOutput out;
    if (strcmp(path, "-") == 0) {
        (void)!fwrite(bytes, 1, size, stdout); /* main looks at the stream at the very end */
        return PB_OK;
    }
    if (!is_there(path, bytes, size)) {
        PB_TRY(io_output_open(path, IO_BEGINS_NEW, &out, err));
        fwrite(bytes, 1, size, out.file);
        PB_TRY(io_output_commit(&out, err));
    }
    printf("%zu bytes to %s\n", size, path);
    return PB_OK;
}

static PbStatus export_one(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    void *bytes;
    size_t size;
    (void)code;
    PB_TRY(store_run_bytes(store, o->id, &bytes, &size, err));
    PbStatus status = write_run(o->word[2], bytes, size, err);
    free(bytes);
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
    io_now_utc(mark.marked);
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
    cli_say_remains(store);
    return PB_OK;
}

/* least and most plain words; needs: i an id, l a learner, p a part, h a home, r a rubric, s to
 * know the shipped exercises; the options that it takes, with a space behind each */
static const struct {
    const char *name;
    int least, most;
    const char *needs, *takes;
    PbStatus (*run)(Store *store, const RunsOptions *o, int *code, PbError *err);
} acts[] = {
    {"list", 1, 1, "s", "--learner --exercise --json --csv ", runs_list},
    {"import", 2, 10000, "ls", "--learner ", runs_import},
    {"export", 3, 3, "i", "", export_one},
    {"show", 2, 2, "is", "", runs_show},
    {"pdf", 3, 3, "i", "--rubric --paper --lang --units ", runs_pdf},
    {"comment", 2, 2, "ip", "--part --points --reason --by ", comment},
    {"regrade", 2, 2, "ir", "--rubric ", runs_regrade},
    {"delete", 2, 2, "i", "--yes ", delete_one},
    {"xapi", 1, 1, "hs", "--learner --exercise --home ", runs_xapi},
    {"check", 1, 1, "", "--quick ", runs_check},
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

/* An option that means nothing to this act was meant for something: better asked than ignored. */
static int check_taken(const CliVerb *verb, const CliParsed *parsed, const char *act,
                       const char *takes)
{
    for (const CliOption *o = verb->options; o->name != NULL; o++) {
        char word[24];
        snprintf(word, sizeof word, "%s ", o->name);
        if (cli_is_given(verb, parsed, o->name) && strcmp(o->name, "--db") != 0 &&
            strstr(takes, word) == NULL) {
            return cli_usage("runs", "%s takes no %s", act, o->name);
        }
    }
    return CLI_DONE;
}

/* An export may be given again, so only what it may never replace is judged here. */
static int check_output(const RunsOptions *o)
{
    int is_pdf = strcmp(o->word[0], "pdf") == 0;
    if (!is_pdf && strcmp(o->word[0], "export") != 0) {
        return CLI_DONE;
    }
    if (o->db != NULL) {
        io_output_protect(o->db);
    }
    const char *const in[] = {o->rubric};
    const IoPlace out[] = {{o->word[2], is_pdf ? IO_BEGINS_PDF : IO_BEGINS_ANY, !is_pdf}};
    return cli_check_outputs(out, 1, in, 1);
}

int verb_runs(const CliVerb *verb, int argc, char **argv)
{
    RunsOptions o = {.word = argv + 1, .points = -1.0};
    CliParsed parsed;
    Store *store;
    PbError err = {0};
    o.pdf.taste = io_taste_here(WORDS_ENGLISH);
    int code = cli_parse(verb, argc, argv, &o, argc, &parsed);
    o.count = parsed.count;
    if (code != CLI_DONE) {
        return code;
    }
    int at = 0;
    while (at < ACTS && (o.count == 0 || strcmp(acts[at].name, o.word[0]) != 0)) {
        at++;
    }
    if (at == ACTS || o.count < acts[at].least || o.count > acts[at].most ||
        (o.is_json && o.is_csv)) {
        return cli_expected(verb);
    }
    code = check_taken(verb, &parsed, acts[at].name, acts[at].takes);
    code = code == CLI_DONE ? check_needs(&o, acts[at].needs) : code;
    if (code != CLI_DONE) {
        return code;
    }
    code = check_output(&o);
    if (code != CLI_DONE) {
        return code;
    }
    PbStatus status = strchr(acts[at].needs, 's') != NULL ? cli_shipped_read(&err) : PB_OK;
    if (status == PB_OK) {
        status = store_open(o.db, &store, &err);
    }
    if (status != PB_OK) {
        return cli_report(&err);
    }
    status = acts[at].run(store, &o, &code, &err);
    store_close(store);
    err.status = status;
    return status == PB_OK ? code : cli_store_report(&err, status);
}
