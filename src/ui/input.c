/* Events into what the next layout answers. One event, one layout: only then does the field that a
 * click has chosen get the letters typed after it, and a press and its release both count. */
#include "ui/ui.h"

#include <string.h>

static void key(UiInput *in, UiKey which, int shift)
{
    int *const counts[] = {[UI_KEY_TAB] = shift ? &in->previous : &in->next,
                           [UI_KEY_LEFT] = &in->left,
                           [UI_KEY_RIGHT] = &in->right,
                           [UI_KEY_UP] = &in->up,
                           [UI_KEY_DOWN] = &in->down,
                           [UI_KEY_ENTER] = &in->enter,
                           [UI_KEY_SPACE] = &in->space,
                           [UI_KEY_ERASE] = &in->erase,
                           [UI_KEY_ERASE_NEXT] = &in->erase_next,
                           [UI_KEY_HOME] = &in->home,
                           [UI_KEY_END] = &in->end,
                           [UI_KEY_PAGE_UP] = &in->page_up,
                           [UI_KEY_PAGE_DOWN] = &in->page_down,
                           [UI_KEY_ALL] = &in->all,
                           [UI_KEY_COPY] = &in->copy,
                           [UI_KEY_CUT] = &in->cut};
    *counts[which] += 1;
    in->shift = shift;
    /* Up and down walk through the controls as Tab does. */
    in->previous += which == UI_KEY_UP;
    in->next += which == UI_KEY_DOWN;
}

static int is_start(char c)
{
    return ((unsigned char)c & 0xC0u) != 0x80u;
}

static void type(UiInput *in, const char *text)
{
    size_t had = strlen(in->typed), more = strlen(text), room = sizeof in->typed - 1 - had;
    while (more > room || !is_start(text[more])) {
        more--;
    }
    memcpy(in->typed + had, text, more);
    in->typed[had + more] = '\0';
}

void ui_take(Ui *ui, const UiEvent *e)
{
    UiInput *in = &ui->in;
    in->has_moved |= e->kind == UI_MOVE;
    in->has_more |= e->kind != UI_MOVE;
    switch (e->kind) {
    case UI_PRESS:
    case UI_RELEASE:
        in->is_down = e->kind == UI_PRESS;
        in->pressed += in->is_down;
        in->released += !in->is_down;
        in->clicks = e->clicks;
        in->shift = e->shift;
        in->mouse_x = e->x;
        in->mouse_y = e->y;
        break;
    case UI_MOVE:
        in->mouse_x = e->x;
        in->mouse_y = e->y;
        break;
    case UI_WHEEL:
        in->wheel += e->wheel;
        break;
    case UI_KEY:
        key(in, e->key, e->shift);
        break;
    case UI_TYPE:
        type(in, e->text);
        break;
    }
}

int ui_must_lay_out(const Ui *ui, UiEventKind next)
{
    return ui->in.has_more || (ui->in.has_moved && ui->in.is_down && next != UI_MOVE);
}
