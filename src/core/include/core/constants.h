/**
 * @file constants.h
 * @brief One material and one wall model for packing, years and heat.
 *
 * Fields, defaults, ranges, units, sources and confidence come from assets/constants.json (made
 * into core/constants_list.h at build time). To add a constant, add a row there; it appears here.
 */
#ifndef CORE_CONSTANTS_H
#define CORE_CONSTANTS_H

#include "core/constants_list.h"
#include "core/status.h"

/** Every constant as a double, by name. A value type: copy freely. */
typedef struct PbConstants {
#define PB_CONSTANT_FIELD(group, name, value, low, high, unit, confidence, source) double name;
    PB_CONSTANT_LIST(PB_CONSTANT_FIELD)
#undef PB_CONSTANT_FIELD
} PbConstants;

/** What is known of one constant. All strings have static storage. */
typedef struct PbConstantInfo {
    const char *group;
    const char *name;
    double value;
    double low;
    double high;
    const char *unit;
    const char *confidence;
    const char *source;
    size_t offset; /**< of the field in PbConstants */
} PbConstantInfo;

/** @brief The shipped values. */
PbConstants pb_constants_default(void);
/** @brief The table of all constants. @param[out] count rows. Static storage. */
const PbConstantInfo *pb_constants_table(size_t *count);
/** @brief Row by name, NULL when there is none. */
const PbConstantInfo *pb_constant_find(const char *name);
/** @brief The field that a row describes. */
double *pb_constant_at(PbConstants *constants, const PbConstantInfo *info);
/** @brief What stands in it. */
double pb_constant_value(const PbConstants *constants, const PbConstantInfo *info);

#endif
