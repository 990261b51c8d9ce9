/* One frame: upload what changed, clear, then layer by layer fields, shapes, text. Four programs,
 * three vertex arrays, five textures. The shapes come from ui, the look of the field from
 * shaders/field.frag. Next to read: gfxtypes/draw.h. */
#include "render/render.h"

#include "clumps.h"
#include "program.h"
#include "render/shaders.h"

#include <cglm/cglm.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

typedef struct FlatProgram {
    GLuint id;
    GLint page;
} FlatProgram;

static const float LARGE_PX2 = 60000.0f; /* worth two calls more */

struct Render {
    int errors;
    FlatProgram flat, text, field, camera;
    GLint text_size, field_target, field_pitch, field_line, field_size, camera_span;
    GLuint flat_vao, text_vao, field_vao;
    GLuint flat_vbo, flat_ibo, text_vbo, text_ibo, field_vbo;
    GLuint atlas_tex, density_tex, marks_tex, heat_tex, clumps_tex;
    int atlas_w, atlas_h, nx, ny, mark_nx, mark_ny, heat_nx, heat_ny;
    uint64_t field_number; /* of the picture that is loaded, 0 = none */
    uint32_t quad_room;
    RenderCounts counts;
    char name[128];
};

static FlatProgram make_program(const char *name, const char *vs, const char *fs, char *why,
                                size_t size)
{
    FlatProgram p = {render_program(name, vs, fs, why, size), -1};
    if (p.id) {
        p.page = glGetUniformLocation(p.id, "page");
    }
    return p;
}

static int make_programs(Render *r, char *why, size_t size)
{
    r->flat = make_program("flat", shader_flat_vert, shader_flat_frag, why, size);
    r->text = make_program("text", shader_text_vert, shader_text_frag, why, size);
    r->field = make_program("field", shader_field_vert, shader_field_frag, why, size);
    r->camera = make_program("camera", shader_field_vert, shader_camera_frag, why, size);
    if (!r->flat.id || !r->text.id || !r->field.id || !r->camera.id) {
        return 0;
    }
    r->text_size = glGetUniformLocation(r->text.id, "atlas_size");
    r->field_target = glGetUniformLocation(r->field.id, "target");
    r->field_pitch = glGetUniformLocation(r->field.id, "pitch");
    r->field_line = glGetUniformLocation(r->field.id, "line_px");
    r->field_size = glGetUniformLocation(r->field.id, "size_m");
    glUseProgram(r->field.id);
    glUniform1i(glGetUniformLocation(r->field.id, "clumps"), 4);
    glUniform1i(glGetUniformLocation(r->field.id, "density"), 1);
    glUniform1i(glGetUniformLocation(r->field.id, "marks"), 2);
    r->camera_span = glGetUniformLocation(r->camera.id, "span");
    glUseProgram(r->camera.id);
    glUniform1i(glGetUniformLocation(r->camera.id, "warmth"), 3);
    glUseProgram(r->text.id);
    glUniform1i(glGetUniformLocation(r->text.id, "atlas"), 0);
    return 1;
}

static void attribute(GLuint index, GLint size, GLenum type, GLboolean norm, size_t stride,
                      size_t offset)
{
    glEnableVertexAttribArray(index);
    glVertexAttribPointer(index, size, type, norm, (GLsizei)stride, (const void *)offset);
}

static void make_buffers(Render *r)
{
    GLuint vao[3], buffers[5];
    glGenVertexArrays(3, vao);
    glGenBuffers(5, buffers);
    r->flat_vao = vao[0];
    r->text_vao = vao[1];
    r->field_vao = vao[2];
    r->flat_vbo = buffers[0];
    r->flat_ibo = buffers[1];
    r->text_vbo = buffers[2];
    r->text_ibo = buffers[3];
    r->field_vbo = buffers[4];

    glBindVertexArray(r->flat_vao);
    glBindBuffer(GL_ARRAY_BUFFER, r->flat_vbo);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, r->flat_ibo);
    attribute(0, 2, GL_FLOAT, GL_FALSE, sizeof(GfxVertex), 0);
    attribute(1, 4, GL_UNSIGNED_BYTE, GL_TRUE, sizeof(GfxVertex), offsetof(GfxVertex, color));

    glBindVertexArray(r->text_vao);
    glBindBuffer(GL_ARRAY_BUFFER, r->text_vbo);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, r->text_ibo);
    attribute(0, 2, GL_FLOAT, GL_FALSE, sizeof(GfxTextVertex), 0);
    attribute(1, 4, GL_UNSIGNED_BYTE, GL_TRUE, sizeof(GfxTextVertex),
              offsetof(GfxTextVertex, color));
    attribute(2, 2, GL_UNSIGNED_SHORT, GL_FALSE, sizeof(GfxTextVertex), offsetof(GfxTextVertex, u));

    glBindVertexArray(r->field_vao);
    glBindBuffer(GL_ARRAY_BUFFER, r->field_vbo);
    attribute(0, 2, GL_FLOAT, GL_FALSE, 4 * sizeof(float), 0);
    attribute(1, 2, GL_FLOAT, GL_FALSE, 4 * sizeof(float), 2 * sizeof(float));
}

static GLuint make_texture(GLint filter)
{
    GLuint tex = 0;
    glGenTextures(1, &tex);
    glBindTexture(GL_TEXTURE_2D, tex);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, filter);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, filter);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    return tex;
}

/* Made once and never changed: nothing of the grain is loaded in a frame. */
static GLuint make_clumps(void)
{
    uint8_t tile[RENDER_CLUMPS * RENDER_CLUMPS];
    render_clumps(tile);
    glActiveTexture(GL_TEXTURE4);
    GLuint tex = make_texture(GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_REPEAT);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_REPEAT);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, RENDER_CLUMPS, RENDER_CLUMPS, 0, GL_RED, GL_UNSIGNED_BYTE,
                 tile);
    glActiveTexture(GL_TEXTURE0);
    return tex;
}

Render *render_create(char *why, size_t why_size)
{
    if (epoxy_gl_version() < 33) {
        snprintf(why, why_size, "this computer's graphics offer OpenGL %d.%d, and 3.3 is needed",
                 epoxy_gl_version() / 10, epoxy_gl_version() % 10);
        return NULL;
    }
    Render *r = calloc(1, sizeof *r);
    if (r == NULL) {
        snprintf(why, why_size, "there is not enough memory for the drawing");
        return NULL;
    }
    if (!make_programs(r, why, why_size)) {
        render_destroy(r);
        return NULL;
    }
    make_buffers(r);
    r->atlas_tex = make_texture(GL_NEAREST); /* glyphs sit on whole pixels */
    r->density_tex = make_texture(GL_LINEAR);
    r->marks_tex = make_texture(GL_NEAREST);
    r->heat_tex = make_texture(GL_LINEAR);
    r->clumps_tex = make_clumps();
    snprintf(r->name, sizeof r->name, "%s", (const char *)glGetString(GL_RENDERER));
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    return r;
}

void render_destroy(Render *r)
{
    if (r == NULL) {
        return;
    }
    GLuint vao[3] = {r->flat_vao, r->text_vao, r->field_vao};
    GLuint buffers[5] = {r->flat_vbo, r->flat_ibo, r->text_vbo, r->text_ibo, r->field_vbo};
    GLuint textures[5] = {r->atlas_tex, r->density_tex, r->marks_tex, r->heat_tex, r->clumps_tex};
    glDeleteVertexArrays(3, vao);
    glDeleteBuffers(5, buffers);
    glDeleteTextures(5, textures);
    glDeleteProgram(r->flat.id);
    glDeleteProgram(r->text.id);
    glDeleteProgram(r->field.id);
    glDeleteProgram(r->camera.id);
    free(r);
}

const char *render_name(const Render *r)
{
    return r->name;
}

static void upload_atlas(Render *r, GfxAtlas *atlas)
{
    if (atlas->dirty_y1 <= atlas->dirty_y0) {
        return;
    }
    glActiveTexture(GL_TEXTURE0);
    glBindTexture(GL_TEXTURE_2D, r->atlas_tex);
    int is_new = atlas->width != r->atlas_w || atlas->height != r->atlas_h;
    r->counts.bytes += (uint64_t)atlas->width *
                       (uint64_t)(is_new ? atlas->height : atlas->dirty_y1 - atlas->dirty_y0);
    if (is_new) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, atlas->width, atlas->height, 0, GL_RED,
                     GL_UNSIGNED_BYTE, atlas->pixels);
        r->atlas_w = atlas->width;
        r->atlas_h = atlas->height;
    } else {
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, atlas->dirty_y0, atlas->width,
                        atlas->dirty_y1 - atlas->dirty_y0, GL_RED, GL_UNSIGNED_BYTE,
                        atlas->pixels + (size_t)atlas->dirty_y0 * (size_t)atlas->width);
    }
    atlas->dirty_y0 = atlas->height;
    atlas->dirty_y1 = 0;
}

static void upload_field(Render *r, const GfxFieldData *f)
{
    r->counts.bytes += (uint64_t)f->nx * (uint64_t)f->ny * sizeof *f->density +
                       (uint64_t)f->mark_nx * (uint64_t)f->mark_ny;
    glActiveTexture(GL_TEXTURE1);
    glBindTexture(GL_TEXTURE_2D, r->density_tex);
    if (f->nx != r->nx || f->ny != r->ny) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R32F, f->nx, f->ny, 0, GL_RED, GL_FLOAT, f->density);
        r->nx = f->nx;
        r->ny = f->ny;
    } else {
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, f->nx, f->ny, GL_RED, GL_FLOAT, f->density);
    }
    glActiveTexture(GL_TEXTURE2);
    glBindTexture(GL_TEXTURE_2D, r->marks_tex);
    if (f->mark_nx != r->mark_nx || f->mark_ny != r->mark_ny) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, f->mark_nx, f->mark_ny, 0, GL_RED, GL_UNSIGNED_BYTE,
                     f->marks);
        r->mark_nx = f->mark_nx;
        r->mark_ny = f->mark_ny;
    } else {
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, f->mark_nx, f->mark_ny, GL_RED, GL_UNSIGNED_BYTE,
                        f->marks);
    }
}

static void upload_heat(Render *r, const GfxFieldData *f)
{
    if (f->heat_c == NULL) {
        return;
    }
    r->counts.bytes += (uint64_t)f->heat_nx * (uint64_t)f->heat_ny * sizeof *f->heat_c;
    glActiveTexture(GL_TEXTURE3);
    glBindTexture(GL_TEXTURE_2D, r->heat_tex);
    if (f->heat_nx != r->heat_nx || f->heat_ny != r->heat_ny) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R32F, f->heat_nx, f->heat_ny, 0, GL_RED, GL_FLOAT,
                     f->heat_c);
        r->heat_nx = f->heat_nx;
        r->heat_ny = f->heat_ny;
    } else {
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, f->heat_nx, f->heat_ny, GL_RED, GL_FLOAT,
                        f->heat_c);
    }
}

/* Text quads share one index pattern; it only grows. */
static void grow_quads(Render *r, uint32_t quads)
{
    if (quads <= r->quad_room) {
        return;
    }
    uint32_t room = quads + 1024;
    uint32_t *indices = malloc((size_t)room * 6 * sizeof *indices);
    if (indices == NULL) {
        return; /* the old pattern stays: the frame shows less text */
    }
    for (uint32_t q = 0; q < room; q++) {
        const uint32_t corner[6] = {0, 1, 2, 0, 2, 3};
        for (uint32_t k = 0; k < 6; k++) {
            indices[q * 6 + k] = q * 4 + corner[k];
        }
    }
    glBindVertexArray(r->text_vao);
    glBufferData(GL_ELEMENT_ARRAY_BUFFER, (GLsizeiptr)((size_t)room * 6 * sizeof *indices), indices,
                 GL_STATIC_DRAW);
    free(indices);
    r->quad_room = room;
}

static void upload_list(Render *r, const GfxDrawList *list)
{
    r->counts.bytes += list->vertex_count * sizeof(GfxVertex) +
                       list->index_count * sizeof(uint32_t) +
                       (uint64_t)list->quad_count * 4 * sizeof(GfxTextVertex) +
                       (uint64_t)list->field_count * 16 * sizeof(float);
    float corners[GFX_MAX_FIELDS][4][4];
    for (int i = 0; i < list->field_count; i++) {
        const GfxField *f = &list->fields[i];
        float x1 = f->rect.x + f->rect.w, y1 = f->rect.y + f->rect.h;
        const float c[4][4] = {{f->rect.x, f->rect.y, f->u0, f->v1},
                               {x1, f->rect.y, f->u1, f->v1},
                               {f->rect.x, y1, f->u0, f->v0},
                               {x1, y1, f->u1, f->v0}};
        for (int k = 0; k < 16; k++) {
            corners[i][k / 4][k % 4] = c[k / 4][k % 4];
        }
    }
    glBindVertexArray(r->flat_vao);
    glBindBuffer(GL_ARRAY_BUFFER, r->flat_vbo);
    glBufferData(GL_ARRAY_BUFFER, (GLsizeiptr)(list->vertex_count * sizeof(GfxVertex)),
                 list->vertices, GL_STREAM_DRAW);
    glBufferData(GL_ELEMENT_ARRAY_BUFFER, (GLsizeiptr)(list->index_count * sizeof(uint32_t)),
                 list->indices, GL_STREAM_DRAW);
    glBindBuffer(GL_ARRAY_BUFFER, r->text_vbo);
    glBufferData(GL_ARRAY_BUFFER, (GLsizeiptr)(list->quad_count * 4 * sizeof(GfxTextVertex)),
                 list->text, GL_STREAM_DRAW);
    grow_quads(r, list->quad_count);
    if (list->field_count > 0) {
        glBindBuffer(GL_ARRAY_BUFFER, r->field_vbo);
        glBufferData(GL_ARRAY_BUFFER, (GLsizeiptr)((size_t)list->field_count * sizeof corners[0]),
                     corners, GL_STREAM_DRAW);
    }
}

static void draw_fields(Render *r, const GfxDrawList *list, const GfxLayer *layer)
{
    glBindVertexArray(r->field_vao);
    r->counts.draws += (uint64_t)layer->field_count;
    for (int i = 0; i < layer->field_count; i++) {
        const GfxField *f = &list->fields[layer->first_field + i];
        if (f->is_camera) {
            glUseProgram(r->camera.id);
            glUniform2f(r->camera_span, f->low_c, f->high_c);
            glDrawArrays(GL_TRIANGLE_STRIP, 4 * (layer->first_field + i), 4);
            continue;
        }
        glUseProgram(r->field.id);
        glUniform1f(r->field_target, f->target_kg_m3);
        glUniform1f(r->field_pitch, f->hatch_pitch_px);
        glUniform1f(r->field_line, f->line_px);
        glUniform2f(r->field_size, f->width_m, f->height_m);
        glDrawArrays(GL_TRIANGLE_STRIP, 4 * (layer->first_field + i), 4);
    }
}

/* Twice the area of a triangle that covers what is under it, 0 where it lets something through. */
static float covered_px2(const GfxDrawList *list, const uint32_t *corner)
{
    const GfxVertex *a = &list->vertices[corner[0]], *b = &list->vertices[corner[1]],
                    *c = &list->vertices[corner[2]];
    if (a->color.a < 255 || b->color.a < 255 || c->color.a < 255) {
        return 0.0f;
    }
    return fabsf((b->x - a->x) * (c->y - a->y) - (c->x - a->x) * (b->y - a->y));
}

static void draw_flat(Render *r, uint32_t first, uint32_t end)
{
    if (end > first) {
        r->counts.draws++;
        glDrawElements(GL_TRIANGLES, (GLsizei)(end - first), GL_UNSIGNED_INT,
                       (const void *)(first * sizeof(uint32_t)));
    }
}

/* What covers a large part of the window is drawn without blending: the same pixels, and a software
 * rasteriser neither reads what was there nor draws what is hidden. */
static void draw_shapes(Render *r, const GfxDrawList *list, const GfxLayer *layer)
{
    uint32_t drawn = layer->first_index, from = drawn, end = drawn + layer->index_count;
    float run_px2 = 0.0f;
    glUseProgram(r->flat.id);
    glBindVertexArray(r->flat_vao);
    for (uint32_t i = drawn; i <= end; i += 3) {
        float px2 = i + 2 < end ? covered_px2(list, &list->indices[i]) : 0.0f;
        if (px2 > 0.0f) {
            from = run_px2 > 0.0f ? from : i;
            run_px2 += px2;
            continue;
        }
        if (run_px2 > 2.0f * LARGE_PX2) {
            draw_flat(r, drawn, from);
            glDisable(GL_BLEND);
            draw_flat(r, from, i);
            glEnable(GL_BLEND);
            drawn = i;
        }
        run_px2 = 0.0f;
    }
    draw_flat(r, drawn, end);
}

static void draw_layer(Render *r, int height, const GfxDrawList *list, const GfxLayer *layer)
{
    if (layer->has_clip) {
        GfxRect c = layer->clip;
        glEnable(GL_SCISSOR_TEST);
        glScissor((GLint)c.x, height - (GLint)(c.y + c.h), (GLsizei)(c.w > 0 ? c.w : 0),
                  (GLsizei)(c.h > 0 ? c.h : 0));
    } else {
        glDisable(GL_SCISSOR_TEST);
    }
    if (layer->field_count > 0) {
        draw_fields(r, list, layer);
    }
    if (layer->index_count > 0) {
        draw_shapes(r, list, layer);
    }
    if (layer->quad_count > 0 && layer->first_quad + layer->quad_count <= r->quad_room) {
        r->counts.draws++;
        glUseProgram(r->text.id);
        glBindVertexArray(r->text_vao);
        glDrawElements(GL_TRIANGLES, (GLsizei)(layer->quad_count * 6), GL_UNSIGNED_INT,
                       (const void *)(layer->first_quad * 6 * sizeof(uint32_t)));
    }
}

void render_frame(Render *r, int width, int height, GfxColor paper, const GfxDrawList *list,
                  GfxAtlas *atlas, const GfxFieldData *field)
{
    upload_atlas(r, atlas);
    if (field != NULL && (field->number == 0 || field->number != r->field_number)) {
        upload_field(r, field);
        upload_heat(r, field);
        r->field_number = field->number;
    }
    upload_list(r, list);

    mat4 page;
    glm_ortho(0.0f, (float)width, (float)height, 0.0f, -1.0f, 1.0f, page);
    const FlatProgram *programs[4] = {&r->flat, &r->text, &r->field, &r->camera};
    for (int i = 0; i < 4; i++) {
        glUseProgram(programs[i]->id);
        glUniformMatrix4fv(programs[i]->page, 1, GL_FALSE, page[0]);
    }
    glUseProgram(r->text.id);
    glUniform2f(r->text_size, (float)r->atlas_w, (float)r->atlas_h);

    glDisable(GL_SCISSOR_TEST);
    glViewport(0, 0, width, height);
    glClearColor((float)paper.r / 255.0f, (float)paper.g / 255.0f, (float)paper.b / 255.0f, 1.0f);
    glClear(GL_COLOR_BUFFER_BIT);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    for (int i = 0; i < list->layer_count; i++) {
        draw_layer(r, height, list, &list->layers[i]);
    }
    r->counts.frames++;
    for (int i = 0; i < 8 && glGetError() != GL_NO_ERROR; i++) {
        r->errors++; /* at most eight a frame: a lost context says the same for ever */
    }
}

RenderCounts render_counts(const Render *r)
{
    return r->counts;
}

int render_errors(const Render *r)
{
    return r != NULL ? r->errors : 0;
}

void render_finish(Render *r)
{
    (void)r;
    glFinish();
}

void render_read(Render *r, int width, int height, uint8_t *rgb)
{
    (void)r;
    size_t row = (size_t)width * 3;
    glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, rgb);
    for (int y = 0; y < height / 2; y++) {
        uint8_t *a = rgb + (size_t)y * row, *b = rgb + (size_t)(height - 1 - y) * row;
        for (size_t x = 0; x < row; x++) {
            uint8_t t = a[x];
            a[x] = b[x];
            b[x] = t;
        }
    }
}
