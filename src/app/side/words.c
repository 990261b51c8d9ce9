/* Figures and sentences of Side by side. Words and rounding come from io/compare_words.h, so that
 * the window, the printed page and the command line show the same digits. */
#include "side/side.h"

#include "io/compare_words.h"
#include "io/saving_words.h"

static IoReaderTaste taste(const App *app)
{
    return app_reader(app);
}

const char *side_name(const App *app, PbCompareFill fill)
{
    return io_fill_title(&app->side->shown_house, fill, taste(app).language);
}

static void range(const App *app, const PbCompareFigures *f, IoCompareFigure figure, PbHeatRange v,
                  char *out, size_t size)
{
    io_compare_shown(figure, v, f->draws, app->side->shown_house.currency, taste(app), out, size);
}

static void saving(const App *app, PbCompareFill fill, IoSavingFigure figure, char *out,
                   size_t size)
{
    const Side *s = app->side;
    io_saving_shown(figure, &s->saving[fill], &s->shown_house, taste(app), out, size);
}

void side_figure(const App *app, PbCompareFill fill, SideFigure which, char *out, size_t size)
{
    const PbCompareFigures *f = &app->side->now[fill];
    char words[96];
    switch (which) {
    case SIDE_SAYS_RATIO:
        range(app, f, IO_FIGURE_RATIO, f->heat_ratio, out, size);
        break;
    case SIDE_SAYS_R:
        range(app, f, IO_FIGURE_R, f->r_m2k_w, out, size);
        break;
    case SIDE_SAYS_FUEL:
        saving(app, fill, fill == PB_COMPARE_EMPTY ? IO_SAVING_WALLS : IO_SAVING_FUEL, out, size);
        break;
    case SIDE_SAYS_MONEY:
        saving(app, fill, fill == PB_COMPARE_EMPTY ? IO_SAVING_WALL_SHARE : IO_SAVING_MONEY, out,
               size);
        break;
    default:
        if (fill == PB_COMPARE_EMPTY && app->side->shown_house.cavity.now != PB_CAVITY_LOOSE) {
            SDL_strlcpy(out, f->has_content ? _("Old batt") : _("No fill"), size);
        } else if (fill == PB_COMPARE_FOAM) {
            range(app, f, IO_FIGURE_SHARE, f->shrink_frac, words, sizeof words);
            SDL_snprintf(out, size, _("Shrunk %s"), words);
        } else {
            range(app, f, IO_FIGURE_LENGTH, f->top_gap_m, words, sizeof words);
            SDL_snprintf(out, size, _("Top gap %s"), words);
        }
        break;
    }
}

void side_sentence(const App *app, PbCompareFill fill, char *out, size_t size)
{
    const Side *s = app->side;
    out[0] = '\0';
    if (!side_is_stale(s, fill)) {
        PbCompareSaying says = pb_compare_say_of(fill, &s->now[fill]);
        io_compare_sentence(&says, taste(app), out, size);
        if (!io_saving_is_held(&s->saving[fill])) {
            return;
        }
        if (fill == PB_COMPARE_EMPTY) {
            io_saving_sentence(fill, &s->saving[fill], &s->shown_house, taste(app), out, size);
        } else {
            SDL_strlcat(out, " ", size);
            SDL_strlcat(out, _("Savings are held back: the empty bay says why."), size);
        }
    }
}
