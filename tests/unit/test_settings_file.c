/* Settings: what is written is read back; what cannot be understood is put aside and nothing is
 * taken from it. */
#include "io/settings_file.h"

#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char folder[256], path[400], bad[420];

static void setup(void)
{
    snprintf(folder, sizeof folder, "%s", PB_TEST_BINARY_DIR "/settings-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/pullback/settings.json", folder);
    snprintf(bad, sizeof bad, "%s.bad", path);
}

static void teardown(void)
{
    char command[600];
    chmod(folder, 0700);
    snprintf(command, sizeof command, "%s/pullback", folder);
    unlink(path);
    unlink(bad);
    rmdir(command);
    rmdir(folder);
}

static void put(const char *text)
{
    char in[400];
    snprintf(in, sizeof in, "%s/pullback", folder);
    mkdir(in, 0700);
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    fputs(text, f);
    fclose(f);
}

static int is_default(const IoSettings *s)
{
    return s->lang == -1 && s->is_us == IO_UNITS_OF_SYSTEM && !s->is_contrast && !s->is_still &&
           s->text_scale == 1.0 && s->learner[0] == '\0' && !s->is_guide_seen && !s->is_muted &&
           !s->is_uncaptioned && s->volume == 0.7 && s->device[0] == '\0';
}

START_TEST(comes_back)
{
    IoSettings in = io_settings_default(), out;
    PbError err = {0};
    struct stat st;
    in.lang = 1;
    in.is_us = in.is_contrast = in.is_still = 1;
    in.text_scale = 1.35;
    snprintf(in.learner, sizeof in.learner, "%s", "Íñigo \"el\" de Mar");
    in.is_guide_seen = in.is_muted = in.is_uncaptioned = 1;
    in.volume = 0.4;
    snprintf(in.device, sizeof in.device, "Built-in \"stereo\" ½");
    ck_assert_int_eq(io_settings_save(path, &in, &err), PB_OK); /* makes its folder */
    ck_assert_int_eq(stat(path, &st), 0);
    ck_assert_int_eq(st.st_mode & 0777, 0600);
    ck_assert_int_eq(io_settings_load(path, &out, &err), PB_OK);
    ck_assert_int_eq(out.lang, 1);
    ck_assert_int_eq(out.is_us + out.is_contrast + out.is_still, 3);
    ck_assert_double_eq_tol(out.text_scale, 1.35, 1e-6); /* written with six digits */
    ck_assert_str_eq(out.learner, in.learner);
    ck_assert_int_eq(out.is_guide_seen + out.is_muted + out.is_uncaptioned, 3);
    ck_assert_double_eq_tol(out.volume, 0.4, 1e-6);
    ck_assert_str_eq(out.device, in.device);
    ck_assert_int_ne(access(bad, F_OK), 0);
}
END_TEST

/* A name that was cut in the middle of a letter: the rest is kept, and can be read again. */
START_TEST(comes_back_without_a_name_that_is_no_text)
{
    static const char *const names[] = {"Geh\xc3", "a\nb", "\xc2\x9b[1m"};
    IoSettings in = io_settings_default(), out;
    PbError err = {0};
    in.is_us = 1;
    snprintf(in.learner, sizeof in.learner, "Learner1");
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        snprintf(in.device, sizeof in.device, "%s", names[i]);
        ck_assert_msg(io_settings_save(path, &in, &err) == PB_OK, "%s", err.message);
        ck_assert_msg(io_settings_load(path, &out, &err) == PB_OK, "%s", err.message);
        ck_assert_int_eq(out.is_us, 1);
        ck_assert_str_eq(out.learner, "Learner1");
        ck_assert_str_eq(out.device, "");
    }
}
END_TEST

START_TEST(not_there_yet)
{
    IoSettings s;
    PbError err = {0};
    memset(&s, 0x55, sizeof s);
    ck_assert_int_eq(io_settings_load(path, &s, &err), PB_ERR_NO_RESULT);
    ck_assert(is_default(&s));
}
END_TEST

/* Each is wrong in one place, and each has something right that must not be taken. */
static const char *const wrong[] = {
    "",
    "{\"format\": \"pullback settings 1\", \"units\": \"us\"",
    "[1, 2]",
    "{\"format\": \"pullback settings 2\", \"units\": \"us\"}",
    "{\"units\": \"us\"}",
    "{\"format\": \"pullback settings 1\", \"units\": \"us\", \"language\": \"xx\"}",
    "{\"format\": \"pullback settings 1\", \"units\": \"us\", \"text_scale\": 7}",
    "{\"format\": \"pullback settings 1\", \"units\": \"us\", \"text_scale\": \"big\"}",
    "{\"format\": \"pullback settings 1\", \"units\": \"us\", \"motion\": 3}",
    "{\"format\": \"pullback settings 1\", \"units\": \"us\", \"learner\": \"a\\u0007b\"}",
};

START_TEST(put_aside)
{
    IoSettings s;
    PbError err = {0};
    char line[200] = "";
    put(wrong[_i]);
    PbStatus status = io_settings_load(path, &s, &err);
    ck_assert(status == PB_ERR_FORMAT || status == PB_ERR_RANGE);
    ck_assert(is_default(&s));
    ck_assert_int_gt((int)strlen(err.message), 0);
    ck_assert_int_ne(access(path, F_OK), 0);
    FILE *f = fopen(bad, "r");
    ck_assert_ptr_nonnull(f);
    size_t n = fread(line, 1, sizeof line - 1, f);
    fclose(f);
    ck_assert_uint_eq(n, strlen(wrong[_i]));
    ck_assert_str_eq(line, wrong[_i]);
    /* and only once: the next time there is simply no file */
    ck_assert_int_eq(io_settings_load(path, &s, &err), PB_ERR_NO_RESULT);
}
END_TEST

START_TEST(of_a_newer_program)
{
    IoSettings s;
    PbError err = {0};
    put("{\"format\": \"pullback settings 1\", \"units\": \"us\", \"smell\": true}");
    ck_assert_int_eq(io_settings_load(path, &s, &err), PB_OK);
    ck_assert_int_eq(s.is_us, 1);
}
END_TEST

START_TEST(nowhere_to_write)
{
    IoSettings s = io_settings_default();
    PbError err = {0};
    ck_assert_int_eq(io_settings_save("/proc/none/settings.json", &s, &err), PB_ERR_IO);
    ck_assert_int_gt((int)strlen(err.message), 0);
}
END_TEST

START_TEST(where_it_is)
{
    char out[300];
    PbError err = {0};
    setenv("HOME", "/home/ana", 1);
    setenv("XDG_CONFIG_HOME", "/srv/c", 1);
    ck_assert_int_eq(io_settings_path(out, sizeof out, &err), PB_OK);
    ck_assert_str_eq(out, "/srv/c/pullback/settings.json");
    setenv("XDG_CONFIG_HOME", "relative", 1); /* to be passed over */
    ck_assert_int_eq(io_settings_path(out, sizeof out, &err), PB_OK);
    ck_assert_str_eq(out, "/home/ana/.config/pullback/settings.json");
    ck_assert_int_eq(io_settings_path(out, 10, &err), PB_ERR_IO);
    unsetenv("XDG_CONFIG_HOME");
    unsetenv("HOME");
    ck_assert_int_eq(io_settings_path(out, sizeof out, &err), PB_ERR_IO);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("settings_file");
    TCase *c = tcase_create("settings");
    tcase_add_checked_fixture(c, setup, teardown);
    tcase_add_test(c, comes_back);
    tcase_add_test(c, comes_back_without_a_name_that_is_no_text);
    tcase_add_test(c, not_there_yet);
    tcase_add_loop_test(c, put_aside, 0, (int)(sizeof wrong / sizeof wrong[0]));
    tcase_add_test(c, of_a_newer_program);
    tcase_add_test(c, nowhere_to_write);
    tcase_add_test(c, where_it_is);
    suite_add_tcase(s, c);
    return run_suite(s);
}
