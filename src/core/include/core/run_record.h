/**
 * @file run_record.h
 * @brief One recorded run in memory: what a run file holds (docs/formats/run-file.md).
 *
 * Everything that a session needs to be run again, and what was found when it was recorded. Arrays
 * belong to whoever made the record; readers of files give them back with io_run_free.
 */
#ifndef CORE_RUN_RECORD_H
#define CORE_RUN_RECORD_H

#include "core/session.h"

#include <stdint.h>

/** Parts of a rubric that a grade has room for. */
#define PB_GRADE_MAX_PARTS 16
/** A state hash is kept every so many ticks, 2.4 s. */
#define PB_RECORD_HASH_TICKS 60
/** Longest run that a record may hold, 8000 s: the longest exercise with clearing and bleeding. */
#define PB_RECORD_MAX_TICKS 200000

/** How a run file is written (docs/formats/run-file.md): hashes of a sealed one cover the commands
 * too, and its end says when it was. */
typedef enum PbRecordForm { PB_RECORD_PLAIN = 1, PB_RECORD_SEALED = 2 } PbRecordForm;

/** A command given to the step that starts at `tick`; several of one tick keep their order. */
typedef struct PbTickCommand {
    int tick;
    PbCommand command;
} PbTickCommand;

/** State when the session stood at `tick`: pb_session_hash, sealed as the record's form says. */
typedef struct PbTickHash {
    int tick;
    uint64_t hash;
} PbTickHash;

/** A trainer's mark at a moment of the run. */
typedef struct PbRunMark {
    int tick;
    char text[256]; /**< UTF-8 without control characters */
} PbRunMark;

/** Points as they were given when the run was graded; they stand whatever a replay says. */
typedef struct PbRunGrade {
    int is_given;
    char rubric[64];
    uint64_t rubric_hash;
    double total;
    int is_pass;
    int part_count;
    struct {
        int kind; /**< PbScorePartKind of core/score.h */
        double points, max;
    } parts[PB_GRADE_MAX_PARTS];
} PbRunGrade;

typedef struct PbRunFile {
    PbRecordForm form;
    int physics_version;
    PbExercise exercise;
    PbConstants constants;   /**< as the run had them: shipped values and the file's own */
    uint64_t constants_hash; /**< of all constants when the run was recorded */
    uint64_t seed;
    int cells_across;
    int64_t started_unix_s; /**< wall clock of the recording, 0 = not known */
    char who[96];           /**< name of the hands or of the learner, may be empty */

    PbTickCommand *commands;
    int command_count;
    PbTickHash *hashes;
    int hash_count;
    PbRunMark *marks;
    int mark_count;
    int last_tick; /**< how far the recording goes */

    int is_ended; /**< the run came to its end; else it was cut off at last_tick */
    PbPhase phase;
    uint64_t end_hash;
    int64_t ended_unix_s; /**< wall clock of the end, 0 = not known */
    PbResult result;      /**< meaningful when is_ended */
    PbRunGrade grade;

    size_t cut_bytes; /**< of a torn or damaged tail that was left away on reading */
    char cut_reason[96];
} PbRunFile;

/** @brief Hash over names and values of all constants but those of layers, fuels and the house
 * around the bay, which no run hangs on. */
uint64_t pb_constants_hash(const PbConstants *constants);

/** @brief Hash over all commands so far, one more taken in. Starts as 0. */
uint64_t pb_record_chain(uint64_t chain, int tick, const PbCommand *command);
/** @brief Hash that a sealed record keeps: of the state and of all commands that led to it, so that
 * a mark taken out or put in parts the replay although no state hangs on it. */
uint64_t pb_record_seal(uint64_t chain, uint64_t state_hash);

/**
 * @brief Would this program give the same bits as the one that recorded?
 * @return nonzero when physics version and every constant agree; else a replay is a re-simulation
 */
int pb_record_is_same_physics(const PbRunFile *run);

/** @brief Sight of a recorded run that was graded, as pb_mark_graded_sight; -1 = practice. */
int pb_run_graded_sight(const PbRunFile *run);
/** @brief Did hands of a file work this run? */
int pb_run_is_scripted(const PbRunFile *run);
/** @brief How often it was left and taken up again. */
int pb_run_breaks(const PbRunFile *run);
/** @brief Was anything done in it? Marks alone are no work. */
int pb_run_is_worked(const PbRunFile *run);

#endif
