/* The languages: one row and assets/locale/<code>.po each. */
#include "words/words.h"

#include "catalogues.h" /* mo_es ...: made from the .po files */

const WordsLanguage words_languages[] = {
#include "languages.def"
};
const int words_language_count = sizeof words_languages / sizeof words_languages[0];
_Static_assert(sizeof words_languages / sizeof words_languages[0] <= WORDS_MOST, "raise it");
