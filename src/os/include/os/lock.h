/**
 * @file lock.h
 * @brief Locks that tell programs apart: who is writing a file, and who left one behind.
 */
#ifndef OS_LOCK_H
#define OS_LOCK_H

#include <stdint.h>

/**
 * @brief Open the part file of an output, empty and locked: made anew, or taken over when nobody
 * holds it, which is one that a killed program left.
 *
 * The lock goes with the descriptor. Where a file system knows no locks only a new file will do.
 * @return -1 and errno; EBUSY when somebody else is writing it
 */
int os_open_part(const char *path);

/** @brief Hold an open file for as long as this process has it open, so that os_is_held says so on
 * any machine. Not every file system can. */
void os_hold(int fd);
/** @brief Nonzero when another process holds it. */
int os_is_held(const char *path);

/**
 * @brief A shared lock on a stretch of an open file that belongs to the descriptor, and not to the
 * process: it stays when the process closes another descriptor of that file.
 * @return 0 where the file system or the system knows none
 */
int os_lock_shared(int fd, int64_t from, int64_t bytes);
/** @brief Give it back; a shared lock of the process itself takes its place first, so that there is
 * no moment without either. */
void os_unlock_shared(int fd, int64_t from, int64_t bytes);

#endif
