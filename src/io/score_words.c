/*
 * Scores in words. Sentences are templates with named figures in braces, so that a translator may
 * put them in any order: {v} the cause's figure, {t} when, {a} and {b} the band, {d} density there,
 * {y} height. Figures get their unit here and nowhere else. JSON of a score: score_json.c.
 */
#include "io/score_words.h"

#include "word_template.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* By PbScorePartKind: its name, and what it means that it kept its points. */
static const struct {
    const char *name, *praise;
} parts[] = {
    {N_("On target"), N_("the wall is at its target density")},
    {N_("Weakest place"), N_("even the softest spot is firm")},
    {N_("Years"), N_("little settling is predicted, under what is assumed")},
    {N_("Safety"), N_("the wall was never in danger")},
    {N_("Material"), N_("the bags that went in are the bags it takes")},
    {N_("Technique"), N_("even pulls, good timing")},
};
_Static_assert(sizeof parts / sizeof parts[0] == PB_SCORE_PARTS, "every part has its words");

/* How a cause's figure is shown. */
typedef enum Figure {
    NO_FIGURE,
    LENGTH,
    DENSITY,
    PERCENT,
    CHANGE,
    SECONDS,
    MASS,
    PRESSURE,
    FEED,
    AREA,
    NUMBER
} Figure;

/* Why points went, as a sentence with where and when, and in a few words for a line of the result,
 * which has its own place for those. {l} what was wanted; in the short one {n} how many, {d} the
 * target. */
typedef struct FaultWords {
    const char *key;
    Figure figure;
    const char *sentence, *line;
} FaultWords;

static const FaultWords faults[PB_FAULT_LIMIT] = {
    [PB_FAULT_NONE] = {"none", NO_FIGURE, N_("nothing lost"), N_("nothing lost")},
    [PB_FAULT_SOFT_PATCHES] = {"soft_patches", DENSITY,
                               N_("the stop at {t} was done right, yet {a} to {b} is at {d}"),
                               N_("patches under {d}: {n}")},
    [PB_FAULT_WEAK_PLACE] = {"weak_place", DENSITY,
                             N_("softest stretch: {a} to {b} at {v}, left at {t}"),
                             N_("softest stretch at {v}")},
    [PB_FAULT_PANEL_LOAD] =
        {"panel_load", PERCENT,
         N_("the wall was loaded to {v} of the strength expected of it at {t}, {y} up"),
         N_("wall at {v} of its expected strength")},
    [PB_FAULT_BLOW_OUT] =
        {"blow_out", PERCENT,
         N_("the wall blew out at {t}, {y} up, at {v} of the strength expected of it"),
         N_("the wall blew out")},
    [PB_FAULT_TOO_LITTLE] =
        {"too_little", CHANGE,
         N_("{v} less material than the bay should take; softest {y} up, left at {t}"),
         N_("{v} less than the bay should take")},
    [PB_FAULT_TOO_MUCH] =
        {"too_much", CHANGE,
         N_("{v} more material than the bay should take; densest {y} up, left at {t}"),
         N_("{v} more than the bay should take")},
    [PB_FAULT_LONG_STEP] = {"long_step", LENGTH,
                            N_("pulled {v} in one go at {t}; {a} to {b} is at {d}"),
                            N_("one pull of {v}")},
    [PB_FAULT_LEFT_EARLY] =
        {"left_early", SECONDS,
         N_("left {y} at {t} after {v}, before the stall; {a} to {b} is at {d}"),
         N_("moved on before the stall")},
    [PB_FAULT_STAYED_LONG] = {"stayed_long", SECONDS,
                              N_("stayed {v} after the stall at {y}, until {t}"),
                              N_("stayed {v} after the stall")},
    [PB_FAULT_PLUG] = {"plug", NO_FIGURE,
                       N_("the hose clogged at {t} with the tube end at {y}; {a} to {b} is at {d}"),
                       N_("the hose clogged")},
    [PB_FAULT_FED_OUTSIDE] = {"fed_outside", MASS,
                              N_("{v} blown with the tube end outside the bay, from {t}"),
                              N_("{v} blown outside the bay")},
    [PB_FAULT_NOTHING_DONE] = {"nothing_done", NO_FIGURE,
                               N_("nothing was packed; {a} to {b} is at {d}"),
                               N_("nothing was packed")},
    [PB_FAULT_MISSED] =
        {"missed", LENGTH,
         N_("no stop reached {a} to {b}: the nearest was {v} away, left at {t}; it is at {d}"),
         N_("no stop within {v}")},
    [PB_FAULT_WEAK_AIR] = {"weak_air", PRESSURE,
                           N_("the blower gave no more than {v} when {y} was packed (left at {t}); "
                              "{a} to {b} is at {d}"),
                           N_("blower at {v}")},
    [PB_FAULT_RICH_FEED] = {"rich_feed", FEED,
                            N_("the feed gate was at {v} when {y} was packed (left at {t}): too "
                               "rich; {a} to {b} is at {d}"),
                            N_("feed of {v}")},
    [PB_FAULT_TOP_GAP] =
        {"top_gap", LENGTH,
         N_("settling is predicted to open {v} at the top; the nearest stop was left at {t}"),
         N_("a gap of {v} at the top is predicted")},
    [PB_FAULT_LATE_VOID] = {"late_void", AREA,
                            N_("voids of {v} are predicted inside the bay, worst {y} up; the "
                               "nearest stop was left at {t}"),
                            N_("a void inside the bay is predicted")},
    [PB_FAULT_LOST_FILL] = {"lost_fill", MASS,
                            N_("{v} was blown and did not stay in the bay, by {t}"),
                            N_("{v} did not stay in the bay")},
    [PB_FAULT_CAPPED] = {"capped", NUMBER,
                         N_("the whole grade is held to {v} because the wall blew out at {t}"),
                         N_("held to {v} after a blow-out")},
    [PB_FAULT_CHECKS] = {"checks_skipped", NUMBER, N_("checks before work skipped: {v}, at {t}"),
                         N_("checks skipped: {v}")},
    [PB_FAULT_POWER_ON] = {"power_on", NO_FIGURE,
                           N_("tried to clear a clog with the power on at {t}"),
                           N_("tried to clear a clog with the power on")},
    [PB_FAULT_HELD] = {"held", PERCENT,
                       N_("the wall is only worth {v}, and these points go with it"),
                       N_("goes with the wall: {v}")},
    [PB_FAULT_WEAK_MACHINE] =
        {"weak_machine", PRESSURE,
         N_("at full blower this machine gives only {v}; {a} to {b} is at {d}"),
         N_("the machine gives only {v}")},
    [PB_FAULT_BEHIND_WOOD] = {"behind_wood", LENGTH,
                              N_("wood {v} up keeps the tube from {a} to {b}; it is at {d}"),
                              N_("behind wood {v} up")},
    [PB_FAULT_OVER_DENSE] = {"over_dense", MASS,
                             N_("{v} was packed in beyond any use; densest {y} up, left at {t}"),
                             N_("{v} packed in beyond any use")},
    [PB_FAULT_SOFT_SLICE] = {"soft_slice", DENSITY,
                             N_("{a} to {b}, left at {t}, is at {v}; {l} is the least anywhere"),
                             N_("softest stretch at {v}")},
    [PB_FAULT_LOW_MEAN] = {"low_mean", DENSITY, N_("the mean is {v}, and {l} is wanted"),
                           N_("mean of {v}")},
    [PB_FAULT_VOID] =
        {"void", AREA,
         N_("{v} of the wall is as good as empty, most of it from {a} to {b}, left at "
            "{t}"),
         N_("{v} as good as empty")},
    [PB_FAULT_OPENINGS] = {"openings", MASS,
                           N_("{v} went out through an opening of the bay, and {l} is the most"),
                           N_("{v} out through an opening")},
    [PB_FAULT_LOW_MARK] = {"low_mark", NUMBER, N_("{v} of 100 points, and {l} are wanted"),
                           N_("{v} of 100 points")},
    [PB_FAULT_SLOW] = {"slow", PERCENT, N_("the bay took {v} of a crew's usual time, until {t}"),
                       N_("{v} of a crew's usual time")},
    [PB_FAULT_SHORT_TUBE] = {"short_tube", LENGTH,
                             N_("a tube of {v} does not reach {a} to {b}; it is at {d}"),
                             N_("out of reach of a tube of {v}")},
};

const char *io_part_name(PbScorePartKind part, int language)
{
    return (int)part < PB_SCORE_PARTS ? words_in(language, parts[part].name) : "";
}

const char *io_part_praise(PbScorePartKind part, int language)
{
    return words_in(language, parts[part].praise);
}

const char *io_part_key(PbScorePartKind part)
{
    return (int)part < PB_SCORE_PARTS ? pb_score_part(part)->key : "";
}

const char *io_fault_key(PbScoreFault fault)
{
    return (int)fault < PB_FAULT_LIMIT ? faults[fault].key : "";
}

const char *io_event_words(PbEventKind kind, int language)
{
    static const struct {
        PbEventKind kind;
        const char *text;
    } words[] = {
        {PB_EVENT_STALL, N_("stall")},
        {PB_EVENT_PLUG, N_("hose clogged")},
        {PB_EVENT_PLUG_CLEARED, N_("clog cleared")},
        {PB_EVENT_BOW_HALF, N_("wall at half its strength")},
        {PB_EVENT_CREAK, N_("wall creaks")},
        {PB_EVENT_BLOW_OUT, N_("wall blew out")},
        {PB_EVENT_FEED_OUTSIDE, N_("blown outside the bay")},
        {PB_EVENT_BLOW_BACK, N_("blow-back at the hole")},
        {PB_EVENT_RUNAWAY, N_("cellulose leaves through an opening")},
        {PB_EVENT_SAFETY, N_("safety step skipped")},
        {PB_EVENT_SEALED, N_("opening sealed")},
        {PB_EVENT_TESTED, N_("static test")},
        {PB_EVENT_LEFT, N_("bay left")},
        {PB_EVENT_AT_HOLE, N_("tube to another hole")},
        {PB_EVENT_HOLE_PLUGGED, N_("hole plugged")},
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (words[i].kind == kind) {
            return words_in(language, words[i].text);
        }
    }
    return "";
}

void io_clock_words(double time_s, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    int s = (int)floor(time_s + 0.5);
    snprintf(out, size, "%d:%02d", s / 60, s % 60);
}

static void figure_words(Figure figure, double v, IoReaderTaste taste, char *out, size_t size)
{
    IoUnit unit = IO_UNIT_LENGTH;
    out[0] = '\0';
    switch (figure) {
    case NO_FIGURE:
        return;
    case LENGTH:
        if (v < 0.1) {
            io_figure(io_unit_value(IO_UNIT_SMALL, v, taste), taste.is_us ? 1 : 0,
                      io_unit_name(IO_UNIT_SMALL, taste), taste, out, size);
            return;
        }
        break;
    case DENSITY:
        unit = IO_UNIT_DENSITY;
        break;
    case PERCENT:
        io_figure(100.0 * v, 0, "%", taste, out, size);
        return;
    case CHANGE:
        io_figure(100.0 * fabs(v - 1.0), 0, "%", taste, out, size);
        return;
    case SECONDS:
        io_figure(v, 0, "s", taste, out, size);
        return;
    case MASS:
        unit = IO_UNIT_MASS;
        break;
    case PRESSURE:
        unit = IO_UNIT_PRESSURE;
        break;
    case FEED:
        unit = IO_UNIT_FEED;
        break;
    case AREA:
        unit = v < 0.1 ? IO_UNIT_SMALL_AREA : IO_UNIT_AREA;
        break;
    case NUMBER:
        io_figure(v, fmod(v, 1.0) > 0.0 ? 2 : 0, "", taste, out, size);
        return;
    }
    io_unit_figure(unit, v, taste, out, size);
}

/* A height on the wall always in the same unit, so that bands read well. */
static void height_words(double m, IoReaderTaste taste, char *out, size_t size)
{
    io_unit_figure(IO_UNIT_LENGTH, m, taste, out, size);
}

static void fill_in(char which, const void *lost, IoReaderTaste taste, char *out, size_t size)
{
    const PbLoss *loss = lost;
    out[0] = '\0';
    switch (which) {
    case 'v':
        figure_words(faults[loss->cause].figure, loss->value, taste, out, size);
        break;
    case 't':
        io_clock_words(loss->time_s, out, size);
        break;
    case 'a':
        height_words(loss->y0_m, taste, out, size);
        break;
    case 'b':
        height_words(loss->y1_m, taste, out, size);
        break;
    case 'y':
        height_words(loss->y_m, taste, out, size);
        break;
    case 'd':
        figure_words(DENSITY, loss->density_kg_m3, taste, out, size);
        break;
    default:
        break;
    }
}

void io_loss_sentence(const PbLoss *loss, IoReaderTaste taste, char *out, size_t size)
{
    assert(loss != NULL);
    assert(out != NULL && size > 0);
    const char *t = (int)loss->cause < PB_FAULT_LIMIT
                        ? words_in(taste.language, faults[loss->cause].sentence)
                        : "";
    /* without patches there is nothing to say of a band: the sentence ends before it */
    const char *end = strchr(t, ';');
    int is_short = loss->density_kg_m3 < 0.0 && end != NULL && strstr(end, "{d}") != NULL;
    (void)io_template_append(t, is_short ? end : NULL, fill_in, loss, taste, out, 0, size);
}

/* 55.9 where 56 is wanted would read as a 56 that is not enough: one decimal more then, cut off. */
static void just_under(const PbGate *g, IoReaderTaste taste, char *out, size_t size)
{
    char wanted[48];
    int decimals = taste.is_us ? 2 : 1;
    double scale = pow(10.0, decimals), shown = io_unit_value(IO_UNIT_DENSITY, g->value, taste);
    figure_words(DENSITY, g->limit, taste, wanted, sizeof wanted);
    if (g->value < g->limit && strcmp(out, wanted) == 0) {
        io_figure(floor(shown * scale) / scale, decimals, io_unit_name(IO_UNIT_DENSITY, taste),
                  taste, out, size);
    }
}

static void fill_gate(char which, const void *shut, IoReaderTaste taste, char *out, size_t size)
{
    const PbGate *g = shut;
    Figure figure = faults[g->fault].figure;
    PbLoss loss = {.cause = g->fault,
                   .value = g->value,
                   .y_m = 0.5 * (g->y0_m + g->y1_m),
                   .y0_m = g->y0_m,
                   .y1_m = g->y1_m,
                   .time_s = g->time_s};
    if (which == 'l') {
        figure_words(figure, g->limit, taste, out, size);
    } else {
        fill_in(which, &loss, taste, out, size);
    }
    if (which == 'v' && figure == DENSITY) {
        just_under(g, taste, out, size);
    }
}

void io_gate_sentence(const PbGate *gate, IoReaderTaste taste, char *out, size_t size)
{
    assert(gate != NULL);
    assert(out != NULL && size > 0);
    const char *t = words_in(taste.language, faults[gate->fault].sentence);
    (void)io_template_append(t, NULL, fill_gate, gate, taste, out, 0, size);
}

const char *io_verdict_word(PbVerdict verdict, int language)
{
    static const char *const words[3] = {
        [PB_VERDICT_PASS] = N_("passed"),
        [PB_VERDICT_REDO] = N_("redo"),
        [PB_VERDICT_FAIL] = N_("failed"),
    };
    return words_in(language, words[verdict]);
}

int io_mark_shown(double total)
{
    return (int)floor(total + 1e-9); /* a sum of whole points may have lost a last bit */
}

void io_points_shown(const double *points, int count, int *shown)
{
    assert(points != NULL && shown != NULL);
    assert(count >= 0);
    double sum = 0.0, left[PB_SUMMARY_PARTS];
    int given = 0;
    for (int i = 0; i < count; i++) {
        shown[i] = (int)floor(points[i] + 1e-9);
        left[i] = points[i] - shown[i];
        sum += points[i];
        given += shown[i];
    }
    for (int due = (int)floor(sum + 1e-9) - given; due > 0; due--) {
        int most = 0;
        for (int i = 1; i < count; i++) {
            most = left[i] > left[most] ? i : most;
        }
        shown[most]++;
        left[most] = -1.0;
    }
}

void io_parts_shown(const PbScore *score, int *shown)
{
    assert(score != NULL && shown != NULL);
    double points[PB_SCORE_PARTS];
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        points[i] = score->parts[i].points;
    }
    io_points_shown(points, PB_SCORE_PARTS, shown);
}

/* Whole points of one part's losses: as many as are missing from what is shown of the part. */
static void part_losses_shown(const PbScore *score, int part, int due, int *shown)
{
    double left[PB_SCORE_MAX_LOSSES];
    for (int i = 0; i < score->loss_count; i++) {
        left[i] = -1.0;
        if ((int)score->losses[i].part == part) {
            shown[i] = (int)floor(score->losses[i].points + 1e-9);
            left[i] = score->losses[i].points - shown[i];
            due -= shown[i];
        }
    }
    for (; due > 0; due--) {
        int most = -1;
        for (int i = 0; i < score->loss_count; i++) {
            most = left[i] > 0.0 && (most < 0 || left[i] > left[most]) ? i : most;
        }
        if (most < 0) {
            return;
        }
        shown[most]++;
        left[most] = -1.0;
    }
}

void io_losses_shown(const PbScore *score, int *shown)
{
    assert(score != NULL && shown != NULL);
    int parts_shown[PB_SCORE_PARTS];
    io_parts_shown(score, parts_shown);
    for (int p = 0; p < PB_SCORE_PARTS; p++) {
        part_losses_shown(score, p, (int)ceil(score->parts[p].max - 1e-9) - parts_shown[p], shown);
    }
}

void io_sum_words(const PbScore *score, IoReaderTaste taste, char *out, size_t size)
{
    assert(score != NULL);
    assert(out != NULL && size > 0);
    double most = 0.0;
    int got = 0, shown[PB_SCORE_PARTS];
    io_parts_shown(score, shown);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        most += score->parts[i].max;
        got += shown[i];
    }
    out[0] = '\0';
    if (most != 100.0 && !score->leave.applies) {
        snprintf(out, size, words_in(taste.language, "%d of %.4g points"), got, most);
    }
}

typedef struct PartFigures {
    const PbScorePart *part;
    double target_kg_m3;
} PartFigures;

static void fill_short(char which, const void *figures, IoReaderTaste taste, char *out, size_t size)
{
    const PartFigures *f = figures;
    out[0] = '\0';
    if (which == 'v') {
        figure_words(faults[f->part->fault].figure, f->part->value, taste, out, size);
    } else if (which == 'd') {
        figure_words(DENSITY, f->target_kg_m3, taste, out, size);
    } else if (which == 'n') {
        snprintf(out, size, "%d", f->part->count);
    }
}

void io_fault_words(const PbScorePart *part, double target_kg_m3, IoReaderTaste taste, char *out,
                    size_t size)
{
    assert(part != NULL);
    assert(out != NULL && size > 0);
    PartFigures figures = {part, target_kg_m3};
    const char *t =
        (int)part->fault < PB_FAULT_LIMIT ? words_in(taste.language, faults[part->fault].line) : "";
    (void)io_template_append(t, NULL, fill_short, &figures, taste, out, 0, size);
}
