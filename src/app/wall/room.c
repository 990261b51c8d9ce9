/* The room of a whole wall: which one, who gets which place on the window, keys, and what a person
 * chose. The wall is closed until they open it; its bays are found, packed here or in the bay room,
 * and proved. */
#include "wall/wall.h"

#include "io/act_words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define STEP_M 0.01
#define LEAP_M 0.1
#define MARGIN 20.0f

static int enter(App *app)
{
    if (app->wall != NULL) { /* the job goes on */
        app->ui->focus = app->turn.home = ID_WALL_FACE;
        return 1;
    }
    Wall *w = calloc(1, sizeof *w);
    if (w == NULL) {
        app_notice(app, _("Not enough memory"), "", 0, 5);
        return 0;
    }
    wall_crew_drop(w);
    w->pending = -1;
    app->wall = w;
    wall_look_for_left(app);
    w->tool = TOOL_PROBE;
    w->reason = PB_LEAVE_FLUE;
    app->ui->focus = app->turn.home = ID_WALL_PICK;
    return 1;
}

static void end(App *app)
{
    if (app->wall != NULL) {
        wall_close(app->wall);
        free(app->wall);
        app->wall = NULL;
    }
}

static void leave(App *app)
{
    if (app->wall->phase == WALL_CHOOSE) {
        end(app);
    } else {
        wall_crew_rest(app->wall);
    }
}

static void update(App *app, double dt_s)
{
    Wall *w = app->wall;
    (void)dt_s;
    if (w->phase == WALL_CLOSED) {
        wall_come_back(app);
        wall_crew_frame(app);
    }
}

static int moves(const App *app)
{
    return app->wall->is_crew_on || app->wall->is_catching_up;
}

/* --- which wall --- */

/* The job that was left comes first. Returns where it ends. */
static float left_lay(const App *app, float y, float w)
{
    Ui *ui = app->ui;
    const StoreJob *left = &app->wall->left;
    char label[200];
    if (!app->wall->has_left) {
        return y;
    }
    SDL_snprintf(label, sizeof label, _("Go on with the job that was left: %s, %d acts"),
                 wall_name(wall_of_word(left->wall)), left->acts);
    GfxRect r = {MARGIN, y, w, ui_px(ui, 44)};
    ui_button(ui, ID_WALL_GO_ON, r, label, 1, 0);
    app_mark(app, "wall_go_on", r);
    return y + r.h + ui_px(ui, 16);
}

static void choose_lay(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float w = fminf(ui->width - 2 * MARGIN, ui_px(ui, 900)), gap = ui_px(ui, 10);
    float y = app_band_height(app) + ui_px(ui, 36), high = ui_px(ui, 44);
    y += ui_paragraph(ui, MARGIN, y, w, 20, UI_BOLD, t->ink,
                      _("Which wall? Its bays are not drawn: they are found by hand."));
    y += ui_paragraph(
             ui, MARGIN, y + ui_px(ui, 4), w, 15, UI_REGULAR, t->ink2,
             _("Real walls have live wires, lead and asbestos: before any work on one, read "
               "the cautions (F1); local codes and licensed trades decide.")) +
         ui_px(ui, 16);
    y = left_lay(app, y, w);
    int columns = app->laid->text_scale > 1.3 ? 1 : 2;
    float wide = (w - gap * (float)(columns - 1)) / (float)columns;
    for (int n = 0; n < WALL_CHOICES; n++) {
        char mark[24];
        int row = n / columns;
        GfxRect r = {MARGIN + (wide + gap) * (float)(n % columns), y + (high + gap) * (float)row,
                     wide, high};
        ui_button(ui, ID_WALL_PICK + n, r, wall_name(n), 0, 0);
        SDL_snprintf(mark, sizeof mark, "wall_pick_%d", n + 1);
        app_mark(app, mark, r);
    }
    int rows = (WALL_CHOICES + columns - 1) / columns;
    page_needs(app, y + (high + gap) * (float)rows + MARGIN - ui->height);
}

/* --- the wall --- */

/* Buttons one after the other, in as many rows as they need; draws when `app` may. */
typedef struct Flow {
    const App *app;
    float x, y, left, right, high, gap;
    int is_drawn;
} Flow;

static void flow_button(Flow *f, int id, const char *label, int is_primary, const char *mark)
{
    Ui *ui = f->app->ui;
    float w = ui_width(ui, 14, UI_BOLD, label) + ui_px(ui, 26);
    w = fminf(w, f->right - f->left);
    if (f->x + w > f->right && f->x > f->left) {
        f->x = f->left;
        f->y += f->high + f->gap;
    }
    if (f->is_drawn) {
        GfxRect r = {f->x, f->y, w, f->high};
        ui_button(ui, id, r, label, is_primary, 0);
        app_mark(f->app, mark, r);
    }
    f->x += w + f->gap;
}

static const char *slant_word(int slant)
{
    return slant == 0   ? _("Rod: straight")
           : slant == 1 ? _("Rod: to the left")
           : slant == 2 ? _("Rod: to the right")
           : slant == 3 ? _("Rod: up")
                        : _("Rod: down");
}

/* The leaves of the rule: what lies at hand. Returns where they end. */
static float leaves(const App *app, float y, int is_drawn)
{
    Ui *ui = app->ui;
    const char *names[WALL_LEAVES];
    for (int n = 0; n < WALL_LEAVES; n++) {
        names[n] = wall_leaf_name((WallLeaf)n);
    }
    GfxRect r = {MARGIN, y, fminf(ui->width - 2 * MARGIN, ui_px(ui, 760)), 0.0f};
    r.h = ui_segments_high(ui, r.w, names, WALL_LEAVES);
    if (is_drawn) {
        ui_segments(ui, ID_WALL_LEAF, r, names, WALL_LEAVES, (int)app->wall->leaf);
        for (int n = 0; n < WALL_LEAVES; n++) {
            char mark[24];
            GfxRect part = {r.x + r.w * (float)n / WALL_LEAVES, r.y, r.w / WALL_LEAVES, r.h};
            SDL_snprintf(mark, sizeof mark, "wall_leaf_%d", n + 1);
            app_mark(app, mark, part);
        }
    }
    return y + r.h + ui_px(ui, 6);
}

static const char *tool_name(const Wall *w, WallTool tool)
{
    return tool == TOOL_CREW && w->is_crew_on                        ? _("Stop the crew")
           : tool == TOOL_FILL && w->pending >= 0 && !w->is_watching ? _("Back to the bay")
           : tool == TOOL_WATCH && w->pending >= 0 && w->is_watching ? _("Back to the bay")
                                                                     : _(wall_tool(tool)->name);
}

/* The tools, or what can be done once it is open. Returns where they end. */
static float tools(const App *app, float y, int is_drawn)
{
    Ui *ui = app->ui;
    const Wall *w = app->wall;
    char label[160], mark[24];
    float from = w->phase == WALL_CLOSED ? leaves(app, y, is_drawn) : y;
    Flow f = {app, MARGIN, from, MARGIN, ui->width - MARGIN, ui_px(ui, 34), ui_px(ui, 6), is_drawn};
    if (w->phase == WALL_OPENED) {
        if (w->is_job) {
            SDL_snprintf(label, sizeof label, "%s  M", w->is_marks ? _("The wall") : _("Marks"));
            flow_button(&f, ID_WALL_MARKS, label, !w->is_marks, "wall_marks");
#ifdef PB_HAS_REPORT
            SDL_snprintf(label, sizeof label, "%s  S", _("Record as PDF"));
            flow_button(&f, ID_WALL_RECORD, label, 0, "wall_record");
#endif
        }
        SDL_snprintf(label, sizeof label, "%s  R", _("Another wall"));
        flow_button(&f, ID_WALL_OPEN, label, !w->is_job, "wall_another");
        SDL_snprintf(label, sizeof label, "%s  A", _("The same, closed again"));
        flow_button(&f, ID_WALL_AGAIN, label, 0, "wall_again");
        return f.y + f.high;
    }
    for (int n = 0; n < WALL_TOOLS; n++) {
        const WallToolRow *row = wall_tool((WallTool)n);
        if (row->leaf != w->leaf) {
            continue;
        }
        SDL_snprintf(label, sizeof label, "%s  %s", tool_name(w, (WallTool)n), row->key);
        SDL_snprintf(mark, sizeof mark, "wall_tool_%d", n + 1);
        flow_button(&f, ID_WALL_TOOL + n, label, n == (int)w->tool, mark);
    }
    if (w->tool == TOOL_PROBE && w->leaf == LEAF_FIND) {
        SDL_snprintf(label, sizeof label, "%s  [ ]", slant_word(w->slant));
        flow_button(&f, ID_WALL_SLANT, label, 0, "wall_slant");
    } else if (w->tool == TOOL_LEAVE && w->leaf == LEAF_FIND) {
        SDL_snprintf(label, sizeof label, "%s  [ ]", io_leave_words(w->reason, app->taste.lang));
        flow_button(&f, ID_WALL_REASON, label, 0, "wall_reason");
    }
    if (w->leaf == LEAF_FIND || w->leaf == LEAF_PROVE) {
        SDL_snprintf(label, sizeof label, "%s  R", _("Open the wall"));
        flow_button(&f, ID_WALL_OPEN, label, 0, "wall_open");
    }
    return f.y + f.high;
}

/* What was spent so far. */
static void counts(const App *app, char *out, size_t size)
{
    const Wall *w = app->wall;
    const PbCrew *c = w->crew;
    double bags = -1.0;
    int on_wood = 0, parts, acts;
    (void)pb_bays_list(w->parts, &parts);
    (void)pb_job_done(w->job, &acts);
    for (int n = 0; n < c->hole_count; n++) {
        on_wood += c->holes[n].met != PB_FEEL_NOTHING;
    }
    SDL_snprintf(out, size,
                 _("Taps %d, probe holes %d, fill holes %d, of them on something hard %d. "
                   "Minutes of work: %d."),
                 pb_crew_count(c, PB_CREW_TAP), pb_crew_count(c, PB_CREW_PROBE), c->hole_count,
                 on_wood, (int)(pb_job_minute(w->job, acts) + 0.5));
    for (int n = 0; n < parts; n++) {
        bags = w->bags[n] >= 0.0 ? fmax(bags, 0.0) + w->bags[n] : bags;
    }
    if (bags >= 0.0) {
        size_t used = strlen(out);
        SDL_snprintf(out + used, size - used, " %s %s.", _("Bags used:"),
                     app_fmt(app, 1, bags, ""));
    }
}

/* The sentence over the wall. Returns where it ends. */
static float strip(const App *app, float y, int is_drawn)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Wall *w = app->wall;
    char text[400];
    GfxColor none = {0, 0, 0, 0};
    int is_danger = w->phase == WALL_CLOSED ? w->crew->is_stopped : w->is_job && !w->marks.is_pass;
    float in = ui_px(ui, 12), wide = ui->width - 2 * MARGIN - 2 * in;
    wall_says(app, text, sizeof text);
    float high = ui_paragraph(ui, 0, 0, wide, 15, UI_BOLD, none, text) + ui_px(ui, 12);
    if (is_drawn) {
        GfxRect r = {MARGIN, y, ui->width - 2 * MARGIN, high};
        ui_rect(ui, r.x, r.y, r.w, r.h, is_danger ? t->danger_wash : t->sheet);
        ui_frame(ui, r, 1.0f, t->edge);
        ui_rect(ui, r.x, r.y, 6.0f, r.h, is_danger ? t->danger : t->accent);
        (void)ui_paragraph(ui, r.x + in, y + ui_px(ui, 21), wide, 15, UI_BOLD, t->ink, text);
        app_mark(app, "wall_says", r);
    }
    return y + high;
}

/* Places are laid on the wall in millimeters; one number holds both. */
#define PLACE_STEP 100000.0

static void face(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const Wall *w = app->wall;
    int state = ui_area(ui, ID_WALL_FACE, at->r, 1);
    app_mark(app, "wall_face", at->r);
    if (w->phase == WALL_OPENED) {
        wall_opened_draw(app, at);
    } else {
        wall_face_draw(app, at);
    }
    if (state & UI_AREA_FOCUS) {
        ui_focus_ring(ui, at->r, 4.0f);
    }
    if ((state & UI_AREA_CHOSEN) && ui->in.released) {
        double x = (double)(ui->in.mouse_x - at->r.x) / at->px_m;
        double y = (double)(at->r.y + at->r.h - ui->in.mouse_y) / at->px_m;
        x = fmin(fmax(x, 0.0), w->crew->length_m);
        y = fmin(fmax(y, 0.0), w->crew->height_m);
        ui_answer(ui, ID_WALL_FACE, floor(x * 1000.0) * PLACE_STEP + floor(y * 1000.0));
    }
}

static void wall_lay(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Wall *w = app->wall;
    char line[240];
    GfxColor none = {0, 0, 0, 0};
    float gap = ui_px(ui, 8), wide = ui->width - 2 * MARGIN;
    float names = ui_px(ui, 64), top = strip(app, app_band_height(app) + gap, 1) + gap;
    counts(app, line, sizeof line);
    float below = ui_px(ui, 24) + wall_book_high(app) + 2 * gap;
    below += tools(app, 0.0f, 0) + gap;
    below += ui_paragraph(ui, 0, 0, wide, 14, UI_REGULAR, none, line) + gap + 8.0f;
    float high = ui->height - top - below, least = ui_px(ui, 170);
    page_needs(app, least - high);
    high = fmaxf(high, least);
    WallPlace at;
    at.px_m = fmin((double)(wide - names) / w->crew->length_m, (double)high / w->crew->height_m);
    at.r =
        (GfxRect){floorf(MARGIN + names), floorf(top), floorf((float)(w->crew->length_m * at.px_m)),
                  floorf((float)(w->crew->height_m * at.px_m))};
    face(app, &at);
    wall_feel_draw(app, &at);
    float y = wall_tape_draw(app, &at, at.r.y + at.r.h);
    y = wall_book_draw(app, &at, y + 2.0f) + gap;
    y = tools(app, y, 1) + gap;
    (void)ui_paragraph(ui, MARGIN, y + ui_px(ui, 14), wide, 14, UI_REGULAR, t->ink2, line);
    notice_draw(app, at.r);
}

static void marks_lay(const App *app)
{
    float gap = ui_px(app->ui, 8), top = strip(app, app_band_height(app) + gap, 1) + gap;
    top = tools(app, top, 1) + gap;
    wall_marks_lay(app, top);
    notice_draw(
        app, (GfxRect){MARGIN, top, app->ui->width - 2 * MARGIN, app->ui->height - top - MARGIN});
}

static void lay(const App *app)
{
    const Wall *w = app->wall;
    app_top_band(app, _("The wall"), w->phase == WALL_CHOOSE ? "" : wall_name(w->choice));
    if (w->phase == WALL_CHOOSE) {
        choose_lay(app);
    } else if (w->phase == WALL_OPENED && w->is_marks) {
        marks_lay(app);
    } else {
        wall_lay(app);
    }
}

/* --- what a person did --- */

static void turn_slant(Wall *w, int by)
{
    if (w->tool == TOOL_PROBE) {
        w->slant = (w->slant + by + WALL_SLANTS) % WALL_SLANTS;
    } else if (w->tool == TOOL_LEAVE) {
        int count = PB_LEAVE_REASONS - 1;
        w->reason = (PbLeaveReason)(1 + ((int)w->reason - 1 + by + count) % count);
    }
}

static void open_or_another(App *app)
{
    Wall *w = app->wall;
    if (w->phase == WALL_CLOSED) {
        wall_open(app);
    } else if (w->phase == WALL_OPENED) {
        wall_close(w);
        w->phase = WALL_CHOOSE;
        wall_look_for_left(app);
        app->turn.home = app->turn.focus_next = ID_WALL_PICK;
    }
}

static int move(Wall *w, SDL_Keycode key, int is_leap)
{
    double step = is_leap ? LEAP_M : STEP_M;
    double dx = key == SDLK_LEFT ? -step : key == SDLK_RIGHT ? step : 0.0;
    double dy = key == SDLK_DOWN ? -step : key == SDLK_UP ? step : 0.0;
    w->x_m = fmin(fmax(w->x_m + dx, 0.0), w->crew->length_m);
    w->y_m = fmin(fmax(w->y_m + dy, 0.0), w->crew->height_m);
    return dx != 0.0 || dy != 0.0;
}

/* Another leaf puts its first tool for the wall into the hand. */
static void turn_leaf(Wall *w, WallLeaf leaf)
{
    static const WallTool first[WALL_LEAVES] = {TOOL_PROBE, TOOL_DRILL, TOOL_FILL, WALL_TOOLS,
                                                TOOL_FINGER};
    if (leaf != w->leaf && first[leaf] != WALL_TOOLS) {
        w->tool = first[leaf];
    }
    w->leaf = leaf;
    w->is_measuring = 0;
}

/* One that needs no place is done at once, and the one in hand stays there. */
static void take_tool(App *app, WallTool tool)
{
    Wall *w = app->wall;
    const WallToolRow *row = wall_tool(tool);
    turn_leaf(w, row->leaf);
    w->refusal = REFUSED_NOT;
    if (row->is_at_once || (tool == TOOL_FILL && w->pending >= 0)) {
        row->use(app);
    } else {
        w->tool = tool;
    }
}

static int tool_key(App *app, SDL_Keycode key)
{
    for (int n = 0; n < WALL_TOOLS; n++) {
        int letter = (unsigned char)wall_tool((WallTool)n)->key[0];
        if (key == (letter >= 'A' ? SDLK_a + (letter - 'A') : letter)) {
            take_tool(app, (WallTool)n);
            return 1;
        }
    }
    return 0;
}

static int key_closed(App *app, const SDL_KeyboardEvent *k)
{
    Wall *w = app->wall;
    SDL_Keycode key = k->keysym.sym;
    int focus = app->ui->focus, is_here = focus == ID_WALL_FACE || focus == 0;
    if (is_here && move(w, key, (k->keysym.mod & KMOD_SHIFT) != 0)) {
        return 1;
    }
    if (k->repeat) {
        return 0;
    }
    if (is_here && (key == SDLK_RETURN || key == SDLK_KP_ENTER || key == SDLK_SPACE)) {
        wall_use(app);
        return 1;
    }
    if (key == SDLK_LEFTBRACKET || key == SDLK_RIGHTBRACKET) {
        turn_slant(w, key == SDLK_LEFTBRACKET ? -1 : 1);
        return 1;
    }
    return tool_key(app, key);
}

/* Of a job that is over. */
static int key_marked(App *app, SDL_Keycode key)
{
    if (key == SDLK_m) {
        app->wall->is_marks = !app->wall->is_marks;
        return 1;
    }
#ifdef PB_HAS_REPORT
    if (key == SDLK_s) {
        wall_record(app);
        return 1;
    }
#endif
    return 0;
}

static int input(App *app, const SDL_Event *e)
{
    Wall *w = app->wall;
    if (e->type != SDL_KEYDOWN || (e->key.keysym.mod & KMOD_CTRL) != 0) {
        return 0;
    }
    SDL_Keycode key = e->key.keysym.sym;
    if (key == SDLK_ESCAPE && w->phase != WALL_CHOOSE && !e->key.repeat) {
        w->phase = WALL_OPENED; /* as "another wall" */
        open_or_another(app);
        return 1;
    }
    if (key == SDLK_r && w->phase != WALL_CHOOSE && !e->key.repeat) {
        open_or_another(app);
        return 1;
    }
    if (w->phase == WALL_OPENED && w->is_job && !e->key.repeat && key_marked(app, key)) {
        return 1;
    }
    if (key == SDLK_a && w->phase == WALL_OPENED && !e->key.repeat) {
        (void)wall_begin(app, w->choice, w->seed);
        return 1;
    }
    return w->phase == WALL_CLOSED && key_closed(app, &e->key);
}

static void answer_closed(App *app)
{
    Wall *w = app->wall;
    double v;
    for (int n = 0; n < WALL_TOOLS; n++) {
        if (ui_answered(app->ui, ID_WALL_TOOL + n, NULL)) {
            take_tool(app, (WallTool)n);
            app->turn.focus_next = ID_WALL_FACE; /* the hand goes back to the wall */
        }
    }
    if (ui_answered(app->ui, ID_WALL_LEAF, &v)) {
        turn_leaf(w, (WallLeaf)v);
    }
    if (ui_answered(app->ui, ID_WALL_SLANT, NULL) || ui_answered(app->ui, ID_WALL_REASON, NULL)) {
        turn_slant(w, 1);
    }
    if (ui_answered(app->ui, ID_WALL_FACE, &v) && v > 1.0) {
        double x_mm = floor(v / PLACE_STEP);
        w->x_m = x_mm / 1000.0;
        w->y_m = (v - x_mm * PLACE_STEP) / 1000.0;
        wall_use(app);
    }
}

static void answer(App *app)
{
    Wall *w = app->wall;
    if (w->phase == WALL_CHOOSE && ui_answered(app->ui, ID_WALL_GO_ON, NULL)) {
        wall_go_on(app);
        return;
    }
    for (int n = 0; w->phase == WALL_CHOOSE && n < WALL_CHOICES; n++) {
        if (ui_answered(app->ui, ID_WALL_PICK + n, NULL)) {
            (void)wall_begin(app, n, app_seed(app));
            return;
        }
    }
    if (w->phase == WALL_CLOSED) {
        answer_closed(app);
    }
    if (w->phase == WALL_OPENED && ui_answered(app->ui, ID_WALL_MARKS, NULL)) {
        (void)key_marked(app, SDLK_m);
    } else if (w->phase == WALL_OPENED && ui_answered(app->ui, ID_WALL_RECORD, NULL)) {
        (void)key_marked(app, SDLK_s);
    } else if (ui_answered(app->ui, ID_WALL_OPEN, NULL)) {
        open_or_another(app);
    } else if (w->phase == WALL_OPENED && ui_answered(app->ui, ID_WALL_AGAIN, NULL)) {
        (void)wall_begin(app, w->choice, w->seed);
    }
}

const Screen scr_wall = {.enter = enter,
                         .leave = leave,
                         .close = end,
                         .update = update,
                         .lay = lay,
                         .answer = answer,
                         .input = input,
                         .moves = moves,
                         .word = "wall",
                         .title = N_("The wall"),
                         .least_px = 560.0f};
