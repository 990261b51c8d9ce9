/* Figures and sentences of Side by side in the chosen language and units. */
#include "side.h"

#include "core/units.h"

#include <math.h>

static const char *keep(App *app, const char *text)
{
    char *out = app->words[app->word];
    app->word = (app->word + 1) % 16;
    SDL_strlcpy(out, text, sizeof app->words[0]);
    return out;
}

/* "1.5 to 1.9 ×", or the middle alone when there is no range yet or it rounds to nothing. */
static const char *range(App *app, const PbCompareFigures *f, PbHeatRange v, int decimals,
                         const char *unit)
{
    char text[96];
    if (f->draws < SIDE_FIRST_DRAWS) {
        SDL_snprintf(text, sizeof text, "≈ %s", app_fmt(app, decimals, v.mid, unit));
        return keep(app, text);
    }
    char low[32];
    SDL_strlcpy(low, app_fmt(app, decimals, v.low, ""), sizeof low);
    const char *high = app_fmt(app, decimals, v.high, "");
    if (SDL_strcmp(low, high) == 0) {
        return app_fmt(app, decimals, v.high, unit);
    }
    SDL_snprintf(text, sizeof text, _("%s to %s"), low, app_fmt(app, decimals, v.high, unit));
    return keep(app, text);
}

const char *side_fmt_ratio(App *app, const PbCompareFigures *f)
{
    return range(app, f, f->heat_ratio, 1, "×");
}

static PbHeatRange times(PbHeatRange v, double by)
{
    return (PbHeatRange){v.low * by, v.mid * by, v.high * by};
}

const char *side_fmt_r(App *app, const PbCompareFigures *f)
{
    return app->is_us ? range(app, f, times(f->r_m2k_w, 1.0 / PB_M2K_W_PER_R), 1, "")
                      : range(app, f, f->r_m2k_w, 2, "m²K/W");
}

const char *side_fmt_heat(App *app, const PbCompareFigures *f)
{
    return range(app, f, f->heat_kwh, 0, "kWh");
}

const char *side_fmt_cost(App *app, const PbCompareFigures *f)
{
    return range(app, f, f->cost, 0, app->side->shown_house.currency);
}

const char *side_fmt_fact(App *app, PbCompareFill fill, const PbCompareFigures *f)
{
    char text[96];
    if (fill == PB_COMPARE_EMPTY) {
        return _("No fill");
    }
    if (fill == PB_COMPARE_FOAM) {
        SDL_snprintf(text, sizeof text, "%s %s", _("Shrunk"),
                     range(app, f, times(f->shrink_frac, 100.0), 1, "%"));
        return keep(app, text);
    }
    double unit = app->is_us ? 1.0 / PB_M_PER_IN : 100.0;
    SDL_snprintf(
        text, sizeof text, "%s %s", _("Top gap"),
        range(app, f, times(f->top_gap_m, unit), app->is_us ? 1 : 0, app->is_us ? "in" : "cm"));
    return keep(app, text);
}

const char *side_sentence(App *app, PbCompareFill fill, int is_short)
{
    static const char *const t[4] = {
        "Nothing in the wall. Air turns over inside it all winter.",
        "Blown in without packing. It sinks and leaves a gap at the top.",
        "Wet foam dries and shrinks from the studs. Some walls shrink little.",
        "Packed tight, step by step. Done well, it stays where it was put."};
    (void)app;
    (void)is_short;
    return t[fill];
}

const char *side_beside(App *app, PbCompareFill fill)
{
    (void)app;
    return fill == 3 ? "About the same as good foam; the ranges overlap." : "";
}
