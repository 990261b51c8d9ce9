/* Luck: the same good hands on walls of many seeds, and whether any of them can break. */
#include "lab/teach.h"
#include "session/session_private.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { SEEDS = 20, SHEETS = 1000 };

static const char *const bays[] = {"plain-2x4", "deep-2x6", "wide-24"};
enum { BAYS = sizeof bays / sizeof bays[0] };

static void print_bay(const char *id, const TeachJob *jobs, int count)
{
    double sum = 0.0, squares = 0.0, least = 100.0, most = 0.0, load = 0.0;
    int passed = 0, broken = 0;
    for (int i = 0; i < count; i++) {
        const TeachRun *r = &jobs[i].run;
        sum += r->score.total;
        squares += r->score.total * r->score.total;
        least = fmin(least, r->score.total);
        most = fmax(most, r->score.total);
        load = fmax(load, r->load);
        passed += r->score.is_pass;
        broken += r->result.blow_out;
    }
    double mean = sum / count;
    double sd = count > 1 ? sqrt(fmax(0.0, (squares - sum * mean) / (count - 1))) : 0.0;
    printf("| `%s` | %d | %.1f | %.2f | %.1f to %.1f | %d | %d | %.2f |\n", id, count, mean, sd,
           least, most, passed, broken, load);
}

PbStatus teach_weakest_sheet(const TeachBay *bay, int sheets, double *share)
{
    *share = 1.0;
    for (int seed = 1; seed <= sheets; seed++) {
        PbSessionConfig config = pb_session_default();
        PbSession *session;
        config.exercise = bay->exercise;
        config.seed = (uint64_t)seed;
        PB_TRY(pb_session_create(&config, &session, NULL));
        const PbSim *sim = pb_session_sim(session);
        for (int i = 0; i < sim->strength_count; i++) {
            *share = fmin(*share, sim->panel.strength_pa[i] / sim->panel.expected_pa);
        }
        pb_session_destroy(session);
    }
    return PB_OK;
}

/* Hands that ease off break no rule; these leave the blower alone, which loads the face most. */
static TeachHabits good_hands(void)
{
    TeachHabits h = teach_textbook();
    h.eases = 0;
    return h;
}

static PbStatus print_rows(const TeachSetup *setup, TeachJob *jobs, int seeds, PbError *err)
{
    TeachBay bay;
    for (int b = 0; b < BAYS; b++) {
        PB_TRY(teach_bay(setup->assets, bays[b], &bay, err));
        for (int i = 0; i < seeds; i++) {
            jobs[i] = (TeachJob){.bay = &bay, .habits = good_hands(), .seed = (uint64_t)i + 1};
        }
        PbStatus status = teach_run_all(jobs, seeds, setup->threads);
        if (status != PB_OK) {
            return pb_fail(err, status, "a run did not come to its end");
        }
        print_bay(bays[b], jobs, seeds);
    }
    return PB_OK;
}

PbStatus teach_print_sheets(const TeachSetup *setup, PbError *err)
{
    TeachBay plain;
    double weakest;
    PB_TRY(teach_bay(setup->assets, bays[0], &plain, err));
    if (teach_weakest_sheet(&plain, SHEETS, &weakest) != PB_OK) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    printf("The weakest place of the %d sheets that seeds 1 to %d draw for `plain-2x4` has %.2f "
           "of the strength expected of such a sheet.\n",
           SHEETS, SHEETS, weakest);
    return PB_OK;
}

PbStatus teach_print_seeds(const TeachSetup *setup, PbError *err)
{
    int seeds = setup->seeds > 0 ? setup->seeds : SEEDS;
    TeachJob *jobs = calloc((size_t)seeds, sizeof *jobs);
    if (jobs == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    printf("| exercise | seeds | mean mark | SD | least to most | passed | broken | highest load "
           "|\n|---|---|---|---|---|---|---|---|\n");
    PbStatus status = print_rows(setup, jobs, seeds, err);
    free(jobs);
    return status;
}
