/* What os/process.h promises. What stands under /proc is Linux's own way of telling. */
#include "os/process.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

long os_process(void)
{
    return (long)getpid();
}

int os_is_alive(long process)
{
    return kill((pid_t)process, 0) == 0 || errno != ESRCH;
}

int os_program_folder(char *out, size_t size)
{
    ssize_t n = readlink("/proc/self/exe", out, size - 1);
    if (n <= 0) {
        return 0;
    }
    out[n] = '\0';
    char *slash = strrchr(out, '/');
    if (slash == NULL) {
        return 0;
    }
    *slash = '\0';
    return 1;
}

int os_cores(void)
{
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    return cores > 0 && cores < 4096 ? (int)cores : 1;
}

double os_memory_kib(void)
{
    long pages = 0, resident = 0;
    FILE *f = fopen("/proc/self/statm", "r");
    if (f == NULL) {
        return 0.0;
    }
    int n = fscanf(f, "%ld %ld", &pages, &resident);
    fclose(f);
    return n == 2 ? (double)resident * (double)sysconf(_SC_PAGESIZE) / 1024.0 : 0.0;
}

/* To a hundredth of a second, which is all that the system keeps. */
double os_since_start_ms(void)
{
    char line[1024];
    unsigned long long ticks = 0;
    struct timespec now;
    FILE *f = fopen("/proc/self/stat", "r");
    size_t n = f != NULL ? fread(line, 1, sizeof line - 1, f) : 0;
    if (f != NULL) {
        fclose(f);
    }
    line[n] = '\0';
    const char *at = strrchr(line, ')'); /* the second field is a name and may hold anything */
    for (int field = 2; at != NULL && field < 22; field++) {
        at = strchr(at + 1, ' ');
    }
    if (at == NULL || sscanf(at, "%llu", &ticks) != 1) {
        return -1.0;
    }
    clock_gettime(CLOCK_BOOTTIME, &now);
    return 1000.0 * ((double)now.tv_sec + 1e-9 * (double)now.tv_nsec -
                     (double)ticks / (double)sysconf(_SC_CLK_TCK));
}

void os_sleep(double wait_s)
{
    struct timespec t = {(time_t)wait_s, (long)((wait_s - (double)(time_t)wait_s) * 1e9)};
    nanosleep(&t, NULL);
}

/* X11's and Wayland's own names. */
int os_has_display(void)
{
    const char *names[2] = {getenv("DISPLAY"), getenv("WAYLAND_DISPLAY")};
    return (names[0] != NULL && names[0][0] != '\0') || (names[1] != NULL && names[1][0] != '\0');
}

int os_errors_are_seen(void)
{
    return isatty(STDERR_FILENO);
}

/* Who opens a program by its picture finds what it said in the log of the session. */
void os_show(const char *title, const char *text)
{
    (void)title, (void)text;
}

void os_words_begin(int count, char **words)
{
    (void)count, (void)words;
}

void os_hold_streams(void)
{
    static const int refusing[] = {O_WRONLY, O_RDONLY, O_RDONLY};
    for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++) {
        if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", refusing[fd]) != fd) {
            return; /* without that device there is nothing to hold it with */
        }
    }
}
