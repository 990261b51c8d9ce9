/*
 * Exercise files, both ways. Numbers go by the tables of core/format_rows.h; words and lists are
 * named here. The core judges what was read (pb_exercise_check), and its complaint is shown at the
 * place of the value. Next: core/bay/exercise.c.
 */
#include "io/exercise_file.h"

#include "core/hash.h"
#include "format_rows.h"

#include "io/machine_file.h"
#include "io/material_file.h"
#include "io/places.h"
#include "io/wall_file.h"

#include <assert.h>
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void io_obstacle_read(IoReader *r, IoValue *v, const PbNumberRow *rows, size_t count, PbObstacle *o)
{
    const char *kinds[PB_OBSTACLE_KINDS];
    int kind = 0;
    for (int k = 0; k < PB_OBSTACLE_KINDS; k++) {
        kinds[k] = pb_obstacle_traits((PbObstacleKind)k)->word;
    }
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected an obstacle { ... }");
        return;
    }
    io_choice(r, v, "kind", 1, kinds, PB_OBSTACLE_KINDS, &kind);
    o->kind = (PbObstacleKind)kind;
    io_rows_read(r, v, rows, count, o);
}

static void read_hole(IoReader *r, IoValue *v, PbHole *hole)
{
    size_t count;
    const PbNumberRow *rows = pb_hole_rows(&count);
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected a hole { ... }");
        return;
    }
    *hole = pb_hole_default();
    io_rows_read(r, v, rows, count, hole);
}

void io_leave_reason_read(IoReader *r, IoValue *object, const char *key, PbLeaveReason *reason)
{
    const char *words[PB_LEAVE_REASONS - 1];
    int choice = (int)PB_LEAVE_NONE - 1;
    for (int i = 1; i < PB_LEAVE_REASONS; i++) {
        words[i - 1] = pb_leave_traits((PbLeaveReason)i)->word;
    }
    io_choice(r, object, key, 0, words, PB_LEAVE_REASONS - 1, &choice);
    *reason = (PbLeaveReason)(choice + 1);
}

void io_opening_read(IoReader *r, IoValue *v, const PbNumberRow *rows, size_t count, PbOpening *o)
{
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected an opening { ... }");
        return;
    }
    io_text(r, v, "place", 1, o->place, sizeof o->place);
    io_rows_read(r, v, rows, count, o);
}

static void read_caution(IoReader *r, IoValue *list, size_t index, PbExercise *e)
{
    IoValue one = *list; /* a list of texts is read as if its item had a key */
    IoValue item = list->child[index];
    item.key = "caution";
    one.child = &item;
    one.count = 1;
    io_text(r, &one, "caution", 1, e->cautions[index], sizeof e->cautions[index]);
}

static void read_lists(IoReader *r, IoValue *object, PbExercise *e)
{
    IoValue *list = io_array(r, object, "cautions", 0, 0, PB_MAX_CAUTIONS);
    if (list != NULL) {
        memset(e->cautions, 0, sizeof e->cautions);
        e->caution_count = (int)list->count;
        for (size_t i = 0; i < list->count; i++) {
            read_caution(r, list, i, e);
        }
    }
    list = io_array(r, object, "more_holes", 0, 0, PB_MAX_HOLES - 1);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        read_hole(r, &list->child[i], &e->holes[i + 1]);
        e->hole_count = (int)i + 2;
    }
    size_t rows_count;
    const PbNumberRow *rows = pb_obstacle_rows(&rows_count);
    list = io_array(r, object, "obstacles", 0, 0, PB_MAX_OBSTACLES);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        io_obstacle_read(r, &list->child[i], rows, rows_count, &e->obstacles[i]);
        e->obstacle_count = (int)i + 1;
    }
    rows = pb_opening_rows(&rows_count);
    list = io_array(r, object, "openings", 0, 0, PB_MAX_OPENINGS);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        io_opening_read(r, &list->child[i], rows, rows_count, &e->openings[i]);
        e->opening_count = (int)i + 1;
    }
}

/* "file" of a section: the word, or NULL. A trouble in that file is told at the word. */
static IoValue *read_file_word(IoReader *r, IoValue *object, const char *section, char *word,
                               size_t size)
{
    IoValue *in = io_object(r, object, section, 0);
    IoValue *v = io_child(r, in, "file");
    word[0] = '\0';
    if (v != NULL) {
        io_text(r, in, "file", 1, word, size);
    }
    return r->status == PB_OK ? v : NULL;
}

static void complain_of_file(IoReader *r, const IoValue *at, const PbError *inner)
{
    char line[1024];
    io_error_line(inner, line, sizeof line);
    io_complain(r, at, inner->status, "\"file\": %.350s", line);
}

/* The machine and the material that the exercise names; its own numbers go before theirs. */
static void read_named(IoReader *r, IoValue *object, PbExercise *e)
{
    char word[200], path[1024];
    PbError inner = {0};
    PbRig rig;
    const IoValue *at = read_file_word(r, object, "machine", word, sizeof word);
    if (at != NULL && io_machine_find(word, r->doc->file, &rig, &inner) != PB_OK) {
        complain_of_file(r, at, &inner);
    } else if (at != NULL) {
        e->machine = rig.machine;
        e->feed_kg_s = rig.feed_kg_s;
    }
    at = read_file_word(r, object, "material", word, sizeof word);
    if (at == NULL) {
        return;
    }
    PbProduct product;
    if (io_place_of("materials", word, r->doc->file, path, sizeof path, &inner) != PB_OK ||
        io_material_load(path, &product, &inner) != PB_OK) {
        complain_of_file(r, at, &inner);
        return;
    }
    e->bag_kg = product.bag_kg;
    e->damp_frac = product.damp_frac;
    if (product.own_count > 0 && strlen(path) >= sizeof e->material) {
        io_complain(r, at, PB_ERR_RANGE, "\"file\": the path of this material is too long");
    } else if (product.own_count > 0) {
        memcpy(e->material, path, strlen(path) + 1);
    }
}

void io_exercise_read(IoReader *r, IoValue *object, PbExercise *exercise)
{
    assert(r != NULL && exercise != NULL);
    size_t count;
    const PbNumberRow *rows = pb_exercise_rows(&count);
    PbExercise e = pb_exercise_default();
    char path[96];
    PbError check;
    const char *finishes[PB_FINISHES];
    int finish = 0;
    memset(e.teaches, 0, sizeof e.teaches);
    e.level = e.order = 0.0; /* a file that says nothing is no part of the course */
    io_format(r, object, IO_EXERCISE_FORMAT);
    io_text(r, object, "id", 1, e.id, sizeof e.id);
    io_text(r, object, "title", 1, e.title, sizeof e.title);
    io_text(r, object, "teaches", 0, e.teaches, sizeof e.teaches);
    io_text(r, object, "must_not_fill", 0, e.must_not_fill, sizeof e.must_not_fill);
    io_leave_reason_read(r, object, "leave_reason", &e.leave_reason);
    read_named(r, object, &e);
    io_rows_read(r, object, rows, count, &e);
    for (int k = 0; k < PB_FINISHES; k++) {
        finishes[k] = pb_finish_traits((PbFinish)k)->word;
    }
    io_choice(r, io_object(r, object, "finish", 1), "kind", 1, finishes, PB_FINISHES, &finish);
    e.finish = (PbFinish)finish;
    io_text(r, io_object(r, object, "goal", 0), "climate", 0, e.climate, sizeof e.climate);
    io_text(r, io_object(r, object, "course", 0), "waits_for", 0, e.waits_for, sizeof e.waits_for);
    io_wall_read(r, object, &e.wall);
    read_lists(r, object, &e);
    if (r->status == PB_OK) {
        io_end_deep(r, object);
    }
    if (r->status == PB_OK && pb_exercise_check(&e, path, sizeof path, &check) != PB_OK) {
        io_complain_check(r, object, path, &check);
    }
    if (r->status == PB_OK) {
        *exercise = e;
    }
}

static PbStatus read_doc(IoDoc *doc, PbExercise *exercise, PbError *err)
{
    IoReader r = io_reader(doc, err);
    io_exercise_read(&r, doc->root, exercise);
    io_doc_free(doc);
    return r.status;
}

PbStatus io_exercise_parse(const char *name, const char *text, size_t size, PbExercise *exercise,
                           PbError *err)
{
    assert(name != NULL && text != NULL && exercise != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, exercise, err);
}

PbStatus io_exercise_load(const char *path, PbExercise *exercise, PbError *err)
{
    assert(path != NULL && exercise != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, exercise, err);
}

PbStatus io_exercise_constants(const PbExercise *exercise, PbConstants *constants, PbError *err)
{
    assert(exercise != NULL && constants != NULL);
    PbProduct product;
    if (exercise->material[0] == '\0') {
        return PB_OK;
    }
    PB_TRY(io_material_load(exercise->material, &product, err));
    *constants = product.constants;
    return PB_OK;
}

int io_is_name(const char *word)
{
    size_t n = strlen(word);
    for (size_t i = 0; i < n; i++) {
        if (!islower((unsigned char)word[i]) && !isdigit((unsigned char)word[i]) &&
            word[i] != '-') {
            return 0;
        }
    }
    return n > 0;
}

int io_exercise_find(const char *name, const char *const *folders, int count, PbExercise *exercise,
                     PbError *err)
{
    char path[1024];
    return io_place_in(folders, count, "exercises", name, path, sizeof path) &&
           io_exercise_load(path, exercise, err) == PB_OK;
}

void io_exercise_named(IoReader *r, IoValue *object, const char *const *folders, int count,
                       PbExercise *exercise)
{
    char name[sizeof exercise->id] = "";
    PbError inner = {0};
    IoValue *v = io_child(r, object, "bay");
    if (v != NULL && json_is_object(v->json)) {
        io_exercise_read(r, v, exercise);
        return;
    }
    io_text(r, object, "bay", 1, name, sizeof name);
    if (r->status == PB_OK &&
        (!io_is_name(name) || !io_exercise_find(name, folders, count, exercise, &inner))) {
        io_complain(r, v, PB_ERR_RANGE, "\"bay\": there is no exercise \"%.47s\"%s%.200s", name,
                    inner.message[0] != '\0' ? ": " : " in assets/exercises", inner.message);
    }
}

static int put_text(json_t *object, const char *key, const char *text)
{
    return json_object_set_new(object, key, json_string(text));
}

/* Of the further holes; without any there is no list, as in files from before. */
static int put_holes(json_t *object, const PbExercise *e)
{
    size_t count;
    const PbNumberRow *rows = pb_hole_rows(&count);
    json_t *holes = json_array();
    int failed = json_object_set_new(object, "more_holes", holes);
    for (int i = 1; i < e->hole_count && !failed; i++) {
        json_t *h = json_object();
        failed |= json_array_append_new(holes, h);
        if (!failed) {
            failed |= io_rows_write(h, rows, count, &e->holes[i]);
        }
    }
    return failed;
}

static int put_lists(json_t *object, const PbExercise *e)
{
    size_t obstacle_count, opening_count;
    const PbNumberRow *obstacle_rows = pb_obstacle_rows(&obstacle_count);
    const PbNumberRow *opening_rows = pb_opening_rows(&opening_count);
    json_t *cautions = json_array(), *obstacles = json_array(), *openings = json_array();
    int failed = json_object_set_new(object, "cautions", cautions);
    failed |= json_object_set_new(object, "obstacles", obstacles);
    failed |= json_object_set_new(object, "openings", openings);
    for (int i = 0; i < e->caution_count && !failed; i++) {
        failed |= json_array_append_new(cautions, json_string(e->cautions[i]));
    }
    for (int i = 0; i < e->obstacle_count && !failed; i++) {
        json_t *o = json_object();
        failed |= json_array_append_new(obstacles, o);
        if (failed) {
            break; /* and `o` is gone */
        }
        failed |= put_text(o, "kind", pb_obstacle_traits(e->obstacles[i].kind)->word);
        failed |= io_rows_write(o, obstacle_rows, obstacle_count, &e->obstacles[i]);
    }
    for (int i = 0; i < e->opening_count && !failed; i++) {
        json_t *o = json_object();
        failed |= json_array_append_new(openings, o);
        if (failed) {
            break;
        }
        failed |= put_text(o, "place", e->openings[i].place);
        failed |= io_rows_write(o, opening_rows, opening_count, &e->openings[i]);
    }
    return failed;
}

json_t *io_exercise_to_json(const PbExercise *e)
{
    assert(e != NULL);
    size_t count;
    const PbNumberRow *rows = pb_exercise_rows(&count);
    json_t *object = json_object();
    int failed = put_text(object, "format", IO_EXERCISE_FORMAT);
    failed |= put_text(object, "id", e->id);
    failed |= put_text(object, "title", e->title);
    failed |= put_text(object, "teaches", e->teaches);
    if (e->must_not_fill[0] != '\0') {
        failed |= put_text(object, "must_not_fill", e->must_not_fill);
    }
    if (e->leave_reason != PB_LEAVE_NONE) {
        failed |= put_text(object, "leave_reason", pb_leave_traits(e->leave_reason)->word);
    }
    if (e->hole_count > 1) {
        failed |= put_holes(object, e);
    }
    failed |= io_rows_write(object, rows, count, e);
    failed |=
        put_text(json_object_get(object, "finish"), "kind", pb_finish_traits(e->finish)->word);
    failed |= put_text(json_object_get(object, "goal"), "climate", e->climate);
    if (e->lost_max_kg == 0.0) { /* not in files from before either */
        (void)json_object_del(json_object_get(object, "goal"), "lost_max_kg");
    }
    if (e->waits_for[0] != '\0') {
        failed |= put_text(json_object_get(object, "course"), "waits_for", e->waits_for);
    }
    failed |= io_wall_put(object, &e->wall, 0);
    failed |= put_lists(object, e);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

uint64_t io_exercise_hash(const PbExercise *exercise)
{
    assert(exercise != NULL);
    PbExercise e = *exercise;
    (void)io_json_short();
    e.title[0] = e.teaches[0] = e.waits_for[0] = '\0';
    e.caution_count = 0;
    e.must_not_fill[1] = '\0'; /* that it is to be left counts, not why */
    e.must_not_fill[0] = e.must_not_fill[0] != '\0' ? 'x' : '\0';
    e.level = e.order = 0.0;
    memset(&e.wall, 0, sizeof e.wall); /* around the bay: nothing of a run hangs on it */
    json_t *json = io_exercise_to_json(&e);
    char *text = json != NULL
                     ? json_dumps(json, JSON_COMPACT | JSON_SORT_KEYS | JSON_REAL_PRECISION(17))
                     : NULL;
    uint64_t hash = text != NULL ? pb_hash_bytes(PB_HASH_START, text, strlen(text)) : 0;
    json_decref(json);
    free(text);
    return io_json_short() || text == NULL ? 0 : hash + (hash == 0);
}
