/* Command line of the age verb. Words are usage (2), numbers out of range are bad input (3). */
#include "age.h"
#include "options.h"

#include "cli/front.h"
#include "core/units.h"
#include "io/doc.h"
#include "io/field_file.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *const vibrations[] = {"quiet", "light", "heavy", NULL};
static const char *const faces[] = {"gypsum", "film", "lath", NULL};
static const char *const damps[] = {"shallow", "deep", NULL};
static const char *const foams[] = {"good", "typical", "poor", NULL};
static const char *const skins[] = {"painted-board", "wood-board",      "tight",
                                    "plaster",       "tight-sheathing", NULL};

/* One option that takes a number or a word. */
typedef struct Option {
    const char *name;
    double low, high;
    double *number;
    int *whole;
    int *given;
    const char **text;
    const char *const *words;
} Option;

static int bad_number(const char *name, const char *text, double low, double high)
{
    fprintf(stderr, "pullback-cli age: %s %s is out of range, expected %g to %g\n", name, text, low,
            high);
    return CLI_BAD_INPUT;
}

static int parse_number(const char *name, const char *text, double low, double high, double *out)
{
    double v;
    const char *end = io_plain_number(text, &v);
    if (end == NULL || *end != '\0') {
        return cli_usage("age", "%s \"%s\": expected a number from %g to %g", name, text, low,
                         high);
    }
    if (!(v >= low && v <= high)) {
        return bad_number(name, text, low, high);
    }
    *out = v;
    return CLI_DONE;
}

static int take_option(const Option *at, const char *value)
{
    if (at->text != NULL) {
        *at->text = value;
        return CLI_DONE;
    }
    if (at->words != NULL) {
        for (int i = 0; at->words[i] != NULL; i++) {
            if (strcmp(at->words[i], value) == 0) {
                *at->whole = i;
                return CLI_DONE;
            }
        }
        char list[160] = "";
        for (int i = 0; at->words[i] != NULL; i++) {
            size_t n = strlen(list);
            snprintf(list + n, sizeof list - n, "%s%s", i ? ", " : "", at->words[i]);
        }
        return cli_usage("age", "%s \"%s\": expected one of %s", at->name, value, list);
    }
    double v = 0.0;
    int code = parse_number(at->name, value, at->low, at->high, &v);
    if (code != CLI_DONE) {
        return code;
    }
    if (at->whole != NULL) {
        if (v != floor(v)) {
            return cli_usage("age", "%s \"%s\": expected a whole number", at->name, value);
        }
        *at->whole = (int)v;
    } else {
        *at->number = v;
    }
    return CLI_DONE;
}

static int take_times(AgeOptions *o, const char *text)
{
    const char *whole = text;
    double last = 0.0;
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

static int take_constant(AgeOptions *o, const char *text)
{
    char name[64];
    const char *equals = strchr(text, '=');
    size_t n = equals != NULL ? (size_t)(equals - text) : 0;
    if (n == 0 || n >= sizeof name) {
        return cli_usage("age", "--set \"%s\": expected NAME=VALUE", text);
    }
    memcpy(name, text, n);
    name[n] = '\0';
    const PbConstantInfo *info = pb_constant_find(name);
    if (info == NULL) {
        return cli_usage("age", "--set: there is no constant \"%s\"", name);
    }
    /* Wider than the plausible range, so that a study can look past it, yet never absurd. */
    double size = fmax(fabs(info->low), fabs(info->high));
    return parse_number(name, equals + 1, 0.2 * fmin(info->low, info->value), 3.0 * size,
                        pb_constant_at(&o->constants, info));
}

static int take_flag(AgeOptions *o, const char *arg)
{
    struct {
        const char *name;
        int *flag;
    } flags[] = {
        {"--json", &o->json}, {"--threshold", &o->threshold}, {"--progress", &o->progress}};
    for (size_t i = 0; i < sizeof flags / sizeof flags[0]; i++) {
        if (strcmp(arg, flags[i].name) == 0) {
            *flags[i].flag = 1;
            return 1;
        }
    }
    return 0;
}

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

/* -1: no such option; else an exit code. */
static int take_valued(AgeOptions *o, const char *name, const char *value)
{
    const Option options[] = {
        {"--density", 1, PB_SETTLE_MAX_KG_M3, &o->density_kg_m3, NULL, &o->has_density, NULL, NULL},
        {"--width", 0.02, 3, &o->width_m, NULL, &o->has_width, NULL, NULL},
        {"--height", 0.1, 12, &o->height_m, NULL, &o->has_height, NULL, NULL},
        {"--depth", 0.02, 1, &o->depth_m, NULL, &o->has_depth, NULL, NULL},
        {"--tilt", 0, 90, &o->tilt_deg, NULL, &o->has_tilt, NULL, NULL},
        {"--fill-rh", 0, 1, &o->fill_rh, NULL, &o->has_fill_rh, NULL, NULL},
        {"--cells", 1, 256, NULL, &o->cells, &o->has_cells, NULL, NULL},
        {"--years", 0.001, PB_SETTLE_MAX_YEARS, &o->years, NULL, NULL, NULL, NULL},
        {"--spread", 1, 100000, NULL, &o->spread, NULL, NULL, NULL},
        {"--threads", 1, 256, NULL, &o->threads, NULL, NULL, NULL},
        {"--seed", 0, 2000000000, NULL, &o->seed, NULL, NULL, NULL},
        {"--climate", 0, 0, NULL, NULL, NULL, &o->climate, NULL},
        {"--frames", 0, 0, NULL, NULL, NULL, &o->frames, NULL},
        {"--vibration", 0, 0, NULL, &o->vibration, &o->is_of_fill, NULL, vibrations},
        {"--face", 0, 0, NULL, &o->face, &o->is_of_fill, NULL, faces},
        {"--damp", 0, 0, NULL, &o->damp, &o->damp_given, NULL, damps},
        {"--foam", 0, 0, NULL, &o->foam, NULL, NULL, foams},
        {"--inner", 0, 0, NULL, &o->inner, &o->is_of_foam, NULL, skins},
        {"--outer", 0, 0, NULL, &o->outer, &o->is_of_foam, NULL, skins},
    };
    if (strcmp(name, "--at") == 0) {
        return take_times(o, value);
    }
    if (strcmp(name, "--set") == 0) {
        return take_constant(o, value);
    }
    for (size_t k = 0; k < sizeof options / sizeof options[0]; k++) {
        if (strcmp(name, options[k].name) == 0) {
            if (options[k].given != NULL) {
                *options[k].given = 1;
            }
            return take_option(&options[k], value);
        }
    }
    return -1;
}

int age_options(int argc, char **argv, AgeOptions *o)
{
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
    for (int i = 1; i < argc; i++) {
        if (take_flag(o, argv[i])) {
            continue;
        }
        if (strncmp(argv[i], "--", 2) != 0) {
            if (o->input != NULL) {
                return cli_usage("age", "two inputs, \"%s\" and \"%s\"", o->input, argv[i]);
            }
            o->input = argv[i];
            continue;
        }
        int code = i + 1 < argc ? take_valued(o, argv[i], argv[i + 1]) : -1;
        if (code < 0) {
            return cli_usage("age", "unknown option \"%s\", or its value is missing", argv[i]);
        }
        if (code != CLI_DONE) {
            return code;
        }
        i++;
    }
    const char *const in[] = {o->input, o->climate};
    const IoPlace out[] = {{o->frames, IO_FRAMES_BEGINS, 0}};
    int code = check_together(o);
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
