/**
 * @file machine_file.h
 * @brief Machine files: docs/formats/machine.md.
 */
#ifndef IO_MACHINE_FILE_H
#define IO_MACHINE_FILE_H

#include "core/machine.h"
#include "io/doc.h"

#define IO_MACHINE_FORMAT "pullback machine 1"

/**
 * @brief Read and judge a machine file; "-" is standard input.
 * @param[out] rig untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_machine_load(const char *path, PbRig *rig, PbError *err);
/** @brief As io_machine_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_machine_parse(const char *name, const char *text, size_t size, PbRig *rig,
                                       PbError *err);
/** @brief By name or path: io/places.h. */
PB_NODISCARD PbStatus io_machine_find(const char *word, const char *beside, PbRig *rig,
                                      PbError *err);
/** @brief As it would stand in a file, its curve as three numbers. @return caller gives it back
 * with json_decref; NULL when memory ran out */
json_t *io_machine_to_json(const PbRig *rig);

#endif
