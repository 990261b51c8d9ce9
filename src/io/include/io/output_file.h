/**
 * @file output_file.h
 * @brief A file that appears whole or not at all: written beside its place, then renamed. And the
 * one rule of what it may replace.
 *
 * The rule: an output never takes the place of an input of the command, of another output of it, of
 * the store or of its log (io_output_protect), or of a file of another kind. What is an older
 * output of the same kind, because it begins as such a file does, is replaced. Files are the same
 * when they are one file on the disk (by any name, symbolic or hard link), or, where there is no
 * file yet, when they have one folder and one name, upper and lower case being the same.
 */
#ifndef IO_OUTPUT_FILE_H
#define IO_OUTPUT_FILE_H

#include "core/status.h"

#include <stdio.h>

/** What a file of one kind begins with. */
#define IO_BEGINS_PDF "%PDF"
#define IO_BEGINS_PNG "\x89PNG"
#define IO_BEGINS_RUN "PBRUN"
/** The program's own file, such as the settings: whatever stands there is replaced. */
#define IO_BEGINS_ANY ""
/** Nothing that stands there is replaced, unless it is empty. */
#define IO_BEGINS_NEW NULL

/** An output that a command was asked for. */
typedef struct IoPlace {
    const char *path;   /**< NULL = not asked for */
    const char *begins; /**< IO_BEGINS_..., or the first bytes of its kind */
    int takes_stdout;   /**< "-" is standard output, not a file */
} IoPlace;

/**
 * @brief Never replace this file nor its -wal, -shm and -journal, from here to the end of the
 * process. The rule does not open it either: closing a file drops the locks that a database of this
 * process holds on it. At most 4; the path is copied.
 */
void io_output_protect(const char *path);
/**
 * @brief Hold the outputs of a command against the rule, before any work.
 * @param[in] inputs paths that the command reads; NULL = not given
 * @return PB_OK, or PB_ERR_RANGE and the path of the output that is refused; nothing is written
 */
PB_NODISCARD PbStatus io_outputs_check(const IoPlace *outputs, int output_count,
                                       const char *const *inputs, int input_count, PbError *err);

/** An output under way. Ends with io_output_commit or io_output_abandon. */
typedef struct IoOutput {
    FILE *file; /**< write here */
    char path[1024];
    char part[1056]; /**< where the bytes go; equal to path when that is a pipe or a device */
    int is_quick;    /**< set after opening: the commit does not wait for the disk */
    int slot;        /**< of the list that io_output_clean_on_signals removes; negative = none */
} IoOutput;

/** @brief The folders above a file, each 0700 when it is new. @return PB_OK or PB_ERR_IO. */
PB_NODISCARD PbStatus io_make_folders(const char *path, PbError *err);
/**
 * @brief Start. What is at `path` stays as it is until the commit. A part file that a killed
 * process left is written over; one that another process is writing is in the way.
 * @param[in] begins as in IoPlace
 * @return PB_OK, PB_ERR_RANGE (refused by the rule) or PB_ERR_IO; on failure nothing is open
 */
PB_NODISCARD PbStatus io_output_open(const char *path, const char *begins, IoOutput *out,
                                     PbError *err);
/** @brief Hand over what was written so far; so a full disk is known before the commit. On failure
 * the part file is removed. */
PB_NODISCARD PbStatus io_output_flush(IoOutput *out, PbError *err);
/** @brief Bring the bytes to the disk, then put the file in its place; so a power cut leaves the
 * old file or the new one. On failure the part file is removed. */
PB_NODISCARD PbStatus io_output_commit(IoOutput *out, PbError *err);
/** @brief Remove what was written. Safe after a failed open and after a commit. */
void io_output_abandon(IoOutput *out);
/**
 * @brief From here on SIGHUP, SIGINT and SIGTERM remove the part files of this process before they
 * end it as they would have. A signal that is ignored stays ignored.
 */
void io_output_clean_on_signals(void);

#endif
