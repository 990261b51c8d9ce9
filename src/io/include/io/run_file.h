/**
 * @file run_file.h
 * @brief Run files: bytes to a record and back; docs/formats/run-file.md has every byte.
 *
 * A file is a magic number and chunks, each with its length and a checksum. Reading stops at the
 * first chunk that is torn or damaged: what stands before it is the run, and cut_bytes and
 * cut_reason say what was left away. Only a file whose head cannot be read is refused.
 */
#ifndef IO_RUN_FILE_H
#define IO_RUN_FILE_H

#include "core/run_record.h"
#include "core/score.h"
#include "core/status.h"

#include <stddef.h>

#define IO_RUN_MAX_BYTES (8u * 1024u * 1024u)

/**
 * @brief Read a run from bytes in memory.
 * @param[in]  name shown as the file in complaints
 * @param[out] run  untouched unless PB_OK; caller gives it back with io_run_free
 * @return PB_OK; PB_ERR_FORMAT, PB_ERR_RANGE (the head is not a run's head); PB_ERR_MEMORY
 * Never takes more than 64 MiB.
 */
PB_NODISCARD PbStatus io_run_decode(const char *name, const unsigned char *bytes, size_t size,
                                    PbRunFile *run, PbError *err);
/** @brief Read a run file. As io_run_decode, and PB_ERR_IO. */
PB_NODISCARD PbStatus io_run_read(const char *path, PbRunFile *run, PbError *err);
/** @brief Give the arrays back and zero the record. Safe on a zeroed one. */
void io_run_free(PbRunFile *run);

/**
 * @brief A whole run as bytes, as a recorder would have written them.
 * @param[out] bytes caller frees with free
 * @return PB_OK; PB_ERR_RANGE when the record breaks its own rules; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_run_encode(const PbRunFile *run, unsigned char **bytes, size_t *size,
                                    PbError *err);
/** @brief Write a run to a new file; an existing one is refused. Nothing is left on failure. */
PB_NODISCARD PbStatus io_run_write(const char *path, const PbRunFile *run, PbError *err);

/**
 * @brief Add a trainer's mark to a record in memory, keeping marks in order of time.
 * @return PB_OK; PB_ERR_RANGE (tick outside the run, text too long or not clean UTF-8, 1000 marks)
 */
PB_NODISCARD PbStatus io_run_add_mark(PbRunFile *run, int tick, const char *text, PbError *err);
/** @brief Put a grade into a record in memory. */
void io_run_set_grade(PbRunFile *run, const PbScore *score, const PbRubric *rubric);
/**
 * @brief Add marks and grade of this record to the end of its file, in one write.
 * Only the chunks of marks from `first_mark` on, and the grade when one is given, are written.
 * @return PB_OK; PB_ERR_STATE when the file has a torn tail: write it anew with io_run_write;
 *         PB_ERR_IO
 */
PB_NODISCARD PbStatus io_run_append(const char *path, const PbRunFile *run, int first_mark,
                                    PbError *err);

#endif
