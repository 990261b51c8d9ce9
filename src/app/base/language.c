/* Which language the window speaks. One process has one window, and _() is asked for words in
 * places that know no App: so the number of the language is kept here. Set by the window's own
 * thread. */
#include "base/app.h"

#include <string.h>

static int shown;

const char *app_words(const char *text)
{
    return words_in(shown, text);
}

const char *app_plural(const char *one, const char *many, int n)
{
    return words_plural(shown, one, many, (unsigned long)n);
}

void app_language(App *app, int lang)
{
    const char *asked = app->options.lang; /* "es_AR" names the country of the numbers */
    app->taste.lang = shown = lang;
    app->taste.is_comma =
        strpbrk(asked, "_-") != NULL ? io_taste_comma(lang, asked) : io_taste_here(lang).is_comma;
}

int app_next_language(const App *app)
{
    return (app->taste.lang + 1) % words_language_count;
}

int app_language_names(const char *names[WORDS_MOST])
{
    for (int i = 0; i < words_language_count; i++) {
        names[i] = words_languages[i].name;
    }
    return words_language_count;
}
