/* The handout: whose name stands on it, which year it shows, and the file it becomes. The page
 * itself is report/handout.h; every figure on it is the comparison's. */
#include "side/side.h"

#include "io/clock.h"
#include "io/company_file.h"
#include "io/compare_words.h"
#include "os/file.h"
#include "report/handout.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

/* The key time nearest to the rail, as the printed page shows one. */
static int key_time(const Side *s)
{
    int best = 1;
    double root = sqrt(s->rail.years);
    for (int t = 1; t < s->shown->year_count; t++) {
        if (fabs(sqrt(s->shown->years[t]) - root) < fabs(sqrt(s->shown->years[best]) - root)) {
            best = t;
        }
    }
    return best;
}

/* The folder of the database, with its slash; "" where the program was started. */
static int data_folder(const App *app, const char **path)
{
    *path = app->records.store != NULL ? store_path(app->records.store) : "";
    const char *slash = strrchr(*path, '/');
    return slash != NULL ? (int)(slash - *path) + 1 : 0;
}

static void company_path(const App *app, char *out, size_t size)
{
    const char *db;
    int folder = data_folder(app, &db);
    (void)snprintf(out, size, "%.*scompany.json", folder, db);
}

static void typed_over(char *out, size_t size, const char *typed)
{
    if (typed[strspn(typed, " ")] != '\0') {
        SDL_strlcpy(out, typed, size);
    }
}

/* Lines as typed, all else from company.json where there is one. 0 = it is not understood. */
static int take_company(const App *app, IoCompany *company, PbError *err)
{
    char path[700];
    company_path(app, path, sizeof path);
    SDL_memset(company, 0, sizeof *company);
    if (os_is_there(path) && io_company_load(path, company, err) != PB_OK) {
        return 0;
    }
    const Side *s = app->side;
    SDL_strlcpy(company->name, s->company, sizeof company->name);
    typed_over(company->contact, sizeof company->contact, s->firm[SIDE_FIRM_WHO]);
    typed_over(company->notice, sizeof company->notice, s->firm[SIDE_FIRM_NOTICE]);
    typed_over(company->savings_notice, sizeof company->savings_notice, s->firm[SIDE_FIRM_SAVINGS]);
    if (strcmp(company->contact, s->firm[SIDE_FIRM_WHO]) == 0) {
        company->license[0] = '\0'; /* the typed line has both */
    }
    return 1;
}

/* Beside the database, or where the program was started; named after the customer in plain letters.
 */
int side_page_path(const App *app, const char *kind, char *out, size_t size)
{
    const Side *s = app->side;
    const char *db;
    int folder = data_folder(app, &db);
    char name[48];
    size_t n = 0;
    for (const char *p = s->shown_house.customer; *p && n + 1 < sizeof name; p++) {
        int is_plain = isalnum((unsigned char)*p) && (unsigned char)*p < 0x80;
        if (is_plain || (n > 0 && name[n - 1] != '-')) {
            name[n++] = is_plain ? (char)tolower((unsigned char)*p) : '-';
        }
    }
    name[n] = '\0';
    return snprintf(out, size, "%.*s%s-%s.pdf", folder, db, kind, name) < (int)size;
}

static void say(Side *s, const char *text, int is_trouble)
{
    SDL_strlcpy(s->handout_says, text, sizeof s->handout_says);
    s->handout_is_trouble = is_trouble;
}

static void write_it(App *app)
{
    Side *s = app->side;
    ReportHandout h = {.compare = s->shown->compare, .t = key_time(s), .taste = app_reader(app)};
    PbError err = {0};
    char fonts[700], now[24], words[900];
    time_t today = (time_t)io_now();
    struct tm day;
    if (s->company[strspn(s->company, " ")] == '\0') {
        say(s, _("Expected the name of the company; it is printed as typed."), 1);
        app->turn.focus_next = ID_SIDE_COMPANY;
        return;
    }
    if (!app_find(&app->options, "fonts/B612-Regular.otf", fonts, sizeof fonts) ||
        !side_page_path(app, "handout", s->handout, sizeof s->handout)) {
        say(s, _("The fonts for printing are not found."), 1);
        return;
    }
    *strrchr(fonts, '/') = '\0';
    io_now_utc(now);
    if (!take_company(app, &h.company, &err)) {
        char line[700];
        io_error_line(&err, line, sizeof line);
        say(s, line, 1);
        return;
    }
    if (localtime_r(&today, &day) != NULL) { /* the person's own day, not the store's UTC */
        io_date_words(day.tm_year + 1900, day.tm_mon + 1, day.tm_mday, h.taste, h.date,
                      sizeof h.date);
    }
    PbStatus status = report_handout_pdf(&h, s->handout, REPORT_PAPER_OF_READER, fonts, now, &err);
    if (status != PB_OK) {
        say(s,
            status == PB_ERR_STATE ? _("The figures of this year are still being figured.")
                                   : err.message,
            1);
        return;
    }
    side_store_company(app);
    s->handout_count++;
    SDL_snprintf(words, sizeof words, _("Handout written: %s"), s->handout);
    say(s, words, 0);
}

/* Is every range of the printed years as wide as it will be? */
static int is_done(const Side *s)
{
    return side_job_is_over(s->shown) && s->shown == s->job && !s->is_due &&
           SDL_AtomicGet(&s->shown->status) == PB_OK;
}

/* Lines of the company under its name; returns where they end. */
static float firm_draw(const App *app, float x, float y, float w)
{
    static const struct {
        const char *name;
        int bytes, lines; /* as many as the page takes */
    } rows[SIDE_FIRM] = {
        {N_("License and address"), 161, 1},
        {N_("Notices of the company"), 601, 3},
        {N_("Text of 16 CFR 460.19 on savings claims, from your counsel"), 401, 2}};
    Ui *ui = app->ui;
    char text[SIDE_FIRM_TEXT + 1], mark[16];
    for (int i = 0; i < SIDE_FIRM; i++) {
        const char *hint = _("Left empty: a line to fill in by hand");
        GfxRect r = {x, y + ui_px(ui, 24), w,
                     ui_px(ui, rows[i].lines > 1 ? 14 + 20 * rows[i].lines : 34)};
        ui_label_cut(ui, x, y + ui_px(ui, 16), w, 14, UI_BOLD, ui->theme->ink, _(rows[i].name));
        SDL_snprintf(mark, sizeof mark, "firm_%d", i + 1);
        app_mark(app, mark, r);
        SDL_strlcpy(text, app->side->firm[i], sizeof text);
        if (rows[i].lines > 1) {
            ui_text_box(ui, ID_SIDE_FIRM + i, r, text, rows[i].bytes, hint);
        } else {
            ui_text_field(ui, ID_SIDE_FIRM + i, r, text, rows[i].bytes, hint);
        }
        if (ui->focus == ID_SIDE_FIRM + i) {
            ui_focus_ring(ui, r, ui_px(ui, 6));
        }
        y = r.y + r.h + ui_px(ui, 8);
    }
    return y;
}

void side_handout_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Side *s = app->side;
    char words[200], company[SIDE_TEXT + 1];
    float w = fminf(r.w - 12.0f, ui_px(ui, 640)), x = r.x + 6.0f, high = ui_px(ui, 34);
    float y = r.y + ui_px(ui, 14);
    if (r.h >= ui_px(ui, 270)) { /* the lowest windows have no room to explain */
        y += ui_paragraph(
            ui, x, y, w, 14, UI_REGULAR, t->ink,
            _("One page: the four bays when filled and at the year you picked, their ranges, label "
              "lines, notices, cautions; behind it inputs and sources. It claims nothing beyond "
              "what is computed."));
        y += ui_px(ui, 16);
    }
    ui_label(ui, x, y, 14, UI_BOLD, t->ink, UI_LEFT, _("Company on the handout"));
    GfxRect field = {x, y + ui_px(ui, 10), w, high};
    app_mark(app, "company", field);
    SDL_strlcpy(company, s->company, sizeof company);
    ui_text_field(ui, ID_SIDE_COMPANY, field, company, sizeof company, _("Your company's name"));
    if (ui->focus == ID_SIDE_COMPANY) {
        ui_focus_ring(ui, field, ui_px(ui, 6));
    }
    y = firm_draw(app, x, field.y + high + ui_px(ui, 8), w) + ui_px(ui, 16);
    SDL_snprintf(words, sizeof words, "%s: %s", _("Year shown beside year 0"),
                 rail_words(app, s->shown->years[key_time(s)]));
    ui_label_cut(ui, x, y, w, 14, UI_REGULAR, t->ink, words);
    y += ui_px(ui, 14);
    const char *ok = _("Write the handout");
    GfxRect b = {x, y, fminf(ui_width(ui, 14, UI_BOLD, ok) + ui_px(ui, 40), w), high};
    app_mark(app, "write", b);
    ui_button(ui, ID_SIDE_WRITE, b, ok, 1, !is_done(s));
    const char *proof = _("Proof on the day");
    float wide = ui_width(ui, 14, UI_BOLD, proof) + ui_px(ui, 40);
    b = b.x + b.w + wide + ui_px(ui, 12) <= x + w
            ? (GfxRect){b.x + b.w + ui_px(ui, 12), y, wide, high}
            : (GfxRect){x, y += high + ui_px(ui, 10), fminf(wide, w), high};
    app_mark(app, "to_proof", b);
    ui_button(ui, ID_SIDE_TO_PROOF, b, proof, 0, 0);
    y += high + ui_px(ui, 24);
    if (!is_done(s)) {
        SDL_snprintf(words, sizeof words, "%s %s", _("The ranges are still being figured."),
                     app_fmt(app, 0, floor(side_job_progress(s->job) * 100.0), "%"));
        y += ui_paragraph(ui, x, y, w, 14, UI_REGULAR, t->ink2, words);
    } else if (s->handout_says[0] != '\0') {
        y += ui_paragraph(ui, x, y, fmaxf(w, r.w * 0.7f), 14, UI_BOLD,
                          s->handout_is_trouble ? t->danger : t->ink, s->handout_says);
    }
    page_needs(app, y - (r.y + r.h));
}

void side_handout_answer(App *app, Side *s)
{
    const Ui *ui = app->ui;
    double is_entered = 0.0;
    if (ui_answered(ui, ID_SIDE_COMPANY, &is_entered)) {
        SDL_strlcpy(s->company, ui->answer_text, sizeof s->company);
    }
    for (int i = 0; i < SIDE_FIRM; i++) {
        if (ui_answered(ui, ID_SIDE_FIRM + i, NULL)) {
            SDL_strlcpy(s->firm[i], ui->answer_text, sizeof s->firm[i]);
        }
    }
    if (ui_answered(ui, ID_SIDE_TO_PROOF, NULL)) {
        side_go(app, SIDE_PROOF);
    } else if ((is_entered > 0.5 || ui_answered(ui, ID_SIDE_WRITE, NULL)) && is_done(s)) {
        write_it(app);
    }
}
