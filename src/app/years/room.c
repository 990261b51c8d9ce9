/* Years later: the bay of the finished run (or an even fill when nothing was packed) through fifty
 * years. The worker is years_job.c, the picture of one moment years_state.c; each part of the
 * window has a file of its own. Nothing here waits for the worker. */
#include "years/years.h"

#include "io/clock.h"
#include "io/field_file.h"

#include <math.h>
#include <stdlib.h>

static void start_job(App *app, Years *y)
{
    YearsInput in = {.field = y->field,
                     .constants = app->run.config.constants,
                     .wall = app->run.config.exercise.wall,
                     .climate = y->climates[y->climate],
                     .room_c = y->room_c,
                     .outdoor_c = y->outdoor_c,
                     .seed = app->run.config.seed};
    YearsJob *job = years_job_start(&in);
    y->restart_at_s = 0.0;
    if (job == NULL) {
        app_notice(app, _("The years cannot be figured"), _("There is not enough memory."), 0, 8);
        return;
    }
    y->is_stopped = 0;
    if (y->job != NULL) {
        years_job_cancel(y->job);
        for (int i = 0; i < YEARS_MAX_DYING && y->job != y->shown; i++) {
            if (y->dying[i] == NULL) {
                y->dying[i] = y->job;
                break;
            }
        }
    }
    y->job = job;
    y->shown = y->shown != NULL ? y->shown : job;
}

/* Jobs that were asked to stop are given back once their threads have ended. */
static void bury(Years *y)
{
    for (int i = 0; i < YEARS_MAX_DYING; i++) {
        if (y->dying[i] != NULL && years_job_is_over(y->dying[i])) {
            years_job_free(y->dying[i]);
            y->dying[i] = NULL;
        }
    }
}

static int has_room(const Years *y)
{
    for (int i = 0; i < YEARS_MAX_DYING; i++) {
        if (y->dying[i] == NULL) {
            return 1;
        }
    }
    return 0;
}

/* The new answer is shown once it reaches the year that is on screen. */
static void catch_up(Years *y)
{
    int keys = SDL_AtomicGet(&y->job->keys_ready), frames = SDL_AtomicGet(&y->job->frames_ready);
    if (y->shown == y->job || frames < YEARS_KEYS || keys == 0 ||
        (keys < YEARS_KEYS && years_key_times[keys - 1] < y->rail.years)) {
        return;
    }
    for (int i = 0; i < YEARS_MAX_DYING; i++) {
        if (y->dying[i] == NULL) {
            y->dying[i] = y->shown;
            y->shown = y->job;
            y->band.draws = 0;
            return;
        }
    }
}

/* Those of the list that are offered here and whose file is there; one that is missing is said. The
 * climate of the run is among them, in the place of the one with its humidity or of the first. */
static void load_climates(App *app, Years *y)
{
    for (int i = 0; i < IO_CLIMATES; i++) {
        const IoClimateRow *row = io_climate_row(i);
        PbClimate *to = &y->climates[y->climate_count];
        if (row->is_of_years && app_climate(&app->options, row->name, to)) {
            y->climate_count++;
        } else if (row->is_of_years) {
            char text[200];
            SDL_snprintf(text, sizeof text,
                         _("The climate file climates/%s.json is missing: this humidity cannot be "
                           "used."),
                         row->name);
            app_notice(app, _("Climate"), text, 0, 15);
        }
    }
    if (y->climate_count == 0) { /* none of them: the run's, or the usual one, alone */
        y->climates[y->climate_count++] = pb_climate_default();
    }
    if (app->run.watched.has_climate) {
        const PbSeason *own = &app->run.watched.climate.bay_rh;
        for (int i = 0; i < y->climate_count; i++) {
            const PbSeason *k = &y->climates[i].bay_rh;
            if (fabs(k->mean - own->mean) < 1e-9 && fabs(k->swing - own->swing) < 1e-9) {
                y->climate = i;
                y->climates[i] = app->run.watched.climate;
                return;
            }
        }
        y->climates[0] = app->run.watched.climate;
    }
}

static PbStatus take_bay(App *app, Years *y)
{
    PbSession *empty = NULL;
    if (app->run.watched.session == NULL) { /* from the Door, before the first run */
        PbError err;
        PB_TRY(pb_session_create(&app->run.config, &empty, &err));
    }
    PbStatus status = pb_session_field(empty != NULL ? empty : app->run.watched.session, &y->field);
    pb_session_destroy(empty);
    PB_TRY(status);
    double kg = pb_field_mass_kg(&y->field);
    if (app->options.fill_kg_m3 > 0.0 || kg < 0.01) {
        double even = app->options.fill_kg_m3;
        pb_bay_field_fill(&y->field, even > 0.0 ? even : app->run.config.exercise.target_kg_m3);
    }
    size_t cells = (size_t)y->field.nx * (size_t)y->field.ny;
    y->laid = calloc(1, sizeof *y->laid);
    y->density = malloc(cells * sizeof *y->density);
    y->marks = calloc(cells, 1);
    y->heat_c = calloc((size_t)YEARS_MAP_NX * YEARS_MAP_NY, sizeof *y->heat_c);
    if (!y->laid || !y->density || !y->marks || !y->heat_c) {
        return PB_ERR_MEMORY;
    }
    y->laid->spot_c = (double)NAN;
    for (size_t i = 0; i < cells; i++) {
        y->density[i] = (float)y->field.density_kg_m3[i];
    }
    return PB_OK;
}

static void forget(Years *y)
{
    if (y == NULL) {
        return;
    }
    for (int i = 0; i < YEARS_MAX_DYING; i++) {
        years_job_free(y->dying[i]);
    }
    if (y->shown != y->job) {
        years_job_free(y->shown);
    }
    years_job_free(y->job);
    pb_bay_field_destroy(&y->field);
    free(y->laid);
    free(y->density);
    free(y->marks);
    free(y->heat_c);
    free(y);
}

static int enter(App *app)
{
    Years *y = calloc(1, sizeof *y);
    double opened_s = io_clock_s();
    PbStatus status = y != NULL ? take_bay(app, y) : PB_ERR_MEMORY;
    if (status == PB_OK) {
        y->opened_s = opened_s;
        y->first_picture_s = -1.0;
        y->room_c = 20.0;
        y->back = app->turn.screen;
        load_climates(app, y);
        start_job(app, y);
    }
    if (status != PB_OK || y->job == NULL) {
        app_notice(app, _("The years cannot be figured"), _("There is not enough memory."), 0, 8);
        forget(y);
        return 0;
    }
    app->years = y;
    return 1;
}

static void leave(App *app)
{
    forget(app->years);
    app->years = NULL;
}

static void update(App *app, double dt_s)
{
    Years *y = app->years;
    bury(y);
    if (y->restart_at_s > 0.0 && app->program.now_s >= y->restart_at_s && has_room(y)) {
        start_job(app, y);
    }
    catch_up(y);
    int keys = SDL_AtomicGet(&y->shown->keys_ready);
    rail_play(app, &y->rail, dt_s, keys > 0 ? years_key_times[keys - 1] : 0.0);
    years_blend(app, y);
    years_streaks_step(y, dt_s);
}

static int key(App *app, Years *y, const SDL_KeyboardEvent *k)
{
    if (rail_key(app, &y->rail, ID_YEARS_PLAY, k)) {
        return 1;
    }
    switch (k->keysym.sym) {
    case SDLK_ESCAPE:
        app_go(app, y->back);
        return 1;
    case SDLK_F12: { /* the bay too, for a test to age it on its own */
        char path[600];
        PbError err;
        SDL_snprintf(path, sizeof path, "%s.field.csv", app->options.dump);
        PbStatus status = app->options.dump[0] ? io_field_csv_write(path, &y->field, &err) : PB_OK;
        (void)status; /* the shared dump that follows tells of an unwritable place */
        return 0;
    }
    default:
        return 0;
    }
}

static int input(App *app, const SDL_Event *e)
{
    return e->type == SDL_KEYDOWN && key(app, app->years, &e->key);
}

static GfxFieldData field(App *app)
{
    Years *y = app->years;
    return (GfxFieldData){.number = y->picture,
                          .nx = y->field.nx,
                          .ny = y->field.ny,
                          .density = y->density,
                          .mark_nx = y->field.nx,
                          .mark_ny = y->field.ny,
                          .marks = y->marks,
                          .heat_nx = YEARS_MAP_NX,
                          .heat_ny = YEARS_MAP_NY,
                          .heat_c = y->heat_c};
}

/* Title and switches; the clock and the bags of a run have no place here. */
static void band(const App *app, const Years *y)
{
    Ui *ui = app->ui;
    char detail[160];
    GfxRect r = {16.0f, 0.0f, ui_px(ui, 92), ui_px(ui, 30)};
    r.y = app_band_y(app, 0);
    SDL_snprintf(detail, sizeof detail, _("filled at %s on average"),
                 app_fmt_density(app, y->mean_kg_m3, 1));
    ui_button(ui, ID_YEARS_BACK, r, y->back == SCREEN_RESULT ? _("Result") : _("Back"), 0, 0);
    app_mark(app, "back", r);
    years_band_draw(app, r.x + r.w + ui_px(ui, 16), _("Years later"), detail);
}

/* Bay, section and camera on one height scale. */
static void pictures(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbBayField *b = &y->field;
    const PbConstants *c = &app->run.config.constants;
    double wider = 4.0, camera_wider = 2.0;
    float scale_w = ui_px(ui, 42), notes = ui_px(ui, 104), head = ui_px(ui, 26);
    float foot = ui_px(ui, 44), plates = 24.0f;
    PbWallSkin skin = pb_wall_skin(&app->run.config.exercise.wall, c);
    double section_m = (b->depth_m + skin.inside_m + skin.outside_m) * wider;
    double camera_m = (b->width_m + c->stud_width_m) * camera_wider;
    float words = scale_w + notes + ui_px(ui, 66) + ui_px(ui, 66) + ui_px(ui, 96);
    double px_m = (double)(r.h - head - foot - plates - 10.0f) / b->height_m;
    px_m = fmin(px_m, (double)(r.w - words) / (b->width_m + 0.09 + section_m + camera_m));
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 6.0));
    float over = fmaxf(2.2f * stud, 8.0f);
    float rest = r.w - words - (float)((b->width_m + 0.09 + section_m + camera_m) * px_m);
    float extra = fmaxf(rest, 0.0f) / 3.0f;
    GfxRect bay = {floorf(r.x + scale_w + stud), floorf(r.y + head + over),
                   floorf((float)(b->width_m * px_m)), floorf((float)(b->height_m * px_m))};
    GfxRect cut = {floorf(bay.x + bay.w + stud + notes + extra * 0.5f + ui_px(ui, 58)), bay.y,
                   floorf((float)(section_m * px_m)), bay.h};
    GfxRect view = {floorf(cut.x + cut.w + ui_px(ui, 72) + extra), bay.y,
                    floorf((float)(camera_m * px_m)), bay.h};
    float base = r.y + ui_px(ui, 14);
    ui_label(ui, r.x, base, 16, UI_BOLD, t->ink, UI_LEFT, _("The bay"));
    ui_label(ui, cut.x - ui_px(ui, 24), base, 16, UI_BOLD, t->ink, UI_LEFT, _("Depth section"));
    const char *camera = _("Camera, room side");
    ui_label(ui, view.x, base, ui_fit(ui, r.x + r.w - view.x, 16, UI_BOLD, camera), UI_BOLD, t->ink,
             UI_LEFT, camera);
    years_face_draw(app, y, bay, px_m);
    years_section_draw(app, y, cut, px_m, wider);
    years_camera_draw(app, y, view);
}

static void lay(const App *app)
{
    const Years *y = app->years;
    Ui *ui = app->ui;
    float W = (float)app->win.width, H = (float)app->win.height, top = app_band_height(app) + 12.0f;
    int is_tabbed =
        (double)app->win.width / app->win.display_scale / app->laid->text_scale < 1050.0;
    float rail = ui_px(ui, is_tabbed ? 62 : 82), weather = is_tabbed ? 0.0f : ui_px(ui, 58);
    GfxRect line = {16.0f, H - rail - 4.0f, W - 32.0f, rail};
    GfxRect air = {16.0f, line.y - weather, W - 32.0f, weather};
    GfxRect body = {16.0f, top, W - 32.0f, air.y - top - ui_px(ui, 6)};
    band(app, y);
    if (is_tabbed) {
        const char *tabs[3] = {_("Pictures"), _("Curves"), _("Weather")};
        GfxRect tab = {body.x, body.y, fminf(body.w, ui_px(ui, 420)), ui_px(ui, 32)};
        ui_segments(ui, ID_YEARS_TABS, tab, tabs, 3, y->tab);
        app_mark(app, "tabs", tab);
        body.y += ui_px(ui, 40);
        body.h -= ui_px(ui, 40);
        if (y->tab == 0) {
            pictures(app, y, body);
        } else if (y->tab == 1) {
            years_charts_draw(app, y, body);
        } else {
            years_weather_tab_draw(app, y, body);
        }
    } else {
        float charts = fminf(fmaxf(body.w * 0.345f, ui_px(ui, 380)), ui_px(ui, 640));
        GfxRect left = {body.x, body.y, body.w - charts - ui_px(ui, 20), body.h};
        pictures(app, y, left);
        years_charts_draw(app, y, (GfxRect){W - 16.0f - charts, body.y, charts, body.h});
    }
    if (!is_tabbed) {
        years_weather_draw(app, y, air);
    }
    rail_draw(app, &y->rail, ID_YEARS_PLAY, line);
}

static void answer(App *app)
{
    Years *y = app->years;
    const Ui *ui = app->ui;
    double tab;
    if (ui_answered(ui, ID_YEARS_BACK, NULL)) {
        app_go(app, y->back);
    }
    if (ui_answered(ui, ID_YEARS_SIDE, NULL)) {
        app->turn.is_own_wanted = 1;
        app_go(app, SCREEN_SIDE);
    }
    if (ui_answered(ui, ID_YEARS_TABS, &tab)) {
        y->tab = (int)tab;
    }
    years_weather_answer(app, y);
    rail_answer(&y->rail, ui, ID_YEARS_PLAY);
    years_blend(app, y);
}

static int moves(const App *app)
{
    return app->years->rail.is_playing || app->years->has_streaks;
}

const Screen scr_years = {.enter = enter,
                          .leave = leave,
                          .update = update,
                          .moves = moves,
                          .lay = lay,
                          .answer = answer,
                          .input = input,
                          .field = field,
                          .word = "years",
                          .title = N_("Years later"),
                          .least_px = 560.0f};
