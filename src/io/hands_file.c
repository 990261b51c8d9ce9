/*
 * Hands files. A key frame may give several commands at once; they are taken in a fixed order
 * (machine before tube before finish), whatever their order in the file, and become one PbKeyFrame
 * each. Next: core/session/hands.c for what the rule does with them.
 */
#include "io/hands_file.h"

#include "format_rows.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const direction_words[] = {"up", "down"};
static const char *const switch_words[] = {"on", "off"};

/* What the bay and its machine have. */
typedef struct Limits {
    double feed_kg_s;
    int holes, openings;
} Limits;

static void add(IoReader *r, const IoValue *at, PbHands *h, double time_s, PbCommandKind kind,
                double value)
{
    if (r->status != PB_OK) {
        return;
    }
    if (h->frame_count >= PB_MAX_KEY_FRAMES) {
        io_complain(r, at, PB_ERR_RANGE, "more than %d commands in the key frames",
                    PB_MAX_KEY_FRAMES);
        return;
    }
    h->frames[h->frame_count++] = (PbKeyFrame){time_s, {kind, value}};
}

/* One number of a key frame that becomes one command. */
static void add_number(IoReader *r, IoValue *frame, const char *key, double lo, double hi,
                       const char *unit, PbCommandKind kind, PbHands *h, double time_s)
{
    double x = 0.0;
    if (io_child(r, frame, key) != NULL) {
        io_number(r, frame, key, 1, lo, hi, unit, &x);
        add(r, frame, h, time_s, kind, x);
    }
}

/* One flag that only makes sense as true. */
static void add_flag(IoReader *r, IoValue *frame, const char *key, PbCommandKind kind, PbHands *h,
                     double time_s)
{
    int is_set = 0;
    io_bool(r, frame, key, 0, &is_set);
    if (is_set) {
        add(r, frame, h, time_s, kind, 1.0);
    }
}

/* One number of a key frame that counts something of the bay: a hole, an opening. */
static void add_which(IoReader *r, IoValue *frame, const char *key, int last, PbCommandKind kind,
                      PbHands *h, double time_s)
{
    double x = 0.0;
    const IoValue *at = io_child(r, frame, key);
    if (at == NULL) {
        return;
    }
    if (last < 1) {
        io_complain(r, at, PB_ERR_RANGE, "\"%s\": the bay has none", key);
        return;
    }
    io_number(r, frame, key, 1, 1, last, "-", &x);
    if (r->status == PB_OK && x != floor(x)) {
        io_complain(r, at, PB_ERR_RANGE, "\"%s\": %g, expected a whole number from 1 to %d", key, x,
                    last);
    }
    add(r, frame, h, time_s, kind, x);
}

static void add_leave(IoReader *r, IoValue *frame, PbHands *h, double time_s)
{
    const char *words[PB_LEAVE_REASONS - 1];
    int choice = -1;
    for (int i = 1; i < PB_LEAVE_REASONS; i++) {
        words[i - 1] = pb_leave_traits((PbLeaveReason)i)->word;
    }
    io_choice(r, frame, "leave", 0, words, PB_LEAVE_REASONS - 1, &choice);
    if (choice >= 0) {
        add(r, frame, h, time_s, PB_COMMAND_LEAVE, choice + 1.0);
    }
}

/* What is done at the hole and to the bay, in the order of a crew: the old hole is left and closed
 * before the tube goes into the next. */
static void read_acts(IoReader *r, IoValue *v, const Limits *most, PbHands *h, double t)
{
    add_which(r, v, "seal", most->openings, PB_COMMAND_SEAL, h, t);
    add_which(r, v, "hole", most->holes, PB_COMMAND_HOLE, h, t);
    add_which(r, v, "plug", most->holes, PB_COMMAND_PLUG, h, t);
    add_number(r, v, "ring", 0, 1, "-", PB_COMMAND_RING, h, t);
    add_flag(r, v, "static_test", PB_COMMAND_STATIC_TEST, h, t);
}

static void read_frame(IoReader *r, IoValue *v, const Limits *most, PbHands *h)
{
    double t = 0.0;
    int before = h->frame_count, choice = -1;
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected a key frame { ... }");
        return;
    }
    io_number(r, v, "time_s", 1, 0.0, 3600.0, "s", &t);
    if (r->status == PB_OK && before > 0 && t < h->frames[before - 1].time_s) {
        io_complain(r, io_child(r, v, "time_s"), PB_ERR_RANGE,
                    "\"time_s\": %g comes before %g, expected key frames in order of time", t,
                    h->frames[before - 1].time_s);
    }
    add_flag(r, v, "clear_plug", PB_COMMAND_CLEAR_PLUG, h, t);
    read_acts(r, v, most, h, t);
    io_choice(r, v, "turn", 0, direction_words, 2, &choice);
    if (choice >= 0) {
        add(r, v, h, t, PB_COMMAND_TURN, choice == 0 ? 1.0 : -1.0);
    }
    add_number(r, v, "blower", 0, 1, "-", PB_COMMAND_BLOWER, h, t);
    add_number(r, v, "feed_kg_s", 0, most->feed_kg_s, "kg/s", PB_COMMAND_FEED, h, t);
    choice = -1;
    io_choice(r, v, "machine", 0, switch_words, 2, &choice);
    if (choice >= 0) {
        add(r, v, h, t, PB_COMMAND_MACHINE, choice == 0 ? 1.0 : 0.0);
    }
    add_number(r, v, "tube_in_m", 0, 7, "m", PB_COMMAND_TUBE_TARGET, h, t);
    add_number(r, v, "tube_rate_m_s", -1, 1, "m/s", PB_COMMAND_TUBE_RATE, h, t);
    add_number(r, v, "mark", 0, 1e6, "-", PB_COMMAND_MARK, h, t);
    add_leave(r, v, h, t);
    add_flag(r, v, "finish", PB_COMMAND_FINISH, h, t);
    if (r->status == PB_OK && h->frame_count == before) {
        io_end(r, v); /* a misspelt command is the likelier trouble */
        io_complain(r, v, PB_ERR_FORMAT,
                    "the key frame gives no command, expected at least one of machine, blower, "
                    "feed_kg_s, tube_in_m, tube_rate_m_s, turn, ring, hole, plug, seal, "
                    "static_test, clear_plug, mark, leave, finish");
    }
}

static void read_pass(IoReader *r, IoValue *v, int holes, PbPass *p)
{
    size_t count;
    const PbNumberRow *rows = pb_pass_rows(&count);
    int choice = 0;
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected a pass { ... }");
        return;
    }
    io_choice(r, v, "direction", 1, direction_words, 2, &choice);
    p->direction = choice == 0 ? 1 : -1;
    io_rows_read(r, v, rows, count, p);
    if (r->status == PB_OK && p->hole > holes) {
        io_complain(r, io_child(r, v, "hole"), PB_ERR_RANGE,
                    "\"hole\": %g, expected 1 to %d: the bay has no more", p->hole, holes);
    }
}

static void read_rule(IoReader *r, IoValue *object, const Limits *most, PbHands *h)
{
    size_t count;
    const PbNumberRow *rows = pb_hands_rows(&count);
    int pull = 0;
    io_choice(r, object, "pull", 1, pb_pull_words, PB_PULL_WORDS, &pull);
    h->pull = (PbPullRule)pull;
    io_rows_read(r, object, rows, count, h);
    if (r->status == PB_OK && h->feed_kg_s > most->feed_kg_s) {
        io_complain(r, io_child(r, object, "feed_kg_s"), PB_ERR_RANGE,
                    "\"feed_kg_s\": %g is more than the gate gives, expected 0 to %g kg/s",
                    h->feed_kg_s, most->feed_kg_s);
    }
    IoValue *list = io_array(r, object, "passes", 1, 1, PB_MAX_PASSES);
    h->pass_count = 0;
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        read_pass(r, &list->child[i], most->holes, &h->passes[i]);
        h->pass_count = (int)i + 1;
    }
}

static void read_hands(IoReader *r, IoValue *object, const Limits *most, PbHands *hands)
{
    PbHands h = pb_hands_default();
    char path[96];
    PbError check;
    memset(h.passes, 0, sizeof h.passes);
    io_format(r, object, IO_HANDS_FORMAT);
    io_text(r, object, "name", 1, h.name, sizeof h.name);
    h.is_rule = io_child(r, object, "pull") != NULL;
    if (h.is_rule) {
        read_rule(r, object, most, &h);
    }
    IoValue *list = io_array(r, object, "frames", !h.is_rule, 1, PB_MAX_KEY_FRAMES);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        read_frame(r, &list->child[i], most, &h);
    }
    if (r->status == PB_OK) {
        io_end_deep(r, object);
    }
    if (r->status == PB_OK && pb_hands_check(&h, path, sizeof path, &check) != PB_OK) {
        io_complain_check(r, object, path, &check);
    }
    if (r->status == PB_OK) {
        *hands = h;
    }
}

/* The most that any exercise may have, where it is not known which one it will be. */
static const Limits any_bay = {0.2, PB_MAX_HOLES, PB_MAX_OPENINGS};

static PbStatus read_doc(IoDoc *doc, const Limits *most, PbHands *hands, PbError *err)
{
    IoReader r = io_reader(doc, err);
    read_hands(&r, doc->root, most, hands);
    io_doc_free(doc);
    return r.status;
}

PbStatus io_hands_parse(const char *name, const char *text, size_t size, PbHands *hands,
                        PbError *err)
{
    assert(name != NULL && text != NULL && hands != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, &any_bay, hands, err);
}

PbStatus io_hands_load(const char *path, PbHands *hands, PbError *err)
{
    assert(path != NULL && hands != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, &any_bay, hands, err);
}

PbStatus io_hands_load_for(const char *path, const PbExercise *exercise, PbHands *hands,
                           PbError *err)
{
    assert(path != NULL && exercise != NULL && hands != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    const Limits most = {exercise->machine.feed_max_kg_s, exercise->hole_count,
                         exercise->opening_count};
    return read_doc(&doc, &most, hands, err);
}
