/* Text that people type in, on one line or wrapped in a box. Caret and selection are the only
 * state, and the Ui keeps them: one field has the keyboard at a time. */
#include "edit.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static float width_of(Ui *ui, double size, const char *text, int bytes)
{
    return ui_text_width(ui->text, (int)(size * (double)ui->scale + 0.5), UI_REGULAR, text, bytes);
}

/* The byte nearest to `x` pixels into the text, of those before `end`. */
static int byte_at(Ui *ui, double size, const char *text, int from, int end, float x)
{
    int at = from;
    while (at < end) {
        int next = ui_edit_after(text, at);
        float left = width_of(ui, size, text + from, at - from);
        float right = width_of(ui, size, text + from, next - from);
        if (x < 0.5f * (left + right)) {
            break;
        }
        at = next;
    }
    return at;
}

/* What the pointer does to caret and selection; `at` is the byte under it. */
static void point(Ui *ui, const char *text, int at)
{
    if (ui->in.pressed) {
        ui->is_selecting = 1;
        ui->caret = at;
        ui->anchor = ui->in.shift ? ui->anchor : at;
        if (ui->in.clicks == 2) {
            ui_edit_word(ui, text, at);
            ui->is_selecting = 0;
        } else if (ui->in.clicks > 2) {
            ui->anchor = 0;
            ui->caret = (int)strlen(text);
            ui->is_selecting = 0;
        }
    } else if (ui->is_selecting) {
        ui->caret = at;
    }
}

/* The field takes the caret, or gives it up. */
static void take_caret(Ui *ui, int id, int has_focus, const char *text, int is_figure)
{
    if (!has_focus) {
        ui->caret_id = ui->caret_id == id ? 0 : ui->caret_id;
    } else if (ui->caret_id != id) {
        ui->caret_id = id;
        ui->caret = (int)strlen(text);
        ui->anchor = is_figure ? 0 : ui->caret;
        ui->slide = ui->is_selecting = 0;
    }
}

static void frame(Ui *ui, GfxRect r, int has_focus, int is_hot)
{
    const UiTheme *t = ui->theme;
    ui_round(ui, r, ui_px(ui, 6), t->glass);
    ui_round_line(ui, r, ui_px(ui, 6), has_focus || is_hot ? 2.0f : 1.0f,
                  has_focus ? t->accent : t->edge);
}

/* First byte shown, so that the caret is inside and as little moves as can be. */
static void slide(Ui *ui, float room, const char *text)
{
    ui->slide = ui->slide > ui->caret ? ui->caret : ui->slide;
    while (ui->slide < ui->caret &&
           width_of(ui, 14, text + ui->slide, ui->caret - ui->slide) > room) {
        ui->slide = ui_edit_after(text, ui->slide);
    }
}

/* The selected part of the bytes from `from` to `end` of one line, and the caret. */
static void marks(Ui *ui, float x, float y, float high, double size, const char *text, int from,
                  int end)
{
    int a = ui->caret < ui->anchor ? ui->caret : ui->anchor;
    int b = ui->caret < ui->anchor ? ui->anchor : ui->caret;
    a = a < from ? from : a;
    b = b > end ? end : b;
    if (a < b) {
        float left = width_of(ui, size, text + from, a - from);
        ui_rect(ui, floorf(x + left), y, width_of(ui, size, text + from, b - from) - left, high,
                ui->theme->accent_wash);
    }
    if (ui->caret >= from && ui->caret <= end) {
        ui_rect(ui, floorf(x + width_of(ui, size, text + from, ui->caret - from)), y, 2.0f, high,
                ui->theme->accent);
    }
}

static void field(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint, int is_figure)
{
    const UiTheme *t = ui->theme;
    int was_here = ui->caret_id == id;
    int state = id < ui->modal ? 0 : ui_area_state(ui, id, r, 0), has_focus = ui_focusable(ui, id);
    float in = ui_px(ui, 10), room = r.w - 2.0f * in;
    float base = floorf(r.y + r.h * 0.5f + 14.0f * ui->scale * 0.36f + 0.5f);
    take_caret(ui, id, has_focus, text, is_figure);
    if (has_focus && ui_is_dragged(ui, id) && (was_here || !is_figure)) {
        int from = ui->slide, end = (int)strlen(text);
        from = from > end ? end : from;
        point(ui, text, byte_at(ui, 14, text, from, end, ui->in.mouse_x - r.x - in));
    }
    if (has_focus) {
        ui_edit_answer(ui, id, text, size, 0);
        slide(ui, room, text);
    }
    frame(ui, r, has_focus, state & UI_AREA_HOT);
    if (text[0] == '\0') {
        ui_label_cut(ui, r.x + in, base, room, ui_fit(ui, room, 14, UI_REGULAR, hint), UI_REGULAR,
                     t->ink2, hint);
    }
    int from = has_focus ? ui->slide : 0, end = from;
    while (text[end] != '\0' &&
           width_of(ui, 14, text + from, ui_edit_after(text, end) - from) <= room) {
        end = ui_edit_after(text, end);
    }
    if (has_focus) {
        marks(ui, r.x + in, r.y + r.h * 0.2f, r.h * 0.6f, 14, text, from, end);
    }
    ui_label_cut(ui, r.x + in, base, room, 14, UI_REGULAR, t->ink, text + from);
}

void ui_text_field(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint)
{
    field(ui, id, r, text, size, hint, 0);
}

void ui_figure_field(Ui *ui, int id, GfxRect r, char *text, int size)
{
    field(ui, id, r, text, size, "", 1);
}

/* The lines of a box: the byte under a point of it, or, drawn, its text with caret and selection.
 */
typedef struct Lines {
    float x, y, width, step;
    double size;
} Lines;

/* Where the line after one that ends here begins. */
static const char *after_line(const char *end)
{
    return end + (*end == ' ' || *end == '\n');
}

static int line_at(Ui *ui, Lines l, const char *text, float x, float y)
{
    const char *line = text;
    for (float top = l.y;; top += l.step) {
        const char *end = ui_line_end(ui, l.width, l.size, UI_REGULAR, line);
        if (y < top + l.step || *end == '\0') {
            return byte_at(ui, l.size, text, (int)(line - text), (int)(end - text), x - l.x);
        }
        line = after_line(end);
    }
}

static void lines_draw(Ui *ui, Lines l, const char *text, int has_focus)
{
    const char *line = text;
    for (float top = l.y;; top += l.step) {
        const char *end = ui_line_end(ui, l.width, l.size, UI_REGULAR, line);
        if (has_focus) {
            marks(ui, l.x, top, l.step, l.size, text, (int)(line - text), (int)(end - text));
        }
        if (*end == '\0') {
            break;
        }
        line = after_line(end);
    }
    ui_paragraph(ui, l.x, l.y + floorf(l.step * 0.76f), l.width, l.size, UI_REGULAR, ui->theme->ink,
                 text);
}

/* As large as it all fits, down to what can be read; a longer text shows the line of its caret. */
static Lines lines_plan(Ui *ui, GfxRect r, const char *text, int caret)
{
    static const GfxColor none = {0, 0, 0, 0};
    float in = ui_px(ui, 9), high;
    Lines l = {.x = r.x + in, .width = r.w - 2.0f * in, .size = 15.0};
    do {
        l.size -= 1.0;
        high = ui_paragraph(ui, 0, 0, l.width, l.size, UI_REGULAR, none, text);
    } while (l.size > 11.0 && high > r.h - in);
    l.step = floorf(floorf((float)(l.size * (double)ui->scale) + 0.5f) * 1.4f + 0.5f);
    l.y = r.y + floorf(in * 0.5f);
    int above = -(int)((r.h - in) / l.step); /* lines over the one with the caret, less the room */
    for (const char *line = text; high > r.h - in; line = after_line(line)) {
        line = ui_line_end(ui, l.width, l.size, UI_REGULAR, line);
        above++;
        if (line - text >= caret || *line == '\0') {
            break;
        }
    }
    l.y -= above > 0 ? l.step * (float)above : 0.0f;
    return l;
}

void ui_text_box(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint)
{
    int state = id < ui->modal ? 0 : ui_area_state(ui, id, r, 0), has_focus = ui_focusable(ui, id);
    take_caret(ui, id, has_focus, text, 0);
    if (has_focus && ui_is_dragged(ui, id)) {
        Lines l = lines_plan(ui, r, text, ui->caret);
        point(ui, text, line_at(ui, l, text, ui->in.mouse_x, ui->in.mouse_y));
    }
    if (has_focus) {
        ui_edit_answer(ui, id, text, size, 1);
    }
    Lines l = lines_plan(ui, r, text, has_focus ? ui->caret : 0);
    frame(ui, r, has_focus, state & UI_AREA_HOT);
    ui_layer(ui, &r);
    lines_draw(ui, l, text, has_focus);
    if (text[0] == '\0' && !has_focus) {
        ui_paragraph(ui, l.x, l.y + floorf(l.step * 0.76f), l.width, 13, UI_REGULAR,
                     ui->theme->ink2, hint);
    }
    ui_layer(ui, NULL);
    if (has_focus) {
        ui_focus_ring(ui, r, ui_px(ui, 6));
    }
}

float ui_label_cut(Ui *ui, float x, float y, float width, double size, UiWeight weight, GfxColor c,
                   const char *text)
{
    char part[400];
    if (ui_width(ui, size, weight, text) <= width) {
        return ui_label(ui, x, y, size, weight, c, UI_LEFT, text);
    }
    float dots = ui_width(ui, size, weight, "...");
    int px = (int)(size * (double)ui->scale + 0.5), end = 0;
    while (end < (int)sizeof part - 8 && text[end] != '\0') {
        int next = ui_edit_after(text, end);
        if (ui_text_width(ui->text, px, weight, text, next) + dots > width) {
            break;
        }
        end = next;
    }
    while (end > 0 && text[end - 1] == ' ') {
        end--;
    }
    snprintf(part, sizeof part, "%.*s...", end, text);
    return ui_label(ui, x, y, size, weight, c, UI_LEFT, part);
}
