/**
 * @file proof_words.h
 * @brief What was measured on the day in words: what each measurement shows, how surely, and what
 * it cannot show; in English and Spanish, in the reader's units.
 */
#ifndef IO_PROOF_WORDS_H
#define IO_PROOF_WORDS_H

#include "core/proof_reading.h"
#include "io/compare_words.h"

/** In the order in which they are told. */
typedef enum IoProofSentence {
    IO_PROOF_BAGS,
    IO_PROOF_CORES,
    IO_PROOF_TOGETHER, /**< the density, and whether the target is reached */
    IO_PROOF_HIDDEN,   /**< what bags and cores cannot show */
    IO_PROOF_CAMERA,
    IO_PROOF_LEAK,
    IO_PROOF_SENTENCES
} IoProofSentence;

/** @brief One or two plain sentences; where nothing was measured, what is to be measured. 500 bytes
 * hold each. @param[in] house with its proof */
void io_proof_sentence(const PbHouse *house, const PbProofReading *reading, IoProofSentence which,
                       IoReaderTaste taste, char *out, size_t size);
/** @brief "Bags and area", "Cores", "Density", ... Static storage. */
const char *io_proof_name(IoProofSentence which, int language);

/** Rows of what is typed or written on the sheet. */
typedef enum IoProofRow {
    IO_PROOF_AREA,
    IO_PROOF_BAG_COUNT,
    IO_PROOF_BAG_MASS,
    IO_PROOF_CORE_1,
    IO_PROOF_CORE_2,
    IO_PROOF_CORE_3,
    IO_PROOF_STRIPE_BEFORE,
    IO_PROOF_AIR_BEFORE,
    IO_PROOF_STRIPE_AFTER,
    IO_PROOF_AIR_AFTER,
    IO_PROOF_LEAK_BEFORE,
    IO_PROOF_LEAK_AFTER,
    IO_PROOF_ROWS
} IoProofRow;

/** @brief Name of a row, and the unit that the reader measures in. Static storage. */
const char *io_proof_row_name(IoProofRow row, int language);
const char *io_proof_row_unit(IoProofRow row, IoReaderTaste taste);
/** @brief Where a proof keeps the number of a row, and SI = number of the reader times `*factor`.
 * Cores that are none are 0. */
double *io_proof_row_value(PbProof *proof, IoProofRow row, IoReaderTaste taste, double *factor);
/** @brief The number as the reader typed it, "" where there is none. */
void io_proof_row_text(const PbProof *proof, IoProofRow row, IoReaderTaste taste, char *out,
                       size_t size);

/** @brief "as predicted" and "as measured" of R, gap and saving in two short lines each.
 * @param[in] measured 0 or 1 @param[in] t 0 = at the filling, 1 = later */
void io_proof_time_words(const PbProofUpdate *update, const PbHouse *house, int measured, int t,
                         IoReaderTaste taste, char *out, size_t size);

#endif
