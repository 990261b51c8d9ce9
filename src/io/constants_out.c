/*
 * The table of constants as JSON and as a page of the manual. The page is kept in docs/ and a test
 * compares the two, so that the manual cannot fall behind the data.
 */
#include "io/constants_out.h"

#include "core/constants.h"

#include <jansson.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

char *io_constants_json(void)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        const PbConstantInfo *c = &table[i];
        json_t *row = json_pack("{s:s, s:s, s:f, s:f, s:f, s:s, s:s, s:s}", "group", c->group,
                                "name", c->name, "value", c->value, "low", c->low, "high", c->high,
                                "unit", c->unit, "confidence", c->confidence, "source", c->source);
        if (json_array_append_new(list, row) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    /* 15 digits bring back every decimal that a person writes */
    char *text = json_dumps(list, JSON_INDENT(1) | JSON_REAL_PRECISION(15));
    json_decref(list);
    return text;
}

/* Text that grows; once memory is short it stays NULL. */
typedef struct Page {
    char *text;
    size_t used, room;
    int failed;
} Page;

static void page_room(Page *page, size_t more)
{
    if (page->failed || page->used + more < page->room) {
        return;
    }
    size_t room = (page->used + more) * 2;
    char *text = realloc(page->text, room);
    if (text == NULL) {
        page->failed = 1;
        return;
    }
    page->text = text;
    page->room = room;
}

PB_PRINTF(2, 3) static void page_print(Page *page, const char *format, ...)
{
    char part[256];
    va_list args;
    va_start(args, format);
    int n = vsnprintf(part, sizeof part, format, args);
    va_end(args);
    if (n < 0 || (size_t)n >= sizeof part) {
        page->failed = 1;
        return;
    }
    page_room(page, (size_t)n + 1);
    if (!page->failed) {
        memcpy(page->text + page->used, part, (size_t)n + 1);
        page->used += (size_t)n;
    }
}

/* A table cell: a bar would end it. */
static void page_cell(Page *page, const char *text)
{
    size_t n = strlen(text);
    page_room(page, 2 * n + 1);
    for (size_t i = 0; i < n && !page->failed; i++) {
        if (text[i] == '|') {
            page->text[page->used++] = '\\';
        }
        page->text[page->used++] = text[i];
    }
}

static void page_row(Page *page, const PbConstantInfo *c)
{
    page_print(page, "| `%s` | %.10g | %.10g to %.10g | ", c->name, c->value, c->low, c->high);
    page_cell(page, c->unit);
    page_print(page, " | ");
    page_cell(page, c->confidence);
    page_print(page, " | ");
    page_cell(page, c->source);
    page_print(page, " |\n");
}

char *io_constants_markdown(void)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    Page page = {NULL, 0, 0, 0};
    page_print(&page, "# Constants\n\n"
                      "Made by `pullback-lab constants --markdown` from `assets/constants.json`; "
                      "a test holds the two together.\n"
                      "The value is used; the range is what is plausible. All SI.\n");
    for (size_t i = 0; i < count; i++) {
        if (i == 0 || strcmp(table[i].group, table[i - 1].group) != 0) {
            page_print(&page,
                       "\n## %s\n\n"
                       "| name | value | range | unit | confidence | source |\n"
                       "| --- | --- | --- | --- | --- | --- |\n",
                       table[i].group);
        }
        page_row(&page, &table[i]);
    }
    if (page.failed) {
        free(page.text);
        return NULL;
    }
    return page.text;
}
