/**
 * @file exercise_file.h
 * @brief Exercise files: docs/formats/exercise.md.
 */
#ifndef IO_EXERCISE_FILE_H
#define IO_EXERCISE_FILE_H

#include "core/constants.h"
#include "core/exercise.h"
#include "core/format_rows.h"
#include "io/doc.h"

#include <stdint.h>

#define IO_EXERCISE_FORMAT "pullback exercise 1"

/**
 * @brief Read and judge an exercise file; "-" is standard input.
 * @param[out] exercise untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_exercise_load(const char *path, PbExercise *exercise, PbError *err);
/** @brief As io_exercise_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_exercise_parse(const char *name, const char *text, size_t size,
                                        PbExercise *exercise, PbError *err);
/** @brief Read an exercise that stands inside another file. Complains through the reader. */
void io_exercise_read(IoReader *r, IoValue *object, PbExercise *exercise);
/**
 * @brief The constants that a run of the exercise takes: those of the material that it names.
 * @param[out] constants untouched unless PB_OK, and where it names none
 */
PB_NODISCARD PbStatus io_exercise_constants(const PbExercise *exercise, PbConstants *constants,
                                            PbError *err);
/** @brief Is the word a name of our files: lower-case letters, digits, hyphens, no way out of a
 * folder? */
int io_is_name(const char *word);
/** @brief The shipped exercise of a name, from the first folder that has it. @return nonzero when
 * it was read; else `err`, if there is a file and it is refused. */
int io_exercise_find(const char *name, const char *const *folders, int count, PbExercise *exercise,
                     PbError *err);
/** @brief Read the key "bay": the name of a shipped exercise, or an exercise itself. Complains
 * through the reader. */
void io_exercise_named(IoReader *r, IoValue *object, const char *const *folders, int count,
                       PbExercise *exercise);
/** @brief Read the word of a reason to leave a bay under `key`, where it is given. */
void io_leave_reason_read(IoReader *r, IoValue *object, const char *key, PbLeaveReason *reason);
/** @brief Read one obstacle or opening, of a bay or of a whole wall: `rows` has its numbers. */
void io_obstacle_read(IoReader *r, IoValue *v, const PbNumberRow *rows, size_t count,
                      PbObstacle *o);
void io_opening_read(IoReader *r, IoValue *v, const PbNumberRow *rows, size_t count, PbOpening *o);
/**
 * @brief The exercise as it would stand in a file; reading it back gives equal bytes.
 * @return caller gives it back with json_decref; NULL when memory ran out
 */
json_t *io_exercise_to_json(const PbExercise *exercise);
/**
 * @brief What an exercise is, whatever it is called: hash over its id and all that a run or its
 * marks hang on. Its words (title, what it teaches and waits for, cautions) and its place in the
 * course are left out, so that they can be mended without making another exercise of it.
 * @return never 0, but when memory ran out
 */
uint64_t io_exercise_hash(const PbExercise *exercise);

#endif
