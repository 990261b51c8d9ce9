/* A picture of the window as PNG (ISO/IEC 15948), read back before the swap. */
#include "shell/shell.h"

#include "io/output_file.h"

#include <zlib.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void put_number(unsigned char *at, unsigned long number)
{
    for (int i = 0; i < 4; i++) {
        at[i] = (unsigned char)(number >> (24 - 8 * i));
    }
}

/* Length, name, bytes, and the check of name and bytes. */
static int put_chunk(FILE *f, const char *name, const unsigned char *bytes, unsigned long size)
{
    unsigned char head[8], check[4];
    put_number(head, size);
    memcpy(head + 4, name, 4);
    uLong sum = crc32(crc32(0, head + 4, 4), bytes, (uInt)size);
    put_number(check, sum);
    return fwrite(head, sizeof head, 1, f) == 1 && (size == 0 || fwrite(bytes, size, 1, f) == 1) &&
           fwrite(check, sizeof check, 1, f) == 1;
}

/* Rows of red, green and blue, each as its difference from the one above ("Up"): most of a window
 * is plain, and turns into zeros. @return NULL: no memory */
static unsigned char *packed_rows(const unsigned char *rgb, int width, int height, uLong *size)
{
    size_t row = (size_t)width * 3, all = (row + 1) * (size_t)height;
    unsigned char *rows = malloc(all), *packed = NULL;
    *size = compressBound((uLong)all);
    if (rows != NULL && (packed = malloc(*size)) != NULL) {
        for (size_t y = 0; y < (size_t)height; y++) {
            unsigned char *to = rows + y * (row + 1);
            const unsigned char *from = rgb + y * row;
            *to++ = 2;
            for (size_t i = 0; i < row; i++) {
                to[i] = (unsigned char)(from[i] - (y > 0 ? from[(ptrdiff_t)(i - row)] : 0));
            }
        }
        if (compress2(packed, size, rows, (uLong)all, Z_DEFAULT_COMPRESSION) != Z_OK) {
            free(packed);
            packed = NULL;
        }
    }
    free(rows);
    return packed;
}

static int put_picture(FILE *f, const unsigned char *rgb, int width, int height)
{
    static const unsigned char begins[8] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    /* 8 bits of three colors, by the one way of packing, filtering and order there is */
    unsigned char head[13] = {0, 0, 0, 0, 0, 0, 0, 0, 8, 2, 0, 0, 0};
    uLong size = 0;
    unsigned char *packed = packed_rows(rgb, width, height, &size);
    put_number(head, (unsigned long)width);
    put_number(head + 4, (unsigned long)height);
    int ok = packed != NULL && fwrite(begins, sizeof begins, 1, f) == 1 &&
             put_chunk(f, "IHDR", head, sizeof head) && put_chunk(f, "IDAT", packed, size) &&
             put_chunk(f, "IEND", head, 0);
    free(packed);
    return ok;
}

int shot_write(App *app, const char *path)
{
    uint8_t *rgb = malloc((size_t)app->win.width * (size_t)app->win.height * 3);
    char full[800];
    if (rgb == NULL) {
        return 0;
    }
    snprintf(full, sizeof full, "%s%s%s", app->options.shots, app->options.shots[0] ? "/" : "",
             path);
    render_read(app->win.render, app->win.width, app->win.height, rgb);
    IoOutput out;
    PbError err;
    int ok = io_output_open(full, IO_BEGINS_PNG, &out, &err) == PB_OK;
    if (ok && !put_picture(out.file, rgb, app->win.width, app->win.height)) {
        io_output_abandon(&out);
        ok = 0;
    }
    ok = ok && io_output_commit(&out, &err) == PB_OK;
    free(rgb);
    return ok;
}
