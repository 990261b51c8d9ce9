/* The columns of Side by side: a bay at the left, what to say of it at the right. Four where there
 * is room, else two chosen ones, else all bays small and the words of one. The figures stand at the
 * same height in every column; the sentence over them takes the largest type that fits. */
#include "side/side.h"

#include <math.h>

/* Sizes of the sentence: readable, and where a small window with large text leaves nothing else. */
static const double least_text = 11.0, last_text = 5.0;

/* Heat through the wall as a bar on a scale from 0 to 5 times; 1 is a full dense pack. */
static void scale_draw(const App *app, const PbCompareFigures *f, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float high = ui_px(ui, 12), line = r.y + high + ui_px(ui, 5);
    if (f->has_heat) {
        double low = fmin(f->heat_ratio.low, 5.0), end = fmin(f->heat_ratio.high, 5.0);
        float x = r.x + r.w * (float)(low / 5.0), w = r.w * (float)((end - low) / 5.0);
        w = fmaxf(w, 5.0f);
        x = fminf(x, r.x + r.w - w);
        ui_round(ui, (GfxRect){x, r.y, w, high}, 2.0f, t->accent);
        if (f->heat_ratio.high > 5.0) { /* it goes on past the end */
            float m = r.y + high * 0.5f;
            ui_polygon(ui,
                       (UiPoint[3]){{r.x + r.w + 2.0f, r.y},
                                    {r.x + r.w + high * 0.7f + 2.0f, m},
                                    {r.x + r.w + 2.0f, r.y + high}},
                       3, t->accent);
        }
    }
    ui_rect(ui, r.x, line, r.w, 2.0f, t->ink);
    for (int k = 0; k <= 5; k++) {
        float x = floorf(r.x + r.w * (float)k / 5.0f);
        x = fminf(x, r.x + r.w - 1.0f);
        ui_rect(ui, x, line - (k == 1 ? 4.0f : 0.0f), k == 1 ? 2.0f : 1.0f, k == 1 ? 12.0f : 7.0f,
                t->ink);
        ui_label(ui, x, line + ui_px(ui, 19), 12, k == 1 ? UI_BOLD : UI_REGULAR,
                 k == 1 ? t->ink : t->ink2, UI_CENTRE, app_fmt(app, 0, k, ""));
    }
}

static float fitted(Ui *ui, float x, float y, float w, double size, GfxColor c, const char *text)
{
    size = ui_fit(ui, w, size, UI_BOLD, text);
    return ui_label_cut(ui, x, y, w, size, UI_BOLD, c, text);
}

/* Name and value: on one line where the words are wide, else one under the other. */
static float row(const App *app, GfxRect r, int is_one_line, const char *name, const char *value)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    if (is_one_line) {
        float y = r.y + ui_px(ui, 17), gap = ui_px(ui, 8);
        double small = 14.0, size = 18.0;
        while (size > 11.0 &&
               ui_width(ui, small, UI_REGULAR, name) + gap + ui_width(ui, size, UI_BOLD, value) >
                   r.w) {
            small = fmax(small - 1.0, 11.0);
            size -= 1.0;
        }
        ui_label(ui, r.x, y, small, UI_REGULAR, t->ink2, UI_LEFT, name);
        ui_label(ui, r.x + r.w, y, size, UI_BOLD, t->ink, UI_RIGHT, value);
        return ui_px(ui, 26);
    }
    ui_label_cut(ui, r.x, r.y + ui_px(ui, 12), r.w, 14, UI_REGULAR, t->ink2, name);
    fitted(ui, r.x, r.y + ui_px(ui, 33), r.w, 18, t->ink, value);
    return ui_px(ui, 43);
}

/* What gives way, in this order, so that the sentence above stays whole. */
typedef enum Room { ROOM_FOR_ALL, ROOM_WITHOUT_FACT, ROOM_WITHOUT_SCALE } Room;

typedef struct Figures {
    int is_split, is_one_line; /* heat left and the rest right; rows of one line */
    Room room;
    float high;
} Figures;

static Figures figures_plan(const Ui *ui, float w, int is_lowest, Room room)
{
    Figures p = {w >= ui_px(ui, is_lowest ? 280 : 420), w >= ui_px(ui, 250), room, 0.0f};
    float rows = 3.0f * ui_px(ui, p.is_one_line ? 26 : 43);
    float fact = ui_px(ui, room >= ROOM_WITHOUT_FACT ? 0 : 26);
    float heat = ui_px(ui, 20 + 36 + (room >= ROOM_WITHOUT_SCALE ? 4 : 44));
    p.high = p.is_split ? fmaxf(heat, rows + fact) : heat + rows + fact;
    return p;
}

static void figures_draw(const App *app, PbCompareFill fill, GfxRect r, Figures p)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    PbCompareFigures now = app->side->now[fill], *f = &now;
    now.has_heat = now.has_heat && !side_is_stale(app->side, fill);
    now.has_fill = now.has_fill && now.has_heat;
    float w = p.is_split ? floorf(r.w * 0.38f) : r.w, y = r.y, edge = ui_px(ui, 4);
    const char *wait = app->side->is_stopped ? _("not figured") : _("figuring");
    static const SideFigure rows_of[3] = {SIDE_SAYS_R, SIDE_SAYS_FUEL, SIDE_SAYS_MONEY};
    int is_empty = fill == PB_COMPARE_EMPTY;
    const char *const row_names[3] = {
        _("R of the wall"), is_empty ? _("The walls take a year") : _("Saved a year"),
        is_empty ? _("Of the house's heat") : _("Money saved a year")};
    char words[96];
    ui_label_cut(ui, r.x, y + ui_px(ui, 14), w, 14, UI_REGULAR, t->ink2,
                 _("Heat through the wall"));
    if (f->has_heat) {
        side_figure(app, fill, SIDE_SAYS_RATIO, words, sizeof words);
        fitted(ui, r.x, y + ui_px(ui, 46), w, 28, t->ink, words);
    } else {
        ui_label_cut(ui, r.x, y + ui_px(ui, 44), w, 16, UI_REGULAR, t->ink2, wait);
    }
    int has_scale = p.room < ROOM_WITHOUT_SCALE;
    if (has_scale) {
        scale_draw(app, f,
                   (GfxRect){r.x + edge, y + ui_px(ui, 56), w - 2.0f * edge, ui_px(ui, 40)});
    }
    GfxRect rows = {r.x, y + ui_px(ui, has_scale ? 100 : 60), w, 0.0f};
    if (p.is_split) {
        rows.w = floorf(r.w * 0.57f);
        rows.x = r.x + r.w - rows.w;
        rows.y = y;
    }
    for (int i = 0; i < 3; i++) {
        SDL_strlcpy(words, "–", sizeof words);
        if (f->has_heat) {
            side_figure(app, fill, rows_of[i], words, sizeof words);
        }
        rows.y += row(app, rows, p.is_one_line, row_names[i], words);
    }
    if (f->has_fill && p.room < ROOM_WITHOUT_FACT) {
        side_figure(app, fill, SIDE_SAYS_FACT, words, sizeof words);
        fitted(ui, rows.x, rows.y + ui_px(ui, 18), rows.w, 15, t->ink, words);
    }
}

/* Loose blow as usual, careless; foam at best, typical, at worst; dense pack well done, hasty, own.
 */
static void cases(const App *app, PbCompareFill fill, GfxRect r)
{
    Ui *ui = app->ui;
    const Side *s = app->side;
    if (fill == PB_COMPARE_LOOSE) {
        const char *words[PB_LOOSE_CASES] = {_("as usual"), _("careless")};
        ui_segments(ui, ID_SIDE_LOOSE, r, words, PB_LOOSE_CASES, (int)s->house.loose);
        app_mark(app, "loose_case", r);
    } else if (fill == PB_COMPARE_FOAM) {
        const char *words[3] = {_("best case"), _("typical"), _("worst case")};
        ui_segments(ui, ID_SIDE_FOAM, r, words, 3, (int)s->house.foam);
        app_mark(app, "foam_case", r);
    } else if (fill == PB_COMPARE_DENSE) {
        const char *words[3] = {s->has_own ? _("well") : _("well done"), _("hasty"), _("own")};
        ui_segments(ui, ID_SIDE_DENSE, r, words, s->has_own ? 3 : 2, (int)s->house.dense);
        app_mark(app, "dense_case", r);
    }
}

/* Height of the whole sentence in this size; `c` with no alpha only measures. */
static float sentence(const App *app, PbCompareFill fill, GfxRect r, double size, GfxColor c)
{
    char text[512];
    side_sentence(app, fill, text, sizeof text);
    return ui_paragraph(app->ui, r.x, r.y + (float)size * app->ui->scale * 1.05f, r.w, size,
                        UI_REGULAR, c, text);
}

/* The largest size in which the sentence fits whole, `least` or 0 when it does not. */
static double sentence_size(const App *app, PbCompareFill fill, GfxRect r, double size,
                            double least)
{
    static const GfxColor none = {0, 0, 0, 0};
    while (size >= least && sentence(app, fill, r, size, none) > r.h) {
        size -= 0.5;
    }
    return size >= least ? size : 0.0;
}

typedef struct Words {
    GfxRect title, text, cases, figures;
    Figures plan;
} Words;

static Words words_plan(const App *app, GfxRect r, float title_high, int has_cases, Room room)
{
    Ui *ui = app->ui;
    Words p = {.plan = figures_plan(ui, r.w, r.h < ui_px(ui, 220), room)};
    float cases_high = has_cases ? ui_px(ui, 38) : 0.0f;
    p.title = (GfxRect){r.x, r.y, r.w, title_high};
    p.figures = (GfxRect){r.x, r.y + r.h - p.plan.high, r.w, p.plan.high};
    p.cases = (GfxRect){r.x, p.figures.y - cases_high, r.w, ui_px(ui, 30)};
    float top = r.y + title_high + ui_px(ui, 2);
    p.text = (GfxRect){r.x, top, r.w, p.cases.y - ui_px(ui, 6) - top};
    return p;
}

static void bay(const App *app, PbCompareFill fill, GfxRect r)
{
    double px_m = (double)r.h / (app->side->shown_house.bay.height_m + 0.038 * 3.3);
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 5.0)), over = ceilf(stud * 2.1f);
    px_m = (double)(r.h - over - ceilf(stud * 1.05f)) / app->side->shown_house.bay.height_m;
    float wide = floorf((float)(app->side->shown_house.bay.width_m * px_m));
    GfxRect inner = {floorf(r.x + stud), floorf(r.y + over), wide,
                     floorf((float)(app->side->shown_house.bay.height_m * px_m))};
    /* Of a new house nothing is known yet: the bay stands empty, not with the old one's fill. */
    side_bay_draw(app, side_is_stale(app->side, fill) ? PB_COMPARE_EMPTY : fill, inner, px_m, stud);
}

/* Width that a bay of this height takes, studs included. */
static float bay_width(const App *app, float high)
{
    const PbExercise *e = &app->side->shown_house.bay;
    double px_m = (double)high / (e->height_m + 0.038 * 2.7);
    return ceilf((float)(e->width_m * px_m + 2.0 * fmax(0.038 * px_m * 0.85, 5.0)));
}

static double title_size(const App *app, const PbCompareFill *fills, int count, float w,
                         int is_roomy, float *high)
{
    static const GfxColor none = {0, 0, 0, 0};
    Ui *ui = app->ui;
    double size = is_roomy ? 28.0 : (w >= ui_px(ui, 170) ? 22.0 : 18.0);
    *high = 0.0f;
    for (int i = 0; i < count; i++) {
        *high =
            fmaxf(*high, ui_paragraph(ui, 0, 0, w, size, UI_BOLD, none, side_name(app, fills[i])));
    }
    return size;
}

/* `count` columns of the same width. */
static void columns(const App *app, GfxRect r, const PbCompareFill *fills, int count)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float gap = ui_px(ui, count == 4 ? 12 : 20),
          each = (r.w - gap * (float)(count - 1)) / (float)count;
    float bay_w = fminf(bay_width(app, r.h), each * 0.36f), between = ui_px(ui, 14), title_high;
    float bay_h = r.h;
    while (bay_h > 80.0f && bay_width(app, bay_h) > each * 0.36f + 1.0f) {
        bay_h -= 4.0f;
    }
    float words_w = floorf(each - bay_w - between);
    int is_roomy = r.h >= ui_px(ui, 760) && words_w >= ui_px(ui, 250);
    double title = title_size(app, fills, count, words_w, is_roomy, &title_high);
    Room room = r.h < ui_px(ui, 400) ? ROOM_WITHOUT_FACT : ROOM_FOR_ALL;
    double size = 0.0;
    for (;; room++) {
        double least = room == ROOM_WITHOUT_SCALE ? last_text : least_text;
        size = is_roomy ? 24.0 : 18.0; /* as large as it may be: read from across a table */
        for (int i = 0; i < count; i++) {
            Words p = words_plan(app, (GfxRect){0, r.y, words_w, r.h}, title_high, 1, room);
            size = fmin(size, sentence_size(app, fills[i], p.text, size, least));
        }
        if (size > 0.0 || room == ROOM_WITHOUT_SCALE) {
            break;
        }
    }
    for (int i = 0; i < count; i++) {
        float x = floorf(r.x + (each + gap) * (float)i);
        GfxRect w = {x + bay_w + between, r.y, words_w, r.h};
        Words p = words_plan(app, w, title_high, 1, room);
        if (i > 0) {
            ui_rect(ui, floorf(x - gap * 0.5f), r.y, 1.0f, r.h, t->rule);
        }
        bay(app, fills[i], (GfxRect){x, r.y, bay_w, bay_h});
        ui_paragraph(ui, p.title.x, p.title.y + (float)title * ui->scale, p.title.w, title, UI_BOLD,
                     t->ink, side_name(app, fills[i]));
        sentence(app, fills[i], p.text, fmax(size, last_text), t->ink);
        cases(app, fills[i], p.cases);
        figures_draw(app, fills[i], p.figures, p.plan);
    }
}

/* The four names as switches; `on` tells which are shown. */
static void picks(const App *app, GfxRect r, const int on[PB_COMPARE_FILLS])
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float gap = ui_px(ui, 6), each = floorf((r.w - 3.0f * gap) / 4.0f);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        GfxRect b = {r.x + (each + gap) * (float)f, r.y, each, r.h};
        char mark[16];
        SDL_snprintf(mark, sizeof mark, "pick_%d", f + 1);
        app_mark(app, mark, b);
        int state = ui_area(ui, ID_SIDE_PICK + f, b, 1);
        const char *name = side_name(app, (PbCompareFill)f);
        ui_round(ui, b, ui_px(ui, 6), on[f] ? t->ink : t->sheet);
        ui_round_line(ui, b, ui_px(ui, 6), state & UI_AREA_HOT ? 2.0f : 1.0f,
                      state & UI_AREA_HOT ? t->ink : t->edge);
        GfxRect in = {b.x + ui_px(ui, 4), b.y, each - ui_px(ui, 8), b.h};
        ui_words(ui, in, 14, on[f] ? UI_BOLD : UI_REGULAR, on[f] ? t->sheet : t->ink, UI_CENTRE,
                 name);
        if (state & UI_AREA_FOCUS) {
            ui_focus_ring(ui, b, ui_px(ui, 6));
        }
    }
}

static void two(const App *app, GfxRect r)
{
    const Side *s = app->side;
    float high = ui_px(app->ui, 32);
    int on[PB_COMPARE_FILLS] = {0};
    on[s->pair[0]] = on[s->pair[1]] = 1;
    picks(app, (GfxRect){r.x, r.y, r.w, high}, on);
    int a = s->pair[0] < s->pair[1] ? s->pair[0] : s->pair[1];
    PbCompareFill fills[2] = {(PbCompareFill)a, (PbCompareFill)(s->pair[0] + s->pair[1] - a)};
    float used = high + ui_px(app->ui, 10);
    columns(app, (GfxRect){r.x, r.y + used, r.w, r.h - used}, fills, 2);
}

typedef struct OnePlan {
    int bays; /* drawn: all, or the chosen one alone */
    float bay_w, bay_h;
    Words words;
    double size; /* of the sentence */
} OnePlan;

/* With all four bays drawn or the chosen one alone; size 0: the sentence does not fit. */
static OnePlan one_plan(const App *app, GfxRect body, PbCompareFill fill, int bays, Room room,
                        double least)
{
    Ui *ui = app->ui;
    float gap = ui_px(ui, 8);
    OnePlan p = {.bays = bays, .bay_h = body.h - 8.0f};
    float most = body.w * 0.38f * (bays > 1 ? 1.0f : 0.4f);
    while (p.bay_h > 80.0f && (float)bays * (bay_width(app, p.bay_h) + gap) > most) {
        p.bay_h -= 4.0f;
    }
    p.bay_w = bay_width(app, p.bay_h);
    float left = (float)bays * (p.bay_w + gap) + ui_px(ui, 8);
    GfxRect w = {body.x + left, body.y, body.w - left, body.h};
    p.words = words_plan(app, w, 0.0f, fill != PB_COMPARE_EMPTY, room);
    p.size = sentence_size(app, fill, p.words.text, 18.0, least);
    return p;
}

/* The fullest plan in which the sentence of the chosen bay is whole. */
static OnePlan one_plan_of(const App *app, GfxRect body, PbCompareFill fill)
{
    Room first = body.h < ui_px(app->ui, 400) ? ROOM_WITHOUT_FACT : ROOM_FOR_ALL;
    for (int bays = PB_COMPARE_FILLS; bays >= 1; bays -= PB_COMPARE_FILLS - 1) {
        for (Room room = first; room <= ROOM_WITHOUT_SCALE; room++) {
            OnePlan p = one_plan(app, body, fill, bays, room, least_text);
            if (p.size > 0.0) {
                return p;
            }
        }
    }
    return one_plan(app, body, fill, 1, ROOM_WITHOUT_SCALE, last_text);
}

/* The bays, and the words of the chosen one. */
static void one(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    float high = ui_px(ui, 32), used = high + ui_px(ui, 8), gap = ui_px(ui, 8);
    int on[PB_COMPARE_FILLS] = {0};
    on[s->pair[1]] = 1;
    picks(app, (GfxRect){r.x, r.y, r.w, high}, on);
    GfxRect body = {r.x, r.y + used, r.w, r.h - used};
    PbCompareFill fill = (PbCompareFill)s->pair[1];
    OnePlan p = one_plan_of(app, body, fill);
    for (int k = 0; k < p.bays; k++) {
        int f = p.bays > 1 ? k : (int)fill;
        GfxRect b = {floorf(body.x + (p.bay_w + gap) * (float)k), body.y + 3.0f, p.bay_w, p.bay_h};
        bay(app, (PbCompareFill)f, b);
        if (p.bays > 1 && on[f]) {
            ui_frame(ui, (GfxRect){b.x - 4, b.y - 4, b.w + 8, b.h + 8}, 3.0f, t->accent);
        }
        ui_area(ui, ID_SIDE_PICK + f, b, 0);
    }
    sentence(app, fill, p.words.text, fmax(p.size, last_text), t->ink);
    cases(app, fill, p.words.cases);
    figures_draw(app, fill, p.words.figures, p.words.plan);
}

void side_columns_draw(const App *app, GfxRect r)
{
    static const PbCompareFill all[PB_COMPARE_FILLS] = {PB_COMPARE_EMPTY, PB_COMPARE_LOOSE,
                                                        PB_COMPARE_FOAM, PB_COMPARE_DENSE};
    const Ui *ui = app->ui;
    if (r.w >= ui_px(ui, 960) && r.h >= ui_px(ui, 500)) {
        columns(app, r, all, PB_COMPARE_FILLS);
    } else if (r.w >= ui_px(ui, 780) && r.h >= ui_px(ui, 370)) {
        two(app, r);
    } else {
        one(app, r);
    }
}

void side_columns_answer(App *app, Side *s)
{
    const Ui *ui = app->ui;
    PbHouse house = s->house;
    double chosen;
    if (ui_answered(ui, ID_SIDE_LOOSE, &chosen)) {
        house.loose = (PbLooseCase)chosen;
    }
    if (ui_answered(ui, ID_SIDE_FOAM, &chosen)) {
        house.foam = (PbFoamClass)chosen;
    }
    if (ui_answered(ui, ID_SIDE_DENSE, &chosen)) {
        house.dense = (PbDenseCase)chosen;
    }
    if (house.loose != s->house.loose || house.foam != s->house.foam ||
        house.dense != s->house.dense) {
        side_compare(app, &house);
    }
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        if (ui_answered(ui, ID_SIDE_PICK + f, NULL) && f != s->pair[1]) {
            s->pair[0] = s->pair[1]; /* the one chosen longer ago gives way */
            s->pair[1] = f;
        }
    }
}
