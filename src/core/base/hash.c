/* FNV-1a, byte order fixed so that hashes agree between machines. */
#include "core/hash.h"

#include <string.h>

#define FNV_PRIME 1099511628211ULL

uint64_t pb_hash_bytes(uint64_t h, const void *bytes, size_t count)
{
    const unsigned char *p = bytes;
    for (size_t i = 0; i < count; i++) {
        h = (h ^ p[i]) * FNV_PRIME;
    }
    return h;
}

uint64_t pb_hash_u64(uint64_t h, uint64_t value)
{
    for (int i = 0; i < 8; i++) {
        h = (h ^ ((value >> (8 * i)) & 0xFFu)) * FNV_PRIME;
    }
    return h;
}

uint64_t pb_hash_doubles(uint64_t h, const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        uint64_t bits;
        memcpy(&bits, &values[i], sizeof bits);
        h = pb_hash_u64(h, bits);
    }
    return h;
}
