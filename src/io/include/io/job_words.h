/**
 * @file job_words.h
 * @brief Marks of a job in words: names, and one sentence for each lost point or shut gate.
 */
#ifndef IO_JOB_WORDS_H
#define IO_JOB_WORDS_H

#include "core/job_marks.h"
#include "io/taste.h"

/** @brief Names; static storage. */
const char *io_job_part_name(PbJobPartKind part, int language);
const char *io_job_gate_name(PbJobGateKind gate, int language);
const char *io_job_bay_name(PbJobBayKind kind, int language);
/**
 * @brief Passed or not, in one line: gates that are shut before any sum, and instead of it.
 * @param[out] out cut at size
 */
void io_job_verdict(const PbJobMarks *marks, int language, char *out, size_t size);
/** @brief Why, where and when. @param[out] out cut at size */
void io_job_loss_sentence(const PbJobLoss *loss, IoReaderTaste taste, char *out, size_t size);
/** @brief What happens after a wire was hit. Static storage. */
const char *io_job_wire_caution(int language);

#endif
