/* For tests: what stands on the screen, told from the calls that draw it, and what is wrong with
 * it. Text that another text, a control or a plate lies on, that leaves the window or that is cut
 * with dots is found without looking at a pixel. */
#include "legible.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_TEXTS = 700, MAX_PLATES = 3000, MAX_CONTROLS = 200, TEXT_BYTES = 64 };

typedef struct Text {
    GfxRect r; /* of the ink, about */
    int order, is_cut, is_small;
    char words[TEXT_BYTES];
} Text;

typedef struct Plate {
    GfxRect r;
    int order;
} Plate;

struct UiLegible {
    Text texts[MAX_TEXTS];
    Plate plates[MAX_PLATES], controls[MAX_CONTROLS];
    int text_count, plate_count, control_count, order;
    float width, height; /* of the window */
    float least_px;
    float page_px, bottom; /* of a page that is scrolled; 0 = the window's */
    GfxRect clip;
    int has_clip;
};

static GfxRect both(GfxRect a, GfxRect b)
{
    float x = a.x > b.x ? a.x : b.x, y = a.y > b.y ? a.y : b.y;
    float right = a.x + a.w < b.x + b.w ? a.x + a.w : b.x + b.w;
    float bottom = a.y + a.h < b.y + b.h ? a.y + a.h : b.y + b.h;
    return (GfxRect){x, y, right - x, bottom - y};
}

static int is_empty(GfxRect r)
{
    return !(r.w > 0.0f && r.h > 0.0f);
}

static GfxRect clipped(const UiLegible *l, GfxRect r)
{
    return l->has_clip ? both(r, l->clip) : r;
}

void ui_legible_start(Ui *ui, float least_px)
{
    ui->legible = ui->legible != NULL ? ui->legible : calloc(1, sizeof *ui->legible);
    if (ui->legible != NULL) {
        ui->legible->least_px = least_px;
    }
}

void ui_legible_stop(Ui *ui)
{
    free(ui->legible);
    ui->legible = NULL;
}

void ui_legible_begin(UiLegible *l, float width, float height)
{
    if (l != NULL) {
        l->width = width;
        l->height = height;
        l->text_count = l->plate_count = l->control_count = l->order = l->has_clip = 0;
        l->page_px = l->bottom = 0.0f;
    }
}

void ui_legible_clip(UiLegible *l, const GfxRect *clip)
{
    if (l != NULL) {
        l->has_clip = clip != NULL;
        l->clip = clip != NULL ? *clip : (GfxRect){0, 0, 0, 0};
    }
}

void ui_legible_text(UiLegible *l, float x, float base, float width, int px, const char *text,
                     int bytes)
{
    /* capitals reach 0.73 over the base line, tails 0.22 under it */
    GfxRect r = {x, base - 0.72f * (float)px, width, 0.9f * (float)px};
    if (l == NULL || l->text_count == MAX_TEXTS || bytes <= 0) {
        return;
    }
    r = clipped(l, r);
    if (is_empty(r) || r.h < 0.4f * (float)px) {
        return; /* scrolled out of sight */
    }
    Text *t = &l->texts[l->text_count++];
    t->r = r;
    t->order = l->order++;
    t->is_small = (float)px < l->least_px - 0.5f;
    t->is_cut = (bytes > 3 && strncmp(text + bytes - 3, "...", 3) == 0) ||
                (bytes >= 3 && strncmp(text + bytes - 3, "\xe2\x80\xa6", 3) == 0);
    snprintf(t->words, sizeof t->words, "%.*s", bytes, text);
}

void ui_legible_plate(UiLegible *l, GfxRect r, GfxColor c)
{
    if (l != NULL && c.a > 150 && r.w >= l->width && r.h >= l->height) { /* a card's ground */
        l->text_count = l->plate_count = l->control_count = 0;
        l->page_px = l->bottom = 0.0f;
        return;
    }
    if (l != NULL && c.a == 255 && l->plate_count < MAX_PLATES && r.w > 4.0f && r.h > 4.0f) {
        r = clipped(l, r);
        l->plates[l->plate_count] = (Plate){r, l->order++};
        l->plate_count += !is_empty(r);
    }
}

void ui_legible_control(UiLegible *l, GfxRect r)
{
    if (l != NULL && l->control_count < MAX_CONTROLS) {
        r = clipped(l, r);
        l->controls[l->control_count] = (Plate){r, l->order++};
        l->control_count += !is_empty(r);
    }
}

void ui_legible_shift(UiLegible *l, float px, float bottom)
{
    if (l == NULL) {
        return;
    }
    l->page_px = px;
    l->bottom = bottom;
    for (int i = 0; i < l->text_count; i++) {
        l->texts[i].r.y -= px;
    }
    for (int i = 0; i < l->plate_count; i++) {
        l->plates[i].r.y -= px;
    }
    for (int i = 0; i < l->control_count; i++) {
        l->controls[i].r.y -= px;
    }
}

static void tell(char *out, size_t size, const char *what, const Text *t, const char *other)
{
    size_t used = strlen(out);
    snprintf(out + used, size - used, "  %s: \"%s\" at %.0f,%.0f %.0fx%.0f%s%s\n", what, t->words,
             (double)t->r.x, (double)t->r.y, (double)t->r.w, (double)t->r.h,
             other[0] ? "  with " : "", other);
}

/* Does a plate that was drawn later hide it? A card over the room hides whole texts and is meant
 * to; a plate that leaves some of the text in sight is not. */
static int is_covered(const UiLegible *l, const Text *t, int *wholly)
{
    int covered = 0;
    *wholly = 0;
    for (int i = 0; i < l->plate_count; i++) {
        GfxRect b = both(t->r, l->plates[i].r);
        if (l->plates[i].order > t->order && !is_empty(b)) {
            float hidden = b.w * b.h / (t->r.w * t->r.h);
            *wholly |= hidden > 0.95f;
            covered |= hidden > 0.12f;
        }
    }
    return covered;
}

/* On a control and not inside it. */
static int is_astride(const UiLegible *l, const Text *t)
{
    for (int i = 0; i < l->control_count; i++) {
        GfxRect c = l->controls[i].r, b = both(t->r, c);
        if (!is_empty(b) && b.w > 2.0f && b.h > 2.0f &&
            (t->r.x < c.x - 1.0f || t->r.x + t->r.w > c.x + c.w + 1.0f || t->r.y < c.y - 2.0f ||
             t->r.y + t->r.h > c.y + c.h + 2.0f)) {
            return 1;
        }
    }
    return 0;
}

int ui_legible_faults(const Ui *ui, char *out, size_t size)
{
    const UiLegible *l = ui->legible;
    float top = l != NULL ? -l->page_px : 0.0f;
    float bottom = l != NULL && l->bottom > 0.0f ? l->bottom : ui->height;
    int n = 0;
    out[0] = '\0';
    for (int i = 0; l != NULL && i < l->text_count; i++) {
        const Text *t = &l->texts[i];
        int wholly;
        int is_under = is_covered(l, t, &wholly);
        if (wholly) {
            continue; /* a card lies over it */
        }
        if (is_under) {
            tell(out, size, "covered", t, "");
            n++;
        }
        if (t->is_small) {
            tell(out, size, "too small", t, "");
            n++;
        }
        if (t->is_cut) {
            tell(out, size, "cut", t, "");
            n++;
        }
        if (t->r.x < 0.0f || t->r.y < top || t->r.x + t->r.w > ui->width + 1.0f ||
            t->r.y + t->r.h > bottom + 1.0f) {
            tell(out, size, "out of the window", t, "");
            n++;
        }
        if (is_astride(l, t)) {
            tell(out, size, "across a control's edge", t, "");
            n++;
        }
        for (int k = i + 1; k < l->text_count; k++) {
            GfxRect b = both(t->r, l->texts[k].r);
            int other;
            if (!is_empty(b) && b.w > 2.0f && b.h > 2.0f &&
                (!is_covered(l, &l->texts[k], &other) || !other)) {
                tell(out, size, "two texts", t, l->texts[k].words);
                n++;
            }
        }
    }
    return n;
}

void ui_legible_words(const Ui *ui, char *out, size_t size)
{
    const UiLegible *l = ui->legible;
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; l != NULL && i < l->text_count; i++) {
        const Text *t = &l->texts[i];
        int n = snprintf(out + used, size - used, "%.0f %.0f %s\n", (double)t->r.x,
                         (double)(t->r.y + 0.8f * t->r.h), t->words);
        if (n < 0 || (size_t)n >= size - used) {
            return;
        }
        used += (size_t)n;
    }
}
