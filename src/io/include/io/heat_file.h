/**
 * @file heat_file.h
 * @brief Heat cases and bays from JSON files; the formats are in docs/formats/heat.md.
 */
#ifndef IO_HEAT_FILE_H
#define IO_HEAT_FILE_H

#include "core/heat_bay.h"
#include "core/heat_case.h"

/**
 * @brief Read one case of rectangles or a dimensionless cavity.
 * @param[out] c   untouched unless PB_OK
 * @param[out] err file, line, column and what was expected
 * @return PB_OK, PB_ERR_IO, PB_ERR_FORMAT, PB_ERR_RANGE
 */
PB_NODISCARD PbStatus io_heat_case_load(const char *path, PbHeatCase *c, PbError *err);
/** @brief The same from text; `name` is shown as the file. */
PB_NODISCARD PbStatus io_heat_case_parse(const char *name, const char *text, size_t size,
                                         PbHeatCase *c, PbError *err);

/** A bay file: what is in the bay, the climate, and how to look at it. */
typedef struct IoHeatBay {
    char title[96];
    PbBayField field;     /* owned; io_heat_bay_free */
    PbHeatBaySetup setup; /* setup.field points to field */
    PbHeatCamera camera;
    PbHeatRange degree_days_k_d, price_per_kwh, efficiency;
    double wall_area_m2;
} IoHeatBay;

/** @brief Read a bay. Caller calls io_heat_bay_free after PB_OK. @return as io_heat_case_load. */
PB_NODISCARD PbStatus io_heat_bay_load(const char *path, const PbConstants *constants,
                                       IoHeatBay *bay, PbError *err);
PB_NODISCARD PbStatus io_heat_bay_parse(const char *name, const char *text, size_t size,
                                        const PbConstants *constants, IoHeatBay *bay, PbError *err);
void io_heat_bay_free(IoHeatBay *bay);

#endif
