/**
 * @file job_heat_words.h
 * @brief Heat of a job's whole wall in words and figures.
 */
#ifndef IO_JOB_HEAT_WORDS_H
#define IO_JOB_HEAT_WORDS_H

#include "core/job_heat.h"
#include "io/taste.h"

/** @brief Name of a case: "Before". Static storage. */
const char *io_job_heat_name(PbJobHeatCase which, int language);
/** @brief A heat flow: "430 Btu/h", "126 W". */
void io_heat_flow_figure(double w, IoReaderTaste taste, char *out, size_t size);
/** @brief A temperature, to so many decimals. */
void io_temperature_figure(double c, int decimals, IoReaderTaste taste, char *out, size_t size);
/** @brief R of the whole wall and heat through it, of all three cases, in two sentences.
 * @param[in] heat array of PB_JOB_HEAT_CASES, at the same temperatures. @param[out] out cut at size
 */
void io_job_heat_sentence(const PbJobHeat *heat, IoReaderTaste taste, char *out, size_t size);

#endif
