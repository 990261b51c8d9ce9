/* What the pictures of src/picture are laid out for in the window. */
#include "base/app.h"

static float width(const void *user, const char *text, float size, int is_bold)
{
    const App *app = user;
    return ui_width(app->ui, (double)size, is_bold ? UI_BOLD : UI_REGULAR, text);
}

static void figure(const void *user, PicFigure what, double value, char *out, size_t size)
{
    if (what == PIC_STOP) {
        SDL_snprintf(out, size, _("stop %d"), (int)value);
        return;
    }
    SDL_strlcpy(out, app_fmt_density(user, value, 0), size);
}

PicGround app_ground(const App *app)
{
    return (PicGround){app->ui->scale, 1.0f, 1, app, width, figure};
}

void app_paint(const App *app, GfxShapes *shapes)
{
    ui_paint(app->ui, shapes);
    pic_free(shapes);
}
