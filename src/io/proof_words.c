/*
 * What was measured on the day in words: see io/proof_words.h. Figures in braces: {n} bags or
 * cores, {m} mass of a bag, {a} area, {d} mean density, {r} its interval, {l} its lower and {u} its
 * upper end, {t} target, {s} spread of the cores, {h} half of an interval, {k} bays, {p} share of a
 * bay, {q} chance that the cores meet it, {c} coldest stripe, {e} that of an empty bay, {x}
 * difference of the airs, {y} the least that a picture takes, {f} less leakage.
 */
#include "io/proof_words.h"

#include "word_template.h"

#include "core/units.h"
#include "io/handout_words.h"
#include "io/saving_words.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define NO_BREAK "\xC2\xA0"

static const char *const names[IO_PROOF_SENTENCES] = {
    N_("Bags and area"),      N_("Cores"),  N_("Density"),
    N_("What neither shows"), N_("Camera"), N_("Leakage"),
};

static const char ask_bags[] =
    N_("Count the bags, parts of one too, and measure the wall that was filled.");
static const char bags_say[] = N_(
    "{n} bags of {m} in {a} of wall are {d} on average ({r}, 19 times in 20). What was spilled or "
    "ran into other spaces is counted in.");
static const char ask_cores[] =
    N_("Cut up to three cores: weight over the area of the bore times the depth. Each tells one "
       "place. Look for wires, pipes, lead paint and asbestos before you cut.");
static const char core_says[] =
    N_("One core has {d}. It tells that place, to about {h} either way, and nothing of the wall.");
static const char cores_say[] =
    N_("{n} cores have {d} on average, with a standard deviation of {s}. Such places have {r} on "
       "average, 19 times in 20.");
static const char no_density[] = N_("No density was measured.");
static const char one_core[] = N_("One core is too little for a verdict.");
static const char too_dense[] =
    N_("Bags and cores contradict each other: the cores are denser than the bags allow. Look for "
       "empty places, or measure the area again.");
static const char too_many[] =
    N_("Bags and cores contradict each other: more went in than the cores have. Fill may have run "
       "into another space, or the cores met soft places.");
static const char reached[] =
    N_("At least {l} on average, 19 times in 20: the target of {t} is reached.");
static const char missed[] = N_("At most {u} on average, 19 times in 20: under the target of {t}.");
static const char undecided[] =
    N_("Between {l} and {u}: this does not tell whether the target of {t} is reached. More cores "
       "narrow it.");
static const char hides_any[] =
    N_("Bags and cores show neither a missed bay nor an empty top. That takes a camera or a look.");
static const char hides_bay[] = N_(
    "One missed bay of {k} is {p} of the fill, and the bag count is sure to {h} only: a camera or "
    "a look finds it, the bags do not.");
static const char hides_both[] =
    N_("One missed bay of {k} is {p} of the fill, and the bag count is sure to {h} only. The cores "
       "would meet it {q} of the time. Only a camera or a look finds it.");
static const char shows_bay[] =
    N_("One missed bay of {k} would lack {p} of the fill; the bag count is sure to {h}. An empty "
       "top is less than that: only a camera or a look finds it.");
static const char ask_camera[] =
    N_("Take a picture before and after the work, with room and outdoors at least {y} apart for "
       "three hours.");
static const char ask_after[] = N_("Take a picture after the work as well, on as cold a day.");
static const char too_mild[] =
    N_("Room and outdoors were {x} apart, and a picture takes {y}: no verdict.");
static const char saw_none[] =
    N_("The camera showed no stripe before the work either, so that it shows none now means "
       "nothing.");
static const char camera_clear[] = N_(
    "The coldest stripe is {c}; an empty bay would show about {e} here. Where the camera looked, "
    "nothing is as cold as that. Small gaps it does not show.");
static const char camera_cold[] =
    N_("The coldest stripe is {c}, and an empty bay would show about {e} here: open that place.");
static const char camera_open[] =
    N_("The coldest stripe is {c}, between nothing and the {e} of an empty bay: open it, or look "
       "again on a colder day.");
static const char ask_leak[] =
    N_("Test the leakage before and after with the same set-up, at 50 Pa.");
static const char leak_less[] =
    N_("The house leaks {f} less at 50 Pa, 19 times in 20. Where, and how dense the fill is, this "
       "does not show.");
static const char leak_same[] =
    N_("Two tests of one house may differ by more than this change at 50 Pa: nothing is shown.");
static const char leak_more[] =
    N_("The house leaks more than before. Look for what was opened and not closed.");

typedef struct Subject {
    const PbHouse *house;
    const PbProofReading *reading;
    PbHeatRange density; /**< of the sentence */
    int count;
} Subject;

static void density(PbHeatRange r, IoReaderTaste taste, char *out, size_t size)
{
    io_compare_range(IO_FIGURE_DENSITY, r, NULL, taste, out, size);
}

static void one_density(double kg_m3, IoReaderTaste taste, char *out, size_t size)
{
    density((PbHeatRange){kg_m3, kg_m3, kg_m3}, taste, out, size);
}

/* An end of an interval beside its target: a figure more where both would read the same. */
static void end_of_density(double kg_m3, double target, IoReaderTaste taste, char *out, size_t size)
{
    char number[24];
    if (fabs(kg_m3 - target) >= (taste.is_us ? 0.8 : 0.5)) {
        one_density(kg_m3, taste, out, size);
        return;
    }
    io_figure(io_unit_value(IO_UNIT_DENSITY, kg_m3, taste), taste.is_us ? 2 : 1, "", taste, number,
              sizeof number);
    (void)snprintf(out, size, "%s" NO_BREAK "%s", number, io_unit_name(IO_UNIT_DENSITY, taste));
}

/* A difference of temperatures. */
static void difference(double k, int decimals, IoReaderTaste taste, char *out, size_t size)
{
    char number[24];
    io_figure(taste.is_us ? 1.8 * k : k, decimals, "", taste, number, sizeof number);
    (void)snprintf(out, size, "%s" NO_BREAK "%s", number,
                   words_in(taste.language, taste.is_us ? NC_("unit", "°F") : NC_("unit", "K")));
}

/* Outwards; of hundreds a single one means nothing. */
static void flow(PbHeatRange r, IoReaderTaste taste, char *out, size_t size)
{
    double scale = io_unit_value(IO_UNIT_FLOW, 1.0, taste);
    double step = r.high * scale >= 100.0 ? 10.0 : 1.0;
    char low[24], high[24], both[60];
    snprintf(low, sizeof low, "%.0f", step * floor(r.low * scale / step));
    snprintf(high, sizeof high, "%.0f", step * ceil(r.high * scale / step));
    snprintf(both, sizeof both, words_in(taste.language, "%s to %s"), low, high);
    snprintf(out, size, "%s" NO_BREAK "%s", both, io_unit_name(IO_UNIT_FLOW, taste));
}

static void share(double of_1, IoReaderTaste taste, char *out, size_t size)
{
    int decimals = of_1 < 0.01 ? 1 : 0;
    char number[24];
    io_figure(100.0 * of_1, decimals, "", taste, number, sizeof number);
    (void)snprintf(out, size, "%s%s%%", number, io_is_close("%", taste) ? "" : NO_BREAK);
}

static void area(double m2, IoReaderTaste taste, char *out, size_t size)
{
    (void)snprintf(out, size, "%.0f" NO_BREAK "%s", io_unit_value(IO_UNIT_AREA, m2, taste),
                   io_unit_name(IO_UNIT_AREA, taste));
}

static void of_density(char which, const Subject *s, IoReaderTaste taste, char *out, size_t size)
{
    const PbHeatRange *r = &s->density;
    if (which == 'r') {
        density(*r, taste, out, size);
        return;
    }
    if (which == 'l' || which == 'u') {
        end_of_density(which == 'l' ? r->low : r->high, s->reading->target_kg_m3, taste, out, size);
        return;
    }
    one_density(which == 'd'   ? r->mid
                : which == 't' ? s->reading->target_kg_m3
                               : s->reading->core_sd_kg_m3,
                taste, out, size);
}

static void figure(char which, const void *subject, IoReaderTaste taste, char *out, size_t size)
{
    const Subject *s = subject;
    const PbProof *p = &s->house->proof;
    const PbProofReading *r = s->reading;
    const PbHeatRange *bags = &r->bags_kg_m3;
    char number[24];
    out[0] = '\0';
    if (strchr("rdluts", which) != NULL) {
        of_density(which, s, taste, out, size);
    } else if (which == 'n' && s->count > 0) {
        snprintf(out, size, "%d", s->count);
    } else if (which == 'n') {
        snprintf(number, sizeof number, "%.3g", p->bags);
        io_decimal_mark(number, taste);
        snprintf(out, size, "%s", number);
    } else if (which == 'm') {
        (void)snprintf(out, size, "%.3g" NO_BREAK "%s",
                       io_unit_value(IO_UNIT_MASS, p->bag_kg, taste),
                       io_unit_name(IO_UNIT_MASS, taste));
    } else if (which == 'a') {
        area(p->area_m2, taste, out, size);
    } else if (which == 'h' && s->count == 1) {
        one_density(s->density.high - s->density.mid, taste, out, size);
    } else if (which == 'h') {
        share((bags->high - bags->mid) / bags->mid, taste, out, size);
    } else if (which == 'k') {
        snprintf(out, size, "%d", r->bays);
    } else if (which == 'p' || which == 'q') {
        share(which == 'p' ? r->one_bay_share : r->core_chance, taste, out, size);
    } else if (which == 'c' || which == 'e') {
        difference(which == 'c' ? p->after.stripe_k : r->empty_k, 1, taste, out, size);
    } else if (which == 'x' || which == 'y') {
        difference(which == 'x' ? p->after.air_k : PB_PROOF_LEAST_AIR_K, 0, taste, out, size);
    } else if (which == 'f') {
        flow(r->leak_less_m3_s, taste, out, size);
    }
}

static const char *density_text(const PbProofReading *r)
{
    if (r->contradict != 0) {
        return r->contradict > 0 ? too_dense : too_many;
    }
    return r->density == PB_PROOF_NOTHING   ? no_density
           : r->density == PB_PROOF_REACHED ? reached
           : r->density == PB_PROOF_MISSED  ? missed
           : r->kg_m3.mid > 0.0             ? undecided
                                            : one_core;
}

static const char *hidden_text(const PbProofReading *r)
{
    const PbHeatRange *b = &r->bags_kg_m3;
    if (r->bays == 0) {
        return hides_any;
    }
    int has_cores = r->core_chance > 0.0;
    return r->one_bay_share * b->mid > b->high - b->mid ? shows_bay
           : has_cores                                  ? hides_both
                                                        : hides_bay;
}

static const char *camera_text(const PbProof *p, const PbProofReading *r)
{
    if (r->camera == PB_PROOF_NOTHING || !(p->after.air_k > 0.0)) {
        return r->camera == PB_PROOF_NOTHING ? ask_camera : ask_after;
    }
    return r->blind == PB_PROOF_MILD       ? too_mild
           : r->blind == PB_PROOF_SAW_NONE ? saw_none
           : r->camera == PB_PROOF_REACHED ? camera_clear
           : r->camera == PB_PROOF_MISSED  ? camera_cold
                                           : camera_open;
}

static const char *text_of(const PbHouse *h, const PbProofReading *r, IoProofSentence which)
{
    const PbProof *p = &h->proof;
    switch (which) {
    case IO_PROOF_BAGS:
        return p->bags > 0.0 ? bags_say : ask_bags;
    case IO_PROOF_CORES:
        return p->core_count == 0 ? ask_cores : p->core_count == 1 ? core_says : cores_say;
    case IO_PROOF_TOGETHER:
        return density_text(r);
    case IO_PROOF_HIDDEN:
        return hidden_text(r);
    case IO_PROOF_CAMERA:
        return camera_text(p, r);
    default:
        return r->leak == PB_PROOF_NOTHING   ? ask_leak
               : r->leak == PB_PROOF_REACHED ? leak_less
               : r->leak == PB_PROOF_OPEN    ? leak_same
                                             : leak_more;
    }
}

void io_proof_sentence(const PbHouse *h, const PbProofReading *r, IoProofSentence which,
                       IoReaderTaste taste, char *out, size_t size)
{
    assert(h != NULL && r != NULL && out != NULL && size > 0);
    Subject s = {h, r, r->kg_m3, 0};
    if (which == IO_PROOF_BAGS) {
        s.density = r->bags_kg_m3;
    } else if (which == IO_PROOF_CORES) {
        s.density = r->cores_kg_m3;
        s.count = h->proof.core_count;
    }
    (void)io_template_append(words_in(taste.language, text_of(h, r, which)), NULL, figure, &s,
                             taste, out, 0, size);
}

const char *io_proof_name(IoProofSentence which, int language)
{
    return (int)which < IO_PROOF_SENTENCES ? words_in(language, names[which]) : "";
}

static const char *const row_names[IO_PROOF_ROWS] = {
    N_("Wall that was filled, studs in"),
    N_("Bags used"),
    N_("Net weight of a bag"),
    N_("Core 1"),
    N_("Core 2"),
    N_("Core 3"),
    N_("Before: coldest stripe, colder by"),
    N_("Before: room warmer than outdoors by"),
    N_("After: coldest stripe, colder by"),
    N_("After: room warmer than outdoors by"),
    N_("Leakage at 50 Pa before"),
    N_("Leakage at 50 Pa after"),
};

const char *io_proof_row_name(IoProofRow row, int language)
{
    return (int)row < IO_PROOF_ROWS ? words_in(language, row_names[row]) : "";
}

const char *io_proof_row_unit(IoProofRow row, IoReaderTaste taste)
{
    switch (row) {
    case IO_PROOF_AREA:
        return io_unit_name(IO_UNIT_AREA, taste);
    case IO_PROOF_BAG_COUNT:
        return "";
    case IO_PROOF_BAG_MASS:
        return io_unit_name(IO_UNIT_MASS, taste);
    case IO_PROOF_CORE_1:
    case IO_PROOF_CORE_2:
    case IO_PROOF_CORE_3:
        return io_unit_name(IO_UNIT_DENSITY, taste);
    case IO_PROOF_LEAK_BEFORE:
    case IO_PROOF_LEAK_AFTER:
        return io_unit_name(IO_UNIT_FLOW, taste);
    default:
        return words_in(taste.language, taste.is_us ? NC_("unit", "°F") : NC_("unit", "K"));
    }
}

double *io_proof_row_value(PbProof *p, IoProofRow row, IoReaderTaste taste, double *factor)
{
    assert(p != NULL && factor != NULL && (int)row < IO_PROOF_ROWS);
    double *const value[IO_PROOF_ROWS] = {
        &p->area_m2,        &p->bags,          &p->bag_kg,           &p->core_kg_m3[0],
        &p->core_kg_m3[1],  &p->core_kg_m3[2], &p->before.stripe_k,  &p->before.air_k,
        &p->after.stripe_k, &p->after.air_k,   &p->leak_before_m3_s, &p->leak_after_m3_s};
    static const IoUnit unit[IO_PROOF_ROWS] = {
        [IO_PROOF_AREA] = IO_UNIT_AREA,       [IO_PROOF_BAG_MASS] = IO_UNIT_MASS,
        [IO_PROOF_CORE_1] = IO_UNIT_DENSITY,  [IO_PROOF_CORE_2] = IO_UNIT_DENSITY,
        [IO_PROOF_CORE_3] = IO_UNIT_DENSITY,  [IO_PROOF_LEAK_BEFORE] = IO_UNIT_FLOW,
        [IO_PROOF_LEAK_AFTER] = IO_UNIT_FLOW,
    };
    int is_plain = row == IO_PROOF_BAG_COUNT,
        is_warmth = row >= IO_PROOF_STRIPE_BEFORE && row <= IO_PROOF_AIR_AFTER;
    *factor = is_plain    ? 1.0
              : is_warmth ? (taste.is_us ? 1.0 / 1.8 : 1.0)
                          : 1.0 / io_unit_value(unit[row], 1.0, taste);
    return value[row];
}

void io_proof_row_text(const PbProof *proof, IoProofRow row, IoReaderTaste taste, char *out,
                       size_t size)
{
    assert(proof != NULL && out != NULL && size > 0);
    PbProof copy = *proof;
    double factor, value = *io_proof_row_value(&copy, row, taste, &factor);
    int is_stripe = row == IO_PROOF_STRIPE_BEFORE || row == IO_PROOF_STRIPE_AFTER;
    int has_picture = is_stripe && (row == IO_PROOF_STRIPE_BEFORE ? proof->before.air_k
                                                                  : proof->after.air_k) > 0.0;
    out[0] = '\0';
    if (value > 0.0 || has_picture) {
        snprintf(out, size, "%.4g", value / factor);
        io_decimal_mark(out, taste);
    }
}

void io_proof_time_words(const PbProofUpdate *u, const PbHouse *h, int measured, int t,
                         IoReaderTaste taste, char *out, size_t size)
{
    assert(u != NULL && h != NULL && out != NULL && size > 0);
    const PbProofTime *p = measured ? &u->measured[t] : &u->predicted[t];
    char r[80], gap[60], fuel[80], money[80];
    io_handout_range(IO_FIGURE_R, p->r_m2k_w, u->draws, taste, r, sizeof r);
    io_compare_shown(IO_FIGURE_LENGTH, p->top_gap_m, u->draws, NULL, taste, gap, sizeof gap);
    io_saving_shown(IO_SAVING_FUEL, &p->saving, h, taste, fuel, sizeof fuel);
    if (io_saving_is_held(&p->saving)) { /* said once, and neither fuel nor money */
        snprintf(
            out, size,
            words_in(taste.language, "R, whole wall: %s; open at the top: %s; saved a year: %s"), r,
            gap, fuel);
        return;
    }
    io_saving_shown(IO_SAVING_MONEY, &p->saving, h, taste, money, sizeof money);
    snprintf(
        out, size,
        words_in(taste.language, "R, whole wall: %s; open at the top: %s; saved a year: %s, %s"), r,
        gap, fuel, money);
}
