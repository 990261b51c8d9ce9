/* The result in words: why points went, and the sentences after a run (io/debrief_words.h).
 */
#include "result/result.h"

#include "io/debrief_words.h"
#include "io/score_words.h"

#include <string.h>

void result_fault_text(const App *app, const PbScorePart *p, int shown, char *out, size_t size)
{
    char words[160] = "", where[48] = "", when[32] = "";
    if (shown >= p->max) { /* so little that nothing is told against it */
        SDL_snprintf(out, size, "%s", result_little_lost(p));
        return;
    }
    io_fault_words(p, app->run.config.exercise.target_kg_m3, app_reader(app), words, sizeof words);
    int has_place = p->fault != PB_FAULT_NONE && p->fault != PB_FAULT_CHECKS &&
                    p->fault != PB_FAULT_POWER_ON; /* those are at the machine */
    if (has_place && p->y_m >= 0.0) {
        SDL_snprintf(where, sizeof where, _("; at %s"), app_fmt_length(app, p->y_m));
    }
    if (p->fault != PB_FAULT_NONE && p->time_s >= 0.0) {
        SDL_snprintf(when, sizeof when, ", %s", app_fmt_clock(app, p->time_s));
    }
    SDL_snprintf(out, size, "%s%s%s", words, where, when);
}

enum { SENTENCES = IO_SHORT_LINES };

/* One sentence with its bold word before it; returns the height. */
static float sentence(Ui *ui, float x, float y, float w, float left, const char *word,
                      const char *text)
{
    ui_label(ui, x, y, 14, UI_BOLD, ui->theme->ink, UI_LEFT, word);
    return ui_paragraph(ui, x + left, y, w - left, 14, UI_REGULAR, ui->theme->ink, text) +
           ui_px(ui, 4);
}

/* After the guide: what was done, and what comes next. Half of a bay has no grade. */
static void guide_words(const App *app, const char *words[SENTENCES],
                        char text[SENTENCES][IO_DEBRIEF_BYTES])
{
    const PbResult *k = &app->run.watched.result;
    words[0] = _("Done:");
    words[1] = _("Next:");
    if (k->blow_out || k->stall_count < 3) {
        SDL_snprintf(text[0], IO_DEBRIEF_BYTES, "%s",
                     _("the run ended before the guide was through. Nothing here is graded."));
    } else {
        SDL_snprintf(
            text[0], IO_DEBRIEF_BYTES,
            _("tube in, %d stalls heard, pulled back after each, machine off, hole closed, "
              "in %s. Half of the bay is packed; nothing here is graded."),
            k->stall_count, app_fmt_clock(app, k->duration_s));
    }
    SDL_snprintf(text[1], IO_DEBRIEF_BYTES, "%s",
                 _("exercise 1 is the whole bay, first with the wall open. Add your name on the "
                   "start screen and your runs are saved."));
}

const char *result_verdict(const App *app)
{
    static const char *const words[3] = {[PB_VERDICT_PASS] = N_("Passed"),
                                         [PB_VERDICT_REDO] = N_("Do it again"),
                                         [PB_VERDICT_FAIL] = N_("Failed")};
    return _(words[app->run.watched.score.verdict]);
}

enum { HEAD_PX = 20 };

/* The grade in one line, or in two where its smallest letters do not fit one; returns its height.
 */
static float grade_words(const App *app, float width, char *out, size_t size)
{
    Ui *ui = app->ui;
    GfxColor none = {0, 0, 0, 0};
    SDL_snprintf(out, size, "%s / 100  %s%s%s", app_fmt_mark(app, app->run.watched.score.total),
                 result_verdict(app), app->task.is_graded ? ", " : "",
                 app->task.is_graded ? _("graded") : "");
    double px = ui_fit(ui, width, HEAD_PX, UI_BOLD, out);
    int is_one = ui_width(ui, px, UI_BOLD, out) <= width;
    return ui_px(ui, 30) +
           (is_one ? 0.0f : ui_paragraph(ui, 0, 0, width, px, UI_BOLD, none, out) * 0.5f);
}

/* The sentences in a box at the top of `r`; `is_stacked`: each under its word, for narrow columns.
 * Returns the height used. */
float result_short_draw(const App *app, GfxRect r, int is_stacked)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    char text[SENTENCES][IO_DEBRIEF_BYTES];
    const char *words[SENTENCES];
    int is_guide = guide_is_done(app), count = 2;
    GfxColor none = {0, 0, 0, 0};
    float in = ui_px(ui, 14), left = 0.0f, high = ui_px(ui, 12), w = r.w - 2 * in;
    int has_head = is_stacked && !is_guide; /* the grade stands on another list then */
    char head[120] = "";
    float head_high = 0.0f;
    if (has_head) {
        head_high = grade_words(app, w, head, sizeof head);
        high += head_high;
    }
    if (is_guide) {
        guide_words(app, words, text);
    } else {
        count = io_short_lines(&app->run.watched.score, &app->run.config.exercise,
                               &app->records.last_time, app_reader(app), words, text);
    }
    for (int i = 0; i < count && !is_stacked; i++) {
        float wide = ui_width(ui, 14, UI_BOLD, words[i]) + ui_px(ui, 10);
        left = wide > left ? wide : left;
    }
    for (int i = 0; i < count; i++) {
        high += ui_paragraph(ui, 0, 0, w - left, 14, UI_REGULAR, none, text[i]) + ui_px(ui, 4) +
                (is_stacked ? ui_px(ui, 20) : 0.0f);
    }
    GfxRect box = {r.x, r.y, r.w, high};
    ui_round(ui, box, ui_px(ui, 6), t->sheet);
    ui_round_line(ui, box, ui_px(ui, 6), 1.0f, t->edge);
    app_mark(app, "short", box);
    float y = box.y + ui_px(ui, 22);
    if (has_head) {
        double size = ui_fit(ui, w, HEAD_PX, UI_BOLD, head);
        ui_paragraph(ui, box.x + in, y + ui_px(ui, 4), w + 1.0f, size, UI_BOLD,
                     app->run.watched.score.is_pass ? t->ink : t->danger, head);
        y += head_high;
    }
    for (int i = 0; i < count; i++) {
        if (is_stacked) {
            ui_label(ui, box.x + in, y, 14, UI_BOLD, t->ink, UI_LEFT, words[i]);
            y += ui_px(ui, 20);
            y += ui_paragraph(ui, box.x + in, y, w, 14, UI_REGULAR, t->ink, text[i]) + ui_px(ui, 4);
        } else {
            y += sentence(ui, box.x + in, y, w, left, words[i], text[i]);
        }
    }
    return high;
}
