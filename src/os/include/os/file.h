/**
 * @file file.h
 * @brief Files and folders by the system's own calls. Paths are UTF-8. A function that can fail
 * returns nonzero when it is done and 0 with the reason in errno when not, if nothing else is said.
 */
#ifndef OS_FILE_H
#define OS_FILE_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

/** @brief What a name stands for. */
typedef enum OsKind { OS_NOTHING, OS_FILE, OS_FOLDER, OS_OTHER } OsKind;

/** @brief What is known of a file without reading it. */
typedef struct OsLook {
    OsKind kind;            /**< OS_NOTHING: the rest is 0 and errno says why */
    uint64_t bytes;         /**< its length */
    int64_t written_unix_s; /**< when it was written last, seconds since 1970, UTC */
    uint64_t volume, id;    /**< both alike: one file under two names */
} OsLook;

/** @brief Look at a name; links are followed. */
OsLook os_look(const char *path);
/** @brief Look at an open file. */
OsLook os_look_open(int fd);
/** @brief The same of a stream. */
OsLook os_look_stream(FILE *stream);
/** @brief Nonzero when these are one file. */
int os_is_one(const OsLook *a, const OsLook *b);
/** @brief Nonzero when something has this name. */
int os_is_there(const char *path);
/** @brief Nonzero when this person may read it. */
int os_is_readable(const char *path);

/** @brief Nonzero when a path says its place from the root of a disk on, whatever folder one is in.
 */
int os_is_whole_path(const char *path);

/** @brief A path as a library that opens files by itself must be told, so that a long one works
 * too.
 * @return 0 when it does not fit */
int os_path_for_others(const char *path, char *out, size_t size);

/** @brief Who may read a new file, as far as the system can tell people apart. */
typedef enum OsReaders { OS_READ_BY_ALL, OS_READ_BY_OWNER } OsReaders;

/** @brief Make a file that was not there and open it for writing. @return -1 and errno: EEXIST */
int os_open_new(const char *path, OsReaders readers);
/** @brief Open for reading and writing, made for the owner alone when missing. @return -1, errno */
int os_open_or_make(const char *path);
/** @brief Open a file that is there for writing at its end. @return -1 and errno */
int os_open_at_end(const char *path);
/** @brief What a stream is opened for. */
typedef enum OsAim {
    OS_TO_READ,
    OS_TO_WRITE,    /**< emptied, or made */
    OS_TO_WRITE_NEW /**< made; EEXIST when it was there */
} OsAim;

/** @brief A stream of bytes as they are, of a file; programs that are started do not get it.
 * @return NULL and errno */
FILE *os_open_stream(const char *path, OsAim aim);
/** @brief Read the first bytes. @return how many there were, -1 and errno */
int os_read_first(const char *path, void *bytes, size_t most);
/** @brief Read on from where the open file stands. @return as os_read_first */
int os_read(int fd, void *bytes, size_t most);
/** @brief Write all of it, however many calls that takes. */
int os_write_all(int fd, const void *bytes, size_t size);
/** @brief What was written is on the disk. Done also where a file system has no such call. */
int os_sync(int fd);
/** @brief The same of what a stream has handed to the system. */
int os_sync_stream(FILE *stream);
/** @brief The name of a new file is safe only when its folder is on the disk too; does what the
 * file system can. */
void os_sync_folder_of(const char *path);
/** @brief Where the file ends. @return -1 and errno */
int64_t os_end_of(int fd);
/** @brief Cut the file off behind so many bytes. */
int os_cut(int fd, uint64_t bytes);
/** @brief Close. Some systems tell only now that a write failed. */
int os_close(int fd);
/** @brief A stream that writes to the open file and owns it. @return NULL and errno: fd is as it
 * was */
FILE *os_stream(int fd);
/** @brief Let nobody but the owner read what is written to this stream, as far as the system can.
 */
void os_keep_private(FILE *stream);
/** @brief Take the rights of people who are no member of the file's group. */
void os_close_to_others(const char *path);

/** @brief Give the file another name, in the place of whatever had it. */
int os_replace(const char *from, const char *to);
/** @brief Remove a file. One that is not there is removed. */
int os_remove(const char *path);
/** @brief Make a folder for this person alone. One that is there is made. */
int os_make_folder(const char *path);
/** @brief Make a folder with a name of its own.
 * @param path ends in XXXXXX, which is replaced */
int os_make_new_folder(char *path);
/** @brief Remove an empty folder. */
int os_remove_folder(const char *path);

/**
 * @brief The files of a folder whose names end so, in the order of their bytes; hidden ones left
 * out.
 * @param count how many; 0 when none
 * @return names to give back with os_names_free; NULL and errno when the folder cannot be read
 */
char **os_names(const char *folder, const char *ending, int *count);
/** @brief Give names back. NULL is allowed. */
void os_names_free(char **names, int count);

/** @brief The names in a folder, one by one and in no order. */
typedef struct OsFolder OsFolder;

/** @brief Begin. @return NULL and errno; else os_folder_close it */
OsFolder *os_folder_open(const char *path);
/** @brief The next name, "." and ".." left out. @return NULL at the end; held until the next call
 */
const char *os_folder_next(OsFolder *folder);
/** @brief Begin again. */
void os_folder_again(OsFolder *folder);
/** @brief Give it back. NULL is allowed. */
void os_folder_close(OsFolder *folder);

#endif
