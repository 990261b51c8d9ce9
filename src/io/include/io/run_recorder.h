/**
 * @file run_recorder.h
 * @brief Writes a run file while the run goes on, so that a crash or a power cut loses a second.
 *
 * The recorder keeps all bytes in memory and a thread of its own brings them to the disk, at most
 * half a second after they were recorded (write, then fdatasync). The caller never waits for the
 * disk. When the disk refuses (full, gone), the run stays in memory and goes on; every half second
 * it is tried again, and io_recorder_save_as puts the run somewhere else.
 * One thread calls a recorder.
 */
#ifndef IO_RUN_RECORDER_H
#define IO_RUN_RECORDER_H

#include "io/run_file.h"

typedef struct IoRecorder IoRecorder;

/**
 * @brief Start a recording. The file is made and its head is on the disk when this returns.
 * @param[in] path a file that does not exist yet; NULL keeps the run in memory alone. It stays
 *            locked for writing (POSIX record lock) until io_recorder_close, where the file system
 *            can; the process must not open and close it meanwhile, which would end the lock
 * @param[in] who name of the hands or the learner, "" = not known; cut at 95 bytes
 * @param[in] started_unix_s wall clock, 0 = not known
 * @param[out] recorder untouched unless PB_OK; caller ends it with io_recorder_close
 * @return PB_OK; PB_ERR_IO (there is such a file, read-only folder, full disk; no file is left);
 *         PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_recorder_open(const char *path, const PbSessionConfig *config,
                                       const char *who, int64_t started_unix_s,
                                       IoRecorder **recorder, PbError *err);
/**
 * @brief Note the step just made. Call once after every pb_session_step that returned PB_OK.
 * @param[in] commands, count what that step was given
 */
void io_recorder_step(IoRecorder *recorder, const PbSession *session, const PbCommand *commands,
                      int count);
/**
 * @brief A trainer's mark at the present tick.
 * @return PB_OK; PB_ERR_RANGE (text too long or not plain, or 1000 marks are there); PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_recorder_mark(IoRecorder *recorder, const char *text, PbError *err);
/**
 * @brief Is the disk keeping up? PB_OK, or PB_ERR_IO with the reason and the run safe in memory;
 * PB_ERR_MEMORY when even memory ran out and recording stopped. Cheap; call it once a frame.
 */
PB_NODISCARD PbStatus io_recorder_status(IoRecorder *recorder, PbError *err);
/** @brief errno of the last try to write, 0 when it went well: the reason behind PB_ERR_IO. */
int io_recorder_trouble(IoRecorder *recorder);
/** @brief All bytes so far, a readable run file. Borrowed until the next call. */
const unsigned char *io_recorder_bytes(IoRecorder *recorder, size_t *size);
/** @brief Put the run as far as it is into another new file. @return PB_OK or PB_ERR_IO (also when
 * there is such a file; nothing is left of a new one) */
PB_NODISCARD PbStatus io_recorder_save_as(IoRecorder *recorder, const char *path, PbError *err);
/** @brief Wall clock of the end, 0 = not known; io_recorder_finish puts it into the file. */
void io_recorder_ended(IoRecorder *recorder, int64_t unix_s);
/**
 * @brief The run is over: note its end and its grade, bring everything to the disk.
 * @param[in] score, rubric may be NULL when the run was not graded
 * @return PB_OK; PB_ERR_IO: the run is still in memory, save it elsewhere, then close;
 *         PB_ERR_STATE: the run is not over or was finished before; PB_ERR_MEMORY: its end is lost
 */
PB_NODISCARD PbStatus io_recorder_finish(IoRecorder *recorder, const PbSession *session,
                                         const PbScore *score, const PbRubric *rubric,
                                         PbError *err);
/** @brief Bring to the disk what is left and give everything back. NULL allowed. A run that was
 * not finished stays in its file as far as it went. */
void io_recorder_close(IoRecorder *recorder);

#endif
