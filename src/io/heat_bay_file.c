/* Bays from JSON: a named state or a density map, gaps, climate, camera. Named states are words for
 * demonstrations; the numbers in them become a density field and a list of gaps.
 */
#include "io/heat_file.h"

#include "io/doc.h"

#include "io/wall_file.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STATE_NX = 12, STATE_NY = 96 };

static const char *const fill_kinds[] = {"cellulose", "foam"};

static void read_pair(IoReader *r, IoValue *object, const char *key, double whole, double *a,
                      double *b)
{
    IoValue *v = io_array(r, object, key, 0, 2, 2);
    *a = 0.0;
    *b = whole;
    if (v != NULL) {
        io_value_number(r, &v->child[0], 0.0, whole, "m", a);
        io_value_number(r, &v->child[1], 0.0, whole, "m", b);
        if (r->status == PB_OK && !(*b > *a)) {
            io_complain(r, &v->child[1], PB_ERR_RANGE,
                        "\"%s\": expected a lower and then a higher value, got %g and %g", key, *a,
                        *b);
        }
    }
}

static void read_gaps(IoReader *r, IoValue *root, IoHeatBay *bay)
{
    PbHeatBaySetup *s = &bay->setup;
    size_t room = (size_t)(PB_HEAT_MAX_GAPS - s->gap_count);
    IoValue *list = io_array(r, root, "gaps", 0, 0, room);
    for (size_t i = 0; list != NULL && i < list->count && r->status == PB_OK; i++) {
        IoValue *v = &list->child[i];
        PbHeatGap *g = &s->gaps[s->gap_count];
        if (!json_is_object(v->json)) {
            io_complain(r, v, PB_ERR_FORMAT, "expected a gap { ... }");
            return;
        }
        read_pair(r, v, "x_m", bay->field.width_m, &g->x0_m, &g->x1_m);
        read_pair(r, v, "y_m", bay->field.height_m, &g->y0_m, &g->y1_m);
        read_pair(r, v, "z_m", bay->field.depth_m, &g->z0_m, &g->z1_m);
        io_end(r, v);
        s->gap_count++;
    }
}

/* 1 when the rest of a state is one of the words for what a shrunken block does at its ends. */
static int shrink_word(const char *rest, PbHeatShrink *kind)
{
    if (strcmp(rest, "ends open") == 0) {
        *kind = PB_HEAT_SHRINK_ENDS;
    } else if (strcmp(rest, "top open") == 0) {
        *kind = PB_HEAT_SHRINK_TOP;
    } else if (strcmp(rest, "ends tight") == 0) {
        *kind = PB_HEAT_SHRINK_TIGHT;
    } else {
        return 0;
    }
    return 1;
}

/* "full 60", "top void 0.2 m", "top void 0.2 m at 40", "foam 6 %, ends open". */
static void read_state(IoReader *r, IoValue *root, const PbConstants *constants, IoHeatBay *bay)
{
    char text[64] = "", rest[32] = "", extra;
    double a = 0.0, b = constants->perfect_fill_kg_m3;
    PbHeatShrink kind;
    IoValue *at = io_child(r, root, "state");
    io_text(r, root, "state", 1, text, sizeof text);
    if (r->status != PB_OK) {
        return;
    }
    PbBayField *f = &bay->field;
    if (strpbrk(text, "xX") != NULL) { /* sscanf would take hexadecimal; no word below has an x */
        text[0] = '\0';
    }
    if (sscanf(text, "full %lf%c", &a, &extra) == 1 && a >= constants->void_kg_m3 && a <= 200.0) {
        pb_bay_field_fill(f, a);
        return;
    }
    int with_density = sscanf(text, "top void %lf m at %lf%c", &a, &b, &extra) == 2;
    if (with_density || (sscanf(text, "top void %lf %1[m]%c", &a, rest, &extra) == 2)) {
        if (a > 0.0 && a < f->height_m && b >= constants->void_kg_m3 && b <= 200.0) {
            pb_bay_field_fill(f, b);
            bay->setup.gaps[bay->setup.gap_count++] =
                (PbHeatGap){0.0, f->width_m, f->height_m - a, f->height_m, 0.0, f->depth_m};
            return;
        }
    }
    if (sscanf(text, "foam %lf %%, %31[a-z ]%c", &a, rest, &extra) == 2 && a > 0.0 && a <= 20.0 &&
        shrink_word(rest, &kind)) {
        pb_bay_field_fill(f, constants->perfect_fill_kg_m3);
        bay->setup.fill.is_foam = 1;
        bay->setup.gap_count = pb_heat_shrink_gaps(f, a / 100.0, kind, constants, bay->setup.gaps);
        return;
    }
    io_complain(r, at, PB_ERR_FORMAT,
                "\"state\": expected \"full 60\" (kg/m3), \"top void 0.2 m\", \"top void 0.2 m at "
                "50\" or \"foam 6 %%, ends open\" (or top open, ends tight)");
}

/* Rows from the top of the bay down, as one reads a picture. */
static void read_map(IoReader *r, IoValue *list, IoHeatBay *bay)
{
    PbBayField *f = &bay->field;
    for (int row = 0; row < f->ny && r->status == PB_OK; row++) {
        IoValue *v = &list->child[row];
        if (!json_is_array(v->json) || v->count != (size_t)f->nx) {
            io_complain(r, v, PB_ERR_FORMAT, "\"density_map\": expected a row of %d numbers",
                        f->nx);
            return;
        }
        for (int i = 0; i < f->nx; i++) {
            double d = 0.0;
            io_value_number(r, &v->child[i], 0.0, 200.0, "kg/m3", &d);
            f->density_kg_m3[(f->ny - 1 - row) * f->nx + i] = d;
            f->density_past_kg_m3[(f->ny - 1 - row) * f->nx + i] = d;
        }
    }
}

static void read_contents(IoReader *r, IoValue *root, const PbConstants *constants, IoHeatBay *bay)
{
    double width = 0.368, height = 2.35, depth = 0.089; /* a 2 x 4 bay at 16 in, studs 38 mm */
    io_number(r, root, "width_m", 0, 0.05, 2.0, "m", &width);
    io_number(r, root, "height_m", 0, 0.1, 10.0, "m", &height);
    io_number(r, root, "depth_m", 0, 0.02, 0.6, "m", &depth);
    IoValue *map = io_array(r, root, "density_map", 0, 2, 1024);
    int nx = STATE_NX, ny = STATE_NY;
    if (map != NULL) {
        ny = (int)map->count;
        nx = json_is_array(map->child[0].json) ? (int)map->child[0].count : 0;
        if (nx < 1 || nx > 256) {
            io_complain(r, &map->child[0], PB_ERR_FORMAT,
                        "\"density_map\": expected a row of 1 to 256 numbers");
        }
    }
    if (r->status != PB_OK) {
        return;
    }
    if (pb_bay_field_create(nx, ny, width, height, depth, &bay->field) != PB_OK) {
        io_complain(r, root, PB_ERR_MEMORY, "no room for the density map");
        return;
    }
    bay->setup.field = &bay->field;
    io_number(r, root, "tilt_deg", 0, 0.0, 90.0, "degrees", &bay->field.tilt_deg);
    if (map != NULL) {
        read_map(r, map, bay);
    } else {
        read_state(r, root, constants, bay);
    }
    IoValue *fill = io_object(r, root, "fill", 0);
    if (fill != NULL) {
        int kind = bay->setup.fill.is_foam;
        io_choice(r, fill, "kind", 1, fill_kinds, 2, &kind);
        bay->setup.fill.is_foam = kind;
        io_number(r, fill, "k_w_mk", 0, 1e-4, 500.0, "W/(m K)", &bay->setup.fill.k_w_mk);
        io_number(r, fill, "permeability_m2", 0, 1e-14, 1e-4, "m2",
                  &bay->setup.fill.permeability_m2);
        io_end(r, fill);
    }
    read_gaps(r, root, bay);
}

static void read_range(IoReader *r, IoValue *object, const char *key, double lo, double hi,
                       const char *unit, PbHeatRange *range)
{
    IoValue *v = io_child(r, object, key);
    if (v == NULL) {
        return;
    }
    if (!json_is_array(v->json)) { /* a single figure is one without spread */
        io_value_number(r, v, lo, hi, unit, &range->mid);
        range->low = range->high = range->mid;
        return;
    }
    double value[3] = {0};
    for (size_t i = 0; i < 3 && v->count == 3; i++) {
        io_value_number(r, &v->child[i], lo, hi, unit, &value[i]);
    }
    if (v->count != 3 || (r->status == PB_OK && !(value[0] <= value[1] && value[1] <= value[2]))) {
        io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected one number or [low, mid, high], rising",
                    key);
        return;
    }
    *range = (PbHeatRange){value[0], value[1], value[2]};
}

static void read_climate(IoReader *r, IoValue *root, IoHeatBay *bay)
{
    IoValue *climate = io_object(r, root, "climate", 0);
    if (climate == NULL) {
        return;
    }
    io_number(r, climate, "room_c", 0, -50.0, 60.0, "C", &bay->setup.room_c);
    io_number(r, climate, "outdoor_c", 0, -60.0, 60.0, "C", &bay->setup.outdoor_c);
    read_range(r, climate, "degree_days_k_d", 0.0, 20000.0, "K d", &bay->degree_days_k_d);
    read_range(r, climate, "price_per_kwh", 0.0, 1000.0, "money per kWh", &bay->price_per_kwh);
    read_range(r, climate, "efficiency", 0.05, 5.0, "", &bay->efficiency);
    io_end(r, climate);
    double dt = bay->setup.room_c - bay->setup.outdoor_c;
    if (r->status == PB_OK && !(dt >= 0.1 || dt <= -0.1)) {
        io_complain(r, climate, PB_ERR_RANGE,
                    "\"climate\": room and outdoors must be at least 0.1 K apart");
    }
}

static void read_camera(IoReader *r, IoValue *root, PbHeatCamera *c)
{
    IoValue *camera = io_object(r, root, "camera", 0);
    long long blur = c->blur_px, seed = 0;
    if (camera == NULL) {
        return;
    }
    io_number(r, camera, "held_h", 0, 0.0, 1000.0, "h", &c->held_h);
    io_number(r, camera, "start_c", 0, -60.0, 60.0, "C", &c->start_c);
    io_number(r, camera, "emissivity", 0, 0.05, 1.0, "", &c->emissivity);
    io_number(r, camera, "reflected_c", 0, -60.0, 60.0, "C", &c->reflected_c);
    io_number(r, camera, "noise_k", 0, 0.0, 5.0, "K", &c->noise_k);
    io_integer(r, camera, "blur_px", 0, 0, 16, &blur);
    io_integer(r, camera, "seed", 0, 0, 2147483647, &seed);
    c->blur_px = (int)blur;
    c->seed = (unsigned)seed;
    io_end(r, camera);
}

static void read_sizes(IoReader *r, IoValue *root, IoHeatBay *bay)
{
    long long strips = bay->setup.strips;
    int *const target[2][2] = {{&bay->setup.nx, &bay->setup.ny},
                               {&bay->setup.map_nx, &bay->setup.map_ny}};
    static const char *const key[2] = {"grid", "picture"};
    PbError wrong = {0};
    io_integer(r, root, "strips", 0, 1, 32, &strips);
    bay->setup.strips = (int)strips;
    for (int n = 0; n < 2; n++) {
        IoValue *v = io_array(r, root, key[n], 0, 2, 2);
        for (int q = 0; v != NULL && q < 2; q++) {
            double value = 0.0;
            io_value_number(r, &v->child[q], n ? 8 : 16, q ? 2048 : 512, "cells", &value);
            if (r->status == PB_OK && value != (double)(int)value) {
                io_complain(r, &v->child[q], PB_ERR_FORMAT, "\"%s\": expected whole numbers",
                            key[n]);
            }
            *target[n][q] = (int)value;
        }
    }
    io_wall_read(r, root, &bay->setup.wall);
    if (r->status == PB_OK && pb_wall_check(&bay->setup.wall, NULL, &wrong) != PB_OK) {
        io_complain(r, io_child(r, root, "wall"), PB_ERR_RANGE, "%.300s", wrong.message);
    }
    io_bool(r, root, "solve_void_flow", 0, &bay->setup.solve_void_flow);
    bay->wall_area_m2 = bay->field.width_m * bay->field.height_m;
    io_number(r, root, "wall_area_m2", 0, 0.01, 1e5, "m2", &bay->wall_area_m2);
}

static PbHeatRange constant_range(const char *name)
{
    const PbConstantInfo *info = pb_constant_find(name);
    return info != NULL ? (PbHeatRange){info->low, info->value, info->high}
                        : (PbHeatRange){0.0, 0.0, 0.0};
}

static PbStatus read_bay(const IoDoc *doc, const PbConstants *constants, IoHeatBay *bay,
                         PbError *err)
{
    IoReader reader = io_reader(doc, err), *r = &reader;
    memset(bay, 0, sizeof *bay);
    bay->setup = pb_heat_bay_default(NULL);
    bay->setup.with_range = 1;
    bay->setup.fill.k_w_mk = constants->foam_k_w_mk;
    bay->setup.fill.permeability_m2 = constants->foam_permeability_m2;
    bay->camera = pb_heat_camera_plain();
    bay->degree_days_k_d = constant_range("degree_days_k_d");
    bay->price_per_kwh = constant_range("fuel_price_per_kwh");
    bay->efficiency = constant_range("heating_efficiency");
    io_text(r, doc->root, "title", 0, bay->title, sizeof bay->title);
    read_contents(r, doc->root, constants, bay);
    read_climate(r, doc->root, bay);
    read_camera(r, doc->root, &bay->camera);
    read_sizes(r, doc->root, bay);
    io_end(r, doc->root);
    if (r->status != PB_OK) {
        io_heat_bay_free(bay);
    }
    return r->status;
}

PbStatus io_heat_bay_parse(const char *name, const char *text, size_t size,
                           const PbConstants *constants, IoHeatBay *bay, PbError *err)
{
    assert(name != NULL && text != NULL && constants != NULL && bay != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    PbStatus status = read_bay(&doc, constants, bay, err);
    io_doc_free(&doc);
    return status;
}

PbStatus io_heat_bay_load(const char *path, const PbConstants *constants, IoHeatBay *bay,
                          PbError *err)
{
    assert(path != NULL && constants != NULL && bay != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    PbStatus status = read_bay(&doc, constants, bay, err);
    io_doc_free(&doc);
    return status;
}

void io_heat_bay_free(IoHeatBay *bay)
{
    pb_bay_field_destroy(&bay->field);
}
