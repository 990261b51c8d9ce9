/* A picture that stands still is neither drawn again nor laid out sixty times a second: the loop
 * rests until somebody does something, and looks after a short while by itself, for a notice that
 * has had its time or work that is done elsewhere. What moves by time alone is the room's to say
 * (Screen.moves); there the rest is short, as in a run whose machine is off. Scripts and benchmarks
 * draw every frame that they ask for. */
#include "shell/shell.h"

#include "core/hash.h"

/* Bytes as words of eight; the lists of a frame are some 100 kB. */
static uint64_t mixed(uint64_t h, const void *bytes, size_t count)
{
    const unsigned char *p = bytes;
    while (count >= sizeof h) {
        uint64_t word;
        SDL_memcpy(&word, p, sizeof word);
        h = (h ^ word) * 0x9E3779B97F4A7C15u;
        h ^= h >> 29;
        p += sizeof word;
        count -= sizeof word;
    }
    return pb_hash_bytes(h, p, count);
}

/* To half a pixel: a chart whose time axis grows by less is not drawn for it. */
static uint64_t corners_hash(uint64_t h, const GfxVertex *v, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        int32_t x = (int32_t)(v[i].x * 2.0f), y = (int32_t)(v[i].y * 2.0f);
        uint32_t color;
        SDL_memcpy(&color, &v[i].color, sizeof color);
        h = (h ^ ((uint64_t)(uint32_t)x << 32 | (uint32_t)y)) * 0x9E3779B97F4A7C15u;
        h = (h ^ h >> 29 ^ color) * 0x9E3779B97F4A7C15u;
    }
    return h;
}

static uint64_t list_hash(uint64_t h, const GfxDrawList *l)
{
    h = corners_hash(h, l->vertices, l->vertex_count);
    h = mixed(h, l->indices, l->index_count * sizeof *l->indices);
    h = mixed(h, l->text, (size_t)l->quad_count * 4 * sizeof *l->text);
    h = mixed(h, l->fields, (size_t)l->field_count * sizeof *l->fields);
    return mixed(h, l->layers, (size_t)l->layer_count * sizeof *l->layers);
}

/* Fields that have a number are told apart by it. */
static uint64_t field_hash(uint64_t h, const GfxFieldData *f)
{
    h = pb_hash_u64(h, f->number);
    if (f->number != 0 || f->density == NULL) {
        return h;
    }
    h = mixed(h, f->density, (size_t)f->nx * (size_t)f->ny * sizeof *f->density);
    if (f->marks != NULL) {
        h = mixed(h, f->marks, (size_t)f->mark_nx * (size_t)f->mark_ny);
    }
    return f->heat_c == NULL
               ? h
               : mixed(h, f->heat_c, (size_t)f->heat_nx * (size_t)f->heat_ny * sizeof *f->heat_c);
}

int still_changed(Still *s, const App *app, const GfxFieldData *field)
{
    uint64_t h = pb_hash_u64(PB_HASH_START, (uint64_t)(uintptr_t)app->ui->theme);
    h = pb_hash_u64(h, (uint64_t)app->win.width << 32 | (uint64_t)(uint32_t)app->win.height);
    h = field_hash(list_hash(h, &app->ui->list), field);
    int is_new = !s->has_shown || h != s->shown;
    s->shown = h;
    s->has_shown = 1;
    return is_new;
}

/* One change alone, as the second of a clock, wakes nobody for longer than the next look. */
int still_rest_ms(Still *s, const App *app, int has_changed, int is_done)
{
    const Screen *screen = screen_of(app->turn.screen);
    if (is_done || (has_changed && s->has_changed)) {
        s->awake_until_s = app->program.now_s + STILL_LINGER_S;
    }
    s->has_changed = has_changed;
    int moves = has_changed || (screen->moves != NULL && screen->moves(app));
    return app->program.now_s < s->awake_until_s ? 0 : moves ? STILL_MOVES_MS : STILL_LOOK_MS;
}

void still_rest(const App *app, int ms)
{
    if (app->win.pad == NULL) {
        (void)SDL_WaitEventTimeout(NULL, ms);
        return;
    }
    for (int waited = 0; waited < ms; waited += 16) { /* SDL's own wait asks a controller a thousand
                                                         times a second */
        SDL_PumpEvents();
        if (SDL_HasEvents(SDL_FIRSTEVENT, SDL_LASTEVENT)) {
            return;
        }
        SDL_Delay(16);
    }
}
