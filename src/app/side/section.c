/* The wall as it is chosen on the house page: a cut from the room outwards with the name and R of
 * each layer, and R of the whole wall empty and packed, by both limits of ISO 6946. Follows a
 * choice at once; what the bay's own air does comes with the comparison. */
#include "side/form.h"

#include "core/material.h"
#include "io/compare_words.h"
#include "io/saving_words.h"
#include "io/wall_words.h"

#include <math.h>

enum { SECTION_LAYERS = PB_WALL_PLACES + 1 }; /* and the cavity */

typedef struct Layer {
    PbWallPlace place;
    int is_cavity;
    double thickness_m, r_m2k_w;
    char name[64];
} Layer;

/* Closed airspace of 25 mm and more, level heat flow: ISO 6946:2017, table 8. */
static const double airspace_m2k_w = 0.18;

static int layers_of(const App *app, const PbHouse *h, const PbConstants *k, Layer *out)
{
    int language = app_reader(app).language;
    int count = 0;
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        double r = pb_wall_layer_r(&h->wall, (PbWallPlace)p, k);
        int is_simple = !h->wall.is_layered;
        const PbWallLayer *row = pb_wall_layer((PbWallPlace)p, h->wall.layer[p]);
        if (is_simple ? r > 0.0 : row->constant != NULL) {
            Layer *l = &out[count++];
            *l = (Layer){.place = (PbWallPlace)p, .r_m2k_w = r};
            l->thickness_m = !is_simple            ? row->thickness_m
                             : p == PB_WALL_INSIDE ? k->gypsum_thickness_m
                                                   : k->sheathing_thickness_m;
            SDL_strlcpy(l->name,
                        !is_simple ? io_layer_name((PbWallPlace)p, h->wall.layer[p], language)
                        : p == PB_WALL_INSIDE ? _("drywall")
                                              : _("one panel"),
                        sizeof l->name);
        }
        if (p == PB_WALL_INSIDE) {
            out[count] = (Layer){.is_cavity = 1, .thickness_m = h->bay.depth_m};
            SDL_strlcpy(out[count++].name, _("studs and cavity"), sizeof out->name);
        }
    }
    return count;
}

static GfxColor color_of(const UiTheme *t, const Layer *l)
{
    return l->is_cavity                    ? t->sheet
           : l->place == PB_WALL_INSIDE    ? t->board
           : l->place == PB_WALL_SHEATHING ? t->wood
           : l->place == PB_WALL_PAPER     ? t->ink
                                           : ui_fade(t->ink2, 0.45);
}

/* The cut, room at the left. A stud stands at the foot of the cavity. */
static void cut(const App *app, GfxRect r, const Layer *l, int count)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double all = 0.0;
    for (int i = 0; i < count; i++) {
        all += l[i].thickness_m;
    }
    double px_m = (double)r.w / fmax(all, 0.1);
    float x = r.x;
    for (int i = 0; i < count; i++) {
        float w = fmaxf(floorf((float)(l[i].thickness_m * px_m)), 3.0f);
        w = fminf(w, r.x + r.w - x);
        ui_rect(ui, x, r.y, w, r.h, color_of(t, &l[i]));
        if (l[i].is_cavity) {
            float stud = floorf(r.h * 0.35f);
            ui_rect(ui, x, r.y + r.h - stud, w, stud, t->wood);
            ui_rect(ui, x, r.y + r.h - stud, w, 1.0f, t->wood_line);
        }
        ui_rect(ui, x, r.y, 1.0f, r.h, t->edge);
        x += w;
    }
    ui_frame(ui, (GfxRect){r.x, r.y, x - r.x, r.h}, 1.0f, t->edge);
}

static float line(const App *app, GfxRect r, float y, const char *name, const char *value,
                  UiWeight weight)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float wide = ui_width(ui, 13, weight, value);
    ui_label_cut(ui, r.x, y, r.w - wide - ui_px(ui, 10), 13, weight, t->ink, name);
    ui_label(ui, r.x + r.w, y, 13, weight, t->ink, UI_RIGHT, value);
    return ui_px(ui, 19);
}

/* R of the whole wall, and what packing it would save by what is typed so far. */
static float sums(const App *app, GfxRect r, const PbHouse *shown, const PbConstants *k)
{
    Ui *ui = app->ui;
    IoReaderTaste taste = app_reader(app);
    PbHouse typed, *h = &typed;
    int is_whole = side_form_look(&app->side->form, &typed);
    const PbHouse *wall = is_whole ? h : shown;
    PbWallSkin skin = pb_wall_skin(&wall->wall, k);
    double stud = wall->bay.depth_m / k->wood_k_w_mk, share = wall->framing_share;
    double fill = wall->bay.depth_m / pb_material_conductivity(k, k->perfect_fill_kg_m3);
    PbWallPaths empty = pb_wall_paths(&skin, stud, share, airspace_m2k_w);
    PbWallPaths dense = pb_wall_paths(&skin, stud, share, fill);
    double now = pb_wall_r(&empty), then = pb_wall_r(&dense);
    char value[64], says[500];
    float y = r.y;
    io_compare_figure(IO_FIGURE_R, now, NULL, taste, value, sizeof value);
    y += line(app, r, y, _("Whole wall, empty"), value, UI_BOLD);
    io_compare_figure(IO_FIGURE_R, then, NULL, taste, value, sizeof value);
    y += line(app, r, y, _("Whole wall, packed full"), value, UI_BOLD);
    PbCompareSaving saving;
    if (!is_whole || h->cavity.now == PB_CAVITY_LOOSE || r.h < ui_px(ui, 150)) {
        return y;
    }
    pb_compare_saving_of(h, k, now, then, &saving);
    io_saving_sentence(PB_COMPARE_DENSE, &saving, h, taste, says, sizeof says);
    y += ui_px(ui, 6);
    return y + ui_paragraph(ui, r.x, y, r.w, 14, UI_REGULAR,
                            saving.is_over_bill ? ui->theme->danger : ui->theme->ink, says);
}

void side_section_strip(const App *app, GfxRect r)
{
    const PbHouse *h = &app->side->form.house;
    PbConstants k = pb_constants_default();
    Layer l[SECTION_LAYERS];
    int count = layers_of(app, h, &k, l);
    cut(app, r, l, count);
    app_mark(app, "section", r);
}

void side_section_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbHouse *h = &app->side->form.house;
    PbConstants k = pb_constants_default();
    Layer l[SECTION_LAYERS];
    int count = layers_of(app, h, &k, l);
    float high = ui_px(ui, 20 + 74 + 8 + 19 * (count + 2)), y = r.y + ui_px(ui, 18);
    if (r.h < high) {
        return; /* the rows at the left tell the same */
    }
    ui_label(ui, r.x, y, 13, UI_REGULAR, t->ink2, UI_LEFT, _("room"));
    ui_label(ui, r.x + r.w, y, 13, UI_REGULAR, t->ink2, UI_RIGHT, _("outdoors"));
    cut(app, (GfxRect){r.x, y + ui_px(ui, 6), r.w, ui_px(ui, 62)}, l, count);
    app_mark(app, "section", (GfxRect){r.x, y, r.w, ui_px(ui, 68)});
    y += ui_px(ui, 90);
    char value[48];
    for (int i = 0; i < count; i++) {
        value[0] = '\0';
        if (!l[i].is_cavity) {
            io_compare_figure(IO_FIGURE_R_LAYER, l[i].r_m2k_w, NULL, app_reader(app), value,
                              sizeof value);
        }
        y += line(app, r, y, l[i].name, value, UI_REGULAR);
    }
    if (pb_wall_check(&h->wall, NULL, NULL) != PB_OK) {
        return; /* not a whole wall yet */
    }
    (void)sums(app, (GfxRect){r.x, y, r.w, r.y + r.h - y}, h, &k);
}
