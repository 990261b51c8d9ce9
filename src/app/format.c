/* Figures for people: chosen units, fixed decimals so that nothing jitters, decimal mark of the
 * country. Strings live in a ring of sixteen and are good until fifteen more were made. */
#include "app.h"

#include "io/score_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

IoReaderTaste app_reader(const App *app)
{
    return (IoReaderTaste){(IoLanguage)app->lang, app->is_us, app->is_comma};
}

static char *next(App *app)
{
    char *out = app->words[app->word];
    app->word = (app->word + 1) % 16;
    return out;
}

const char *app_fmt(App *app, int decimals, double value, const char *unit)
{
    char *out = next(app);
    io_figure(value, decimals, unit, app_reader(app), out, sizeof app->words[0]);
    return out;
}

const char *app_fmt_unit(App *app, IoUnit unit, double si)
{
    char *out = next(app);
    io_unit_figure(unit, si, app_reader(app), out, sizeof app->words[0]);
    return out;
}

const char *app_said(const App *app, const char *text)
{
    static char said[4][600];
    static int at;
    at = (at + 1) % 4;
    io_named_figures(text, app_reader(app), said[at], sizeof said[0]);
    return said[at];
}

const char *app_unit(const App *app, IoUnit unit)
{
    return io_unit_name(unit, app_reader(app));
}

const char *app_fmt_length(App *app, double m)
{
    return app_fmt_unit(app, IO_UNIT_LENGTH, m);
}

const char *app_fmt_small(App *app, double m)
{
    return app_fmt_unit(app, IO_UNIT_SMALL, m);
}

const char *app_fmt_pressure(App *app, double pa)
{
    return app_fmt_unit(app, IO_UNIT_PRESSURE, pa);
}

const char *app_fmt_load(App *app, double pa)
{
    return app_fmt_unit(app, IO_UNIT_LOAD, pa);
}

const char *app_fmt_flow(App *app, double m3_s)
{
    return app_fmt_unit(app, IO_UNIT_FLOW, m3_s);
}

const char *app_fmt_density(App *app, double kg_m3, int with_unit)
{
    return with_unit ? app_fmt_unit(app, IO_UNIT_DENSITY, kg_m3)
                     : app_fmt(app, app->is_us ? 1 : 0,
                               io_unit_value(IO_UNIT_DENSITY, kg_m3, app_reader(app)), "");
}

const char *app_fmt_mass(App *app, double kg)
{
    return app_fmt_unit(app, IO_UNIT_MASS, kg);
}

const char *app_fmt_feed(App *app, double kg_s)
{
    return app_fmt_unit(app, IO_UNIT_FEED, kg_s);
}

const char *app_fmt_points(App *app, double points)
{
    return app_fmt(app, fabs(points - floor(points + 0.5)) < 0.05 ? 0 : 1, points, "");
}

const char *app_fmt_mark(App *app, double total)
{
    char *out = next(app);
    snprintf(out, sizeof app->words[0], "%d", io_mark_shown(total));
    return out;
}

const char *app_fmt_clock(App *app, double s)
{
    char *out = next(app);
    int whole = (int)s;
    snprintf(out, sizeof app->words[0], "%d:%02d", whole / 60, whole % 60);
    return out;
}
