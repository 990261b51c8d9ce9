/* Heat cases from JSON: rectangles of material, four sides, air, grid, probes; or a cavity in its
 * own scales. Ranges that need two values at once are judged by the core and pointed at here. The
 * bay file is in heat_bay_file.c.
 */
#include "io/heat_file.h"

#include "io/doc.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static const char *const material_kinds[] = {"solid", "porous", "air"};
static const char *const side_kinds[] = {"adiabatic", "fixed", "film"};
static const char *const side_names[] = {"left", "right", "bottom", "top"};
static const char *const flow_kinds[] = {"none", "darcy", "viscous"};
static const char *const cavity_kinds[] = {"air", "darcy", "brinkman"};

static void read_pair(IoReader *r, IoValue *object, const char *key, double lo, double hi,
                      double *a, double *b)
{
    IoValue *v = io_array(r, object, key, 1, 2, 2);
    if (v != NULL) {
        io_value_number(r, &v->child[0], lo, hi, "m", a);
        io_value_number(r, &v->child[1], lo, hi, "m", b);
        if (r->status == PB_OK && !(*b > *a)) {
            io_complain(r, &v->child[1], PB_ERR_RANGE,
                        "\"%s\": expected a lower and then a higher value, got %g and %g", key, *a,
                        *b);
        }
    }
}

static void read_material(IoReader *r, IoValue *object, PbHeatMaterial *m)
{
    int kind = (int)m->kind;
    io_choice(r, object, "kind", 1, material_kinds, 3, &kind);
    m->kind = (PbHeatMaterialKind)kind;
    io_number(r, object, "k_w_mk", 1, 1e-4, 500.0, "W/(m K)", &m->k_w_mk);
    if (m->kind == PB_HEAT_POROUS) {
        io_number(r, object, "permeability_m2", 1, 1e-16, 1.0, "m2", &m->permeability_m2);
    }
}

static void read_regions(IoReader *r, IoValue *root, PbHeatCase *c)
{
    IoValue *list = io_array(r, root, "regions", 0, 0, PB_HEAT_MAX_REGIONS);
    for (size_t i = 0; list != NULL && i < list->count && r->status == PB_OK; i++) {
        PbHeatRegion *g = &c->regions[i];
        IoValue *v = &list->child[i];
        char name[64];
        if (!json_is_object(v->json)) {
            io_complain(r, v, PB_ERR_FORMAT, "expected a region { ... }");
            return;
        }
        io_text(r, v, "name", 0, name, sizeof name);
        read_pair(r, v, "x_m", 0.0, 1000.0, &g->x0_m, &g->x1_m);
        read_pair(r, v, "y_m", 0.0, 1000.0, &g->y0_m, &g->y1_m);
        read_material(r, v, &g->material);
        io_end(r, v);
        c->region_count = (int)i + 1;
    }
}

static void read_sides(IoReader *r, IoValue *root, PbHeatCase *c)
{
    IoValue *sides = io_object(r, root, "sides", 1);
    int held = 0;
    for (int q = 0; sides != NULL && q < PB_HEAT_SIDES; q++) {
        PbHeatSide *side = &c->physics.side[q];
        IoValue *v = io_object(r, sides, side_names[q], 1);
        int kind = 0;
        if (v == NULL) {
            return;
        }
        io_choice(r, v, "kind", 1, side_kinds, 3, &kind);
        side->kind = (PbHeatSideKind)kind;
        if (side->kind != PB_HEAT_ADIABATIC) {
            held++;
            io_number(r, v, "temperature_c", 1, -270.0, 5000.0, "C", &side->temperature_c);
        }
        if (side->kind == PB_HEAT_FILM) {
            io_number(r, v, "film_m2k_w", 1, 1e-6, 1000.0, "m2 K/W", &side->film_m2k_w);
        }
        io_end(r, v);
    }
    if (sides != NULL && r->status == PB_OK && held == 0) {
        io_complain(r, sides, PB_ERR_RANGE,
                    "all four sides are adiabatic, expected at least one \"fixed\" or \"film\"");
    }
    io_end(r, sides);
}

static void read_air(IoReader *r, IoValue *root, PbHeatSetup *p)
{
    IoValue *air = io_object(r, root, "air", 0);
    if (air != NULL) {
        io_number(r, air, "heat_capacity_j_m3k", 0, 1.0, 1e8, "J/(m3 K)", &p->heat_capacity_j_m3k);
        io_number(r, air, "viscosity_m2_s", 0, 1e-9, 1.0, "m2/s", &p->viscosity_m2_s);
        io_number(r, air, "expansion_1_k", 0, 0.0, 1.0, "1/K", &p->expansion_1_k);
        io_number(r, air, "gravity_m_s2", 0, 0.0, 1000.0, "m/s2", &p->gravity_m_s2);
        io_end(r, air);
    }
}

static void read_grid(IoReader *r, IoValue *root, int *nx, int *ny)
{
    IoValue *grid = io_array(r, root, "grid", 0, 2, 2);
    double value[2] = {*nx, *ny};
    for (int q = 0; grid != NULL && q < 2; q++) {
        io_value_number(r, &grid->child[q], 2, PB_HEAT_MAX_LINES, "cells", &value[q]);
        if (r->status == PB_OK && value[q] != (double)(int)value[q]) {
            io_complain(r, &grid->child[q], PB_ERR_FORMAT, "\"grid\": expected whole numbers");
        }
    }
    if (grid != NULL && r->status == PB_OK) {
        *nx = (int)value[0];
        *ny = (int)value[1];
        if (*nx * *ny > PB_HEAT_MAX_CELLS) {
            io_complain(r, grid, PB_ERR_RANGE, "\"grid\": %d cells asked, at most %d are solved",
                        *nx * *ny, PB_HEAT_MAX_CELLS);
        }
    }
}

static void read_probes(IoReader *r, IoValue *root, PbHeatCase *c)
{
    IoValue *list = io_array(r, root, "probes", 0, 0, PB_HEAT_MAX_PROBES);
    for (size_t i = 0; list != NULL && i < list->count && r->status == PB_OK; i++) {
        PbHeatProbe *p = &c->probes[i];
        IoValue *v = &list->child[i];
        if (!json_is_object(v->json)) {
            io_complain(r, v, PB_ERR_FORMAT, "expected a probe { \"x_m\": .., \"y_m\": .. }");
            return;
        }
        snprintf(p->name, sizeof p->name, "%zu", i + 1);
        io_text(r, v, "name", 0, p->name, sizeof p->name);
        io_number(r, v, "x_m", 1, 0.0, c->width_m, "m", &p->x_m);
        io_number(r, v, "y_m", 1, 0.0, c->height_m, "m", &p->y_m);
        io_end(r, v);
        c->probe_count = (int)i + 1;
    }
}

static void read_dimensionless(IoReader *r, IoValue *v, PbHeatCase *c)
{
    double ra = 0.0, pr = 0.71, da = 1e-4, aspect = 1.0;
    int kind = 0;
    io_choice(r, v, "kind", 1, cavity_kinds, 3, &kind);
    io_number(r, v, "ra", 1, 0.0, 1e9, "(Rayleigh number)", &ra);
    io_number(r, v, "pr", 0, 1e-3, 1e6, "(Prandtl number)", &pr);
    io_number(r, v, "da", kind == PB_HEAT_KIND_BRINKMAN, 1e-12, 1e6, "(Darcy number)", &da);
    io_number(r, v, "aspect", 0, 0.02, 50.0, "(height over width)", &aspect);
    io_end(r, v);
    /* what drives the air in the scaled equations: docs/formats/heat.md */
    double drive = kind == PB_HEAT_KIND_AIR        ? ra * pr
                   : kind == PB_HEAT_KIND_BRINKMAN ? ra / da
                                                   : ra;
    if (r->status == PB_OK && !(drive < PB_HEAT_MOST_DRIVE)) {
        io_complain(r, io_child(r, v, "ra"), PB_ERR_RANGE, "\"ra\": %g %s is %g, expected below %g",
                    ra, kind == PB_HEAT_KIND_AIR ? "times \"pr\"" : "over \"da\"", drive,
                    PB_HEAT_MOST_DRIVE);
    }
    if (r->status == PB_OK) {
        pb_heat_case_dimensionless(c, (PbHeatKind)kind, ra, pr, da, aspect);
    }
}

static void read_dimensional(IoReader *r, IoValue *root, PbHeatCase *c)
{
    int flow = (int)c->physics.flow;
    io_number(r, root, "width_m", 1, 1e-6, 1000.0, "m", &c->width_m);
    io_number(r, root, "height_m", 1, 1e-6, 1000.0, "m", &c->height_m);
    IoValue *background = io_object(r, root, "background", 1);
    if (background != NULL) {
        read_material(r, background, &c->background);
        io_end(r, background);
    }
    read_regions(r, root, c);
    read_sides(r, root, c);
    read_air(r, root, &c->physics);
    io_choice(r, root, "flow", 0, flow_kinds, 3, &flow);
    c->physics.flow = (PbHeatFlow)flow;
    io_bool(r, root, "inertia", 0, &c->physics.has_inertia);
    io_number(r, root, "radiation_w_m2k", 0, 0.0, 100.0, "W/(m2 K)", &c->physics.radiation_w_m2k);
    io_number(r, root, "void_convection_w_m2k", 0, 0.0, 100.0, "W/(m2 K)",
              &c->void_convection_w_m2k);
    if (r->status == PB_OK && c->physics.has_inertia && c->physics.flow != PB_HEAT_FLOW_VISCOUS) {
        io_complain(r, io_child(r, root, "inertia"), PB_ERR_RANGE,
                    "\"inertia\" needs \"flow\": \"viscous\"");
    }
}

static PbStatus read_case(const IoDoc *doc, PbHeatCase *out, PbError *err)
{
    IoReader reader = io_reader(doc, err), *r = &reader;
    PbHeatCase c = pb_heat_case_default();
    char title[128], field[64];
    io_text(r, doc->root, "title", 0, title, sizeof title);
    IoValue *cavity = io_object(r, doc->root, "dimensionless", 0);
    if (cavity != NULL) {
        read_dimensionless(r, cavity, &c);
    } else {
        read_dimensional(r, doc->root, &c);
    }
    read_grid(r, doc->root, &c.nx, &c.ny);
    io_number(r, doc->root, "tolerance", 0, 1e-12, 1e-2, "", &c.physics.tolerance);
    read_probes(r, doc->root, &c);
    io_end(r, doc->root);
    if (r->status != PB_OK) {
        return r->status;
    }
    PbError fault;
    if (pb_heat_case_check(&c, field, sizeof field, &fault) != PB_OK) {
        io_complain(r, io_find(doc, field), PB_ERR_RANGE, "%s", fault.message);
        return r->status;
    }
    *out = c;
    return PB_OK;
}

PbStatus io_heat_case_load(const char *path, PbHeatCase *c, PbError *err)
{
    assert(path != NULL && c != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    PbStatus status = read_case(&doc, c, err);
    io_doc_free(&doc);
    return status;
}

PbStatus io_heat_case_parse(const char *name, const char *text, size_t size, PbHeatCase *c,
                            PbError *err)
{
    assert(name != NULL && text != NULL && c != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    PbStatus status = read_case(&doc, c, err);
    io_doc_free(&doc);
    return status;
}
