/* Buttons, segments, sliders, key caps, and the focus that Tab moves. State lives with the caller;
 * here is only which widget the mouse or the keyboard is on. */
#include "edit.h"
#include "legible.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void ui_init(Ui *ui, UiText *text, const UiTheme *theme)
{
    memset(ui, 0, sizeof *ui);
    ui->text = text;
    ui->theme = theme;
    ui->scale = 1.0f;
}

void ui_free(Ui *ui)
{
    free(ui->list.vertices);
    free(ui->list.indices);
    free(ui->list.text);
    ui_legible_stop(ui);
    memset(&ui->list, 0, sizeof ui->list);
}

void ui_begin(Ui *ui, float width, float height, float scale)
{
    GfxDrawList *l = &ui->list;
    l->vertex_count = l->index_count = l->quad_count = 0;
    l->field_count = l->layer_count = 0;
    ui->width = width;
    ui->height = height;
    ui->scale = scale;
    ui->order_count = 0;
    ui->is_focus_there = 0;
    ui->space_used = 0;
    ui->has_left_out = ui->is_wheel_used = 0;
    ui->answer_count = 0;
    ui->ring = (GfxRect){0, 0, 0, 0};
    if (!ui->in.is_down && !ui->in.released) {
        ui->active = 0;
        ui->is_selecting = 0;
    }
    ui->hot = 0;
    ui_legible_begin(ui->legible, width, height);
    ui_layer(ui, NULL);
}

void ui_end(Ui *ui)
{
    int at = -1;
    for (int i = 0; i < ui->order_count; i++) {
        at = ui->order[i] == ui->focus ? i : at;
    }
    if ((ui->in.next || ui->in.previous) && ui->order_count > 0) {
        int step = ui->in.next ? 1 : -1;
        int from = at < 0 ? (step > 0 ? -1 : ui->order_count) : at;
        ui->focus = ui->order[(from + step + ui->order_count) % ui->order_count];
        ui->is_ring_shown = 1;
    } else if (at < 0 && !ui->is_focus_there) {
        ui->focus = 0;
    }
    if (ui->in.released) {
        ui->active = 0;
    }
    ui->in =
        (UiInput){.mouse_x = ui->in.mouse_x, .mouse_y = ui->in.mouse_y, .is_down = ui->in.is_down};
}

void ui_answer(Ui *ui, int id, double value)
{
    for (int i = 0; i < ui->answer_count; i++) {
        if (ui->answers[i].id == id) { /* whoever draws with a widget knows better than it */
            ui->answers[i].value = value;
            return;
        }
    }
    if (ui->answer_count < UI_MAX_ANSWERS) {
        ui->answers[ui->answer_count++] = (UiAnswer){id, value};
    }
}

int ui_answered(const Ui *ui, int id, double *value)
{
    for (int i = 0; i < ui->answer_count; i++) {
        if (ui->answers[i].id == id) {
            if (value != NULL) {
                *value = ui->answers[i].value;
            }
            return 1;
        }
    }
    return 0;
}

float ui_px(const Ui *ui, double px)
{
    return floorf((float)px * ui->scale + 0.5f);
}

int ui_inside(GfxRect r, float x, float y)
{
    return x >= r.x && x < r.x + r.w && y >= r.y && y < r.y + r.h;
}

int ui_over(const Ui *ui, GfxRect r)
{
    return ui_inside(r, ui->in.mouse_x, ui->in.mouse_y);
}

float ui_wheel(Ui *ui)
{
    ui->is_wheel_used |= ui->in.wheel != 0.0f;
    return ui->in.wheel;
}

int ui_wheel_rows(Ui *ui)
{
    float w = ui_wheel(ui);
    int notches = (int)w;
    return notches != 0 ? -notches : w > 0.0f ? -1 : w < 0.0f ? 1 : 0;
}

int ui_focusable(Ui *ui, int id)
{
    if (id < ui->modal) {
        return 0;
    }
    if (ui->order_count < UI_MAX_FOCUS) {
        ui->order[ui->order_count++] = id;
    }
    ui->is_focus_there = ui->is_focus_there || ui->focus == id;
    return ui->focus == id;
}

void ui_focus_ring(Ui *ui, GfxRect r, float radius)
{
    ui->ring = r;
    if (!ui->is_ring_shown) {
        return;
    }
    float out = 5.0f;
    GfxRect grown = {r.x - out, r.y - out, r.w + 2 * out, r.h + 2 * out};
    ui_round_line(ui, grown, radius + out, 3.0f, ui->theme->accent);
}

int ui_is_dragged(const Ui *ui, int id)
{
    return ui->active == id && (ui->in.is_down || ui->in.pressed);
}

/* Mouse part that all widgets share: hover, press, click. */
static int press(Ui *ui, int id, GfxRect hit, int *is_hot)
{
    int awake = id >= ui->modal;
    *is_hot = awake && ui_over(ui, hit) && (ui->active == 0 || ui->active == id);
    if (*is_hot) {
        ui->hot = id;
    }
    if (*is_hot && ui->in.pressed && ui->active == 0) {
        ui->active = id;
        ui->focus = id;
        ui->is_ring_shown = 0;
    }
    return *is_hot && ui->in.released && ui->active == id;
}

static int key_choose(Ui *ui, int has_focus)
{
    if (has_focus && (ui->in.space || ui->in.enter)) {
        ui->space_used = ui->space_used || ui->in.space;
        ui->is_ring_shown = 1;
        return 1;
    }
    return 0;
}

int ui_area_state(Ui *ui, int id, GfxRect hit, int in_order)
{
    int is_hot = 0, chosen = press(ui, id, hit, &is_hot);
    ui_legible_control(ui->legible, hit);
    int has_focus = in_order && ui_focusable(ui, id);
    chosen = key_choose(ui, has_focus) || chosen;
    int is_held = is_hot && ui->active == id;
    return (is_hot ? UI_AREA_HOT : 0) | (chosen ? UI_AREA_CHOSEN : 0) |
           (has_focus ? UI_AREA_FOCUS : 0) | (is_held ? UI_AREA_HELD : 0);
}

int ui_area(Ui *ui, int id, GfxRect hit, int in_order)
{
    int state = ui_area_state(ui, id, hit, in_order);
    if (state & UI_AREA_CHOSEN) {
        ui_answer(ui, id, 1.0);
    }
    return state;
}

/* Base line that centres a line of this size in a box. */
static float middle(const Ui *ui, GfxRect r, double size)
{
    return floorf(r.y + r.h * 0.5f + (float)size * ui->scale * 0.36f + 0.5f);
}

/* The text cut where its first line ends; the second one is "" when it needs none. */
static void two_lines(Ui *ui, float width, double size, UiWeight weight, const char *text,
                      char line[2][160])
{
    const char *end = ui_line_end(ui, width, size, weight, text);
    snprintf(line[0], 160, "%.*s", (int)(end - text), text);
    snprintf(line[1], 160, "%s", *end == '\0' ? "" : end + 1);
}

float ui_words(Ui *ui, GfxRect r, double size, UiWeight weight, GfxColor c, UiAlign align,
               const char *text)
{
    size = ui_fit(ui, r.w, size, weight, text);
    float x = align == UI_LEFT ? r.x : align == UI_RIGHT ? r.x + r.w : r.x + r.w * 0.5f;
    float y = middle(ui, r, size), step = ui_px(ui, size * 1.2);
    char line[2][160];
    two_lines(ui, r.w, size, weight, text, line);
    int is_one = line[1][0] == '\0' || r.h < 1.8f * step;
    if (is_one) {
        snprintf(line[0], sizeof line[0], "%s", text);
    } else {
        y -= floorf(step * 0.5f);
    }
    float most = 0.0f;
    for (int i = 0; i < 2 - is_one; i++) {
        float w = fminf(ui_width(ui, size, weight, line[i]), r.w);
        float left = align == UI_LEFT ? x : align == UI_RIGHT ? x - w : x - w * 0.5f;
        most =
            fmaxf(most, ui_label_cut(ui, left, y + step * (float)i, r.w, size, weight, c, line[i]));
    }
    return most;
}

void ui_button(Ui *ui, int id, GfxRect r, const char *label, int is_primary, int is_disabled)
{
    const UiTheme *t = ui->theme;
    float radius = ui_px(ui, 6);
    int is_hot = 0, chosen = 0, has_focus = 0;
    ui_legible_control(ui->legible, r);
    if (!is_disabled) {
        chosen = press(ui, id, r, &is_hot);
        has_focus = ui_focusable(ui, id);
        chosen = key_choose(ui, has_focus) || chosen;
    }
    int held = ui->active == id && is_hot;
    GfxColor ground = is_disabled  ? t->well
                      : is_primary ? (held ? t->accent_deep : t->accent)
                                   : (held ? t->ink : t->sheet);
    GfxColor words = is_disabled ? t->ink2 : is_primary ? t->white : held ? t->sheet : t->ink;
    ui_round(ui, r, radius, ground);
    if (is_hot) {
        ui_round_line(ui, r, radius, 2.0f, t->ink);
    } else if (!is_primary && !is_disabled) {
        ui_round_line(ui, r, radius, 1.0f, t->edge);
    }
    GfxRect in = {r.x + ui_px(ui, 5), r.y + (held ? 1.0f : 0.0f), r.w - ui_px(ui, 10), r.h};
    float w = ui_words(ui, in, 14, UI_BOLD, words, UI_CENTRE, label);
    if (is_disabled) {
        float x = r.x + (r.w - w) * 0.5f, y = middle(ui, r, 14);
        ui_dashes(ui, x, y + 4.0f, x + w, y + 4.0f, 1.0f, 4.0f, t->ink2);
    }
    if (has_focus) {
        ui_focus_ring(ui, r, radius);
    }
    if (chosen) {
        ui_answer(ui, id, 1.0);
    }
}

float ui_segments_high(Ui *ui, float width, const char *const *labels, int count)
{
    float one = ui_px(ui, 34), room = width / (float)count - ui_px(ui, 6);
    for (int k = 0; k < count; k++) {
        char line[2][160];
        two_lines(ui, room, UI_LEAST_PX, UI_BOLD, labels[k], line);
        if (fmaxf(ui_width(ui, UI_LEAST_PX, UI_BOLD, line[0]),
                  ui_width(ui, UI_LEAST_PX, UI_BOLD, line[1])) > room) {
            return count > 2 ? 2.0f * one : one;
        }
    }
    return one;
}

void ui_segments(Ui *ui, int id, GfxRect r, const char *const *labels, int count, int current)
{
    const UiTheme *t = ui->theme;
    int rows = count > 2 && r.h >= ui_px(ui, 60) ? 2 : 1, columns = (count + rows - 1) / rows;
    float radius = ui_px(ui, 6), w = r.w / (float)columns, high = r.h / (float)rows;
    int is_hot = 0, chosen = current, has_focus = ui_focusable(ui, id);
    if (press(ui, id, r, &is_hot)) {
        int k = (int)((ui->in.mouse_x - r.x) / w);
        k += columns * (int)((ui->in.mouse_y - r.y) / high);
        chosen = k < 0 ? 0 : k >= count ? count - 1 : k;
    }
    if (has_focus && (ui->in.left || ui->in.right)) {
        chosen = current + (ui->in.right ? 1 : -1);
        chosen = chosen < 0 ? 0 : chosen >= count ? count - 1 : chosen;
        ui->is_ring_shown = 1;
    }
    if (key_choose(ui, has_focus)) {
        chosen = (current + 1) % count;
    }
    ui_round(ui, r, radius, t->sheet);
    ui_round_line(ui, r, radius, is_hot ? 2.0f : 1.0f, is_hot ? t->ink : t->edge);
    for (int k = 0; k < count; k++) {
        int row = k / columns;
        GfxRect part = {floorf(r.x + w * (float)(k % columns)), floorf(r.y + high * (float)row),
                        ceilf(w), floorf(high)};
        ui_legible_control(ui->legible, part);
        if (k == current) {
            ui_round(ui, part, radius, t->ink);
        } else if (k % columns > 0 && k != current + 1) {
            ui_rect(ui, part.x, part.y + part.h * 0.2f, 1.0f, part.h * 0.6f, t->rule);
        }
        UiWeight weight = k == current ? UI_BOLD : UI_REGULAR;
        GfxRect in = {part.x + ui_px(ui, 3), part.y, part.w - ui_px(ui, 6), part.h};
        ui_words(ui, in, 14, weight, k == current ? t->sheet : t->ink, UI_CENTRE, labels[k]);
    }
    if (has_focus) {
        ui_focus_ring(ui, r, radius);
    }
    if (chosen != current) {
        ui_answer(ui, id, (double)chosen);
    }
}

static void draw_slider(Ui *ui, GfxRect r, double value, double wax, int is_hot, int is_held)
{
    const UiTheme *t = ui->theme;
    float mid = floorf(r.y + r.h * 0.5f), track = ui_px(ui, 6);
    float x = r.x + (float)value * r.w;
    ui_round(ui, (GfxRect){r.x, mid - track * 0.5f, r.w, track}, track * 0.5f, t->well);
    ui_round_line(ui, (GfxRect){r.x, mid - track * 0.5f, r.w, track}, track * 0.5f, 1.0f, t->edge);
    if (x - r.x > track) {
        ui_round(ui, (GfxRect){r.x, mid - track * 0.5f, x - r.x, track}, track * 0.5f, t->ink2);
    }
    for (int k = 0; k <= 10; k++) {
        float tall = ui_px(ui, k % 5 == 0 ? 5 : 3);
        ui_rect(ui, floorf(r.x + r.w * (float)k / 10.0f), mid + ui_px(ui, 9), 1.0f, tall, t->edge);
    }
    float tw = ui_px(ui, 14), th = fminf(ui_px(ui, 24), r.h);
    GfxRect thumb = {floorf(x - tw * 0.5f), floorf(mid - th * 0.5f), tw, th};
    ui_round(ui, thumb, ui_px(ui, 4), is_held ? t->ink : t->sheet);
    ui_round_line(ui, thumb, ui_px(ui, 4), is_hot ? 3.0f : 2.0f, t->ink);
    ui_rect(ui, floorf(x) - 1.0f, thumb.y + th * 0.28f, 2.0f, th * 0.44f,
            is_held ? t->sheet : t->ink);
    if (wax >= 0.0) {
        float wx = r.x + (float)wax * r.w, wy = mid + ui_px(ui, 8), s = ui_px(ui, 6);
        ui_polygon(ui, (UiPoint[3]){{wx, wy}, {wx + s, wy + s * 1.5f}, {wx - s, wy + s * 1.5f}}, 3,
                   t->accent);
    }
}

void ui_slider(Ui *ui, int id, GfxRect r, double value, double step, double wax)
{
    GfxRect hit = {r.x - ui_px(ui, 8), r.y + r.h * 0.5f - ui_px(ui, 16), r.w + ui_px(ui, 16),
                   ui_px(ui, 32)};
    int is_hot = 0, has_focus = ui_focusable(ui, id);
    double v = value;
    press(ui, id, hit, &is_hot);
    if (ui_is_dragged(ui, id)) {
        v = ((double)ui->in.mouse_x - (double)r.x) / (double)r.w;
    }
    if (is_hot && ui->in.wheel != 0.0f) {
        v += step * (double)ui_wheel(ui);
    }
    if (has_focus && (ui->in.left || ui->in.right || ui->in.home || ui->in.end)) {
        v = ui->in.home ? 0.0 : ui->in.end ? 1.0 : v + step * (ui->in.right - ui->in.left);
        ui->is_ring_shown = 1;
    }
    v = v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
    draw_slider(ui, r, v, wax, is_hot, ui->active == id);
    if (has_focus) {
        float x = r.x + (float)v * r.w, tw = ui_px(ui, 14), th = ui_px(ui, 24);
        ui_focus_ring(ui, (GfxRect){x - tw * 0.5f, r.y + r.h * 0.5f - th * 0.5f, tw, th},
                      ui_px(ui, 4));
    }
    if (fabs(v - value) > 1e-12) {
        ui_answer(ui, id, v);
    }
}

float ui_key(Ui *ui, float x, float y, const char *text)
{
    float h = ui_px(ui, 18), w = fmaxf(ui_width(ui, 11, UI_REGULAR, text) + ui_px(ui, 10), h + 2);
    GfxRect r = {x, y, w, h};
    ui_round(ui, r, ui_px(ui, 4), ui->theme->sheet);
    ui_round_line(ui, r, ui_px(ui, 4), 1.0f, ui->theme->edge);
    ui_label(ui, x + w * 0.5f, middle(ui, r, 11), 11, UI_REGULAR, ui->theme->ink2, UI_CENTRE, text);
    return w;
}
