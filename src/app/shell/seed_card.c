/* The seed of the tries to come: two people who give the same number get the same sheet and the
 * same chances. It is kept with every run and told with its result. */
#include "shell/shell.h"

#include <stdlib.h>

enum { MOST_DIGITS = 9 };

void seed_card_draw(const App *app)
{
    Ui *ui = app->ui;
    const GfxColor none = {0, 0, 0, 0};
    const char *words =
        _("Two people who start with the same seed get the same wall. Every run keeps "
          "its seed, and the result tells it. 0: each try has its own again.");
    float wide = ui_px(ui, 560), in = wide - 2.0f * ui_px(ui, 24);
    float tall = ui_paragraph(ui, 0, 0, in, 14, UI_REGULAR, none, words) + ui_px(ui, 18);
    GfxRect at = app_card_plate(app, wide, ui_px(ui, 68 + 24 + 36 + 40 + 36) + tall,
                                _("Seed of the next tries"));
    ui_paragraph(ui, at.x, at.y + ui_px(ui, 12), at.w, 14, UI_REGULAR, ui->theme->ink, words);
    at.y += tall;
    at.h -= tall;
    app_card_field(app, at, _("a whole number of up to nine digits"), _("Use it"),
                   MOST_DIGITS + 2); /* one more, which is refused and not cut off */
}

/* Digits and nothing else. */
static int is_whole(const char *text)
{
    int digits = 0;
    while (text[digits] >= '0' && text[digits] <= '9') {
        digits++;
    }
    return digits > 0 && digits <= MOST_DIGITS && text[digits] == '\0';
}

void seed_card_answer(App *app)
{
    if (!app_card_field_done(app)) {
        return;
    }
    if (!is_whole(app->cards.field)) {
        SDL_snprintf(app->cards.says, sizeof app->cards.says, "%s",
                     _("Expected a whole number of up to nine digits."));
        return;
    }
    app->options.seed = strtoull(app->cards.field, NULL, 10);
    app_card_open(app, CARD_NONE);
}
