/*
 * job: a whole wall by rule or by acts: what became of each bay, the marks, what each point went
 * for. All input is judged before the first act; the job file is written as the job goes.
 */
#include "job_run.h"
#include "outputs.h"
#include "verbs.h"

#include "cli/data_files.h"
#include "io/clock.h"
#include "io/compare_words.h"
#include "os/file.h"
#include "report/job.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct JobOptions {
    const char *wall, *acts, *out, *pdf;
    uint64_t seed;
    int threads, is_json;
    ReportPaper paper;
    IoReaderTaste taste;
} JobOptions;

#define AT(member) .at = offsetof(JobOptions, member)
const CliOption job_options[] = {
    {"--acts", "FILE", "what the crew does, by rule or act by act; default a careful crew",
     cli_take_text, AT(acts)},
    {"--seed", "N", "chances of this job, default 1", cli_take_seed, AT(seed),
     .expected = "a whole number from 0"},
    {"-o", "OUT.pbjob", "keep the job, for replay and grade", cli_take_text, AT(out)},
    {"--pdf", "OUT", "the record of the job on one page", cli_take_page, AT(pdf),
     .expected = "the name of a file"},
    {"--paper", "a4|letter", "of the record", cli_take_paper, AT(paper),
     .expected = "a4 or letter"},
    {"--json", NULL, "the whole result, for programs", cli_take_flag, AT(is_json)},
    {"--lang", "en|es", "language of the sentences", cli_take_language, AT(taste),
     .expect = words_codes},
    {"--units", "si|us", "units of the sentences", cli_take_units, AT(taste),
     .expected = "si or us"},
    {"--threads", "N", "1 to 16, default all cores", cli_take_whole, AT(threads), NULL, 1, 16},
    {.name = NULL},
};

static int parse(const CliVerb *verb, int argc, char **argv, JobOptions *o)
{
    CliParsed parsed;
    *o = (JobOptions){.seed = 1, .taste = io_taste_here(WORDS_ENGLISH)};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE || parsed.count == 0) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    o->wall = argv[1];
    const char *const in[] = {o->wall, o->acts};
    const IoPlace out[] = {{o->out, IO_BEGINS_NEW, 0}, {o->pdf, IO_BEGINS_PDF, 0}};
    return cli_check_outputs(out, 2, in, 2);
}

static PbStatus write_pdf(const JobOptions *o, const IoJob *in, const PbJob *job,
                          const PbJobMarks *marks, PbError *err)
{
    ReportJob r = {.job = job, .marks = marks, .taste = o->taste};
    char now[IO_UTC_SIZE];
    int year = 0, month = 1, day = 1;
    io_now_utc(now);
    snprintf(r.wall, sizeof r.wall, "%.96s", words_in(o->taste.language, in->framing.title));
    snprintf(r.crew, sizeof r.crew, "%.63s", words_in(o->taste.language, in->acts.name));
    if (sscanf(now, "%d-%d-%d", &year, &month, &day) == 3) {
        io_date_words(year, month, day, o->taste, r.date, sizeof r.date);
    }
    PbJobHeat heat[PB_JOB_HEAT_CASES];
    PB_TRY(pb_job_heat_all(job, PB_JOB_HEAT_ROOM_C, PB_JOB_HEAT_COLD_C, heat, err));
    r.heat = heat;
    PbStatus status = report_job_pdf(&r, o->pdf, o->paper, cli_font_folder(), now, err);
    pb_job_heat_free_all(job, heat);
    return status;
}

/* The file is there from the first line on, so that what was done stands in it whatever happens. */
static PbStatus work(const JobOptions *o, const IoJob *in, PbJob **job, PbJobMarks *marks,
                     PbError *err)
{
    FILE *out = NULL;
    if (o->out != NULL) {
        out = os_open_stream(o->out, OS_TO_WRITE_NEW);
        if (out == NULL) {
            return pb_fail(err, PB_ERR_IO, "cannot write %s", o->out);
        }
    }
    PbStatus status = io_job_work(in, out, job, err);
    if (status == PB_OK) {
        pb_job_mark(*job, marks);
        status = out != NULL ? io_job_end(out, *job, marks, err) : PB_OK;
    }
    if (out != NULL && fclose(out) != 0 && status == PB_OK) {
        status = pb_fail(err, PB_ERR_IO, "cannot write %s", o->out);
    }
    if (out != NULL && (status == PB_ERR_STATE || status == PB_ERR_RANGE)) {
        (void)os_remove(o->out); /* refused before the first fill */
    }
    return status;
}

int verb_job(const CliVerb *verb, int argc, char **argv)
{
    JobOptions o;
    const char *folders[CLI_DATA_FOLDERS];
    PbError err = {0};
    PbJob *job = NULL;
    int code = parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    IoJob *in = calloc(1, sizeof *in);
    PbJobMarks *marks = calloc(1, sizeof *marks);
    PbStatus status = PB_ERR_MEMORY;
    if (in == NULL || marks == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "out of memory");
    } else {
        status = io_job_of(o.wall, o.acts, folders, cli_data_folders(folders), in, &err);
        in->seed = o.seed;
        in->threads = o.threads;
    }
    if (status == PB_OK) {
        status = work(&o, in, &job, marks, &err);
    }
    if (status == PB_OK && o.pdf != NULL) {
        status = write_pdf(&o, in, job, marks, &err);
    }
    if (status == PB_OK) {
        code = cli_job_print(in, job, marks, o.taste, o.is_json);
    } else {
        err.status = status;
        code = cli_report(&err);
    }
    pb_job_destroy(job);
    if (in != NULL) {
        io_job_free(in);
    }
    free(in);
    free(marks);
    return code;
}
