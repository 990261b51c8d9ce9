/* Shapes into the draw list. Slanted and round edges get a fringe one pixel wide that fades out:
 * that is all the antialiasing there is, and it costs nothing on a machine without a graphics
 * card. Text is in label.c, widgets in widgets.c. */
#include "ui/ui.h"

#include "glyph_quad.h"
#include "legible.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ROUND_MAX = 96 };

static int room(void **array, uint32_t *have, uint32_t want, size_t size)
{
    if (want <= *have) {
        return 1;
    }
    uint32_t more = want + want / 2 + 1024;
    void *grown = realloc(*array, (size_t)more * size);
    if (grown == NULL) {
        return 0; /* the shape is left out of this frame */
    }
    *array = grown;
    *have = more;
    return 1;
}

/* Room for a shape; NULL when memory is short. */
static GfxVertex *take(Ui *ui, uint32_t vertices, uint32_t indices, uint32_t **index,
                       uint32_t *base)
{
    GfxDrawList *l = &ui->list;
    void *v = l->vertices, *i = l->indices;
    int ok = room(&v, &l->vertex_room, l->vertex_count + vertices, sizeof(GfxVertex));
    l->vertices = v;
    ok = ok && room(&i, &l->index_room, l->index_count + indices, sizeof(uint32_t));
    l->indices = i;
    if (!ok) {
        return NULL;
    }
    GfxVertex *out = l->vertices + l->vertex_count;
    *index = l->indices + l->index_count;
    *base = l->vertex_count;
    l->vertex_count += vertices;
    l->index_count += indices;
    l->layers[l->layer_count - 1].index_count += indices;
    return out;
}

void ui_layer(Ui *ui, const GfxRect *clip)
{
    GfxDrawList *l = &ui->list;
    ui_legible_clip(ui->legible, clip);
    if (l->layer_count == GFX_MAX_LAYERS) {
        return;
    }
    l->layers[l->layer_count++] = (GfxLayer){.clip = clip ? *clip : (GfxRect){0, 0, 0, 0},
                                             .has_clip = clip != NULL,
                                             .first_index = l->index_count,
                                             .first_quad = l->quad_count,
                                             .first_field = l->field_count};
}

UiMark ui_mark(Ui *ui)
{
    const GfxDrawList *l = &ui->list;
    ui_layer(ui, NULL);
    return (UiMark){l->vertex_count, l->quad_count, l->field_count, l->layer_count};
}

void ui_shift_up(Ui *ui, const UiMark *from, float px)
{
    GfxDrawList *l = &ui->list;
    ui_legible_shift(ui->legible, px, ui->height - px);
    for (uint32_t i = from->vertices; i < l->vertex_count; i++) {
        l->vertices[i].y -= px;
    }
    for (uint32_t i = 4 * from->quads; i < 4 * l->quad_count; i++) {
        l->text[i].y -= px;
    }
    for (int i = from->fields; i < l->field_count; i++) {
        l->fields[i].rect.y -= px;
    }
    for (int i = from->layers; i < l->layer_count; i++) {
        l->layers[i].clip.y -= px;
    }
}

void ui_field(Ui *ui, GfxField field)
{
    GfxDrawList *l = &ui->list;
    if (l->field_count < GFX_MAX_FIELDS) {
        l->fields[l->field_count++] = field;
        l->layers[l->layer_count - 1].field_count++;
    }
}

static void quad(Ui *ui, const UiPoint p[4], const GfxColor c[4])
{
    static const uint32_t corner[6] = {0, 1, 2, 0, 2, 3};
    uint32_t *index, base;
    GfxVertex *v = take(ui, 4, 6, &index, &base);
    if (v == NULL) {
        return;
    }
    for (uint32_t k = 0; k < 4; k++) {
        v[k] = (GfxVertex){p[k].x, p[k].y, c[k]};
    }
    for (uint32_t k = 0; k < 6; k++) {
        index[k] = base + corner[k];
    }
}

void ui_rect(Ui *ui, float x, float y, float w, float h, GfxColor c)
{
    if (w > 0.0f && h > 0.0f) {
        ui_legible_plate(ui->legible, (GfxRect){x, y, w, h}, c);
        quad(ui, (UiPoint[4]){{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}},
             (GfxColor[4]){c, c, c, c});
    }
}

void ui_frame(Ui *ui, GfxRect r, float width, GfxColor c)
{
    ui_rect(ui, r.x, r.y, r.w, width, c);
    ui_rect(ui, r.x, r.y + r.h - width, r.w, width, c);
    ui_rect(ui, r.x, r.y + width, width, r.h - 2 * width, c);
    ui_rect(ui, r.x + r.w - width, r.y + width, width, r.h - 2 * width, c);
}

void ui_polygon(Ui *ui, const UiPoint *p, int count, GfxColor c)
{
    if (count < 3 || count > ROUND_MAX) {
        return;
    }
    uint32_t n = (uint32_t)count, *index, base;
    GfxVertex *v = take(ui, 2 * n, 3 * (n - 2) + 6 * n, &index, &base);
    GfxColor clear = ui_fade(c, 0);
    float area = 0.0f;
    if (v == NULL) {
        return;
    }
    for (uint32_t k = 0; k < n; k++) {
        UiPoint a = p[k], b = p[(k + 1) % n];
        area += a.x * b.y - a.y * b.x;
    }
    float side = area > 0.0f ? 0.5f : -0.5f;
    for (uint32_t k = 0; k < n; k++) {
        UiPoint a = p[(k + n - 1) % n], b = p[k], d = p[(k + 1) % n];
        float ax = b.x - a.x, ay = b.y - a.y, bx = d.x - b.x, by = d.y - b.y;
        float la = sqrtf(ax * ax + ay * ay), lb = sqrtf(bx * bx + by * by);
        la = la > 1e-6f ? la : 1.0f;
        lb = lb > 1e-6f ? lb : 1.0f;
        float nx = ay / la + by / lb, ny = -ax / la - bx / lb;
        float m = nx * nx + ny * ny;
        m = m > 0.5f ? 2.0f / m : 2.0f; /* mitre, held back at sharp corners */
        nx *= side * m;
        ny *= side * m;
        v[2 * k] = (GfxVertex){b.x - nx, b.y - ny, c};
        v[2 * k + 1] = (GfxVertex){b.x + nx, b.y + ny, clear};
    }
    for (uint32_t k = 2; k < n; k++) {
        *index++ = base;
        *index++ = base + 2 * (k - 1);
        *index++ = base + 2 * k;
    }
    for (uint32_t k = 0; k < n; k++) {
        uint32_t a = base + 2 * k, b = base + 2 * ((k + 1) % n);
        const uint32_t fringe[6] = {a, b, b + 1, a, b + 1, a + 1};
        memcpy(index, fringe, sizeof fringe);
        index += 6;
    }
}

/* One line of four rows of vertices: clear, full, full, clear. */
void ui_polyline(Ui *ui, const UiPoint *p, int count, float width, GfxColor c)
{
    if (count < 2) {
        return;
    }
    uint32_t n = (uint32_t)count, *index, base;
    GfxVertex *v = take(ui, 4 * n, 18 * (n - 1), &index, &base);
    GfxColor clear = ui_fade(c, 0);
    if (v == NULL) {
        return;
    }
    float inner = fmaxf(width * 0.5f - 0.5f, 0.0f), outer = width * 0.5f + 0.5f;
    for (uint32_t k = 0; k < n; k++) {
        UiPoint a = p[k ? k - 1 : 0], b = p[k], d = p[k + 1 < n ? k + 1 : k];
        float ax = b.x - a.x, ay = b.y - a.y, bx = d.x - b.x, by = d.y - b.y;
        float la = sqrtf(ax * ax + ay * ay), lb = sqrtf(bx * bx + by * by);
        float nx = (la > 1e-6f ? ay / la : 0) + (lb > 1e-6f ? by / lb : 0);
        float ny = -(la > 1e-6f ? ax / la : 0) - (lb > 1e-6f ? bx / lb : 0);
        float m = nx * nx + ny * ny;
        int is_end = la <= 1e-6f || lb <= 1e-6f;
        m = is_end ? 1.0f / sqrtf(fmaxf(m, 1e-6f)) : 2.0f / fmaxf(m, 1.0f);
        nx *= m;
        ny *= m;
        v[4 * k] = (GfxVertex){b.x + nx * outer, b.y + ny * outer, clear};
        v[4 * k + 1] = (GfxVertex){b.x + nx * inner, b.y + ny * inner, c};
        v[4 * k + 2] = (GfxVertex){b.x - nx * inner, b.y - ny * inner, c};
        v[4 * k + 3] = (GfxVertex){b.x - nx * outer, b.y - ny * outer, clear};
    }
    for (uint32_t k = 0; k + 1 < n; k++) {
        for (uint32_t r = 0; r < 3; r++) {
            uint32_t a = base + 4 * k + r, b = a + 4;
            const uint32_t strip[6] = {a, b, b + 1, a, b + 1, a + 1};
            memcpy(index, strip, sizeof strip);
            index += 6;
        }
    }
}

void ui_line(Ui *ui, float x0, float y0, float x1, float y1, float width, GfxColor c)
{
    ui_polyline(ui, (UiPoint[2]){{x0, y0}, {x1, y1}}, 2, width, c);
}

void ui_dashes(Ui *ui, float x0, float y0, float x1, float y1, float width, float dash, GfxColor c)
{
    float length = hypotf(x1 - x0, y1 - y0);
    if (length < 1.0f || dash < 1.0f) {
        return;
    }
    float ux = (x1 - x0) / length, uy = (y1 - y0) / length;
    for (int k = 0; 2.0f * dash * (float)k < length; k++) {
        float s = 2.0f * dash * (float)k, e = fminf(s + dash, length);
        if (fabsf(uy) < 1e-4f) {
            ui_rect(ui, x0 + (ux > 0 ? s : -e), y0, e - s, width, c);
        } else if (fabsf(ux) < 1e-4f) {
            ui_rect(ui, x0, y0 + (uy > 0 ? s : -e), width, e - s, c);
        } else {
            ui_line(ui, x0 + ux * s, y0 + uy * s, x0 + ux * e, y0 + uy * e, width, c);
        }
    }
}

void ui_speck(Ui *ui, float x, float y, float dx, float dy, float width, GfxColor c)
{
    float length = hypotf(dx, dy);
    float nx = length > 1e-3f ? -dy / length * width * 0.5f : width * 0.5f;
    float ny = length > 1e-3f ? dx / length * width * 0.5f : 0.0f;
    quad(ui,
         (UiPoint[4]){{x - dx * 0.5f - nx, y - dy * 0.5f - ny},
                      {x + dx * 0.5f - nx, y + dy * 0.5f - ny},
                      {x + dx * 0.5f + nx, y + dy * 0.5f + ny},
                      {x - dx * 0.5f + nx, y - dy * 0.5f + ny}},
         (GfxColor[4]){c, c, c, c});
}

/* None for a radius below 0: what has no room is not drawn. */
static int arc_points(UiPoint *out, int max, float x, float y, float radius, double from, double to)
{
    if (!(radius >= 0.0f)) {
        return 0;
    }
    int n = 3 + (int)(fabs(to - from) * sqrt((double)radius) * 0.9);
    n = n > max ? max : n;
    for (int k = 0; k < n; k++) {
        double a = from + (to - from) * k / (n - 1);
        out[k] = (UiPoint){x + radius * (float)cos(a), y + radius * (float)sin(a)};
    }
    return n;
}

void ui_circle(Ui *ui, float x, float y, float radius, GfxColor c)
{
    UiPoint p[ROUND_MAX];
    int n = arc_points(p, ROUND_MAX, x, y, radius, 0.0, 6.283185307179586);
    ui_polygon(ui, p, n - 1, c);
}

void ui_arc(Ui *ui, float x, float y, float radius, double from, double to, float width, GfxColor c)
{
    UiPoint p[ROUND_MAX];
    ui_polyline(ui, p, arc_points(p, ROUND_MAX, x, y, radius, from, to), width, c);
}

static int round_points(UiPoint *p, GfxRect r, float radius)
{
    const double quarter = 1.5707963267948966;
    float q = fminf(radius, fminf(r.w, r.h) * 0.5f);
    int n = 0;
    const float cx[4] = {r.x + r.w - q, r.x + r.w - q, r.x + q, r.x + q};
    const float cy[4] = {r.y + q, r.y + r.h - q, r.y + r.h - q, r.y + q};
    for (int k = 0; k < 4; k++) {
        n += arc_points(p + n, ROUND_MAX / 4, cx[k], cy[k], q, quarter * (k - 1), quarter * k);
    }
    return n;
}

void ui_round(Ui *ui, GfxRect r, float radius, GfxColor c)
{
    UiPoint p[ROUND_MAX];
    if (radius < 0.5f) {
        ui_rect(ui, r.x, r.y, r.w, r.h, c);
        return;
    }
    ui_legible_plate(ui->legible, r, c);
    ui_polygon(ui, p, round_points(p, r, radius), c);
}

void ui_round_line(Ui *ui, GfxRect r, float radius, float width, GfxColor c)
{
    UiPoint p[ROUND_MAX + 1];
    float in = width * 0.5f;
    GfxRect mid = {r.x + in, r.y + in, r.w - width, r.h - width};
    int n = round_points(p, mid, fmaxf(radius - in, 0.5f));
    if (n > 0) {
        p[n] = p[0]; /* closed */
        ui_polyline(ui, p, n + 1, width, c);
    }
}

void ui_glyph_quad(Ui *ui, const UiGlyph *g, float x, float y, GfxColor c)
{
    GfxDrawList *l = &ui->list;
    void *text = l->text;
    uint32_t have = l->quad_room * 4;
    if (!room(&text, &have, (l->quad_count + 1) * 4, sizeof(GfxTextVertex))) {
        return;
    }
    l->text = text;
    l->quad_room = have / 4;
    GfxTextVertex *v = l->text + (size_t)l->quad_count * 4;
    float x0 = x + (float)g->left, y0 = y - (float)g->top;
    float x1 = x0 + (float)g->w, y1 = y0 + (float)g->h;
    uint16_t u0 = (uint16_t)g->u, v0 = (uint16_t)g->v;
    uint16_t u1 = (uint16_t)(g->u + g->w), v1 = (uint16_t)(g->v + g->h);
    v[0] = (GfxTextVertex){x0, y0, u0, v0, c};
    v[1] = (GfxTextVertex){x1, y0, u1, v0, c};
    v[2] = (GfxTextVertex){x1, y1, u1, v1, c};
    v[3] = (GfxTextVertex){x0, y1, u0, v1, c};
    l->quad_count++;
    l->layers[l->layer_count - 1].quad_count++;
}
