/* The closing lines that every Check program has: run the suite, exit 0 when all passed. */
#ifndef SUPPORT_SUITE_H
#define SUPPORT_SUITE_H

#include <check.h>
#include <stdlib.h>

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
