/* A picture of the window as PNG, read back before the swap. */
#include "app.h"

#include <png.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int shot_write(App *app, const char *path)
{
    uint8_t *rgb = malloc((size_t)app->width * (size_t)app->height * 3);
    png_image image;
    char full[800];
    if (rgb == NULL) {
        return 0;
    }
    snprintf(full, sizeof full, "%s%s%s", app->options.shots, app->options.shots[0] ? "/" : "",
             path);
    render_read(app->render, app->width, app->height, rgb);
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    image.width = (png_uint_32)app->width;
    image.height = (png_uint_32)app->height;
    image.format = PNG_FORMAT_RGB;
    int ok = png_image_write_to_file(&image, full, 0, rgb, 0, NULL);
    free(rgb);
    return ok;
}
