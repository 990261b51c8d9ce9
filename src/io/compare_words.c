/*
 * Sentences of a comparison. Templates carry figures in braces, so that a translator may put them
 * in any order: {x} heat against a full dense pack, {g} top gap, {h} its upper end, {s} shrinkage,
 * {w} widest gap of the foam, {d} density, {v} empty area inside, {o} the other fill, {p} "of the
 * other fill", {b} heat against it, {n} trials of both so far, {m} trials that it takes. Figures
 * get their unit in compare_figures_words.c; inputs are in compare_assumed_words.c.
 */
#include "io/compare_words.h"

#include "word_template.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Words {
    const char *key;
    const char *text;
} Words;

static const Words fills[PB_COMPARE_FILLS] = {
    {"empty", N_("Empty bay")},
    {"loose", N_("Loose blow")},
    {"foam", N_("Water-based foam")},
    {"dense", N_("Dense pack")},
};

/* As a part of a sentence: alone, and after "of", which Spanish runs into its article. */
static const char *const fills_inside[PB_COMPARE_FILLS] = {
    N_("the empty bay"), N_("the loose blow"), N_("the foam"), N_("the dense pack")};
static const char *const of_fills[PB_COMPARE_FILLS] = {
    N_("of the empty bay"), N_("of the loose blow"), N_("of the foam"), N_("of the dense pack")};

static const Words says[PB_SAYS_LIMIT] = {
    [PB_SAYS_NOTHING_YET] = {"nothing_yet", ""},
    [PB_SAYS_EMPTY] = {"empty", N_("Nothing in the wall")},
    [PB_SAYS_LOOSE] = {"loose", N_("Blown in loosely at {d}")},
    [PB_SAYS_FOAM] = {"foam", N_("Foam that shrinks as it dries and ages")},
    [PB_SAYS_DENSE] = {"dense", N_("Packed to {d} on average")},
    [PB_SAYS_EMPTY_LOOP] = {"empty_loop",
                            N_("Nothing in the wall: air turns over inside it, and it lets through "
                               "{x} the heat of a wall packed full")},
    [PB_SAYS_EMPTY_STILL] =
        {"empty_still", N_("Nothing in the wall: it lets through {x} the heat of a wall packed "
                           "full")},
    [PB_SAYS_LOOSE_FULL] = {"loose_full",
                            N_("Blown in loosely at {d}: full to the top so far, and light enough "
                               "that it may sink")},
    [PB_SAYS_LOOSE_MAY] =
        {"loose_may", N_("Blown in loosely: by now it may have sunk and left up to {h} open at "
                         "the top")},
    [PB_SAYS_LOOSE_GAP] = {"loose_gap",
                           N_("Blown in loosely: under what is assumed it has sunk by now and left "
                              "{g} open at the top")},
    [PB_SAYS_LOOSE_HOLLOW] = {"loose_hollow",
                              N_("Blown in loosely at {d}, hollow in places: {v} is empty inside, "
                                 "and it is light enough that it may sink")},
    [PB_SAYS_LOOSE_VOIDS] =
        {"loose_voids", N_("Blown in loosely, with empty places: {v} is empty inside and {g} open "
                           "at the top, and heat gets through there")},
    [PB_SAYS_FOAM_WET] = {"foam_wet",
                          N_("Foam, still wet: it fills the wall as it was injected, and its water "
                             "carries heat until it has dried")},
    [PB_SAYS_FOAM_TIGHT] = {"foam_tight",
                            N_("Foam, dry by now, with no gap that counts so far: it fills the "
                               "wall as it was injected")},
    [PB_SAYS_FOAM_GAPS] = {"foam_gaps",
                           N_("If the foam has shrunk {s} by now, gaps are up to {w} wide, too "
                              "narrow for air to carry much heat")},
    [PB_SAYS_FOAM_LOOP] = {"foam_loop",
                           N_("If the foam has shrunk {s} by now, gaps are up to {w} wide, and air "
                              "carries heat through them")},
    [PB_SAYS_DENSE_FULL] =
        {"dense_full", N_("Packed to {d} on average: the model opens no gap at the top so far, "
                          "which only a look can prove")},
    [PB_SAYS_DENSE_MAY] = {"dense_may",
                           N_("Packed to {d} on average: by now up to {h} may be open at the top")},
    [PB_SAYS_DENSE_GAP] = {"dense_gap",
                           N_("Packed to {d} on average, too soft in places: under what is assumed "
                              "{g} is open at the top by now")},
    [PB_SAYS_DENSE_BLOWN_OUT] = {"dense_blown_out",
                                 N_("The wall blew out while it was packed: a fill like "
                                    "this does not stand")},
    [PB_SAYS_NOW] = {"now", N_("The wall with what is in it now")},
    [PB_SAYS_NOW_HEAT] = {"now_heat",
                          N_("With what is in it now the wall lets through {x} the heat of one "
                             "packed full")},
    [PB_SAYS_DENSE_VOIDS] =
        {"dense_voids", N_("Packed with soft and empty places: {v} is empty inside and {g} open "
                           "at the top, and heat gets through there")},
};

static const Words beside[] = {
    [PB_BESIDE_NONE] = {"none", ""},
    [PB_BESIDE_WAITS] = {"waits", N_("; not compared yet: {n} of {m} trials")},
    [PB_BESIDE_SAME] = {"same", N_("; about the same as {o}, {b} its heat")},
    [PB_BESIDE_UNCLEAR] = {"unclear", N_("; {b} the heat {p}, so either could come out better")},
    [PB_BESIDE_MORE] = {"more", N_("; it lets more heat through than {o}, {b} as much")},
    [PB_BESIDE_LESS] = {"less", N_("; it lets less heat through than {o}, {b} as much")},
};

static const char *const notes[IO_COMPARE_NOTES] = {
    N_("Figures are what a model gives for the inputs listed, not measurements of this house and "
       "no "
       "promise. A real wall is proven by weighing, sampling and looking."),
    N_("Ranges hold 8 of 10 results from trials over numbers that nobody knows well, price, winter "
       "and efficiency among them."),
    N_("Saved is against the wall as it is, through the wall area alone; air counts only where the "
       "leaks of the house are known. "
       "Measured savings are often lower than computed ones."),
    N_("Ranges of the loose blow and the dense pack hold six simulated packings by six crews; a "
       "careless crew is a case of its own."),
    N_("Foam cases are ranges of published shrinkage, not products. At year 0 the foam is wet; a "
       "quarter of a year later it counts as it has dried by then."),
    N_("Two fills are held against each other trial by trial, under the same assumptions: their "
       "own "
       "ranges may overlap and one still come out better in each trial."),
    N_("Where a seller's fact sheet gives other values, those govern."),
};

static const char *const cautions[IO_COMPARE_CAUTIONS] = {
    N_("Before filling: old wiring, recessed lights, flues, water, lead paint, asbestos and "
       "vermiculite are looked at by licensed trades."),
    N_("A tighter house can pull flue gases back inside: appliances that burn fuel are tested "
       "after "
       "the work, and a CO alarm works."),
    N_("Foams of this family may release formaldehyde and are restricted in places: local codes "
       "decide."),
    N_("Dust: eye protection and a respirator while filling. A wall can burst: nobody on the other "
       "side."),
    N_("Local codes and licensed trades decide real work."),
};

const char *io_fill_name(PbCompareFill fill, int language)
{
    return (int)fill < PB_COMPARE_FILLS ? words_in(language, fills[fill].text) : "";
}

const char *io_fill_title(const PbHouse *house, PbCompareFill fill, int language)
{
    assert(house != NULL);
    int has_content = house->cavity.now == PB_CAVITY_LOOSE;
    for (int i = 0; i < house->bay.obstacle_count; i++) {
        has_content |= pb_obstacle_traits(house->bay.obstacles[i].kind)->is_batt;
    }
    if (fill == PB_COMPARE_EMPTY && has_content) {
        return words_in(language, "As it is now");
    }
    return io_fill_name(fill, language);
}

const char *io_fill_key(PbCompareFill fill)
{
    return (int)fill < PB_COMPARE_FILLS ? fills[fill].key : "";
}

const char *io_says_key(PbCompareSays s)
{
    return (int)s < PB_SAYS_LIMIT ? says[s].key : "";
}

const char *io_beside_key(PbCompareBeside b)
{
    return (int)b <= PB_BESIDE_LESS ? beside[b].key : "";
}

const char *io_compare_note(int n, int language)
{
    return words_in(language, notes[n]);
}

const char *io_compare_caution(int n, int language)
{
    return words_in(language, cautions[n]);
}

static PbHeatRange against(const PbCompareFigures *f)
{
    return (PbHeatRange){exp(f->against_log.low), exp(f->against_log.mid),
                         exp(f->against_log.high)};
}

static void fill_in(char which, const void *saying, IoReaderTaste taste, char *out, size_t size)
{
    const PbCompareSaying *s = saying;
    const PbCompareFigures *f = &s->figures;
    double widest = fmax(f->stud_gap_m, fmax(f->face_gap_m, f->top_gap_m.mid));
    out[0] = '\0';
    switch (which) {
    case 'x':
        io_compare_range(IO_FIGURE_RATIO, f->heat_ratio, NULL, taste, out, size);
        break;
    case 'g':
        io_compare_range(IO_FIGURE_LENGTH, f->top_gap_m, NULL, taste, out, size);
        break;
    case 'h':
        io_compare_figure(IO_FIGURE_LENGTH, f->top_gap_m.high, NULL, taste, out, size);
        break;
    case 's':
        io_compare_range(IO_FIGURE_SHARE, f->shrink_frac, NULL, taste, out, size);
        break;
    case 'w':
        io_compare_figure(IO_FIGURE_LENGTH, widest, NULL, taste, out, size);
        break;
    case 'd':
        io_compare_figure(IO_FIGURE_DENSITY, f->mean_kg_m3, NULL, taste, out, size);
        break;
    case 'v':
        io_compare_figure(IO_FIGURE_AREA, f->inner_void_area_m2, NULL, taste, out, size);
        break;
    case 'o':
        snprintf(out, size, "%s", words_in(taste.language, fills_inside[s->other]));
        break;
    case 'p':
        snprintf(out, size, "%s", words_in(taste.language, of_fills[s->other]));
        break;
    case 'b':
        io_compare_range(IO_FIGURE_RATIO, against(f), NULL, taste, out, size);
        break;
    case 'n':
        snprintf(out, size, "%d", f->pairs);
        break;
    case 'm':
        snprintf(out, size, "%d", PB_COMPARE_ENOUGH_DRAWS);
        break;
    default:
        break;
    }
}

void io_compare_sentence(const PbCompareSaying *s, IoReaderTaste taste, char *out, size_t size)
{
    assert(s != NULL);
    assert(out != NULL && size > 0);
    out[0] = '\0';
    if (s->says == PB_SAYS_NOTHING_YET || (int)s->says >= PB_SAYS_LIMIT) {
        return;
    }
    size_t used = io_template_append(words_in(taste.language, says[s->says].text), NULL, fill_in, s,
                                     taste, out, 0, size);
    used = io_template_append(words_in(taste.language, beside[s->beside].text), NULL, fill_in, s,
                              taste, out, used, size);
    (void)used;
    io_full_stop(out, size);
}
