/* Reads assets/climates/NAME.json and files of the same form. */
#include "io/climate_file.h"

#include "io/doc.h"
#include "io/places.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static void read_season(IoReader *r, IoValue *root, const char *key, double low, double high,
                        const char *unit, PbSeason *season)
{
    IoValue *at = io_object(r, root, key, 1);
    io_number(r, at, "mean", 1, low, high, unit, &season->mean);
    io_number(r, at, "swing", 1, 0.0, high - low, unit, &season->swing);
    io_end(r, at);
    if (r->status == PB_OK && (season->mean - season->swing < low - 1e-12 ||
                               season->mean + season->swing > high + 1e-12)) {
        io_complain(r, at, PB_ERR_RANGE, "\"%s\": mean %g +- swing %g leaves %g to %g %s", key,
                    season->mean, season->swing, low, high, unit);
    }
}

PbStatus io_climate_load(const char *path, PbClimate *climate, PbError *err)
{
    assert(path != NULL && climate != NULL);
    IoDoc doc;
    PbClimate c;
    memset(&c, 0, sizeof c);
    PB_TRY(io_doc_load(path, &doc, err));
    IoReader r = io_reader(&doc, err);
    io_text(&r, doc.root, "name", 1, c.name, sizeof c.name);
    io_text(&r, doc.root, "title", 1, c.title, sizeof c.title);
    read_season(&r, doc.root, "bay_rh", 0.0, 1.0, "of 1", &c.bay_rh);
    read_season(&r, doc.root, "indoor_c", -20.0, 50.0, "deg C", &c.indoor_c);
    read_season(&r, doc.root, "indoor_rh", 0.0, 1.0, "of 1", &c.indoor_rh);
    read_season(&r, doc.root, "outdoor_c", -60.0, 60.0, "deg C", &c.outdoor_c);
    read_season(&r, doc.root, "outdoor_rh", 0.0, 1.0, "of 1", &c.outdoor_rh);
    io_number(&r, doc.root, "foam_ageing", 1, 1.0, 50.0, "times temperate", &c.foam_ageing);
    io_end(&r, doc.root);
    io_doc_free(&doc);
    if (r.status == PB_OK) {
        *climate = c;
    }
    return r.status;
}

PbStatus io_climate_find(const char *word, const char *const *folders, int count,
                         PbClimate *climate, PbError *err)
{
    assert(word != NULL && climate != NULL);
    assert(count == 0 || folders != NULL);
    char path[1024];
    if (io_is_path(word)) {
        return io_climate_load(word, climate, err);
    }
    if (io_place_in(folders, count, "climates", word, path, sizeof path)) {
        return io_climate_load(path, climate, err);
    }
    if (err != NULL) {
        err->file[0] = '\0';
        err->line = 0;
        err->column = 0;
    }
    return pb_fail(err, PB_ERR_RANGE,
                   "there is no climate \"%.60s\"; a file needs a '/' or .json in its name", word);
}
