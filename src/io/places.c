/* Names become files: io/places.h. */
#include "io/places.h"

#include "io/exercise_file.h"
#include "os/file.h"
#include "os/place.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char places[IO_PLACES][700];
static const char *place_list[IO_PLACES];
static int place_count;

static void add(const char *folder)
{
    if (place_count < IO_PLACES && strlen(folder) < sizeof places[0]) {
        memcpy(places[place_count], folder, strlen(folder) + 1);
        place_list[place_count] = places[place_count];
        place_count++;
    }
}

/* Beside the runs. */
static void add_own(void)
{
    char data[sizeof places[0] - sizeof "/pullback"], folder[sizeof places[0]];
    if (os_place(OS_DATA, data, sizeof data)) {
        snprintf(folder, sizeof folder, "%s/pullback", data);
        add(folder);
    }
}

void io_places_set(const char *const *folders, int count)
{
    assert(folders != NULL || count == 0);
    place_count = 0;
    for (int i = 0; i < count; i++) {
        add(folders[i]);
    }
    add_own();
}

/* Length of the folder part of a file's name, its '/' included. */
static int folder_length(const char *file)
{
    const char *slash = strrchr(file, '/');
    return slash != NULL ? (int)(slash - file) + 1 : 0;
}

static int fits(int written, size_t size, const char *path)
{
    return written > 0 && (size_t)written < size && os_is_readable(path);
}

int io_is_path(const char *word)
{
    size_t n = strlen(word);
    return strchr(word, '/') != NULL || (n > 5 && strcmp(word + n - 5, ".json") == 0);
}

int io_place_in(const char *const *folders, int count, const char *kind, const char *name,
                char *path, size_t size)
{
    for (int i = 0; i < count; i++) {
        if (fits(snprintf(path, size, "%s/%s/%s.json", folders[i], kind, name), size, path)) {
            return 1;
        }
    }
    return 0;
}

PbStatus io_place_of(const char *kind, const char *word, const char *beside, char *path,
                     size_t size, PbError *err)
{
    assert(kind != NULL && word != NULL && path != NULL);
    const char *from = beside != NULL ? beside : "";
    if (err != NULL) { /* of a file before it, perhaps */
        err->file[0] = '\0';
        err->line = err->column = 0;
    }
    int lead = folder_length(from);
    if (io_is_path(word)) {
        int written = snprintf(path, size, "%.*s%s", os_is_whole_path(word) ? 0 : lead, from, word);
        return fits(written, size, path)
                   ? PB_OK
                   : pb_fail(err, PB_ERR_RANGE, "the file \"%.200s\" cannot be read", word);
    }
    if (!io_is_name(word)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "\"%.60s\": expected a name of lower-case letters, digits and hyphens, or a "
                       "path",
                       word);
    }
    if (beside != NULL &&
        fits(snprintf(path, size, "%.*s../%s/%s.json", lead, from, kind, word), size, path)) {
        return PB_OK;
    }
    if (io_place_in(place_list, place_count, kind, word, path, size)) {
        return PB_OK;
    }
    return pb_fail(err, PB_ERR_RANGE, "there is no \"%.60s\" in %s/", word, kind);
}
