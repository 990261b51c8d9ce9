/* One list of climates: it is what lies in assets/climates, what the commands say and what people
 * read. */
#include "io/climate_words.h"

#include "core/climate.h"
#include "io/climate_file.h"
#include "languages.h"
#include "suite.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>

START_TEST(the_list_is_the_folder)
{
    const char *folder = PB_TEST_SOURCE_DIR "/assets/climates";
    DIR *d = opendir(folder);
    int files = 0;
    ck_assert_ptr_nonnull(d);
    for (struct dirent *e = readdir(d); e != NULL; e = readdir(d)) {
        char name[300];
        size_t n = strlen(e->d_name);
        if (n > 5 && strcmp(e->d_name + n - 5, ".json") == 0) {
            snprintf(name, sizeof name, "%.*s", (int)(n - 5), e->d_name);
            ck_assert_msg(io_climate_row_of(name) >= 0, "%s is not in the list", name);
            files++;
        }
    }
    closedir(d);
    ck_assert_int_eq(files, IO_CLIMATES);
}
END_TEST

START_TEST(every_row_is_a_climate_that_can_be_read)
{
    const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    char names[200] = "";
    int of_years = 0;
    for (int i = 0; i < IO_CLIMATES; i++) {
        PbClimate climate;
        PbError err = {0};
        const char *name = io_climate_row(i)->name;
        ck_assert_msg(io_climate_find(name, folders, 1, &climate, &err) == PB_OK, "%s",
                      err.message);
        ck_assert_str_eq(climate.name, name);
        ck_assert_int_eq(io_climate_row_of(name), i);
        snprintf(names + strlen(names), sizeof names - strlen(names), "%s%s", i > 0 ? ", " : "",
                 name);
        of_years += io_climate_row(i)->is_of_years;
    }
    ck_assert_str_eq(names, IO_CLIMATE_NAMES);
    ck_assert_int_eq(of_years, 4);
}
END_TEST

START_TEST(words_of_climates)
{
    ck_assert_str_eq(io_climate_word("normal", WORDS_ENGLISH), "normal");
    ck_assert_str_eq(io_climate_word("steady-80", WORDS_ENGLISH), "80% all year");
    ck_assert_str_eq(io_climate_word("cold", SPANISH), "inviernos fríos");
    ck_assert_str_eq(io_climate_word("steady-50", SPANISH), "50 % el año entero");
    ck_assert_str_eq(io_climate_word("my-town", SPANISH), "my-town");
    ck_assert_int_lt(io_climate_row_of("my-town"), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("climate_words");
    TCase *all = tcase_create("all");
    tcase_add_test(all, the_list_is_the_folder);
    tcase_add_test(all, every_row_is_a_climate_that_can_be_read);
    tcase_add_test(all, words_of_climates);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
