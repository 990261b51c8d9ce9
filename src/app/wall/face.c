/* The wall as it is seen closed, with the marks that the crew has made: from its record and from
 * nothing else. What the job adds: work.c; the opened one: opened.c. */
#include "wall/wall.h"

#include <math.h>
#include <string.h>

float wall_px(const WallPlace *at, double x_m)
{
    return at->r.x + (float)(x_m * at->px_m);
}

float wall_py(const WallPlace *at, double y_m)
{
    return at->r.y + at->r.h - (float)(y_m * at->px_m);
}

GfxRect wall_rect(const WallPlace *at, const PbRect *r)
{
    float x = wall_px(at, r->x0_m), y = wall_py(at, r->y1_m);
    return (GfxRect){x, y, wall_px(at, r->x1_m) - x, wall_py(at, r->y0_m) - y};
}

static void window_draw(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    float in = fminf(6.0f, r.w * 0.1f);
    GfxRect pane = {r.x + in, r.y + in, r.w - 2 * in, r.h - 2 * in};
    ui_rect(ui, r.x, r.y, r.w, r.h, t->sheet);
    ui_rect(ui, pane.x, pane.y, pane.w, pane.h, t->glass);
    ui_frame(ui, r, 1.0f, t->ink);
    ui_frame(ui, pane, 2.0f, t->ink);
    ui_rect(ui, r.x - in, r.y + r.h, r.w + 2 * in, 4.0f, t->ink2);
}

static void door_draw(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    float in = r.w * 0.14f, half = (r.h - 3 * in) * 0.5f;
    ui_rect(ui, r.x, r.y, r.w, r.h, t->sheet);
    ui_frame(ui, r, 2.0f, t->ink);
    for (int k = 0; k < 2; k++) {
        ui_frame(ui, (GfxRect){r.x + in, r.y + in + (half + in) * (float)k, r.w - 2 * in, half},
                 1.0f, t->edge);
    }
    ui_circle(ui, r.x + r.w * 0.08f, r.y + r.h * 0.52f, 4.0f, t->ink);
}

void wall_cutouts_draw(Ui *ui, const WallPlace *at, const PbCutout *list, int count)
{
    const UiTheme *t = ui->theme;
    for (int n = 0; n < count; n++) {
        GfxRect r = wall_rect(at, &list[n].at);
        if (list[n].kind == PB_CUTOUT_WINDOW) {
            window_draw(ui, r);
        } else if (list[n].kind == PB_CUTOUT_DOOR) {
            door_draw(ui, r);
        } else { /* the breast of the chimney: courses of brick show through the paint */
            ui_rect(ui, r.x, r.y, r.w, r.h, t->board);
            for (float y = r.y + 12.0f; y < r.y + r.h; y += 12.0f) {
                ui_rect(ui, r.x, y, r.w, 1.0f, t->board_line);
            }
            ui_frame(ui, r, 1.0f, t->ink);
        }
    }
}

static void covers_draw(Ui *ui, const WallPlace *at, const PbCrew *crew)
{
    const UiTheme *t = ui->theme;
    for (int n = 0; n < crew->seen_count; n++) {
        GfxRect r = wall_rect(at, &crew->seen[n].at);
        ui_rect(ui, r.x - 2, r.y - 2, r.w + 4, r.h + 4, t->sheet);
        ui_frame(ui, (GfxRect){r.x - 2, r.y - 2, r.w + 4, r.h + 4}, 2.0f, t->ink);
        int bars = crew->seen[n].kind == PB_SEEN_REGISTER ? 8 : 2;
        for (int k = 1; k <= bars; k++) {
            ui_rect(ui, r.x + r.w * (float)k / (float)(bars + 1), r.y + r.h * 0.2f, 2.0f,
                    r.h * 0.6f, t->ink2);
        }
    }
}

static void shades_draw(Ui *ui, const WallPlace *at, const PbCrew *crew)
{
    for (int n = 0; n < crew->shade_count; n++) {
        GfxRect r = wall_rect(at, &crew->shades[n].at);
        int is_wood = crew->shades[n].feel == PB_FEEL_WOOD;
        ui_rect(ui, r.x, r.y, r.w, r.h,
                ui_fade(is_wood ? ui->theme->wood : ui->theme->accent, is_wood ? 0.35 : 0.12));
    }
}

/* Believed lumber: a dashed pair for an upright, a drawn pair across; a guess in accent. */
static void lumber_draw(Ui *ui, const WallPlace *at, const Wall *w)
{
    const UiTheme *t = ui->theme;
    for (int n = 0; n < w->lumber_count; n++) {
        const PbBelieved *b = &w->lumber[n];
        GfxRect r = wall_rect(at, &b->member.at);
        GfxColor c = b->surety == PB_SURE_GUESS ? t->accent : t->ink2;
        if (b->surety == PB_SURE_IN_SIGHT) {
            continue;
        }
        if (r.h > r.w) {
            ui_dashes(ui, r.x, r.y, r.x, r.y + r.h, 1.5f, 8.0f, c);
            ui_dashes(ui, r.x + r.w, r.y, r.x + r.w, r.y + r.h, 1.5f, 8.0f, c);
        } else {
            ui_line(ui, r.x, r.y, r.x + r.w, r.y, 1.5f, c);
            ui_line(ui, r.x, r.y + r.h, r.x + r.w, r.y + r.h, 1.5f, c);
        }
    }
}

/* A number on a flag where the part is as wide as it. */
void wall_flag_draw(Ui *ui, GfxRect part, int number, GfxColor plate, GfxColor ink)
{
    char text[16];
    SDL_snprintf(text, sizeof text, "%d", number);
    float w = ui_width(ui, 14, UI_BOLD, text) + ui_px(ui, 12), h = ui_px(ui, 20);
    if (part.w < w + 4.0f || part.h < h + 8.0f) {
        return;
    }
    GfxRect r = {floorf(part.x + (part.w - w) * 0.5f), floorf(part.y + 6.0f), w, h};
    ui_rect(ui, r.x, r.y, r.w, r.h, plate);
    ui_frame(ui, r, 1.0f, ui->theme->edge);
    ui_label(ui, r.x + w * 0.5f, r.y + h * 0.75f, 14, UI_BOLD, ink, UI_CENTRE, text);
}

void wall_crossed_draw(Ui *ui, GfxRect r)
{
    GfxColor c = ui->theme->ink2;
    ui_line(ui, r.x + 6, r.y + 6, r.x + r.w - 6, r.y + r.h - 6, 1.5f, c);
    ui_line(ui, r.x + 6, r.y + r.h - 6, r.x + r.w - 6, r.y + 6, 1.5f, c);
}

static void parts_draw(Ui *ui, const WallPlace *at, const Wall *w)
{
    const UiTheme *t = ui->theme;
    int count;
    const PbFramedBay *bays = pb_bays_list(w->parts, &count);
    for (int n = 0; n < count; n++) {
        GfxRect r = wall_rect(at, &bays[n].around);
        if (w->number[n] == 0) {
            continue;
        }
        if (w->known[n].left != PB_LEAVE_NONE) {
            wall_crossed_draw(ui, r);
        }
        int is_packed = w->bags[n] >= 0.0;
        wall_flag_draw(ui, r, w->number[n],
                       is_packed               ? t->ink
                       : w->known[n].holes > 0 ? t->accent_wash
                                               : t->well,
                       is_packed ? t->sheet : t->ink);
    }
}

/* A rod's mark: dot and flag as long as the depth felt; a bar at its end was hollow, a block wood,
 * a zigzag something soft. */
static void rod_mark(Ui *ui, const WallPlace *at, const PbCrewDone *d)
{
    const UiTheme *t = ui->theme;
    float x = wall_px(at, d->act.x_m), y = wall_py(at, d->act.y_m);
    int is_hollow = d->answer.layer_count > 1, is_soft = 0;
    double turn = d->act.right_deg < 0.0 ? -1.0 : 1.0;
    float dx = d->act.up_deg != 0.0 ? 0.0f : (float)turn;
    float dy = d->act.up_deg == 0.0 ? 0.0f : d->act.up_deg > 0.0 ? -1.0f : 1.0f;
    float reach = fmaxf(fminf((float)(d->answer.reach_m * at->px_m), 26.0f), 8.0f);
    for (int n = 1; n < d->answer.layer_count; n++) {
        is_soft |= d->answer.layers[n].feel == PB_FEEL_SOFT;
    }
    ui_circle(ui, x, y, 2.5f, t->ink);
    if (!is_hollow) {
        ui_rect(ui, x + 3.0f, y - 3.5f, 7.0f, 7.0f, t->ink);
        return;
    }
    float ex = x + dx * reach, ey = y + dy * reach;
    if (is_soft) {
        UiPoint zigzag[5];
        for (int k = 0; k < 5; k++) {
            float away = (k % 2 ? 3.0f : -3.0f), share = (float)k / 4.0f;
            zigzag[k] =
                (UiPoint){x + (ex - x) * share + dy * away, y + (ey - y) * share + dx * away};
        }
        ui_polyline(ui, zigzag, 5, 1.5f, t->ink);
    } else {
        ui_line(ui, x, y, ex, ey, 1.5f, t->ink);
    }
    float bar = d->answer.feel == PB_FEEL_BACK || d->answer.feel == PB_FEEL_NOTHING ? 1.0f : 3.0f;
    ui_line(ui, ex - dy * 4.0f, ey - dx * 4.0f, ex + dy * 4.0f, ey + dx * 4.0f, 2.0f * bar, t->ink);
}

static void hole_mark(Ui *ui, const WallPlace *at, const PbCrewHole *h)
{
    const UiTheme *t = ui->theme;
    float x = wall_px(at, h->x_m), y = wall_py(at, h->y_m);
    float radius = fmaxf((float)(0.5 * h->bore_m * at->px_m), 4.0f);
    ui_circle(ui, x, y, radius, h->met == PB_FEEL_NOTHING ? t->ink : t->wood);
    if (h->met != PB_FEEL_NOTHING) {
        int is_wire = h->met == PB_FEEL_WIRE;
        ui_arc(ui, x, y, radius + 3.0f, 0.0, 6.2832, 2.0f, is_wire ? t->danger : t->warn);
        ui_line(ui, x - radius, y, x + radius, y, 2.0f, is_wire ? t->danger : t->warn);
    }
}

static void marks_draw(Ui *ui, const WallPlace *at, const PbCrew *crew)
{
    const UiTheme *t = ui->theme;
    for (int n = 0; n < crew->done_count; n++) {
        const PbCrewDone *d = &crew->done[n];
        float x = wall_px(at, d->act.x_m), y = wall_py(at, d->act.y_m);
        if (d->act.kind == PB_CREW_TAP && d->answer.feel == PB_FEEL_DULL) {
            ui_circle(ui, x, y, 4.0f, t->ink2);
        } else if (d->act.kind == PB_CREW_TAP) {
            ui_arc(ui, x, y, 4.5f, 0.0, 6.2832, 1.5f, t->ink2);
        } else if (d->act.kind == PB_CREW_PROBE) {
            rod_mark(ui, at, d);
        } else if (d->act.kind == PB_CREW_SENSE && d->answer.feel == PB_FEEL_WIRE) {
            ui_arc(ui, x, y, 6.0f, 0.0, 6.2832, 2.0f, t->danger);
            ui_line(ui, x - 4, y + 4, x + 4, y - 4, 2.0f, t->danger);
        }
    }
    for (int n = 0; n < crew->hole_count; n++) {
        hole_mark(ui, at, &crew->holes[n]);
    }
}

static void hand_draw(Ui *ui, const WallPlace *at, const Wall *w)
{
    const UiTheme *t = ui->theme;
    float x = wall_px(at, w->x_m), y = wall_py(at, w->y_m), arm = 14.0f;
    if (w->is_measuring) {
        ui_line(ui, wall_px(at, w->tape_x_m), wall_py(at, w->tape_y_m), x, y, 3.0f, t->warn);
    }
    ui_arc(ui, x, y, 9.0f, 0.0, 6.2832, 2.0f, t->accent);
    for (int k = 0; k < 4; k++) {
        float dx = k == 0   ? 1.0f
                   : k == 1 ? -1.0f
                            : 0.0f,
              dy = k == 2   ? 1.0f
                   : k == 3 ? -1.0f
                            : 0.0f;
        ui_line(ui, x + dx * 5.0f, y + dy * 5.0f, x + dx * arm, y + dy * arm, 2.0f, t->accent);
    }
}

void wall_face_draw(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Wall *w = app->wall;
    ui_layer(ui, &at->r);
    ui_rect(ui, at->r.x, at->r.y, at->r.w, at->r.h, t->sheet);
    ui_rect(ui, at->r.x, at->r.y + at->r.h - 8.0f, at->r.w, 1.0f, t->edge);
    shades_draw(ui, at, w->crew);
    lumber_draw(ui, at, w);
    wall_cutouts_draw(ui, at, w->crew->cutouts, w->crew->cutout_count);
    covers_draw(ui, at, w->crew);
    parts_draw(ui, at, w);
    marks_draw(ui, at, w->crew);
    wall_work_draw(app, at);
    hand_draw(ui, at, w);
    ui_layer(ui, NULL);
    ui_frame(ui, at->r, 2.0f, t->ink);
}
