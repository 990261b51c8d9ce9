/* Settling of fill for the age verb: one run with shipped constants, frames, threshold, draws. */
#include "age.h"

#include "cli/front.h"
#include "core/aged_heat.h"
#include "io/field_file.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const metric_names[] = {"top_gap_m", "void_area_m2", "worst_patch_kg_m3",
                                           "effective_r_m2k_w"};

static const PbEffectiveR heat = {pb_aged_r, NULL};

typedef struct FillCase {
    const AgeOptions *options;
    PbBayField bay;
    PbSettleConfig config;
    double years[AGE_MAX_TIMES];
    int times;
} FillCase;

static void describe(const FillCase *c, IoAgeResult *out)
{
    const PbBayField *b = &c->bay;
    static const char *const vibration[] = {"quiet", "light", "heavy"};
    static const char *const face[] = {"gypsum", "film", "lath"};
    static const char *const damp[] = {"shallow", "deep"};
    if (c->options->input != NULL) {
        io_age_text(out, "input", c->options->input);
    } else {
        io_age_number(out, "density_kg_m3", c->options->density_kg_m3);
    }
    age_put_changed(c->options, out);
    io_age_number(out, "width_m", b->width_m);
    io_age_number(out, "height_m", b->height_m);
    io_age_number(out, "depth_m", b->depth_m);
    io_age_number(out, "tilt_deg", b->tilt_deg);
    io_age_number(out, "fill_rh", b->fill_rh_frac);
    io_age_integer(out, "cells_across", b->nx);
    io_age_integer(out, "cells_up", b->ny);
    io_age_text(out, "climate", c->config.climate.name);
    io_age_text(out, "vibration", vibration[c->config.vibration]);
    io_age_text(out, "face", face[c->config.face]);
    io_age_text(out, "damp_reading", damp[c->config.damp]);
    io_age_number(out, "damp_per_rh",
                  c->config.damp == PB_DAMP_DEEP ? c->config.constants.settle_damp_deep
                                                 : c->config.constants.settle_damp);
    io_age_text(out, "note",
                "a range under stated assumptions, not a promise; the damp "
                "reading moves results above RH 50 % by 4 to 6 kg/m3");
}

static void put_series(IoAgeResult *out, const char *key, const PbSettleReport *r, size_t offset,
                       int n)
{
    const double *first = (const double *)(const void *)((const unsigned char *)r + offset);
    io_age_series(out, key, first, n, (int)(sizeof *r / sizeof(double)));
}

static void put_reports(IoAgeResult *out, const PbSettleReport *r, int n, int is_sloped)
{
    put_series(out, "years", r, offsetof(PbSettleReport, years), n);
    put_series(out, "top_gap_m", r, offsetof(PbSettleReport, top_gap_m), n);
    put_series(out, "top_gap_max_m", r, offsetof(PbSettleReport, top_gap_max_m), n);
    put_series(out, "void_area_m2", r, offsetof(PbSettleReport, void_area_m2), n);
    put_series(out, "inner_void_area_m2", r, offsetof(PbSettleReport, inner_void_area_m2), n);
    if (is_sloped) {
        put_series(out, "face_gap_m", r, offsetof(PbSettleReport, face_gap_m), n);
    }
    put_series(out, "worst_patch_kg_m3", r, offsetof(PbSettleReport, worst_patch_kg_m3), n);
    put_series(out, "grip_ratio", r, offsetof(PbSettleReport, grip_ratio), n);
    double mass = 0.0, height = 0.0;
    for (int i = 0; i < n; i++) {
        mass = fmax(mass, r[i].mass_error);
        height = fmax(height, r[i].height_error);
    }
    io_age_number(out, "mean_kg_m3", r[n - 1].mean_kg_m3);
    io_age_number(out, "mass_error", mass);
    io_age_number(out, "height_error", height);
    io_age_integer(out, "steps", r[n - 1].steps);
}

/* The run with shipped constants: reports, frames, effective R. */
static PbStatus run_once(const FillCase *c, IoAgeResult *out, PbError *err)
{
    PbSettle *s;
    PbSettleReport reports[AGE_MAX_TIMES];
    PbAgedBay aged[AGE_MAX_TIMES];
    double r_value[AGE_MAX_TIMES];
    int frames = 0;
    PB_TRY(pb_settle_create(&c->bay, &c->config, &s, err));
    PbStatus status = PB_OK;
    for (int i = 0; i < c->times && status == PB_OK; i++) {
        status = pb_settle_advance(s, c->years[i]);
        pb_settle_report(s, &reports[i]);
        if (status == PB_OK) {
            status = pb_settle_aged(s, 0, &aged[i]);
            frames += status == PB_OK;
        }
        if (status == PB_OK) {
            status = heat.of_bay(heat.user, &c->config.constants, &aged[i], &r_value[i]);
        }
        if (status != PB_OK) {
            (void)pb_fail(err, status, "the run to %g years failed", c->years[i]);
        }
    }
    if (status == PB_OK) {
        put_reports(out, reports, c->times, c->bay.tilt_deg < 90.0);
        io_age_series(out, "effective_r_m2k_w", r_value, c->times, 1);
    }
    if (status == PB_OK && c->options->frames != NULL) {
        status = io_frames_csv_write(c->options->frames, aged, frames, err);
    }
    for (int i = 0; i < frames; i++) {
        pb_aged_destroy(&aged[i]);
    }
    pb_settle_destroy(s);
    return status;
}

static PbStatus draw(const void *user, int index, double *values, PbError *err)
{
    const FillCase *c = user;
    PbSettleConfig config = c->config;
    PbAgeSample samples[AGE_MAX_TIMES];
    config.constants = pb_spread_constants(&c->config.constants, (uint64_t)c->options->seed, index,
                                           c->options->damp_given);
    PB_TRY(pb_spread_age(&c->bay, &config, c->years, c->times, &heat, samples, err));
    for (int t = 0; t < c->times; t++) {
        const double all[PB_AGE_METRICS] = {samples[t].top_gap_m, samples[t].void_area_m2,
                                            samples[t].worst_patch_kg_m3,
                                            samples[t].effective_r_m2k_w};
        memcpy(values + (size_t)t * PB_AGE_METRICS, all, sizeof all);
    }
    return PB_OK;
}

static PbStatus put_threshold(const FillCase *c, IoAgeResult *out, PbError *err)
{
    double kg_m3 = 0.0;
    PbStatus status = pb_settle_threshold(&c->bay, &c->config, c->years[c->times - 1], &kg_m3, err);
    if (status == PB_ERR_NO_RESULT) {
        io_age_number(out, "threshold_kg_m3", (double)NAN);
        io_age_text(out, "threshold_note", err->message);
        return PB_OK;
    }
    io_age_number(out, "threshold_kg_m3", kg_m3);
    return status;
}

int age_fill(const AgeOptions *o)
{
    PbError err = {0};
    FillCase c = {.options = o, .config = pb_settle_default()};
    c.config.constants = o->constants;
    c.config.vibration = (PbVibration)o->vibration;
    c.config.face = (PbFace)o->face;
    c.config.damp = (PbDampReading)o->damp;
    c.times = age_times(o, c.years);
    err.status = age_find_climate(o, &c.config.climate, &err);
    if (err.status != PB_OK) {
        return cli_report(&err);
    }
    err.status = age_load_bay(o, &c.bay, &err);
    if (err.status != PB_OK) {
        return cli_report(&err);
    }
    int code = CLI_INTERNAL;
    memset(&err, 0, sizeof err); /* the files that were read are not where the run may fail */
    IoAgeResult *result = io_age_new("settling");
    PbStatus status = PB_OK;
    if (result == NULL) {
        status = pb_fail(&err, PB_ERR_MEMORY, "out of memory");
    } else {
        describe(&c, result);
        status = run_once(&c, result, &err);
    }
    if (status == PB_OK && o->threshold) {
        status = put_threshold(&c, result, &err);
    }
    if (status != PB_OK) {
        err.status = status;
        code = cli_report(&err);
    } else if (o->spread > 0) {
        AgeSpread spread = {o->spread, c.times, PB_AGE_METRICS, metric_names, draw, &c};
        code = age_spread_print(o, &spread, result);
    } else {
        code = cli_printed(io_age_print(stdout, result, o->json));
    }
    io_age_free(result);
    pb_bay_field_destroy(&c.bay);
    return code;
}
