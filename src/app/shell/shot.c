/* A picture of the window as PNG, read back before the swap. */
#include "shell/shell.h"

#include "io/output_file.h"

#include <png.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int shot_write(App *app, const char *path)
{
    uint8_t *rgb = malloc((size_t)app->win.width * (size_t)app->win.height * 3);
    png_image image;
    char full[800];
    if (rgb == NULL) {
        return 0;
    }
    snprintf(full, sizeof full, "%s%s%s", app->options.shots, app->options.shots[0] ? "/" : "",
             path);
    render_read(app->win.render, app->win.width, app->win.height, rgb);
    memset(&image, 0, sizeof image);
    image.version = PNG_IMAGE_VERSION;
    image.width = (png_uint_32)app->win.width;
    image.height = (png_uint_32)app->win.height;
    image.format = PNG_FORMAT_RGB;
    IoOutput out;
    PbError err;
    int ok = io_output_open(full, IO_BEGINS_PNG, &out, &err) == PB_OK;
    if (ok && !png_image_write_to_stdio(&image, out.file, 0, rgb, 0, NULL)) {
        io_output_abandon(&out);
        ok = 0;
    }
    ok = ok && io_output_commit(&out, &err) == PB_OK;
    free(rgb);
    return ok;
}
