/* Figures for people: chosen units, fixed decimals so that nothing jitters, decimal mark of the
 * language. Strings live in a ring of sixteen and are good until fifteen more were made. */
#include "app.h"

#include "core/units.h"
#include "io/score_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *app_fmt(App *app, int decimals, double value, const char *unit)
{
    char *out = app->words[app->word];
    app->word = (app->word + 1) % 16;
    io_figure(value, decimals, unit, app->lang == 1 ? IO_SPANISH : IO_ENGLISH, out,
              sizeof app->words[0]);
    return out;
}

const char *app_fmt_length(App *app, double m)
{
    return app->is_us ? app_fmt(app, 1, m / PB_M_PER_FT, "ft") : app_fmt(app, 2, m, "m");
}

const char *app_fmt_small(App *app, double m)
{
    return app->is_us ? app_fmt(app, 2, m / PB_M_PER_IN, "in") : app_fmt(app, 1, m * 1000.0, "mm");
}

const char *app_fmt_pressure(App *app, double pa)
{
    return app->is_us ? app_fmt(app, 0, pa / PB_PA_PER_IN_WC, "in w.c.")
                      : app_fmt(app, 1, pa / 1000.0, "kPa");
}

const char *app_fmt_load(App *app, double pa)
{
    return app->is_us ? app_fmt(app, 0, pa / PB_PA_PER_PSI * 144.0, "lb/ft²")
                      : app_fmt(app, 1, pa / 1000.0, "kPa");
}

const char *app_fmt_flow(App *app, double m3_s)
{
    return app->is_us ? app_fmt(app, 0, m3_s / PB_M3_S_PER_CFM, "cfm")
                      : app_fmt(app, 1, m3_s * 1000.0, "l/s");
}

const char *app_density_unit(const App *app)
{
    return app->is_us ? "lb/ft³" : "kg/m³";
}

const char *app_fmt_density(App *app, double kg_m3, int with_unit)
{
    const char *unit = with_unit ? app_density_unit(app) : "";
    return app->is_us ? app_fmt(app, 1, kg_m3 / PB_KG_M3_PER_LB_FT3, unit)
                      : app_fmt(app, 0, kg_m3, unit);
}

const char *app_fmt_mass(App *app, double kg)
{
    return app->is_us ? app_fmt(app, 2, kg / PB_KG_PER_LB, "lb") : app_fmt(app, 2, kg, "kg");
}

const char *app_fmt_feed(App *app, double kg_s)
{
    return app->is_us ? app_fmt(app, 1, kg_s * 60.0 / PB_KG_PER_LB, "lb/min")
                      : app_fmt(app, 2, kg_s * 60.0, "kg/min");
}

const char *app_fmt_points(App *app, double points)
{
    return app_fmt(app, fabs(points - floor(points + 0.5)) < 0.05 ? 0 : 1, points, "");
}

const char *app_fmt_clock(App *app, double s)
{
    char *out = app->words[app->word];
    app->word = (app->word + 1) % 16;
    int whole = (int)s;
    snprintf(out, sizeof app->words[0], "%d:%02d", whole / 60, whole % 60);
    return out;
}
