/* Folders: os/file.h. */
#include "os/file.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int os_make_folder(const char *path)
{
    return mkdir(path, 0700) == 0 || errno == EEXIST;
}

int os_make_new_folder(char *path)
{
    return mkdtemp(path) != NULL;
}

int os_remove_folder(const char *path)
{
    return rmdir(path) == 0;
}

/* The system's own, under our name. */
OsFolder *os_folder_open(const char *path)
{
    return (OsFolder *)opendir(path);
}

const char *os_folder_next(OsFolder *folder)
{
    struct dirent *entry;
    while ((entry = readdir((DIR *)folder)) != NULL) {
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0) {
            return entry->d_name;
        }
    }
    return NULL;
}

void os_folder_again(OsFolder *folder)
{
    rewinddir((DIR *)folder);
}

void os_folder_close(OsFolder *folder)
{
    if (folder != NULL) {
        closedir((DIR *)folder);
    }
}
