/*
 * Results as CSV and JSON. Learning-record statements follow IEEE 9274.1.1-2023: actor by account,
 * verb, activity, result, timestamp; what the form has no field for stands in extensions, each
 * under an address of the school's own. Verbs and the activity type are the addresses that the
 * open vocabulary of the standard's own first editions gives (from memory).
 */
#include "io/record_file.h"

#include "name_id.h"

#include "io/score_words.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <string.h>

#define VOCABULARY "http://adlnet.gov/expapi/"
enum { MAX_COLUMNS = 16 };

/* Quoted when it has to be. Spreadsheets run cells that begin with = + - @ as formulas; the RFC has
 * no word for that, so such a text gets a space in front. */
void io_csv_text(FILE *out, const char *text)
{
    const char *lead = strchr("=+-@", text[0]) != NULL && text[0] != '\0' ? " " : "";
    if (strpbrk(text, ",\"\r\n") == NULL) {
        fprintf(out, "%s%s", lead, text);
        return;
    }
    fprintf(out, "\"%s", lead);
    for (; *text != '\0'; text++) {
        if (*text == '"') {
            fputc('"', out);
        }
        fputc(*text, out);
    }
    fputc('"', out);
}

static void csv_known(FILE *out, double value)
{
    if (value >= 0.0) {
        fprintf(out, ",%.6g", value);
    } else {
        fputc(',', out);
    }
}

/* Words of files: docs/formats/store.md. */
static const char *state_word(const PbRunSummary *m)
{
    static const char *const words[] = {"finished", "left", "not verified"};
    return words[m->state];
}

static const char *origin_word(const PbRunSummary *m)
{
    static const char *const words[] = {"earlier", "here", "imported"};
    return words[m->origin];
}

static const char *hands_word(const PbRunSummary *m)
{
    return m->is_scripted ? "scripted" : "person";
}

static const PbPartPoints *find_part(const PbRecord *r, const char *key)
{
    for (int i = 0; i < r->summary->part_count; i++) {
        if (strcmp(r->summary->parts[i].key, key) == 0) {
            return &r->summary->parts[i];
        }
    }
    return NULL;
}

static const PbRecordMark *find_mark(const PbRecord *r, const char *part)
{
    for (int i = 0; i < r->mark_count; i++) {
        if (strcmp(r->marks[i].part, part) == 0) {
            return &r->marks[i];
        }
    }
    return NULL;
}

/* Parts in the order in which they are first met. */
static int gather(const PbRecord *records, int count, const char **keys)
{
    int n = 0;
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < records[i].summary->part_count; k++) {
            const char *key = records[i].summary->parts[k].key;
            int at = 0;
            while (at < n && strcmp(keys[at], key) != 0) {
                at++;
            }
            if (at == n && n == MAX_COLUMNS) {
                return -1;
            }
            if (at == n) {
                keys[n++] = key;
            }
        }
    }
    return n;
}

/* Rounded down to hundredths, so that 69.996 does not read as a 70 that did not pass. */
static double cut(double total)
{
    return floor(100.0 * total + 1e-6) / 100.0;
}

static void csv_row(FILE *out, const PbRecord *r, const char *const *keys, int key_count)
{
    const PbRunSummary *m = r->summary;
    fprintf(out, "%" PRId64 ",", r->run_id);
    io_csv_text(out, r->learner);
    fputc(',', out);
    io_csv_text(out, m->exercise_id);
    fputc(',', out);
    io_csv_text(out, m->exercise_title);
    fprintf(out, ",%s,%.2f,%" PRIu64 ",%d,", m->when, m->duration_s, m->seed, m->physics_version);
    io_csv_text(out, m->rubric);
    if (m->state == PB_RUN_FINISHED) {
        fprintf(out, ",%.2f,%s", cut(m->total), m->is_pass ? "yes" : "no");
    } else {
        fputs(",,", out);
    }
    const PbRecordMark *whole = find_mark(r, "run");
    csv_known(out, whole != NULL ? whole->points : -1.0);
    csv_known(out, m->step_mean_m);
    csv_known(out, m->step_spread_m);
    csv_known(out, m->dwell_mean_s);
    csv_known(out, m->dwell_spread_s);
    fprintf(out, ",%s,%s,%s,%s,%d", state_word(m), hands_word(m), origin_word(m),
            r->is_own_exercise ? "yes" : "no", m->breaks);
    csv_known(out, m->has_claim ? cut(m->claimed_total) : -1.0);
    fprintf(out, ",%s", !m->has_claim ? "" : m->claimed_pass ? "yes" : "no");
    for (int i = 0; i < key_count; i++) {
        const PbPartPoints *p = find_part(r, keys[i]);
        const PbRecordMark *mark = find_mark(r, keys[i]);
        csv_known(out, p != NULL ? p->points : -1.0);
        csv_known(out, p != NULL ? p->max : -1.0);
        csv_known(out, mark != NULL ? mark->points : -1.0);
    }
    fputs("\r\n", out);
}

PbStatus io_records_csv(FILE *out, const PbRecord *records, int count, PbError *err)
{
    assert(out != NULL);
    assert(count == 0 || records != NULL);
    const char *keys[MAX_COLUMNS];
    int n = gather(records, count, keys);
    if (n < 0) {
        return pb_fail(err, PB_ERR_RANGE, "the runs have more than %d different parts",
                       MAX_COLUMNS);
    }
    fputs("run,learner,exercise,title,ended,duration_s,seed,physics_version,rubric,total,pass,"
          "trainer_total,step_mean_m,step_spread_m,dwell_mean_s,dwell_spread_s,state,worked_by,"
          "origin,"
          "own_exercise,breaks,claimed_total,claimed_pass",
          out);
    for (int i = 0; i < n; i++) {
        fprintf(out, ",%s,%s_max,%s_trainer", keys[i], keys[i], keys[i]);
    }
    fputs("\r\n", out);
    for (int i = 0; i < count; i++) {
        csv_row(out, &records[i], keys, n);
    }
    return PB_OK;
}

static json_t *known(double value)
{
    return value >= 0.0 ? json_real(value) : json_null();
}

static json_t *parts_json(const PbRecord *r)
{
    json_t *list = json_array();
    for (int i = 0; i < r->summary->part_count; i++) {
        const PbPartPoints *p = &r->summary->parts[i];
        const PbRecordMark *mark = find_mark(r, p->key);
        json_array_append_new(list, json_pack("{s:s, s:f, s:f, s:o}", "part", p->key, "points",
                                              p->points, "max", p->max, "trainer",
                                              known(mark != NULL ? mark->points : -1.0)));
    }
    return list;
}

static json_t *row_json(const PbRecord *r)
{
    const PbRunSummary *m = r->summary;
    int has_total = m->state == PB_RUN_FINISHED;
    char seed[24];
    snprintf(seed, sizeof seed, "%" PRIu64, m->seed); /* JSON numbers end at 2^53 */
    json_t *row = json_pack(
        "{s:I, s:I, s:s, s:s, s:s, s:s, s:f, s:s, s:i, s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o}",
        "run", (json_int_t)r->run_id, "learner_id", (json_int_t)r->learner_id, "learner",
        r->learner, "exercise", m->exercise_id, "title", m->exercise_title, "ended", m->when,
        "duration_s", m->duration_s, "seed", seed, "physics_version", m->physics_version, "rubric",
        m->rubric, "total", has_total ? json_real(m->total) : json_null(), "pass",
        has_total ? json_boolean(m->is_pass) : json_null(), "parts", parts_json(r), "step_mean_m",
        known(m->step_mean_m), "step_spread_m", known(m->step_spread_m), "dwell_mean_s",
        known(m->dwell_mean_s), "dwell_spread_s", known(m->dwell_spread_s));
    json_t *origin = json_pack("{s:s, s:s, s:s, s:b, s:i, s:o, s:o}", "state", state_word(m),
                               "worked_by", hands_word(m), "origin", origin_word(m), "own_exercise",
                               r->is_own_exercise, "breaks", m->breaks, "claimed_total",
                               known(m->has_claim ? m->claimed_total : -1.0), "claimed_pass",
                               m->has_claim ? json_boolean(m->claimed_pass) : json_null());
    if (row == NULL || origin == NULL || json_object_update(row, origin) != 0) {
        json_decref(row);
        row = NULL;
    }
    json_decref(origin);
    return row;
}

json_t *io_records_json(const PbRecord *records, int count)
{
    assert(count == 0 || records != NULL);
    json_t *list = json_array();
    for (int i = 0; i < count && list != NULL; i++) {
        json_t *row = row_json(&records[i]);
        if (row == NULL || json_array_append_new(list, row) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

int io_is_home(const char *home)
{
    assert(home != NULL);
    size_t n = strlen(home), lead = strncmp(home, "https://", 8) == 0  ? 8
                                    : strncmp(home, "http://", 7) == 0 ? 7
                                                                       : 0;
    if (lead == 0 || n <= lead || n > 200 || home[lead] == '/' || home[n - 1] == '/') {
        return 0;
    }
    for (const unsigned char *p = (const unsigned char *)home; *p != '\0'; p++) {
        if (*p <= ' ' || *p >= 0x7f || strchr("<>\"{}|\\^`#", *p) != NULL) {
            return 0;
        }
    }
    return 1;
}

void io_duration(double seconds, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    long hundredths = (long)(seconds * 100.0 + 0.5);
    long h = hundredths / 360000, m = hundredths / 6000 % 60, s = hundredths % 6000;
    int n = snprintf(out, size, "PT");
    if (h > 0) {
        n += snprintf(out + n, size - (size_t)n, "%ldH", h);
    }
    if (m > 0) {
        n += snprintf(out + n, size - (size_t)n, "%ldM", m);
    }
    snprintf(out + n, size - (size_t)n, "%ld.%02ldS", s / 100, s % 100);
}

/* Addresses of extensions: HOME/pullback/NAME, or HOME/pullback/part/NAME. */
static void extend(json_t *extensions, const char *home, const char *name, json_t *value)
{
    char key[300];
    snprintf(key, sizeof key, "%s/pullback/%s", home, name);
    json_object_set_new(extensions, key, value);
}

static json_t *extensions_of(const PbRecord *r, const char *home)
{
    const PbRunSummary *m = r->summary;
    json_t *all = json_object();
    char name[64], seed[24];
    for (int i = 0; i < m->part_count; i++) {
        const PbPartPoints *p = &m->parts[i];
        const PbRecordMark *mark = find_mark(r, p->key);
        snprintf(name, sizeof name, "part/%s", p->key);
        extend(all, home, name,
               json_pack("{s:f, s:f, s:o}", "points", p->points, "max", p->max, "trainer",
                         known(mark != NULL ? mark->points : -1.0)));
    }
    const PbRecordMark *whole = find_mark(r, "run");
    if (whole != NULL && whole->points >= 0.0) {
        extend(all, home, "trainer-total", json_real(whole->points));
    }
    snprintf(seed, sizeof seed, "%" PRIu64, m->seed);
    extend(all, home, "seed", json_string(seed));
    extend(all, home, "physics-version", json_integer(m->physics_version));
    extend(all, home, "rubric", json_string(m->rubric));
    extend(all, home, "state", json_string(state_word(m)));
    extend(all, home, "worked-by", json_string(hands_word(m)));
    extend(all, home, "origin", json_string(origin_word(m)));
    extend(all, home, "own-exercise", json_boolean(r->is_own_exercise));
    if (m->breaks > 0) {
        extend(all, home, "breaks", json_integer(m->breaks));
    }
    if (m->has_claim && m->state != PB_RUN_LEFT) {
        extend(all, home, "claimed-total", json_real(m->claimed_total));
    }
    return all;
}

/* Version 5 (RFC 9562): from a name, so that the same run has the same id for ever. */
static void statement_id(const PbRecord *r, const char *home, char *out)
{
    char name[320];
    int n = snprintf(name, sizeof name, "%s/pullback/runs/%" PRId64 "/%016" PRIx64, home, r->run_id,
                     r->checksum);
    io_name_id(name, (size_t)n, out);
}

/* Passed and failed are said of a person's finished run alone. */
static const char *verb_of(const PbRunSummary *m)
{
    return m->state == PB_RUN_LEFT ? "suspended"
           : !pb_summary_counts(m) ? "completed"
           : m->is_pass            ? "passed"
                                   : "failed";
}

static json_t *result_of(const PbRecord *r, const char *home)
{
    const PbRunSummary *m = r->summary;
    char duration[40];
    io_duration(m->duration_s, duration, sizeof duration);
    json_t *result = json_pack("{s:b, s:s, s:o}", "completion", m->state != PB_RUN_LEFT, "duration",
                               duration, "extensions", extensions_of(r, home));
    if (result == NULL || !pb_summary_counts(m)) {
        return result;
    }
    json_object_set_new(result, "score",
                        json_pack("{s:f, s:f, s:f, s:f}", "scaled", m->total / 100.0, "raw",
                                  m->total, "min", 0.0, "max", 100.0));
    json_object_set_new(result, "success", json_boolean(m->is_pass));
    return result;
}

/* An own exercise is another activity than the shipped one whose id it has. */
static void activity_of(const PbRecord *r, const char *home, char *out, size_t size)
{
    const PbRunSummary *m = r->summary;
    int n = snprintf(out, size, "%s/pullback/exercises/%s", home, m->exercise_id);
    if (r->is_own_exercise && n > 0 && (size_t)n < size) {
        snprintf(out + n, size - (size_t)n, "/own-%016" PRIx64, m->exercise_hash);
    }
}

static json_t *statement(const PbRecord *r, const char *home)
{
    char id[40], account[32], activity[360], verb[64];
    const char *word = verb_of(r->summary);
    statement_id(r, home, id);
    snprintf(account, sizeof account, "learner-%" PRId64, r->learner_id);
    activity_of(r, home, activity, sizeof activity);
    snprintf(verb, sizeof verb, VOCABULARY "verbs/%s", word);
    return json_pack(
        "{s:s, s:{s:s, s:s, s:{s:s, s:s}}, s:{s:s, s:{s:s}}, s:{s:s, s:s, s:{s:s, s:{s:s}}},"
        " s:o, s:s}",
        "id", id, "actor", "objectType", "Agent", "name", r->learner, "account", "homePage", home,
        "name", account, "verb", "id", verb, "display", "en", word, "object", "objectType",
        "Activity", "id", activity, "definition", "type", VOCABULARY "activities/simulation",
        "name", "und", r->summary->exercise_title, "result", result_of(r, home), "timestamp",
        r->summary->when);
}

json_t *io_records_xapi(const PbRecord *records, int count, const char *home)
{
    assert(home != NULL);
    assert(count == 0 || records != NULL);
    json_t *list = json_array();
    for (int i = 0; i < count && list != NULL; i++) {
        json_t *one = statement(&records[i], home);
        if (one == NULL || json_array_append_new(list, one) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}
