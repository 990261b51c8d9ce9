/**
 * @file field_file.h
 * @brief Density fields as CSV and JSON, and frames of an ageing bay; formats in
 * docs/formats/age.md.
 */
#ifndef IO_FIELD_FILE_H
#define IO_FIELD_FILE_H

#include "core/settle.h"

#include <stdio.h>

#define IO_FIELD_MAX_BYTES (64u * 1024u * 1024u)
#define IO_FIELD_MAX_CELLS 400000

/** What the two tables begin with. */
#define IO_FIELD_BEGINS  "# pullback density v1"
#define IO_FRAMES_BEGINS "# pullback frames v1"

/**
 * @brief Write a field, whole at its place or not at all; reading it back gives the same numbers,
 * bit for bit.
 * @return PB_OK or PB_ERR_IO; what was at `path` before is still there then
 */
PB_NODISCARD PbStatus io_field_csv_write(const char *path, const PbBayField *field, PbError *err);
/** @brief The same into an open stream; a failed write shows in its error flag. */
void io_field_csv_print(FILE *f, const PbBayField *field);
/**
 * @brief Read the CSV form; "-" is standard input.
 * @param[out] field untouched unless PB_OK; caller gives it back with pb_bay_field_destroy
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_field_csv_read(const char *path, PbBayField *field, PbError *err);
/** @brief Read the JSON form: a column or rows of densities, with blocks. As io_field_csv_read. */
PB_NODISCARD PbStatus io_field_json_read(const char *path, PbBayField *field, PbError *err);
/** @brief Write aged bays, 1 or more and all of one grid, as one CSV for films and plots. As
 * io_field_csv_write. */
PB_NODISCARD PbStatus io_frames_csv_write(const char *path, const PbAgedBay *frames, int count,
                                          PbError *err);

#endif
