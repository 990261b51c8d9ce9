/* What keys do to a line of text: caret, selection, letters. No drawing. */
#include "edit.h"

#include <stdio.h>
#include <string.h>

static int is_start(char c)
{
    return ((unsigned char)c & 0xC0u) != 0x80u;
}

int ui_edit_before(const char *text, int at)
{
    do {
        at -= at > 0;
    } while (at > 0 && !is_start(text[at]));
    return at;
}

int ui_edit_after(const char *text, int at)
{
    do {
        at += text[at] != '\0';
    } while (text[at] != '\0' && !is_start(text[at]));
    return at;
}

static int first(const Ui *ui)
{
    return ui->caret < ui->anchor ? ui->caret : ui->anchor;
}

static int last(const Ui *ui)
{
    return ui->caret < ui->anchor ? ui->anchor : ui->caret;
}

static void cut(Ui *ui, char *text, int from, int to)
{
    memmove(text + from, text + to, strlen(text + to) + 1);
    ui->caret = ui->anchor = from;
}

/* Whole characters only, in place of what is selected. A line end is a space in a box of several
 * lines and nothing in one line; no other control characters. */
static void put(Ui *ui, char *text, int size, int is_box)
{
    const char *typed = ui->in.typed;
    cut(ui, text, first(ui), last(ui));
    for (int i = 0; typed[i] != '\0';) {
        int next = ui_edit_after(typed, i), bytes = next - i, length = (int)strlen(text);
        int is_control = (unsigned char)typed[i] < 0x20u || typed[i] == 0x7f;
        if (is_control && !is_box) {
            i = next;
            continue;
        }
        if (length + bytes >= size) {
            ui->has_left_out = 1;
            return;
        }
        memmove(text + ui->caret + bytes, text + ui->caret, (size_t)(length - ui->caret) + 1);
        memcpy(text + ui->caret, is_control ? " " : typed + i, (size_t)bytes);
        ui->caret += bytes;
        ui->anchor = ui->caret;
        i = next;
    }
}

/* The caret goes to `to`; Shift keeps the other end of the selection where it is. */
static void go(Ui *ui, int to)
{
    ui->caret = to;
    ui->anchor = ui->in.shift ? ui->anchor : to;
}

static void move(Ui *ui, const char *text)
{
    int is_picked = ui->caret != ui->anchor && !ui->in.shift;
    if (ui->in.home) {
        go(ui, 0);
    } else if (ui->in.end) {
        go(ui, (int)strlen(text));
    } else if (ui->in.left) {
        go(ui, is_picked ? first(ui) : ui_edit_before(text, ui->caret));
    } else if (ui->in.right) {
        go(ui, is_picked ? last(ui) : ui_edit_after(text, ui->caret));
    } else if (ui->in.all) {
        ui->anchor = 0;
        ui->caret = (int)strlen(text);
    }
}

static void erase(Ui *ui, char *text)
{
    if (ui->caret != ui->anchor) {
        cut(ui, text, first(ui), last(ui));
    } else if (ui->in.erase) {
        cut(ui, text, ui_edit_before(text, ui->caret), ui->caret);
    } else {
        cut(ui, text, ui->caret, ui_edit_after(text, ui->caret));
    }
}

/* What is selected goes to the caller, who has the clipboard. */
static void copy(Ui *ui, const char *text)
{
    size_t bytes = (size_t)(last(ui) - first(ui));
    if (bytes > 0 && bytes < sizeof ui->copied) {
        memcpy(ui->copied, text + first(ui), bytes);
        ui->copied[bytes] = '\0';
    }
}

static int whole(const char *text, int at)
{
    int length = (int)strlen(text);
    at = at > length ? length : at;
    return is_start(text[at]) ? at : ui_edit_before(text, at);
}

/* What the input says to caret, selection and text; that input is used up. */
static void edit(Ui *ui, char *text, int size, int is_box)
{
    UiInput *in = &ui->in;
    ui->caret = whole(text, ui->caret); /* the text may be another by now */
    ui->anchor = whole(text, ui->anchor);
    move(ui, text);
    if (in->copy || in->cut) {
        copy(ui, text);
    }
    if (in->erase || in->erase_next || (in->cut && ui->caret != ui->anchor)) {
        erase(ui, text);
    }
    if (in->typed[0] != '\0') {
        put(ui, text, size, is_box);
    }
    in->left = in->right = in->home = in->end = in->space = 0;
    in->typed[0] = '\0';
}

static int is_letter(char c)
{
    return c != ' ' && c != '\0';
}

void ui_edit_word(Ui *ui, const char *text, int at)
{
    int from = at, to = at;
    while (from > 0 && is_letter(text[from - 1])) {
        from--;
    }
    while (is_letter(text[to])) {
        to++;
    }
    ui->anchor = from;
    ui->caret = to;
}

void ui_edit_answer(Ui *ui, int id, char *text, int size, int is_box)
{
    char before[UI_TYPED_BYTES];
    int entered = !is_box && ui->in.enter > 0;
    snprintf(before, sizeof before, "%s", text);
    edit(ui, text, size, is_box);
    if (entered || strcmp(before, text) != 0) {
        snprintf(ui->answer_text, sizeof ui->answer_text, "%s", text);
        ui_answer(ui, id, entered ? 1.0 : 0.0);
    }
}
