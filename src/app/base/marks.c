/* Named places of the screen, for scripts and tests. */
#include "base/app.h"

#include <stdio.h>
#include <string.h>

void app_mark(const App *app, const char *name, GfxRect rect)
{
    if (app->laid->mark_count < APP_MAX_MARKS) {
        AppMark *m = &app->laid->marks[app->laid->mark_count++];
        snprintf(m->name, sizeof m->name, "%s", name);
        m->rect = rect;
    }
}

const AppMark *app_mark_find(const App *app, const char *name)
{
    for (int i = 0; i < app->laid->mark_count; i++) {
        if (strcmp(app->laid->marks[i].name, name) == 0) {
            return &app->laid->marks[i];
        }
    }
    return NULL;
}
