/* Jobs, printed and done again. Next: verb_job.c, io/job_file.c. */
#include "job_run.h"

#include "cli/data_files.h"
#include "core/job_heat.h"
#include "io/act_words.h"
#include "io/job_heat_words.h"
#include "io/job_words.h"
#include "io/score_words.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void print_bay(const PbJob *job, const PbJobMarks *m, int n, IoReaderTaste taste)
{
    int count;
    char area[32], density[32] = "-";
    const PbFramedBay *b = &pb_bays_list(pb_job_bays(job), &count)[n];
    const PbJobBay *bay = &m->bays[n];
    io_unit_figure(IO_UNIT_AREA, b->area_m2, taste, area, sizeof area);
    if (bay->mean_kg_m3 >= 0.0) {
        io_unit_figure(IO_UNIT_DENSITY, bay->mean_kg_m3, taste, density, sizeof density);
    }
    printf("%s %-3d %9s  %11s  %s", words_in(taste.language, N_("bay")), n + 1, area, density,
           io_job_bay_name(bay->kind, taste.language));
    if (bay->left != PB_LEAVE_NONE) {
        printf(": %s", io_leave_words(bay->left, taste.language));
    }
    putchar('\n');
}

static void print_marks(const PbJobMarks *m, IoReaderTaste taste)
{
    char text[400];
    io_job_verdict(m, taste.language, text, sizeof text);
    printf("\n%s\n", text);
    for (int p = 0; p < PB_JOB_PARTS; p++) {
        if (m->max[p] > 0.0) {
            printf("%6.1f / %-4.0f %s\n", m->points[p], m->max[p],
                   io_job_part_name((PbJobPartKind)p, taste.language));
        }
    }
    printf("%6d / 100  %s\n", io_mark_shown(m->total), words_in(taste.language, N_("points")));
    for (int i = 0; i < m->loss_count; i++) {
        const PbJobLoss *l = &m->losses[i];
        if (l->part >= 0 && l->points < 0.05) {
            continue;
        }
        io_job_loss_sentence(l, taste, text, sizeof text);
        if (l->part < 0) {
            printf("  %s  %s\n", words_in(taste.language, N_("gate")), text);
        } else {
            printf("%6.1f  %s\n", -l->points, text);
        }
        if (l->fault == PB_JOB_FAULT_WIRE) {
            printf("        %s\n", io_job_wire_caution(taste.language));
        }
    }
}

static PbStatus print_json(const IoJob *in, const PbJob *job, const PbJobMarks *marks)
{
    (void)io_json_short();
    json_t *json = io_job_to_json(in, job, marks);
    PbStatus status = json == NULL || io_json_short() ? PB_ERR_MEMORY : PB_OK;
    if (status == PB_OK && (json_dumpf(json, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15)) != 0 ||
                            putchar('\n') == EOF || fflush(stdout) != 0)) {
        status = PB_ERR_IO;
    }
    json_decref(json);
    return status;
}

static void print_leak(const PbJob *job, IoReaderTaste taste)
{
    char before[32], after[32];
    double before_m3_s, after_m3_s;
    pb_job_leak(job, &before_m3_s, &after_m3_s);
    if (before_m3_s > 0.0) {
        io_unit_figure(IO_UNIT_FLOW, before_m3_s, taste, before, sizeof before);
        io_unit_figure(IO_UNIT_FLOW, after_m3_s, taste, after, sizeof after);
        printf(
            words_in(taste.language, N_("through the filled bays at 75 Pa: %s before, %s after")),
            before, after);
        putchar('\n');
    }
}

static PbStatus print_heat(const PbJob *job, IoReaderTaste taste)
{
    PbError err;
    char text[500];
    PbJobHeat heat[PB_JOB_HEAT_CASES];
    PB_TRY(pb_job_heat_all(job, PB_JOB_HEAT_ROOM_C, PB_JOB_HEAT_COLD_C, heat, &err));
    io_job_heat_sentence(heat, taste, text, sizeof text);
    pb_job_heat_free_all(job, heat);
    printf("%s\n", text);
    return PB_OK;
}

/* Areas, bags and minutes. */
static void print_sums(const PbJob *job, const PbJobMarks *m, IoReaderTaste taste)
{
    char filled[32], fillable[32], used[32], estimated[32], wanted[32], minutes[32];
    io_unit_figure(IO_UNIT_AREA, m->filled_m2, taste, filled, sizeof filled);
    io_unit_figure(IO_UNIT_AREA, m->fillable_m2, taste, fillable, sizeof fillable);
    io_figure(m->used_bags, 1, "", taste, used, sizeof used);
    io_figure(m->wanted_bags, 1, "", taste, wanted, sizeof wanted);
    io_figure(m->minutes, 0, "", taste, minutes, sizeof minutes);
    printf(words_in(taste.language, N_("filled %s of %s; ")), filled, fillable);
    if (m->estimate_bags >= 0.0) {
        io_figure(m->estimate_bags, 1, "", taste, estimated, sizeof estimated);
        printf(words_in(taste.language, N_("bags %s used, %s estimated, ")), used, estimated);
    } else {
        printf(words_in(taste.language, N_("bags %s used, ")), used);
    }
    printf(words_in(taste.language, N_("%s by area and target; %s minutes; ")), wanted, minutes);
    printf("0x%016" PRIx64 "\n", pb_job_hash(job));
}

int cli_job_print(const IoJob *in, const PbJob *job, const PbJobMarks *m, IoReaderTaste taste,
                  int is_json)
{
    if (is_json) {
        return cli_printed(print_json(in, job, m));
    }
    printf("%s; %s; %s %" PRIu64 "\n", words_in(taste.language, in->framing.title),
           words_in(taste.language, in->acts.name), words_in(taste.language, N_("seed")), in->seed);
    for (int n = 0; n < m->bay_count; n++) {
        print_bay(job, m, n, taste);
    }
    print_sums(job, m, taste);
    print_leak(job, taste);
    PbStatus status = print_heat(job, taste);
    print_marks(m, taste);
    return cli_printed(status);
}

/* What a job file came to when it is done again. */
typedef struct Again {
    IoJob in;
    PbJob *job;
    PbJobMarks marks;
} Again;

static Again *load(const char *path, int is_worked, int *code)
{
    const char *folders[CLI_DATA_FOLDERS];
    PbError err = {0};
    Again *a = calloc(1, sizeof *a);
    PbStatus status = PB_ERR_MEMORY;
    if (a != NULL) {
        status = io_job_load(path, folders, cli_data_folders(folders), &a->in, &err);
        if (status == PB_OK && is_worked) {
            status = io_job_work(&a->in, NULL, &a->job, &err);
        }
        if (status == PB_OK && is_worked) {
            pb_job_mark(a->job, &a->marks);
        }
    } else {
        (void)pb_fail(&err, status, "out of memory");
    }
    err.status = status;
    *code = status == PB_OK ? CLI_DONE : cli_report(&err);
    return a;
}

static void give_back(Again *a)
{
    if (a != NULL) {
        pb_job_destroy(a->job);
        io_job_free(&a->in);
        free(a);
    }
}

static int compare(const Again *a)
{
    for (int i = 0; i < a->in.fill_count; i++) {
        const PbJobFill *f = i < pb_job_fill_count(a->job) ? pb_job_fill(a->job, i) : NULL;
        if (f == NULL || f->bay != a->in.fill_bay[i] ||
            f->result.state_hash != a->in.fill_hash[i]) {
            printf("parts at fill %d, bay %d: 0x%016" PRIx64 " recorded\n", i + 1,
                   a->in.fill_bay[i] + 1, a->in.fill_hash[i]);
            return CLI_NO;
        }
    }
    if (a->in.is_ended && a->in.hash != pb_job_hash(a->job)) {
        printf("fills agree, what was felt does not: 0x%016" PRIx64 " recorded\n", a->in.hash);
        return CLI_NO;
    }
    printf("%d fills, %s: the same, hash by hash\n", a->in.fill_count,
           a->in.is_ended ? "to the end" : "cut off before the end");
    return CLI_DONE;
}

int cli_job_replay(const char *path)
{
    int code;
    Again *a = load(path, 1, &code);
    if (code == CLI_DONE && a->in.physics_version != PB_PHYSICS_VERSION) {
        printf("re-simulated: recorded by physics %d, this is %d\n", a->in.physics_version,
               PB_PHYSICS_VERSION);
    } else if (code == CLI_DONE) {
        code = compare(a);
    }
    give_back(a);
    return code;
}

int cli_job_grade(const char *path, IoReaderTaste taste, int is_json)
{
    int code;
    Again *a = load(path, 1, &code);
    if (code == CLI_DONE) {
        code = cli_job_print(&a->in, a->job, &a->marks, taste, is_json);
    }
    if (code == CLI_DONE && !a->marks.is_pass) {
        code = CLI_NO;
    }
    give_back(a);
    return code;
}

int cli_job_check(const char *path)
{
    int code;
    Again *a = load(path, 0, &code);
    if (code == CLI_DONE) {
        printf("%s: a job at %s (%s), seed %" PRIu64 ": %d fills%s\n", path, a->in.framing.id,
               a->in.acts.name, a->in.seed, a->in.fill_count,
               a->in.is_ended ? "" : ", cut off before its end");
    }
    give_back(a);
    return code;
}

int cli_acts_check(const char *path)
{
    PbError err = {0};
    IoJobActs *acts = calloc(1, sizeof *acts);
    if (acts == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "out of memory");
        return cli_report(&err);
    }
    err.status = io_acts_load(path, acts, &err);
    if (err.status == PB_OK) {
        printf("%s: ok\n  crew: %s, %s, %d acts\n", path, acts->name,
               acts->has_rule ? "by rule" : "no rule", acts->act_count);
    }
    int code = err.status == PB_OK ? CLI_DONE : cli_report(&err);
    io_acts_free(acts);
    free(acts);
    return code;
}
