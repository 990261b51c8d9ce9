/* Private to app: what comes out of the hole. It knows what a crew can sense and nothing of the
 * run. */
#ifndef APP_BASE_SPILL_H
#define APP_BASE_SPILL_H

#include "core/view.h"
#include "ui/ui.h"

/* At the hole (x, y), while fill comes out of it. */
void spill_draw(Ui *ui, const PbSignals *s, float x, float y, double px_m, double now_s);

/* The holes that the tube is not in: an open one is dark, a plugged one a disc with a rim.
 * `corner`: where the corner of the bay is on the screen. */
void holes_draw(Ui *ui, const PbHole *holes, int count, const PbActs *acts, UiPoint corner,
                double px_m);

#endif
