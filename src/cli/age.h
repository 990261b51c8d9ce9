/* The parts of the age verb: options, the case, one run, many draws, printing. */
#ifndef CLI_AGE_H
#define CLI_AGE_H

#include "cli/options.h"
#include "core/foam.h"
#include "core/settle.h"
#include "core/spread.h"

#include "io/age_result.h"

#include <stdio.h>

enum { AGE_MAX_TIMES = IO_AGE_MAX_TIMES };

typedef struct AgeOptions {
    const char *input; /* NULL: uniform density */
    double density_kg_m3;
    double width_m, height_m, depth_m, tilt_deg, fill_rh;
    int has_density, has_width, has_height, has_depth, has_tilt, has_fill_rh, has_cells;
    int is_of_fill, is_of_foam; /* an option was given that means nothing to the other */
    int cells;
    double years;
    double at_years[AGE_MAX_TIMES];
    int at_count;
    const char *climate;
    int vibration, face, damp, damp_given;
    int spread, threads;
    int seed;
    int threshold, json, progress;
    const char *frames;
    int foam, inner, outer; /* foam < 0: fill, not foam */
    PbConstants constants;
} AgeOptions;

/* Read the command line. CLI_DONE, or the exit code after a complaint was printed. */
int age_parse(const CliVerb *verb, int argc, char **argv, AgeOptions *o);
/* Times to report: those asked for, or the usual ones up to the asked year. */
int age_times(const AgeOptions *o, double years[AGE_MAX_TIMES]);
PbStatus age_find_climate(const AgeOptions *o, PbClimate *climate, PbError *err);
/* The bay to age: a file or a uniform fill. Caller destroys it. */
PbStatus age_load_bay(const AgeOptions *o, PbBayField *bay, PbError *err);

/* One draw: fills values[times][metrics]. Called from several threads. */
typedef PbStatus (*AgeDraw)(const void *user, int index, double *values, PbError *err);

typedef struct AgeSpread {
    int draws, times, metrics;
    const char *const *names; /* of the metrics */
    AgeDraw draw;
    const void *user;
} AgeSpread;

/* The whole spread, printed to stdout; result is the run with shipped constants and stays
 * the caller's. CLI exit code. */
int age_spread_print(const AgeOptions *o, const AgeSpread *spread, IoAgeResult *result);

/* Constants that --set moved, as set_NAME, so that a line of many tells which case it is. */
void age_put_changed(const AgeOptions *o, IoAgeResult *result);

int age_fill(const AgeOptions *o);
int age_foam(const AgeOptions *o);
#endif
