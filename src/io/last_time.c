/* What changed since the last time, in sentences: see io/last_time.h. */
#include "io/last_time.h"

#include "io/run_file.h"
#include "io/score_words.h"

#include "word_template.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static void take_weakest(const PbRunSummary *m, IoTry *t)
{
    double points[PB_SUMMARY_PARTS];
    int shown[PB_SUMMARY_PARTS];
    const char *key = io_part_key(PB_SCORE_WEAKEST);
    for (int i = 0; i < m->part_count; i++) {
        points[i] = m->parts[i].points;
    }
    io_points_shown(points, m->part_count, shown);
    for (int i = 0; i < m->part_count; i++) {
        if (strcmp(m->parts[i].key, key) == 0 && m->parts[i].max > 0.0) {
            t->weakest = shown[i];
            t->weakest_most = m->parts[i].max;
        }
    }
}

IoTry io_try_of(const PbRunSummary *summary, const void *bytes, size_t size)
{
    assert(summary != NULL);
    PbRunFile run;
    PbError err;
    IoTry t = {.mark = io_mark_shown(summary->total),
               .weakest = -1,
               .mean_kg_m3 = -1.0,
               .duration_s = summary->duration_s,
               .physics_version = summary->physics_version};
    take_weakest(summary, &t);
    if (bytes != NULL && io_run_decode("run", bytes, size, &run, &err) == PB_OK) {
        t.mean_kg_m3 = run.is_ended ? run.result.mean_kg_m3 : -1.0;
        io_run_free(&run);
    }
    return t;
}

/* Two runs side by side, or one alone. */
typedef struct Pair {
    const IoTry *now, *then;
} Pair;

enum { MARK, MEAN, WEAKEST, TIME };

static void put(const IoTry *t, int what, IoReaderTaste taste, char *out, size_t size)
{
    if (what == MARK) {
        snprintf(out, size, "%d", t->mark);
    } else if (what == MEAN) {
        io_unit_figure(IO_UNIT_DENSITY, t->mean_kg_m3, taste, out, size);
    } else if (what == WEAKEST) {
        snprintf(out, size, "%d", t->weakest);
    } else {
        io_clock_words(t->duration_s, out, size);
    }
}

/* {p} points of difference, {o} the mark then; of figures: {d} mean, {w} points of the weakest
 * place, {m} out of, {t} time; the same in capitals: then. */
static void fill_in(char which, const void *user, IoReaderTaste taste, char *out, size_t size)
{
    static const char letters[] = "odwt"; /* in the order of the figures above */
    const Pair *p = user;
    out[0] = '\0';
    for (int i = 0; letters[i] != '\0'; i++) {
        if (which == letters[i]) {
            put(i == MARK ? p->then : p->now, i, taste, out, size);
        } else if (which == letters[i] - 'a' + 'A') {
            put(p->then, i, taste, out, size);
        }
    }
    if (which == 'p') {
        int off = p->now->mark - p->then->mark;
        snprintf(out, size, "%d", off < 0 ? -off : off);
    } else if (which == 'm') {
        snprintf(out, size, "%.0f", p->now->weakest_most);
    }
}

static void say(const char *text, const Pair *p, IoReaderTaste taste, char *out, size_t size)
{
    size_t used = strlen(out);
    if (used > 0 && used + 1 < size) {
        memcpy(out + used++, " ", 2);
    }
    (void)io_template_append(words_in(taste.language, text), NULL, fill_in, p, taste, out, used,
                             size);
    io_full_stop(out, size);
}

static const char *mark_words(int off)
{
    return off == 0    ? N_("As many points as last time, {o}")
           : off == 1  ? N_("One point more than last time, when it was {o}")
           : off == -1 ? N_("One point fewer than last time, when it was {o}")
           : off > 0   ? N_("{p} points more than last time, when it was {o}")
                       : N_("{p} points fewer than last time, when it was {o}");
}

/* Why the figures of the last run say nothing beside this one's. */
static const char *unlike_words(const Pair *p)
{
    return p->now->physics_version != p->then->physics_version
               ? N_("Your last try got {o} in an earlier version of the model, so it is not "
                    "compared")
               : N_("Your last try got {o} under other grading rules, so it is not compared");
}

static void say_last(const IoLastTime *t, int is_left_bay, IoReaderTaste taste, char *out,
                     size_t size)
{
    Pair p = {&t->now, &t->last};
    if (!t->is_like) {
        say(unlike_words(&p), &p, taste, out, size);
        return;
    }
    say(mark_words(t->now.mark - t->last.mark), &p, taste, out, size);
    if (is_left_bay) {
        return;
    }
    if (t->now.mean_kg_m3 >= 0.0 && t->last.mean_kg_m3 >= 0.0) {
        say(N_("Mean density {d}, was {D}"), &p, taste, out, size);
    }
    if (t->now.weakest >= 0 && t->last.weakest >= 0) {
        say(N_("Weakest place {w} of {m} points, was {W}"), &p, taste, out, size);
    }
    say(N_("Time {t}, was {T}"), &p, taste, out, size);
}

void io_last_time_words(const IoLastTime *t, const PbExercise *exercise, IoReaderTaste taste,
                        char *out, size_t size)
{
    assert(t != NULL && exercise != NULL);
    assert(out != NULL && size > 0);
    out[0] = '\0';
    if (t->count == 0) {
        return;
    }
    say_last(t, exercise->must_not_fill[0] != '\0', taste, out, size);
    Pair best = {&t->now, &t->best};
    if (t->like_count == 0 || (t->is_like && t->like_count == 1)) { /* said already */
        return;
    }
    const char *text = t->now.mark > t->best.mark    ? N_("Your best so far; before it was {o}")
                       : t->now.mark == t->best.mark ? N_("As good as your best")
                                                     : N_("Your best is {o}");
    say(text, &best, taste, out, size);
}

const char *io_last_time_head(int language)
{
    return words_in(language, N_("Last time"));
}
