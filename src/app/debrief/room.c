/* The Debrief room: who gets which room on the window, the keys, and what goes on while it is
 * shown. Runs at the left, map and time line on one height and one time scale in the middle, the
 * grade at the right. When room is short the list folds into a button of the top band, then the
 * grade into tabs, then wall and grade take turns. What is in each part stands in its own file. */
#include "debrief/debrief.h"

#include "base/screens.h"

#include "io/clock.h"
#include "io/trouble_words.h"
#include "os/place.h"
#include "store/shelf.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* A frame of the first pass: at least 3.6 s of the run, and more while there is time. Nothing but a
 * bar is drawn meanwhile, so a slow screen is no reason to read slowly. */
enum { SCAN_TICKS = 90 };
static const double SCAN_S = 0.03;

static int scan(App *app, DebriefRun *r)
{
    double began = io_clock_s();
    int is_over = 0;
    do {
        is_over = debrief_run_scan(app, r, SCAN_TICKS);
    } while (!is_over && r->is_open && !r->is_scanned && io_clock_s() - began < SCAN_S);
    return is_over;
}

static int enter(App *app)
{
    typedef struct Whole {
        Debrief room;
        DebriefLaid laid;
    } Whole;
    Whole *whole = calloc(1, sizeof *whole);
    PbError err = {0};
    if (whole == NULL) {
        app_notice(app, _("Not enough memory"), "", 1, 8);
        return 0;
    }
    Debrief *d = &whole->room;
    app->debrief = d;
    d->laid = &whole->laid;
    if (!os_place(OS_HOME, d->place, sizeof d->place)) {
        (void)os_place(OS_PASSING, d->place, sizeof d->place);
    }
    d->filter.learner = d->filter.exercise = d->mates.chosen = d->loss = d->lift = -1;
    d->speed = 2;
    d->view.panel = PANEL_RUBRIC;
    d->box.points = -1.0;
    d->store = app->records.store;
    debrief_rubrics_read(app); /* with those in the store, when it is open */
    if (d->store == NULL) {
        SDL_strlcpy(d->trouble, app->records.trouble, sizeof d->trouble);
        debrief_pick_last(app);
        return 1;
    }
    if (store_setting_get(d->store, "trainer", d->trainer, sizeof d->trainer, &err) != PB_OK) {
        d->trainer[0] = '\0';
    }
    app_exercises(app);
    debrief_refresh(app);
    debrief_pick_last(app);
    return 1;
}

static void leave(App *app)
{
    Debrief *d = app->debrief;
#ifdef PB_HAS_REPORT
    debrief_pdf_end(d);
#endif
    debrief_sure_end(d);
    for (int i = 0; i < DEBRIEF_RUNS; i++) {
        debrief_run_close(&d->runs[i]);
    }
    free(d->grades.list);
    free(d->kept.runs);
    free(d->kept.learners);
    free(d->mates.list);
    free(d->marks.list);
    free(d->course.list);
    free(d->picture.field);
    free(d->picture.hatch);
    free(d);
    app->debrief = NULL;
}

static void update(App *app, double dt_s)
{
    Debrief *d = app->debrief;
    if (scan(app, &d->runs[0])) {
        d->at_s = d->runs[0].end_s; /* the bay as it was left */
        debrief_grade_keep(app);
    }
#ifdef PB_HAS_REPORT
    debrief_pdf_look(app);
#endif
    debrief_sure_look(app);
    if (d->runs[0].is_scanned || !d->runs[0].is_open) {
        debrief_run_scan(app, &d->runs[1], SCAN_TICKS);
    }
    if (!d->runs[0].is_scanned) {
        return;
    }
    if (d->is_playing) {
        debrief_go(app, d->at_s + dt_s * debrief_speeds[d->speed]);
        d->is_playing = d->at_s < debrief_span(d) - 1e-9;
    }
    for (int i = 0; i < DEBRIEF_RUNS; i++) {
        debrief_run_seek(&d->runs[i], fmin(d->at_s, d->runs[i].end_s));
    }
}

static void step_loss(App *app, int by)
{
    Debrief *d = app->debrief;
    const PbScore *s = &d->runs[0].watched.score;
    if (!d->runs[0].watched.has_score || s->loss_count == 0) {
        return;
    }
    int rank = d->loss >= 0 ? debrief_loss_rank(s, d->loss) + by : by > 0 ? 1 : s->loss_count;
    rank = rank < 1 ? s->loss_count : rank > s->loss_count ? 1 : rank;
    debrief_choose_loss(app, debrief_loss_at_rank(s, rank));
}

static int room_key(App *app, SDL_Keycode key, int shift)
{
    Debrief *d = app->debrief;
    switch (key) {
    case SDLK_ESCAPE:
        if (d->filter.open != FILTER_NONE) {
            d->filter.open = FILTER_NONE;
        } else {
            app_go(app, SCREEN_DOOR);
        }
        return 1;
    case SDLK_p:
        debrief_play(app);
        return 1;
    case SDLK_COMMA:
    case SDLK_PERIOD:
        d->is_playing = 0;
        debrief_go(app, d->at_s + (key == SDLK_COMMA ? -1.0 : 1.0) * (shift ? 5.0 : PB_TICK_S));
        return 1;
    case SDLK_LEFTBRACKET:
        d->speed -= d->speed > 0;
        return 1;
    case SDLK_RIGHTBRACKET:
        d->speed += d->speed < DEBRIEF_SPEEDS - 1;
        return 1;
    case SDLK_HOME:
        debrief_go(app, 0.0);
        return 1;
    case SDLK_END:
        debrief_go(app, debrief_span(d));
        return 1;
    case SDLK_n:
        step_loss(app, shift ? -1 : 1);
        return 1;
    case SDLK_g:
        d->view.is_course = !d->view.is_course;
        return 1;
    case SDLK_b:
        debrief_next_mate(app);
        return 1;
    case SDLK_u:
        debrief_sure_ask(app);
        return 1;
    case SDLK_r:
        debrief_rubric_choose(app, d->rubrics.chosen + 1);
        return 1;
    default:
        return 0;
    }
}

static int input(App *app, const SDL_Event *e)
{
    int focus = app->ui->focus;
    if (e->type != SDL_KEYDOWN || (e->key.keysym.mod & KMOD_CTRL) != 0) {
        return 0;
    }
    SDL_Keycode key = e->key.keysym.sym;
    int is_text = focus == ID_D_TEXT || focus == ID_D_NAME || focus == ID_D_PLACE;
    if (is_text && key != SDLK_ESCAPE) {
        return 0; /* something to type in: its letters are letters */
    }
    if (focus == ID_D_POINTS && (key == SDLK_HOME || key == SDLK_END)) {
        return 0; /* the slider's own */
    }
    if (key == SDLK_SPACE &&
        (!app->ui->is_ring_shown || app->ui->focus == ID_D_SCRUB || app->ui->focus == 0)) {
        debrief_play(app);
        return 1;
    }
    return room_key(app, key, (e->key.keysym.mod & KMOD_SHIFT) != 0);
}

/* The empty room, or a run that is being read. */
static int waiting(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const DebriefRun *run = &d->runs[0];
    char none[200], trouble[sizeof d->trouble];
    debrief_none_words(app, none, sizeof none);
    io_trouble_words(d->trouble, app->taste.lang, trouble, sizeof trouble);
    const char *why = run->is_open ? NULL
                      : trouble[0] ? trouble
                      : none[0]    ? none
                                : _("No saved runs yet. Pick a name on the start screen and pack a "
                                    "bay; the run shows up here.");
    if (why != NULL) {
        ui_paragraph(ui, r.x, r.y + ui_px(ui, 40), fminf(r.w, ui_px(ui, 520)), 16, UI_REGULAR,
                     d->trouble[0] ? t->danger : t->ink, why);
        return 1;
    }
    if (!run->is_scanned) {
        float done =
            (float)pb_replay_tick(run->watched.replay) / fmaxf((float)run->file.last_tick, 1.0f);
        GfxRect bar = {r.x, r.y + ui_px(ui, 60), fminf(r.w, ui_px(ui, 360)), ui_px(ui, 10)};
        ui_label(ui, r.x, r.y + ui_px(ui, 48), 14, UI_REGULAR, t->ink, UI_LEFT,
                 _("Running the recording again"));
        ui_rect(ui, bar.x, bar.y, bar.w, bar.h, t->well);
        ui_rect(ui, bar.x, bar.y, bar.w * done, bar.h, t->ink2);
        ui_frame(ui, bar, 1.0f, t->edge);
        return 1;
    }
    return 0;
}

/* The colours of the map and its figures; returns the height of the words. Not drawn, it is
 * measured. */
static float under_map(const App *app, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    const DebriefRun *run = &app->debrief->runs[0];
    const GfxColor none = {0, 0, 0, 0}, ink = is_drawn ? ui->theme->ink2 : none;
    char text[160];
    float w = fminf(r.w * 0.38f, ui_px(ui, 230)), y = r.y + ui_px(ui, 12);
    if (is_drawn) {
        legend_draw(app, run->file.exercise.target_kg_m3, (GfxRect){r.x, r.y, w, ui_px(ui, 13)});
    }
    SDL_snprintf(text, sizeof text, _("%s, hatched = under"), app_unit(app, IO_UNIT_DENSITY));
    float x = r.x + w + ui_px(ui, 12), room = r.w - w - ui_px(ui, 162);
    y += ui_paragraph(ui, x, y, room, 12, UI_REGULAR, ink, text) + ui_px(ui, 1);
    SDL_snprintf(text, sizeof text, _("mean %s   softest 5%% %s"),
                 app_fmt_density(app, run->watched.result.mean_kg_m3, 0),
                 app_fmt_density(app, run->watched.result.p5_patch_kg_m3, 0));
    y += ui_paragraph(ui, x, y, room, 12, UI_REGULAR, ink, text);
    return y - r.y - ui_px(ui, 12);
}

static void now_line(const App *app, float top, float bottom)
{
    Ui *ui = app->ui;
    float x = floorf(debrief_x(app, app->debrief->at_s));
    ui_rect(ui, x - 1.0f, top, 2.0f, bottom - top, ui->theme->accent);
}

static void middle(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    const PbExercise *e = &d->runs[0].file.exercise;
    int both = d->runs[1].is_open && d->runs[1].is_scanned;
    float scale_w = ui_px(ui, 40), head = ui_px(ui, 24), foot = ui_px(ui, 77);
    float words = fmaxf(under_map(app, r, 0), ui_px(ui, 35));
    foot += words;
    float strips = floorf(
        fminf(fmaxf(r.h * 0.26f, ui_px(ui, r.h < ui_px(ui, 520) ? 106 : 140)), ui_px(ui, 240)));
    float room = r.h - head - foot - strips - ui_px(ui, 26);
    page_needs(app, ui_px(ui, 190) - room); /* less shows no wall */
    double px_m = (double)room / (e->height_m + 0.12);
    px_m = fmin(px_m, (double)(r.w * (both ? 0.20f : 0.24f)) / (e->width_m + 0.08));
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 6.0));
    GfxRect inner = {floorf(r.x + scale_w + stud), floorf(r.y + head + 2.2f * stud),
                     floorf((float)(e->width_m * px_m)), floorf((float)(e->height_m * px_m))};
    GfxRect second = inner;
    second.x = floorf(inner.x + inner.w + 2.0f * stud + ui_px(ui, 26));
    float end = (both ? second.x : inner.x) + inner.w + stud;
    float names = fmaxf(end + ui_px(ui, 24), r.x + debrief_play_width(app) + ui_px(ui, 28));
    const char *other = d->runs[1].is_reference ? _("Reference") : d->runs[1].learner;
    float other_x = second.x - stud, other_w = ui_width(ui, 12, UI_REGULAR, other) + ui_px(ui, 8);
    names = both ? fmaxf(names, other_x + fminf(other_w, ui_px(ui, 90))) : names;
    d->laid->chart = (GfxRect){names, r.y, r.x + r.w - names - ui_px(ui, 8), 0.0f};
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 16, UI_BOLD, ui->theme->ink, UI_LEFT, _("Density"));
    ui_words(ui, (GfxRect){names, r.y - ui_px(ui, 5), d->laid->chart.w, ui_px(ui, 28)}, 16, UI_BOLD,
             ui->theme->ink, UI_LEFT, _("Tube position"));
    wall_scale_draw(app, e, inner, px_m, inner.x - stud - 3.0f);
    if (both) {
        debrief_map_draw(app, second, px_m, 1);
        GfxRect over = {other_x, r.y - ui_px(ui, 5), names - other_x - ui_px(ui, 6), ui_px(ui, 28)};
        ui_words(ui, over, 12, UI_REGULAR, ui->theme->accent, UI_LEFT, other);
    }
    debrief_map_draw(app, inner, px_m, 0);
    float bottom = inner.y + inner.h;
    GfxRect travel = {d->laid->chart.x, inner.y - 2.0f * stud, d->laid->chart.w,
                      bottom - inner.y + 2.0f * stud};
    float strips_y = bottom + stud * 1.1f + ui_px(ui, 14);
    GfxRect strip = {d->laid->chart.x, strips_y, d->laid->chart.w,
                     r.y + r.h - foot - ui_px(ui, 4) - strips_y};
    now_line(app, travel.y, strip.y + strip.h);
    debrief_travel_draw(app, travel, inner, px_m);
    debrief_strips_draw(app, strip, r.x);
    now_line(app, strip.y, strip.y + strip.h - ui_px(ui, 12));
    debrief_chart_drag(
        app, (GfxRect){d->laid->chart.x, travel.y, d->laid->chart.w, strip.y + strip.h - travel.y});
    GfxRect transport = {r.x, r.y + r.h - foot, r.w, ui_px(ui, 40)};
    debrief_transport_draw(app, transport, d->laid->chart.x);
    under_map(app, (GfxRect){r.x, r.y + r.h - words, r.w, 0.0f}, 1);
}

static float between(float v, float low, float high)
{
    return v < low ? low : v > high ? high : v;
}

static void lay(const App *app)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    float d_scale = (float)app->win.display_scale,
          room = ui->width / d_scale / (float)app->laid->text_scale;
    int is_folded = room < 1100.0f, takes_turns = room < 760.0f;
    float top = app_band_height(app) + 12.0f, bottom = ui->height - 14.0f, gap = 22.0f;
    GfxRect r = {16.0f, top, ui->width - 32.0f, bottom - top};
    debrief_band_draw(app, is_folded);
    float taken = debrief_held_draw(app, r);
    r.y += taken;
    r.h -= taken;
    if (!is_folded || d->view.is_list_open || !d->runs[0].is_open) {
        float w = between(ui->width * 0.14f, ui_px(ui, 176), ui_px(ui, 240));
        w = takes_turns ? r.w : is_folded ? fminf(ui_px(ui, 260), r.w) : w;
        debrief_side_draw(app, (GfxRect){r.x, r.y, w, r.h});
        r.x += w + gap;
        r.w -= w + gap;
    }
    if (r.w < ui_px(ui, 200) || waiting(app, r)) {
        return;
    }
    if (d->view.is_course) {
        debrief_course_draw(app, r);
        return;
    }
    if (takes_turns || (is_folded && d->view.is_list_open)) {
        const char *names[2] = {_("Wall"), _("Grade")};
        GfxRect tabs = {r.x, r.y, fminf(r.w, ui_px(ui, 240)), ui_px(ui, 32)};
        ui_segments(ui, ID_D_TURN, tabs, names, 2, d->view.turn);
        app_mark(app, "turn", tabs);
        GfxRect rest = {r.x, r.y + ui_px(ui, 42), r.w, r.h - ui_px(ui, 42)};
        if (d->view.turn == 0) {
            middle(app, rest);
        } else {
            debrief_grade_draw(app, rest);
        }
        return;
    }
    float grade_w = between(ui->width * 0.29f, ui_px(ui, 300), ui_px(ui, 460));
    GfxRect right = {r.x + r.w - grade_w, r.y, grade_w, r.h};
    middle(app, (GfxRect){r.x, r.y, r.w - grade_w - gap, r.h});
    debrief_grade_draw(app, right);
}

static void answer(App *app)
{
    double turn;
    debrief_band_answer(app);
    debrief_held_answer(app);
    debrief_side_answer(app);
    if (ui_answered(app->ui, ID_D_TURN, &turn)) {
        app->debrief->view.turn = (int)turn;
    }
    debrief_time_answer(app);
    debrief_grade_answer(app);
}

static int moves(const App *app)
{
    const Debrief *d = app->debrief;
    int is_scanning = 0;
    for (int i = 0; i < DEBRIEF_RUNS; i++) {
        is_scanning |= d->runs[i].is_open && !d->runs[i].is_scanned;
    }
    return d->is_playing || is_scanning;
}

const Screen scr_debrief = {.enter = enter,
                            .answer = answer,
                            .leave = leave,
                            .update = update,
                            .moves = moves,
                            .lay = lay,
                            .input = input,
                            .field = debrief_field,
                            .word = "debrief",
                            .title = N_("Debrief"),
                            .least_px = 560.0f};
