/* What a trainer has typed and not saved, by run and part: a look at another part, another run or
 * another room costs nobody a sentence. In memory only; saving the mark ends its draft. */
#include "debrief/debrief.h"

#include <string.h>

const AppDraft *debrief_draft_of(const App *app, int64_t run_id, int part)
{
    for (int i = 0; run_id != 0 && i < APP_DRAFTS; i++) {
        const AppDraft *a = &app->drafts.draft[i];
        if (a->run_id == run_id && a->part == part) {
            return a;
        }
    }
    return NULL;
}

/* The draft's own place, else a free one, else that of the oldest. */
static AppDraft *place_for(App *app, int64_t run_id, int part)
{
    const AppDraft *own = debrief_draft_of(app, run_id, part);
    for (int i = 0; own == NULL && i < APP_DRAFTS; i++) {
        own = app->drafts.draft[i].run_id == 0 ? &app->drafts.draft[i] : NULL;
    }
    if (own != NULL) {
        return &app->drafts.draft[own - app->drafts.draft];
    }
    app->drafts.turn = (app->drafts.turn + 1) % APP_DRAFTS;
    return &app->drafts.draft[app->drafts.turn];
}

void debrief_draft_keep(App *app)
{
    const Debrief *d = app->debrief;
    if (d->box.run == 0) {
        return;
    }
    int is_kept =
        d->box.points == d->box.kept_points && strcmp(d->box.typed, d->box.kept_text) == 0;
    if (is_kept && debrief_draft_of(app, d->box.run, d->box.part) == NULL) {
        return;
    }
    AppDraft *a = place_for(app, d->box.run, d->box.part);
    a->run_id = is_kept ? 0 : d->box.run;
    a->part = d->box.part;
    a->points = d->box.points;
    SDL_strlcpy(a->text, d->box.typed, sizeof a->text);
}
