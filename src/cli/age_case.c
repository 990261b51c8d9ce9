/*
 * What the age verb works on: a climate and a bay. A bay comes from a density file (CSV as `run
 * --density` writes it, or JSON) or from one density. A further kind of input joins in
 * read_input, told apart by its first byte; all it has to give is a PbBayField.
 */
#include "age.h"
#include "replay_run.h"

#include "cli/data_files.h"
#include "io/climate_file.h"
#include "io/field_file.h"
#include "os/file.h"

#include <errno.h>
#include <math.h>
#include <string.h>

void age_put_changed(const AgeOptions *o, IoAgeResult *result)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    for (size_t i = 0; i < count; i++) {
        double value = pb_constant_value(&o->constants, &table[i]);
        if (value != table[i].value) {
            char key[80];
            snprintf(key, sizeof key, "set_%.64s", table[i].name);
            io_age_number(result, key, value);
        }
    }
}

PbStatus age_find_climate(const AgeOptions *o, PbClimate *climate, PbError *err)
{
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    return io_climate_find(o->climate, folders, count, climate, err);
}

/* Run files begin with "PBRUN"; no field file does (docs/formats/run-file.md). */
enum { RUN_FIRST_BYTE = 'P' };

static PbStatus read_input(const char *path, PbBayField *bay, PbError *err)
{
    snprintf(err->file, sizeof err->file, "%s", path);
    FILE *f = os_open_stream(path, OS_TO_READ);
    if (f == NULL) {
        return pb_fail(err, PB_ERR_IO, "cannot open: %s", strerror(errno));
    }
    int first = getc(f);
    while (first == ' ' || first == '\t' || first == '\n' || first == '\r') {
        first = getc(f);
    }
    fclose(f);
    if (first == '{') {
        return io_field_json_read(path, bay, err);
    }
    if (first == RUN_FIRST_BYTE) {
        return cli_run_bay(path, NULL, bay, err);
    }
    return io_field_csv_read(path, bay, err);
}

/* A size on the command line that denies the file is a mistake worth hearing of. */
static PbStatus same_size(const char *option, int given, double asked, double in_file, PbError *err)
{
    if (given && fabs(asked - in_file) > 1e-6 * in_file) {
        return pb_fail(err, PB_ERR_RANGE, "the field is for %g, but %s says %g", in_file, option,
                       asked);
    }
    return PB_OK;
}

static PbStatus load_file(const AgeOptions *o, PbBayField *bay, PbError *err)
{
    PB_TRY(read_input(o->input, bay, err));
    err->line = 0;
    PbStatus status = same_size("--width", o->has_width, o->width_m, bay->width_m, err);
    if (status == PB_OK) {
        status = same_size("--height", o->has_height, o->height_m, bay->height_m, err);
    }
    if (status == PB_OK) {
        status = same_size("--depth", o->has_depth, o->depth_m, bay->depth_m, err);
    }
    if (status == PB_OK && o->has_fill_rh) {
        status = same_size("--fill-rh", 1, o->fill_rh, bay->fill_rh_frac, err);
    }
    if (status == PB_OK && o->has_tilt) {
        bay->tilt_deg = o->tilt_deg; /* the same fill in another slope is a fair question */
    }
    if (status == PB_OK) {
        status = pb_settle_check(bay, err);
    }
    if (status != PB_OK) {
        pb_bay_field_destroy(bay);
    }
    return status;
}

PbStatus age_load_bay(const AgeOptions *o, PbBayField *bay, PbError *err)
{
    if (o->input != NULL) {
        return load_file(o, bay, err);
    }
    int rows = (int)ceil(o->height_m / 0.025 - 1e-9);
    PbStatus status = pb_bay_field_create(o->cells, rows, o->width_m, o->height_m, o->depth_m, bay);
    if (status != PB_OK) {
        return pb_fail(err, status, "no room for a field of %d x %d cells", o->cells, rows);
    }
    pb_bay_field_fill(bay, o->density_kg_m3);
    bay->tilt_deg = o->tilt_deg;
    bay->fill_rh_frac = o->fill_rh;
    return PB_OK;
}
