/* Words of shipped files in the reader's language: titles and cautions of exercises, from the same
 * catalogue that the window uses. */
#ifndef CLI_WORDS_H
#define CLI_WORDS_H

#include "io/score_words.h"

/* Translated, or the text itself where there is no catalogue or no such entry. Borrowed. */
const char *cli_word_in(IoLanguage language, const char *text);

#endif
