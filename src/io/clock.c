/* What io/clock.h promises. */
#include "io/clock.h"

#include <assert.h>
#include <math.h>

double io_clock_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Threads of Windows wait by the clock on the wall alone. */
#ifdef _WIN32
static const clockid_t clock_of_waits = CLOCK_REALTIME;
#else
static const clockid_t clock_of_waits = CLOCK_MONOTONIC;
#endif

struct timespec io_clock_after(double wait_s)
{
    assert(wait_s >= 0.0);
    double whole = floor(wait_s);
    struct timespec t;
    clock_gettime(clock_of_waits, &t);
    t.tv_sec += (time_t)whole;
    t.tv_nsec += (long)((wait_s - whole) * 1e9);
    t.tv_sec += t.tv_nsec / 1000000000L;
    t.tv_nsec %= 1000000000L;
    return t;
}

int64_t io_now(void)
{
    return (int64_t)time(NULL);
}

int io_utc(int64_t unix_s, char out[IO_UTC_SIZE])
{
    assert(out != NULL);
    static const int64_t LAST_UNIX_S =
        253402300799; /* 9999-12-31T23:59:59Z: four digits of a year */
    time_t at = (time_t)unix_s;
    struct tm t;
    out[0] = '\0';
    return unix_s >= 0 && unix_s <= LAST_UNIX_S && gmtime_r(&at, &t) != NULL &&
           strftime(out, IO_UTC_SIZE, "%Y-%m-%dT%H:%M:%SZ", &t) > 0;
}

void io_now_utc(char out[IO_UTC_SIZE])
{
    assert(out != NULL);
    (void)io_utc(io_now(), out);
}
