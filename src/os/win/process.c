/* What os/process.h promises. */
#include "os/process.h"

#include "wide.h"

#include <psapi.h>

#include <errno.h>
#include <fcntl.h>
#include <io.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

long os_process(void)
{
    return (long)GetCurrentProcessId();
}

int os_is_alive(long process)
{
    HANDLE h = OpenProcess(SYNCHRONIZE, FALSE, (DWORD)process);
    if (h == NULL) {
        return GetLastError() != ERROR_INVALID_PARAMETER; /* else it is another person's */
    }
    int is_alive = WaitForSingleObject(h, 0) == WAIT_TIMEOUT;
    CloseHandle(h);
    return is_alive;
}

int os_program_folder(char *out, size_t size)
{
    enum { MOST = 32768 }; /* letters of any path of Windows */
    wchar_t *path = malloc(MOST * sizeof *path);
    DWORD n = path != NULL ? GetModuleFileNameW(NULL, path, MOST) : 0;
    int fits = n > 0 && n < MOST && win_utf8(path, 1, out, size);
    char *slash = fits ? strrchr(out, '/') : NULL;
    free(path);
    if (slash != NULL) {
        *slash = '\0';
    }
    return slash != NULL;
}

int os_cores(void)
{
    DWORD cores = GetActiveProcessorCount(ALL_PROCESSOR_GROUPS);
    return cores > 0 && cores < 4096 ? (int)cores : 1;
}

double os_memory_kib(void)
{
    PROCESS_MEMORY_COUNTERS is = {.cb = sizeof is};
    return K32GetProcessMemoryInfo(GetCurrentProcess(), &is, sizeof is)
               ? (double)is.WorkingSetSize / 1024.0
               : 0.0;
}

static double tenths_of_us(FILETIME t)
{
    return (double)((uint64_t)t.dwHighDateTime << 32 | t.dwLowDateTime);
}

double os_since_start_ms(void)
{
    FILETIME began, ended, kernel, user, now;
    if (!GetProcessTimes(GetCurrentProcess(), &began, &ended, &kernel, &user)) {
        return -1.0;
    }
    GetSystemTimeAsFileTime(&now);
    return (tenths_of_us(now) - tenths_of_us(began)) * 1e-4;
}

void os_sleep(double wait_s)
{
    Sleep(wait_s < 4e6 ? (DWORD)(wait_s * 1e3 + 0.5) : INFINITE - 1u);
}

/* Always one, be it of nobody's. */
int os_has_display(void)
{
    return 1;
}

int os_errors_are_seen(void)
{
    return _isatty(_fileno(stderr));
}

static UINT console_had;

static void give_console_back(void)
{
    SetConsoleOutputCP(console_had);
}

/* A program with windows has no streams of its own. Started from a console it talks there; else
 * what it says goes nowhere, and its first files must not get the numbers of streams. */
static void open_streams(void)
{
    int is_there = AttachConsole(ATTACH_PARENT_PROCESS) != 0;
    FILE *streams[] = {stdin, stdout, stderr};
    static const DWORD numbers[] = {STD_INPUT_HANDLE, STD_OUTPUT_HANDLE, STD_ERROR_HANDLE};
    for (int i = 0; i < 3; i++) {
        HANDLE h = GetStdHandle(numbers[i]);
        const char *place = !is_there ? "NUL" : i == 0 ? "CONIN$" : "CONOUT$";
        int is_open = _fileno(streams[i]) >= 0 && h != NULL && h != INVALID_HANDLE_VALUE;
        // cppcheck-suppress leakReturnValNotUsed ; the stream stays the same
        if (!is_open && freopen(place, i == 0 ? "rb" : "wb", streams[i]) == NULL) {
            break; /* without that device there is nothing to talk to */
        }
    }
    setvbuf(stderr, NULL, _IONBF, 0);
}

void os_hold_streams(void)
{
    open_streams();
    for (int i = 0; i < 3; i++) {
        (void)_setmode(i, _O_BINARY); /* no byte is put in or taken away */
    }
    console_had = GetConsoleOutputCP();
    if (console_had != 0 && console_had != CP_UTF8 && SetConsoleOutputCP(CP_UTF8)) {
        (void)atexit(give_console_back);
    }
}

void os_words_begin(int count, char **words)
{
    for (int i = 1; i < count; i++) {
        char *last = strrchr(words[i], '\\');
        if (last == NULL) {
            continue;
        }
        char end = *last;
        *last = '\0'; /* it is a path when it is there, or the folder that it would be in */
        DWORD is = INVALID_FILE_ATTRIBUTES;
        wchar_t *wide = win_path(words[i]);
        if (wide != NULL) {
            is = GetFileAttributesW(wide);
        }
        free(wide);
        *last = end;
        for (char *at = words[i]; is != INVALID_FILE_ATTRIBUTES && *at != '\0'; at++) {
            *at = *at == '\\' ? '/' : *at;
        }
    }
}

void os_show(const char *title, const char *text)
{
    wchar_t head[100], body[1200];
    DWORD ignored;
    if (GetConsoleMode(GetStdHandle(STD_ERROR_HANDLE), &ignored) ||
        GetFileType(GetStdHandle(STD_ERROR_HANDLE)) != FILE_TYPE_CHAR) {
        return; /* somebody sees or keeps what is said there */
    }
    if (MultiByteToWideChar(CP_UTF8, 0, title, -1, head, 100) > 0 &&
        MultiByteToWideChar(CP_UTF8, 0, text, -1, body, 1200) > 0) {
        MessageBoxW(NULL, body, head, MB_OK | MB_ICONERROR);
    }
}
