/* Lines and paragraphs of text. Glyphs come from text.c, always on whole pixels. */
#include "ui/ui.h"

#include "glyph_quad.h"
#include "legible.h"

#include <math.h>
#include <string.h>

static int size_px(const Ui *ui, double size)
{
    int px = (int)(size * (double)ui->scale + 0.5);
    return px < 6 ? 6 : px > 160 ? 160 : px;
}

float ui_width(Ui *ui, double size, UiWeight weight, const char *text)
{
    return ui_text_width(ui->text, size_px(ui, size), weight, text, -1);
}

static void draw(Ui *ui, float x, float y, int px, UiWeight weight, GfxColor c, const char *text,
                 const char *end)
{
    float pen = floorf(x + 0.5f), base = floorf(y + 0.5f);
    const char *from = text, *last = end;
    uint32_t code;
    while (text < end && (code = ui_text_next(&text)) != 0) {
        const UiGlyph *g = ui_text_glyph(ui->text, px, weight, code);
        if (g == NULL) {
            continue;
        }
        if (g->w > 0) {
            ui_glyph_quad(ui, g, pen, base, c);
        }
        pen += (float)g->advance;
    }
    if (ui->legible != NULL) {
        float left = floorf(x + 0.5f);
        ui_legible_text(ui->legible, left, base, pen - left, px, from, (int)(last - from));
    }
}

double ui_fit(Ui *ui, float width, double size, UiWeight weight, const char *text)
{
    while (size > UI_LEAST_PX && ui_width(ui, size, weight, text) > width) {
        size -= 1.0;
    }
    return size;
}

float ui_label(Ui *ui, float x, float y, double size, UiWeight weight, GfxColor c, UiAlign align,
               const char *text)
{
    int px = size_px(ui, size);
    float w = ui_text_width(ui->text, px, weight, text, -1);
    float left = align == UI_LEFT ? x : align == UI_RIGHT ? x - w : x - w * 0.5f;
    draw(ui, left, y, px, weight, c, text, text + strlen(text));
    return w;
}

static const char *line_end(Ui *ui, float width, int px, UiWeight weight, const char *text)
{
    const char *end = text, *best = NULL;
    while (*end && *end != '\n') {
        const char *word = end + strcspn(end + (*end == ' '), " \n") + (*end == ' ');
        if (ui_text_width(ui->text, px, weight, text, (int)(word - text)) > width && best) {
            break;
        }
        best = end = word;
    }
    return best ? best : end;
}

const char *ui_line_end(Ui *ui, float width, double size, UiWeight weight, const char *text)
{
    return line_end(ui, width, size_px(ui, size), weight, text);
}

float ui_paragraph(Ui *ui, float x, float y, float width, double size, UiWeight weight, GfxColor c,
                   const char *text)
{
    int px = size_px(ui, size);
    float step = floorf((float)px * 1.4f + 0.5f), height = 0.0f;
    while (*text) {
        const char *end = line_end(ui, width, px, weight, text);
        if (c.a > 0) {
            draw(ui, x, y + height, px, weight, c, text, end);
        }
        height += step;
        text = end + (*end == ' ' || *end == '\n');
    }
    return height;
}
