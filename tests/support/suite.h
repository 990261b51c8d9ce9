/* The closing lines that every Check program has: run the suite, exit 0 when all passed. */
#ifndef SUPPORT_SUITE_H
#define SUPPORT_SUITE_H

#include <check.h>
#include <stdlib.h>

/* Check's own writes a line into a file for each assertion that holds: most of the time of a test
 * that has many. What is lost is the last line that held before a crash. */
#undef ck_assert_msg
#define ck_assert_msg(expr, ...)                                                                   \
    ((expr) ? (void)0                                                                              \
            : _ck_assert_failed(__FILE__, __LINE__, "Assertion '" #expr "' failed", __VA_ARGS__))

/* Of some tests CI runs all and a person's tests/run.sh a sample: those that
 * tests/CMakeLists.txt names NAME_all. */
static inline int all_of_it(void)
{
    return getenv("PB_TEST_ALL") != NULL;
}

/* How many of `all` cases of a loop test. */
static inline int some_of(int sample, int all)
{
    return all_of_it() ? all : sample;
}

static inline int run_suite(Suite *suite)
{
    setenv("LC_ALL", "C.UTF-8", 1); /* a command line that is started has nobody's units */
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}

#endif
