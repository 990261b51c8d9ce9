/* Under the wall, on its scale: the tape, and the notebook with a column for each place along it.
 */
#include "wall/wall.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define FOOT_M 0.3048

enum { ROWS = 5, SLOTS = 64 };

/* The last row is for a job: bags, and once the wall is open the density. */
static int rows_of(const Wall *w)
{
    return pb_job_fill_count(w->job) > 0 ? ROWS : ROWS - 1;
}

float wall_book_high(const App *app)
{
    return ui_px(app->ui, 18) * (float)rows_of(app->wall) + ui_px(app->ui, 6);
}

float wall_tape_draw(const App *app, const WallPlace *at, float y)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int is_us = app->taste.is_us;
    double unit = is_us ? FOOT_M : 0.1, length = (double)at->r.w / at->px_m;
    float high = ui_px(ui, 24), last = -1e9f;
    ui_rect(ui, at->r.x, y, at->r.w, high, t->sheet);
    for (int n = 1; n * unit < length; n++) {
        float x = at->r.x + (float)(n * unit * at->px_m);
        int is_long = is_us ? n % 2 == 0 : n % 5 == 0;
        ui_rect(ui, x, y, 1.0f, high * (is_long ? 0.35f : 0.2f), t->ink);
        if (is_long) {
            const char *text = is_us ? app_fmt(app, 0, n, "") : app_fmt(app, 1, n * unit, "");
            float half = 0.5f * ui_width(ui, 12, UI_REGULAR, text);
            if (x - half > last + 4.0f && x + half < at->r.x + at->r.w) {
                ui_label(ui, x, y + high - ui_px(ui, 4), 12, UI_REGULAR, t->ink, UI_CENTRE, text);
                last = x + half;
            }
        }
    }
    ui_frame(ui, (GfxRect){at->r.x, y, at->r.w, high}, 1.0f, t->edge);
    return y + high;
}

/* One column of the notebook: parts over each other share it. */
typedef struct Slot {
    double x0_m, x1_m;
    char cell[ROWS][64];
    int is_bad; /* with a part that was missed */
} Slot;

static void join(char *cell, const char *text)
{
    size_t n = strlen(cell);
    snprintf(cell + n, 64 - n, "%s%s", n > 0 ? " " : "", text);
}

static Slot *slot_for(Slot *slots, int *count, const PbRect *r)
{
    for (int n = 0; n < *count; n++) {
        double both = fmin(slots[n].x1_m, r->x1_m) - fmax(slots[n].x0_m, r->x0_m);
        if (both > 0.0) {
            return &slots[n];
        }
    }
    if (*count == SLOTS) {
        return NULL;
    }
    Slot *s = &slots[(*count)++];
    *s = (Slot){.x0_m = r->x0_m, .x1_m = r->x1_m};
    return s;
}

/* Whole centimeters, which is what a rod can tell; inches. */
static const char *size_of(const App *app, double m)
{
    return app->taste.is_us ? app_fmt(app, 0, io_unit_value(IO_UNIT_SMALL, m, app_reader(app)), "")
                            : app_fmt(app, 0, m * 100.0, "");
}

static void add_part(const App *app, Slot *s, const PbRect *r, int number, const char *last,
                     const char *packed)
{
    char text[24];
    snprintf(text, sizeof text, "%d", number);
    join(s->cell[0], text);
    if (s->cell[1][0] == '\0') {
        join(s->cell[1], size_of(app, r->x1_m - r->x0_m));
    }
    join(s->cell[2], size_of(app, r->y1_m - r->y0_m));
    if (strstr(s->cell[3], last) == NULL) {
        join(s->cell[3], last);
    }
    join(s->cell[4], packed);
}

/* What was felt in a part, in one word. */
static const char *in_it(const PbCrewPart *p)
{
    return p->left != PB_LEAVE_NONE ? _("left")
           : p->has_metal           ? _("metal")
           : p->has_soft            ? _("soft")
           : p->has_wood            ? _("brace?")
           : p->holes > 0           ? _("open")
                                    : "";
}

/* What became of a bay: of the opened wall its mean density, before the bags that went in. */
static const char *packed(const App *app, int n)
{
    const Wall *w = app->wall;
    if (w->phase == WALL_CLOSED) {
        return w->bags[n] >= 0.0 ? wall_fmt_bags(app, w->bags[n]) : "";
    }
    return w->is_job && w->marks.bays[n].mean_kg_m3 >= 0.0
               ? app_fmt_density(app, w->marks.bays[n].mean_kg_m3, 0)
               : "";
}

static const char *came_to(const Wall *w, int n)
{
    return wall_is_missed(w, n)                ? _("missed")
           : pb_job_fill_of(w->job, n) != NULL ? _("filled")
           : w->found[n].left != PB_LEAVE_NONE ? _("left")
                                               : _("found");
}

static int slots_of(const App *app, Slot *slots)
{
    const Wall *w = app->wall;
    int is_open = w->phase == WALL_OPENED, count, used = 0;
    const PbFramedBay *bays = pb_bays_list(is_open ? w->truth : w->parts, &count);
    for (int n = 0; n < count; n++) {
        int number = is_open ? n + 1 : w->number[n];
        if (number == 0 || (is_open && bays[n].is_narrow)) {
            continue;
        }
        Slot *s = slot_for(slots, &used, &bays[n].around);
        if (s == NULL) {
            break;
        }
        add_part(app, s, &bays[n].around, number, is_open ? came_to(w, n) : in_it(&w->known[n]),
                 packed(app, n));
        s->is_bad |= is_open && wall_is_missed(w, n);
    }
    return used;
}

float wall_book_draw(const App *app, const WallPlace *at, float y)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    Slot slots[SLOTS];
    char names[ROWS][48];
    int rows = rows_of(app->wall), is_open = app->wall->phase == WALL_OPENED;
    float row = ui_px(ui, 18), high = wall_book_high(app);
    const char *unit = app->taste.is_us ? app_unit(app, IO_UNIT_SMALL) : _(NC_("unit", "cm"));
    int count = slots_of(app, slots);
    SDL_snprintf(names[0], sizeof names[0], "%s", _("bay"));
    SDL_snprintf(names[1], sizeof names[1], "%s %s", _("width"), unit);
    SDL_snprintf(names[2], sizeof names[2], "%s %s", _("height"), unit);
    SDL_snprintf(names[3], sizeof names[3], "%s",
                 !is_open            ? _("in it")
                 : app->wall->is_job ? _("done")
                                     : _("found?"));
    SDL_snprintf(names[4], sizeof names[4], "%s",
                 is_open ? app_unit(app, IO_UNIT_DENSITY) : _("bags"));
    ui_rect(ui, at->r.x, y, at->r.w, high, t->sheet);
    for (int k = 0; k < rows; k++) {
        float base = y + row * (float)(k + 1) - ui_px(ui, 4);
        ui_label(ui, at->r.x - 8.0f, base, 12, UI_REGULAR, t->ink2, UI_RIGHT, names[k]);
        ui_rect(ui, at->r.x, y + row * (float)(k + 1), at->r.w, 1.0f, ui_fade(t->rule, 0.6));
        for (int n = 0; n < count; n++) {
            float x0 = at->r.x + (float)(slots[n].x0_m * at->px_m);
            float x1 = at->r.x + (float)(slots[n].x1_m * at->px_m);
            UiWeight weight = k == 0 ? UI_BOLD : UI_REGULAR;
            if (ui_width(ui, 12, weight, slots[n].cell[k]) < x1 - x0 - 2.0f) {
                ui_label(ui, 0.5f * (x0 + x1), base, 12, weight,
                         slots[n].is_bad && k == 3 ? t->danger : t->ink, UI_CENTRE,
                         slots[n].cell[k]);
            }
        }
    }
    for (int n = 0; n < count; n++) {
        for (int side = 0; side < 2; side++) {
            double x = side ? slots[n].x1_m : slots[n].x0_m;
            ui_rect(ui, at->r.x + (float)(x * at->px_m), y, 1.0f, high, t->edge);
        }
    }
    ui_frame(ui, (GfxRect){at->r.x, y, at->r.w, high}, 1.0f, t->edge);
    app_mark(app, "wall_book", (GfxRect){at->r.x, y, at->r.w, high});
    return y + high;
}

/* Section and words of the last rod, on one scale, beside the wall where there is room. */
void wall_feel_draw(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Wall *w = app->wall;
    float x = at->r.x + at->r.w + ui_px(ui, 16), wide = ui->width - 20.0f - x;
    int last = w->crew->done_count - 1;
    while (last >= 0 && w->crew->done[last].act.kind != PB_CREW_PROBE) {
        last--;
    }
    if (w->phase != WALL_CLOSED || last < 0 || wide < ui_px(ui, 150)) {
        return;
    }
    wide = fminf(wide, ui_px(ui, 260));
    const PbCrewAnswer *a = &w->crew->done[last].answer;
    GfxRect card = {x, at->r.y, wide, ui_px(ui, 150)};
    float in = ui_px(ui, 12), px_m = (wide - 2 * in) / (float)PB_CREW_ROD_M;
    float y = card.y + ui_px(ui, 44), bar = ui_px(ui, 60);
    ui_round(ui, card, 6.0f, t->sheet);
    ui_round_line(ui, card, 6.0f, 1.0f, t->ink);
    ui_label(ui, x + in, card.y + ui_px(ui, 26), 16, UI_BOLD, t->ink, UI_LEFT, _("Feel"));
    ui_label(ui, x + wide - in, card.y + ui_px(ui, 26), 16, UI_BOLD, t->ink, UI_RIGHT,
             wall_fmt(app, a->reach_m));
    ui_rect(ui, x + in, y, wide - 2 * in, bar, t->well);
    for (int n = 0; n < a->layer_count; n++) {
        const PbCrewLayer *l = &a->layers[n];
        ui_rect(ui, x + in + (float)l->from_m * px_m, y, (float)(l->to_m - l->from_m) * px_m, bar,
                l->feel == PB_FEEL_FINISH ? t->edge
                : l->feel == PB_FEEL_SOFT ? t->accent_wash
                                          : t->board);
    }
    float end = x + in + (float)a->reach_m * px_m;
    if (a->feel != PB_FEEL_NOTHING) {
        ui_rect(ui, end, y, fminf(10.0f, x + wide - in - end), bar,
                a->feel == PB_FEEL_WOOD ? t->wood : t->ink2);
    }
    ui_rect(ui, x + 2.0f, y + bar * 0.5f - 2.0f, end - x - 2.0f, 4.0f, t->ink);
    ui_label(ui, x + in, y + bar + ui_px(ui, 22), 12, UI_REGULAR, t->ink2, UI_LEFT,
             _("beyond: not known"));
}
