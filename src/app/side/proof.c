/* The page of the day: what was measured is typed at the left, what it shows and what becomes of
 * the prediction stands beside or under it. Texts become a proof in proof_form.c; every sentence is
 * io/proof_words.h's. The prediction is worked out on a thread; nothing here waits for it but the
 * end of the room. */
#include "side/side.h"

#include "io/clock.h"
#include "io/compare_words.h"
#include "io/parallel.h"
#include "report/proof.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static int is_stopped(void *user)
{
    SideProofJob *job = user;
    return SDL_AtomicGet(&job->is_cancelled);
}

static int work(void *user)
{
    SideProofJob *job = user;
    IoParallel crew = io_parallel_default();
    crew.threads = crew.threads > 1 ? crew.threads - 1 : 1; /* one core stays with the window */
    SDL_SetThreadPriority(SDL_THREAD_PRIORITY_LOW);
    job->status =
        pb_proof_update(&job->setup, job->years, crew.threads > 1 ? io_parallel_for : NULL, &crew,
                        is_stopped, job, &job->update, &job->err);
    SDL_AtomicSet(&job->is_over, 1);
    return 0;
}

void side_proof_forget(Side *s)
{
    SideProofJob *job = s->proof.job;
    if (job != NULL) {
        SDL_AtomicSet(&job->is_cancelled, 1);
        SDL_WaitThread(job->thread, NULL);
        free(job);
        s->proof.job = NULL;
    }
}

static void read_house(const App *app, PbProofReading *reading)
{
    pb_proof_read(&app->side->house, &app->run.config.constants, reading);
}

/* Worked out anew whenever the page is opened or its figures are used. */
static void start(App *app)
{
    Side *s = app->side;
    PbProofReading reading;
    side_proof_forget(s);
    read_house(app, &reading);
    if (!(reading.kg_m3.mid > 0.0)) {
        return;
    }
    SideProofJob *job = calloc(1, sizeof *job);
    if (job == NULL) {
        return; /* the findings stand; the page has no prediction */
    }
    job->setup = pb_compare_default();
    job->setup.house = s->house;
    job->setup.house.bay = s->bay;
    job->setup.house.dense = s->house.dense == PB_DENSE_OWN ? PB_DENSE_WELL_DONE : s->house.dense;
    job->setup.constants = app->run.config.constants;
    job->years = s->rail.years >= 0.25 ? s->rail.years : 30.0;
    job->thread = SDL_CreateThread(work, "proof", job);
    if (job->thread == NULL) {
        free(job);
        return;
    }
    s->proof.job = job;
}

void side_proof_open(App *app)
{
    Side *s = app->side;
    side_proof_fill(&s->proof, &s->house.proof, app_reader(app));
    s->proof.says[0] = '\0';
    s->proof.is_sheet_due = 0;
    start(app);
}

static void say(SideProof *f, const char *text, int is_trouble)
{
    SDL_strlcpy(f->says, text, sizeof f->says);
    f->says_is_trouble = is_trouble;
}

/* What is typed becomes part of the house and is kept with it. */
static int use(App *app)
{
    Side *s = app->side;
    PbProof p;
    if (!side_proof_take(&s->proof, &p)) {
        app->turn.focus_next = s->proof.bad >= 0 ? ID_SIDE_PROOF + s->proof.bad : -1;
        return 0;
    }
    int is_other = side_proof_differs(&p, &s->house.proof);
    s->house.proof = p;
    s->proof.says[0] = '\0';
    PbHouse kept = s->house;
    kept.bay = s->bay;
    if (!side_store_keep(app, &kept)) {
        say(&s->proof, s->form.says, 1);
    }
    side_proof_fill(&s->proof, &p, app_reader(app));
    if (is_other) {
        start(app);
    }
    return 1;
}

static int is_working(const SideProof *f)
{
    return f->job != NULL && !SDL_AtomicGet(&f->job->is_over);
}

static int has_update(const SideProof *f)
{
    return f->job != NULL && SDL_AtomicGet(&f->job->is_over) && f->job->status == PB_OK;
}

static void write_sheet(App *app)
{
    Side *s = app->side;
    char fonts[700], now[24], path[700], words[900];
    PbProofReading reading;
    PbError err = {0};
    time_t today = (time_t)io_now();
    struct tm day;
    read_house(app, &reading);
    ReportProof r = {.house = &s->house,
                     .reading = &reading,
                     .update = has_update(&s->proof) ? &s->proof.job->update : NULL,
                     .taste = app_reader(app)};
    if (!app_find(&app->options, "fonts/B612-Regular.otf", fonts, sizeof fonts) ||
        !side_page_path(app, "proof", path, sizeof path)) {
        say(&s->proof, _("The fonts for printing are not found."), 1);
        return;
    }
    *strrchr(fonts, '/') = '\0';
    io_now_utc(now);
    SDL_strlcpy(r.company, s->company, sizeof r.company);
    if (pb_proof_has_any(&s->house.proof) && localtime_r(&today, &day) != NULL) {
        io_date_words(day.tm_year + 1900, day.tm_mon + 1, day.tm_mday, r.taste, r.date,
                      sizeof r.date);
    }
    if (report_proof_pdf(&r, path, REPORT_PAPER_OF_READER, fonts, now, &err) != PB_OK) {
        say(&s->proof, err.message, 1);
        return;
    }
    SDL_snprintf(words, sizeof words, _("Sheet written: %s"), path);
    say(&s->proof, words, 0);
}

static void field_draw(const App *app, int row, GfxRect r)
{
    Ui *ui = app->ui;
    const SideProof *f = &app->side->proof;
    char words[120], mark[24], text[SIDE_PROOF_TEXT + 1];
    const char *unit = io_proof_row_unit((IoProofRow)row, f->reader);
    float wide = ui_px(ui, 110), label = r.w - wide - ui_px(ui, 10);
    GfxRect at = {r.x + r.w - wide, r.y, wide, ui_px(ui, 32)};
    SDL_snprintf(words, sizeof words, "%s%s%s",
                 io_proof_row_name((IoProofRow)row, f->reader.language), unit[0] ? ", " : "", unit);
    double size = ui_fit(ui, label, 14, UI_REGULAR, words);
    ui_label_cut(ui, r.x, r.y + at.h * 0.5f + ui_px(ui, 5), label, size, UI_REGULAR, ui->theme->ink,
                 words);
    SDL_snprintf(mark, sizeof mark, "proof_%d", row);
    app_mark(app, mark, at);
    SDL_strlcpy(text, f->text[row], sizeof text);
    ui_figure_field(ui, ID_SIDE_PROOF + row, at, text, sizeof text);
    if (f->bad == row) {
        ui_round_line(ui, at, ui_px(ui, 6), 3.0f, ui->theme->danger);
    }
    if (ui->focus == ID_SIDE_PROOF + row) {
        ui_focus_ring(ui, at, ui_px(ui, 6));
    }
}

/* Fields in one or two columns, then the buttons; returns where they end. */
static float fields_draw(const App *app, GfxRect r, int columns)
{
    Ui *ui = app->ui;
    float step = ui_px(ui, 40), gap = ui_px(ui, 28);
    float wide = (r.w - gap * (float)(columns - 1)) / (float)columns;
    int each = IO_PROOF_ROWS / columns;
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        int column = i / each;
        GfxRect at = {r.x + (wide + gap) * (float)column, r.y + step * (float)(i % each), wide,
                      step};
        field_draw(app, i, at);
    }
    const char *use_it = _("What it shows"), *sheet = _("Print the sheet");
    float y = r.y + step * (float)each + ui_px(ui, 8), high = ui_px(ui, 36);
    float w = ui_width(ui, 14, UI_BOLD, use_it) + ui_px(ui, 32);
    GfxRect b = {r.x, y, w, high};
    app_mark(app, "proof_use", b);
    ui_button(ui, ID_SIDE_PROOF_USE, b, use_it, 1, 0);
    b = (GfxRect){b.x + b.w + ui_px(ui, 12), y, ui_width(ui, 14, UI_BOLD, sheet) + ui_px(ui, 32),
                  high};
    app_mark(app, "proof_sheet", b);
    ui_button(ui, ID_SIDE_PROOF_SHEET, b, sheet, 0, 0);
    return y + high + ui_px(ui, 20);
}

/* A name over its sentence; returns the height. */
static float finding(Ui *ui, float x, float y, float wide, const char *name, const char *text)
{
    ui_label(ui, x, y + ui_px(ui, 14), 14, UI_BOLD, ui->theme->ink, UI_LEFT, name);
    float high = ui_paragraph(ui, x, y + ui_px(ui, 34), wide, 14, UI_REGULAR, ui->theme->ink, text);
    return ui_px(ui, 34) + high;
}

static float prediction_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const SideProof *f = &app->side->proof;
    char words[400], name[120];
    float y = r.y;
    if (f->job == NULL) {
        return 0.0f;
    }
    if (!has_update(f)) {
        int is_over = SDL_AtomicGet(&f->job->is_over);
        return finding(ui, r.x, y, r.w, _("The dense pack of this house"),
                       is_over ? _("Some of this has no answer") : _("Being worked out ..."));
    }
    for (int t = 0; t < 2; t++) {
        for (int measured = 0; measured < 2; measured++) {
            SDL_snprintf(name, sizeof name, "%s, %s",
                         measured ? _("As measured") : _("As predicted"),
                         rail_words(app, f->job->update.predicted[t].years));
            io_proof_time_words(&f->job->update, &app->side->house, measured, t, f->reader, words,
                                sizeof words);
            y += finding(ui, r.x, y, r.w, name, words);
        }
    }
    return y - r.y;
}

static float findings_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Side *s = app->side;
    PbProofReading reading;
    char words[600];
    float y = r.y;
    read_house(app, &reading);
    if (s->proof.says[0] != '\0') {
        GfxColor c = s->proof.says_is_trouble ? ui->theme->danger : ui->theme->ink;
        y += ui_paragraph(ui, r.x, y + ui_px(ui, 14), r.w, 14, UI_BOLD, c, s->proof.says) +
             ui_px(ui, 10);
    }
    for (int i = 0; i < IO_PROOF_SENTENCES; i++) {
        io_proof_sentence(&s->house, &reading, (IoProofSentence)i, s->proof.reader, words,
                          sizeof words);
        y += finding(ui, r.x, y, r.w, io_proof_name((IoProofSentence)i, s->proof.reader.language),
                     words);
    }
    y += prediction_draw(app, (GfxRect){r.x, y, r.w, 0.0f});
    return y;
}

void side_proof_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    int is_wide = r.w >= ui_px(ui, 1000);
    float left = is_wide ? ui_px(ui, 440) : r.w, y = r.y + ui_px(ui, 6);
    float under =
        fields_draw(app, (GfxRect){r.x, y, left, 0.0f}, is_wide || r.w < ui_px(ui, 860) ? 1 : 2);
    GfxRect list = {r.x, under, r.w, 0.0f};
    if (is_wide) {
        list = (GfxRect){r.x + left + ui_px(ui, 40), y, r.w - left - ui_px(ui, 40), 0.0f};
    }
    float end = findings_draw(app, list);
    page_needs(app, fmaxf(end, under) - (r.y + r.h));
}

/* The texts follow units and language; what is half typed is read first, and where it is not
 * understood the units stay. */
void side_proof_update(App *app, Side *s)
{
    SideProof *f = &s->proof;
    IoReaderTaste now = app_reader(app);
    PbProof p;
    if (f->is_sheet_due && !is_working(f)) {
        f->is_sheet_due = 0;
        write_sheet(app);
    }
    if (s->page != SIDE_PROOF) {
        return; /* it is written anew when it is opened */
    }
    if (f->reader.is_us == now.is_us && f->reader.is_comma == now.is_comma) {
        f->reader = now;
        return;
    }
    if (side_proof_take(f, &p)) {
        side_proof_fill(f, &p, now);
    } else {
        app->taste.is_us = f->reader.is_us;
        f->reader = app_reader(app);
    }
}

void side_proof_answer(App *app, Side *s)
{
    const Ui *ui = app->ui;
    double is_entered = 0.0;
    if (s->page != SIDE_PROOF) {
        return;
    }
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        if (ui_answered(ui, ID_SIDE_PROOF + i, &is_entered)) {
            SDL_strlcpy(s->proof.text[i], ui->answer_text, sizeof s->proof.text[i]);
            if (is_entered > 0.5) {
                (void)use(app);
            }
        }
    }
    if (ui_answered(ui, ID_SIDE_PROOF_USE, NULL)) {
        (void)use(app);
    } else if (ui_answered(ui, ID_SIDE_PROOF_SHEET, NULL) && use(app)) {
        s->proof.is_sheet_due = 1; /* once the prediction is there, if one is worked out */
    }
    side_proof_update(app, s);
}
