/* Where data files are: --data, then beside the program, then the source tree, then the prefix. */
#include "base/app.h"

#include "io/climate_file.h"
#include "os/file.h"

#include <stdio.h>

int app_find(const AppOptions *o, const char *name, char *path, size_t size)
{
    char beside[600] = "";
    char *base = SDL_GetBasePath();
    if (path == NULL || size == 0) {
        SDL_free(base);
        return 0;
    }
    if (base != NULL) {
        snprintf(beside, sizeof beside, "%s../share/pullback", base);
        SDL_free(base);
    }
    const char *places[4] = {o->data, beside, PB_SOURCE_ASSETS, PB_INSTALL_ASSETS};
    for (int i = 0; i < 4; i++) {
        if (places[i][0] == '\0') {
            continue;
        }
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
