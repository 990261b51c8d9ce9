/**
 * @file words.h
 * @brief Everything that people read, in their language: one gettext catalogue for window, reports
 * and command line.
 *
 * The sources are written in English; assets/locale/<code>.po holds each other language and is
 * built in, so that a sentence depends neither on a file beside the program nor on the locales of
 * the machine. Languages are rows of a table, and every call names one: two threads may speak two
 * languages. Nothing here changes, so nothing is locked.
 */
#ifndef WORDS_WORDS_H
#define WORDS_WORDS_H

#include <stddef.h>

/** One language. */
typedef struct WordsLanguage {
    const char *code, *name; /**< "es" (ISO 639-1); "Español", as its readers call it */
    const unsigned char
        *catalogue; /**< its .po as msgfmt writes it; NULL: the sources' own words */
    const char
        *comma; /**< countries (ISO 3166-1) that write a decimal comma: "ES AR"; "" none, "*" all */
    int (*plural)(
        unsigned long n); /**< which form `n` of something take; NULL: 0 for one, else 1 */
} WordsLanguage;

enum { WORDS_ENGLISH = 0 }; /**< the row of the sources' own language */

/** The rows, languages.c; a language is its number here. */
extern const WordsLanguage words_languages[];
extern const int words_language_count;

enum { WORDS_MOST = 8 }; /**< rows that there may be */

/** @brief Row of "es", "es_MX.UTF-8", "es:en"; -1 where no row has it ("estonian"). */
int words_language_of(const char *name);

/** @brief "en or es", for a refusal. @param[out] out cut at size @return out */
const char *words_codes(char *out, size_t size);

/**
 * @brief A text in a language; the text itself where the catalogue has none.
 * @param[in] text of the sources; behind a context of NC_, without it in the answer; "" stays ""
 * @return static storage, or `text`
 */
const char *words_in(int language, const char *text) __attribute__((format_arg(2)));
/** @brief The form of a text that goes with `n` of something. */
const char *words_plural(int language, const char *one, const char *many, unsigned long n)
    __attribute__((format_arg(2), format_arg(3)));

/** Texts of tables, translated where they are shown. NC_: one English text with two meanings. */
#define N_(text)           (text)
#define NC_(context, text) context "\004" text

#endif
