/**
 * @file eras_file.h
 * @brief The file of distributions from which walls are drawn (docs/formats/framing.md), and drawn
 * walls as files.
 */
#ifndef IO_ERAS_FILE_H
#define IO_ERAS_FILE_H

#include "core/generate.h"

#include <jansson.h>

#define IO_ERAS_FORMAT "pullback eras 1"

/**
 * @brief Read and judge the file; every number of every era must be there, with its source.
 * @param[out] eras of pb_era_years, in that order; untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_eras_load(const char *path, PbEra eras[PB_ERAS], PbError *err);
/** @brief As io_eras_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_eras_parse(const char *name, const char *text, size_t size,
                                    PbEra eras[PB_ERAS], PbError *err);
/** @brief The file in the first of these data folders that has it. */
PB_NODISCARD PbStatus io_eras_find(const char *const *folders, int count, PbEra eras[PB_ERAS],
                                   PbError *err);
/** @brief A wall as its file says it. @return caller frees with json_decref; NULL without memory */
json_t *io_framing_to_json(const PbFraming *framing);

#endif
