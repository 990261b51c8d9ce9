/* Air and moisture: what to look at before this wall is filled, then of each fill at the rail's
 * year what it saves by conduction and by air, what leaks through it, and what the screening says.
 * One list that scrolls. */
#include "side/side.h"

#include "io/air_words.h"
#include "io/moist_words.h"
#include "io/saving_words.h"

#include <math.h>

enum { TEXT = 600 };

/* A list that is being laid out: where the next line goes. */
typedef struct Lines {
    const App *app;
    GfxRect list;
    float y; /* of all that stands so far */
} Lines;

static float top_of(const Lines *l)
{
    return l->list.y + l->y - l->app->side->list_scroll_px;
}

static void heading(Lines *l, const char *words)
{
    Ui *ui = l->app->ui;
    float y = top_of(l), high = ui_px(ui, 44);
    if (y > l->list.y - high && y < l->list.y + l->list.h) {
        ui_label_cut(ui, l->list.x + 6.0f, y + ui_px(ui, 28), l->list.w - 26.0f, 16, UI_BOLD,
                     ui->theme->ink, words);
        ui_rect(ui, l->list.x + 6.0f, y + ui_px(ui, 36), l->list.w - 26.0f, 2.0f, ui->theme->ink);
    }
    l->y += high;
}

static void line(Lines *l, const char *words, GfxColor c)
{
    static const GfxColor none = {0, 0, 0, 0};
    Ui *ui = l->app->ui;
    float x = l->list.x + 6.0f, w = fminf(l->list.w - 26.0f, ui_px(ui, 900)), y = top_of(l);
    if (words[0] == '\0') {
        return;
    }
    float high = ui_paragraph(ui, x, 0.0f, w, 15, UI_REGULAR, none, words) + ui_px(ui, 6);
    if (y + high > l->list.y && y < l->list.y + l->list.h) {
        ui_paragraph(ui, x, y + ui_px(ui, 18), w, 15, UI_REGULAR, c, words);
    }
    l->y += high;
}

static void fill_lines(Lines *l, PbCompareFill fill)
{
    const App *app = l->app;
    const Side *s = app->side;
    IoReaderTaste taste = app_reader(app);
    GfxColor ink = app->ui->theme->ink;
    char text[TEXT];
    heading(l, side_name(app, fill));
    if (side_is_stale(s, fill)) {
        line(l, _("figuring"), app->ui->theme->ink2);
        return;
    }
    io_saving_sentence(fill, &s->saving[fill], &s->shown_house, taste, text, sizeof text);
    line(l, text, ink);
    io_air_sentence(fill, &s->air[fill], taste, text, sizeof text);
    line(l, text, ink);
    io_moist_sentence(fill, &s->moist[fill], taste, text, sizeof text);
    line(l, text, s->moist[fill].verdict >= PB_MOIST_MAY_STAY ? app->ui->theme->danger : ink);
}

void side_air_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    Lines l = {app, r, 0.0f};
    int language = app_reader(app).language, has_focus = ui_focusable(ui, ID_SIDE_LIST);
    ui_layer(ui, &r);
    heading(&l, _("Before this wall is filled"));
    int warned = 0;
    for (int w = 0; w < PB_WARNINGS; w++) {
        if (s->warns[w]) {
            warned++;
            line(&l, io_damp_warning((PbDampWarning)w, language),
                 w <= PB_WARN_LAST_NO_FILL ? t->danger : t->ink);
        }
    }
    if (warned == 0) {
        line(&l, _("Nothing that was answered rules out a fill. Look at the wall all the same."),
             t->ink);
    }
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        fill_lines(&l, (PbCompareFill)f);
    }
    heading(&l, _("What these figures are"));
    line(&l, io_air_note(language), t->ink2);
    line(&l, io_moist_note(language), t->ink2);
    l.y += ui_px(ui, 16);
    ui_layer(ui, NULL);
    side_list_end(app, r, l.y, has_focus);
    app_mark(app, "air_list", r);
}
