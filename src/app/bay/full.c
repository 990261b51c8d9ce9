/* All the rest (F4): every slider and panel of the bay room. The bay keeps its true proportion and
 * everything that has a height sits beside it on the same scale. When room is short the travel
 * chart becomes a tab, then the close look does. What is in each part stands in its own file. */
#include "bay/bay.h"

#include <math.h>

typedef struct Layout {
    GfxRect hands, travel, bay_inner, look, gauges;
    float stud, scale_x, lane;
    double px_m;
    int is_travel_beside, is_look_beside;
} Layout;

static double lerp(double a, double b, double t)
{
    t = t < 0.0 ? 0.0 : t > 1.0 ? 1.0 : t;
    return a + (b - a) * t;
}

/* `strip`: height of the row over the middle that the switches take when the band is full.
 * `is_beside`: the close look may stand beside the bay. */
static Layout arranged(const App *app, float strip, int is_beside)
{
    Layout l = {0};
    Ui *ui = app->ui;
    const PbExercise *e = &app->run.config.exercise;
    double d = app->win.display_scale, T = app->laid->text_scale,
           wide = (app->win.width / d - 1280.0) / 640.0;
    float W = (float)app->win.width, H = (float)app->win.height, band = app_band_height(app);
    float top = band + 14.0f, high = H - top - 16.0f;
    float hands_w = (float)(lerp(196, 248, wide) * (1.0 + 0.62 * (T - 1.0)) * d);
    double gauge = app->win.width / d < 1200.0 ? 280.0 : lerp(314, 420, wide);
    float gauges_w = (float)(gauge * (1.0 + (T >= 1.7 ? 0.36 : 0.48) * (T - 1.0)) * d);
    float gap = 20.0f;
    l.hands = (GfxRect){16.0f, top, hands_w, high};
    l.gauges = (GfxRect){W - 16.0f - gauges_w, top, gauges_w, high};
    float x0 = l.hands.x + hands_w + gap, x1 = l.gauges.x - gap;
    float tabs = ui_px(ui, 44), scale_w = ui_px(ui, 42);

    l.is_look_beside = is_beside && T < 1.7;
    l.is_travel_beside = app->task.sight == SIGHT_OPEN && l.is_look_beside &&
                         app->win.width / d >= 1200.0 && T < 1.3;
    float bay_top = top + strip + (l.is_look_beside ? 0.0f : tabs), bay_high = H - 16.0f - bay_top;
    /* Wood is in proportion, but never more than a fifth of the opening. */
    double px_m = (double)(bay_high - 8.0f) / (e->height_m + 3.2 * 0.038);
    double most = (double)(x1 - x0 - scale_w) * (l.is_look_beside ? 0.30 : 0.5);
    px_m = fmin(px_m, most / (e->width_m + 0.076));
    l.px_m = px_m;
    l.stud = floorf((float)fmax(0.038 * px_m * 0.85, 7.0));
    float in_w = floorf((float)(e->width_m * px_m)), in_h = floorf((float)(e->height_m * px_m));
    float lane = ui_px(ui, 66), bay_w = in_w + 2 * l.stud;
    float rest = x1 - x0 - scale_w - bay_w - lane;
    float travel_w = l.is_travel_beside
                         ? floorf((float)lerp((double)rest * 0.40, (double)rest * 0.47, wide))
                         : 0.0f;
    if (l.is_travel_beside && (travel_w < 140.0f || rest - travel_w - gap < 220.0f)) {
        l.is_travel_beside = 0;
        travel_w = 0.0f;
    }
    float bay_x = x0 + travel_w + scale_w + l.stud;
    if (!l.is_look_beside) {
        bay_x = x0 + scale_w + l.stud + fmaxf((x1 - x0 - scale_w - bay_w - lane) * 0.25f, 0.0f);
    }
    float plates = 2.1f * l.stud;
    l.bay_inner = (GfxRect){floorf(bay_x), floorf(bay_top + plates), in_w, in_h};
    l.scale_x = l.bay_inner.x - l.stud - 3.0f;
    l.lane = l.bay_inner.x + in_w + l.stud + ui_px(ui, 28);
    l.travel = (GfxRect){x0, top + strip, travel_w, high - strip};
    float look_x = l.bay_inner.x + in_w + l.stud + lane;
    float look_w = fminf(x1 - look_x, (float)(lerp(300, 520, wide) * T * d));
    l.look = (GfxRect){look_x, top + strip, look_w, high - strip};
    if (!l.is_look_beside) {
        l.look = (GfxRect){x0, bay_top, x1 - x0, bay_high};
    }
    return l;
}

/* Between the hose and the gauges, for what stands beside a taped wall. */
static GfxRect taped_room(const App *app, const Layout *l)
{
    float x = l->lane + ui_px(app->ui, 46);
    return (GfxRect){x, l->bay_inner.y, l->gauges.x - 20.0f - x, l->bay_inner.h};
}

/* A close look that would be a slit becomes a tab, and so does what stands beside a taped wall. */
static Layout arrange(const App *app, float strip)
{
    Layout l = arranged(app, strip, 1);
    int is_slit = app->task.sight == SIGHT_TAPED ? taped_room(app, &l).w < taped_side_width(app)
                                                 : l.look.w < ui_px(app->ui, 150);
    return l.is_look_beside && is_slit ? arranged(app, strip, 0) : l;
}

static void bay_part(const App *app, const Layout *l)
{
    Ui *ui = app->ui;
    app->laid->bay = (GfxRect){l->bay_inner.x - l->stud, l->bay_inner.y,
                               l->bay_inner.w + 2 * l->stud + 60.0f, l->bay_inner.h};
    app->laid->bay_px_m = l->px_m;
    app_mark(app, "bay", l->bay_inner);
    wall_scale_draw(app, &app->run.config.exercise, l->bay_inner, l->px_m, l->scale_x);
    wall_draw(app, l->bay_inner, l->px_m);
    wall_tufts_draw(app, (double)l->bay_inner.x, (double)(l->bay_inner.y + l->bay_inner.h),
                    l->px_m);
    ui_layer(ui, NULL);
    wall_frame_draw(app, l->bay_inner, l->stud);
    wall_hose_draw(app, l->bay_inner, l->px_m, l->lane);
    wall_tube_draw(app, l->bay_inner, l->px_m, 0);
    GfxRect mouth = {l->bay_inner.x + (float)(app->run.view->mouth_x_m * l->px_m) - 5.0f,
                     l->bay_inner.y + l->bay_inner.h - (float)(run_mouth_y(&app->run) * l->px_m) -
                         5.0f,
                     10.0f, 10.0f};
    app_mark(app, "mouth", mouth);
}

/* The tabs of an open wall; returns the one that is shown. */
static int middle_tabs(const App *app, GfxRect r, int with_bay)
{
    const char *three[3] = {_("Bay"), _("Close look"), _("Tube position")};
    GfxRect t = {r.x, r.y, r.w, ui_px(app->ui, 34)};
    int first = with_bay ? MIDDLE_BAY : MIDDLE_CLOSE;
    int now = app->bay->middle_tab < first ? first : app->bay->middle_tab;
    ui_segments(app->ui, ID_MIDDLE, t, three + first, 3 - first, now - first);
    app->laid->first_tab = first;
    if (now != app->bay->middle_tab) { /* what is not offered is given up */
        ui_answer(app->ui, ID_MIDDLE, now - first);
    }
    app_mark(app, "middle", t);
    return now;
}

/* Away from the bay the chart has a height scale of its own. */
static void travel_tab(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    GfxRect inner = {0.0f, r.y + ui_px(ui, 8), 0.0f, r.h - ui_px(ui, 34)};
    travel_draw(app, r, inner, (double)inner.h / app->run.config.exercise.height_m, 0);
}

/* Nothing hidden: the bay, then what there is room for beside it. */
static void open_wall(const App *app, const Layout *l, float strip)
{
    Ui *ui = app->ui;
    GfxRect look = l->look;
    if (l->is_travel_beside) {
        travel_draw(app, l->travel, l->bay_inner, l->px_m, 1);
    }
    if (!l->is_look_beside) {
        float top = app_band_height(app) + 14.0f + strip;
        int shown = middle_tabs(app, (GfxRect){look.x, top, look.w, 0.0f}, 1);
        if (shown == MIDDLE_BAY) {
            bay_part(app, l);
            GfxRect legend = {l->lane + ui_px(ui, 46), look.y + look.h * 0.45f, ui_px(ui, 30),
                              look.h * 0.5f};
            if (legend.x + legend.w + ui_px(ui, 44) < look.x + look.w) {
                legend_draw(app, app->run.config.exercise.target_kg_m3, legend);
            }
        } else if (shown == MIDDLE_CLOSE) {
            closelook_draw(app, look);
        } else {
            travel_tab(app, look);
        }
        return;
    }
    bay_part(app, l);
    int shown = MIDDLE_CLOSE;
    if (!l->is_travel_beside) {
        float tab = ui_px(ui, 44);
        shown = middle_tabs(app, look, 0);
        look.y += tab;
        look.h -= tab;
    }
    if (shown == MIDDLE_TRAVEL) {
        travel_tab(app, look);
    } else {
        closelook_draw(app, look);
    }
}

static void taped_wall(const App *app, const Layout *l, float strip)
{
    Ui *ui = app->ui;
    GfxRect beside = taped_room(app, l), whole = l->look;
    int is_tabbed = beside.w < taped_side_width(app);
    if (is_tabbed) {
        const char *tabs[2] = {_("Wall"), _("Mark at the hole")};
        GfxRect at = {whole.x, app_band_height(app) + 14.0f + strip, whole.w, ui_px(ui, 34)};
        ui_segments(ui, ID_MIDDLE, at, tabs, 2, app->bay->middle_tab != MIDDLE_BAY);
        app_mark(app, "middle", at);
        if (app->bay->middle_tab != MIDDLE_BAY) {
            taped_side_draw(app, whole);
            return;
        }
    }
    app->laid->bay = (GfxRect){l->bay_inner.x - l->stud, l->bay_inner.y,
                               l->bay_inner.w + 2 * l->stud + 60.0f, l->bay_inner.h};
    app->laid->bay_px_m = l->px_m;
    app_mark(app, "bay", l->bay_inner);
    wall_scale_draw(app, &app->run.config.exercise, l->bay_inner, l->px_m, l->scale_x);
    taped_wall_draw(app, l->bay_inner, l->px_m);
    wall_frame_draw(app, l->bay_inner, l->stud);
    wall_hose_draw(app, l->bay_inner, l->px_m, l->lane);
    if (!is_tabbed) {
        taped_side_draw(app, beside);
    }
}

void full_draw(const App *app)
{
    app->laid->first_tab = MIDDLE_BAY;
    Layout l = arrange(app, 0.0f);
    float left = l.hands.x + l.hands.w + 20.0f;
    app->laid->middle = (GfxRect){left, l.hands.y, l.gauges.x - 20.0f - left, l.hands.h};
    float strip = bay_band(app);
    strip += guide_strip_draw(app, (GfxRect){app->laid->middle.x, app->laid->middle.y + strip,
                                             app->laid->middle.w, app->laid->middle.h});
    if (strip > 0.0f) {
        l = arrange(app, strip);
    }
    hands_panel_draw(app, l.hands);
    if (app->task.sight == SIGHT_CLOSED) {
        sight_closed_draw(app, (GfxRect){app->laid->middle.x, app->laid->middle.y + strip,
                                         app->laid->middle.w, app->laid->middle.h - strip});
    } else if (app->task.sight == SIGHT_TAPED) {
        taped_wall(app, &l, strip);
    } else {
        open_wall(app, &l, strip);
    }
    gauges_draw(app, l.gauges);
    hands_notice_draw(app);
}

void full_answer(App *app)
{
    const Ui *ui = app->ui;
    double tab;
    hands_panel_answer(app);
    if (ui_answered(ui, ID_MIDDLE, &tab)) {
        app->bay->middle_tab = app->laid->first_tab + (int)tab;
    }
}
