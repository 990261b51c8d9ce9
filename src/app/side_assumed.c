/* What is assumed: every input that the figures hang on, with its range and where it comes from, as
 * the comparison itself tells them. One list that scrolls. */
#include "side_form.h"

#include "core/units.h"

#include <math.h>
#include <string.h>

/* Names of the rows that people have typed or chosen; those of constants are the names of the
 * constants file with blanks. */
static const struct {
    const char *key, *name;
} known[] = {
    {"wall_area_m2", N_("Wall area")},
    {"framing_share", N_("Wood in the wall, share")},
    {"degree_days_k_d", N_("Degree-days of a season")},
    {"fuel", N_("Fuel")},
    {"price_per_kwh", N_("Price of a kWh")},
    {"efficiency", N_("Efficiency of the heating")},
    {"room_c", N_("Room, for pictures and loops")},
    {"outdoor_c", N_("Outdoors, for pictures and loops")},
    {"bay", N_("Bay that stands for the wall")},
    {"bay/width_m", N_("Width of the bay")},
    {"bay/height_m", N_("Height of the bay")},
    {"bay/depth_m", N_("Depth of the bay")},
    {"climate", N_("Climate")},
    {"climate/bay_rh", N_("Humidity in the fill, over the year")},
    {"climate/indoor_c", N_("Indoors, over the year")},
    {"climate/indoor_rh", N_("Humidity indoors, over the year")},
    {"climate/outdoor_c", N_("Outdoors, over the year")},
    {"climate/outdoor_rh", N_("Humidity outdoors, over the year")},
    {"climate/foam_ageing", N_("Ageing of foam against a temperate wall")},
    {"foam", N_("Case of the foam")},
    {"foam/inner", N_("Inner face that the foam dries through")},
    {"foam/outer", N_("Outer face that the foam dries through")},
    {"dense", N_("Case of the dense pack")},
    {"loose", N_("How the loose blow is done")},
    {"seed", N_("Seed of packing, cracks and draws")},
};

static const char *name_of(const PbAssumed *a, char *out, size_t size)
{
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (a->from != PB_ASSUMED_CONSTANT && strcmp(known[i].key, a->key) == 0) {
            return _(known[i].name);
        }
    }
    SDL_strlcpy(out, a->key, size);
    for (char *p = out; *p; p++) {
        *p = *p == '_' || *p == '/' ? ' ' : *p;
    }
    return out;
}

/* To the units shown, where the unit is one that people meet; the rest stays as it is computed. */
static const char *shown_unit(const App *app, const PbAssumed *a, double *factor, double *shift)
{
    static const struct {
        const char *si, *si_shown, *us;
        double factor, shift;
    } units[] = {
        {"m2", "m²", "ft²", 10.763910416709722, 0.0},
        {"K d", "K·d", "°F·d", 1.8, 0.0},
        {"deg C", "°C", "°F", 1.8, 32.0},
        {"m", "m", "in", 1.0 / PB_M_PER_IN, 0.0},
        {"kg/m3", "kg/m³", "lb/ft³", 1.0 / PB_KG_M3_PER_LB_FT3, 0.0},
        {"-", "", "", 1.0, 0.0},
    };
    *factor = 1.0;
    *shift = 0.0;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strcmp(units[i].si, a->unit) == 0) {
            if (app->is_us) {
                *factor = units[i].factor;
                *shift = units[i].shift;
            }
            return app->is_us ? units[i].us : units[i].si_shown;
        }
    }
    return a->unit;
}

/* Four figures that count, without an exponent where that can be read. */
static void figure(const App *app, char *out, size_t size, double value)
{
    SDL_snprintf(out, size, "%.4g", value);
    char *mark = strchr(out, '.');
    if (app->lang == 1 && mark != NULL) {
        *mark = ',';
    }
}

static void value_words(const App *app, const PbAssumed *a, char *out, size_t size)
{
    char low[32], mid[32], high[32];
    double factor, shift;
    const char *unit = shown_unit(app, a, &factor, &shift);
    if (a->text != NULL) {
        SDL_strlcpy(out, a->text[0] ? _(a->text) : "–", size);
        return;
    }
    figure(app, mid, sizeof mid, a->value * factor + shift);
    if (!(a->high > a->low)) {
        SDL_snprintf(out, size, "%s %s", mid, unit);
        return;
    }
    figure(app, low, sizeof low, a->low * factor + shift);
    figure(app, high, sizeof high, a->high * factor + shift);
    SDL_snprintf(out, size, _("%s (%s to %s) %s"), mid, low, high, unit);
}

static const char *heading(PbAssumedFrom from)
{
    return from == PB_ASSUMED_HOUSE     ? _("This house")
           : from == PB_ASSUMED_CLIMATE ? _("Climate of the wall")
           : from == PB_ASSUMED_CASE    ? _("How the bays were filled")
                                        : _("Material and physics");
}

/* One row: name, value with range, source, as three columns or one under the other. */
static float row(App *app, GfxRect r, const PbAssumed *a, int is_wide, int is_ghost)
{
    static const GfxColor none = {0, 0, 0, 0};
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    char name[128], value[200], source[300];
    float gap = ui_px(ui, 16), base = r.y + ui_px(ui, 16);
    GfxColor ink = is_ghost ? none : t->ink, ink2 = is_ghost ? none : t->ink2;
    const char *words = name_of(a, name, sizeof name);
    value_words(app, a, value, sizeof value);
    SDL_snprintf(source, sizeof source, "%s%s%s", a->is_drawn ? _("drawn for the ranges") : "",
                 a->is_drawn ? ". " : "", _(a->source));
    if (is_wide) {
        float w1 = floorf(r.w * 0.27f), w2 = floorf(r.w * 0.25f), w3 = r.w - w1 - w2 - 2.0f * gap;
        float h1 = ui_paragraph(ui, r.x, base, w1, 14, UI_REGULAR, ink, words);
        float h2 = ui_paragraph(ui, r.x + w1 + gap, base, w2, 14, UI_BOLD, ink, value);
        float h3 =
            ui_paragraph(ui, r.x + w1 + w2 + 2.0f * gap, base, w3, 13, UI_REGULAR, ink2, source);
        return fmaxf(h1, fmaxf(h2, h3)) + ui_px(ui, 8);
    }
    float y = base;
    y += ui_paragraph(ui, r.x, y, r.w, 14, UI_REGULAR, ink, words);
    y += ui_paragraph(ui, r.x, y, r.w, 14, UI_BOLD, ink, value);
    y += ui_paragraph(ui, r.x, y, r.w, 13, UI_REGULAR, ink2, source);
    return y - base + ui_px(ui, 12);
}

static void scroll_keys(Ui *ui, Side *s, GfxRect r, int has_focus)
{
    float line = ui_px(ui, 48), by = 0.0f;
    if (ui_over(ui, r)) {
        by -= ui->in.wheel * line;
    }
    if (has_focus && (ui->in.up || ui->in.down)) {
        by += line * (float)(ui->in.down - ui->in.up);
        ui->in.next = ui->in.previous = 0; /* not on to the next control */
    }
    by += (r.h - line) * (float)(ui->in.page_down - ui->in.page_up);
    s->list_scroll_px += by;
    s->list_scroll_px = ui->in.home ? 0.0f : ui->in.end ? s->list_all_px : s->list_scroll_px;
    s->list_scroll_px = fminf(s->list_scroll_px, s->list_all_px - r.h);
    s->list_scroll_px = fmaxf(s->list_scroll_px, 0.0f);
}

void side_assumed_draw(App *app, GfxRect r)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    Side *s = app->side;
    PbAssumed rows[PB_COMPARE_MAX_ROWS];
    int count = pb_compare_assumed(s->shown->compare, rows, PB_COMPARE_MAX_ROWS);
    int is_wide = r.w >= ui_px(ui, 820), has_focus = ui_focusable(ui, ID_SIDE_LIST);
    const char *says = _("Results are what the model gives for these inputs, never a promise. "
                         "Ranges hold 8 in 10 draws of what is marked as drawn.");
    float used = ui_paragraph(ui, r.x, r.y + ui_px(ui, 14), r.w, 14, UI_REGULAR, t->ink, says);
    GfxRect list = {r.x, r.y + used + ui_px(ui, 6), r.w, r.h - used - ui_px(ui, 6)};
    float step = 0.0f, y = 0.0f;
    scroll_keys(ui, s, list, has_focus);
    ui_layer(ui, &list);
    for (int i = 0; i < count; i++) {
        GfxRect at = {list.x + 6.0f, list.y + y - s->list_scroll_px, list.w - 26.0f, 0.0f};
        if (i == 0 || rows[i].from != rows[i - 1].from) {
            if (at.y > list.y - ui_px(ui, 60) && at.y < list.y + list.h) {
                ui_label(ui, at.x, at.y + ui_px(ui, 26), 16, UI_BOLD, t->ink, UI_LEFT,
                         heading(rows[i].from));
                ui_rect(ui, at.x, at.y + ui_px(ui, 34), at.w, 2.0f, t->ink);
            }
            y += ui_px(ui, 42);
            at.y += ui_px(ui, 42);
        }
        step = row(app, at, &rows[i], is_wide, 1);
        if (at.y + step > list.y && at.y < list.y + list.h) {
            row(app, at, &rows[i], is_wide, 0);
            ui_rect(ui, at.x, at.y + step - 2.0f, at.w, 1.0f, t->rule);
        }
        y += step;
    }
    ui_layer(ui, NULL);
    s->list_all_px = y;
    if (y > list.h) {
        float tall = fmaxf(list.h * list.h / y, 24.0f);
        float at = list.y + (list.h - tall) * s->list_scroll_px / (y - list.h);
        ui_rect(ui, list.x + list.w - 6.0f, list.y, 6.0f, list.h, t->well);
        ui_rect(ui, list.x + list.w - 6.0f, at, 6.0f, tall, t->ink2);
    }
    app_mark(app, "assumed", list);
    if (has_focus && ui->is_ring_shown) {
        ui_frame(ui, (GfxRect){list.x - 6, list.y - 3, list.w + 12, list.h + 6}, 3.0f, t->accent);
    }
}

int side_assumed_key(App *app, const SDL_KeyboardEvent *k)
{
    (void)app;
    (void)k;
    return 0; /* the list takes what it needs from the widgets' keys */
}
