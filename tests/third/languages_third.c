/* The shipped rows and one more. Linked before pb_words, it stands for languages.c. */
#include "words/words.h"

#include "catalogues.h"

static int more_than_one(unsigned long n)
{
    return n > 1;
}

const WordsLanguage words_languages[] = {
#include "languages.def"
    {"qaa", "Third", mo_qaa, "*", more_than_one},
};
const int words_language_count = sizeof words_languages / sizeof words_languages[0];
