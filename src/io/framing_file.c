/* Files of framed walls. Numbers go by the tables of core/framing.h; the core judges what was read
 * and its complaint is shown at the place of the value. Next: core/framing/framing.c. */
#include "io/framing_file.h"

#include "format_rows.h"

#include "io/exercise_file.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* One item of a list: { "kind": ..., numbers }. Nought after a complaint. */
static int read_kind(IoReader *r, IoValue *v, const char *const *words, int count)
{
    int kind = 0;
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected { \"kind\": ..., ... }");
        return 0;
    }
    io_choice(r, v, "kind", 1, words, count, &kind);
    return kind;
}

static void read_solids(IoReader *r, IoValue *root, PbFraming *f)
{
    size_t count;
    const PbNumberRow *rows = pb_rect_rows(&count);
    IoValue *list = io_array(r, root, "members", 1, 1, PB_MAX_MEMBERS);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        PbMember *m = &f->members[f->member_count++];
        m->kind = (PbMemberKind)read_kind(r, &list->child[i], pb_member_words, PB_MEMBER_KINDS);
        io_rows_read(r, &list->child[i], rows, count, &m->at);
    }
    list = io_array(r, root, "cutouts", 0, 0, PB_MAX_CUTOUTS);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        PbCutout *c = &f->cutouts[f->cutout_count++];
        c->kind = (PbCutoutKind)read_kind(r, &list->child[i], pb_cutout_words, PB_CUTOUT_KINDS);
        io_rows_read(r, &list->child[i], rows, count, &c->at);
    }
}

static void read_contents(IoReader *r, IoValue *root, PbFraming *f)
{
    size_t count;
    const PbNumberRow *rows = pb_inside_rows(&count);
    IoValue *list = io_array(r, root, "inside", 0, 0, PB_MAX_INSIDE);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        io_obstacle_read(r, &list->child[i], rows, count, &f->inside[f->inside_count++]);
    }
    rows = pb_wall_opening_rows(&count);
    list = io_array(r, root, "openings", 0, 0, PB_MAX_WALL_OPENINGS);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        io_opening_read(r, &list->child[i], rows, count, &f->openings[f->opening_count++]);
    }
    rows = pb_leave_rows(&count);
    list = io_array(r, root, "leave", 0, 0, PB_MAX_LEAVE);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        PbLeave *leave = &f->leave[f->leave_count++];
        if (!json_is_object(list->child[i].json)) {
            io_complain(r, &list->child[i], PB_ERR_FORMAT, "expected { \"why\": ..., ... }");
            return;
        }
        io_text(r, &list->child[i], "why", 1, leave->why, sizeof leave->why);
        io_leave_reason_read(r, &list->child[i], "reason", &leave->reason);
        io_rows_read(r, &list->child[i], rows, count, leave);
    }
}

void io_framing_read(IoReader *r, IoValue *object, const char *const *folders, int count,
                     PbFraming *framing)
{
    size_t rows_count;
    const PbNumberRow *rows = pb_framing_rows(&rows_count);
    char path[96];
    PbError check;
    PbFraming *f = calloc(1, sizeof *f);
    if (f == NULL) {
        io_complain(r, object, PB_ERR_MEMORY, "framing of memory");
        return;
    }
    io_format(r, object, IO_FRAMING_FORMAT);
    io_text(r, object, "id", 1, f->id, sizeof f->id);
    io_text(r, object, "title", 1, f->title, sizeof f->title);
    io_rows_read(r, object, rows, rows_count, f);
    io_exercise_named(r, object, folders, count, &f->like);
    read_solids(r, object, f);
    read_contents(r, object, f);
    if (r->status == PB_OK) {
        io_end_deep(r, object);
    }
    if (r->status == PB_OK && pb_framing_check(f, path, sizeof path, &check) != PB_OK) {
        io_complain_check(r, object, path, &check);
    }
    if (r->status == PB_OK) {
        *framing = *f;
    }
    free(f);
}

static PbStatus read_doc(IoDoc *doc, const char *const *folders, int count, PbFraming *out,
                         PbError *err)
{
    IoReader r = io_reader(doc, err);
    io_framing_read(&r, doc->root, folders, count, out);
    io_doc_free(doc);
    return r.status;
}

PbStatus io_framing_parse(const char *name, const char *text, size_t size,
                          const char *const *folders, int count, PbFraming *framing, PbError *err)
{
    assert(name != NULL && text != NULL && framing != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, folders, count, framing, err);
}

PbStatus io_framing_load(const char *path, const char *const *folders, int count,
                         PbFraming *framing, PbError *err)
{
    assert(path != NULL && framing != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, folders, count, framing, err);
}
