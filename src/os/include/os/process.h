/**
 * @file process.h
 * @brief This program among others, and the machine under it.
 */
#ifndef OS_PROCESS_H
#define OS_PROCESS_H

#include <stddef.h>

/** @brief The number of this process. */
long os_process(void);
/** @brief Nonzero when a process of that number lives, or may live. */
int os_is_alive(long process);
/** @brief The folder of this program's own file, without a slash at its end. @return 0 when the
 * system does not tell */
int os_program_folder(char *out, size_t size);
/** @brief Cores that take work now, at least 1. */
int os_cores(void);
/** @brief Memory of this process that is in use, KiB; 0 when the system does not tell. */
double os_memory_kib(void);
/** @brief Milliseconds since the system started this process; negative when it does not tell. */
double os_since_start_ms(void);
/** @brief Wait. @param wait_s seconds, 0 or more */
void os_sleep(double wait_s);
/** @brief Nonzero when this session may have a screen to open windows on. */
int os_has_display(void);
/** @brief Nonzero when the error stream is read by a person at a terminal. */
int os_errors_are_seen(void);
/** @brief Say it in a box of the system's own when what is written to the error stream is seen by
 * nobody, as of a program that was started by its picture. Waits until it is read. */
void os_show(const char *title, const char *text);
/** @brief The words of the command line, from the second on: in those that are paths folders stand
 * between slashes, as everywhere in the program. */
void os_words_begin(int count, char **words);
/**
 * @brief Take the numbers of standard streams that came closed, so that they do not become those of
 * the first files that are opened: what is said would go into them. What holds them refuses reading
 * and writing, so that the loss is told. Bytes go through as they are, to a terminal as UTF-8.
 */
void os_hold_streams(void);

#endif
