/* A PDF by cairo: fonts, paper, the file that appears whole or not at all. */
#include "page.h"

#include "io/output_file.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <stdio.h>
#include <stdlib.h>

#include <freetype/freetype.h>

/* A font with its own FreeType: cairo may keep a face in its cache after we gave it back, and says
 * when it is really done with it. */
typedef struct Font {
    FT_Library library;
    FT_Face face;
} Font;

static void drop_font(void *memory)
{
    Font *font = memory;
    if (font->face != NULL) {
        FT_Done_Face(font->face);
    }
    if (font->library != NULL) {
        FT_Done_FreeType(font->library);
    }
    free(font);
}

static PbStatus load_face(const char *folder, const char *name, cairo_font_face_t **face,
                          PbError *err)
{
    static const cairo_user_data_key_t key;
    char path[600];
    snprintf(path, sizeof path, "%.500s/%s", folder, name);
    Font *font = calloc(1, sizeof *font);
    if (font == NULL || FT_Init_FreeType(&font->library) != 0) {
        free(font);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    if (FT_New_Face(font->library, path, 0, &font->face) != 0) {
        font->face = NULL;
        drop_font(font);
        if (err != NULL) {
            snprintf(err->file, sizeof err->file, "%.255s", path);
        }
        return pb_fail(err, PB_ERR_IO, "cannot read the font");
    }
    *face = cairo_ft_font_face_create_for_ft_face(font->face, FT_LOAD_NO_HINTING);
    if (cairo_font_face_set_user_data(*face, &key, font, drop_font) != CAIRO_STATUS_SUCCESS) {
        cairo_font_face_destroy(*face);
        *face = NULL;
        drop_font(font);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    return PB_OK;
}

static void describe(cairo_surface_t *pdf, const PdfJob *job)
{
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, job->title);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR, "Pullback");
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, job->created);
}

static PbStatus write_pages(const PdfJob *job, const char *file, Page *page, PbError *err)
{
    cairo_surface_t *pdf = cairo_pdf_surface_create(file, page->width, page->height);
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
    return pb_fail(err, status == CAIRO_STATUS_NO_MEMORY ? PB_ERR_MEMORY : PB_ERR_IO,
                   "cannot write the report: %s", cairo_status_to_string(status));
}

PbStatus pdf_write(const PdfJob *job, const ReportRun *run, const void *subject,
                   IoReaderTaste taste, PbError *err)
{
    static const char *const names[2] = {"B612-Regular.otf", "B612-Bold.otf"};
    Page page = {.r = run,
                 .subject = subject,
                 .taste = taste,
                 .width = job->paper == REPORT_LETTER ? 612.0 : 595.276,
                 .height = job->paper == REPORT_LETTER ? 792.0 : 841.890,
                 .margin = job->margin,
                 .number = 1};
    IoOutput out;
    PbStatus status = PB_OK;
    for (int i = 0; i < 2 && status == PB_OK; i++) {
        status = load_face(job->fonts, names[i], &page.faces[i], err);
    }
    if (status == PB_OK) {
        status = io_output_open(job->path, &out, err);
    }
    if (status == PB_OK) {
        status = io_output_release(&out, err);
        if (status == PB_OK) {
            status = write_pages(job, out.part, &page, err);
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
