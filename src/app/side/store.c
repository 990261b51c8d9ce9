/* Houses as they are kept: the file that was named, the demo house, and the store's shelf by the
 * customer's name. The house used last opens with the room. */
#include "side/form.h"

#include "io/clock.h"
#include "io/house_file.h"
#include "store/shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char last_key[] = "house", company_key[] = "company";
static const char *const firm_keys[SIDE_FIRM] = {"company_license", "company_notice",
                                                 "company_savings"};

/* The folder that a file of ours was found in, for the climates and bays that a house names. */
static int folders(const App *app, char *out, size_t size)
{
    char *slash;
    if (!app_find(&app->options, "climates", out, size)) {
        return 0;
    }
    slash = strrchr(out, '/');
    *slash = '\0';
    return 1;
}

static PbStatus load(App *app, const char *path, PbHouse *house)
{
    char folder[700], line[1024];
    PbError err = {0};
    const char *list[1] = {folder};
    PbStatus status = io_house_load(path, list, folders(app, folder, sizeof folder), house, &err);
    if (status != PB_OK) {
        io_error_line(&err, line, sizeof line);
        fprintf(stderr, "pullback: %s\n", line);
        app_notice(app, _("This file is no house"), line, 0, 20);
    }
    return status;
}

PbStatus side_house_option(App *app)
{
    PbHouse house;
    return app->options.house[0] != '\0' ? load(app, app->options.house, &house) : PB_OK;
}

int side_store_demo(App *app, PbHouse *house)
{
    char path[700];
    return app_find(&app->options, "houses/demo.json", path, sizeof path) &&
           load(app, path, house) == PB_OK;
}

static PbStatus from_store(App *app, const char *name, PbHouse *house, PbError *err)
{
    char folder[700], *text = NULL;
    const char *list[1] = {folder};
    int count = folders(app, folder, sizeof folder);
    PB_TRY(store_item_get(app->records.store, STORE_HOUSES, name, &text, err));
    PbStatus status = io_house_parse(name, text, strlen(text), list, count, house, err);
    free(text);
    return status;
}

static void kept_text(App *app, const char *key, char *out, size_t size)
{
    PbError err = {0};
    if (app->records.store == NULL ||
        store_setting_get(app->records.store, key, out, size, &err) != PB_OK) {
        out[0] = '\0';
    }
}

void side_house_first(App *app, Side *s)
{
    PbError err = {0};
    char name[STORE_NAME_BYTES + 1];
    s->house = pb_house_default();
    kept_text(app, company_key, s->company, sizeof s->company);
    for (int i = 0; i < SIDE_FIRM; i++) {
        kept_text(app, firm_keys[i], s->firm[i], sizeof s->firm[i]);
    }
    if (app->options.house[0] != '\0') {
        PbStatus status = load(app, app->options.house, &s->house); /* judged at the start */
        app->options.house[0] = '\0';                               /* later the one used last */
        if (status == PB_OK) {
            return;
        }
    }
    if (app->records.store != NULL &&
        store_setting_get(app->records.store, last_key, name, sizeof name, &err) == PB_OK &&
        from_store(app, name, &s->house, &err) == PB_OK) {
        return;
    }
    if (!side_store_demo(app, &s->house)) {
        s->house = pb_house_default();
    }
}

void side_store_names(App *app)
{
    Side *s = app->side;
    StoreItem *list = NULL;
    int count = 0;
    PbError err = {0};
    s->name_count = 0;
    s->name_row = SIDE_NAMES;
    if (app->records.store == NULL ||
        store_item_list(app->records.store, STORE_HOUSES, &list, &count, &err) != PB_OK) {
        return;
    }
    for (int i = 0; i < count && i < SIDE_NAMES; i++) {
        SDL_strlcpy(s->names[i], list[i].name, sizeof s->names[0]);
        s->name_count++;
        s->name_row = strcmp(list[i].name, s->house.customer) == 0 ? i : s->name_row;
    }
    free(list);
}

int side_store_keep(App *app, const PbHouse *house)
{
    char folder[700], now[24], says[400];
    const char *list[1] = {folder};
    PbError err = {0};
    if (app->records.store == NULL) {
        return 1; /* the page says that nothing is saved here */
    }
    char *text = io_house_to_text(house, list, folders(app, folder, sizeof folder));
    io_now_utc(now);
    PbStatus status = PB_ERR_MEMORY;
    SDL_strlcpy(err.message, "there is not enough memory", sizeof err.message);
    if (text != NULL) {
        status = store_item_put(app->records.store, STORE_HOUSES, house->customer, text, now, &err);
    }
    free(text);
    if (status == PB_OK) {
        status = store_setting_put(app->records.store, last_key, house->customer, &err);
    }
    if (status != PB_OK) {
        SDL_snprintf(says, sizeof says, _("Compared, but not saved: %s"), err.message);
        side_house_say(app->side, says, 1);
        return 0;
    }
    return 1;
}

int side_store_load(App *app, const char *name, PbHouse *house)
{
    PbError err = {0};
    char says[400];
    if (from_store(app, name, house, &err) == PB_OK) {
        return 1;
    }
    SDL_snprintf(says, sizeof says, _("This house cannot be read: %s"), err.message);
    side_house_say(app->side, says, 1);
    return 0;
}

void side_store_delete(App *app, const char *name)
{
    PbError err = {0};
    char says[400], last[STORE_NAME_BYTES + 1];
    PbStatus status = store_item_delete(app->records.store, STORE_HOUSES, name, &err);
    if (status == PB_OK &&
        store_setting_get(app->records.store, last_key, last, sizeof last, &err) == PB_OK &&
        strcmp(last, name) == 0) { /* the customer's name goes with the house */
        status = store_setting_put(app->records.store, last_key, "", &err);
    }
    SDL_snprintf(says, sizeof says, status == PB_OK ? _("Deleted: %s") : _("Not deleted: %s"),
                 status == PB_OK ? name : err.message);
    side_house_say(app->side, says, status != PB_OK);
    side_store_names(app);
}

void side_store_company(App *app)
{
    PbError err = {0};
    const Side *s = app->side;
    if (app->records.store == NULL) {
        return;
    }
    PbStatus status = store_setting_put(app->records.store, company_key, s->company, &err);
    for (int i = 0; i < SIDE_FIRM && status == PB_OK; i++) {
        status = store_setting_put(app->records.store, firm_keys[i], s->firm[i], &err);
    }
    if (status != PB_OK) {
        fprintf(stderr, "pullback: the company's name is not kept: %s\n", err.message);
    }
}
