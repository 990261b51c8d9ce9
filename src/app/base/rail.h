/* Private to app: the rail of years, one for every room that shows them. Square-root scale from 0
 * to 50, so that the first years have room; play runs evenly along it. */
#ifndef APP_RAIL_H
#define APP_RAIL_H

#include "gfxtypes/draw.h"

#include <SDL.h>

struct App;
struct Ui;

typedef struct YearRail {
    double years; /* now, 0..50 */
    int is_playing;
    double root; /* where play stands along the rail, 0..1; ahead of `years` in year jumps */
} YearRail;

/* Place on the rail, 0..1, and back. */
double rail_years(double share);
double rail_share(double years);
/* Play and rail with the year at the right; `id` is the button, `id` + 1 the rail itself. */
void rail_draw(const struct App *app, const YearRail *rail, int id, GfxRect r);
/* What was done with them. 1 = it is another year now, or it plays or stands. */
int rail_answer(YearRail *rail, const struct Ui *ui, int id);
/* Space, P, arrows, comma, period, Home and End. 1 = taken. */
int rail_key(const struct App *app, YearRail *rail, int id, const SDL_KeyboardEvent *k);
/* Time of the wall goes by; not past `ready` years. With less motion it jumps from year to year. */
void rail_play(const struct App *app, YearRail *rail, double dt_s, double ready);
void rail_toggle(YearRail *rail);
/* "11 months", "30 years"; from the ring of formatted words. */
const char *rail_words(const struct App *app, double years);
/* How much of what the rail shows is worked out, `share` 0..1, and the button beside it, which says
 * Go on or Stop. */
void rail_work_draw(const struct App *app, int id, GfxRect bar, GfxRect button, double share,
                    int goes_on);

#endif
