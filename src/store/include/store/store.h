/**
 * @file store.h
 * @brief The database of people, runs and grades: opening, checking, learners.
 *
 * One SQLite file a user. Every change is one transaction that is on the disk when the call returns
 * PB_OK; a process killed at any moment leaves either the old or the new state. Several processes
 * may use one file; a change waits up to STORE_WAIT_MS for another one. Times are text given by the
 * caller, UTC, "2026-03-04T09:30:00Z": the store reads no clock. Layout: docs/formats/store.md.
 *
 * Errors of all functions of this layer: PB_ERR_IO (cannot read or write, disk full, busy),
 * PB_ERR_FORMAT (damaged, not ours or newer than this program; left as it is), PB_ERR_RANGE (a
 * value is refused, nothing changed), PB_ERR_NO_RESULT (there is no such row), PB_ERR_MEMORY.
 * err->file is the path of the database; err->message one sentence. Out-parameters are written only
 * on PB_OK.
 *
 * A process has one Store, shared by all its parts and used by one thread: two connections to one
 * file in one process lose each other's locks, and with them other programs' work
 * (src/store/hold.c).
 */
#ifndef STORE_STORE_H
#define STORE_STORE_H

#include "core/status.h"

#include <stdint.h>

#define STORE_NAME_BYTES 80 /**< longest name of a person, rubric or house */
#define STORE_TEXT_BYTES 2000
#define STORE_WAIT_MS    5000

typedef struct Store Store;

/**
 * @brief $XDG_DATA_HOME/pullback/pullback.db, else ~/.local/share/pullback/pullback.db.
 * @return PB_OK; PB_ERR_IO when neither is set or the path is too long
 */
PB_NODISCARD PbStatus store_default_path(char *out, size_t size, PbError *err);
/** @brief Another file in the folder of the default path ("reference/plain-2x4.pbrun"); errors as
 * there. Nothing is made. */
PB_NODISCARD PbStatus store_default_file(const char *name, char *out, size_t size, PbError *err);

/**
 * @brief Open the store; make it, mode 0600, when the file is not there; bring an older one up to
 * date. A file that is not a store is refused and not changed.
 * PB_ERR_STATE while this process has a store open, whatever its path.
 * @param[in]  path  copied; NULL = the default path, whose folder is made (0700) when missing
 * @param[out] store caller closes it
 */
PB_NODISCARD PbStatus store_open(const char *path, Store **store, PbError *err);
/** @brief Close. NULL allowed. */
void store_close(Store *store);
/** @brief Path as opened. Borrowed until store_close. */
const char *store_path(const Store *store);
/** @brief Number of the newest layout this program knows. */
int store_version(void);

/**
 * @brief Gather the changes of many calls into one transaction (an import of hundreds of runs).
 * Ends with store_batch_end; a change that fails inside leaves the earlier ones standing.
 */
PB_NODISCARD PbStatus store_batch_begin(Store *store, PbError *err);
/** @param[in] keep 0 = undo all of the batch */
PB_NODISCARD PbStatus store_batch_end(Store *store, int keep, PbError *err);

/**
 * @brief Read everything: structure, references, and every run file against its checksum.
 * Takes time in proportion to the file. @return PB_ERR_FORMAT with the first fault found.
 */
PB_NODISCARD PbStatus store_check(Store *store, PbError *err);

/** A person who learns. */
typedef struct StoreLearner {
    int64_t id;
    char name[STORE_NAME_BYTES + 1];
    char added[24];
    int run_count;
    char last_run[24];  /**< "" = none */
    char last_work[24]; /**< end of a run or of drills, or begin of a job; "" = none */
} StoreLearner;

/** What goes when a learner is deleted. */
typedef struct StoreContents {
    int runs, grades, marks;
    int64_t file_bytes;
} StoreContents;

/**
 * @brief Add a person.
 * @param[in] name 1 to 80 bytes of UTF-8 without control characters; names differ by more than case
 */
PB_NODISCARD PbStatus store_learner_add(Store *store, const char *name, const char *when,
                                        int64_t *id, PbError *err);
/** @brief All, by name. @param[out] list caller frees with free; NULL when count is 0 */
PB_NODISCARD PbStatus store_learner_list(Store *store, StoreLearner **list, int *count,
                                         PbError *err);
/** @brief By name, case of A to Z aside; PB_ERR_NO_RESULT when there is none. */
PB_NODISCARD PbStatus store_learner_find(Store *store, const char *name, StoreLearner *learner,
                                         PbError *err);
PB_NODISCARD PbStatus store_learner_rename(Store *store, int64_t id, const char *name,
                                           PbError *err);
PB_NODISCARD PbStatus store_learner_contents(Store *store, int64_t id, StoreContents *contents,
                                             PbError *err);
/**
 * @brief Delete the person with runs, files, grades and marks, the reports of those runs
 * (store_report_path), and recordings that a crash left behind, and overwrite the bytes freed.
 * PB_ERR_STATE while a run of this person is being recorded.
 */
PB_NODISCARD PbStatus store_learner_delete(Store *store, int64_t id, PbError *err);
/**
 * @brief Nonzero when bytes of what was deleted are still in the file or its log, because another
 * program reads an older state. An opening after that program has let go overwrites them.
 */
int store_remains(const Store *store);
/** The name that a database has when nobody chose another. */
#define STORE_USUAL_NAME "pullback.db"
/**
 * @brief Path of what lies beside the database: `what` beside pullback.db, and NAME-what beside a
 * database of another name, so that those of one folder have nothing in common.
 * @return PB_OK or PB_ERR_IO: too long
 */
PB_NODISCARD PbStatus store_beside(const Store *store, const char *what, char *out, size_t size,
                                   PbError *err);
/** @brief Where the window writes the report of a run: run-ID.pdf beside the database. */
PB_NODISCARD PbStatus store_report_path(const Store *store, int64_t run_id, char *out, size_t size,
                                        PbError *err);

#endif
