/* What is assumed: every input that the figures hang on, with its range and where it comes from, as
 * the comparison itself tells them. One list that scrolls. */
#include "side/side.h"

#include "io/compare_words.h"

#include <math.h>

enum { TEXT = 400 };

static const char *heading(PbAssumedFrom from)
{
    return from == PB_ASSUMED_HOUSE     ? _("This house")
           : from == PB_ASSUMED_CLIMATE ? _("Climate of the wall")
           : from == PB_ASSUMED_CASE    ? _("How the bays were filled")
                                        : _("Material and physics");
}

/* One row: name, value with range, source, as three columns or one under the other. */
static float row(const App *app, GfxRect r, const PbAssumed *a, int is_wide, int is_ghost)
{
    static const GfxColor none = {0, 0, 0, 0};
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const IoAssumedReader reader = {app_reader(app), app->side->shown_house.currency,
                                    &app->side->shown_house};
    char words[TEXT], value[TEXT], from[TEXT], source[TEXT + 64];
    float gap = ui_px(ui, 16), base = r.y + ui_px(ui, 16);
    GfxColor ink = is_ghost ? none : t->ink, ink2 = is_ghost ? none : t->ink2;
    io_assumed_words(a, &reader, words, value, from, sizeof words);
    SDL_snprintf(source, sizeof source, "%s%s%s", a->is_drawn ? _("Varied for the ranges") : "",
                 a->is_drawn ? "; " : "", from);
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

/* Where the list of `all_px` is scrolled to by what was done last. */
static float scrolled(Ui *ui, float from_px, float all_px, GfxRect r)
{
    float line = ui_px(ui, 48), px = from_px;
    if (ui_over(ui, r)) {
        px -= ui_wheel(ui) * line;
    }
    if (ui->focus == ID_SIDE_LIST && (ui->in.up || ui->in.down)) {
        px += line * (float)(ui->in.down - ui->in.up);
        ui->in.next = ui->in.previous = 0; /* not on to the next control */
    }
    px += (r.h - line) * (float)(ui->in.page_down - ui->in.page_up);
    px = ui->in.home ? 0.0f : ui->in.end ? all_px : px;
    return fmaxf(fminf(px, all_px - r.h), 0.0f);
}

void side_list_end(const App *app, GfxRect list, float high, int has_focus)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    float px = scrolled(ui, s->list_scroll_px, high, list);
    if (fabsf(px - s->list_scroll_px) > 0.01f) {
        ui_answer(ui, ID_SIDE_LIST, (double)px);
    }
    if (high > list.h) {
        float tall = fmaxf(list.h * list.h / high, 24.0f);
        float at = list.y + (list.h - tall) * s->list_scroll_px / (high - list.h);
        ui_rect(ui, list.x + list.w - 6.0f, list.y, 6.0f, list.h, t->well);
        ui_rect(ui, list.x + list.w - 6.0f, at, 6.0f, tall, t->ink2);
    }
    if (has_focus && ui->is_ring_shown) {
        ui_frame(ui, (GfxRect){list.x - 6, list.y - 3, list.w + 12, list.h + 6}, 3.0f, t->accent);
    }
}

void side_assumed_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    PbAssumed rows[PB_COMPARE_MAX_ROWS];
    int count = pb_compare_assumed(s->shown->compare, rows, PB_COMPARE_MAX_ROWS);
    int is_wide = r.w >= ui_px(ui, 820), has_focus = ui_focusable(ui, ID_SIDE_LIST);
    const char *says = _("Results are what the model gives for these inputs, never a promise. "
                         "Ranges hold 8 of 10 results over what is marked as varied.");
    float used = ui_paragraph(ui, r.x, r.y + ui_px(ui, 14), r.w, 14, UI_REGULAR, t->ink, says);
    GfxRect list = {r.x, r.y + used + ui_px(ui, 6), r.w, r.h - used - ui_px(ui, 6)};
    float step = 0.0f, y = 0.0f;
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
    side_list_end(app, list, y, has_focus);
    app_mark(app, "assumed", list);
}

void side_assumed_answer(App *app, Side *s)
{
    double px;
    if (ui_answered(app->ui, ID_SIDE_LIST, &px)) {
        s->list_scroll_px = (float)px;
    }
}
