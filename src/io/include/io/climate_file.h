/**
 * @file climate_file.h
 * @brief Climates from JSON files; format in docs/formats/age.md.
 */
#ifndef IO_CLIMATE_FILE_H
#define IO_CLIMATE_FILE_H

#include "core/climate.h"

/** @brief Read a climate file. @param[out] climate untouched unless PB_OK */
PB_NODISCARD PbStatus io_climate_load(const char *path, PbClimate *climate, PbError *err);
/**
 * @brief Climate by shipped name or by file.
 * A word with a '/' or ending in ".json" is a path; else FOLDER/climates/WORD.json is tried in
 * order.
 * @param[in] folders borrowed for the call; asset folders, `count` of them
 */
PB_NODISCARD PbStatus io_climate_find(const char *word, const char *const *folders, int count,
                                      PbClimate *climate, PbError *err);

#endif
