/* The catalogue: each entry of a .po is found in the program, what is missing shows the source's
 * own words, and the rows of languages are whole. */
#include "words/words.h"

#include "languages.h"
#include "suite.h"

#include <pthread.h>
#include <stdio.h>
#include <string.h>

/* The text in quotes of a line of a .po, its escapes undone. */
static void unquoted(const char *line, char *out)
{
    const char *from = strchr(line, '"') + 1, *to = strrchr(line, '"');
    while (from < to) {
        from += *from == '\\';
        *out++ = *from++;
    }
    *out = '\0';
}

/* Every entry of a language's .po; how many. */
static int entries_found(int language)
{
    static char path[400], line[4000], context[100], text[2000], said[2000];
    char key[2200];
    int count = 0;
    snprintf(path, sizeof path, PB_TEST_SOURCE_DIR "/assets/locale/%s.po",
             words_languages[language].code);
    FILE *f = fopen(path, "r");
    ck_assert_ptr_nonnull(f);
    while (fgets(line, sizeof line, f) != NULL) {
        if (line[0] == '\n') {
            context[0] = text[0] = '\0';
        } else if (strncmp(line, "msgctxt ", 8) == 0) {
            unquoted(line, context);
            strcat(context, "\004");
        } else if (strncmp(line, "msgid ", 6) == 0) {
            unquoted(line, text);
        } else if (strncmp(line, "msgstr", 6) == 0 && text[0] != '\0') {
            unquoted(line, said);
            snprintf(key, sizeof key, "%s%s", context, text);
            if (strncmp(line, "msgstr[1]", 9) == 0) {
                ck_assert_str_eq(words_plural(language, key, "", 7), said);
            } else {
                ck_assert_str_eq(words_in(language, key), said);
            }
            count++;
        }
    }
    fclose(f);
    return count;
}

START_TEST(each_entry_of_each_language_is_found)
{
    for (int i = 1; i < words_language_count; i++) {
        ck_assert_int_gt(entries_found(i), 500);
    }
}
END_TEST

START_TEST(what_is_missing_shows_the_words_of_the_source)
{
    ck_assert_str_eq(words_in(SPANISH, "no such sentence"), "no such sentence");
    ck_assert_str_eq(words_in(SPANISH, NC_("nowhere", "Back")), "Back");
    ck_assert_str_eq(words_in(SPANISH, ""), ""); /* not the head of the catalogue */
    ck_assert_str_eq(words_in(WORDS_ENGLISH, "Back"), "Back");
    ck_assert_str_eq(words_in(WORDS_ENGLISH, NC_("unit", "ft")), "ft");
    ck_assert_str_eq(words_in(SPANISH, "Back"), "Volver");
    ck_assert_str_eq(words_plural(SPANISH, "%d thing", "%d things", 1), "%d thing");
    ck_assert_str_eq(words_plural(SPANISH, "%d thing", "%d things", 0), "%d things");
}
END_TEST

START_TEST(one_and_many_have_their_form)
{
    static const char *const said[2][2] = {{"%d year", "%d years"}, {"%d año", "%d años"}};
    for (int language = 0; language < 2; language++) {
        for (unsigned long n = 0; n < 3; n++) {
            ck_assert_str_eq(words_plural(language, "%d year", "%d years", n),
                             said[language][n != 1]);
        }
    }
}
END_TEST

START_TEST(a_language_is_named_by_its_code_alone)
{
    static const struct {
        const char *name;
        int language;
    } rows[] = {{"en", 0},        {"es", 1}, {"es_MX.UTF-8", 1}, {"es:en", 1}, {"en_US", 0},
                {"estonian", -1}, {"e", -1}, {"", -1},           {"C", -1}};
    char codes[40], few[6];
    ck_assert_str_eq(words_languages[WORDS_ENGLISH].code, "en");
    ck_assert_str_eq(words_languages[SPANISH].code, "es");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        ck_assert_int_eq(words_language_of(rows[i].name), rows[i].language);
    }
    ck_assert_str_eq(words_codes(codes, sizeof codes), "en or es");
    ck_assert_str_eq(words_codes(few, sizeof few), "en or");
}
END_TEST

/* The rule of a row is the one that its .po names for those who translate. */
START_TEST(the_plural_of_a_row_is_that_of_its_catalogue)
{
    static char path[400], line[4000];
    for (int i = 1; i < words_language_count; i++) {
        int found = 0;
        snprintf(path, sizeof path, PB_TEST_SOURCE_DIR "/assets/locale/%s.po",
                 words_languages[i].code);
        FILE *f = fopen(path, "r");
        ck_assert_ptr_nonnull(f);
        while (fgets(line, sizeof line, f) != NULL) {
            found |= strstr(line, "plural=(n != 1);") != NULL;
        }
        fclose(f);
        ck_assert_int_eq(found, words_languages[i].plural == NULL);
    }
}
END_TEST

static void *speak(void *language)
{
    static const char *const said[2] = {"Back", "Volver"};
    int which = *(const int *)language;
    for (int i = 0; i < 20000; i++) {
        if (strcmp(words_in(which, "Back"), said[which]) != 0) {
            return language;
        }
    }
    return NULL;
}

START_TEST(two_threads_speak_two_languages)
{
    int languages[2] = {0, 1};
    pthread_t thread[2];
    void *wrong;
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(pthread_create(&thread[i], NULL, speak, &languages[i]), 0);
    }
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(pthread_join(thread[i], &wrong), 0);
        ck_assert_ptr_null(wrong);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("words");
    TCase *all = tcase_create("all");
    tcase_add_test(all, each_entry_of_each_language_is_found);
    tcase_add_test(all, what_is_missing_shows_the_words_of_the_source);
    tcase_add_test(all, one_and_many_have_their_form);
    tcase_add_test(all, a_language_is_named_by_its_code_alone);
    tcase_add_test(all, the_plural_of_a_row_is_that_of_its_catalogue);
    tcase_add_test(all, two_threads_speak_two_languages);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
