/**
 * @file proof_file.h
 * @brief The block "proof" of a house file: what was measured on the day. Keys:
 * docs/formats/house.md.
 */
#ifndef IO_PROOF_FILE_H
#define IO_PROOF_FILE_H

#include "core/proof.h"
#include "io/doc.h"

/** @brief Read the block of an object, if it has one; else the proof is all zero. */
void io_proof_read(IoReader *r, IoValue *object, PbProof *proof);
/** @brief Write it into an object; nothing where nothing was measured. Nonzero: memory ran out, as
 * it did where the object is NULL. */
int io_proof_put(json_t *object, const PbProof *proof);

#endif
