/* Side by side: the same bay empty, blown loose, foamed and dense packed, in the same weather on
 * one rail of years. The worker is side_job.c, the picture of one moment side_state.c; the pages
 * beside the wall - house, what is assumed, handout - have a file each. Nothing here waits for the
 * worker. */
#include "side/side.h"

#include "io/clock.h"
#include "io/compare_words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void start_job(App *app, Side *s)
{
    PbCompareSetup setup = pb_compare_default();
    PbError err = {0};
    setup.house = s->house;
    setup.constants = app->run.config.constants;
    setup.own = s->house.dense == PB_DENSE_OWN ? &s->own : NULL;
    const SideJob *before[2 + SIDE_KEPT] = {s->job, s->shown};
    for (int i = 0; i < SIDE_KEPT; i++) {
        before[2 + i] = s->kept[i];
    }
    SideJob *job = side_job_start(&setup, s->rail.years, before, 2 + SIDE_KEPT, &err);
    s->is_due = 0;
    if (job == NULL) {
        app_notice(app, _("This house cannot be compared"), err.message, 0, 15);
        s->house = s->job != NULL ? s->job_house : s->house; /* as before */
        return;
    }
    s->is_stopped = 0;
    if (s->job != NULL) {
        side_job_cancel(s->job);
        for (int i = 0; i < SIDE_MAX_DYING && s->job != s->shown; i++) {
            if (s->dying[i] == NULL) {
                s->dying[i] = s->job;
                break;
            }
        }
    }
    s->job = job;
    s->job_house = s->house;
    if (s->shown == NULL) {
        s->shown = job;
        s->shown_house = s->job_house;
    }
}

static int has_room(const Side *s)
{
    int empty = 0;
    for (int i = 0; i < SIDE_MAX_DYING; i++) {
        empty += s->dying[i] == NULL;
    }
    return empty >= 2; /* the one at work and the one shown */
}

/* Do both give the same bays and the same heat, but for the cases? Bytes between members may differ
 * where the members do not: then work is done anew, and no figure is wrong. */
static int is_same_wall(const PbHouse *a, const PbHouse *b)
{
    return a->framing_share == b->framing_share && a->room_c == b->room_c &&
           a->outdoor_c == b->outdoor_c && a->seed == b->seed &&
           /* NOLINTNEXTLINE(bugprone-suspicious-memory-comparison) */
           memcmp(&a->climate, &b->climate, sizeof a->climate) == 0 &&
           memcmp(&a->wall, &b->wall, sizeof a->wall) == 0 && a->cavity.now == b->cavity.now &&
           a->cavity.share == b->cavity.share &&
           /* NOLINTNEXTLINE(bugprone-suspicious-memory-comparison) */
           memcmp(&a->bay, &b->bay, sizeof a->bay) == 0;
}

int side_is_stale(const Side *s, PbCompareFill fill)
{
    const PbHouse *a = &s->house, *b = &s->shown_house;
    return !is_same_wall(a, b) || (fill == PB_COMPARE_LOOSE && a->loose != b->loose) ||
           (fill == PB_COMPARE_FOAM && a->foam != b->foam) ||
           (fill == PB_COMPARE_DENSE && a->dense != b->dense);
}

void side_compare(App *app, const PbHouse *house)
{
    Side *s = app->side;
    PbHouse next = *house;
    PbError err = {0};
    next.bay = house->dense == PB_DENSE_OWN ? s->own_bay : s->bay;
    int is_money = !s->is_due && s->shown == s->job && is_same_wall(&next, &s->house) &&
                   next.loose == s->house.loose && next.foam == s->house.foam &&
                   next.dense == s->house.dense &&
                   pb_compare_set_money(s->job->compare, &next, &err) == PB_OK;
    s->house = next;
    if (is_money) { /* what is worked out stands */
        s->job_house = s->shown_house = next;
        s->blended_of = NULL;
    } else {
        s->is_due = 1;
    }
}

/* Jobs that were asked to stop are kept for a while once their threads have ended: a house of
 * before may be asked for again, or one with the same bay. */
static void bury(Side *s)
{
    for (int i = 0; i < SIDE_MAX_DYING; i++) {
        if (s->dying[i] == NULL || !side_job_is_over(s->dying[i])) {
            continue;
        }
        side_job_free(s->kept[SIDE_KEPT - 1]);
        for (int k = SIDE_KEPT - 1; k > 0; k--) {
            s->kept[k] = s->kept[k - 1];
        }
        s->kept[0] = s->dying[i];
        s->dying[i] = NULL;
    }
}

/* Has everything that the rail's year shows of all four. */
static int is_ready(const SideJob *job, double years)
{
    PbCompareFigures f;
    for (int k = 0; k < PB_COMPARE_FILLS; k++) {
        pb_compare_figures_at(job->compare, (PbCompareFill)k, years, &f);
        if (!f.has_heat || !side_job_has_frames(job, (PbCompareFill)k)) {
            return 0;
        }
    }
    return 1;
}

/* The new answer is shown once it reaches the year that is on screen, or is over without. */
static void catch_up(Side *s)
{
    if (s->shown == s->job || (!is_ready(s->job, s->rail.years) && !side_job_is_over(s->job))) {
        return;
    }
    for (int i = 0; i < SIDE_MAX_DYING; i++) {
        if (s->dying[i] == NULL) {
            s->dying[i] = s->shown;
            s->shown = s->job;
            s->shown_house = s->job_house; /* a newer house may be waiting for its start */
            return;
        }
    }
}

static int take_own(App *app, Side *s)
{
    if (app->run.watched.session == NULL ||
        pb_session_field(app->run.watched.session, &s->own) != PB_OK) {
        return 0;
    }
    s->own_bay = app->run.config.exercise;
    if (pb_field_mass_kg(&s->own) < 0.01) {
        pb_bay_field_destroy(&s->own);
        return 0;
    }
    return 1;
}

static void forget(Side *s)
{
    if (s == NULL) {
        return;
    }
    for (int i = 0; i < SIDE_MAX_DYING; i++) {
        side_job_free(s->dying[i]);
    }
    for (int i = 0; i < SIDE_KEPT; i++) {
        side_job_free(s->kept[i]);
    }
    if (s->shown != s->job) {
        side_job_free(s->shown);
    }
    side_job_free(s->job);
#ifdef PB_HAS_REPORT
    side_proof_forget(s);
#endif
    pb_bay_field_destroy(&s->own);
    free(s->density);
    free(s->marks);
    free(s);
}

static int enter(App *app)
{
    Side *s = calloc(1, sizeof *s);
    double opened_s = io_clock_s();
    if (s == NULL) {
        app_notice(app, _("This house cannot be compared"), _("There is not enough memory."), 0, 8);
        return 0;
    }
    s->opened_s = opened_s;
    s->first_picture_s = s->all_s = -1.0;
    s->blended_years = -1.0;
    s->form.bad = -1;
    s->pair[0] = PB_COMPARE_FOAM;
    s->pair[1] = PB_COMPARE_DENSE;
    /* Never back into Years later, which may have been opened from here. */
    s->back = app->turn.screen == SCREEN_RESULT ||
                      (app->turn.screen == SCREEN_YEARS && app->run.watched.has_score)
                  ? SCREEN_RESULT
                  : SCREEN_DOOR;
    s->has_own = take_own(app, s);
    side_house_first(app, s);
    s->bay = s->house.bay;
    if (app->turn.is_own_wanted && s->has_own) {
        s->house.dense = PB_DENSE_OWN;
        s->house.bay = s->own_bay;
    }
    app->turn.is_own_wanted = 0;
    start_job(app, s);
    if (s->job == NULL) {
        forget(s);
        return 0;
    }
    app->side = s;
    return 1;
}

static void leave(App *app)
{
    forget(app->side);
    app->side = NULL;
}

static void update(App *app, double dt_s)
{
    Side *s = app->side;
    bury(s);
    if (s->is_due && has_room(s)) {
        start_job(app, s);
    }
    pb_compare_look(s->job->compare, s->rail.years);
    catch_up(s);
    int is_drawn = side_job_has_frames(s->shown, PB_COMPARE_LOOSE) &&
                   side_job_has_frames(s->shown, PB_COMPARE_DENSE);
    rail_play(app, &s->rail, dt_s, is_drawn ? 50.0 : 0.0);
    if (s->all_s < 0.0 && side_job_is_over(s->job) && s->shown == s->job) {
        s->all_s = io_clock_s() - s->opened_s;
    }
    side_house_update(app, s);
#ifdef PB_HAS_REPORT
    side_proof_update(app, s);
#endif
    side_blend(app, s);
}

void side_go(App *app, SidePage page)
{
    Side *s = app->side;
    static const int first[SIDE_PAGES] = {ID_SIDE_RAIL,    ID_SIDE_FIELD, ID_SIDE_LIST,
                                          ID_SIDE_COMPANY, ID_SIDE_PROOF, ID_SIDE_LIST};
    if (page == SIDE_HOUSE && s->page != SIDE_HOUSE) {
        side_house_open(app);
    }
#ifdef PB_HAS_REPORT
    if (page == SIDE_PROOF) {
        side_proof_open(app);
    }
#endif
    s->list_scroll_px = s->page != page ? 0.0f : s->list_scroll_px;
    s->page = page;
    app->turn.focus_next = page == SIDE_WALL ? 0 : first[page];
}

static void back(App *app)
{
    if (app->side->page != SIDE_WALL) {
        side_go(app, SIDE_WALL);
    } else {
        app_go(app, app->side->back);
    }
}

static int key(App *app, Side *s, const SDL_KeyboardEvent *k)
{
    switch (k->keysym.sym) {
    case SDLK_ESCAPE:
        back(app);
        return 1;
    case SDLK_F2:
        if (!k->repeat) {
            side_go(app, s->page == SIDE_ASSUMED ? SIDE_WALL : SIDE_ASSUMED);
        }
        return 1;
    default:
        break;
    }
    if (s->page == SIDE_HOUSE || s->page == SIDE_ASSUMED || s->page == SIDE_PROOF ||
        s->page == SIDE_AIR) {
        return 0; /* letters belong to the fields, arrows to the list */
    }
    if (s->page == SIDE_HANDOUT && app->ui->focus == ID_SIDE_COMPANY) {
        return 0; /* letters belong to the name that is typed */
    }
    return rail_key(app, &s->rail, ID_SIDE_PLAY, k);
}

static int input(App *app, const SDL_Event *e)
{
    return e->type == SDL_KEYDOWN && key(app, app->side, &e->key);
}

#ifdef PB_HAS_REPORT
enum { BAND_PAGES = 4 };
#else
enum { BAND_PAGES = 3 }; /* no handout without the printed page */
#endif

typedef struct BandButton {
    int id;
    SidePage page;
    const char *mark;
} BandButton;

static const BandButton band_buttons[4] = {{ID_SIDE_TO_HOUSE, SIDE_HOUSE, "to_house"},
                                           {ID_SIDE_TO_AIR, SIDE_AIR, "to_air"},
                                           {ID_SIDE_TO_ASSUMED, SIDE_ASSUMED, "to_assumed"},
                                           {ID_SIDE_TO_HANDOUT, SIDE_HANDOUT, "to_handout"}};

/* Back, the room, the pages; units, language and text size. */
static void band(const App *app, const Side *s)
{
    Ui *ui = app->ui;
    const BandButton *b = band_buttons;
    char words[BAND_PAGES][48];
    float wide[BAND_PAGES];
    static const char *const titles[SIDE_PAGES] = {N_("Side by side"),     N_("House"),
                                                   N_("What is assumed"),  N_("Handout"),
                                                   N_("Proof on the day"), N_("Air and moisture")};
    float high = ui_px(ui, 30), gap = ui_px(ui, 8), sum = 0.0f;
    float y = app_band_y(app, 0), end = (float)app->win.width - 16.0f;
    for (int i = 0; i < BAND_PAGES; i++) {
        SDL_snprintf(words[i], sizeof words[i], "%s%s", _(titles[b[i].page]),
                     b[i].page == SIDE_ASSUMED ? "  F2" : "");
        wide[i] = ui_width(ui, 14, UI_BOLD, words[i]) + ui_px(ui, 22);
        sum += wide[i] + gap;
    }
    GfxRect r = {16.0f, y, ui_px(ui, 84), high};
    ui_button(ui, ID_SIDE_BACK, r,
              s->page != SIDE_WALL       ? _("The wall")
              : s->back == SCREEN_RESULT ? _("Result")
                                         : _("Door"),
              0, 0);
    app_mark(app, "back", r);
    float left = r.x + r.w + ui_px(ui, 16);
    const char *title = _(titles[s->page]);
    float need = ui_width(ui, 20, UI_BOLD, title) + ui_px(ui, 20);
    BandPlan p = app_band_plan(app, left - 16.0f + need, sum, app_switches_width(app));
    float switches = app_switches_draw(app, end, app_band_y(app, p.switches), high, -1e9f) - gap;
    float right = p.switches == p.second ? switches : end;
    for (int i = BAND_PAGES - 1; i >= 0; i--) {
        GfxRect at = {floorf(right - wide[i]), app_band_y(app, p.second), floorf(wide[i]), high};
        app_mark(app, b[i].mark, at);
        ui_button(ui, b[i].id, at, words[i], 0, 0);
        right = at.x - gap;
    }
    char detail[200];
    float row_left = p.second == 1 ? right : switches; /* where the second row begins */
    right = p.second == 0 ? right : end;
    float base = floorf(app_band_row_high(app) * 0.5f + ui_px(ui, 7)), room = right - left;
    if (room > ui_px(ui, 50)) {
        left +=
            ui_label_cut(ui, left, base, room, 20, UI_BOLD, ui->theme->ink, title) + ui_px(ui, 16);
    }
    int language = app_reader(app).language;
    SDL_snprintf(detail, sizeof detail, "%s%s%s", io_house_word(s->house.customer, language),
                 s->house.town[0] ? ", " : "", io_house_word(s->house.town, language));
    room = right - left - ui_px(ui, 8);
    float under = row_left - 32.0f; /* free at the left of the second row */
    if (app->laid->band_need > 1 && ui_width(ui, 13, UI_REGULAR, detail) > room && under > room) {
        left = 16.0f;
        room = under;
        base += app_band_y(app, 1) - y;
    }
    if (room > ui_px(ui, 90)) {
        GfxRect at = {left, base - ui_px(ui, 23), room, ui_px(ui, 36)};
        ui_words(ui, at, 13, UI_REGULAR, ui->theme->ink2, UI_LEFT, detail);
    }
    ui_rect(ui, 0.0f, app_band_height(app) - 2.0f, (float)app->win.width, 2.0f, ui->theme->ink);
}

/* Is what was asked for last over, and not because it was stopped? */
static int is_over(const Side *s)
{
    return side_job_is_over(s->job) && !s->is_stopped && !s->is_due;
}

/* How far the worker is; what the ranges are made of once it is done. */
static void progress(const App *app, const Side *s, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    char words[160];
    int has_ended = is_over(s), status = SDL_AtomicGet(&s->job->status);
    float base = r.y + ui_px(ui, 14), button = ui_px(ui, 86);
    if (has_ended && status == PB_OK) {
        SDL_snprintf(words, sizeof words,
                     _("Ranges: 8 of 10 results, %d trials of what is uncertain"), s->draws);
        ui_label_cut(ui, r.x, base, r.w, 13, UI_REGULAR, t->ink2, words);
        return;
    }
    SDL_snprintf(words, sizeof words,
                 has_ended       ? _("Some of this has no answer")
                 : s->is_stopped ? _("Stopped")
                                 : _("Working: %d of %d trials"),
                 side_job_draws(s->job, s->rail.years), pb_compare_setup(s->job->compare)->draws);
    GfxRect stop = {r.x + r.w - button, r.y, button, ui_px(ui, 30)};
    ui_label_cut(ui, r.x, base, r.w - button - ui_px(ui, 10), 13, UI_REGULAR, t->ink, words);
    GfxRect bar = {r.x, r.y + ui_px(ui, 20), r.w - button - ui_px(ui, 12), ui_px(ui, 8)};
    rail_work_draw(app, ID_SIDE_STOP, bar, stop, side_job_progress(s->job),
                   s->is_stopped || has_ended);
}

static void progress_answer(const Ui *ui, Side *s)
{
    if (!ui_answered(ui, ID_SIDE_STOP, NULL)) {
        return;
    }
    if (s->is_stopped || is_over(s)) {
        s->is_due = 1;
    } else {
        side_job_cancel(s->job);
        s->is_stopped = 1;
    }
}

static void wall_page(const App *app, const Side *s, GfxRect body)
{
    Ui *ui = app->ui;
    int is_small = body.w < ui_px(ui, 960) || body.h < ui_px(ui, 520);
    /* The lowest windows leave the foot to the words; the handout page tells how far the work is.
     */
    int is_lowest = body.h < ui_px(ui, 250);
    float foot = is_lowest ? 0.0f : ui_px(ui, is_small ? 34 : 46);
    GfxRect line = {body.x, body.y + body.h - foot, body.w, foot};
    side_columns_draw(app, (GfxRect){body.x, body.y, body.w, body.h - foot - ui_px(ui, 8)});
    if (is_lowest) {
        return;
    }
    float right = fminf(ui_px(ui, 420), line.w * (is_small ? 0.6f : 0.36f));
    GfxRect at = {line.x + line.w - right, line.y + ui_px(ui, 2), right, foot};
    progress(app, s, at);
    GfxRect left = {line.x, line.y + ui_px(ui, 10), line.w - right - ui_px(ui, 20), foot};
    if (!is_small) {
        side_legend_draw(app, left);
    } else {
        const char *words = _("hatched = under target;  1 = a full dense pack");
        ui_words(ui, (GfxRect){left.x, line.y - ui_px(ui, 2), left.w, ui_px(ui, 28)}, 13,
                 UI_REGULAR, ui->theme->ink2, UI_LEFT, words);
    }
}

static void lay(const App *app)
{
    const Side *s = app->side;
    Ui *ui = app->ui;
    float W = (float)app->win.width, H = (float)app->win.height, top = app_band_height(app) + 12.0f;
    int has_rail = s->page == SIDE_WALL || s->page == SIDE_HANDOUT || s->page == SIDE_AIR;
    float rail = has_rail ? ui_px(ui, ui->height < ui_px(ui, 560) ? 60 : 78) : 0.0f;
    GfxRect line = {16.0f, H - rail - 2.0f, W - 32.0f, rail};
    GfxRect body = {16.0f, top, W - 32.0f, H - rail - ui_px(ui, 8) - top};
    band(app, s);
    switch (s->page) {
    case SIDE_HOUSE:
        side_house_draw(app, body);
        break;
    case SIDE_ASSUMED:
        side_assumed_draw(app, body);
        break;
    case SIDE_AIR:
        side_air_draw(app, body);
        break;
#ifdef PB_HAS_REPORT
    case SIDE_HANDOUT:
        side_handout_draw(app, body);
        break;
    case SIDE_PROOF:
        side_proof_draw(app, body);
        break;
#endif
    default:
        wall_page(app, s, body);
        break;
    }
    if (has_rail) {
        rail_draw(app, &s->rail, ID_SIDE_PLAY, line);
    }
    notice_draw(app, (GfxRect){W * 0.5f - fminf(W * 0.4f, ui_px(ui, 360)), body.y,
                               2.0f * fminf(W * 0.4f, ui_px(ui, 360)), body.h});
}

static void band_answer(App *app, const Side *s)
{
    if (ui_answered(app->ui, ID_SIDE_BACK, NULL)) {
        back(app);
    }
    for (int i = 0; i < BAND_PAGES; i++) {
        if (ui_answered(app->ui, band_buttons[i].id, NULL)) {
            side_go(app, s->page == band_buttons[i].page ? SIDE_WALL : band_buttons[i].page);
        }
    }
}

static void answer(App *app)
{
    Side *s = app->side;
    side_columns_answer(app, s);
    side_assumed_answer(app, s);
#ifdef PB_HAS_REPORT
    side_handout_answer(app, s);
    side_proof_answer(app, s);
#endif
    side_house_answer(app, s);
    band_answer(app, s);
    progress_answer(app->ui, s);
    rail_answer(&s->rail, app->ui, ID_SIDE_PLAY);
    side_blend(app, s);
}

static int moves(const App *app)
{
    return app->side->rail.is_playing;
}

const Screen scr_side = {.enter = enter,
                         .leave = leave,
                         .update = update,
                         .moves = moves,
                         .lay = lay,
                         .answer = answer,
                         .input = input,
                         .field = side_field,
                         .word = "side",
                         .title = N_("Side by side"),
                         .least_px = 560.0f};
