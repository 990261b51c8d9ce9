/* Small help of this room: lists that take the arrows. */
#include "debrief/debrief.h"

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
