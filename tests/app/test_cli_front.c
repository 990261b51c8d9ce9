/* The front door of pullback-cli and pullback-lab: help, version, exit codes, one line for each
 * complaint. */
#include "suite.h"

#include <jansson.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

/* Runs a program through the shell; both streams, cut at the buffer, go to `text`. */
static int run_of(const char *program, const char *args, char *text, size_t size)
{
    char command[1024];
    snprintf(command, sizeof command, "'%s' %s", program, args);
    FILE *pipe = popen(command, "r");
    ck_assert_ptr_nonnull(pipe);
    size_t used = fread(text, 1, size - 1, pipe);
    text[used] = '\0';
    char rest[4096];
    while (fread(rest, 1, sizeof rest, pipe) > 0) {
    }
    int status = pclose(pipe);
    ck_assert_msg(WIFEXITED(status), "%s did not end by itself", args);
    return WEXITSTATUS(status);
}

static int run(const char *args, char *text, size_t size)
{
    return run_of(PB_TEST_CLI, args, text, size);
}

static int lab(const char *args, char *text, size_t size)
{
    return run_of(PB_TEST_LAB, args, text, size);
}

static int count_lines(const char *text)
{
    int lines = 0;
    for (; *text != '\0'; text++) {
        lines += *text == '\n';
    }
    return lines;
}

START_TEST(help_and_version_go_to_standard_output)
{
    char text[4096];
    ck_assert_int_eq(run("--help 2>/dev/null", text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "compare"));
    ck_assert_ptr_null(strstr(text, "verify")); /* the laboratory's */
    ck_assert_ptr_nonnull(strstr(text, "local codes"));
    ck_assert_int_eq(lab("--help 2>/dev/null", text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "usage: pullback-lab VERB"));
    ck_assert_ptr_nonnull(strstr(text, "verify"));
    ck_assert_ptr_nonnull(strstr(text, "constants"));
    ck_assert_int_eq(run("--version 2>/dev/null", text, sizeof text), 0);
    ck_assert_int_eq(strncmp(text, "pullback-cli ", 13), 0);
}
END_TEST

static const struct {
    const char *program, *args;
} off[] = {
    {PB_TEST_CLI, "no-such-verb"},
    {PB_TEST_CLI, "verify"},
    {PB_TEST_LAB, "run"},
    {PB_TEST_LAB, "verify --nonsense"},
    {PB_TEST_LAB, "verify --only"},
    {PB_TEST_LAB, "constants --yaml"},
    {PB_TEST_LAB, "constants --json x"},
    {PB_TEST_LAB, "bench --fast"},
    {PB_TEST_LAB, "bench nothing"},
};

START_TEST(a_wrong_command_line_is_one_line_and_exit_2)
{
    char args[128], text[4096];
    const char *program = off[_i].program, *name = strrchr(program, '/') + 1;
    snprintf(args, sizeof args, "%s 2>&1", off[_i].args);
    ck_assert_msg(run_of(program, args, text, sizeof text) == 2, "%s: %s", off[_i].args, text);
    ck_assert_msg(count_lines(text) == 1, "%s: %s", off[_i].args, text);
    ck_assert_msg(strncmp(text, name, strlen(name)) == 0, "%s: %s", name, text);
    snprintf(args, sizeof args, "%s 2>/dev/null", off[_i].args);
    ck_assert_int_eq(run_of(program, args, text, sizeof text), 2);
    ck_assert_msg(text[0] == '\0', "on standard output: %s", text);
}
END_TEST

START_TEST(no_arguments_show_the_help_and_exit_2)
{
    char text[4096];
    ck_assert_int_eq(run("2>&1", text, sizeof text), 2);
    ck_assert_ptr_nonnull(strstr(text, "usage:"));
}
END_TEST

START_TEST(a_full_disk_is_exit_4)
{
    char text[4096];
    ck_assert_int_eq(lab("constants 2>&1 >/dev/full", text, sizeof text), 4);
    ck_assert_ptr_nonnull(strstr(text, "cannot write"));
    ck_assert_int_eq(run("--help 2>&1 >/dev/full", text, sizeof text), 4);
}
END_TEST

START_TEST(a_verb_that_is_none_is_told_without_a_verb_in_front)
{
    char text[4096];
    ck_assert_int_eq(run("sing 2>&1", text, sizeof text), 2);
    ck_assert_int_eq(strncmp(text, "pullback-cli: there is no verb \"sing\"", 37), 0);
}
END_TEST

START_TEST(no_row_to_check_is_not_all_passed)
{
    char text[4096];
    ck_assert_int_eq(lab("verify --only no-such-row 2>&1", text, sizeof text), 2);
    ck_assert_ptr_nonnull(strstr(text, "--only \"no-such-row\": no row begins so"));
    static const char *const some[] = {"foam.F0", "fo"}; /* in a family; a family cut short */
    for (size_t i = 0; i < sizeof some / sizeof some[0]; i++) {
        char args[64];
        snprintf(args, sizeof args, "verify --only %s", some[i]);
        ck_assert_int_eq(lab(args, text, sizeof text), 0);
        ck_assert_ptr_nonnull(strstr(text, "foam.F01"));
    }
}
END_TEST

/* A row says what its reference is and what agreement is worth; the end counts by that. */
START_TEST(verify_says_what_a_row_is_worth)
{
    char text[8192];
    ck_assert_int_eq(lab("verify --only foam. 2>&1", text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "ok      foam.F01                           held out        "
                                       "      reference up to 4 "));
    ck_assert_ptr_nonnull(strstr(text, "ok      foam.F05                           calibrated      "
                                       "      reference 1 .. 3 "));
    ck_assert_ptr_nonnull(strstr(text, "against foam.F10  "));
    ck_assert_ptr_nonnull(
        strstr(text, "held out                 6 rows: 5 agree, 1 known not to, 0 failed\n"));
    ck_assert_ptr_nonnull(strstr(text, "\n10 rows, 0 failed\n"));
}
END_TEST

START_TEST(a_closed_output_is_exit_4)
{
    char text[4096];
    ck_assert_int_eq(lab("constants 2>&1 >&-", text, sizeof text), 4);
    ck_assert_ptr_nonnull(strstr(text, "cannot write to standard output"));
}
END_TEST

/* One line a case is what a job runner needs: docs/formats/many-cases.md. A failed grade and a
 * coach that finds nothing better are answers too. */
static const struct {
    const char *args, *names;
} json[] = {
    {"run @/assets/exercises/plain-2x4.json --hands @/assets/hands/no-tube.json --json", "run"},
    {"age --density 45 --years 1 --json --set settle_damp=0.6", "set_settle_damp"},
    {"age --foam typical --years 1 --spread 2 --json", "climate"},
    {"compare @/tests/app/data/low-house.json --draws 0 --years 1 --json -", "house"},
    {"coach @/tests/app/data/low-bay.json --runs 2 --json", "seed"},
    {"heat @/assets/heat/iso10211_case1.json --json", "file"},
    {"heat --bay @/assets/heat/bay_full_60.json --json", "file"},
    {"grade @/tests/app/recorded.pbrun --json", "run"},
};

START_TEST(json_is_one_line_that_names_its_case)
{
    static char text[1 << 20];
    char args[1024];
    size_t n = 0;
    for (const char *at = json[_i].args; *at != '\0'; at++) {
        n += (size_t)snprintf(args + n, sizeof args - n, *at == '@' ? "'%s'" : "%.1s",
                              *at == '@' ? PB_TEST_SOURCE_DIR : at);
    }
    snprintf(args + n, sizeof args - n, " 2>/dev/null");
    ck_assert_int_le(run(args, text, sizeof text), 1);
    ck_assert_msg(count_lines(text) == 1, "%s: %d lines", args, count_lines(text));
    json_t *root = json_loads(text, 0, NULL);
    ck_assert_msg(json_object_get(root, json[_i].names) != NULL, "%s: %.200s", args, text);
    json_decref(root);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("cli_front");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, help_and_version_go_to_standard_output);
    tcase_add_test(tc, no_arguments_show_the_help_and_exit_2);
    suite_add_tcase(s, tc);
    tc = tcase_create("json");
    tcase_set_timeout(tc, 120);
    tcase_add_loop_test(tc, json_is_one_line_that_names_its_case, 0,
                        (int)(sizeof json / sizeof json[0]));
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_loop_test(tc, a_wrong_command_line_is_one_line_and_exit_2, 0,
                        (int)(sizeof off / sizeof off[0]));
    tcase_add_test(tc, a_full_disk_is_exit_4);
    tcase_add_test(tc, a_closed_output_is_exit_4);
    tcase_add_test(tc, a_verb_that_is_none_is_told_without_a_verb_in_front);
    suite_add_tcase(s, tc);
    tc = tcase_create("verify");
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, no_row_to_check_is_not_all_passed);
    tcase_add_test(tc, verify_says_what_a_row_is_worth);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
