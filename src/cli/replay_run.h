/* A run file read and run again to its end: watched for grading, or for the bay that it left. */
#ifndef CLI_REPLAY_RUN_H
#define CLI_REPLAY_RUN_H

#include "io/run_judge.h"

/* Read the file and stand at tick 0. Says on stderr when a torn end was left away. */
PB_NODISCARD PbStatus cli_replay_open(const char *verb, const char *path, IoPlay *r, PbError *err);
/* The same from bytes in memory; name: shown as the file in complaints. */
PB_NODISCARD PbStatus cli_replay_decode(const char *verb, const char *name,
                                        const unsigned char *bytes, size_t size, IoPlay *r,
                                        PbError *err);
/* Run it to its end and mark it by this rubric, in the climate of its exercise. */
PB_NODISCARD PbStatus cli_replay_mark(IoPlay *r, const PbRubric *rubric, PbError *err);
/* The bay as a recorded run left it, the caller's to destroy, and its exercise (may be NULL).
 * Refuses a run that parts from its recording though the physics is the same. */
PB_NODISCARD PbStatus cli_run_bay(const char *path, PbExercise *exercise, PbBayField *bay,
                                  PbError *err);

#endif
