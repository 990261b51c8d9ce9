/**
 * @file utf8.h
 * @brief Which bytes are UTF-8, for every file and table that takes a person's words.
 * Source: Table 3-7, well-formed byte sequences, of the Unicode standard.
 */
#ifndef CORE_UTF8_H
#define CORE_UTF8_H

#include <stddef.h>

/**
 * @brief Length of the UTF-8 sequence at p. Asks for no memory.
 * @param[in] left bytes that may be read, at least 1
 * @return 1 to 4, or 0 when it is none or does not end within `left`
 */
size_t pb_utf8_length(const unsigned char *p, size_t left);

#endif
