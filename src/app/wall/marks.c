/* The marks of a job: gates first, since any one that is shut fails it whatever the points; then
 * points, part by part, and what each was lost for: bay, place, minute and cause. */
#include "wall/wall.h"

#include "io/job_words.h"

#define MARGIN 20.0f

static float heading(const App *app, float y, const char *text)
{
    Ui *ui = app->ui;
    ui_label(ui, MARGIN, y + ui_px(ui, 16), 16, UI_BOLD, ui->theme->ink, UI_LEFT, text);
    ui_rect(ui, MARGIN, y + ui_px(ui, 22), ui->width - 2 * MARGIN, 1.0f, ui->theme->ink2);
    return y + ui_px(ui, 28);
}

/* Sentences of one gate or part, indented. */
static float losses(const App *app, float x, float y, float wide, int part)
{
    Ui *ui = app->ui;
    const PbJobMarks *m = &app->wall->marks;
    char text[400], line[460];
    for (int i = 0; i < m->loss_count; i++) {
        const PbJobLoss *l = &m->losses[i];
        if (l->part != part || (part >= 0 && l->points < 0.05)) {
            continue;
        }
        io_job_loss_sentence(l, app_reader(app), text, sizeof text);
        if (part >= 0) {
            SDL_snprintf(line, sizeof line, "–%s  %s", app_fmt(app, 1, l->points, ""), text);
        } else {
            SDL_snprintf(line, sizeof line, "%s", text);
        }
        y += ui_paragraph(ui, x, y + ui_px(ui, 14), wide, 13, UI_REGULAR,
                          part < 0 ? ui->theme->danger : ui->theme->ink2, line);
        if (l->fault == PB_JOB_FAULT_WIRE) {
            y += ui_paragraph(ui, x, y + ui_px(ui, 14), wide, 13, UI_BOLD, ui->theme->danger,
                              io_job_wire_caution(app->taste.lang));
        }
    }
    return y;
}

static float gates(const App *app, float y)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbJobMarks *m = &app->wall->marks;
    float wide = ui->width - 2 * MARGIN, in = ui_px(ui, 96);
    y = heading(app, y, _("Gates: any one that is shut fails the job"));
    for (int g = 0; g < PB_JOB_GATES; g++) {
        int is_shut = m->is_shut[g];
        ui_label(ui, MARGIN, y + ui_px(ui, 16), 14, UI_BOLD, is_shut ? t->danger : t->ink, UI_LEFT,
                 is_shut ? _("not kept") : _("kept"));
        y += ui_paragraph(ui, MARGIN + in, y + ui_px(ui, 16), wide - in, 14,
                          is_shut ? UI_BOLD : UI_REGULAR, t->ink,
                          io_job_gate_name((PbJobGateKind)g, app->taste.lang));
        y = losses(app, MARGIN + in, y, wide - in, -1 - g) + ui_px(ui, 4);
    }
    return y + ui_px(ui, 10);
}

static float points(const App *app, float y)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbJobMarks *m = &app->wall->marks;
    char text[80];
    float wide = ui->width - 2 * MARGIN, in = ui_px(ui, 96);
    SDL_snprintf(text, sizeof text, _("Points: %s of 100"), app_fmt_mark(app, m->total));
    y = heading(app, y, text);
    for (int p = 0; p < PB_JOB_PARTS; p++) {
        if (m->max[p] <= 0.0) {
            continue;
        }
        SDL_snprintf(text, sizeof text, "%s / %s", app_fmt(app, 1, m->points[p], ""),
                     app_fmt(app, 0, m->max[p], ""));
        ui_label(ui, MARGIN + in - ui_px(ui, 12), y + ui_px(ui, 16), 14, UI_BOLD, t->ink, UI_RIGHT,
                 text);
        y += ui_paragraph(ui, MARGIN + in, y + ui_px(ui, 16), wide - in, 14, UI_BOLD, t->ink,
                          io_job_part_name((PbJobPartKind)p, app->taste.lang));
        y = losses(app, MARGIN + in, y, wide - in, p) + ui_px(ui, 4);
    }
    return y;
}

void wall_marks_lay(const App *app, float top)
{
    float y = points(app, gates(app, top));
    page_needs(app, y + MARGIN - app->ui->height);
}
