/**
 * @file constants_file.h
 * @brief Other values for some of the constants: the shape of assets/constants.json.
 */
#ifndef IO_CONSTANTS_FILE_H
#define IO_CONSTANTS_FILE_H

#include "core/constants.h"
#include "io/doc.h"

/** A value may lie outside the plausible low..high by this factor, so that trials are possible. */
#define IO_CONSTANTS_MARGIN 4.0

/** @brief Smallest and largest value that is taken for a constant. */
void io_constants_range(const PbConstantInfo *info, double *low, double *high);
/**
 * @brief Read overrides: {"constants": [{"name": ..., "value": ...}, ...]}.
 *
 * Other keys of assets/constants.json may stand beside name and value and are not used. A name
 * that does not exist or comes twice is refused.
 * @param[in,out] constants overridden by name; untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_constants_load(const char *path, PbConstants *constants, PbError *err);
/** @brief As io_constants_load, from text. */
PB_NODISCARD PbStatus io_constants_parse(const char *name, const char *text, size_t size,
                                         PbConstants *constants, PbError *err);

#endif
