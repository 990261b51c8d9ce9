/*
 * Files of acts: hands for any bay, a rule, acts one by one. Next: job_file.c, core/job.h.
 */
#include "io/job_file.h"

#include "format_rows.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const end_words[] = {"both", "up", "down"};

static void read_hands(IoReader *r, IoValue *v, PbJobHands *h)
{
    size_t count;
    int pull = PB_PULL_STALL, ends = 0;
    const PbNumberRow *rows = pb_hands_rows(&count);
    *h = pb_job_hands_default();
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected hands { ... }");
        return;
    }
    io_text(r, v, "name", 1, h->rule.name, sizeof h->rule.name);
    io_choice(r, v, "pull", 0, pb_pull_words, PB_PULL_WORDS, &pull);
    h->rule.pull = (PbPullRule)pull;
    io_rows_read(r, v, rows, count, &h->rule);
    rows = pb_job_hands_rows(&count);
    io_rows_read(r, v, rows, count, h);
    io_choice(r, v, "ends", 0, end_words, 3, &ends);
    h->does_up = ends != 2;
    h->does_down = ends != 1;
}

/* Number of the hands of a name; complains when there are none. */
static int hands_named(IoReader *r, IoValue *v, const char *key, const IoJobActs *a, int as_done)
{
    char name[sizeof a->hands[0].rule.name] = "";
    IoValue *at = io_child(r, v, key);
    if (at == NULL) {
        return 0;
    }
    io_text(r, v, key, 1, name, sizeof name);
    if (as_done && strcmp(name, "as-done") == 0) {
        return PB_JOB_AS_DONE;
    }
    for (int i = 0; i < a->hand_count; i++) {
        if (strcmp(name, a->hands[i].rule.name) == 0) {
            return i;
        }
    }
    io_complain(r, at, PB_ERR_RANGE, "\"%s\": there are no hands \"%.60s\" in this file%s", key,
                name, as_done ? ", nor is it \"as-done\"" : "");
    return 0;
}

static void read_rule(IoReader *r, IoValue *v, IoJobActs *a)
{
    long long by_hand = 0;
    int find = 0;
    PbJobRule *rule = &a->rule;
    *rule = (PbJobRule){PB_FIND_CAREFUL, 1, 1, 1, 1, 1, 1, 0, 0};
    io_choice(r, v, "find", 1, pb_find_words, PB_FIND_METHODS, &find);
    rule->find = (PbFindMethod)find;
    io_bool(r, v, "checks", 0, &rule->checks);
    io_bool(r, v, "leaves", 0, &rule->leaves);
    io_bool(r, v, "seals", 0, &rule->seals);
    io_bool(r, v, "tests", 0, &rule->tests);
    io_bool(r, v, "tidies", 0, &rule->tidies);
    io_bool(r, v, "proves", 0, &rule->proves);
    rule->hands = hands_named(r, v, "hands", a, 0);
    io_integer(r, v, "by_hand", 0, 0, PB_JOB_FILLS, &by_hand);
    rule->by_hand = (int)by_hand;
    a->has_rule = 1;
}

static void place(IoReader *r, IoValue *v, double *x_m, double *y_m)
{
    io_number(r, v, "x_m", 1, 0.0, 15.0, "m", x_m);
    io_number(r, v, "y_m", 1, 0.0, 7.0, "m", y_m);
}

static void read_reason(IoReader *r, IoValue *v, PbLeaveReason *reason)
{
    const char *words[PB_LEAVE_REASONS - 1];
    int choice = 0;
    for (int i = 1; i < PB_LEAVE_REASONS; i++) {
        words[i - 1] = pb_leave_traits((PbLeaveReason)i)->word;
    }
    io_choice(r, v, "reason", 1, words, PB_LEAVE_REASONS - 1, &choice);
    *reason = (PbLeaveReason)(choice + 1);
}

/* The second place of a tape or a pencil. */
static void place_to(IoReader *r, IoValue *v, PbCrewAct *w)
{
    io_number(r, v, "x1_m", 1, 0.0, 15.0, "m", &w->x1_m);
    io_number(r, v, "y1_m", 1, 0.0, 7.0, "m", &w->y1_m);
}

static void read_tube(IoReader *r, IoValue *v, PbCrewAct *w)
{
    static const char *const ways[] = {"up", "down"};
    long long hole = 1;
    int way = 0;
    io_integer(r, v, "hole", 1, 1, PB_CREW_HOLES, &hole);
    io_choice(r, v, "way", 1, ways, 2, &way);
    w->hole = (int)hole - 1;
    w->is_up = way == 0;
}

static void read_wall_act(IoReader *r, IoValue *v, PbCrewAct *w)
{
    int kind = 0;
    if (w->kind == PB_CREW_CAMERA) {
        io_number(r, v, "delta_k", 1, -60.0, 60.0, "K", &w->delta_k);
        return;
    }
    if (w->kind == PB_CREW_TUBE) {
        read_tube(r, v, w);
        return;
    }
    place(r, v, &w->x_m, &w->y_m);
    switch (w->kind) {
    case PB_CREW_MEASURE:
        place_to(r, v, w);
        break;
    case PB_CREW_PROBE:
        io_number(r, v, "right_deg", 0, -PB_CREW_SLANT_MAX_DEG, PB_CREW_SLANT_MAX_DEG, "degrees",
                  &w->right_deg);
        io_number(r, v, "up_deg", 0, -PB_CREW_SLANT_MAX_DEG, PB_CREW_SLANT_MAX_DEG, "degrees",
                  &w->up_deg);
        break;
    case PB_CREW_DRILL:
        io_number(r, v, "bore_m", 0, 0.02, 0.12, "m", &w->bore_m);
        break;
    case PB_CREW_PENCIL:
        place_to(r, v, w);
        io_choice(r, v, "member", 1, pb_member_words, PB_MEMBER_KINDS, &kind);
        w->member = (PbMemberKind)kind;
        break;
    case PB_CREW_LEAVE:
        read_reason(r, v, &w->reason);
        break;
    default:
        break;
    }
}

enum { FIRST_JOB = 1, WORDS = PB_CREW_ACT_KINDS + PB_JOB_ACT_KINDS - FIRST_JOB };

static void read_act(IoReader *r, IoValue *v, const IoJobActs *a, PbJobAct *act)
{
    const char *words[WORDS];
    int choice = 0;
    for (int i = 0; i < WORDS; i++) {
        words[i] = i < (int)PB_CREW_ACT_KINDS
                       ? pb_crew_act_traits((PbCrewActKind)i)->word
                       : pb_job_act_traits((PbJobActKind)(i - PB_CREW_ACT_KINDS + FIRST_JOB))->word;
    }
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected an act { \"act\": ..., ... }");
        return;
    }
    io_choice(r, v, "act", 1, words, WORDS, &choice);
    io_number(r, v, "at_min", 0, 0.0, 10000.0, "min", &act->at_min);
    if (choice < (int)PB_CREW_ACT_KINDS) {
        act->kind = PB_JOB_WALL;
        act->wall.kind = (PbCrewActKind)choice;
        read_wall_act(r, v, &act->wall);
        return;
    }
    act->kind = (PbJobActKind)(choice - PB_CREW_ACT_KINDS + FIRST_JOB);
    if (act->kind == PB_JOB_FILL || act->kind == PB_JOB_SEAL || act->kind == PB_JOB_FINGER ||
        act->kind == PB_JOB_CORE) {
        place(r, v, &act->wall.x_m, &act->wall.y_m);
    }
    if (act->kind == PB_JOB_FILL) {
        act->hands = hands_named(r, v, "hands", a, 1);
    } else if (act->kind == PB_JOB_ESTIMATE) {
        io_number(r, v, "bags", 1, 0.0, 1000.0, "bags", &act->bags);
    }
}

static void read_acts(IoReader *r, IoValue *list, IoJobActs *a)
{
    a->acts = calloc(list->count, sizeof *a->acts);
    a->line = calloc(list->count, sizeof *a->line);
    a->column = calloc(list->count, sizeof *a->column);
    if (a->acts == NULL || a->line == NULL || a->column == NULL) {
        io_complain(r, list, PB_ERR_MEMORY, "out of memory");
        return;
    }
    for (size_t i = 0; i < list->count; i++) {
        read_act(r, &list->child[i], a, &a->acts[i]);
        a->line[i] = list->child[i].line;
        a->column[i] = list->child[i].column;
    }
    a->act_count = (int)list->count;
}

void io_acts_read(IoReader *r, IoValue *root, IoJobActs *a)
{
    io_format(r, root, IO_ACTS_FORMAT);
    io_text(r, root, "name", 1, a->name, sizeof a->name);
    IoValue *list = io_array(r, root, "hands", 0, 1, PB_JOB_HANDS);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        read_hands(r, &list->child[i], &a->hands[i]);
        a->hand_count = (int)i + 1;
    }
    if (list == NULL) {
        a->hands[0] = pb_job_hands_default();
        a->hand_count = 1;
    }
    IoValue *rule = io_object(r, root, "rule", 0);
    if (rule != NULL) {
        read_rule(r, rule, a);
    }
    list = io_array(r, root, "acts", rule == NULL, 1, PB_JOB_ACTS);
    if (list != NULL) {
        read_acts(r, list, a);
    }
    if (r->status == PB_OK) {
        io_end_deep(r, root);
    }
    snprintf(a->file, sizeof a->file, "%s", r->doc->file);
}

static PbStatus read_doc(IoDoc *doc, IoJobActs *acts, PbError *err)
{
    IoReader r = io_reader(doc, err);
    io_acts_read(&r, doc->root, acts);
    io_doc_free(doc);
    return r.status;
}

PbStatus io_acts_parse(const char *name, const char *text, size_t size, IoJobActs *acts,
                       PbError *err)
{
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, acts, err);
}

PbStatus io_acts_load(const char *path, IoJobActs *acts, PbError *err)
{
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, acts, err);
}

void io_acts_free(IoJobActs *a)
{
    free(a->acts);
    free(a->line);
    free(a->column);
    memset(a, 0, sizeof *a);
}

/* Appends one pair; numbers to the bit. */
static void put(char *out, size_t size, const char *key, double value)
{
    size_t n = strlen(out);
    snprintf(out + n, size - n, ",\"%s\":%.17g", key, value);
}

static void put_word(char *out, size_t size, const char *key, const char *value)
{
    size_t n = strlen(out);
    snprintf(out + n, size - n, ",\"%s\":\"%s\"", key, value);
}

static void put_wall_act(const PbCrewAct *w, char *out, size_t size)
{
    if (w->kind == PB_CREW_CAMERA) {
        put(out, size, "delta_k", w->delta_k);
        return;
    }
    if (w->kind == PB_CREW_TUBE) {
        put(out, size, "hole", w->hole + 1);
        put_word(out, size, "way", w->is_up ? "up" : "down");
        return;
    }
    put(out, size, "x_m", w->x_m);
    put(out, size, "y_m", w->y_m);
    if (w->kind == PB_CREW_MEASURE || w->kind == PB_CREW_PENCIL) {
        put(out, size, "x1_m", w->x1_m);
        put(out, size, "y1_m", w->y1_m);
    }
    if (w->kind == PB_CREW_PROBE) {
        put(out, size, "right_deg", w->right_deg);
        put(out, size, "up_deg", w->up_deg);
    } else if (w->kind == PB_CREW_DRILL && w->bore_m > 0.0) {
        put(out, size, "bore_m", w->bore_m);
    } else if (w->kind == PB_CREW_PENCIL) {
        put_word(out, size, "member", pb_member_words[w->member]);
    } else if (w->kind == PB_CREW_LEAVE) {
        put_word(out, size, "reason", pb_leave_traits(w->reason)->word);
    }
}

void io_act_text(const PbJobAct *act, char *out, size_t size)
{
    int is_wall = act->kind == PB_JOB_WALL;
    snprintf(out, size, "{\"act\":\"%s\"",
             is_wall ? pb_crew_act_traits(act->wall.kind)->word
                     : pb_job_act_traits(act->kind)->word);
    if (act->at_min > 0.0) {
        put(out, size, "at_min", act->at_min);
    }
    if (is_wall) {
        put_wall_act(&act->wall, out, size);
    } else if (act->kind == PB_JOB_ESTIMATE) {
        put(out, size, "bags", act->bags);
    } else if (act->kind == PB_JOB_FILL || act->kind == PB_JOB_SEAL || act->kind == PB_JOB_FINGER ||
               act->kind == PB_JOB_CORE) {
        put(out, size, "x_m", act->wall.x_m);
        put(out, size, "y_m", act->wall.y_m);
    }
    if (act->kind == PB_JOB_FILL && act->hands == PB_JOB_AS_DONE) {
        put_word(out, size, "hands", "as-done");
    }
    size_t n = strlen(out);
    snprintf(out + n, size - n, "}");
}
