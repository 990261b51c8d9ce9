/**
 * @file hash.h
 * @brief 64-bit FNV-1a over exact bit patterns, for state hashes (not for security).
 * Source: FNV-1a as in IETF draft-eastlake-fnv, offset basis and prime for 64 bits.
 */
#ifndef CORE_HASH_H
#define CORE_HASH_H

#include <stddef.h>
#include <stdint.h>

#define PB_HASH_START 14695981039346656037ULL

/** @brief Mix bytes. */
uint64_t pb_hash_bytes(uint64_t h, const void *bytes, size_t count);
/** @brief Mix doubles by bit pattern, 8 little-endian bytes each; -0 and +0 differ. */
uint64_t pb_hash_doubles(uint64_t h, const double *values, size_t count);
/** @brief Mix one unsigned number, little-endian. */
uint64_t pb_hash_u64(uint64_t h, uint64_t value);

#endif
