/* Machine files: io/machine_file.h. A curve comes as three numbers or as points that were measured;
 * a gate as two rates or as what was weighed. */
#include "io/machine_file.h"

#include "format_rows.h"

#include "io/exercise_file.h"
#include "io/places.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { WEIGHINGS = 8 };
static const double GATE_OFF = 0.15; /* of what a gate in proportion would give, own choice */

static void read_points(IoReader *r, IoValue *list, IoValue *airlock, PbRig *rig)
{
    PbCurvePoint points[PB_CURVE_POINTS];
    PbError why = {0};
    double leak = 0.0, at_pa = 1.0;
    int worst = -1, count = (int)list->count;
    for (int i = 0; i < count && r->status == PB_OK; i++) {
        IoValue *v = &list->child[i];
        if (!json_is_object(v->json)) {
            io_complain(r, v, PB_ERR_FORMAT,
                        "expected a point { \"flow_m3_s\": ..., \"pa\": ... }");
            return;
        }
        io_number(r, v, "flow_m3_s", 1, 0.0, 0.2, "m3/s", &points[i].flow_m3_s);
        io_number(r, v, "pa", 1, 0.0, 45000.0, "Pa", &points[i].pa);
    }
    if (airlock != NULL) {
        io_number(r, airlock, "leak_m3_s", 1, 0.0, 0.1, "m3/s", &leak);
        io_number(r, airlock, "at_pa", 1, 500.0, 40000.0, "Pa", &at_pa);
    }
    if (r->status != PB_OK) {
        return;
    }
    pb_curve_less_leak(points, count, leak, at_pa);
    PbStatus status = pb_curve_fit(points, count, &rig->machine, &worst, &why);
    if (status != PB_OK) {
        io_complain(r, worst >= 0 ? &list->child[worst] : list, status, "%s", why.message);
    }
}

static void read_curve(IoReader *r, IoValue *root, PbRig *rig)
{
    PbMachine *m = &rig->machine;
    IoValue *airlock = io_object(r, root, "airlock", 0);
    IoValue *curve = io_object(r, root, "curve", 1);
    if (curve == NULL) {
        return;
    }
    if (io_child(r, curve, "points") != NULL) {
        IoValue *list = io_array(r, curve, "points", 1, 3, PB_CURVE_POINTS);
        if (list != NULL) {
            read_points(r, list, airlock, rig);
        }
        return;
    }
    if (airlock != NULL) {
        io_complain(r, airlock, PB_ERR_RANGE,
                    "\"airlock\": only a curve of \"points\" that were taken before the airlock "
                    "has one; leave it out");
    }
    io_number(r, curve, "static_pa", 1, 1000, 40000, "Pa", &m->static_pa);
    io_number(r, curve, "open_flow_m3_s", 1, 0.01, 0.12, "m3/s", &m->open_flow_m3_s);
    io_number(r, curve, "exponent", 0, 0.5, 3, "-", &m->curve_exponent);
}

/* A gate in proportion: the rate fully open, by least squares through the shut gate. */
static void read_weighed(IoReader *r, IoValue *list, PbRig *rig)
{
    double share[WEIGHINGS], rate[WEIGHINGS], sx = 0.0, sxx = 0.0;
    for (size_t i = 0; i < list->count && r->status == PB_OK; i++) {
        double kg = 0.0, s = 1.0;
        if (!json_is_object(list->child[i].json)) {
            io_complain(r, &list->child[i], PB_ERR_FORMAT,
                        "expected { \"open_frac\": ..., \"kg\": ..., \"s\": ... }");
            return;
        }
        io_number(r, &list->child[i], "open_frac", 1, 0.05, 1, "-", &share[i]);
        io_number(r, &list->child[i], "kg", 1, 0.1, 100, "kg", &kg);
        io_number(r, &list->child[i], "s", 1, 5, 600, "s", &s);
        rate[i] = kg / s;
        sx += share[i] * rate[i];
        sxx += share[i] * share[i];
    }
    if (r->status != PB_OK) {
        return;
    }
    double whole = sx / sxx;
    for (size_t i = 0; i < list->count; i++) {
        if (fabs(rate[i] - whole * share[i]) > GATE_OFF * whole * share[i]) {
            io_complain(r, &list->child[i], PB_ERR_RANGE,
                        "%.4f kg/s was weighed here, where the others give %.4f: expected a gate "
                        "that gives in proportion to its opening",
                        rate[i], whole * share[i]);
            return;
        }
    }
    if (!(whole >= 0.005 && whole <= 0.2)) {
        io_complain(r, list, PB_ERR_RANGE,
                    "the gate gives %.4f kg/s fully open, expected 0.005 to 0.2 kg/s", whole);
        return;
    }
    rig->machine.feed_max_kg_s = whole;
}

static void read_gate(IoReader *r, IoValue *root, PbRig *rig)
{
    double open = 0.0, *most = &rig->machine.feed_max_kg_s;
    IoValue *gate = io_object(r, root, "gate", 1);
    if (gate == NULL) {
        return;
    }
    if (io_child(r, gate, "weighed") == NULL) {
        io_number(r, gate, "max_kg_s", 1, 0.005, 0.2, "kg/s", most);
        io_number(r, gate, "kg_s", 1, 0, *most, "kg/s", &rig->feed_kg_s);
        return;
    }
    IoValue *list = io_array(r, gate, "weighed", 1, 1, WEIGHINGS);
    if (list != NULL) {
        read_weighed(r, list, rig);
    }
    io_number(r, gate, "open_frac", 1, 0, 1, "of the gate, at the start", &open);
    rig->feed_kg_s = open * *most;
}

static PbStatus read_doc(IoDoc *doc, PbRig *rig, PbError *err)
{
    IoReader r = io_reader(doc, err);
    PbRig read = pb_rig_default();
    size_t count;
    const PbNumberRow *rows = pb_rig_rows(&count);
    io_format(&r, doc->root, IO_MACHINE_FORMAT);
    io_text(&r, doc->root, "id", 1, read.id, sizeof read.id);
    if (r.status == PB_OK && !io_is_name(read.id)) {
        io_complain(&r, io_child(&r, doc->root, "id"), PB_ERR_FORMAT,
                    "\"id\": expected lower-case letters, digits and hyphens");
    }
    io_text(&r, doc->root, "title", 1, read.title, sizeof read.title);
    read_curve(&r, doc->root, &read);
    io_rows_read(&r, doc->root, rows, count, &read);
    read_gate(&r, doc->root, &read);
    if (r.status == PB_OK) {
        io_end_deep(&r, doc->root);
    }
    if (r.status == PB_OK && read.machine.tube_outer_m <= read.machine.tube_bore_m) {
        io_complain(&r, io_find(doc, "tube/outer_m"), PB_ERR_RANGE,
                    "\"outer_m\": %g, expected more than the bore of %g m",
                    read.machine.tube_outer_m, read.machine.tube_bore_m);
    }
    if (r.status == PB_OK) {
        *rig = read;
    }
    io_doc_free(doc);
    return r.status;
}

PbStatus io_machine_parse(const char *name, const char *text, size_t size, PbRig *rig, PbError *err)
{
    assert(name != NULL && text != NULL && rig != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, rig, err);
}

PbStatus io_machine_load(const char *path, PbRig *rig, PbError *err)
{
    assert(path != NULL && rig != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, rig, err);
}

PbStatus io_machine_find(const char *word, const char *beside, PbRig *rig, PbError *err)
{
    char path[1024];
    PB_TRY(io_place_of("machines", word, beside, path, sizeof path, err));
    return io_machine_load(path, rig, err);
}

json_t *io_machine_to_json(const PbRig *rig)
{
    assert(rig != NULL);
    const PbMachine *m = &rig->machine;
    return json_pack(
        "{ss ss ss s{sf sf sf} s{sf sf} s{sf sf sf} s{sf sf}}", "format", IO_MACHINE_FORMAT, "id",
        rig->id, "title", rig->title, "curve", "static_pa", m->static_pa, "open_flow_m3_s",
        m->open_flow_m3_s, "exponent", m->curve_exponent, "hose", "length_m", m->hose_length_m,
        "bore_m", m->hose_bore_m, "tube", "length_m", m->tube_length_m, "bore_m", m->tube_bore_m,
        "outer_m", m->tube_outer_m, "gate", "max_kg_s", m->feed_max_kg_s, "kg_s", rig->feed_kg_s);
}
