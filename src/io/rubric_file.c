/* Rubrics as JSON. One table for both ways; ranges here are for single numbers, what numbers must
 * fit together is core/score/rubric.c's. */
#include "io/rubric_file.h"

#include "format_rows.h"

#include <string.h>

typedef struct RubricRow {
    const char *group, *key;
    size_t offset;
    double low, high;
    const char *unit;
} RubricRow;

#define WEIGHT(key, part)                                                                          \
    {                                                                                              \
        "weights", key, offsetof(PbRubric, weight) + (part) * sizeof(double), 0.0, 1000.0,         \
            "points"                                                                               \
    }
#define LIMIT(field, low, high, unit)                                                              \
    {                                                                                              \
        "limits", #field, offsetof(PbRubric, field), low, high, unit                               \
    }

static const RubricRow rows[] = {
    WEIGHT("on_target", PB_SCORE_ON_TARGET),
    WEIGHT("weakest", PB_SCORE_WEAKEST),
    WEIGHT("years", PB_SCORE_YEARS),
    WEIGHT("no_harm", PB_SCORE_NO_HARM),
    WEIGHT("material", PB_SCORE_MATERIAL),
    WEIGHT("hands", PB_SCORE_HANDS),
    LIMIT(panel_free, 0.0, 0.99, "of strength"),
    LIMIT(panel_zero, 0.01, 1.0, "of strength"),
    LIMIT(material_free, 0.0, 2.0, "of 1"),
    LIMIT(material_zero, 0.01, 10.0, "of 1"),
    LIMIT(over_kg_m3, 1.0, 1000.0, "kg/m3"),
    LIMIT(slice_m, 0.1, 1.0, "m"),
    LIMIT(slice_min_kg_m3, 0.0, 200.0, "kg/m3"),
    LIMIT(void_max_m2, 0.0, 10.0, "m2"),
    LIMIT(step_max_m, 0.05, 6.0, "m"),
    LIMIT(after_stall_s, 0.1, 600.0, "s"),
    LIMIT(stop_min_kg, 0.001, 1.0, "kg"),
    LIMIT(plug_points, 0.0, 1000.0, "points"),
    LIMIT(outside_points, 0.0, 1000.0, "points"),
    LIMIT(outside_free_kg, 0.0, 10.0, "kg"),
    LIMIT(check_points, 0.0, 1000.0, "points"),
    LIMIT(power_points, 0.0, 1000.0, "points"),
    LIMIT(years, 1.0, PB_SETTLE_MAX_YEARS, "years"),
    LIMIT(top_gap_zero_m, 0.001, 1.0, "m"),
    LIMIT(void_zero_frac, 0.0001, 1.0, "of the face"),
    LIMIT(reach_m, 0.1, 3.0, "m"),
    LIMIT(air_min_pa, 0.0, 40000.0, "Pa"),
    LIMIT(air_share, 0.0, 1.0, "of 1"),
    LIMIT(feed_max_kg_s, 0.001, 0.2, "kg/s"),
};
enum { ROWS = sizeof rows / sizeof rows[0] };

static double *at(PbRubric *rubric, const RubricRow *row)
{
    return (double *)(void *)((char *)rubric + row->offset);
}

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

static int is_retired(const RubricRow *row)
{
    for (size_t i = 0; i < sizeof retired / sizeof retired[0]; i++) {
        if (strcmp(row->key, retired[i]) == 0) {
            return 1;
        }
    }
    return 0;
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
    IoValue *weights = io_object(&r, doc->root, "weights", 0);
    IoValue *limits = io_object(&r, doc->root, "limits", 0);
    for (int i = 0; i < ROWS; i++) {
        IoValue *group = rows[i].group[0] == 'w' ? weights : limits;
        if (group != NULL && !(made.rules == 1 && is_retired(&rows[i]))) {
            io_number(&r, group, rows[i].key, 0, rows[i].low, rows[i].high, rows[i].unit,
                      at(&made, &rows[i]));
        }
    }
    if (limits != NULL && made.rules == 1) {
        put_aside(&r, limits);
    }
    if (weights != NULL) {
        io_end(&r, weights);
    }
    if (limits != NULL) {
        io_end(&r, limits);
    }
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
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, rubric, err);
}

PbStatus io_rubric_parse(const char *name, const char *text, size_t size, PbRubric *rubric,
                         PbError *err)
{
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, rubric, err);
}

json_t *io_rubric_to_json(const PbRubric *rubric)
{
    PbRubric copy = *rubric;
    json_t *object = json_object(), *weights = json_object(), *limits = json_object();
    int failed = json_object_set_new(object, "format", json_string(IO_RUBRIC_FORMAT));
    failed |= json_object_set_new(object, "name", json_string(rubric->name));
    if (rubric->pass_score >= 0.0) {
        failed |= json_object_set_new(object, "pass_score", json_real(rubric->pass_score));
    }
    for (int i = 0; i < ROWS; i++) {
        json_t *group = rows[i].group[0] == 'w' ? weights : limits;
        failed |= json_object_set_new(group, rows[i].key, json_real(*at(&copy, &rows[i])));
    }
    failed |= json_object_set_new(object, "weights", weights); /* gone when it fails: last */
    failed |= json_object_set_new(object, "limits", limits);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}
