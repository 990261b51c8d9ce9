/**
 * @file utf8.h
 * @brief Which bytes are UTF-8, for every file and table that takes a person's words.
 * Sources: the Unicode standard, Table 3-7, well-formed byte sequences;
 * Default_Ignorable_Code_Point of its character database; Annex 9, bidirectional formatting
 * characters.
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

/**
 * @brief Bytes of the control character at p: U+0000 to U+001F, U+007F, U+0080 to U+009F, of which
 * U+009B is an escape to terminals.
 * @param[in] p valid UTF-8 with a NUL behind
 * @return 1 or 2, or 0 when it is no control character; 1 at the NUL itself
 */
int pb_utf8_control(const unsigned char *p);

/**
 * @brief Bytes of the character at p when nobody sees it, or when it turns the direction of what
 * follows: two names that look alike could differ by it, and one could read backwards. Those of no
 * width, of direction, soft hyphen, fillers, separators of lines, selectors, tags.
 * @param[in] p valid UTF-8 with a NUL behind
 * @return 2 to 4, or 0
 */
int pb_utf8_hidden(const unsigned char *p);

/** @brief Bytes of the space at p, of whatever width, or 0. p as above. */
int pb_utf8_space(const unsigned char *p);

#endif
