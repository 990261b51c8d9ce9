/* A line of text that people type in. The caret is the only state, and the Ui keeps it: one field
 * has the keyboard at a time. */
#include "ui/ui.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static int is_start(char c)
{
    return ((unsigned char)c & 0xC0u) != 0x80u;
}

static int before(const char *text, int at)
{
    do {
        at -= at > 0;
    } while (at > 0 && !is_start(text[at]));
    return at;
}

static int after(const char *text, int at)
{
    do {
        at += text[at] != '\0';
    } while (text[at] != '\0' && !is_start(text[at]));
    return at;
}

static void cut(char *text, int from, int to)
{
    memmove(text + from, text + to, strlen(text + to) + 1);
}

/* Whole characters only, and no control characters. */
static void put(char *text, int size, int *caret, const char *typed)
{
    for (int i = 0; typed[i] != '\0';) {
        int next = after(typed, i), bytes = next - i, length = (int)strlen(text);
        if ((unsigned char)typed[i] >= 0x20u && typed[i] != 0x7f && length + bytes < size) {
            memmove(text + *caret + bytes, text + *caret, (size_t)(length - *caret) + 1);
            memcpy(text + *caret, typed + i, (size_t)bytes);
            *caret += bytes;
        }
        i = next;
    }
}

static void edit(Ui *ui, char *text, int size)
{
    UiInput *in = &ui->in;
    int at = ui->caret;
    put(text, size, &at, in->typed);
    at = in->home ? 0 : in->end ? (int)strlen(text) : at;
    at = in->left ? before(text, at) : in->right ? after(text, at) : at;
    if (in->erase) {
        int from = before(text, at);
        cut(text, from, at);
        at = from;
    }
    if (in->erase_next) {
        cut(text, at, after(text, at));
    }
    in->left = in->right = in->space = 0;
    in->typed[0] = '\0';
    ui->caret = at;
}

/* First byte that is shown, so that the caret is inside. */
static int slide(Ui *ui, float room, int px, const char *text, int caret)
{
    int from = 0;
    while (from < caret &&
           ui_text_width(ui->text, px, UI_REGULAR, text + from, caret - from) > room) {
        from = after(text, from);
    }
    return from;
}

int ui_text_field(Ui *ui, int id, GfxRect r, char *text, int size, const char *hint)
{
    const UiTheme *t = ui->theme;
    int is_asleep = id < ui->modal;
    int state = is_asleep ? 0 : ui_area(ui, id, r, 0), has_focus = ui_focusable(ui, id);
    int px = (int)(14.0f * ui->scale + 0.5f), length = (int)strlen(text);
    float in = ui_px(ui, 10), room = r.w - 2.0f * in;
    float base = floorf(r.y + r.h * 0.5f + 14.0f * ui->scale * 0.36f + 0.5f);
    int entered = has_focus && ui->in.enter > 0;
    if (has_focus && ui->caret_id != id) {
        ui->caret_id = id;
        ui->caret = length;
    }
    if (has_focus) {
        ui->caret = ui->caret > length ? length : ui->caret;
        edit(ui, text, size);
    } else if (ui->caret_id == id) {
        ui->caret_id = 0;
    }
    ui_round(ui, r, ui_px(ui, 6), t->glass);
    ui_round_line(ui, r, ui_px(ui, 6), has_focus || (state & UI_AREA_HOT) ? 2.0f : 1.0f,
                  has_focus ? t->accent : t->edge);
    if (text[0] == '\0') {
        ui_label_cut(ui, r.x + in, base, room, 14, UI_REGULAR, t->ink2, hint);
    }
    int from = has_focus ? slide(ui, room, px, text, ui->caret) : 0;
    ui_label_cut(ui, r.x + in, base, room, 14, UI_REGULAR, t->ink, text + from);
    if (has_focus) {
        float x = r.x + in + ui_text_width(ui->text, px, UI_REGULAR, text + from, ui->caret - from);
        ui_rect(ui, floorf(x), r.y + r.h * 0.2f, 2.0f, r.h * 0.6f, t->accent);
    }
    return entered;
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
        int next = after(text, end);
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
