/* Preloaded into a program to make the machine fail under it:
 *   FAULT_CLOCK_S=N   the time of day jumps by N seconds forward and back again, every 50th look
 *   FAULT_ALLOC=N     the N-th allocation of main's life fails; FAULT_ALLOC=-N: and all after it
 *   FAULT_TOLD=FILE   1 or 0, whether an allocation failed, is written there at the end
 * Counting begins when this library is set up, after the C library and before main. */
#include "fail_alloc.h"

#include <dlfcn.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

static long jump_s;
static atomic_long looks;

__attribute__((constructor)) static void set_up(void)
{
    const char *clock = getenv("FAULT_CLOCK_S"), *alloc = getenv("FAULT_ALLOC");
    jump_s = clock != NULL ? atol(clock) : 0;
    long n = alloc != NULL ? atol(alloc) : 0;
    if (n != 0) {
        fail_alloc_start(n < 0 ? -n : n, n < 0);
    }
}

__attribute__((destructor)) static void tell(void)
{
    const char *path = getenv("FAULT_TOLD");
    long n = fail_alloc_stop();
    int fd = path != NULL ? open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600) : -1;
    if (fd >= 0) {
        char digit = n > 0 ? '1' : '0';
        (void)!write(fd, &digit, 1);
        close(fd);
    }
}

static time_t off(void)
{
    return jump_s != 0 && atomic_fetch_add(&looks, 1) / 50 % 2 == 1 ? (time_t)jump_s : 0;
}

int clock_gettime(clockid_t id, struct timespec *t)
{
    static int (*real)(clockid_t, struct timespec *);
    if (real == NULL) {
        *(void **)&real = dlsym(RTLD_NEXT, "clock_gettime");
    }
    int code = real(id, t);
    if (code == 0 && id == CLOCK_REALTIME) {
        t->tv_sec += off();
    }
    return code;
}

time_t time(time_t *out)
{
    struct timespec t;
    clock_gettime(CLOCK_REALTIME, &t);
    if (out != NULL) {
        *out = t.tv_sec;
    }
    return t.tv_sec;
}

int gettimeofday(struct timeval *restrict tv, void *restrict zone)
{
    struct timespec t;
    (void)zone;
    clock_gettime(CLOCK_REALTIME, &t);
    tv->tv_sec = t.tv_sec;
    tv->tv_usec = t.tv_nsec / 1000;
    return 0;
}
