/**
 * @file trouble_words.h
 * @brief What the store says of itself, in the language of the person. The store speaks English and
 * knows no other (it knows the core alone); its sentences are found again here by their form.
 */
#ifndef IO_TROUBLE_WORDS_H
#define IO_TROUBLE_WORDS_H

#include <stddef.h>

/**
 * @brief A sentence of the store (err->message) in this language, with what was put into it: a
 * sentence or a word inside it is translated as well, a name or a number stays.
 * @param[out] out the message as it is where no form fits; cut at size; not `message`
 */
void io_trouble_words(const char *message, int language, char *out, size_t size);
/** @brief The forms, for tests. @return NULL from the last on */
const char *io_trouble_form(int i);

#endif
