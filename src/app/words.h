/* Private to app: the words of the chosen language. */
#ifndef APP_WORDS_H
#define APP_WORDS_H

#include <libintl.h>

/* gettext answers "" with the head of its catalogue; a title that a file leaves empty stays empty.
 */
static inline __attribute__((format_arg(1))) const char *app_words(const char *text)
{
    return text[0] != '\0' ? gettext(text) : text;
}

#define _(text)  app_words(text)
#define N_(text) (text) /* translated where it is shown */

#endif
