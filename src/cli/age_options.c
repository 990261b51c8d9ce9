/* Command line of the age verb. Words are usage (2), numbers out of range are bad input (3). */
#include "age.h"
#include "outputs.h"

#include "cli/front.h"
#include "core/units.h"
#include "io/climate_words.h"
#include "io/doc.h"
#include "io/field_file.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const vibrations[] = {"quiet", "light", "heavy"};
static const char *const faces[] = {"gypsum", "film", "lath"};
static const char *const damps[] = {"shallow", "deep"};
static const char *const foams[] = {"good", "typical", "poor"};
static const char *const skins[] = {"painted-board", "wood-board", "tight", "plaster",
                                    "tight-sheathing"};

/* A number that is none is usage; one out of range is bad input. */
static int take_ranged(const CliOption *row, const char *text, void *member)
{
    double v;
    const char *end = io_plain_number(text, &v);
    if (end == NULL || *end != '\0') {
        return CLI_NOT_TAKEN;
    }
    if (!(v >= row->low && v <= row->high)) {
        fprintf(stderr, "pullback-cli age: %s %s is out of range, expected %g to %g\n", row->name,
                text, row->low, row->high);
        return CLI_BAD_INPUT;
    }
    *(double *)member = v;
    return CLI_DONE;
}

static int take_ranged_whole(const CliOption *row, const char *text, void *member)
{
    double v = 0.0;
    int code = take_ranged(row, text, &v);
    if (code == CLI_DONE && v != floor(v)) {
        return cli_usage("age", "%s \"%s\": expected a whole number", row->name, text);
    }
    *(int *)member = (int)v;
    return code;
}

static int take_times(const CliOption *row, const char *text, void *member)
{
    AgeOptions *o = member;
    const char *whole = text;
    double last = 0.0;
    (void)row;
    o->at_count = 0; /* of an option given twice the last one counts, here as elsewhere */
    for (;;) {
        double v;
        const char *end = io_plain_number(text, &v);
        if (end == NULL || (*end != ',' && *end != '\0') || o->at_count == AGE_MAX_TIMES) {
            return cli_usage("age", "--at \"%s\": expected up to %d years with commas between them",
                             whole, AGE_MAX_TIMES);
        }
        if (!(v > last && v <= PB_SETTLE_MAX_YEARS)) {
            fprintf(stderr,
                    "pullback-cli age: --at %s: %.*s is out of range, expected rising years above "
                    "%g, at most %g\n",
                    whole, (int)(end - text), text, last, PB_SETTLE_MAX_YEARS);
            return CLI_BAD_INPUT;
        }
        o->at_years[o->at_count++] = last = v;
        if (*end == '\0') {
            return CLI_DONE;
        }
        text = end + 1;
    }
}

static int take_constant(const CliOption *row, const char *text, void *member)
{
    AgeOptions *o = member;
    char name[64];
    const char *equals = strchr(text, '=');
    size_t n = equals != NULL ? (size_t)(equals - text) : 0;
    if (n == 0 || n >= sizeof name) {
        return CLI_NOT_TAKEN;
    }
    memcpy(name, text, n);
    name[n] = '\0';
    const PbConstantInfo *info = pb_constant_find(name);
    if (info == NULL) {
        return cli_usage("age", "%s: there is no constant \"%s\"", row->name, name);
    }
    /* Wider than the plausible range, so that a study can look past it, yet never absurd. */
    CliOption value = {.name = name,
                       .low = 0.2 * fmin(info->low, info->value),
                       .high = 3.0 * fmax(fabs(info->low), fabs(info->high))};
    int code = take_ranged(&value, equals + 1, pb_constant_at(&o->constants, info));
    return code != CLI_NOT_TAKEN ? code
                                 : cli_usage("age", "%s \"%s\": expected a number from %g to %g",
                                             name, equals + 1, value.low, value.high);
}

#define AT(member)  .at = offsetof(AgeOptions, member)
#define WORDS(list) .words = (list), .word_count = sizeof(list) / sizeof(list)[0]
const CliOption age_options[] = {
    {"--density", "KG_M3", "one density, in place of a file", take_ranged, AT(density_kg_m3), NULL,
     1, PB_SETTLE_MAX_KG_M3},
    {"--years", "Y", "up to 200, default 30", take_ranged, AT(years), NULL, 0.001,
     PB_SETTLE_MAX_YEARS},
    {"--at", "Y1,Y2,...", "times to report, in place of the usual ones", take_times, .at = 0},
    {"--climate", "NAME|FILE", IO_CLIMATE_NAMES ", or a file", cli_take_text, AT(climate)},
    {"--width", "M", "of a bay of one density, or of foam", take_ranged, AT(width_m), NULL, 0.02,
     3},
    {"--height", "M", "the same", take_ranged, AT(height_m), NULL, 0.1, 12},
    {"--depth", "M", "the same", take_ranged, AT(depth_m), NULL, 0.02, 1},
    {"--tilt", "DEG", "90 wall, 0 level", take_ranged, AT(tilt_deg), NULL, 0, 90},
    {"--fill-rh", "0..1", "humidity at which the fill was laid", take_ranged, AT(fill_rh), NULL, 0,
     1},
    {"--cells", "N", "columns across a bay of one density, default 1", take_ranged_whole, AT(cells),
     NULL, 1, 256},
    {"--vibration", "quiet|light|heavy", "of the wall", cli_take_word, AT(vibration),
     WORDS(vibrations)},
    {"--face", "gypsum|film|lath", "what holds the fill", cli_take_word, AT(face), WORDS(faces)},
    {"--damp", "shallow|deep", "reading of the published damp threshold", cli_take_word, AT(damp),
     WORDS(damps)},
    {"--threshold", NULL, "smallest uniform density with at most 5 mm of top gap", cli_take_flag,
     AT(threshold)},
    {"--frames", "OUT.csv", "the bay at every time, for films", cli_take_text, AT(frames)},
    {"--foam", "good|typical|poor", "shrinkage of foam, in place of fill", cli_take_word, AT(foam),
     WORDS(foams)},
    {"--inner", "SKIN", "of foam: painted-board, wood-board, tight, plaster, tight-sheathing",
     cli_take_word, AT(inner), WORDS(skins)},
    {"--outer", "SKIN", "the same, of the other face", cli_take_word, AT(outer), WORDS(skins)},
    {"--set", "NAME=VALUE", "another value for a constant", take_constant, .at = 0,
     .expected = "NAME=VALUE"},
    {"--spread", "N", "N seeded draws: median and 10-90 % band", take_ranged_whole, AT(spread),
     NULL, 1, 100000},
    {"--seed", "S", "of the draws", take_ranged_whole, AT(seed), NULL, 0, 2000000000},
    {"--threads", "T", "of the draws, default all cores", take_ranged_whole, AT(threads), NULL, 1,
     256},
    {"--json", NULL, "for programs", cli_take_flag, AT(json)},
    {"--progress", NULL, "tell of the draws", cli_take_flag, AT(progress)},
    {.name = NULL},
};

static int check_together(const AgeOptions *o)
{
    if (o->foam < 0 && (o->input != NULL) == (o->has_density != 0)) {
        return cli_usage("age",
                         "expected either a density file or --density KG_M3 (or --foam CLASS)");
    }
    if (o->foam >= 0 && (o->input != NULL || o->has_density || o->threshold || o->frames != NULL)) {
        return cli_usage("age", "--foam takes no density, file, threshold or frames");
    }
    if (o->foam >= 0 &&
        (o->has_tilt || o->has_fill_rh || o->damp_given || o->has_cells || o->is_of_fill)) {
        return cli_usage("age", "--foam takes no tilt, fill-rh, cells, vibration, face or damp");
    }
    if (o->foam < 0 && o->is_of_foam) {
        return cli_usage("age", "--inner and --outer are of --foam");
    }
    if (o->input != NULL && o->has_cells) {
        return cli_usage("age", "--cells is of --density: a file has its own");
    }
    return CLI_DONE;
}

static void note_given(const CliVerb *verb, const CliParsed *parsed, AgeOptions *o)
{
    const struct {
        const char *name;
        int *given;
    } notes[] = {{"--density", &o->has_density},  {"--width", &o->has_width},
                 {"--height", &o->has_height},    {"--depth", &o->has_depth},
                 {"--tilt", &o->has_tilt},        {"--fill-rh", &o->has_fill_rh},
                 {"--cells", &o->has_cells},      {"--damp", &o->damp_given},
                 {"--vibration", &o->is_of_fill}, {"--face", &o->is_of_fill},
                 {"--inner", &o->is_of_foam},     {"--outer", &o->is_of_foam}};
    for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++) {
        *notes[i].given |= cli_is_given(verb, parsed, notes[i].name);
    }
}

int age_parse(const CliVerb *verb, int argc, char **argv, AgeOptions *o)
{
    CliParsed parsed;
    *o = (AgeOptions){.width_m = 0.368,
                      .height_m = 2.4,
                      .depth_m = 0.089,
                      .tilt_deg = 90.0,
                      .fill_rh = 0.5,
                      .cells = 1,
                      .years = 30.0,
                      .climate = "normal",
                      .foam = -1,
                      .inner = PB_SKIN_PAINTED_BOARD,
                      .outer = PB_SKIN_WOOD_BOARD,
                      .seed = 1,
                      .constants = pb_constants_default()};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    o->input = parsed.count > 0 ? argv[1] : NULL;
    note_given(verb, &parsed, o);
    const char *const in[] = {o->input, o->climate};
    const IoPlace out[] = {{o->frames, IO_FRAMES_BEGINS, 0}};
    code = check_together(o);
    return code == CLI_DONE ? cli_check_outputs(out, 1, in, 2) : code;
}

int age_times(const AgeOptions *o, double years[AGE_MAX_TIMES])
{
    static const double usual[] = {1.0 / PB_DAYS_PER_YEAR,
                                   7.0 / PB_DAYS_PER_YEAR,
                                   1.0 / 12.0,
                                   1,
                                   2,
                                   5,
                                   10,
                                   20,
                                   30,
                                   50,
                                   75,
                                   100,
                                   150};
    int n = 0;
    if (o->at_count > 0) {
        memcpy(years, o->at_years, (size_t)o->at_count * sizeof *years);
        return o->at_count;
    }
    for (size_t i = 0; i < sizeof usual / sizeof usual[0] && usual[i] < o->years; i++) {
        years[n++] = usual[i];
    }
    years[n++] = o->years;
    return n;
}
