/* Private to app/result: what came of a run. */
#ifndef APP_RESULT_RESULT_H
#define APP_RESULT_RESULT_H

#include "base/app.h"

enum { ID_AGAIN = ID_RESULT, ID_LEAVE, ID_TO_YEARS, ID_TO_DEBRIEF, ID_TO_SIDE, ID_TABS };

/* words.c */
void result_fault_text(const App *app, const PbScorePart *part, int shown, char *out, size_t size);
const char *result_verdict(const App *app); /* "Passed", "Do it again", "Failed" */
float result_short_draw(const App *app, GfxRect r, int is_stacked);

#endif
