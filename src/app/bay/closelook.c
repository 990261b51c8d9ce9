/* The close look (the same field, larger, following the mouth), the density legend, and the face.
 */
#include "bay/bay.h"

#include "core/units.h"

#include <math.h>
#include <string.h>

static float scatter(uint32_t k)
{
    k = (k ^ (k >> 15)) * 0x2c1b3c6du;
    k = (k ^ (k >> 12)) * 0x297a2d39u;
    return (float)((k ^ (k >> 15)) >> 8) / 16777216.0f;
}

/* Still specks in packed fill: the material has a grain, and it moves only when the fill does. */
static void specks(const App *app, GfxRect r, double y0, double y1, double px_m)
{
    const PbView *v = app->run.view;
    const double pitch = 0.028;
    GfxColor c = ui_fade(app->ui->theme->sheet, 0.22);
    double width = app->run.config.exercise.width_m;
    for (int j = (int)(y0 / pitch); j < (int)(y1 / pitch) + 1; j++) {
        for (int i = 0; i < (int)(width / pitch); i++) {
            uint32_t seed = (uint32_t)(j * 64 + i) * 4u;
            double x = (i + (double)scatter(seed)) * pitch,
                   y = (j + (double)scatter(seed + 1u)) * pitch;
            int cx = (int)(x / v->dx_m), cy = (int)(y / v->dy_m);
            if (cx < 0 || cx >= v->nx || cy < 0 || cy >= v->ny ||
                v->density_kg_m3[cy * v->nx + cx] < 30.0) {
                continue;
            }
            float a = scatter(seed + 2u) * 6.283f, l = 2.5f + 3.0f * scatter(seed + 3u);
            ui_speck(app->ui, r.x + (float)(x * px_m), r.y + r.h - (float)((y - y0) * px_m),
                     l * cosf(a), l * sinf(a), 1.6f, c);
        }
    }
}

/* Which part of the bay is shown: the mouth a little above the middle, held inside the bay. */
static void window_of(const App *app, GfxRect r, double *y0, double *y1, double *px_m)
{
    const PbExercise *e = &app->run.config.exercise;
    *px_m = (double)r.w / e->width_m;
    double tall = fmin((double)r.h / *px_m, e->height_m);
    double low = run_mouth_y(&app->run) - 0.5 * tall;
    low = fmax(0.0, fmin(low, e->height_m - tall));
    *y0 = low;
    *y1 = low + tall;
}

static void guide_lines(const App *app, GfxRect r, double y0, double y1)
{
    Ui *ui = app->ui;
    GfxRect bay = app->laid->bay;
    if (bay.w <= 0.0f || app->laid->bay_px_m <= 0.0) {
        return;
    }
    const AppMark *inner =
        app_mark_find(app, "bay"); /* there: marked where app->laid->bay is set */
    float top = bay.y + bay.h - (float)(y1 * app->laid->bay_px_m),
          low = bay.y + bay.h - (float)(y0 * app->laid->bay_px_m);
    GfxRect frame = {inner->rect.x, top, inner->rect.w, low - top};
    ui_frame(ui, (GfxRect){frame.x - 1, frame.y - 1, frame.w + 2, frame.h + 2}, 3.0f,
             ui->theme->sheet);
    ui_frame(ui, frame, 2.0f, ui->theme->ink);
    float right = frame.x + frame.w;
    ui_line(ui, right, top, r.x, r.y, 1.0f, ui->theme->edge);
    ui_line(ui, right, low, r.x, r.y + r.h, 1.0f, ui->theme->edge);
}

static void picture(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    double y0, y1, px_m;
    window_of(app, r, &y0, &y1, &px_m);
    guide_lines(app, r, y0, y1);
    wall_field_draw(app, &app->run.config.exercise, r, 0.0, y0, app->run.config.exercise.width_m,
                    y1, px_m);
    specks(app, r, y0, y1, px_m);
    wall_blocks_draw(app, &app->run.config.exercise, r, 0.0, y0, px_m);
    wall_tufts_draw(app, (double)r.x, (double)(r.y + r.h) + y0 * px_m, px_m);
    GfxRect whole = {r.x, r.y + r.h + (float)(y0 * px_m), r.w, 0.0f}; /* bottom edge at y = 0 */
    wall_tube_draw(app, whole, px_m, 1);
    ui_layer(ui, NULL);
    ui_round_line(ui, (GfxRect){r.x - 2, r.y - 2, r.w + 4, r.h + 4}, 4.0f, 2.0f, ui->theme->ink);
    app->laid->look = r;
    app->laid->look_px_m = px_m;
    app_mark(app, "look", r);
}

static void end_grain(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    ui_rect(ui, r.x, r.y, r.w, r.h, t->wood);
    ui_line(ui, r.x, r.y, r.x + r.w, r.y + r.h, 1.0f, t->wood_line);
    ui_line(ui, r.x + r.w, r.y, r.x, r.y + r.h, 1.0f, t->wood_line);
    ui_frame(ui, r, 1.0f, t->wood_ink);
}

double face_share(const App *app)
{
    const PbView *v = app->run.view;
    return v->panel_strength_pa > 0.0 ? v->panel_peak_pa / v->panel_strength_pa : 0.0;
}

GfxColor face_color(const App *app, GfxColor calm, GfxColor warn, GfxColor danger)
{
    const PbRubric *rubric = &app->run.watched.rubric;
    double share = face_share(app);
    return share > rubric->panel_zero ? danger : share > rubric->panel_free ? warn : calm;
}

static void face_plate(const App *app, GfxRect r, double share)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    ui_round(ui, r, ui_px(ui, 10), t->glass);
    ui_round_line(ui, r, ui_px(ui, 10), share > app->run.watched.rubric.panel_free ? 2.0f : 1.0f,
                  face_color(app, t->edge, t->warn, t->danger));
}

static void section(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *v = app->run.view;
    double sum = 0.0;
    for (int i = 0; i < v->nx * v->ny; i++) {
        sum += v->density_kg_m3[i];
    }
    double mean = sum / (v->nx * v->ny);
    float stud = ui_px(ui, 22);
    GfxRect fill = {r.x + stud, r.y, r.w - 2 * stud, r.h};
    ui_rect(ui, fill.x, fill.y, fill.w, fill.h,
            mean > 8.0 ? ui_density_color(mean, v->exercise->target_kg_m3) : t->board);
    end_grain(ui, (GfxRect){r.x, r.y, stud, r.h});
    end_grain(ui, (GfxRect){r.x + r.w - stud, r.y, stud, r.h});
    UiPoint p[17];
    float base = r.y + r.h + 4.0f;
    float bow = (float)fmin(v->bow_max_m * 20.0 * (double)fill.w / v->exercise->width_m, 22.0);
    for (int i = 0; i < 17; i++) {
        double s = i / 16.0;
        p[i] = (UiPoint){fill.x + fill.w * (float)s,
                         base + bow * (float)pow(sin(3.14159265 * s), 2.0)};
    }
    ui_dashes(ui, r.x, base, r.x + r.w, base, 1.0f, 4.0f, t->ink2);
    ui_polyline(ui, p, 17, 3.0f, t->ink);
    ui_rect(ui, r.x, base - 1.0f, stud, 3.0f, t->ink);
    ui_rect(ui, r.x + r.w - stud, base - 1.0f, stud, 3.0f, t->ink);
}

static void load_words(const App *app, char *out, size_t size)
{
    /* of the place that is loaded most, against its own strength: a limit in kPa would jump with it
     */
    SDL_snprintf(out, size, _("%s of its strength"), app_fmt(app, 0, 100.0 * face_share(app), "%"));
}

float face_line_high(const App *app, float wide)
{
    Ui *ui = app->ui;
    char text[120];
    load_words(app, text, sizeof text);
    float need = ui_width(ui, 14, UI_BOLD, _("Wall load")) + ui_width(ui, 14, UI_BOLD, text);
    return ui_px(ui, need + ui_px(ui, 8) > wide ? 50 : 30);
}

void face_draw(const App *app, GfxRect r, int is_line)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *v = app->run.view;
    char text[120];
    double share = face_share(app);
    float in = is_line ? 0.0f : ui_px(ui, 14);
    if (!is_line) {
        face_plate(app, r, share);
    }
    GfxColor ink = face_color(app, t->ink, t->warn, t->danger);
    ui_label(ui, r.x + in, r.y + in + ui_px(ui, 10), 14, UI_BOLD, ink, UI_LEFT, _("Wall load"));
    load_words(app, text, sizeof text);
    float under = face_line_high(app, r.w - 2 * in) - ui_px(ui, 30); /* in a line of its own */
    ui_label(ui, r.x + r.w - in, r.y + in + ui_px(ui, 10) + under, 14, UI_BOLD, ink, UI_RIGHT,
             text);
    if (is_line) {
        GfxRect bar = {r.x, r.y + ui_px(ui, 20) + under, r.w, ui_px(ui, 8)};
        ui_rect(ui, bar.x, bar.y, bar.w, bar.h, t->well);
        ui_rect(ui, bar.x, bar.y, bar.w * (float)fmin(share, 1.0), bar.h,
                face_color(app, t->ink2, t->warn, t->danger));
        ui_frame(ui, bar, 1.0f, t->edge);
        ui_rect(ui, bar.x + bar.w * (float)app->run.watched.rubric.panel_free, bar.y - 3, 2.0f,
                bar.h + 6, t->ink);
        return;
    }
    section(app, (GfxRect){r.x + in, r.y + ui_px(ui, 34) + under, r.w - 2 * in,
                           r.h - ui_px(ui, 82) - under});
    SDL_snprintf(text, sizeof text, _("bow %s (shown 20x)"), app_fmt_small(app, v->bow_max_m));
    ui_label(ui, r.x + in, r.y + r.h - ui_px(ui, 11), 12, UI_REGULAR, t->ink2, UI_LEFT, text);
}

void closelook_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    char text[80];
    int is_tabbed = app->laid->text_scale >= 1.3 || app_mark_find(app, "middle") != NULL;
    int small_face = r.h < ui_px(ui, 690);
    float head = is_tabbed ? ui_px(ui, 2) : ui_px(ui, 30);
    float legend = ui_px(ui, 74), face = small_face ? face_line_high(app, r.w) : ui_px(ui, 136);
    if (!is_tabbed) {
        ui_label(ui, r.x, r.y + ui_px(ui, 15), 16, UI_BOLD, ui->theme->ink, UI_LEFT,
                 _("Close look"));
    }
    float high = r.h - head - legend - face - ui_px(ui, 16);
    GfxRect pic = {floorf(r.x) + 2, floorf(r.y + head), floorf(r.w) - 4, floorf(high)};
    double tall =
        app->run.config.exercise.height_m / app->run.config.exercise.width_m * (double)pic.w;
    pic.h = fminf(pic.h, floorf((float)tall));
    picture(app, pic);
    float y = pic.y + pic.h + ui_px(ui, 18);
    SDL_snprintf(text, sizeof text, "%s, %s", _("Fill density"), app_unit(app, IO_UNIT_DENSITY));
    ui_label(ui, r.x, y, 13, UI_BOLD, ui->theme->ink, UI_LEFT, text);
    legend_draw(app, app->run.config.exercise.target_kg_m3,
                (GfxRect){r.x, y + ui_px(ui, 22), r.w, ui_px(ui, 14)});
    face_draw(app, (GfxRect){r.x, r.y + r.h - face, r.w, face}, small_face);
}
