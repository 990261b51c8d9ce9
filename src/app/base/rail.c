/* The rail of years: ticks, thumb, play button, keys. Shared by Years later and Side by side; what
 * the year means is theirs. */
#include "base/rail.h"

#include "base/app.h"

#include <math.h>

static const double play_s = 14.0; /* from 0 to 50 */

double rail_years(double share)
{
    return share * share * 50.0;
}

double rail_share(double years)
{
    return sqrt(years / 50.0);
}

static void set(YearRail *rail, double years)
{
    rail->years = years < 0.0 ? 0.0 : years > 50.0 ? 50.0 : years;
    rail->is_playing = 0;
}

void rail_toggle(YearRail *rail)
{
    rail->is_playing = !rail->is_playing;
    rail->years = rail->years >= 50.0 ? 0.0 : rail->years;
    rail->root = rail_share(rail->years);
}

void rail_play(const App *app, YearRail *rail, double dt_s, double ready)
{
    if (!rail->is_playing) {
        return;
    }
    double root = fmin(fmax(rail->root, rail_share(rail->years)) + dt_s / play_s, 1.0);
    if (rail_years(root) > ready) {
        rail->years = fmax(ready, rail->years);
        rail->root = rail_share(rail->years);
        return; /* the picture is not there yet */
    }
    rail->root = root;
    double years = rail_years(root);
    rail->years = app->taste.is_still && root < 1.0 ? fmax(rail->years, floor(years)) : years;
    rail->is_playing = root < 1.0;
}

static double back(double years)
{
    return years > 1.0 ? ceil(years - 1.0 - 1e-9) : years - 0.25;
}

static double on(double years)
{
    return years >= 1.0 ? floor(years + 1.0 + 1e-9) : years + 0.25;
}

int rail_key(const App *app, YearRail *rail, int id, const SDL_KeyboardEvent *k)
{
    SDL_Keycode key = k->keysym.sym;
    int focus = app->ui->focus;
    int is_rail = focus == 0 || focus == id + 1 || (focus == id && key != SDLK_SPACE);
    if (k->keysym.mod & KMOD_CTRL) {
        return 0;
    }
    switch (key) {
    case SDLK_LEFT:
    case SDLK_RIGHT:
        if (is_rail) {
            set(rail, key == SDLK_LEFT ? back(rail->years) : on(rail->years));
        }
        return is_rail;
    case SDLK_COMMA:
        set(rail, back(rail->years));
        return 1;
    case SDLK_PERIOD:
        set(rail, on(rail->years));
        return 1;
    case SDLK_HOME:
    case SDLK_END:
        set(rail, key == SDLK_END ? 50.0 : 0.0);
        return 1;
    case SDLK_SPACE:
    case SDLK_p:
        if ((is_rail || key == SDLK_p) && !k->repeat) {
            rail_toggle(rail);
        }
        return is_rail || key == SDLK_p;
    default:
        return 0;
    }
}

static void ticks(const App *app, GfxRect r, float mid)
{
    static const double figures[] = {0, 1, 2, 5, 10, 20, 30, 40, 50};
    static const double small[] = {3, 4, 6, 7, 8, 9, 15, 25, 35, 45};
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    for (size_t i = 0; i < sizeof small / sizeof small[0]; i++) {
        float x = floorf(r.x + (float)rail_share(small[i]) * r.w);
        ui_rect(ui, x, mid - 5.0f, 1.0f, 10.0f, t->edge);
    }
    float last = -1e9f;
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        float x = floorf(r.x + (float)rail_share(figures[i]) * r.w);
        const char *text = i == 0 ? _("filled") : app_fmt(app, 0, figures[i], "");
        float half = 0.5f * ui_width(ui, 13, UI_REGULAR, text);
        ui_rect(ui, x - 1.0f, mid - 9.0f, 2.0f, 18.0f, t->ink);
        if (x - half > last + ui_px(ui, 6)) {
            ui_label(ui, x, mid + ui_px(ui, 30), 13, UI_REGULAR, t->ink2, UI_CENTRE, text);
            last = x + half;
        }
    }
}

static void thumb_and_ticks(const App *app, const YearRail *rail, int id, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float mid = floorf(r.y + ui_px(ui, 24)), tw = ui_px(ui, 18), th = ui_px(ui, 30);
    GfxRect hit = {r.x - tw, mid - ui_px(ui, 18), r.w + 2.0f * tw, ui_px(ui, 36)};
    int has_focus = ui_focusable(ui, id), awake = id >= ui->modal;
    int is_hot = awake && ui_over(ui, hit) && (ui->active == 0 || ui->active == id);
    if (is_hot && ui->in.pressed && ui->active == 0) {
        ui->active = ui->focus = id;
        ui->is_ring_shown = 0;
    }
    if (ui_is_dragged(ui, id)) {
        double share = ((double)ui->in.mouse_x - (double)r.x) / (double)r.w;
        share = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
        double years = rail_years(share), whole = floor(years + 0.5);
        /* A whole year catches the thumb within two pixels, so that it can be hit. */
        years = fabs(rail_share(whole) - share) * (double)r.w < 2.5 ? whole : years;
        if (fabs(years - rail->years) > 1e-12 || rail->is_playing) {
            ui_answer(ui, id, years);
        }
    }
    ui_rect(ui, r.x, mid - 1.0f, r.w, 2.0f, t->ink);
    ticks(app, r, mid);
    float x = r.x + (float)rail_share(rail->years) * r.w;
    GfxRect thumb = {floorf(x - tw * 0.5f), floorf(mid - th * 0.5f), tw, th};
    ui_round(ui, thumb, ui_px(ui, 4), t->sheet);
    ui_round_line(ui, thumb, ui_px(ui, 4), is_hot ? 3.0f : 2.0f, t->ink);
    ui_rect(ui, floorf(x) - 1.0f, thumb.y + th * 0.2f, 2.0f, th * 0.6f, t->accent);
    if (has_focus) {
        ui_focus_ring(ui, thumb, ui_px(ui, 4));
    }
    app_mark(app, "rail", (GfxRect){r.x, mid - th * 0.5f, r.w, th});
}

const char *rail_words(const App *app, double years)
{
    char *out = app_figure_room(app);
    if (years < 1.0 / 24.0) {
        SDL_strlcpy(out, _("filled"), sizeof app->figures->text[0]);
    } else if (years < 1.0 - 1e-9) {
        int months = (int)floor(years * 12.0 + 0.5);
        SDL_snprintf(out, sizeof app->figures->text[0], app_plural("%d month", "%d months", months),
                     months);
    } else {
        int whole = (int)floor(years + 0.5);
        SDL_snprintf(out, sizeof app->figures->text[0], app_plural("%d year", "%d years", whole),
                     whole);
    }
    return out;
}

void rail_work_draw(const App *app, int id, GfxRect bar, GfxRect button, double share, int goes_on)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    ui_round(ui, bar, 2.0f, t->well);
    ui_round(ui, (GfxRect){bar.x, bar.y, bar.w * (float)share, bar.h}, 2.0f, t->ink2);
    ui_round_line(ui, bar, 2.0f, 1.0f, t->edge);
    app_mark(app, "stop", button);
    ui_button(ui, id, button, goes_on ? _("Go on") : _("Stop"), 0, 0);
}

void rail_draw(const App *app, const YearRail *rail, int id, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float button = ui_px(ui, 112), figure = ui_px(ui, 150);
    GfxRect play = {r.x, r.y + ui_px(ui, 8), button, ui_px(ui, 38)};
    ui_rect(ui, 0.0f, r.y - 2.0f, ui->width, 1.0f, t->rule);
    ui_button(ui, id, play, rail->is_playing ? _("Pause") : _("Play"), 1, 0);
    app_mark(app, "play", play);
    thumb_and_ticks(app, rail, id + 1,
                    (GfxRect){play.x + button + ui_px(ui, 40), r.y,
                              r.w - button - figure - ui_px(ui, 78), r.h});
    const char *text = rail_words(app, rail->years);
    double size = ui_fit(ui, figure, 26, UI_BOLD, text);
    ui_label(ui, r.x + r.w, r.y + ui_px(ui, 36), size, UI_BOLD, t->ink, UI_RIGHT, text);
}

int rail_answer(YearRail *rail, const Ui *ui, int id)
{
    double years;
    int is_toggled = ui_answered(ui, id, NULL), is_moved = ui_answered(ui, id + 1, &years);
    if (is_toggled) {
        rail_toggle(rail);
    }
    if (is_moved) {
        set(rail, years);
    }
    return is_toggled || is_moved;
}
