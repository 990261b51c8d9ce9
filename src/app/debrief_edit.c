/* Small helps of this room: lists that take the arrows, text cut to a width. */
#include "debrief.h"

#include <string.h>

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
