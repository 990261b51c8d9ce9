/* Material files: io/material_file.h. The posterior of a fit stands as draws: with them
 * correlations and bends come along, which a mean and a covariance would lose. */
#include "io/material_file.h"

#include "format_rows.h"

#include "io/constants_file.h"
#include "io/exercise_file.h"
#include "io/places.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double LABEL_OFF = 0.08; /* labels round coverage and weight, own choice */

static void read_label(IoReader *r, IoValue *root, PbProduct *p)
{
    IoValue *v = io_object(r, root, "label", 0);
    if (v == NULL) {
        return;
    }
    io_number(r, v, "area_m2", 1, 0.1, 100, "m2 a bag", &p->label_area_m2);
    io_number(r, v, "depth_m", 1, 0.05, 0.4, "m", &p->label_depth_m);
    io_number(r, v, "density_kg_m3", 1, 20, 90, "kg/m3", &p->label_kg_m3);
    double kg = p->label_area_m2 * p->label_depth_m * p->label_kg_m3;
    if (r->status == PB_OK && fabs(kg - p->bag_kg) > LABEL_OFF * p->bag_kg) {
        io_complain(r, v, PB_ERR_RANGE,
                    "\"label\": that area, depth and density take %.2f kg, expected the bag's "
                    "%.2f kg",
                    kg, p->bag_kg);
    }
}

static void read_own(IoReader *r, IoValue *root, PbProduct *p)
{
    IoValue *list = io_object(r, root, "constants", 0);
    for (size_t i = 0; list != NULL && i < list->count && r->status == PB_OK; i++) {
        IoValue *v = &list->child[i];
        const PbConstantInfo *info = pb_constant_find(v->key);
        double low, high;
        v->asked = 1;
        if (info == NULL || !pb_product_has(info)) {
            io_complain(r, v, PB_ERR_FORMAT, "\"%.60s\" is no constant of a material", v->key);
            return;
        }
        io_constants_range(info, &low, &high);
        io_value_number(r, v, low, high, info->unit, pb_constant_at(&p->constants, info));
        p->own_count++;
    }
}

static void read_draws(IoReader *r, IoValue *root, PbProduct *p)
{
    double low[PB_CARRIERS], high[PB_CARRIERS];
    IoValue *list = io_array(r, root, "draws", 0, PB_PRODUCT_DRAWS, PB_PRODUCT_DRAWS);
    for (int k = 0; k < PB_CARRIERS; k++) {
        io_constants_range(pb_carrier_info(k), &low[k], &high[k]);
    }
    for (size_t i = 0; list != NULL && i < list->count && r->status == PB_OK; i++) {
        IoValue *row = &list->child[i];
        if (!json_is_object(row->json)) {
            io_complain(r, row, PB_ERR_FORMAT, "expected a draw { \"sigma45_pa_s_m2\": ... }");
            return;
        }
        for (int k = 0; k < PB_CARRIERS; k++) {
            io_number(r, row, pb_carrier(k), 1, low[k], high[k], pb_carrier_info(k)->unit,
                      &p->draw[i][k]);
        }
        p->draw_count = (int)i + 1;
    }
}

static PbStatus read_doc(IoDoc *doc, PbProduct *product, PbError *err)
{
    IoReader r = io_reader(doc, err);
    PbProduct p = pb_product_default();
    PbConstants shipped = p.constants;
    io_format(&r, doc->root, IO_MATERIAL_FORMAT);
    io_text(&r, doc->root, "id", 1, p.id, sizeof p.id);
    if (r.status == PB_OK && !io_is_name(p.id)) {
        io_complain(&r, io_child(&r, doc->root, "id"), PB_ERR_FORMAT,
                    "\"id\": expected lower-case letters, digits and hyphens");
    }
    io_text(&r, doc->root, "title", 1, p.title, sizeof p.title);
    io_number(&r, doc->root, "bag_kg", 1, 2, 30, "kg", &p.bag_kg);
    io_number(&r, doc->root, "damp_frac", 0, 0, 0.5, "kg/kg", &p.damp_frac);
    read_label(&r, doc->root, &p);
    read_own(&r, doc->root, &p);
    read_draws(&r, doc->root, &p);
    if (r.status == PB_OK) {
        io_end_deep(&r, doc->root);
    }
    if (r.status == PB_OK) {
        pb_product_follow(&p.constants, &shipped);
        *product = p;
    }
    io_doc_free(doc);
    return r.status;
}

PbStatus io_material_parse(const char *name, const char *text, size_t size, PbProduct *product,
                           PbError *err)
{
    assert(name != NULL && text != NULL && product != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, product, err);
}

PbStatus io_material_load(const char *path, PbProduct *product, PbError *err)
{
    assert(path != NULL && product != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, product, err);
}

PbStatus io_material_find(const char *word, const char *beside, PbProduct *product, PbError *err)
{
    char path[1024];
    PB_TRY(io_place_of("materials", word, beside, path, sizeof path, err));
    return io_material_load(path, product, err);
}

static int put_own(json_t *root, const PbProduct *p)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    json_t *own = json_object();
    int failed = own == NULL || json_object_set_new(root, "constants", own);
    for (size_t i = 0; i < count && !failed; i++) {
        double value = pb_constant_value(&p->constants, &table[i]);
        if (pb_product_has(&table[i]) && value != table[i].value) {
            failed = json_object_set_new(own, table[i].name, json_real(value));
        }
    }
    return failed;
}

static int put_draws(json_t *root, const PbProduct *p)
{
    json_t *list = json_array();
    int failed = list == NULL || json_object_set_new(root, "draws", list);
    for (int i = 0; i < p->draw_count && !failed; i++) {
        json_t *row = json_object();
        failed = row == NULL || json_array_append_new(list, row);
        for (int k = 0; k < PB_CARRIERS && !failed; k++) {
            failed = json_object_set_new(row, pb_carrier(k), json_real(p->draw[i][k]));
        }
    }
    return failed;
}

json_t *io_material_to_json(const PbProduct *p)
{
    assert(p != NULL);
    json_t *root = json_pack("{ss ss ss sf sf}", "format", IO_MATERIAL_FORMAT, "id", p->id, "title",
                             p->title, "bag_kg", p->bag_kg, "damp_frac", p->damp_frac);
    int failed = root == NULL;
    if (!failed && p->label_area_m2 > 0.0) {
        failed = json_object_set_new(root, "label",
                                     json_pack("{sf sf sf}", "area_m2", p->label_area_m2, "depth_m",
                                               p->label_depth_m, "density_kg_m3", p->label_kg_m3));
    }
    failed = failed || (p->own_count > 0 && put_own(root, p));
    failed = failed || (p->draw_count > 0 && put_draws(root, p));
    if (failed) {
        json_decref(root);
        return NULL;
    }
    return root;
}
