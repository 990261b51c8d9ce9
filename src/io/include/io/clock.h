/**
 * @file clock.h
 * @brief The one place that asks what time it is. The core never does; a time comes into it as a
 * number.
 */
#ifndef IO_CLOCK_H
#define IO_CLOCK_H

#include <stdint.h>
#include <time.h>

enum { IO_UTC_SIZE = 24 }; /**< room of a time in words, "2026-03-04T09:30:00Z" */

/** @brief Seconds of a clock that never goes back, from a beginning of its own. */
double io_clock_s(void);
/** @brief So many seconds, from 0, from now on, for pthread_cond_timedwait: by the same clock where
 * threads can wait by it. */
struct timespec io_clock_after(double wait_s);
/** @brief Seconds since 1970-01-01, UTC. */
int64_t io_now(void);
/** @brief Now, in UTC and in the words that files and the store use: "2026-03-04T09:30:00Z". */
void io_now_utc(char out[IO_UTC_SIZE]);
/** @brief Any time in these words. @return 0 and "" when it has none */
int io_utc(int64_t unix_s, char out[IO_UTC_SIZE]);

#endif
