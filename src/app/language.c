/* Which language the words are in. gettext follows LANGUAGE only when the process has a locale
 * other than "C", and a bare machine has few: so the first one that exists of a short list is taken
 * for the words alone; numbers stay in the C locale and get their decimal mark in format.c. */
#include "app.h"

#include <ctype.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* glibc counts catalogue changes here, so that cached translations are dropped. */
extern int _nl_msg_cat_cntr;

/* "es", "es_MX.UTF-8", "es:en"; not "estonian". */
static int is_of(const char *name, const char *code)
{
    return strncmp(name, code, 2) == 0 && !isalpha((unsigned char)name[2]);
}

int app_language_from(const char *name)
{
    return name == NULL || is_of(name, "en") ? 0 : is_of(name, "es") ? 1 : -1;
}

static void pick_locale(int lang)
{
    static const char *const names[2][6] = {
        {"C.UTF-8", "en_US.UTF-8", "en_GB.UTF-8", "C", NULL, NULL},
        {"es_ES.UTF-8", "es_MX.UTF-8", "es_US.UTF-8", "en_US.UTF-8", "C.UTF-8", NULL}};
    for (int i = 0; names[lang][i] != NULL; i++) {
        if (setlocale(LC_CTYPE, names[lang][i]) && setlocale(LC_MESSAGES, names[lang][i])) {
            return;
        }
    }
}

static const char *catalogue_dir(void)
{
    static char beside[600];
    char probe[700];
    char *base = SDL_GetBasePath();
    if (base != NULL) {
        snprintf(beside, sizeof beside, "%s../share/locale", base);
        SDL_free(base);
        snprintf(probe, sizeof probe, "%s/es/LC_MESSAGES/pullback.mo", beside);
        if (access(probe, R_OK) == 0) {
            return beside;
        }
    }
    return access(PB_BUILD_LOCALE "/es/LC_MESSAGES/pullback.mo", R_OK) == 0 ? PB_BUILD_LOCALE
                                                                            : PB_INSTALL_LOCALE;
}

void app_language(App *app, int lang)
{
    app->lang = lang;
    pick_locale(lang);
    setenv("LANGUAGE", lang == 1 ? "es" : "en", 1);
    bindtextdomain("pullback", catalogue_dir());
    bind_textdomain_codeset("pullback", "UTF-8");
    textdomain("pullback");
    _nl_msg_cat_cntr++;
    if (lang == 1 && strcmp(_("Hands"), "Hands") == 0) {
        fprintf(stderr, "pullback: Spanish words are not available here (no catalogue, or no UTF-8 "
                        "locale on this system); showing English\n");
        app->lang = 0;
    }
}
