/* The files of a folder with one ending, in order: os/file.h. One body for all systems. */
#include "os/file.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

static int by_bytes(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static int ends_so(const char *name, const char *ending)
{
    size_t n = strlen(name), tail = strlen(ending);
    return name[0] != '.' && n > tail && strcmp(name + n - tail, ending) == 0;
}

/* Room for one name more. @return NULL when there is none: what was found is given back */
static char **with_one_more(char **names, int count, const char *name)
{
    char **grown = realloc(names, ((size_t)count + 1) * sizeof *grown);
    if (grown != NULL) {
        grown[count] = strdup(name);
    }
    if (grown == NULL || grown[count] == NULL) {
        os_names_free(grown != NULL ? grown : names, count);
        errno = ENOMEM;
        return NULL;
    }
    return grown;
}

char **os_names(const char *folder, const char *ending, int *count)
{
    const char *name;
    char **names = calloc(1, sizeof *names);
    OsFolder *open_folder = names != NULL ? os_folder_open(folder) : NULL;
    *count = 0;
    if (open_folder == NULL) {
        free(names);
        return NULL;
    }
    while (names != NULL && (name = os_folder_next(open_folder)) != NULL) {
        if (ends_so(name, ending)) {
            names = with_one_more(names, *count, name);
            *count += names != NULL;
        }
    }
    os_folder_close(open_folder);
    if (names == NULL) {
        *count = 0;
        errno = ENOMEM;
        return NULL;
    }
    qsort(names, (size_t)*count, sizeof *names, by_bytes);
    return names;
}

void os_names_free(char **names, int count)
{
    for (int i = 0; names != NULL && i < count; i++) {
        free(names[i]);
    }
    free(names);
}
