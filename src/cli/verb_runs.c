/* runs: what the store keeps, in and out of it. Next: runs_judge.c, runs_print.c. */
#include "options.h"
#include "runs_options.h"
#include "shipped.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/front.h"
#include "io/clock.h"
#include "io/doc.h"
#include "io/output_file.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const char usage[] =
    "expected list [--learner NAME] [--exercise ID] [--json|--csv] | import FILE ... --learner "
    "NAME "
    "| export ID OUT | show ID | comment ID --part PART [--points X] [--reason TEXT] [--by NAME] | "
    "regrade ID --rubric FILE.json | delete ID [--yes] | pdf ID OUT [--rubric FILE.json] [--paper "
    "a4|letter] [--lang en|es] [--units si|us] | xapi "
    "[--learner NAME] [--exercise ID] --home URL | check [--quick]; and [--db PATH]";

static int read_points(const char *text, double *points)
{
    const char *end = io_plain_number(text, points);
    return end != NULL && *end == '\0' && *points >= 0.0 && *points <= 100.0;
}

/* Options whose value is taken as it is. */
static const char **text_option(RunsOptions *o, const char *name)
{
    const struct {
        const char *name;
        const char **to;
    } texts[] = {{"--db", &o->db},     {"--learner", &o->learner}, {"--exercise", &o->exercise},
                 {"--part", &o->part}, {"--reason", &o->reason},   {"--by", &o->by},
                 {"--home", &o->home}, {"--rubric", &o->rubric}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(name, texts[i].name) == 0) {
            return texts[i].to;
        }
    }
    return NULL;
}

/* One option, with its value where it has one. CLI_DONE, an exit code after a complaint, or -1: no
 * such option. */
static int take_option(RunsOptions *o, int argc, char **argv, int *i)
{
    int bad = CLI_DONE;
    const char **text = text_option(o, argv[*i]), *value;
    if (text != NULL && (value = cli_word_after(argc, argv, i, argv[*i])) != NULL) {
        *text = value;
    } else if ((value = cli_word_after(argc, argv, i, "--points")) != NULL) {
        if (!read_points(value, &o->points)) {
            return cli_usage("runs", "--points \"%s\": expected 0 to 100", value);
        }
    } else if ((value = cli_word_after(argc, argv, i, "--lang")) != NULL) {
        bad = cli_language("runs", value, &o->pdf.taste);
    } else if ((value = cli_word_after(argc, argv, i, "--units")) != NULL) {
        if (strcmp(value, "si") != 0 && strcmp(value, "us") != 0) {
            return cli_usage("runs", "--units \"%s\": expected si or us", value);
        }
        o->pdf.taste.is_us = value[0] == 'u';
    } else if (strcmp(argv[*i], "--json") == 0) {
        o->is_json = 1;
    } else if (strcmp(argv[*i], "--csv") == 0) {
        o->is_csv = 1;
    } else if (strcmp(argv[*i], "--yes") == 0) {
        o->is_yes = 1;
    } else if (strcmp(argv[*i], "--quick") == 0) {
        o->is_quick = 1;
    } else if (!cli_pdf_option("runs", argc, argv, i, &o->pdf, &bad)) {
        return -1;
    }
    return bad;
}

static int parse(int argc, char **argv, RunsOptions *o)
{
    memset(o, 0, sizeof *o);
    o->pdf.taste = io_taste_here(WORDS_ENGLISH);
    o->points = -1.0;
    for (int i = 1; i < argc; i++) {
        const char *name = argv[i];
        if (name[0] != '-' || name[1] == '\0') {
            argv[1 + o->count++] = argv[i]; /* plain words move to the front, order kept */
            continue;
        }
        int code = take_option(o, argc, argv, &i);
        if (code < 0) {
            return cli_usage("runs", "\"%s\" is no option, or its value is missing", name);
        }
        if (code > CLI_DONE) {
            return code;
        }
        if (strcmp(name, "--db") != 0) {
            if (o->option_count == RUNS_MAX_OPTIONS) {
                return cli_usage("runs", "\"%s\": more options than there are", name);
            }
            o->option[o->option_count++] = name;
        }
    }
    o->word = argv + 1;
    return CLI_DONE;
}

/* Nonzero when these bytes are there already. */
static int is_there(const char *path, const void *bytes, size_t size)
{
    struct stat st;
    char *old;
    size_t old_size;
    PbError err;
    if (stat(path, &st) != 0 || !S_ISREG(st.st_mode) || (uintmax_t)st.st_size != size ||
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
static int check_taken(const RunsOptions *o, const char *act, const char *takes)
{
    for (int i = 0; i < o->option_count; i++) {
        char word[24];
        snprintf(word, sizeof word, "%s ", o->option[i]);
        if (strstr(takes, word) == NULL) {
            return cli_usage("runs", "%s takes no %s", act, o->option[i]);
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
    code = check_taken(&o, acts[at].name, acts[at].takes);
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
