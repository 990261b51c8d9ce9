/* Where data files are: --data, then beside the program, then the source tree, then the prefix. */
#include "base/app.h"

#include "io/climate_file.h"
#include "io/places.h"
#include "os/file.h"

#include <stdio.h>

enum { PLACES = 4 };

/* Folders of data, those that there are; `beside` of `size` chars lives as long as they are used.
 */
static int folders_of(const AppOptions *o, char *beside, size_t size, const char *places[PLACES])
{
    char *base = SDL_GetBasePath();
    beside[0] = '\0';
    if (base != NULL) {
        snprintf(beside, size, "%s../share/pullback", base);
        SDL_free(base);
    }
    const char *all[PLACES] = {o->data, beside, PB_SOURCE_ASSETS, PB_INSTALL_ASSETS};
    int count = 0;
    for (int i = 0; i < PLACES; i++) {
        if (all[i][0] != '\0') {
            places[count++] = all[i];
        }
    }
    return count;
}

void app_places(const AppOptions *o)
{
    char beside[600];
    const char *places[PLACES];
    io_places_set(places, folders_of(o, beside, sizeof beside, places));
}

int app_find(const AppOptions *o, const char *name, char *path, size_t size)
{
    char beside[600];
    const char *places[PLACES];
    if (path == NULL || size == 0) {
        return 0;
    }
    int count = folders_of(o, beside, sizeof beside, places);
    for (int i = 0; i < count; i++) {
        if (snprintf(path, size, "%s/%s", places[i], name) < (int)size && os_is_readable(path)) {
            return 1;
        }
    }
    return 0;
}

int app_climate(const AppOptions *o, const char *name, PbClimate *climate)
{
    char file[64], path[700];
    PbError err;
    return snprintf(file, sizeof file, "climates/%s.json", name) < (int)sizeof file &&
           app_find(o, file, path, sizeof path) && io_climate_load(path, climate, &err) == PB_OK;
}

void app_take_climate(App *app)
{
    app->run.watched.has_climate =
        app_climate(&app->options, app->run.config.exercise.climate, &app->run.watched.climate);
}

void app_exercises(App *app)
{
    if (app->exercises.is_short) { /* perhaps they can be read by now */
        exercises_free(&app->exercises);
    }
    if (app->exercises.rows == NULL) {
        char folder[700];
        if (app_find(&app->options, "exercises", folder, sizeof folder)) {
            exercises_load(&app->exercises, folder);
        }
    }
}
