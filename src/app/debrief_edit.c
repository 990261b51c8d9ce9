/* Small helps of this room: one text box, lists that take the arrows, text cut to a width. */
#include "debrief.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void debrief_edit_set(DebriefEdit *e, const char *text)
{
    SDL_strlcpy(e->text, text, sizeof e->text);
    e->caret = (int)strlen(e->text);
}

void debrief_edit_type(DebriefEdit *e, const char *text)
{
    size_t have = strlen(e->text), more = strlen(text);
    if (have + more > DEBRIEF_TEXT) {
        return;
    }
    memmove(e->text + e->caret + more, e->text + e->caret, have - (size_t)e->caret + 1);
    memcpy(e->text + e->caret, text, more);
    e->caret += (int)more;
}

int debrief_edit_paste(DebriefEdit *e, const char *text)
{
    char one[8];
    while (*text != '\0') {
        size_t n = 1;
        while (n < 4 && ((unsigned char)text[n] & 0xC0) == 0x80) {
            n++;
        }
        if (strlen(e->text) + n > DEBRIEF_TEXT) {
            return 0;
        }
        memcpy(one, text, n);
        one[n] = '\0';
        if ((unsigned char)one[0] < ' ' || one[0] == 0x7F) {
            snprintf(one, sizeof one, " ");
        }
        debrief_edit_type(e, one);
        text += n;
    }
    return 1;
}

static int before(const DebriefEdit *e, int at)
{
    int i = at > 0 && at < (int)sizeof e->text ? at - 1 : 0;
    while (i > 0 && ((unsigned char)e->text[i] & 0xC0) == 0x80) {
        i--;
    }
    return i;
}

static int after(const DebriefEdit *e, int at)
{
    if (e->text[at] != '\0') {
        do {
            at++;
        } while (((unsigned char)e->text[at] & 0xC0) == 0x80);
    }
    return at;
}

static void cut(DebriefEdit *e, int from, int to)
{
    memmove(e->text + from, e->text + to, strlen(e->text + to) + 1);
    e->caret = from;
}

int debrief_edit_key(DebriefEdit *e, SDL_Keycode key)
{
    switch (key) {
    case SDLK_BACKSPACE:
        cut(e, before(e, e->caret), e->caret);
        return 1;
    case SDLK_DELETE:
        cut(e, e->caret, after(e, e->caret));
        return 1;
    case SDLK_LEFT:
        e->caret = before(e, e->caret);
        return 1;
    case SDLK_RIGHT:
        e->caret = after(e, e->caret);
        return 1;
    case SDLK_HOME:
        e->caret = 0;
        return 1;
    case SDLK_END:
        e->caret = (int)strlen(e->text);
        return 1;
    default:
        return 0;
    }
}

void debrief_edit_draw(App *app, int id, GfxRect r, DebriefEdit *e, const char *hint)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    int has_focus = ui_focusable(ui, id);
    char shown[DEBRIEF_TEXT + 8];
    if (ui_over(ui, r) && ui->in.pressed && id >= ui->modal) {
        ui->focus = id;
        has_focus = 1;
        ui->is_ring_shown = 0;
    }
    ui_round(ui, r, ui_px(ui, 6), t->glass);
    ui_round_line(ui, r, ui_px(ui, 6), has_focus ? 2.0f : 1.0f, has_focus ? t->accent : t->edge);
    SDL_snprintf(shown, sizeof shown, "%.*s%s%s", e->caret, e->text, has_focus ? "|" : "",
                 e->text + e->caret);
    float in = ui_px(ui, 9), w = r.w - 2 * in;
    double size = 14.0;
    GfxColor none = {0, 0, 0, 0};
    while (size > 10.0 && ui_paragraph(ui, 0, 0, w, size, UI_REGULAR, none, shown) > r.h - in) {
        size -= 1.0;
    }
    ui_layer(ui, &r);
    if (e->text[0] == '\0' && !has_focus) {
        ui_paragraph(ui, r.x + in, r.y + ui_px(ui, 20), w, 13, UI_REGULAR, t->ink2, hint);
    } else {
        ui_paragraph(ui, r.x + in, r.y + ui_px(ui, 20), w, size, UI_REGULAR, t->ink, shown);
    }
    ui_layer(ui, NULL);
    if (has_focus) {
        ui_focus_ring(ui, r, ui_px(ui, 6));
    }
}

int debrief_list(Ui *ui, int id, GfxRect r, int count, int chosen)
{
    int has_focus = ui_focusable(ui, id);
    if (has_focus && (ui->in.up || ui->in.down) && count > 0) {
        chosen += ui->in.down - ui->in.up;
        chosen = chosen < 0 ? 0 : chosen >= count ? count - 1 : chosen;
        ui->in.next = ui->in.previous = 0; /* the arrows walk the list, not on to the next widget */
        ui->is_ring_shown = 1;
    }
    if (has_focus) {
        ui_focus_ring(ui, r, 2.0f);
    }
    return chosen;
}

const char *debrief_fit(App *app, double size, UiWeight weight, float width, const char *text)
{
    static char out[4][320];
    static int turn;
    Ui *ui = &app->ui;
    char *o = out[turn = (turn + 1) % 4];
    SDL_strlcpy(o, text, sizeof out[0]);
    size_t n = strlen(o);
    while (n > 0 && ui_width(ui, size, weight, o) > width) {
        n -= n > 3 && strcmp(o + n - 3, "…") == 0 ? 3 : 0;
        do {
            n = n > 0 ? n - 1 : 0;
        } while (n > 0 && ((unsigned char)o[n] & 0xC0) == 0x80);
        SDL_strlcpy(o + n, n > 0 ? "…" : "", sizeof out[0] - n);
        n = strlen(o);
        if (n <= 3) {
            break;
        }
    }
    return o;
}
