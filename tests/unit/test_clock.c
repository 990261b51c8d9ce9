/* Times in words, and the clock that never goes back. */
#include "suite.h"

#include "io/clock.h"

#include <string.h>
#include <time.h>

START_TEST(a_time_in_words_is_utc)
{
    char text[IO_UTC_SIZE];
    ck_assert(io_utc(0, text));
    ck_assert_str_eq(text, "1970-01-01T00:00:00Z");
    ck_assert(io_utc(951782400, text)); /* a leap day of a century */
    ck_assert_str_eq(text, "2000-02-29T00:00:00Z");
    ck_assert(io_utc(253402300799, text));
    ck_assert_str_eq(text, "9999-12-31T23:59:59Z");
}
END_TEST

START_TEST(a_time_that_four_digits_cannot_say_has_no_words)
{
    static const int64_t none[] = {-1, 253402300800, INT64_MAX, INT64_MIN};
    char text[IO_UTC_SIZE];
    strcpy(text, "before");
    ck_assert(!io_utc(none[_i], text));
    ck_assert_str_eq(text, "");
}
END_TEST

START_TEST(now_is_now)
{
    char text[IO_UTC_SIZE], early[IO_UTC_SIZE], late[IO_UTC_SIZE];
    int64_t before = (int64_t)time(NULL);
    io_now_utc(text);
    int64_t now = io_now(), after = (int64_t)time(NULL);
    ck_assert(before <= now && now <= after);
    ck_assert(io_utc(before, early) && io_utc(after, late));
    ck_assert(strcmp(early, text) <= 0 && strcmp(text, late) <= 0);
}
END_TEST

START_TEST(a_wait_ends_so_much_later)
{
    for (double wait_s = 0.0; wait_s < 3.0; wait_s += 0.37) {
        double from = io_clock_s();
        struct timespec end = io_clock_after(wait_s);
        double to = io_clock_s(), at = (double)end.tv_sec + 1e-9 * (double)end.tv_nsec;
        ck_assert(end.tv_nsec >= 0 && end.tv_nsec < 1000000000L);
        /* both readings are rounded to a nanosecond, and a double of the clock to some more */
        ck_assert_msg(at >= from + wait_s - 1e-6 && at <= to + wait_s + 1e-6, "%g s: %.9f", wait_s,
                      at - from);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("clock");
    TCase *tc = tcase_create("all");
    tcase_add_test(tc, a_time_in_words_is_utc);
    tcase_add_loop_test(tc, a_time_that_four_digits_cannot_say_has_no_words, 0, 4);
    tcase_add_test(tc, now_is_now);
    tcase_add_test(tc, a_wait_ends_so_much_later);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
