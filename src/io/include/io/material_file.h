/**
 * @file material_file.h
 * @brief Material files: docs/formats/material.md.
 */
#ifndef IO_MATERIAL_FILE_H
#define IO_MATERIAL_FILE_H

#include "core/product.h"
#include "io/doc.h"

#define IO_MATERIAL_FORMAT "pullback material 1"

/**
 * @brief Read and judge a material file; "-" is standard input.
 * @param[out] product untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_material_load(const char *path, PbProduct *product, PbError *err);
/** @brief As io_material_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_material_parse(const char *name, const char *text, size_t size,
                                        PbProduct *product, PbError *err);
/** @brief By name or path: io/places.h. */
PB_NODISCARD PbStatus io_material_find(const char *word, const char *beside, PbProduct *product,
                                       PbError *err);
/** @brief As it would stand in a file; reading it back gives the same numbers. @return caller gives
 * it back with json_decref; NULL when memory ran out */
json_t *io_material_to_json(const PbProduct *product);

#endif
