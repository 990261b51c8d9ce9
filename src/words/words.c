/* Look up in a catalogue of the form that msgfmt writes ("The Format of GNU MO Files" in the manual
 * of GNU gettext): a head of 32-bit numbers, then two tables of {length, place}, texts sorted by
 * their bytes and translations in the same order, each closed by a zero. Made with
 * --endianness=little, and built in, so it is not doubted here. */
#include "words/words.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { COUNT_AT = 8, TEXTS_AT = 12, TRANSLATIONS_AT = 16, ROW_BYTES = 8 };

static unsigned number(const unsigned char *at)
{
    return at[0] | (unsigned)at[1] << 8 | (unsigned)at[2] << 16 | (unsigned)at[3] << 24;
}

static const char *row(const unsigned char *mo, int table, unsigned n)
{
    return (const char *)mo + number(mo + number(mo + table) + (size_t)ROW_BYTES * n + 4);
}

/* NULL: none. Of a text with two numbers the catalogue's ends with the first, as strcmp sees it. */
static const char *find(const unsigned char *mo, const char *text)
{
    unsigned low = 0, high = number(mo + COUNT_AT);
    while (low < high) {
        unsigned middle = (low + high) / 2;
        int order = strcmp(text, row(mo, TEXTS_AT, middle));
        if (order == 0) {
            return row(mo, TRANSLATIONS_AT, middle);
        }
        low = order > 0 ? middle + 1 : low;
        high = order > 0 ? high : middle;
    }
    return NULL;
}

int words_language_of(const char *name)
{
    for (int i = 0; i < words_language_count; i++) {
        size_t n = strlen(words_languages[i].code);
        if (strncmp(name, words_languages[i].code, n) == 0 && !isalpha((unsigned char)name[n])) {
            return i;
        }
    }
    return -1;
}

const char *words_codes(char *out, size_t size)
{
    size_t used = 0;
    for (int i = 0; i < words_language_count && used < size; i++) {
        used += (size_t)snprintf(out + used, size - used, "%s%s", i > 0 ? " or " : "",
                                 words_languages[i].code);
    }
    return out;
}

const char *words_in(int language, const char *text)
{
    const unsigned char *mo = words_languages[language].catalogue;
    /* the catalogue's head stands under "" */
    const char *found = mo != NULL && text[0] != '\0' ? find(mo, text) : NULL;
    const char *context = strchr(text, '\004');
    return found != NULL ? found : context != NULL ? context + 1 : text;
}

const char *words_plural(int language, const char *one, const char *many, unsigned long n)
{
    const WordsLanguage *l = &words_languages[language];
    const char *found = l->catalogue != NULL ? find(l->catalogue, one) : NULL;
    int form = l->plural != NULL ? l->plural(n) : n != 1;
    if (found == NULL) {
        return n == 1 ? one : many;
    }
    for (; form > 0; form--) {
        found += strlen(found) + 1;
    }
    return found;
}
