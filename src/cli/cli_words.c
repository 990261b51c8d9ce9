/* The catalogue for words that come out of files: cli_words.h. */
#include "cli_words.h"

#include "data_files.h"

#include <libintl.h>
#include <locale.h>
#include <stdlib.h>

/* gettext follows LANGUAGE only when the process has a locale other than "C"; it is taken for the
 * words alone, so that numbers stay as they are. */
static void start(void)
{
    static const char *const names[] = {"C.UTF-8", "es_ES.UTF-8", "en_US.UTF-8"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (setlocale(LC_CTYPE, names[i]) != NULL && setlocale(LC_MESSAGES, names[i]) != NULL) {
            break;
        }
    }
    setenv("LANGUAGE", "es", 1);
    bindtextdomain("pullback", cli_locale_folder());
    bind_textdomain_codeset("pullback", "UTF-8");
}

const char *cli_word_in(IoLanguage language, const char *text)
{
    static int is_started;
    if (language != IO_SPANISH || text[0] == '\0') {
        return text;
    }
    if (!is_started) {
        start();
        is_started = 1;
    }
    return dgettext("pullback", text);
}
