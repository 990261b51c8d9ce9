/*
 * fit: what weighed boxes say of the constants that carry density, and a material file for run and
 * grade. Input is judged first; the file appears only when all is done. Next: fit_run.c,
 * core/fit.h.
 */
#include "fit_run.h"
#include "outputs.h"
#include "verbs.h"

#include "core/units.h"
#include "io/doc.h"
#include "io/exercise_file.h"
#include "io/machine_file.h"
#include "io/material_file.h"
#include "io/output_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct FitOptions {
    const char *boxes, *machine, *material, *out, *name;
    double scatter;
    uint64_t seed;
    int is_json, is_quick;
} FitOptions;

#define AT(member) .at = offsetof(FitOptions, member)
const CliOption fit_options[] = {
    {"--machine", "NAME", "the machine, by name or file; default plain", cli_take_text,
     AT(machine)},
    {"--material", "NAME", "its bag and moisture, by name or file; default cellulose",
     cli_take_text, AT(material)},
    {"--scatter", "SHARE", "of a weighed density, scale and hands together; default 0.03",
     cli_take_number, AT(scatter), NULL, 0.005, 0.2},
    {"--seed", "N", "chances of the sampler, default 1", cli_take_seed, AT(seed),
     .expected = "a whole number from 0"},
    {"--out", "OUT.json", "write the material with what the boxes left open", cli_take_text,
     AT(out)},
    {"--name", "NAME", "its name: lower-case letters, digits, hyphens; default fitted",
     cli_take_text, AT(name)},
    {"--quick", NULL, "leave out what another box would teach", cli_take_flag, AT(is_quick)},
    {"--json", NULL, "for programs", cli_take_flag, AT(is_json)},
    {.name = NULL},
};

static int parse(const CliVerb *verb, int argc, char **argv, FitOptions *o)
{
    CliParsed parsed;
    *o = (FitOptions){
        .machine = "plain", .material = "cellulose", .name = "fitted", .scatter = 0.03, .seed = 1};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE || parsed.count == 0) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    if (!io_is_name(o->name) || strlen(o->name) > 47) {
        return cli_usage("fit",
                         "--name \"%s\": expected lower-case letters, digits and hyphens, "
                         "at most 47",
                         o->name);
    }
    o->boxes = argv[1];
    const char *const in[] = {o->boxes, o->machine, o->material};
    const IoPlace out[] = {{o->out, IO_BEGINS_NEW, 0}};
    return cli_check_outputs(out, 1, in, 3);
}

static double lb(double kg_m3)
{
    return kg_m3 / PB_KG_M3_PER_LB_FT3;
}

static void print_constants(const PbFit *fit)
{
    printf("%-18s %-8s %-22s %-12s %s\n", "constant", "shipped", "fitted (5 to 95 %)", "unit",
           "left of its range");
    for (int k = 0; k < PB_CARRIERS; k++) {
        const PbConstantInfo *info = pb_carrier_info(k);
        const PbFitBand *b = &fit->constant[k];
        char fitted[48];
        snprintf(fitted, sizeof fitted, "%.3g (%.3g to %.3g)", b->mid, b->low, b->high);
        printf("%-18s %-8.4g %-22s %-12s %.0f %%\n", info->name, info->value, fitted, info->unit,
               fmin(100.0 * fit->kept[k], 100.0));
    }
    printf("\nwhere two constants stand in for each other (correlation beyond 0.3)\n");
    int count = 0;
    for (int i = 0; i < PB_CARRIERS; i++) {
        for (int k = 0; k < i; k++) {
            if (fabs(fit->corr[i][k]) > 0.3) {
                printf("  %-18s %-18s %+.1f\n", pb_carrier(k), pb_carrier(i), fit->corr[i][k]);
                count++;
            }
        }
    }
    if (count == 0) {
        printf("  none\n");
    }
}

static void print_boxes(const IoBoxes *boxes, const CliFitDone *d)
{
    printf("\n%-5s %-26s %s\n", "line", "weighed", "predicted (5 to 95 %)");
    for (int i = 0; i < boxes->count; i++) {
        double w = pb_fit_weighed(&boxes->box[i]);
        const PbFitBand *b = &d->fit.box[i];
        printf("%-5d %.0f kg/m3 (%.1f lb/ft3)    %.0f to %.0f kg/m3 (%.1f to %.1f lb/ft3)%s\n",
               boxes->line[i], w, lb(w), b->low, b->high, lb(b->low), lb(b->high),
               d->gauge_unused[i] ? "; gauge not used: this box does not always stall" : "");
        if (d->density[i].residual > 0.05) {
            printf("      note: a quadratic misses this box by %.0f %%: it says little\n",
                   100.0 * d->density[i].residual);
        }
    }
}

static void print_next(const CliFitDone *d)
{
    int count;
    const PbFitNext *next = pb_fit_next(&count);
    const PbFitBand *p = &d->plain;
    printf(
        "\na 2x4 bay, one-foot steps, 80 in w.c.: %.0f to %.0f kg/m3 (%.1f to %.1f lb/ft3), 8 of "
        "10 draws\n",
        p->low, p->high, lb(p->low), lb(p->high));
    printf("what another box would take off that width\n");
    for (int i = 0; i < count; i++) {
        printf("  %2.0f %%  %s\n", 100.0 * (1.0 - d->stays[i]), next[i].what);
    }
}

static json_t *band_json(const PbFitBand *b)
{
    return json_pack("{sf sf sf}", "p5", b->low, "median", b->mid, "p95", b->high);
}

static json_t *constants_json(const PbFit *fit)
{
    json_t *list = json_array();
    for (int k = 0; k < PB_CARRIERS; k++) {
        json_t *corr = json_object();
        for (int i = 0; i < PB_CARRIERS; i++) {
            (void)json_object_set_new(corr, pb_carrier(i), json_real(fit->corr[k][i]));
        }
        (void)json_array_append_new(list, json_pack("{ss so sf so}", "name", pb_carrier(k), "value",
                                                    band_json(&fit->constant[k]), "kept",
                                                    fit->kept[k], "correlation", corr));
    }
    return list;
}

static json_t *boxes_json(const IoBoxes *boxes, const CliFitDone *d)
{
    json_t *list = json_array();
    for (int i = 0; i < boxes->count; i++) {
        (void)json_array_append_new(list, json_pack("{si sf so sb}", "line", boxes->line[i],
                                                    "weighed_kg_m3", pb_fit_weighed(&boxes->box[i]),
                                                    "predicted_kg_m3", band_json(&d->fit.box[i]),
                                                    "gauge_unused", d->gauge_unused[i]));
    }
    return list;
}

static int print_json(const FitOptions *o, const IoBoxes *boxes, const CliFitDone *d)
{
    int count;
    const PbFitNext *next = pb_fit_next(&count);
    (void)io_json_short();
    json_t *teach = json_array();
    for (int i = 0; i < count && !o->is_quick; i++) {
        (void)json_array_append_new(
            teach, json_pack("{ss sf}", "box", next[i].what, "takes_off", 1.0 - d->stays[i]));
    }
    json_t *root = json_pack("{ss so so so}", "format", "pullback fit 1", "constants",
                             constants_json(&d->fit), "boxes", boxes_json(boxes, d), "next", teach);
    int failed = root == NULL || json_dumpf(root, stdout, JSON_COMPACT | JSON_REAL_PRECISION(12));
    putchar('\n');
    json_decref(root);
    return failed || io_json_short();
}

static PbStatus write_material(const FitOptions *o, const PbProduct *base, const PbFit *fit,
                               PbError *err)
{
    PbProduct p = pb_fit_product(fit, base);
    IoOutput out;
    snprintf(p.id, sizeof p.id, "%s", o->name);
    snprintf(p.title, sizeof p.title, "%.60s, fitted to boxes", base->title);
    json_t *json = io_material_to_json(&p);
    if (json == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = io_output_open(o->out, IO_BEGINS_NEW, &out, err);
    if (status == PB_OK) {
        (void)json_dumpf(json, out.file, JSON_INDENT(1) | JSON_REAL_PRECISION(8));
        (void)fputc('\n', out.file);
        status = io_output_commit(&out, err);
    }
    json_decref(json);
    return status;
}

static PbStatus fit(const FitOptions *o, IoBoxes *boxes, CliFitDone *done, PbError *err)
{
    PbRig rig;
    PbProduct base;
    PB_TRY(io_machine_find(o->machine, NULL, &rig, err));
    PB_TRY(io_material_find(o->material, NULL, &base, err));
    PB_TRY(io_boxes_load(o->boxes, boxes, err));
    CliFitAsk ask = {boxes, &rig, o->scatter, o->seed, !o->is_quick};
    PB_TRY(cli_fit(&ask, done, err));
    return o->out != NULL ? write_material(o, &base, &done->fit, err) : PB_OK;
}

static void print_text(const FitOptions *o, const IoBoxes *boxes, const CliFitDone *done)
{
    print_constants(&done->fit);
    print_boxes(boxes, done);
    if (!o->is_quick) {
        print_next(done);
    }
    printf("\nWhat fits these boxes, within the ranges of the model; other boxes may prove it "
           "wrong.\n");
}

int verb_fit(const CliVerb *verb, int argc, char **argv)
{
    FitOptions o;
    IoBoxes boxes = {.count = 0};
    PbError err = {0};
    int code = parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    CliFitDone *done = calloc(1, sizeof *done);
    if (done == NULL) {
        err.status = pb_fail(&err, PB_ERR_MEMORY, "out of memory");
        return cli_report(&err);
    }
    PbStatus status = fit(&o, &boxes, done, &err);
    if (status != PB_OK) {
        err.status = status;
        code = cli_report(&err);
    } else if (o.is_json) {
        code = print_json(&o, &boxes, done)
                   ? cli_printed(ferror(stdout) ? PB_ERR_IO : PB_ERR_MEMORY)
                   : CLI_DONE;
    } else {
        print_text(&o, &boxes, done);
    }
    free(done);
    return code;
}
