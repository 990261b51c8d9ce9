/* Rubrics as JSON, both ways by the tables of the core: parts of core/score/score.c, limits of
 * core/score/rubric.c. */
#include "io/rubric_file.h"

#include "format_rows.h"

#include <assert.h>
#include <string.h>

/* The store finds rubrics by their name, and takes no run graded under one that it cannot keep. */
static void read_name(IoReader *r, IoValue *root, char *name, size_t size)
{
    io_text(r, root, "name", 1, name, size);
    size_t n = strlen(name);
    if (r->status == PB_OK && (n == 0 || name[0] == ' ' || name[n - 1] == ' ')) {
        io_complain(r, io_child(r, root, "name"), PB_ERR_FORMAT,
                    "\"name\": expected a name without a space at its ends");
    }
}

/* Limits of rules 1 that rules 2 have no use for: read, so that a trainer's own file stays good,
 * and put aside. What had another meaning there (after_stall_s, material_free) is put aside as
 * well. */
static const char *const retired[] = {"blown_cap", "material_span", "material_over",
                                      "material_free", "after_stall_s"};

static int read_format(IoReader *r, IoValue *root)
{
    char text[48] = "";
    io_text(r, root, "format", 1, text, sizeof text);
    if (r->status != PB_OK || strcmp(text, IO_RUBRIC_FORMAT) == 0) {
        return PB_SCORE_RULES;
    }
    if (strcmp(text, IO_RUBRIC_FORMAT_1) != 0) {
        io_complain(r, io_child(r, root, "format"), PB_ERR_FORMAT,
                    "expected \"format\": \"%s\", or an earlier one", IO_RUBRIC_FORMAT);
    }
    return 1;
}

static void put_aside(IoReader *r, IoValue *limits)
{
    for (size_t i = 0; i < sizeof retired / sizeof retired[0]; i++) {
        double unused = 0.0;
        io_number(r, limits, retired[i], 0, 0.0, 600.0, "of rules 1", &unused);
    }
}

static int is_retired(const char *key)
{
    for (size_t i = 0; i < sizeof retired / sizeof retired[0]; i++) {
        if (strcmp(key, retired[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

static void read_weights(IoReader *r, IoValue *weights, PbRubric *rubric)
{
    for (int i = PB_RUBRIC_FIRST_PARTS; i < PB_SCORE_PARTS; i++) {
        rubric->weight[i] = 0.0;
    }
    if (weights != NULL) {
        for (int i = 0; i < PB_SCORE_PARTS; i++) {
            io_number(r, weights, pb_score_part((PbScorePartKind)i)->key, 0, 0.0, 1000.0, "points",
                      &rubric->weight[i]);
        }
        io_end(r, weights);
    }
}

/* Of rules 4 and before: the share at which nothing was left, on a straight line that had half in
 * the middle. */
static void read_material_zero(IoReader *r, IoValue *limits, PbRubric *rubric)
{
    double zero = -1.0;
    if (io_child(r, limits, "material_half") == NULL) { /* beside it, it is one key too many */
        io_number(r, limits, "material_zero", 0, 0.01, 10.0, "of 1", &zero);
    }
    rubric->material_half =
        zero >= 0.0 ? 0.5 * (rubric->material_free + zero) : rubric->material_half;
}

static void read_limits(IoReader *r, IoValue *limits, PbRubric *rubric)
{
    size_t count;
    const PbRubricLimit *rows = pb_rubric_limits(&count);
    if (limits == NULL) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        if (rubric->rules != 1 || !is_retired(rows[i].key)) {
            io_number(r, limits, rows[i].key, 0, rows[i].low, rows[i].high, rows[i].unit,
                      (double *)(void *)((char *)rubric + rows[i].offset));
        }
    }
    if (rubric->rules == 1) {
        put_aside(r, limits);
    }
    read_material_zero(r, limits, rubric);
    io_end(r, limits);
}

static PbStatus read_doc(IoDoc *doc, PbRubric *rubric, PbError *err)
{
    IoReader r = io_reader(doc, err);
    PbRubric made = pb_rubric_default();
    char field[96];
    PbError check;
    made.rules = read_format(&r, doc->root);
    memset(made.name, 0, sizeof made.name);
    read_name(&r, doc->root, made.name, sizeof made.name);
    io_number(&r, doc->root, "pass_score", 0, 0.0, 100.0, "of 100", &made.pass_score);
    read_weights(&r, io_object(&r, doc->root, "weights", 0), &made);
    read_limits(&r, io_object(&r, doc->root, "limits", 0), &made);
    io_end(&r, doc->root);
    if (r.status == PB_OK && pb_rubric_check(&made, field, sizeof field, &check) != PB_OK) {
        io_complain_check(&r, doc->root, field, &check);
    }
    io_doc_free(doc);
    if (r.status == PB_OK) {
        *rubric = made;
    }
    return r.status;
}

PbStatus io_rubric_load(const char *path, PbRubric *rubric, PbError *err)
{
    assert(path != NULL && rubric != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, rubric, err);
}

PbStatus io_rubric_parse(const char *name, const char *text, size_t size, PbRubric *rubric,
                         PbError *err)
{
    assert(name != NULL && text != NULL && rubric != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, rubric, err);
}

json_t *io_rubric_to_json(const PbRubric *rubric)
{
    assert(rubric != NULL);
    size_t count;
    const PbRubricLimit *rows = pb_rubric_limits(&count);
    json_t *object = json_object(), *weights = json_object(), *limits = json_object();
    int failed = json_object_set_new(object, "format", json_string(IO_RUBRIC_FORMAT));
    failed |= json_object_set_new(object, "name", json_string(rubric->name));
    if (rubric->pass_score >= 0.0) {
        failed |= json_object_set_new(object, "pass_score", json_real(rubric->pass_score));
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        failed |= json_object_set_new(weights, pb_score_part((PbScorePartKind)i)->key,
                                      json_real(rubric->weight[i]));
    }
    for (size_t i = 0; i < count; i++) {
        const double *value = (const double *)(const void *)((const char *)rubric + rows[i].offset);
        failed |= json_object_set_new(limits, rows[i].key, json_real(*value));
    }
    failed |= json_object_set_new(object, "weights", weights); /* gone when it fails: last */
    failed |= json_object_set_new(object, "limits", limits);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}
