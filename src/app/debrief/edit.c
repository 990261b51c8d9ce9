/* Small help of this room: lists that arrows, wheel and pointer walk through. */
#include "debrief/debrief.h"

static int between(int v, int low, int high)
{
    return v > high ? (high < low ? low : high) : v < low ? low : v;
}

int debrief_list(Ui *ui, int id, GfxRect r, DebriefRows l)
{
    int has_focus = ui_focusable(ui, id), last = l.count - l.shown, want = l.chosen;
    int first = between(l.first, 0, last), top = first, is_picked = 0;
    if (has_focus && (ui->in.up || ui->in.down) && l.count > 0) {
        want = between(want + ui->in.down - ui->in.up, 0, l.count - 1);
        top = want < top ? want : top;
        top = want >= top + l.shown ? want - l.shown + 1 : top;
        ui->in.next = ui->in.previous = 0; /* the arrows walk the list, not on to the next widget */
        ui->is_ring_shown = 1;
    }
    if (has_focus) {
        ui_focus_ring(ui, r, 2.0f);
    }
    if (l.high > 0.0f && ui_over(ui, r) && ui->in.wheel != 0.0f) {
        top = between(first + ui_wheel_rows(ui), 0, last);
    }
    if (l.high > 0.0f && ui_over(ui, r) && ui->in.pressed && id >= ui->modal) {
        ui->focus = id;
        ui->is_ring_shown = 0;
        want = first + (int)((ui->in.mouse_y - r.y) / l.high);
        is_picked = 1;
    }
    if (is_picked || want != l.chosen) {
        ui_answer(ui, id, want);
    }
    if (top != first) {
        ui_answer(ui, id + 1, top);
    }
    return first;
}
