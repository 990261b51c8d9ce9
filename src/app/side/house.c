/* The house page: rows of the form at the left, what the row in focus is for at the right, under
 * them what was refused or done, and the buttons. Rows scroll whole where the window is low. */
#include "side/form.h"

#include "io/saving_words.h"
#include "io/wall_words.h"

#include <math.h>
#include <string.h>

void side_house_say(Side *s, const char *text, int is_trouble)
{
    SDL_strlcpy(s->form.says, text, sizeof s->form.says);
    s->form.says_is_trouble = is_trouble;
}

static void say_missing(SideForm *f, int air)
{
    SDL_snprintf(f->says, sizeof f->says,
                 _("The climate file climates/%s.json is missing: this humidity cannot be used."),
                 io_climate_row(air)->name);
    f->says_is_trouble = 1;
}

/* The humidities as their files have them; one that is not there is said at once. */
static void read_airs(const App *app, SideForm *f)
{
    for (int i = 0; i < IO_CLIMATES; i++) {
        if (!app_climate(&app->options, io_climate_row(i)->name, &f->airs[i])) {
            memset(&f->airs[i], 0, sizeof f->airs[i]);
            say_missing(f, i);
        }
    }
}

void side_house_open(App *app)
{
    Side *s = app->side;
    PbHouse h = s->house;
    h.bay = s->bay;
    side_form_fill(&s->form, &h, app_reader(app));
    s->form.says[0] = '\0';
    read_airs(app, &s->form);
    s->form.first = 0;
    app_exercises(app);
    side_store_names(app);
}

/* A choice out of a row: arrows at both ends, keys Left and Right. Answers with the chosen one. */
static void stepper(const App *app, int id, GfxRect r, const char *words, int count, int current)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float s = ui_px(ui, 5), in = ui_px(ui, 14), mid = r.y + r.h * 0.5f;
    int state = ui_area(ui, id, r, 1), step = 0;
    if (state & UI_AREA_CHOSEN) {
        int is_by_mouse = ui->in.released && ui_over(ui, r);
        step = is_by_mouse && ui->in.mouse_x < r.x + r.w * 0.5f ? -1 : 1;
    }
    if ((state & UI_AREA_FOCUS) && (ui->in.left || ui->in.right)) {
        step = ui->in.right ? 1 : -1;
        ui->is_ring_shown = 1;
    }
    ui_round(ui, r, ui_px(ui, 6), t->sheet);
    ui_round_line(ui, r, ui_px(ui, 6), state & UI_AREA_HOT ? 2.0f : 1.0f,
                  state & UI_AREA_HOT ? t->ink : t->edge);
    ui_polygon(ui, (UiPoint[3]){{r.x + in + s, mid - s}, {r.x + in + s, mid + s}, {r.x + in, mid}},
               3, t->ink);
    float e = r.x + r.w - in;
    ui_polygon(ui, (UiPoint[3]){{e - s, mid - s}, {e, mid}, {e - s, mid + s}}, 3, t->ink);
    float space = r.w - 2.0f * (in + s) - ui_px(ui, 12);
    double size = ui_fit(ui, space, 14, UI_REGULAR, words);
    float w = fminf(ui_width(ui, size, UI_REGULAR, words), space);
    ui_label_cut(ui, r.x + (r.w - w) * 0.5f, mid + (float)size * ui->scale * 0.36f, space, size,
                 UI_REGULAR, t->ink, words);
    if (state & UI_AREA_FOCUS) {
        ui_focus_ring(ui, r, ui_px(ui, 6));
    }
    if (step != 0) {
        ui_answer(ui, id, (double)((current + step + count) % count));
    }
}

static void town(const App *app, GfxRect r)
{
    const SideForm *f = &app->side->form;
    char words[120];
    if (f->town < 0) {
        SDL_snprintf(words, sizeof words, "%s", _("own figures"));
    } else {
        double days = side_towns[f->town].degree_days_k_d.mid * (f->reader.is_us ? 1.8 : 1.0);
        SDL_snprintf(words, sizeof words, "%s, %.0f %s", side_towns[f->town].name, days,
                     side_form_unit(f, SIDE_DEGREE_DAYS));
    }
    stepper(app, ID_SIDE_TOWN, r, words, SIDE_TOWN_COUNT + 1, f->town + 1);
    app_mark(app, "town", r);
}

/* The name of a climate with what its own file has for the humidity in the wall. */
static void air_words(const SideForm *f, char *out, size_t size)
{
    const char *word = io_climate_word(io_climate_row(f->air)->name, f->reader.language);
    const PbSeason *rh = &f->airs[f->air].bay_rh;
    double low = 100.0 * (rh->mean - rh->swing), high = 100.0 * (rh->mean + rh->swing);
    if (rh->mean <= 0.0) {
        SDL_snprintf(out, size, _("%s: file missing"), word);
    } else if (low < high) {
        SDL_snprintf(out, size, _("%s, %.0f to %.0f%%"), word, low, high);
    } else {
        SDL_snprintf(out, size, "%s", word);
    }
}

/* Chosen layer of a place; the simple wall stands before the first inside face. */
static void layer(const App *app, const SideRow *row, GfxRect r)
{
    const SideForm *f = &app->side->form;
    const PbWall *w = &f->house.wall;
    PbWallPlace place = (PbWallPlace)row->place;
    int is_inside = place == PB_WALL_INSIDE;
    int now = is_inside ? (w->is_layered ? w->layer[place] + 1 : 0) : w->layer[place];
    const char *words = _("none");
    if (w->is_layered) {
        words = io_layer_name(place, w->layer[place], f->reader.language);
    } else if (is_inside) {
        words = _("simple wall");
    } else if (place == PB_WALL_SHEATHING) {
        words = _("one panel");
    }
    char mark[16];
    SDL_snprintf(mark, sizeof mark, "layer_%d", (int)place);
    app_mark(app, mark, r);
    int count = pb_wall_layer_count(place) + is_inside;
    stepper(app, ID_SIDE_LAYER + (int)place, r, words, count, now);
}

static void cavity(const App *app, GfxRect r)
{
    static const char *const words[SIDE_CAVITIES] = {
        N_("nothing"), N_("old loose fill"), N_("nothing, but part is packed"), N_("old batt")};
    int now = side_form_cavity_now(&app->side->form);
    app_mark(app, "cavity", r);
    stepper(app, ID_SIDE_CAVITY, r, _(words[now]), SIDE_CAVITIES, now);
}

static void pick(const App *app, const SideRow *row, GfxRect r)
{
    const SideForm *f = &app->side->form;
    SidePick which = (SidePick)row->place;
    char mark[16];
    SDL_snprintf(mark, sizeof mark, "pick_row_%d", row->place);
    app_mark(app, mark, r);
    stepper(app, ID_SIDE_PICKED + row->place, r,
            side_pick_words(&f->house, which, f->reader.language), side_pick_count(which),
            side_pick_chosen(&f->house, which));
}

static void bay(const App *app, GfxRect r)
{
    const SideForm *f = &app->side->form;
    app_mark(app, "bay", r);
    int count = app->exercises.count;
    stepper(app, ID_SIDE_BAY, r, words_in(f->reader.language, f->house.bay.title),
            count > 0 ? count : 1, side_bay_row(app));
}

static void fuel(const App *app, GfxRect r)
{
    const SideForm *f = &app->side->form;
    int now = f->house.bill.fuel;
    const char *words = now > 0 ? io_fuel_name(now - 1, f->reader.language) : _("any, by the kWh");
    app_mark(app, "fuel", r);
    stepper(app, ID_SIDE_FUEL, r, words, pb_fuel_count() + 1, now);
}

/* Which of several fields this is, at its right where the typed text leaves room. */
static void caption(Ui *ui, GfxRect r, const char *typed, const char *part)
{
    float in = ui_px(ui, 10), used = ui_width(ui, 14, UI_REGULAR, typed) + 2.0f * in;
    if (used + ui_width(ui, 12, UI_REGULAR, part) + in < r.w) {
        ui_label(ui, r.x + r.w - in, r.y + r.h * 0.5f + ui_px(ui, 4), 12, UI_REGULAR,
                 ui->theme->ink2, UI_RIGHT, part);
    }
}

static void row_draw(const App *app, const SideRow *row, GfxRect r, float label_w)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const SideForm *f = &app->side->form;
    char words[120], mark[24], text[SIDE_TEXT + 1];
    const char *unit =
        row->field >= 0 && row->kind != SIDE_A_CAVITY ? side_form_unit(f, row->field) : "";
    float high = ui_px(ui, 32), x = r.x + label_w, room_w = r.w - label_w, gap = ui_px(ui, 8);
    SDL_snprintf(words, sizeof words, "%s%s%s", _(row->name), unit[0] ? ", " : "", unit);
    double size = ui_fit(ui, label_w - gap, 14, UI_REGULAR, words);
    ui_label_cut(ui, r.x, r.y + high * 0.5f + ui_px(ui, 5), label_w - gap, size, UI_REGULAR, t->ink,
                 words);
    if (row->kind == SIDE_A_TOWN) {
        town(app, (GfxRect){x, r.y, room_w, high});
        return;
    }
    if (row->kind == SIDE_A_AIR) {
        GfxRect at = {x, r.y, room_w, high};
        air_words(f, words, sizeof words);
        stepper(app, ID_SIDE_AIR, at, words, IO_CLIMATES, f->air);
        app_mark(app, "air", at);
        return;
    }
    if (row->kind == SIDE_A_LAYER) {
        layer(app, row, (GfxRect){x, r.y, room_w, high});
        return;
    }
    if (row->kind == SIDE_A_FUEL) {
        fuel(app, (GfxRect){x, r.y, room_w, high});
        return;
    }
    if (row->kind == SIDE_A_BAY) {
        bay(app, (GfxRect){x, r.y, room_w, high});
        return;
    }
    if (row->kind == SIDE_A_PICK) {
        pick(app, row, (GfxRect){x, r.y, room_w, high});
        return;
    }
    float each = row->kind == SIDE_A_TEXT ? room_w : (room_w - 2.0f * gap) / 3.0f;
    if (row->kind == SIDE_A_CAVITY) { /* what, and how much of it */
        cavity(app, (GfxRect){x, r.y, 2.0f * each + gap, high});
        x += 2.0f * (each + gap);
    }
    for (int i = 0; i < row->fields; i++) {
        int n = row->field + i;
        GfxRect at = {x + (each + gap) * (float)i, r.y, each, high};
        SDL_strlcpy(text, f->text[n], sizeof text);
        SDL_snprintf(mark, sizeof mark, "field_%d", n);
        app_mark(app, mark, at);
        int id = ID_SIDE_FIELD + n;
        if (row->kind != SIDE_A_TEXT) {
            ui_figure_field(ui, id, at, text, sizeof text);
        } else {
            ui_text_field(ui, id, at, text, sizeof text, "");
        }
        if (f->bad == n) {
            ui_round_line(ui, at, ui_px(ui, 6), 3.0f, t->danger);
        }
        if (ui->focus == ID_SIDE_FIELD + n) {
            ui_focus_ring(ui, at, ui_px(ui, 6));
        }
        caption(ui, at, text, side_part_of(row, n));
    }
}

/* Widget of a row that is chosen from, not typed; -1 for the others. */
static int stepper_id(const SideRow *row)
{
    switch (row->kind) {
    case SIDE_A_TOWN:
        return ID_SIDE_TOWN;
    case SIDE_A_AIR:
        return ID_SIDE_AIR;
    case SIDE_A_CAVITY:
        return ID_SIDE_CAVITY;
    case SIDE_A_FUEL:
        return ID_SIDE_FUEL;
    case SIDE_A_BAY:
        return ID_SIDE_BAY;
    case SIDE_A_LAYER:
        return ID_SIDE_LAYER + row->place;
    case SIDE_A_PICK:
        return ID_SIDE_PICKED + row->place;
    default:
        return -1;
    }
}

static int row_in_focus(const App *app)
{
    int focus = app->ui->focus;
    for (int i = 0; i < SIDE_ROWS; i++) {
        const SideRow *row = &side_rows[i];
        int n = focus - ID_SIDE_FIELD;
        if ((focus >= 0 && focus == stepper_id(row)) ||
            (row->field >= 0 && n >= row->field && n < row->field + row->fields)) {
            return i;
        }
    }
    return -1;
}

/* The row at the top of so many, by the wheel or by a focus that has moved on to row `at`. */
static int first_row(Ui *ui, const SideForm *f, int most, int at, GfxRect r)
{
    int first = f->first;
    if (ui->in.wheel != 0.0f && ui_over(ui, r)) {
        first += ui_wheel_rows(ui);
    } else if (at >= 0 && at != f->row) {
        first = at < first ? at : at >= first + most ? at - most + 1 : first;
    }
    first = first > SIDE_ROWS - most ? SIDE_ROWS - most : first < 0 ? 0 : first;
    if (first != f->first) {
        ui_answer(ui, ID_SIDE_FIRST, (double)first);
    }
    if (at >= 0 && at != f->row) {
        ui_answer(ui, ID_SIDE_ROW, (double)at);
    }
    return first;
}

/* Rows out of view stay in the Tab order and come into view with the focus. */
static void rows_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    float step = ui_px(ui, 42), label_w = fminf(ui_px(ui, 250), r.w * 0.42f);
    int most = (int)(r.h / step);
    most = most < 1 ? 1 : most > SIDE_ROWS ? SIDE_ROWS : most;
    int first = first_row(ui, &app->side->form, most, row_in_focus(app), r);
    for (int i = 0; i < SIDE_ROWS; i++) {
        const SideRow *row = &side_rows[i];
        if (i >= first && i < first + most) {
            GfxRect line = {r.x + 4.0f, r.y + step * (float)(i - first) + 4.0f, r.w - 16.0f, step};
            row_draw(app, row, line, label_w);
        } else {
            if (stepper_id(row) >= 0) {
                ui_focusable(ui, stepper_id(row));
            }
            for (int k = 0; k < row->fields; k++) {
                ui_focusable(ui, ID_SIDE_FIELD + row->field + k);
            }
        }
    }
    if (most < SIDE_ROWS) { /* where in the list this is */
        float tall = r.h * (float)most / SIDE_ROWS, y = r.y + r.h * (float)first / SIDE_ROWS;
        ui_rect(ui, r.x + r.w - 5.0f, r.y, 4.0f, r.h, ui->theme->well);
        ui_rect(ui, r.x + r.w - 5.0f, y, 4.0f, tall, ui->theme->ink2);
    }
}

static void help_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int at = app->side->form.row;
    float y = r.y + ui_px(ui, 18);
    ui_label(ui, r.x, y, 16, UI_BOLD, t->ink, UI_LEFT, _(side_rows[at].name));
    y += ui_px(ui, 26);
    y += ui_paragraph(ui, r.x, y, r.w, 15, UI_REGULAR, t->ink, _(side_rows[at].help));
    if (side_rows[at].fields == 3 && !side_row_is_of_parts(&side_rows[at])) {
        y += ui_px(ui, 8);
        y += ui_paragraph(ui, r.x, y, r.w, 15, UI_REGULAR, t->ink,
                          _("Lowest, usual, highest: the money is shown as a range."));
    }
    y += ui_px(ui, 16);
    y += ui_paragraph(ui, r.x, y, r.w, 13, UI_REGULAR, t->ink2,
                      _("Use any currency. A number that cannot be right is rejected, not "
                        "changed."));
    side_section_draw(app, (GfxRect){r.x, y, r.w, r.y + r.h - y});
}

/* What is typed becomes the house, or the form says why not. */
static void use_house(App *app)
{
    Side *s = app->side;
    PbHouse h;
    if (!side_form_take(&s->form, &h)) {
        app->turn.focus_next = s->form.bad >= 0 ? ID_SIDE_FIELD + s->form.bad : -1;
        return;
    }
    if (!app_climate(&app->options, io_climate_row(s->form.air)->name, &h.climate)) {
        say_missing(&s->form, s->form.air);
        return;
    }
    s->bay = h.bay;
    if (!side_store_keep(app, &h)) { /* compared all the same; the sentence stays to be read */
        side_compare(app, &h);
        return;
    }
    side_compare(app, &h);
    side_go(app, SIDE_WALL);
}

static void take_house(App *app, const PbHouse *h)
{
    Side *s = app->side;
    PbHouse house = *h;
    house.dense = s->house.dense;
    s->bay = house.bay;
    side_form_fill(&s->form, &house, app_reader(app));
    side_compare(app, &house);
}

/* Houses that were saved, one at a time. */
static void saved(const App *app, GfxRect r, GfxRect del)
{
    const Side *s = app->side;
    char words[160];
    int n = s->name_count;
    if (n == 0) {
        ui_label_cut(app->ui, r.x, r.y + r.h * 0.5f + ui_px(app->ui, 5), r.w + del.w, 13,
                     UI_REGULAR, app->ui->theme->ink2,
                     app->records.store != NULL
                         ? _("No house has been saved yet.")
                         : _("Houses cannot be saved on this computer now."));
        return;
    }
    int at = s->name_row < n ? s->name_row : -1;
    SDL_snprintf(words, sizeof words, "%s", at >= 0 ? s->names[at] : _("saved houses"));
    stepper(app, ID_SIDE_SAVED, r, words, n, at < 0 ? n - 1 : at);
    app_mark(app, "saved", r);
    app_mark(app, "delete", del);
    ui_button(app->ui, ID_SIDE_DELETE, del, _("Delete"), 0, at < 0);
}

static void saved_answer(App *app, Side *s)
{
    int n = s->name_count, at = s->name_row < n ? s->name_row : -1;
    double chosen;
    PbHouse h;
    if (ui_answered(app->ui, ID_SIDE_SAVED, &chosen)) {
        int now = (int)chosen;
        if (now == at || (at < 0 && now == n - 1)) {
            return;
        }
        s->name_row = now;
        if (side_store_load(app, s->names[now], &h)) {
            take_house(app, &h);
            side_house_say(s, _("Taken from the saved houses."), 0);
        }
    } else if (ui_answered(app->ui, ID_SIDE_DELETE, NULL)) {
        side_store_delete(app, s->names[at]);
    }
}

static void buttons(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    float gap = ui_px(ui, 10);
    const char *use = _("Use this house"), *demo = _("Demo house");
    float w = ui_width(ui, 14, UI_BOLD, use) + ui_px(ui, 28);
    GfxRect at = {r.x, r.y, w, r.h};
    app_mark(app, "use", at);
    ui_button(ui, ID_SIDE_USE, at, use, 1, 0);
    w = ui_width(ui, 14, UI_BOLD, demo) + ui_px(ui, 24);
    at = (GfxRect){at.x + at.w + gap, r.y, w, r.h};
    app_mark(app, "demo", at);
    ui_button(ui, ID_SIDE_DEMO, at, demo, 0, 0);
    float del_w = ui_width(ui, 14, UI_BOLD, _("Delete")) + ui_px(ui, 20);
    GfxRect del = {r.x + r.w - del_w, r.y, del_w, r.h};
    float left = at.x + at.w + 2.0f * gap, wide = fminf(del.x - gap - left, ui_px(ui, 320));
    saved(app, (GfxRect){del.x - gap - wide, r.y, wide, r.h}, del);
}

void side_house_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    float high = ui_px(ui, 36), says_high = ui_px(ui, 46);
    float bottom =
        fminf(r.y + r.h - 4.0f, r.y + ui_px(ui, 42) * SIDE_ROWS + says_high + high + 16.0f);
    GfxRect foot = {r.x, bottom - high, r.w, high};
    GfxRect says = {r.x, foot.y - says_high, r.w, says_high};
    GfxRect list = {r.x, r.y, r.w, says.y - r.y - 4.0f};
    if (r.w >= ui_px(ui, 1000)) {
        list.w = ui_px(ui, 700);
        help_draw(app, (GfxRect){list.x + list.w + ui_px(ui, 40), r.y,
                                 fminf(r.w - list.w - ui_px(ui, 40), ui_px(ui, 420)), list.h});
    }
    rows_draw(app, list);
    if (s->form.says[0] != '\0') {
        GfxColor c = s->form.says_is_trouble ? t->danger : t->ink;
        float tall =
            ui_paragraph(ui, 0, 0, says.w, 14, UI_BOLD, (GfxColor){0, 0, 0, 0}, s->form.says);
        double size = tall > says.h ? 12.0 : 14.0;
        ui_paragraph(ui, says.x, says.y + ui_px(ui, 16), says.w, size, UI_BOLD, c, s->form.says);
        app_mark(app, "says", says);
    } else if (r.w < ui_px(ui, 1000)) {
        float tall = says.h - ui_px(ui, 10);
        side_section_strip(app, (GfxRect){says.x, says.y, fminf(says.w, ui_px(ui, 420)), tall});
    }
    buttons(app, foot);
}

void side_house_update(App *app, Side *s)
{
    SideForm *f = &s->form;
    PbHouse h;
    if (s->page != SIDE_HOUSE) {
        return; /* it is written anew when it is opened */
    }
    if (f->reader.is_us == app->taste.is_us && f->reader.is_comma == app_reader(app).is_comma) {
        f->reader = app_reader(app); /* the language of units and choices */
        return;
    }
    if (side_form_take(f, &h)) {
        int air = f->air, town = f->town;
        side_form_fill(f, &h, app_reader(app));
        f->air = air;
        f->town = town;
    } else {
        app->taste.is_us = f->reader.is_us;
        f->reader = app_reader(app);
    }
}

/* What was typed. */
static void fields_answer(App *app, SideForm *f)
{
    double is_entered;
    for (int n = 0; n < SIDE_FIELDS; n++) {
        if (!ui_answered(app->ui, ID_SIDE_FIELD + n, &is_entered)) {
            continue;
        }
        int is_days = n >= SIDE_DEGREE_DAYS && n < SIDE_DEGREE_DAYS + 3;
        if ((is_days || n == SIDE_TOWN) && strcmp(f->text[n], app->ui->answer_text) != 0) {
            f->town = -1;
        }
        SDL_strlcpy(f->text[n], app->ui->answer_text, sizeof f->text[n]);
        if (is_entered > 0.5) {
            use_house(app);
        }
    }
}

/* What was chosen. */
static void steppers_answer(const Ui *ui, SideForm *f)
{
    double chosen;
    if (ui_answered(ui, ID_SIDE_TOWN, &chosen)) {
        side_form_town(f, (int)chosen - 1);
    }
    if (ui_answered(ui, ID_SIDE_AIR, &chosen)) {
        f->air = (int)chosen;
    }
    if (ui_answered(ui, ID_SIDE_CAVITY, &chosen)) {
        side_form_cavity(f, (int)chosen);
    }
    if (ui_answered(ui, ID_SIDE_FUEL, &chosen)) {
        side_form_fuel(f, (int)chosen);
    }
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        if (ui_answered(ui, ID_SIDE_LAYER + p, &chosen)) {
            side_form_layer(f, (PbWallPlace)p, (int)chosen);
        }
    }
    for (int p = 0; p < SIDE_PICKS; p++) {
        if (ui_answered(ui, ID_SIDE_PICKED + p, &chosen)) {
            side_form_pick(f, (SidePick)p, (int)chosen);
        }
    }
}

void side_house_answer(App *app, Side *s)
{
    const Ui *ui = app->ui;
    SideForm *f = &s->form;
    double row;
    PbHouse h;
    if (ui_answered(ui, ID_SIDE_FIRST, &row)) {
        f->first = (int)row;
    }
    if (ui_answered(ui, ID_SIDE_ROW, &row)) {
        f->row = (int)row;
    }
    steppers_answer(ui, f);
    if (ui_answered(ui, ID_SIDE_BAY, &row) && side_bay_near(app, (int)row) != NULL) {
        side_form_bay(f, side_bay_near(app, (int)row));
    }
    fields_answer(app, f);
    saved_answer(app, s);
    if (ui_answered(ui, ID_SIDE_USE, NULL)) {
        use_house(app);
    } else if (ui_answered(ui, ID_SIDE_DEMO, NULL) && side_store_demo(app, &h)) {
        take_house(app, &h);
        side_house_say(s, _("The demo house: people and place are invented."), 0);
    }
    side_house_update(app, s);
}
