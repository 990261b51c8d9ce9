/* Private to app: the words of the chosen language. */
#ifndef APP_WORDS_H
#define APP_WORDS_H

#include "words/words.h"

const char *app_words(const char *text) __attribute__((format_arg(1)));
const char *app_plural(const char *one, const char *many, int n)
    __attribute__((format_arg(1), format_arg(2)));

#define _(text) app_words(text)

#endif
