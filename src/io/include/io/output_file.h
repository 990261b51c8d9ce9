/**
 * @file output_file.h
 * @brief A file that appears whole or not at all: written beside its place, then renamed.
 */
#ifndef IO_OUTPUT_FILE_H
#define IO_OUTPUT_FILE_H

#include "core/status.h"

#include <stdio.h>

/** An output under way. Ends with io_output_commit or io_output_abandon. */
typedef struct IoOutput {
    FILE *file; /**< write here; io_output_release closes it early */
    char path[1024];
    char part[1056]; /**< where the bytes go; equal to path when that is a pipe or a device */
    int is_quick;    /**< set after opening: the commit does not wait for the disk */
} IoOutput;

/** @brief The folders above a file, each 0700 when it is new. @return PB_OK or PB_ERR_IO. */
PB_NODISCARD PbStatus io_make_folders(const char *path, PbError *err);
/**
 * @brief Start. What is at `path` stays as it is until the commit.
 * @return PB_OK or PB_ERR_IO; on failure nothing is open
 */
PB_NODISCARD PbStatus io_output_open(const char *path, IoOutput *out, PbError *err);
/** @brief Close the stream but keep the part file, for a writer that opens it by name. */
PB_NODISCARD PbStatus io_output_release(IoOutput *out, PbError *err);
/** @brief Bring the bytes to the disk, then put the file in its place; so a power cut leaves the
 * old file or the new one. On failure the part file is removed. */
PB_NODISCARD PbStatus io_output_commit(IoOutput *out, PbError *err);
/** @brief Remove what was written. Safe after a failed open and after a commit. */
void io_output_abandon(IoOutput *out);

#endif
