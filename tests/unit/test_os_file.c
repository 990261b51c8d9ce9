/* Files, folders and locks as the program relies on them: os/file.h, os/lock.h, os/process.h. */
#include "os/file.h"
#include "os/lock.h"
#include "os/place.h"
#include "os/process.h"

#include "suite.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static char folder[] = PB_TEST_BINARY_DIR "/os-XXXXXX", path[300], other[300];

static void open_folder(void)
{
    memcpy(folder + strlen(folder) - 6, "XXXXXX", 6);
    ck_assert(os_make_new_folder(folder));
    snprintf(path, sizeof path, "%s/b.json", folder);
    snprintf(other, sizeof other, "%s/a.json", folder);
}

static void close_folder(void)
{
    ck_assert(os_remove(path));
    ck_assert(os_remove(other));
    ck_assert_msg(os_remove_folder(folder), "%s: %s", folder, strerror(errno));
}

static void make(const char *at, const char *text)
{
    int fd = os_open_new(at, OS_READ_BY_OWNER);
    ck_assert_int_ge(fd, 0);
    ck_assert(os_write_all(fd, text, strlen(text)));
    ck_assert(os_sync(fd));
    ck_assert(os_close(fd));
    os_sync_folder_of(at);
}

START_TEST(a_new_file_replaces_nothing)
{
    make(path, "first");
    errno = 0;
    ck_assert_int_eq(os_open_new(path, OS_READ_BY_ALL), -1);
    ck_assert_int_eq(errno, EEXIST);
    OsLook look = os_look(path);
    ck_assert_int_eq(look.kind, OS_FILE);
    ck_assert_uint_eq(look.bytes, 5);
    ck_assert_int_gt(look.written_unix_s, 1700000000);
}
END_TEST

START_TEST(a_torn_end_is_cut_off_and_written_on)
{
    char text[20] = "";
    make(path, "whole torn");
    int fd = os_open_at_end(path);
    ck_assert_int_eq(os_end_of(fd), 10);
    ck_assert(os_cut(fd, 6));
    ck_assert(os_write_all(fd, "again", 5));
    ck_assert(os_close(fd));
    ck_assert_int_eq(os_read_first(path, text, sizeof text), 11);
    ck_assert_str_eq(text, "whole again");
}
END_TEST

START_TEST(one_file_under_two_names_is_one)
{
    make(path, "x");
    make(other, "x");
    OsLook a = os_look(path), b = os_look(other);
    ck_assert(!os_is_one(&a, &b));
    ck_assert(os_remove(other));
    ck_assert_int_eq(link(path, other), 0);
    b = os_look(other);
    ck_assert(os_is_one(&a, &b));
    ck_assert_int_eq(os_look(folder).kind, OS_FOLDER);
    ck_assert_int_eq(os_look("/dev/null").kind, OS_OTHER);
    ck_assert(os_remove(other));
    errno = 0;
    ck_assert_int_eq(os_look(other).kind, OS_NOTHING);
    ck_assert_int_eq(errno, ENOENT);
    ck_assert(os_remove(other)); /* gone is gone */
}
END_TEST

START_TEST(names_come_in_order_and_of_one_ending)
{
    int count = -1;
    char hidden[300], text[300];
    snprintf(hidden, sizeof hidden, "%s/.c.json", folder);
    snprintf(text, sizeof text, "%s/d.txt", folder);
    make(path, "");
    make(other, "");
    make(hidden, "");
    make(text, "");
    char **names = os_names(folder, ".json", &count);
    ck_assert_int_eq(count, 2);
    ck_assert_str_eq(names[0], "a.json");
    ck_assert_str_eq(names[1], "b.json");
    os_names_free(names, count);
    ck_assert_ptr_null(os_names("/no/such/folder", ".json", &count));
    ck_assert_int_eq(errno, ENOENT);
    ck_assert_int_eq(count, 0);
    ck_assert(os_remove(hidden));
    ck_assert(os_remove(text));
}
END_TEST

/* What another process finds: 1 held, 2 the part file is somebody else's. */
static int seen_by_another(const char *held, const char *part)
{
    pid_t child = fork();
    if (child == 0) {
        errno = 0;
        int is_taken = os_open_part(part) < 0 && errno == EBUSY;
        _exit(os_is_held(held) + 2 * is_taken);
    }
    int status = 0;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    return WEXITSTATUS(status);
}

START_TEST(who_writes_is_seen_and_who_left_is_not)
{
    make(path, "run");
    int run = os_open_at_end(path), part = os_open_part(other);
    ck_assert_int_ge(part, 0);
    ck_assert(os_write_all(part, "half", 4));
    os_hold(run);
    ck_assert_int_eq(seen_by_another(path, other), 3);
    ck_assert(os_close(run));
    ck_assert(os_close(part));
    ck_assert_int_eq(seen_by_another(path, other), 0); /* left behind: taken over, and emptied */
    ck_assert_uint_eq(os_look(other).bytes, 0);
}
END_TEST

START_TEST(this_process_lives_in_its_folder)
{
    char place[600], program[700];
    ck_assert_int_eq(os_process(), (long)getpid());
    ck_assert(os_is_alive(os_process()));
    ck_assert(os_program_folder(place, sizeof place));
    snprintf(program, sizeof program, "%s/test_os_file", place);
    ck_assert(os_is_there(program));
    ck_assert_int_ge(os_cores(), 1);
    ck_assert_double_gt(os_memory_kib(), 500.0);
    ck_assert_double_ge(os_since_start_ms(), 0.0);
}
END_TEST

START_TEST(a_stream_is_of_a_file_alone)
{
    char text[8] = "";
    FILE *f = os_open_stream(path, OS_TO_WRITE_NEW);
    ck_assert_ptr_nonnull(f);
    ck_assert_int_eq(fputs("a\n", f) >= 0, 1);
    ck_assert_int_eq(fclose(f), 0);
    errno = 0;
    ck_assert_ptr_null(os_open_stream(path, OS_TO_WRITE_NEW));
    ck_assert_int_eq(errno, EEXIST);
    f = os_open_stream(path, OS_TO_READ);
    ck_assert_uint_eq(fread(text, 1, sizeof text, f), 2);
    ck_assert_str_eq(text, "a\n");
    ck_assert_int_eq(fclose(f), 0);
    f = os_open_stream(path, OS_TO_WRITE); /* emptied */
    ck_assert_int_eq(fclose(f), 0);
    ck_assert_uint_eq(os_look(path).bytes, 0);
}
END_TEST

START_TEST(a_person_has_places_and_habits)
{
    char place[600];
    setenv("HOME",
           "/home/Ana N\xc3\xba\xc3\xb1"
           "ez",
           1);
    setenv("XDG_DATA_HOME", "beside", 1); /* no whole path: passed over */
    setenv("XDG_CONFIG_HOME", "/c", 1);
    unsetenv("TMPDIR");
    ck_assert(os_place(OS_DATA, place, sizeof place));
    ck_assert_str_eq(place, "/home/Ana N\xc3\xba\xc3\xb1"
                            "ez/.local/share");
    ck_assert(os_place(OS_CONFIG, place, sizeof place));
    ck_assert_str_eq(place, "/c");
    ck_assert(os_place(OS_PASSING, place, sizeof place));
    ck_assert_str_eq(place, "/tmp");
    ck_assert(!os_place(OS_HOME, place, 4));
    unsetenv("HOME");
    ck_assert(!os_place(OS_HOME, place, sizeof place));
    setenv("LC_ALL", "", 1);
    setenv("LC_MEASUREMENT", "es_US", 1);
    setenv("LANG", "de_DE", 1);
    unsetenv("LC_NUMERIC");
    ck_assert_str_eq(os_habit(OS_MEASUREMENT), "es_US");
    ck_assert_str_eq(os_habit(OS_NUMBERS), "de_DE");
    ck_assert(os_is_whole_path("/a"));
    ck_assert(!os_is_whole_path("a/b"));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("os_file");
    TCase *t = tcase_create("os_file");
    tcase_add_checked_fixture(t, open_folder, close_folder);
    tcase_add_test(t, a_new_file_replaces_nothing);
    tcase_add_test(t, a_torn_end_is_cut_off_and_written_on);
    tcase_add_test(t, one_file_under_two_names_is_one);
    tcase_add_test(t, names_come_in_order_and_of_one_ending);
    tcase_add_test(t, who_writes_is_seen_and_who_left_is_not);
    tcase_add_test(t, this_process_lives_in_its_folder);
    tcase_add_test(t, a_stream_is_of_a_file_alone);
    tcase_add_test(t, a_person_has_places_and_habits);
    suite_add_tcase(s, t);
    return run_suite(s);
}
