/* Figures for people: chosen units, fixed decimals so that nothing jitters, decimal mark of the
 * country. Strings live in a ring of sixteen and are good until fifteen more were made. */
#include "base/app.h"

#include "io/score_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

IoReaderTaste app_reader(const App *app)
{
    return (IoReaderTaste){app->taste.lang, app->taste.is_us, app->taste.is_comma};
}

char *app_figure_room(const App *app)
{
    char *out = app->figures->text[app->figures->next];
    app->figures->next = (app->figures->next + 1) % 16;
    return out;
}

const char *app_fmt(const App *app, int decimals, double value, const char *unit)
{
    char *out = app_figure_room(app);
    io_figure(value, decimals, unit, app_reader(app), out, sizeof app->figures->text[0]);
    return out;
}

const char *app_fmt_unit(const App *app, IoUnit unit, double si)
{
    char *out = app_figure_room(app);
    io_unit_figure(unit, si, app_reader(app), out, sizeof app->figures->text[0]);
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

const char *app_fmt_length(const App *app, double m)
{
    return app_fmt_unit(app, IO_UNIT_LENGTH, m);
}

const char *app_fmt_small(const App *app, double m)
{
    return app_fmt_unit(app, IO_UNIT_SMALL, m);
}

const char *app_fmt_pressure(const App *app, double pa)
{
    return app_fmt_unit(app, IO_UNIT_PRESSURE, pa);
}

const char *app_fmt_load(const App *app, double pa)
{
    return app_fmt_unit(app, IO_UNIT_LOAD, pa);
}

const char *app_fmt_flow(const App *app, double m3_s)
{
    return app_fmt_unit(app, IO_UNIT_FLOW, m3_s);
}

const char *app_fmt_density(const App *app, double kg_m3, int with_unit)
{
    return with_unit ? app_fmt_unit(app, IO_UNIT_DENSITY, kg_m3)
                     : app_fmt(app, app->taste.is_us ? 1 : 0,
                               io_unit_value(IO_UNIT_DENSITY, kg_m3, app_reader(app)), "");
}

const char *app_fmt_mass(const App *app, double kg)
{
    return app_fmt_unit(app, IO_UNIT_MASS, kg);
}

const char *app_fmt_feed(const App *app, double kg_s)
{
    return app_fmt_unit(app, IO_UNIT_FEED, kg_s);
}

const char *app_fmt_points(const App *app, double points)
{
    return app_fmt(app, fabs(points - floor(points + 0.5)) < 0.05 ? 0 : 1, points, "");
}

const char *app_fmt_mark(const App *app, double total)
{
    char *out = app_figure_room(app);
    snprintf(out, sizeof app->figures->text[0], "%d", io_mark_shown(total));
    return out;
}

const char *app_fmt_clock(const App *app, double s)
{
    char *out = app_figure_room(app);
    int whole = (int)s;
    snprintf(out, sizeof app->figures->text[0], "%d:%02d", whole / 60, whole % 60);
    return out;
}

const char *result_little_lost(const PbScorePart *p)
{
    static const double nothing = 0.05; /* of a point */
    return p->max - p->points < nothing ? _("nothing lost") : _("less than a point lost");
}
