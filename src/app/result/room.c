/* After the run: the density map with its soft spots by height, what was packed against what the
 * bay should take, the marks part by part, the lifts, and the way back for another try. */
#include "base/soft_spots.h"
#include "result/result.h"

#include "io/score_words.h"

#include "core/units.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void spots_draw(const App *app, GfxRect inner, double px_m, float stud, float x, float w)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    SoftSpot spots[SOFT_SPOTS_MAX];
    char text[120];
    const GfxColor none = {0, 0, 0, 0};
    int n = soft_spots(run->patches, run->patch_count, run->config.exercise.target_kg_m3,
                       run->config.constants.void_kg_m3, spots);
    float bottom = inner.y + inner.h, last = bottom + ui_px(ui, 60), step = ui_px(ui, 42);
    if (n == 0) {
        ui_paragraph(ui, x, inner.y + ui_px(ui, 20), w, 14, UI_BOLD, t->ink,
                     _("No soft spot: every patch is at target."));
        return;
    }
    for (int i = 0; i < n; i++) {
        float y0 = bottom - (float)(spots[i].y0_m * px_m),
              y1 = bottom - (float)(spots[i].y1_m * px_m);
        SDL_snprintf(text, sizeof text,
                     spots[i].kind == SOFT_EMPTY  ? _("void, %s")
                     : spots[i].kind == SOFT_PART ? _("part void, %s")
                                                  : _("softest %s"),
                     app_fmt_density(app, spots[i].kg_m3, 1));
        float more = ui_paragraph(ui, 0, 0, w, 13, UI_REGULAR, none, text) - ui_px(ui, 18);
        float mid = fminf(0.5f * (y0 + y1), last - step - more);
        mid = fmaxf(mid, inner.y + ui_px(ui, 14));
        float bx = inner.x + inner.w + stud + 6.0f;
        ui_rect(ui, bx, y1 + 1, 2.0f, y0 - y1 - 2, spots[i].kind != SOFT_LOW ? t->danger : t->ink);
        ui_line(ui, bx + 2, 0.5f * (y0 + y1), x - 6.0f, mid, 1.0f, t->edge);
        ui_paragraph(ui, x, mid + ui_px(ui, 17), w, 13, UI_REGULAR,
                     spots[i].kind != SOFT_LOW ? t->danger : t->ink2, text);
        SDL_snprintf(text, sizeof text, _("%s to %s"), app_fmt_length(app, spots[i].y0_m),
                     app_fmt_length(app, spots[i].y1_m));
        ui_label(ui, x, mid, 14, UI_BOLD, t->ink, UI_LEFT, text);
        last = mid;
    }
}

static float part_row(const App *app, GfxRect r, float y, const PbScorePart *p, int shown,
                      int is_tight)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    char text[260], points[32];
    float high = ui_px(ui, 10), bar_w = r.w * 0.30f, squeeze = is_tight ? ui_px(ui, 4) : 0.0f;
    SDL_snprintf(points, sizeof points, "%s / %s", app_fmt(app, 0, shown, ""),
                 app_fmt_points(app, p->max));
    const char *name = io_part_name(p->kind, app->taste.lang);
    float used = ui_label(ui, r.x, y + ui_px(ui, 16) - squeeze, 14, UI_BOLD, t->ink, UI_LEFT, name);
    bar_w = fmaxf(fminf(bar_w, r.w - ui_px(ui, 68 + 10) - used), 0.0f); /* the name comes first */
    ui_label(ui, r.x + r.w, y + ui_px(ui, 16) - squeeze, 14, UI_BOLD, t->ink, UI_RIGHT, points);
    GfxRect bar = {r.x + r.w - ui_px(ui, 68) - bar_w, y + ui_px(ui, 6) - squeeze, bar_w, high};
    ui_rect(ui, bar.x, bar.y, bar.w, bar.h, t->well);
    ui_rect(ui, bar.x, bar.y, bar.w * (float)(p->points / p->max), bar.h, t->ink2);
    ui_frame(ui, bar, 1.0f, t->edge);
    result_fault_text(app, p, shown, text, sizeof text);
    used = ui_paragraph(ui, r.x, y + ui_px(ui, 35) - 1.6f * squeeze, r.w, is_tight ? 12 : 13,
                        UI_REGULAR, t->ink2, text);
    float bottom = y + ui_px(ui, 26) + used - 2.4f * squeeze;
    ui_rect(ui, r.x, bottom, r.w, 1.0f, t->rule);
    return bottom + ui_px(ui, is_tight ? 3 : 5);
}

static float grade(const App *app, GfxRect r, int is_tight)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbScore *s = &app->run.watched.score;
    float y = r.y + ui_px(ui, 30);
    float w = ui_label(ui, r.x, y, 34, UI_BOLD, t->ink, UI_LEFT, app_fmt_mark(app, s->total));
    int shown[PB_SCORE_PARTS];
    io_parts_shown(s, shown);
    const char *leave = app->run.config.exercise.must_not_fill;
    char text[80];
    SDL_snprintf(text, sizeof text, _("passing score %s"),
                 app_fmt_points(app, app->run.config.exercise.pass_score));
    char sum[80];
    io_sum_words(s, app_reader(app), sum, sizeof sum);
    const char *said = result_verdict(app);
    float x = r.x + w + ui_px(ui, 10), end = r.x + r.w;
    float left =
        fmaxf(ui_width(ui, 14, UI_REGULAR, _("of 100")), ui_width(ui, 13, UI_REGULAR, sum));
    float right = fmaxf(ui_width(ui, 16, UI_BOLD, said), ui_width(ui, 13, UI_REGULAR, text));
    ui_label(ui, x, y - ui_px(ui, 13), 14, UI_REGULAR, t->ink2, UI_LEFT, _("of 100"));
    ui_label(ui, x, y + ui_px(ui, 4), 13, UI_REGULAR, t->ink2, UI_LEFT, sum);
    int is_under = x + left + ui_px(ui, 10) + right > end; /* both do not go on one line */
    y += is_under ? ui_px(ui, 40) : 0.0f;
    ui_label(ui, is_under ? r.x : end, y - ui_px(ui, 13), 16, UI_BOLD,
             s->is_pass ? t->ink : t->danger, is_under ? UI_LEFT : UI_RIGHT, said);
    ui_label(ui, is_under ? r.x : end, y + ui_px(ui, 4), 13, UI_REGULAR, t->ink2,
             is_under ? UI_LEFT : UI_RIGHT, text);
    y += ui_px(ui, 12);
    ui_rect(ui, r.x, y, r.w, 2.0f, t->ink);
    y += ui_px(ui, 4);
    if (leave[0] != '\0') {
        y += ui_px(ui, 20);
        return y + ui_paragraph(ui, r.x, y, r.w, 14, UI_REGULAR, t->ink, _(leave));
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        y = part_row(app, r, y, &s->parts[i], shown[i], is_tight);
    }
    return y;
}

static float fact(const App *app, GfxRect r, float y, const char *name, const char *value)
{
    Ui *ui = app->ui;
    float wide =
        ui_width(ui, 14, UI_REGULAR, name) + ui_width(ui, 14, UI_BOLD, value) + ui_px(ui, 10);
    ui_label(ui, r.x, y + ui_px(ui, 15), 14, UI_REGULAR, ui->theme->ink2, UI_LEFT, name);
    y += wide > r.w ? ui_px(ui, 19) : 0.0f;
    ui_label(ui, r.x + r.w, y + ui_px(ui, 15), 14, UI_BOLD, ui->theme->ink, UI_RIGHT, value);
    return y + ui_px(ui, 23);
}

static float facts(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const PbResult *k = &app->run.watched.result;
    const PbExercise *e = &app->run.config.exercise;
    char text[120];
    double wanted = k->fillable_volume_m3 * e->target_kg_m3;
    float y = r.y;
    ui_label(ui, r.x, y + ui_px(ui, 15), 16, UI_BOLD, ui->theme->ink, UI_LEFT, _("What went in"));
    y += ui_px(ui, 26);
    ui_rect(ui, r.x, y - 2, r.w, 1.0f, ui->theme->ink2);
    y = fact(app, r, y, _("Mean density"), app_fmt_density(app, k->mean_kg_m3, 1));
    SDL_snprintf(text, sizeof text, "%s", app_fmt(app, 0, k->share_at_target * 100.0, "%"));
    y = fact(app, r, y, _("Patches at target"), text);
    y = fact(app, r, y, _("In the bay"), app_fmt_mass(app, k->mass_in_bay_kg));
    y = fact(app, r, y, _("Lost on the way"), app_fmt_mass(app, k->mass_lost_kg));
    if (e->bag_kg > 0.0) {
        y = fact(app, r, y, _("Bags used"), app_fmt(app, 2, k->bags, ""));
        y = fact(app, r, y, _("Bags by the chart"), app_fmt(app, 2, wanted / e->bag_kg, ""));
    }
    SDL_snprintf(text, sizeof text, _("Time (usual: %s)"), app_fmt_clock(app, pb_usual_s(e)));
    y = fact(app, r, y, text, app_fmt_clock(app, k->duration_s));
    SDL_snprintf(text, sizeof text, "%" PRIu64, app->run.config.seed);
    return fact(app, r, y, _("Seed"), text); /* for who shall have the same */
}

static float lift_table(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *v = app->run.view;
    const char *heads[5] = {_("stop"), app->taste.is_us ? _("height ft") : _("height m"),
                            app->taste.is_us ? _("pull ft") : _("pull m"), _("time s"),
                            app_unit(app, IO_UNIT_DENSITY)};
    double unit = app->taste.is_us ? PB_M_PER_FT : 1.0;
    float y = r.y + ui_px(ui, 15), row = ui_px(ui, 19);
    ui_label(ui, r.x, y, 16, UI_BOLD, t->ink, UI_LEFT, _("Stops"));
    y += ui_px(ui, 22);
    float at[5] = {r.x + r.w * 0.10f, r.x + r.w * 0.34f, r.x + r.w * 0.55f, r.x + r.w * 0.76f,
                   r.x + r.w};
    int wraps = 0;
    for (int k = 0; k < 5; k++) {
        float from = k > 0 ? at[k - 1] + ui_px(ui, k > 1 ? 4 : 12) : r.x;
        float room = k > 0 ? at[k] - from : r.w * 0.2f;
        wraps |= ui_width(ui, UI_LEAST_PX, UI_REGULAR, heads[k]) > room;
        ui_words(ui, (GfxRect){from, y - ui_px(ui, 20), room, ui_px(ui, 26)}, 12, UI_REGULAR,
                 t->ink2, k ? UI_RIGHT : UI_LEFT, heads[k]);
    }
    y += wraps ? ui_px(ui, 8) : 0.0f; /* the second line of a head */
    ui_rect(ui, r.x, y + ui_px(ui, 5), r.w, 1.0f, t->ink2);
    int shown = 0;
    for (int i = 0; i < v->lift_count; i++) {
        const PbLift *l = &v->lifts[i];
        if (!pb_is_stop(l, &app->run.watched.rubric)) {
            continue;
        }
        y += row;
        shown++;
        int soft = l->density_kg_m3 < app->run.config.exercise.target_kg_m3;
        UiWeight wt = soft ? UI_BOLD : UI_REGULAR;
        if (soft) {
            ui_rect(ui, r.x, y - row * 0.75f, r.w, row, t->danger_wash);
        }
        ui_label(ui, at[0], y, 13, wt, t->ink, UI_RIGHT, app_fmt(app, 0, shown, ""));
        ui_label(ui, at[1], y, 13, wt, t->ink, UI_RIGHT, app_fmt(app, 2, l->mouth_y_m / unit, ""));
        ui_label(ui, at[2], y, 13, wt, t->ink, UI_RIGHT,
                 l->step_m > 0.0 ? app_fmt(app, 2, l->step_m / unit, "") : "–");
        ui_label(ui, at[3], y, 13, wt, t->ink, UI_RIGHT, app_fmt(app, 0, l->to_s - l->from_s, ""));
        ui_label(ui, at[4], y, 13, wt, soft ? t->danger : t->ink, UI_RIGHT,
                 app_fmt_density(app, l->density_kg_m3, 0));
    }
    return y;
}

/* What comes next. */
enum { BUTTONS = 5 };

static const struct {
    int id;
    const char *mark, *words;
} next_steps[BUTTONS] = {{ID_AGAIN, "again", N_("Pack it again")},
                         {ID_TO_DEBRIEF, "debrief", N_("Debrief")},
                         {ID_TO_YEARS, "years", N_("Years later")},
                         {ID_TO_SIDE, "side", N_("Side by side")},
                         {ID_LEAVE, "leave", N_("Leave")}};

static const char *step_words(const App *app, int i)
{
    return i == 0 && guide_is_done(app) ? _("Start exercise 1") : _(next_steps[i].words);
}

/* In which row each stands, so that all fit; returns the number of rows. */
static int button_rows(const App *app, float w, float wide[BUTTONS], int row[BUTTONS])
{
    Ui *ui = app->ui;
    float gap = ui_px(ui, 8), used = 0.0f;
    int rows = 0;
    for (int i = 0; i < BUTTONS; i++) {
        wide[i] = ui_width(ui, 14, UI_BOLD, step_words(app, i)) + ui_px(ui, 14);
        rows += used > 0.0f && used + wide[i] > w;
        used = i > 0 && rows != row[i - 1] ? 0.0f : used;
        used += wide[i] + gap;
        row[i] = rows;
    }
    return rows + 1;
}

static float buttons_high(const App *app, float w)
{
    float wide[BUTTONS];
    int row[BUTTONS];
    return (float)button_rows(app, w, wide, row) * ui_px(app->ui, 46) - ui_px(app->ui, 8);
}

static void buttons(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    float wide[BUTTONS], gap = ui_px(ui, 8), high = ui_px(ui, 38);
    int row[BUTTONS];
    (void)button_rows(app, r.w, wide, row);
    for (int from = 0, to; from < BUTTONS; from = to) {
        float sum = -gap;
        for (to = from; to < BUTTONS && row[to] == row[from]; to++) {
            sum += wide[to] + gap;
        }
        float spare = (r.w - sum) / (float)(to - from), x = r.x;
        for (int i = from; i < to; i++) {
            GfxRect b = {floorf(x), r.y + (high + gap) * (float)row[i], floorf(wide[i] + spare),
                         high};
            app_mark(app, next_steps[i].mark, b);
            ui_button(ui, next_steps[i].id, b, step_words(app, i), i == 0, 0);
            x += wide[i] + spare + gap;
        }
    }
}

static float danger_band(const App *app, float x, float y, float w)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float high = ui_px(ui, 58), s = ui_px(ui, 15), cx = x + ui_px(ui, 32), cy = y + high * 0.5f;
    UiPoint oct[8];
    char title[160];
    SDL_snprintf(title, sizeof title, _("Blow-out at %s"),
                 app_fmt_length(app, app->run.blow_out_y_m));
    for (int i = 0; i < 8; i++) {
        double a = 0.392699 + 0.785398 * i;
        oct[i] = (UiPoint){cx + s * (float)cos(a), cy + s * (float)sin(a)};
    }
    ui_round(ui, (GfxRect){x, y, w, high}, ui_px(ui, 6), t->danger);
    ui_round_line(ui, (GfxRect){x, y, w, high}, ui_px(ui, 6), 2.0f, t->ink);
    ui_polygon(ui, oct, 8, t->white);
    ui_rect(ui, cx - s * 0.5f, cy - 2, s, 4.0f, t->danger);
    ui_label(ui, x + ui_px(ui, 62), y + ui_px(ui, 24), 14, UI_BOLD, t->white, UI_LEFT, title);
    ui_label(ui, x + ui_px(ui, 62), y + ui_px(ui, 45), 14, UI_REGULAR, t->white, UI_LEFT,
             _("Machine off. The run has ended."));
    return high + ui_px(ui, 12);
}

/* Travel, figures, lifts and marks side by side, as many as there is room for. */
static void columns(const App *app, GfxRect r, GfxRect inner, double px_m)
{
    Ui *ui = app->ui;
    float gap = 24.0f, top = r.y, bottom = r.y + r.h;
    double wide = (double)ui->width / app->win.display_scale;
    int is_wide = wide >= 1700.0 && app->laid->text_scale < 1.3;
    int with_travel = wide >= 1200.0 && app->laid->text_scale < 1.3;
    float split = fminf(r.w * (is_wide ? 0.34f : 0.5f), ui_px(ui, 520));
    GfxRect right = {ui->width - 16.0f - split, top, split, r.h};
    GfxRect mid = {r.x, top, right.x - gap - r.x, r.h};
    float high = buttons_high(app, right.w);
    float y = guide_is_done(app)
                  ? top
                  : grade(app, right, with_travel && !is_wide && r.h < ui_px(ui, 590));
    if (is_wide) {
        GfxRect list = {mid.x + mid.w * 0.54f, top, mid.w * 0.46f, mid.h};
        mid.w = mid.w * 0.54f - gap;
        float under = facts(app, list) + ui_px(ui, 16);
        page_needs(app, lift_table(app, (GfxRect){list.x, under, list.w, 0.0f}) - bottom);
    } else if (with_travel) {
        y = facts(app, (GfxRect){right.x, y + ui_px(ui, 14), right.w, 0.0f});
    } else {
        float under = facts(app, mid) + ui_px(ui, 16);
        page_needs(app, lift_table(app, (GfxRect){mid.x, under, mid.w, 0.0f}) - bottom);
    }
    if (with_travel) {
        travel_whole_draw(app, mid, inner, px_m);
    }
    page_needs(app, y + ui_px(ui, 8) - (bottom - high));
    buttons(app, (GfxRect){right.x, bottom - high, right.w, high});
}

/* Whose run it was, and whether it is kept. */
static void detail_words(const App *app, char *out, size_t size)
{
    const char *learner = app->records.kept;
    SDL_snprintf(out, size, "%s: ", _(app->run.config.exercise.title));
    size_t used = strlen(out);
    SDL_snprintf(out + used, size - used,
                 learner[0]                     ? _("saved for %s")
                 : app->records.learner_id == 0 ? _("not saved, as no name is picked")
                 : app->records.held_count > 0
                     ? _("the disk will not take it: Debrief can save it elsewhere")
                     : _("not saved"),
                 learner);
    used = strlen(out);
    SDL_snprintf(out + used, size - used, "%s%s", app->task.is_graded ? ", " : "",
                 app->task.is_graded ? _("graded") : "");
}

typedef struct Map {
    GfxRect inner;
    double px_m;
    float right; /* where its notes end */
} Map;

/* The bay at the left with its soft spots and the legend under it. */
static Map map_draw(const App *app, float top, float bottom)
{
    Ui *ui = app->ui;
    const PbExercise *e = &app->run.config.exercise;
    float scale_w = ui_px(ui, 46), note_w = ui_px(ui, 132), legend_h = ui_px(ui, 62);
    float head = ui_px(ui, 26); /* titles of the columns stand beside the plates */
    float bay_high = bottom - top - legend_h - head * 0.5f;
    double px_m = fmin((double)bay_high / (e->height_m + 0.12),
                       0.28 * (double)ui->width / (e->width_m + 0.08));
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 6.0));
    GfxRect inner = {floorf(16.0f + scale_w + stud), floorf(top + fmaxf(2.1f * stud, head)),
                     floorf((float)(e->width_m * px_m)), floorf((float)(e->height_m * px_m))};
    wall_scale_draw(app, e, inner, px_m, inner.x - stud - 3.0f);
    wall_draw(app, inner, px_m);
    ui_layer(ui, NULL);
    wall_frame_draw(app, inner, stud);
    float note_x = inner.x + inner.w + stud + ui_px(ui, 26);
    if (e->must_not_fill[0] == '\0' && !guide_is_done(app)) { /* half was left on purpose */
        spots_draw(app, inner, px_m, stud, note_x, note_w);
    }
    app_mark(app, "map", inner);
    float left_w = note_x + note_w - 16.0f;
    legend_draw(
        app, e->target_kg_m3,
        (GfxRect){16.0f, bottom - ui_px(ui, 36), fminf(left_w, ui_px(ui, 300)), ui_px(ui, 14)});
    return (Map){inner, px_m, 16.0f + left_w};
}

/* Large type: one list at a time, and the sentences are the first of them. */
static int is_tabbed(const App *app)
{
    double wide = (double)app->ui->width / app->win.display_scale / app->laid->text_scale;
    return wide < (app->laid->text_scale < 1.3 ? 780.0 : 1000.0);
}

static void tabbed(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const char *tabs[4] = {_("In short"), _("Points"), _("Material"), _("Stops")};
    int skip = guide_is_done(app), count = 4 - skip; /* half a bay has no points */
    if (skip) {
        tabs[1] = tabs[2];
        tabs[2] = tabs[3];
    }
    GfxRect tab = {r.x, r.y, r.w, ui_segments_high(ui, r.w, tabs, count)};
    int shown = app->task.result_tab < count ? app->task.result_tab : 0;
    ui_segments(ui, ID_TABS, tab, tabs, count, shown);
    shown += shown > 0 ? skip : 0;
    app_mark(app, "middle", tab);
    float high = buttons_high(app, r.w);
    float room = r.h - tab.h - ui_px(ui, 14) - high;
    GfxRect list = {r.x, r.y + tab.h + ui_px(ui, 6), r.w, 1e6f};
    float end = shown == 0   ? list.y + result_short_draw(app, list, 1)
                : shown == 1 ? grade(app, list, 1)
                : shown == 2 ? facts(app, list)
                             : lift_table(app, list);
    page_needs(app, end + ui_px(ui, 8) - list.y - room);
    buttons(app, (GfxRect){r.x, r.y + r.h - high, r.w, high});
}

static void lay_out(const App *app)
{
    Ui *ui = app->ui;
    char detail[300];
    detail_words(app, detail, sizeof detail);
    app_top_band(app, _("How it packed"), detail);
    float top = app_band_height(app) + 14.0f, bottom = ui->height - 16.0f;
    if (app->run.watched.result.blow_out) {
        top += danger_band(app, 16.0f, top, ui->width - 32.0f);
    }
    if (!is_tabbed(app)) {
        GfxRect across = {16.0f, top, ui->width - 32.0f, 0.0f};
        top += result_short_draw(app, across, 0) + ui_px(ui, 12);
    }
    Map map = map_draw(app, top, bottom);
    float x = map.right + 24.0f;
    GfxRect rest = {x, top, ui->width - 16.0f - x, bottom - top};
    if (is_tabbed(app)) {
        tabbed(app, rest);
    } else {
        columns(app, rest, map.inner, map.px_m);
    }
}

static void again(App *app)
{
    if (guide_is_done(app)) {
        guide_first_exercise(app);
    } else {
        app_ask(app, ASK_AGAIN, NULL, 0);
    }
}

static void answer(App *app)
{
    const Ui *ui = app->ui;
    double tab;
    if (ui_answered(ui, ID_TABS, &tab)) {
        app->task.result_tab = (int)tab;
    } else if (ui_answered(ui, ID_AGAIN, NULL)) {
        again(app);
    } else if (ui_answered(ui, ID_TO_DEBRIEF, NULL)) {
        app_go(app, SCREEN_DEBRIEF);
    } else if (ui_answered(ui, ID_TO_YEARS, NULL)) {
        app_go(app, SCREEN_YEARS);
    } else if (ui_answered(ui, ID_TO_SIDE, NULL)) {
        app->turn.is_own_wanted = 1;
        app_go(app, SCREEN_SIDE);
    } else if (ui_answered(ui, ID_LEAVE, NULL)) {
        app_go(app, SCREEN_DOOR);
    }
}

static int input(App *app, const SDL_Event *e)
{
    if (e->type == SDL_KEYDOWN && e->key.keysym.sym == SDLK_ESCAPE && !e->key.repeat) {
        app_go(app, SCREEN_DOOR);
        return 1;
    }
    return 0;
}

static GfxFieldData field(App *app)
{
    return run_field(&app->run);
}

const Screen scr_result = {.lay = lay_out,
                           .answer = answer,
                           .input = input,
                           .field = field,
                           .title = N_("How it packed"),
                           .least_px = 560.0f};
