/* Rows of words_languages that tests name; unit.words holds them to their codes. */
#ifndef SUPPORT_LANGUAGES_H
#define SUPPORT_LANGUAGES_H

#include "words/words.h"

enum { SPANISH = 1 };

#endif
