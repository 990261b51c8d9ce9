/* assets/walls/eras.json, and walls written down. Numbers go by the tables of core/generate.h and
 * core/framing.h. Next: core/framing/generate.c, what is drawn from them. */
#include "io/eras_file.h"

#include "format_rows.h"

#include "io/doc.h"
#include "io/exercise_file.h"
#include "io/framing_file.h"
#include "io/places.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static const PbNumberRow *row_named(const char *name, size_t *at)
{
    size_t count;
    const PbNumberRow *rows = pb_era_rows(&count);
    for (size_t n = 0; n < count; n++) {
        if (strcmp(rows[n].key, name) == 0) {
            *at = n;
            return &rows[n];
        }
    }
    return NULL;
}

/* { "name": ..., "values": [four], "source": ... } */
static void read_row(IoReader *r, IoValue *v, PbEra *eras, unsigned char *seen)
{
    char name[64] = "", source[400] = "";
    size_t at = 0;
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected { \"name\": ..., \"values\": ..., ... }");
        return;
    }
    io_text(r, v, "name", 1, name, sizeof name);
    IoValue *values = io_array(r, v, "values", 1, PB_ERAS, PB_ERAS);
    io_text(r, v, "source", 1, source, sizeof source);
    if (r->status != PB_OK) {
        return;
    }
    const PbNumberRow *row = row_named(name, &at);
    if (row == NULL || seen[at]) {
        io_complain(r, io_child(r, v, "name"), PB_ERR_FORMAT,
                    row == NULL ? "there is no row \"%s\"" : "row \"%s\" stands here twice", name);
        return;
    }
    if (source[0] == '\0') {
        io_complain(r, io_child(r, v, "source"), PB_ERR_FORMAT,
                    "expected a source, or \"assumption\"");
        return;
    }
    seen[at] = 1;
    for (size_t n = 0; n < values->count; n++) {
        double value = 0.0;
        io_value_number(r, &values->child[n], row->low, row->high, row->unit, &value);
        memcpy((char *)&eras[n] + row->offset, &value, sizeof value);
    }
    io_end(r, v);
}

static void read_years(IoReader *r, IoValue *root)
{
    IoValue *list = io_array(r, root, "eras", 1, PB_ERAS, PB_ERAS);
    for (size_t n = 0; list != NULL && n < list->count; n++) {
        double year = 0.0;
        io_value_number(r, &list->child[n], pb_era_years[n], pb_era_years[n], "", &year);
    }
}

static PbStatus read_doc(IoDoc *doc, PbEra eras[PB_ERAS], PbError *err)
{
    IoReader r = io_reader(doc, err);
    unsigned char seen[64] = {0};
    PbEra read[PB_ERAS];
    size_t count;
    const PbNumberRow *rows = pb_era_rows(&count);
    memset(read, 0, sizeof read);
    assert(count <= sizeof seen);
    io_format(&r, doc->root, IO_ERAS_FORMAT);
    read_years(&r, doc->root);
    IoValue *list = io_array(&r, doc->root, "rows", 1, 1, sizeof seen);
    for (size_t n = 0; list != NULL && n < list->count; n++) {
        read_row(&r, &list->child[n], read, seen);
    }
    io_end(&r, doc->root);
    for (size_t n = 0; n < count; n++) {
        if (!seen[n]) {
            io_complain(&r, list, PB_ERR_FORMAT, "row \"%s\" is missing", rows[n].key);
        }
    }
    for (int n = 0; n < PB_ERAS; n++) {
        if (read[n].length_low_m > read[n].length_high_m) {
            io_complain(&r, list, PB_ERR_RANGE, "%d: \"length_low_m\" is above \"length_high_m\"",
                        pb_era_years[n]);
        }
    }
    if (r.status == PB_OK) {
        memcpy(eras, read, sizeof read);
    }
    io_doc_free(doc);
    return r.status;
}

PbStatus io_eras_parse(const char *name, const char *text, size_t size, PbEra eras[PB_ERAS],
                       PbError *err)
{
    assert(name != NULL && text != NULL && eras != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, eras, err);
}

PbStatus io_eras_load(const char *path, PbEra eras[PB_ERAS], PbError *err)
{
    assert(path != NULL && eras != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, eras, err);
}

PbStatus io_eras_find(const char *const *folders, int count, PbEra eras[PB_ERAS], PbError *err)
{
    char path[1024];
    if (io_place_in(folders, count, "walls", "eras", path, sizeof path)) {
        return io_eras_load(path, eras, err);
    }
    return pb_fail(err, PB_ERR_IO, "walls/eras.json is in none of the data folders");
}

/* An object with the numbers of a table, and a word. */
static json_t *item(const char *key, const char *word, const PbNumberRow *rows, size_t count,
                    const void *values)
{
    json_t *object = json_object();
    int failed = object == NULL || io_rows_write(object, rows, count, values);
    failed = failed || json_object_set_new(object, key, json_string(word)) != 0;
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static int put_solids(json_t *members, json_t *cutouts, const PbFraming *f)
{
    size_t count;
    const PbNumberRow *rows = pb_rect_rows(&count);
    int failed = 0;
    for (int n = 0; n < pb_framing_solids(f); n++) {
        const char *word;
        const PbRect *r = pb_framing_solid(f, n, &word);
        failed |= json_array_append_new(n < f->member_count ? members : cutouts,
                                        item("kind", word, rows, count, r));
    }
    return failed;
}

static int put_contents(json_t *inside, json_t *openings, json_t *leave, const PbFraming *f)
{
    size_t count;
    const PbNumberRow *rows = pb_inside_rows(&count);
    int failed = 0;
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        json_t *object = item("kind", pb_obstacle_traits(o->kind)->word, rows, count, o);
        if (o->size_m == 0.0) {
            (void)json_object_del(object, "size_m");
        }
        failed |= json_array_append_new(inside, object);
    }
    rows = pb_wall_opening_rows(&count);
    for (int n = 0; n < f->opening_count; n++) {
        const PbOpening *o = &f->openings[n];
        failed |= json_array_append_new(openings, item("place", o->place, rows, count, o));
    }
    rows = pb_leave_rows(&count);
    for (int n = 0; n < f->leave_count; n++) {
        const PbLeave *l = &f->leave[n];
        json_t *object = item("why", l->why, rows, count, l);
        if (object != NULL && l->reason != PB_LEAVE_NONE) {
            failed |= json_object_set_new(object, "reason",
                                          json_string(pb_leave_traits(l->reason)->word));
        }
        failed |= json_array_append_new(leave, object);
    }
    return failed;
}

json_t *io_framing_to_json(const PbFraming *f)
{
    assert(f != NULL);
    size_t count;
    const PbNumberRow *rows = pb_framing_rows(&count);
    json_t *object =
        json_pack("{s:s, s:s, s:s, s:o, s:[], s:[], s:[], s:[], s:[]}", "format", IO_FRAMING_FORMAT,
                  "id", f->id, "title", f->title, "bay", io_exercise_to_json(&f->like), "members",
                  "cutouts", "inside", "openings", "leave");
    if (object == NULL || io_rows_write(object, rows, count, f) ||
        put_solids(json_object_get(object, "members"), json_object_get(object, "cutouts"), f) ||
        put_contents(json_object_get(object, "inside"), json_object_get(object, "openings"),
                     json_object_get(object, "leave"), f)) {
        json_decref(object);
        return NULL;
    }
    return object;
}
