/* Ids from names: name_id.h. SHA-1 as FIPS 180-4 has it, for the few hundred bytes of a name. */
#include "name_id.h"

#include <assert.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { BLOCK = 64, ROUNDS = 80, NAMESPACE = 16, MOST = 400 };

static uint32_t turned(uint32_t x, int by)
{
    return x << by | x >> (32 - by);
}

/* FIPS 180-4, 4.1.1 and 4.2.1: the function and the constant of a round. */
static uint32_t mixed(int round, uint32_t b, uint32_t c, uint32_t d)
{
    switch (round / 20) {
    case 0:
        return ((b & c) ^ (~b & d)) + 0x5a827999u;
    case 1:
        return (b ^ c ^ d) + 0x6ed9eba1u;
    case 2:
        return ((b & c) ^ (b & d) ^ (c & d)) + 0x8f1bbcdcu;
    default:
        return (b ^ c ^ d) + 0xca62c1d6u;
    }
}

/* 6.1.2: one block into the five words. */
static void take_block(uint32_t h[5], const unsigned char *bytes)
{
    uint32_t w[ROUNDS], v[5];
    for (int i = 0; i < 16; i++) {
        w[i] = (uint32_t)bytes[4 * i] << 24 | (uint32_t)bytes[4 * i + 1] << 16 |
               (uint32_t)bytes[4 * i + 2] << 8 | bytes[4 * i + 3];
    }
    for (int i = 16; i < ROUNDS; i++) {
        w[i] = turned(w[i - 3] ^ w[i - 8] ^ w[i - 14] ^ w[i - 16], 1);
    }
    memcpy(v, h, sizeof v);
    for (int i = 0; i < ROUNDS; i++) {
        uint32_t next = turned(v[0], 5) + mixed(i, v[1], v[2], v[3]) + v[4] + w[i];
        v[4] = v[3];
        v[3] = v[2];
        v[2] = turned(v[1], 30);
        v[1] = v[0];
        v[0] = next;
    }
    for (int i = 0; i < 5; i++) {
        h[i] += v[i];
    }
}

void io_name_id(const char *name, size_t size, char out[IO_NAME_ID])
{
    /* RFC 9562, 6.6: the namespace of URLs */
    static const unsigned char of_urls[NAMESPACE] = {0x6b, 0xa7, 0xb8, 0x11, 0x9d, 0xad,
                                                     0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0,
                                                     0x4f, 0xd4, 0x30, 0xc8};
    unsigned char text[NAMESPACE + MOST + 2 * BLOCK] = {0}, id[NAMESPACE];
    uint32_t h[5] = {0x67452301u, 0xefcdab89u, 0x98badcfeu, 0x10325476u, 0xc3d2e1f0u};
    assert(name != NULL && size <= MOST);
    memcpy(text, of_urls, NAMESPACE);
    memcpy(text + NAMESPACE, name, size);
    size_t used = NAMESPACE + size, whole = (used + 9 + BLOCK - 1) / BLOCK * BLOCK;
    text[used] = 0x80; /* 5.1.1: a one, zeros, and the length in bits */
    for (int i = 0; i < 4; i++) {
        text[whole - 1 - (size_t)i] = (unsigned char)((used * 8) >> (8 * i));
    }
    for (size_t at = 0; at < whole; at += BLOCK) {
        take_block(h, text + at);
    }
    for (int i = 0; i < NAMESPACE; i++) {
        id[i] = (unsigned char)(h[i / 4] >> (24 - 8 * (i % 4)));
    }
    id[6] = (unsigned char)((id[6] & 0x0fu) | 0x50u); /* the version */
    id[8] = (unsigned char)((id[8] & 0x3fu) | 0x80u); /* the variant */
    for (int i = 0, at = 0; i < NAMESPACE; i++) {
        at += snprintf(out + at, (size_t)(IO_NAME_ID - at),
                       i == 4 || i == 6 || i == 8 || i == 10 ? "-%02x" : "%02x", id[i]);
    }
}
