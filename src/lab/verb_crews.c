/*
 * crews: four scripted crews over the six walls or over walls drawn by era: the tables of
 * docs/formats/job.md. Each crew knows what its acts tell it, and nothing else of the wall.
 */
#include "verbs.h"

#include "cli/data_files.h"
#include "core/generate.h"
#include "io/eras_file.h"
#include "io/framing_file.h"
#include "io/job_file.h"
#include "os/file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const walls[] = {"two-bays",      "window-wall", "kitchen",
                                    "balloon-frame", "stair-wall",  "old-wiring"};
static const char *const crews[] = {"careful", "tape", "hasty", "fill-all"};
enum { WALLS = sizeof walls / sizeof walls[0], CREWS = sizeof crews / sizeof crews[0] };

typedef struct CrewOptions {
    const char *wall;
    int year, seeds, threads;
} CrewOptions;

#define AT(member) .at = offsetof(CrewOptions, member)
const CliOption crews_options[] = {
    {"--wall", "NAME", "only this wall of assets/walls", cli_take_text, AT(wall)},
    {"--era", "YEAR", "walls drawn for 1900, 1925, 1955 or 1978", cli_take_whole, AT(year), NULL,
     1900, 1978},
    {"--seeds", "N", "so many, default 1", cli_take_whole, AT(seeds), NULL, 1, 1000},
    {"--threads", "N", "1 to 16, default all cores", cli_take_whole, AT(threads), NULL, 1, 16},
    {.name = NULL},
};

/* Of one crew over several jobs. */
typedef struct Row {
    int jobs, passed, shut[PB_JOB_GATES];
    double total, filled_m2, fillable_m2, used, wanted, minutes;
} Row;

typedef struct Work {
    const char *folders[CLI_DATA_FOLDERS];
    int folder_count;
    IoJob in;
    PbJobMarks marks;
    PbEra eras[PB_ERAS];
} Work;

static PbStatus add_job(Work *w, uint64_t seed, Row *row, PbError *err)
{
    PbJob *job;
    w->in.seed = seed;
    w->in.cells_across = PB_GRID_DEFAULT;
    PB_TRY(io_job_work(&w->in, NULL, &job, err));
    pb_job_mark(job, &w->marks);
    pb_job_destroy(job);
    const PbJobMarks *m = &w->marks;
    row->jobs++;
    row->passed += m->is_pass;
    row->total += m->total;
    row->filled_m2 += m->filled_m2;
    row->fillable_m2 += m->fillable_m2;
    row->used += m->used_bags;
    row->wanted += m->wanted_bags;
    row->minutes += m->minutes;
    for (int g = 0; g < PB_JOB_GATES; g++) {
        row->shut[g] += m->is_shut[g];
    }
    return PB_OK;
}

static void print_row(const char *where, const char *crew, const Row *r)
{
    printf("| %s | %s | %.0f | %d of %d |", where, crew, r->total / r->jobs, r->passed, r->jobs);
    for (int g = 0; g < PB_JOB_GATES; g++) {
        if (r->shut[g] > 0) {
            printf(" %s %d", pb_job_gate_word((PbJobGateKind)g), r->shut[g]);
        }
    }
    if (r->fillable_m2 > 0.0) {
        printf(" | %.1f | %.2f |", 100.0 * r->filled_m2 / r->fillable_m2, r->used / r->wanted);
    } else {
        printf(" | - | - |");
    }
    printf(" %.0f |\n", r->minutes / r->jobs);
}

/* Where a shipped file is: the last folder is as good as any for a complaint. */
static void find(const Work *w, const char *kind, const char *name, char *out, size_t size)
{
    for (int i = 0; i < w->folder_count; i++) {
        snprintf(out, size, "%s/%s/%s.json", w->folders[i], kind, name);
        FILE *f = os_open_stream(out, OS_TO_READ);
        if (f != NULL) {
            (void)fclose(f);
            return;
        }
    }
}

static PbStatus crew_at(Work *w, const CrewOptions *o, const char *wall, int crew, PbError *err)
{
    char path[1024], where[48];
    Row row = {0};
    find(w, "crews", crews[crew], path, sizeof path);
    PB_TRY(io_acts_load(path, &w->in.acts, err));
    if (wall != NULL) {
        snprintf(where, sizeof where, "%s", wall);
    } else {
        snprintf(where, sizeof where, "%d", o->year);
    }
    for (int s = 1; s <= o->seeds; s++) {
        if (wall == NULL) {
            int era = 0;
            while (era + 1 < PB_ERAS && pb_era_years[era] != o->year) {
                era++;
            }
            pb_generate_wall(&w->eras[era], o->year, (uint64_t)s, &w->in.framing);
        } else {
            find(w, "walls", wall, path, sizeof path);
            PB_TRY(io_framing_load(path, w->folders, w->folder_count, &w->in.framing, err));
        }
        PB_TRY(add_job(w, (uint64_t)s, &row, err));
    }
    print_row(where, w->in.acts.name, &row);
    (void)fflush(stdout);
    io_acts_free(&w->in.acts);
    return PB_OK;
}

static PbStatus table(Work *w, const CrewOptions *o, PbError *err)
{
    w->folder_count = cli_data_folders(w->folders);
    w->in.threads = o->threads;
    PB_TRY(io_eras_find(w->folders, w->folder_count, w->eras, err));
    printf("| wall | crew | points | passed | gates shut | filled, %% of area | bags over wanted | "
           "minutes |\n|---|---|---|---|---|---|---|---|\n");
    for (int n = 0; n < (o->year > 0 ? 1 : WALLS); n++) {
        if (o->wall != NULL && strcmp(o->wall, walls[n]) != 0) {
            continue;
        }
        for (int c = 0; c < CREWS; c++) {
            PB_TRY(crew_at(w, o, o->year > 0 ? NULL : walls[n], c, err));
        }
    }
    return PB_OK;
}

int verb_crews(const CliVerb *verb, int argc, char **argv)
{
    CrewOptions o = {.seeds = 1};
    CliParsed parsed;
    PbError err = {0};
    int code = cli_parse(verb, argc, argv, &o, 0, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    Work *w = calloc(1, sizeof *w);
    if (w == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "out of memory");
        return cli_report(&err);
    }
    err.status = table(w, &o, &err);
    io_acts_free(&w->in.acts);
    free(w);
    return err.status == PB_OK ? CLI_DONE : cli_report(&err);
}
