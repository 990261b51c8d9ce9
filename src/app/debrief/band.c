/* The band over the Debrief room: the way back, what can be done with the run, units, language and
 * text size as in every room, and whose run it is. What does not fit gets rows of its own. */
#include "debrief/debrief.h"

#include "base/screens.h"

#include "core/marks.h"
#include "io/run_summary.h"

#include <math.h>
#include <stdio.h>

enum { BUTTONS = 3 };

typedef struct Button {
    int id;
    const char *mark, *words;
    float w;
} Button;

static float button_width(Ui *ui, const char *label)
{
    return ui_width(ui, 14, UI_BOLD, label) + ui_px(ui, 22);
}

/* Whose run this is, and whether it can be believed: a replay that parts from its recording is not
 * the run that was worked, and says so first. */
static void about_run(const App *app, const DebriefRun *run, char *out, size_t size)
{
    PbReplayCheck check = pb_replay_check(run->watched.replay);
    char parted[120] = "", when[24], breaks[60] = "";
    int left = pb_run_breaks(&run->file);
    if (left > 0) {
        debrief_breaks_words(left, breaks, sizeof breaks);
    }
    const char *notes[3] = {breaks, check.is_resimulated ? _("re-simulated") : "",
                            pb_run_graded_sight(&run->file) >= 0 ? _("graded") : ""};
    if (check.parted_tick >= 0) {
        SDL_snprintf(parted, sizeof parted, _("The replay parts from the recording at %s."),
                     app_fmt_clock(app, check.parted_tick * PB_TICK_S));
    }
    (void)io_local_time(run->when, when);
    SDL_snprintf(out, size, "%s%s%s   %s   %s", parted, parted[0] ? "   " : "", run->learner,
                 _(run->file.exercise.title), when);
    for (int i = 0; i < 3; i++) {
        if (notes[i][0] != '\0') {
            SDL_strlcat(out, "   ", size);
            SDL_strlcat(out, notes[i], size);
        }
    }
}

/* What can be done with this run, right to left; returns how many. */
static int gather(const App *app, int is_folded, Button *out)
{
    const Debrief *d = app->debrief;
    const DebriefRun *run = &d->runs[0];
    int n = 0;
#ifdef PB_HAS_REPORT
    if (run->is_open && run->is_scanned && run->id > 0 && !run->is_left) {
        out[n++] = (Button){ID_D_PDF, "pdf", d->pdf.job != NULL ? _("Writing") : "PDF", 0.0f};
    }
#endif
    if (run->is_open) {
        out[n++] =
            (Button){ID_D_COURSE, "course", d->view.is_course ? _("Replay") : _("Progress"), 0.0f};
    }
    if (is_folded) {
        out[n++] = (Button){ID_D_LIST_OPEN, "runs_open",
                            d->view.is_list_open ? _("Close") : _("Runs"), 0.0f};
    }
    return n;
}

void debrief_band_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    d->view.is_course ^= ui_answered(ui, ID_D_COURSE, NULL);
    d->view.is_list_open ^= ui_answered(ui, ID_D_LIST_OPEN, NULL);
#ifdef PB_HAS_REPORT
    if (ui_answered(ui, ID_D_PDF, NULL)) {
        debrief_pdf(app);
    }
#endif
    if (ui_answered(ui, ID_D_DOOR, NULL)) {
        app_go(app, SCREEN_DOOR);
    }
}

/* What was just said, else whose run this is: beside the title where it fits there, else on as many
 * lines as it needs in the rows under it. `right`: where each of the first two rows ends. */
static void words(const App *app, float left, const float right[3], int rows)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const DebriefRun *run = &d->runs[0];
    int is_said = app->program.now_s < d->said.until_s, row = 0;
    int is_parted = run->is_open && pb_replay_check(run->watched.replay).parted_tick >= 0;
    char text[400] = "";
    const GfxColor none = {0, 0, 0, 0};
    if (run->is_open) {
        about_run(app, run, text, sizeof text);
    }
    const char *shown = is_said ? d->said.text : text;
    UiWeight weight = is_said || is_parted ? UI_BOLD : UI_REGULAR;
    GfxColor ink =
        is_said ? (d->said.is_trouble ? t->danger : t->accent) : (is_parted ? t->danger : t->ink2);
    float line = ui_paragraph(ui, 0, 0, 1e6f, 13, weight, none, "x"), high = 0.0f;
    for (;; row++, left = 16.0f) { /* the first row with room for it on two lines */
        float w = (row < rows ? right[row] : ui->width - 16.0f) - left;
        high = w > ui_px(ui, 160) ? ui_paragraph(ui, 0, 0, w, 13, weight, none, shown) : 1e6f;
        if (high < 2.5f * line || row >= rows) {
            float base = floorf(app_band_row_high(app) * 0.5f + ui_px(ui, 7)) +
                         app_band_y(app, row) - app_band_y(app, 0);
            ui_paragraph(ui, left, base - fminf(0.5f * (high - line), 0.5f * line), w, 13, weight,
                         ink, shown);
            break;
        }
    }
    float step = app_band_y(app, 1) - app_band_y(app, 0);
    int need = row + 1 + (high > 2.5f * line ? (int)ceilf((high - 2.5f * line) / step) : 0);
    app->laid->band_need = shown[0] != '\0' && need > rows ? need : rows;
}

void debrief_band_draw(const App *app, int is_folded)
{
    Ui *ui = app->ui;
    float high = ui_px(ui, 30), gap = ui_px(ui, 8), end = ui->width - 16.0f, sum = 0.0f;
    float base = floorf(app_band_row_high(app) * 0.5f + ui_px(ui, 7)), y = app_band_y(app, 0);
    Button b[BUTTONS];
    int n = gather(app, is_folded, b);
    GfxRect door = {16.0f, y, button_width(ui, _("Door")), high};
    app_mark(app, "door", door);
    ui_button(ui, ID_D_DOOR, door, _("Door"), 0, 0);
    float left = door.x + door.w + ui_px(ui, 14);
    left += ui_label(ui, left, base, 20, UI_BOLD, ui->theme->ink, UI_LEFT, _("Debrief")) +
            ui_px(ui, 14);
    for (int i = 0; i < n; i++) {
        b[i].w = button_width(ui, b[i].words);
        sum += b[i].w + gap;
    }
    BandPlan p = app_band_plan(app, left - 16.0f, sum, app_switches_width(app));
    float right[3] = {end, end, end};
    for (int i = 0; i < n; i++) {
        GfxRect at = {floorf(right[p.second] - b[i].w), app_band_y(app, p.second), b[i].w, high};
        app_mark(app, b[i].mark, at);
        ui_button(ui, b[i].id, at, b[i].words, 0, 0);
        right[p.second] = at.x - gap;
    }
    right[p.switches] =
        app_switches_draw(app, right[p.switches], app_band_y(app, p.switches), high, -1e9f) - gap;
    words(app, left, right, p.switches + 1);
    ui_rect(ui, 0.0f, app_band_height(app) - 2.0f, ui->width, 2.0f, ui->theme->ink);
}
