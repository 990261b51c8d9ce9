/* Outputs appear whole or not at all. */
#include "io/output_file.h"

#include "suite.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define PLACE PB_TEST_BINARY_DIR "/out_test.csv"

static int exists(const char *path)
{
    struct stat st;
    return stat(path, &st) == 0;
}

static void write_text(const char *path, const char *text)
{
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    fputs(text, f);
    fclose(f);
}

static int syncs, sync_errno, was_in_place;

/* The program's own calls come here: a disk that can be asked, that fails, that has no such call.
 */
int fsync(int fd)
{
    struct stat st;
    ck_assert_int_eq(fstat(fd, &st), 0);
    ck_assert_int_eq(st.st_size, 4); /* all of it is there by then */
    syncs++;
    was_in_place = exists(PLACE);
    errno = sync_errno;
    return sync_errno != 0 ? -1 : 0;
}

static void start(void)
{
    unlink(PLACE);
    syncs = sync_errno = 0;
}

/* Before the name points to them; so a power cut leaves the old file or the new one. */
START_TEST(brings_the_bytes_to_the_disk_before_the_name)
{
    static const struct {
        int is_quick, sync_errno, syncs;
        PbStatus status;
    } cases[] = {
        {0, 0, 1, PB_OK}, {0, EINVAL, 1, PB_OK}, {0, EIO, 1, PB_ERR_IO}, {1, EIO, 0, PB_OK}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        IoOutput out;
        PbError err = {0};
        char part[sizeof out.part];
        start();
        sync_errno = cases[i].sync_errno;
        ck_assert_int_eq(io_output_open(PLACE, "a,b", &out, &err), PB_OK);
        snprintf(part, sizeof part, "%s", out.part);
        fputs("a,b\n", out.file);
        ck_assert_int_eq(io_output_flush(&out, &err), PB_OK);
        out.is_quick = cases[i].is_quick;
        ck_assert_int_eq(io_output_commit(&out, &err), cases[i].status);
        ck_assert_int_eq(syncs, cases[i].syncs);
        ck_assert(syncs == 0 || !was_in_place);
        ck_assert_int_eq(exists(PLACE), cases[i].status == PB_OK);
        ck_assert(!exists(part));
    }
}
END_TEST

START_TEST(appears_only_when_committed)
{
    IoOutput out;
    PbError err = {0};
    char part[sizeof out.part], text[8] = "";
    ck_assert_int_eq(io_output_open(PLACE, "a,b", &out, &err), PB_OK);
    snprintf(part, sizeof part, "%s", out.part);
    fputs("a,b\n", out.file);
    ck_assert(!exists(PLACE));
    ck_assert(exists(part));
    ck_assert_int_eq(io_output_commit(&out, &err), PB_OK);
    ck_assert(!exists(part));
    FILE *f = fopen(PLACE, "r");
    ck_assert_ptr_nonnull(f);
    ck_assert_ptr_nonnull(fgets(text, sizeof text, f));
    ck_assert_str_eq(text, "a,b\n");
    fclose(f);
    io_output_abandon(&out);
    ck_assert(exists(PLACE));
}
END_TEST

START_TEST(leaves_the_old_file_when_abandoned)
{
    IoOutput out;
    PbError err = {0};
    char part[sizeof out.part];
    FILE *old = fopen(PLACE, "w");
    ck_assert_ptr_nonnull(old);
    fclose(old);
    ck_assert_int_eq(io_output_open(PLACE, "a,b", &out, &err), PB_OK);
    snprintf(part, sizeof part, "%s", out.part);
    fputs("half a ta", out.file);
    ck_assert_int_eq(io_output_flush(&out, &err), PB_OK);
    io_output_abandon(&out);
    ck_assert(!exists(part));
    struct stat st;
    ck_assert_int_eq(stat(PLACE, &st), 0);
    ck_assert_int_eq(st.st_size, 0);
}
END_TEST

START_TEST(refuses_a_place_that_is_not_there)
{
    IoOutput out;
    PbError err = {0};
    char path[1100];
    ck_assert_int_eq(io_output_open("/no/such/folder/x.csv", "a,b", &out, &err), PB_ERR_IO);
    ck_assert_str_eq(err.file, "/no/such/folder/x.csv");
    io_output_abandon(&out);
    ck_assert_int_eq(io_output_open(PB_TEST_BINARY_DIR, "a,b", &out, &err), PB_ERR_IO);
    memset(path, 'x', sizeof path);
    path[sizeof path - 1] = '\0';
    ck_assert_int_eq(io_output_open(path, "a,b", &out, &err), PB_ERR_IO);
}
END_TEST

START_TEST(writes_into_a_device_instead_of_replacing_it)
{
    IoOutput out;
    PbError err = {0};
    struct stat st;
    ck_assert_int_eq(io_output_open("/dev/null", "a,b", &out, &err), PB_OK);
    fputs("gone", out.file);
    ck_assert_int_eq(io_output_commit(&out, &err), PB_OK);
    ck_assert_int_eq(stat("/dev/null", &st), 0);
    ck_assert(S_ISCHR(st.st_mode));
}
END_TEST

START_TEST(says_when_the_disk_is_full)
{
    IoOutput out;
    PbError err = {0};
    if (!exists("/dev/full")) {
        return;
    }
    ck_assert_int_eq(io_output_open("/dev/full", "a,b", &out, &err), PB_OK);
    fputs("no room", out.file);
    ck_assert_int_eq(io_output_commit(&out, &err), PB_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot write"));
    ck_assert(exists("/dev/full"));
}
END_TEST

/* A run that was killed leaves its part file: it is written over, and goes. */
START_TEST(writes_over_a_part_file_that_was_left)
{
    IoOutput out;
    PbError err = {0};
    char text[16] = "";
    write_text(PLACE ".pullback-part", "of a longer table that was killed\n");
    ck_assert_int_eq(io_output_open(PLACE, "a,b", &out, &err), PB_OK);
    fputs("a,b\n", out.file);
    ck_assert_int_eq(io_output_commit(&out, &err), PB_OK);
    ck_assert(!exists(PLACE ".pullback-part"));
    FILE *f = fopen(PLACE, "r");
    ck_assert_uint_eq(fread(text, 1, sizeof text, f), 4);
    fclose(f);
    ck_assert_str_eq(text, "a,b\n");
}
END_TEST

/* Neither a link in its place nor what it leads to. */
START_TEST(a_part_file_that_is_a_link_is_left_alone)
{
    IoOutput out;
    PbError err = {0};
    write_text(PB_TEST_BINARY_DIR "/out_diary", "dear diary\n");
    ck_assert_int_eq(symlink(PB_TEST_BINARY_DIR "/out_diary", PLACE ".pullback-part"), 0);
    ck_assert_int_eq(io_output_open(PLACE, "a,b", &out, &err), PB_ERR_IO);
    unlink(PLACE ".pullback-part");
    struct stat st;
    ck_assert_int_eq(stat(PB_TEST_BINARY_DIR "/out_diary", &st), 0);
    ck_assert_int_eq(st.st_size, 11);
    unlink(PB_TEST_BINARY_DIR "/out_diary");
}
END_TEST

START_TEST(replaces_its_own_kind_and_an_empty_file_only)
{
    static const struct {
        const char *there, *begins;
        PbStatus status;
    } cases[] = {{"a,b\n1,2\n", "a,b", PB_OK},
                 {"", "a,b", PB_OK},
                 {"", IO_BEGINS_NEW, PB_OK},
                 {"x", IO_BEGINS_ANY, PB_OK},
                 {"a,c\n", "a,b", PB_ERR_RANGE},
                 {"a", "a,b", PB_ERR_RANGE},
                 {"a,b\n", IO_BEGINS_NEW, PB_ERR_RANGE}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        IoOutput out;
        PbError err = {0};
        write_text(PLACE, cases[i].there);
        ck_assert_int_eq(io_output_open(PLACE, cases[i].begins, &out, &err), cases[i].status);
        io_output_abandon(&out);
    }
}
END_TEST

/* Closing a file takes the locks of this process on it away, a database's among them. */
START_TEST(does_not_open_what_is_protected)
{
    PbError err = {0};
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    write_text(PLACE, "SQLite format 3");
    int fd = open(PLACE, O_RDWR);
    ck_assert_int_eq(fcntl(fd, F_SETLK, &whole), 0);
    io_output_protect(PLACE);
    const IoPlace out = {PLACE, "a,b", 0}, log = {PLACE "-wal", "a,b", 0};
    ck_assert_int_eq(io_outputs_check(&out, 1, NULL, 0, &err), PB_ERR_RANGE);
    ck_assert_int_eq(io_outputs_check(&log, 1, NULL, 0, &err), PB_ERR_RANGE);
    pid_t child = fork();
    if (child == 0) {
        struct flock asked = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
        _exit(fcntl(fd, F_GETLK, &asked) == 0 && asked.l_type == F_WRLCK ? 0 : 1);
    }
    int status = -1;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert_int_eq(status, 0);
    close(fd);
}
END_TEST

/* Two outputs at one place at one time. */
START_TEST(names_the_part_file_that_is_in_the_way)
{
    IoOutput one, two;
    PbError err = {0};
    ck_assert_int_eq(io_output_open(PLACE, "a,b", &one, &err), PB_OK);
    ck_assert_int_eq(io_output_open(PLACE, "a,b", &two, &err), PB_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, one.part));
    ck_assert(exists(one.part));
    io_output_abandon(&two);
    io_output_abandon(&one);
}
END_TEST

START_TEST(makes_the_folders_above_a_file)
{
    PbError err = {0};
    ck_assert_int_eq(io_make_folders("", &err), PB_OK);
    ck_assert_int_eq(io_make_folders("/", &err), PB_OK);
    ck_assert_int_eq(io_make_folders(PB_TEST_BINARY_DIR "/out_a/out_b/c.csv", &err), PB_OK);
    ck_assert(exists(PB_TEST_BINARY_DIR "/out_a/out_b"));
    ck_assert(!exists(PB_TEST_BINARY_DIR "/out_a/out_b/c.csv"));
    ck_assert_int_eq(rmdir(PB_TEST_BINARY_DIR "/out_a/out_b"), 0);
    ck_assert_int_eq(rmdir(PB_TEST_BINARY_DIR "/out_a"), 0);
    ck_assert_int_eq(io_make_folders("/dev/null/x/y", &err), PB_ERR_IO);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("output_file");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, start, start);
    tcase_add_test(tc, appears_only_when_committed);
    tcase_add_test(tc, brings_the_bytes_to_the_disk_before_the_name);
    tcase_add_test(tc, leaves_the_old_file_when_abandoned);
    tcase_add_test(tc, refuses_a_place_that_is_not_there);
    tcase_add_test(tc, writes_into_a_device_instead_of_replacing_it);
    tcase_add_test(tc, says_when_the_disk_is_full);
    tcase_add_test(tc, writes_over_a_part_file_that_was_left);
    tcase_add_test(tc, a_part_file_that_is_a_link_is_left_alone);
    tcase_add_test(tc, replaces_its_own_kind_and_an_empty_file_only);
    tcase_add_test(tc, does_not_open_what_is_protected);
    tcase_add_test(tc, names_the_part_file_that_is_in_the_way);
    tcase_add_test(tc, makes_the_folders_above_a_file);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
