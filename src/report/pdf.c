/* A PDF by cairo: fonts, paper, the file that appears whole or not at all. */
#include "page.h"

#include "io/output_file.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <freetype/freetype.h>
#include <freetype/ftmodapi.h>

/* A font with its own FreeType: cairo may keep a face in its cache after we gave it back, and says
 * when it is really done with it. Its memory is watched, for without enough of it FreeType may give
 * an empty letter and call it well. */
typedef struct Font {
    FT_Library library;
    FT_Face face;
    struct FT_MemoryRec_ memory;
    int is_short;
} Font;

static void *font_take(FT_Memory memory, long bytes)
{
    void *block = malloc((size_t)bytes);
    ((Font *)memory->user)->is_short |= block == NULL;
    return block;
}

static void font_give(FT_Memory memory, void *block)
{
    (void)memory;
    free(block);
}

static void *font_resize(FT_Memory memory, long had, long bytes, void *block)
{
    void *moved = realloc(block, (size_t)bytes);
    (void)had;
    ((Font *)memory->user)->is_short |= moved == NULL;
    return moved;
}

static int open_library(Font *font)
{
    font->memory = (struct FT_MemoryRec_){font, font_take, font_give, font_resize};
    if (FT_New_Library(&font->memory, &font->library) != 0) {
        return 0;
    }
    FT_Add_Default_Modules(font->library);
    return !font->is_short;
}

static void drop_font(void *memory)
{
    Font *font = memory;
    if (font->face != NULL) {
        FT_Done_Face(font->face);
    }
    if (font->library != NULL) {
        FT_Done_Library(font->library);
    }
    free(font);
}

static const cairo_user_data_key_t font_key;

static PbStatus load_face(const char *folder, const char *name, cairo_font_face_t **face,
                          PbError *err)
{
    char path[600];
    snprintf(path, sizeof path, "%.500s/%s", folder, name);
    Font *font = calloc(1, sizeof *font);
    if (font == NULL || !open_library(font)) {
        if (font != NULL) {
            drop_font(font);
        }
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    if (FT_New_Face(font->library, path, 0, &font->face) != 0) {
        font->face = NULL;
        int is_short = font->is_short;
        drop_font(font);
        if (is_short) {
            return pb_fail(err, PB_ERR_MEMORY, "out of memory");
        }
        if (err != NULL) {
            snprintf(err->file, sizeof err->file, "%.255s", path);
        }
        return pb_fail(err, PB_ERR_IO, "cannot read the font");
    }
    /* On Windows cairo makes its locks with its first pattern, and a face would wait for them for
     * ever. */
    cairo_pattern_destroy(cairo_pattern_create_rgb(0.0, 0.0, 0.0));
    *face = cairo_ft_font_face_create_for_ft_face(font->face, FT_LOAD_NO_HINTING);
    if (cairo_font_face_set_user_data(*face, &font_key, font, drop_font) != CAIRO_STATUS_SUCCESS) {
        cairo_font_face_destroy(*face);
        *face = NULL;
        drop_font(font);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    return PB_OK;
}

/* Whether a letter may be missing; asked before the faces are given back. */
static int is_short_of_memory(cairo_font_face_t *const faces[2])
{
    int is_short = 0;
    for (int i = 0; i < 2; i++) {
        const Font *font = cairo_font_face_get_user_data(faces[i], &font_key);
        is_short |= font == NULL || font->is_short;
    }
    return is_short;
}

static void describe(cairo_surface_t *pdf, const PdfJob *job)
{
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, job->title);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR, "Pullback");
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, job->created);
}

/* Where cairo's bytes go, and why they did not. */
typedef struct Sink {
    FILE *file;
    int trouble; /* errno of the first failed write */
} Sink;

static cairo_status_t put_bytes(void *sink, const unsigned char *bytes, unsigned count)
{
    Sink *s = sink;
    if (fwrite(bytes, 1, count, s->file) == count) {
        return CAIRO_STATUS_SUCCESS;
    }
    s->trouble = s->trouble != 0 ? s->trouble : errno;
    return CAIRO_STATUS_WRITE_ERROR;
}

/* Into the open stream, not by name: a pipe cannot be opened twice. */
static PbStatus write_pages(const PdfJob *job, FILE *file, Page *page, PbError *err)
{
    Sink sink = {file, 0};
    cairo_surface_t *pdf =
        cairo_pdf_surface_create_for_stream(put_bytes, &sink, page->width, page->height);
    describe(pdf, job);
    page->cr = cairo_create(pdf);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_set_font_options(page->cr, options);
    cairo_font_options_destroy(options);
    job->draw(page);
    cairo_show_page(page->cr);
    cairo_status_t status = cairo_status(page->cr);
    cairo_destroy(page->cr);
    cairo_surface_finish(pdf);
    status = status != CAIRO_STATUS_SUCCESS ? status : cairo_surface_status(pdf);
    cairo_surface_destroy(pdf);
    if (status == CAIRO_STATUS_SUCCESS) {
        return PB_OK;
    }
    if (err != NULL) {
        snprintf(err->file, sizeof err->file, "%.255s", job->path);
    }
    return pb_fail(err, status == CAIRO_STATUS_NO_MEMORY ? PB_ERR_MEMORY : PB_ERR_IO,
                   "cannot write the report: %s",
                   sink.trouble != 0 ? strerror(sink.trouble) : cairo_status_to_string(status));
}

PbStatus pdf_write(const PdfJob *job, const ReportRun *run, const void *subject,
                   IoReaderTaste taste, PbError *err)
{
    static const char *const names[2] = {"B612-Regular.otf", "B612-Bold.otf"};
    int is_letter =
        job->paper == REPORT_PAPER_OF_READER ? taste.is_us : job->paper == REPORT_LETTER;
    Page page = {.r = run,
                 .subject = subject,
                 .taste = taste,
                 .width = is_letter ? 612.0 : 595.276,
                 .height = is_letter ? 792.0 : 841.890,
                 .margin = job->margin,
                 .number = 1};
    IoOutput out;
    PbStatus status = PB_OK;
    for (int i = 0; i < 2 && status == PB_OK; i++) {
        status = load_face(job->fonts, names[i], &page.faces[i], err);
    }
    if (status == PB_OK) {
        status = io_output_open(job->path, IO_BEGINS_PDF, &out, err);
    }
    if (status == PB_OK) {
        status = write_pages(job, out.file, &page, err);
        if (status == PB_OK && (page.is_short || is_short_of_memory(page.faces))) {
            status = pb_fail(err, PB_ERR_MEMORY, "cannot write the report: out of memory");
        }
        if (status == PB_OK) {
            status = io_output_commit(&out, err);
        } else {
            io_output_abandon(&out);
        }
    }
    for (int i = 0; i < 2; i++) {
        if (page.faces[i] != NULL) {
            cairo_font_face_destroy(page.faces[i]);
        }
    }
    return status;
}
