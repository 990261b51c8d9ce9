/* heat: one section from a case file, or a whole bay. Everything is worked out before anything is
 * written, so a refused input leaves no file behind. Printing of a bay is in heat_bay_print.c.
 */
#include "heat_print.h"
#include "outputs.h"
#include "verbs.h"

#include "cli/front.h"
#include "io/clock.h"
#include "io/doc.h"
#include "io/output_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Options {
    const char *file, *field;
    int bay, json;
    int grid[2]; /* nx, ny; 0 = as in the file */
} Options;

void heat_json_number(FILE *out, const char *key, double value)
{
    if (isfinite(value)) {
        fprintf(out, "\"%s\":%.9g,", key, value);
    } else {
        fprintf(out, "\"%s\":null,", key);
    }
}

/* Between the left and the right side; NAN unless both are held. */
static double case_u(const PbHeatCase *c, const PbHeatResult *r)
{
    const PbHeatSide *left = &c->physics.side[PB_HEAT_LEFT];
    const PbHeatSide *right = &c->physics.side[PB_HEAT_RIGHT];
    double dt = left->temperature_c - right->temperature_c;
    if (left->kind == PB_HEAT_ADIABATIC || right->kind == PB_HEAT_ADIABATIC || dt == 0.0) {
        return (double)NAN;
    }
    return r->heat_w_m[PB_HEAT_LEFT] / (c->height_m * dt);
}

static void surface_range(const PbHeatResult *r, double *low, double *high)
{
    *low = *high = r->left_c[0];
    for (int j = 1; j < r->ny; j++) {
        *low = fmin(*low, r->left_c[j]);
        *high = fmax(*high, r->left_c[j]);
    }
}

static void print_case_json(FILE *out, const Options *o, const PbHeatCase *c, const PbHeatResult *r,
                            double ms)
{
    PbHeatNusselt nu = pb_heat_case_nusselt(c, r);
    double u = case_u(c, r), low, high;
    surface_range(r, &low, &high);
    fprintf(out, "{\"file\":");
    heat_json_text(out, o->file);
    fprintf(out,
            ",\"heat_flow_w_m\":{\"left\":%.9g,\"right\":%.9g,\"bottom\":%.9g,\"top\":"
            "%.9g},",
            r->heat_w_m[PB_HEAT_LEFT], r->heat_w_m[PB_HEAT_RIGHT], r->heat_w_m[PB_HEAT_BOTTOM],
            r->heat_w_m[PB_HEAT_TOP]);
    heat_json_number(out, "nusselt_mean", nu.mean);
    heat_json_number(out, "nusselt_max", nu.highest);
    heat_json_number(out, "nusselt_min", nu.lowest);
    heat_json_number(out, "u_w_m2k", u);
    heat_json_number(out, "r_m2k_w", 1.0 / u);
    heat_json_number(out, "psi_max_m2_s", r->psi_max_m2_s);
    heat_json_number(out, "psi_mid_m2_s", r->psi_mid_m2_s);
    heat_json_number(out, "u_max_m_s", r->u_max_m_s);
    heat_json_number(out, "v_max_m_s", r->v_max_m_s);
    heat_json_number(out, "u_mid_max_m_s", r->u_mid_max_m_s);
    heat_json_number(out, "v_mid_max_m_s", r->v_mid_max_m_s);
    heat_json_number(out, "surface_room_min_c", low);
    heat_json_number(out, "surface_room_max_c", high);
    fprintf(out, "\"probes\":[");
    for (int n = 0; n < c->probe_count; n++) {
        const PbHeatProbe *p = &c->probes[n];
        fprintf(out, "%s{\"name\":", n ? "," : "");
        heat_json_text(out, p->name);
        fprintf(out, ",\"x_m\":%.9g,\"y_m\":%.9g,\"t_c\":%.9g}", p->x_m, p->y_m, p->t_c);
    }
    fprintf(out,
            "],\"answer\":\"%s\",\"iterations\":%d,\"inner_iterations\":%d,"
            "\"balance_error\":%.3g,\"grid\":[%d,%d],\"time_ms\":%.3f}\n",
            c->is_mean ? "mean" : "steady", r->iterations, r->inner_iterations, r->balance, r->nx,
            r->ny, ms);
}

static void print_case(FILE *out, const PbHeatCase *c, const PbHeatResult *r, double ms)
{
    PbHeatNusselt nu = pb_heat_case_nusselt(c, r);
    double u = case_u(c, r), low, high;
    surface_range(r, &low, &high);
    fprintf(out, "Heat in, W/m: left %.5g, right %.5g, bottom %.5g, top %.5g (balance %.1e)\n",
            r->heat_w_m[0], r->heat_w_m[1], r->heat_w_m[2], r->heat_w_m[3], r->balance);
    if (isfinite(nu.mean)) {
        fprintf(out, "Nusselt number: mean %.5g, largest %.5g, smallest %.5g\n", nu.mean,
                nu.highest, nu.lowest);
    }
    if (isfinite(u)) {
        fprintf(out, "U %.5g W/(m2 K), R %.5g m2 K/W\n", u, 1.0 / u);
    }
    fprintf(out, "Left surface %.2f to %.2f C\n", low, high);
    if (c->is_mean) {
        fprintf(out, "Air: no steady loop in this slot; the mean of the moving air by ISO 15099\n");
    } else if (r->loop_count > 0) {
        fprintf(out, "Air loop: largest |psi| %.4g m2/s, speeds to %.4g and %.4g m/s\n",
                r->psi_max_m2_s, r->u_max_m_s, r->v_max_m_s);
    } else {
        fprintf(out, "Air: no loop\n");
    }
    for (int n = 0; n < c->probe_count; n++) {
        fprintf(out, "%s (%.4g, %.4g): %.4f C\n", c->probes[n].name, c->probes[n].x_m,
                c->probes[n].y_m, c->probes[n].t_c);
    }
    fprintf(out, "Grid %d x %d, %d steps, %.2f ms\n", r->nx, r->ny, r->iterations, ms);
}

static void write_case_field(FILE *out, const PbHeatResult *r)
{
    fprintf(out, HEAT_FIELD_BEGINS ",u_m_s,v_m_s,psi_m2_s\n");
    for (int j = 0; j < r->ny; j++) {
        for (int i = 0; i < r->nx; i++) {
            const double *p = r->psi_m2_s + j * (r->nx + 1) + i;
            int up = r->nx + 1;
            double dx = r->x_m[i + 1] - r->x_m[i], dy = r->y_m[j + 1] - r->y_m[j];
            fprintf(out, "%.9g,%.9g,%.9g,%.6g,%.6g,%.6g\n", r->x_m[i] + 0.5 * dx,
                    r->y_m[j] + 0.5 * dy, r->temperature_c[j * r->nx + i],
                    0.5 * (p[up] - p[0] + p[up + 1] - p[1]) / dy,
                    -0.5 * (p[1] - p[0] + p[up + 1] - p[up]) / dx,
                    0.25 * (p[0] + p[1] + p[up] + p[up + 1]));
        }
    }
}

int heat_write_file(const char *path, const char *begins,
                    void (*write)(FILE *out, const void *what), const void *what)
{
    PbError err = {0};
    IoOutput out;
    PbStatus status = io_output_open(path, begins, &out, &err);
    if (status == PB_OK) {
        write(out.file, what);
        status = io_output_commit(&out, &err);
    }
    err.status = status;
    return status == PB_OK ? CLI_DONE : cli_report(&err);
}

static void write_case_field_of(FILE *out, const void *what)
{
    write_case_field(out, what);
}

static int run_case(const Options *o)
{
    PbError err = {0};
    PbHeatCase *c = malloc(sizeof *c);
    PbHeatSection *section = NULL;
    if (c == NULL) {
        return cli_printed(PB_ERR_MEMORY);
    }
    int code = CLI_DONE;
    PbStatus status = io_heat_case_load(o->file, c, &err);
    double from = 0.0, ms = 0.0;
    if (status == PB_OK) {
        PbAllocator allocator = pb_allocator_default();
        c->nx = o->grid[0] > 0 ? o->grid[0] : c->nx;
        c->ny = o->grid[1] > 0 ? o->grid[1] : c->ny;
        from = io_clock_s();
        status = pb_heat_case_solve(c, &allocator, &section, &err);
        ms = 1e3 * (io_clock_s() - from);
        if (status != PB_OK && err.file[0] == '\0') {
            snprintf(err.file, sizeof err.file, "%.255s", o->file);
        }
    }
    if (status == PB_ERR_NO_RESULT) {
        fprintf(stderr, "pullback-cli: %s: %s\n", o->file, err.message);
        code = CLI_NO;
    } else if (status != PB_OK) {
        code = cli_report(&err);
    } else {
        const PbHeatResult *r = pb_heat_section_result(section);
        if (o->field != NULL) {
            code = heat_write_file(o->field, HEAT_FIELD_BEGINS, write_case_field_of, r);
        }
        if (code == CLI_DONE) {
            (void)io_json_short();
            if (o->json) {
                print_case_json(stdout, o, c, r, ms);
            } else {
                print_case(stdout, c, r, ms);
            }
            code = io_json_short() ? cli_printed(PB_ERR_MEMORY) : CLI_DONE; /* a name is missing */
        }
    }
    pb_heat_section_destroy(section);
    free(c);
    return code;
}

/* Two members: nx, ny. */
static int take_grid(const CliOption *row, const char *text, void *member)
{
    int *n = member;
    char *end;
    (void)row;
    long nx = strtol(text, &end, 10);
    if (end == text || *end != 'x') {
        return CLI_NOT_TAKEN;
    }
    const char *second = end + 1;
    long ny = strtol(second, &end, 10);
    if (end == second || *end != '\0' || nx < 2 || ny < 2 || nx > PB_HEAT_MAX_LINES ||
        ny > PB_HEAT_MAX_LINES || nx * ny > PB_HEAT_MAX_CELLS) {
        return CLI_NOT_TAKEN;
    }
    n[0] = (int)nx;
    n[1] = (int)ny;
    return CLI_DONE;
}

#define TEXT_OF(x) #x
#define DIGITS(x)  TEXT_OF(x)
#define AT(member) .at = offsetof(Options, member)
const CliOption heat_options[] = {
    {"--bay", NULL, "the file is a whole bay: R, picture, season cost", cli_take_flag, AT(bay)},
    {"--json", NULL, "for programs", cli_take_flag, AT(json)},
    {"--field", "OUT.csv", "temperatures and air of a section, or the picture of a bay",
     cli_take_text, AT(field)},
    {"--grid", "NXxNY", "cells of a section", take_grid, AT(grid),
     .expected = "NXxNY, 2 to " DIGITS(PB_HEAT_MAX_LINES) " each way, at most " DIGITS(
         PB_HEAT_MAX_CELLS) " cells"},
    {.name = NULL},
};

int verb_heat(const CliVerb *verb, int argc, char **argv)
{
    Options o = {0};
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, &o, 1, &parsed);
    if (code != CLI_DONE || parsed.count == 0) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    o.file = argv[1];
    const char *const in[] = {o.file};
    const IoPlace out[] = {{o.field, o.bay ? HEAT_MAP_BEGINS : HEAT_FIELD_BEGINS, 0}};
    code = cli_check_outputs(out, 1, in, 1);
    if (code != CLI_DONE) {
        return code;
    }
    return o.bay ? heat_run_bay(o.file, o.json, o.field, o.grid) : run_case(&o);
}
