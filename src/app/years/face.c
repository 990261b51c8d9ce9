/* The bay of Years later: the face with its density, the gap at the top as a measured length, and
 * the line where the depth section is cut; and the section itself with the air that goes round. */
#include "years/years.h"

#include <math.h>

static void gap_note(const App *app, const Years *y, GfxRect inner, double px_m, float x)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    PbBand band;
    char text[96];
    float end = inner.y + (float)(y->gap_m * px_m), line = ui_px(ui, 18);
    ui_rect(ui, x, inner.y, 1.0f, fmaxf(end - inner.y, 1.0f), t->ink);
    ui_rect(ui, x - 4.0f, inner.y, 9.0f, 2.0f, t->ink);
    ui_rect(ui, x - 4.0f, end - 1.0f, 9.0f, 2.0f, t->ink);
    float tx = x + ui_px(ui, 10), ty = inner.y + ui_px(ui, 16);
    ui_label(ui, tx, ty, 18, UI_BOLD, years_is_of_before(y) ? t->ink2 : t->ink, UI_LEFT,
             years_fmt_gap(app, y->gap_m, 1));
    ui_label(ui, tx, ty + line, 13, UI_REGULAR, t->ink, UI_LEFT, _("top gap"));
    if (years_band_at(y, y->band.gap, y->rail.years, &band)) {
        years_fmt_range(years_fmt_gap(app, band.p10, 0), years_fmt_gap(app, band.p90, 0),
                        app_unit(app, IO_UNIT_SMALL), text, sizeof text);
        ui_label(ui, tx, ty + 2 * line, 13, UI_REGULAR, t->ink2, UI_LEFT, text);
    }
}

void years_face_draw(const App *app, const Years *y, GfxRect inner, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 6.0));
    wall_scale_draw(app, &app->run.config.exercise, inner, px_m, inner.x - stud - 3.0f);
    wall_draw(app, inner, px_m);
    ui_layer(ui, NULL);
    wall_frame_draw(app, inner, stud);
    app_mark(app, "face", inner);
    if (SDL_AtomicGet(&y->shown->frames_ready) == YEARS_KEYS) {
        double mid = (y->shown->section_first + 0.5 * y->shown->section_count) / y->field.nx;
        float x = inner.x + (float)mid * inner.w;
        ui_dashes(ui, x, inner.y + inner.h + 2.0f * stud, x, inner.y + inner.h, 1.0f, 3.0f, t->ink);
        ui_dashes(ui, x, inner.y, x, inner.y + inner.h, 1.0f, 4.0f, ui_fade(t->sheet, 0.75));
    }
    gap_note(app, y, inner, px_m, inner.x + inner.w + stud + ui_px(ui, 12));
}

/* --- the section --- */

static const YearsSection *section_now(const Years *y)
{
    return y->has_heat ? &y->shown->keys[y->heat_key].section : NULL;
}

static int find(const float *line, int count, float at)
{
    int low = 0, high = count;
    while (high - low > 1) {
        int mid = (low + high) / 2;
        if (line[mid] <= at) {
            low = mid;
        } else {
            high = mid;
        }
    }
    return low < count ? low : count - 1;
}

/* Air speed inside a cell from the stream function on its corners: u = dpsi/dy, v = -dpsi/dz. */
static void speed(const YearsSection *s, float z, float y, float *u, float *v)
{
    int i = find(s->z_m, s->nx, z), j = find(s->y_m, s->ny, y);
    const float *p = s->psi_m2_s + (size_t)j * (size_t)(s->nx + 1) + i, *q = p + s->nx + 1;
    float dz = s->z_m[i + 1] - s->z_m[i], dy = s->y_m[j + 1] - s->y_m[j];
    float fz = (z - s->z_m[i]) / dz, fy = (y - s->y_m[j]) / dy;
    *u = ((1.0f - fz) * (q[0] - p[0]) + fz * (q[1] - p[1])) / dy;
    *v = -((1.0f - fy) * (p[1] - p[0]) + fy * (q[1] - q[0])) / dz;
}

static int is_open(const YearsSection *s, float z, float y)
{
    if (z <= s->z_m[0] || z >= s->z_m[s->nx] || y <= s->y_m[0] || y >= s->y_m[s->ny]) {
        return 0;
    }
    return s
        ->is_open[(size_t)find(s->y_m, s->ny, y) * (size_t)s->nx + (size_t)find(s->z_m, s->nx, z)];
}

static float chance(Years *y)
{
    y->seed = y->seed * 1664525u + 1013904223u;
    return (float)(y->seed >> 8) / 16777216.0f;
}

static const float life_s = 6.0f;

/* A new streak somewhere in the open air; a few tries, else it waits for the next frame. */
static void seed(Years *y, const YearsSection *s, YearsStreak *k)
{
    k->age_s = -1.0f;
    for (int i = 0; i < 12; i++) {
        int cell = (int)(chance(y) * (float)(s->nx * s->ny));
        if (cell < s->nx * s->ny && s->is_open[cell]) {
            int a = cell % s->nx, b = cell / s->nx;
            float u, v, z = s->z_m[a] + chance(y) * (s->z_m[a + 1] - s->z_m[a]);
            float h = s->y_m[b] + chance(y) * (s->y_m[b + 1] - s->y_m[b]);
            speed(s, z, h, &u, &v);
            if (hypotf(u, v) > 0.004f) { /* slower air would look like a speck */
                *k = (YearsStreak){z, h, 0.6f * life_s * chance(y)};
                return;
            }
        }
    }
}

void years_streaks_step(Years *y, double dt_s)
{
    const YearsSection *s = section_now(y);
    if (s == NULL || !s->has_loop) {
        y->has_streaks = 0;
        return;
    }
    int is_new = !y->has_streaks;
    y->has_streaks = 1;
    for (int i = 0; i < YEARS_STREAKS; i++) {
        YearsStreak *k = &y->streaks[i];
        if (is_new || k->age_s < 0.0f || k->age_s > life_s || !is_open(s, k->z_m, k->y_m)) {
            seed(y, s, k);
            continue;
        }
        float u, v, um, vm, dt = (float)dt_s;
        speed(s, k->z_m, k->y_m, &u, &v);
        float zm = k->z_m + 0.5f * dt * u, ym = k->y_m + 0.5f * dt * v;
        if (is_open(s, zm, ym)) {
            speed(s, zm, ym, &um, &vm);
            u = um;
            v = vm;
        }
        k->z_m += dt * u;
        k->y_m += dt * v;
        k->age_s += dt;
    }
}

/* Where the air of the last two seconds came from, walked back along the stream. */
static void streaks_draw(const App *app, const Years *y, const YearsSection *s, GfxRect r,
                         double px_m, double wider)
{
    enum { PIECES = 14 };
    Ui *ui = app->ui;
    for (int i = 0; i < YEARS_STREAKS; i++) {
        const YearsStreak *k = &y->streaks[i];
        UiPoint p[PIECES];
        float z = k->z_m, h = k->y_m, u, v;
        int n = 0;
        if (k->age_s < 0.0f) {
            continue;
        }
        for (; n < PIECES && is_open(s, z, h); n++) {
            p[n] = (UiPoint){r.x + z * (float)(px_m * wider), r.y + r.h - h * (float)px_m};
            speed(s, z, h, &u, &v);
            z -= 0.15f * u;
            h -= 0.15f * v;
        }
        float fade = fminf(fminf(k->age_s, life_s - k->age_s) * 2.0f, 1.0f);
        if (n >= 3) {
            ui_polyline(ui, p, n, 1.6f, ui_fade(ui->theme->ink, 0.85 * (double)fade));
            ui_circle(ui, p[0].x, p[0].y, 1.6f, ui_fade(ui->theme->ink, 0.95 * (double)fade));
        }
    }
}

static void side_note(const App *app, float x, float y, UiAlign align, const char *name,
                      const char *value)
{
    Ui *ui = app->ui;
    ui_label(ui, x, y, 13, UI_REGULAR, ui->theme->ink, align, name);
    ui_label(ui, x, y + ui_px(ui, 17), 14, UI_BOLD, ui->theme->ink, align, value);
}

void years_section_draw(const App *app, const Years *y, GfxRect r, double px_m, double wider)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbConstants *c = &app->run.config.constants;
    const YearsJob *job = y->shown;
    PbWallSkin skin = pb_wall_skin(&app->run.config.exercise.wall, c);
    float board = floorf((float)(skin.inside_m * px_m * wider));
    float outer = floorf((float)(skin.outside_m * px_m * wider));
    GfxRect in = {r.x + board, r.y, r.w - board - outer, r.h};
    float u0 = 0.0f, u1 = 1.0f;
    if (SDL_AtomicGet(&y->shown->frames_ready) == YEARS_KEYS) {
        u0 = (float)job->section_first / (float)y->field.nx;
        u1 = (float)(job->section_first + job->section_count) / (float)y->field.nx;
    }
    ui_rect(ui, in.x, in.y, in.w, in.h, t->board);
    ui_layer(ui, &in);
    ui_field(ui, (GfxField){.rect = in,
                            .u0 = u0,
                            .v0 = 0.0f,
                            .u1 = u1,
                            .v1 = 1.0f,
                            .target_kg_m3 = (float)app->run.config.exercise.target_kg_m3,
                            .hatch_pitch_px = 7.0f,
                            .line_px = 0.35f});
    const YearsSection *s = section_now(y);
    if (s != NULL && s->has_loop) {
        streaks_draw(app, y, s, r, px_m, wider);
    }
    ui_layer(ui, NULL);
    ui_rect(ui, r.x, r.y, board, r.h, t->well);
    ui_frame(ui, (GfxRect){r.x, r.y, board, r.h}, 1.0f, t->ink);
    ui_rect(ui, in.x + in.w, r.y, outer, r.h, t->wood);
    ui_frame(ui, (GfxRect){in.x + in.w, r.y, outer, r.h}, 1.0f, t->wood_ink);
    ui_frame(ui, in, 1.0f, t->ink);
    app_mark(app, "section", in);
    float mid = r.y + r.h * 0.5f;
    side_note(app, r.x - ui_px(ui, 8), mid, UI_RIGHT, _("room"), years_fmt_c(app, y->room_c, 0));
    side_note(app, r.x + r.w + ui_px(ui, 8), mid, UI_LEFT, _("out"),
              years_fmt_c(app, y->outdoor_c, 0));
    float base = r.y + r.h + ui_px(ui, 18), middle = r.x + r.w * 0.5f;
    ui_label(ui, middle, base, 12, UI_REGULAR, t->ink2, UI_CENTRE, _("depth 4 times wider"));
    const char *air = s == NULL     ? ""
                      : s->has_loop ? _("air at its true speed")
                                    : _("no air going round");
    ui_label(ui, middle, base + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_CENTRE, air);
}
