/* Company files: see io/company_file.h. */
#include "io/company_file.h"

#include "format_rows.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double same_thickness_m = 0.003; /* 1/8 in: charts go by whole and half inches */

/* A line of a page: no control characters. */
static void read_line(IoReader *r, IoValue *object, const char *key, char *out, size_t size)
{
    io_text(r, object, key, 0, out, size);
    for (const char *c = out; r->status == PB_OK && *c != '\0'; c++) {
        if ((unsigned char)*c < 0x20 || *c == 0x7f) {
            io_complain(r, io_child(r, object, key), PB_ERR_RANGE,
                        "\"%s\": expected one line of text without control characters", key);
            return;
        }
    }
}

static void read_chart(IoReader *r, IoValue *object, IoProduct *p)
{
    IoValue *list = io_array(r, object, "chart", 0, 0, IO_CHART_ROWS);
    for (size_t i = 0; list != NULL && i < list->count && r->status == PB_OK; i++) {
        IoValue *v = &list->child[i];
        IoChartRow *row = &p->chart[i];
        if (!json_is_object(v->json)) {
            io_complain(r, v, PB_ERR_FORMAT, "expected a row { ... } of the chart");
            return;
        }
        io_number(r, v, "thickness_m", 1, 0.01, 0.5, "m", &row->thickness_m);
        io_number(r, v, "r_m2k_w", 1, 0.05, 20.0, "m2 K/W", &row->r_m2k_w);
        io_number(r, v, "coverage_m2", 0, 0.1, 100.0, "m2 a bag", &row->coverage_m2);
        io_end(r, v);
        if (r->status == PB_OK && i > 0 &&
            row->thickness_m <= p->chart[i - 1].thickness_m + same_thickness_m) {
            io_complain(r, v, PB_ERR_RANGE,
                        "expected a thicker row than the one before it (3 mm at least)");
            return;
        }
        p->rows++;
    }
}

static void read_product(IoReader *r, IoValue *root, const char *key, IoProduct *p)
{
    IoValue *v = io_object(r, root, key, 0);
    if (v != NULL) {
        read_line(r, v, "type", p->type, sizeof p->type);
        read_line(r, v, "fact_sheet", p->sheet, sizeof p->sheet);
        read_chart(r, v, p);
        io_end(r, v);
    }
}

static PbStatus read_company(IoDoc *doc, IoCompany *company, PbError *err)
{
    IoReader r = io_reader(doc, err);
    IoCompany c;
    memset(&c, 0, sizeof c);
    io_format(&r, doc->root, IO_COMPANY_FORMAT);
    read_line(&r, doc->root, "name", c.name, sizeof c.name);
    read_line(&r, doc->root, "license", c.license, sizeof c.license);
    read_line(&r, doc->root, "contact", c.contact, sizeof c.contact);
    read_line(&r, doc->root, "notice", c.notice, sizeof c.notice);
    read_line(&r, doc->root, "savings_notice", c.savings_notice, sizeof c.savings_notice);
    read_product(&r, doc->root, "loose", &c.product[PB_COMPARE_LOOSE]);
    read_product(&r, doc->root, "foam", &c.product[PB_COMPARE_FOAM]);
    read_product(&r, doc->root, "dense", &c.product[PB_COMPARE_DENSE]);
    io_end(&r, doc->root);
    io_doc_free(doc);
    if (r.status == PB_OK) {
        *company = c;
    }
    return r.status;
}

PbStatus io_company_load(const char *path, IoCompany *company, PbError *err)
{
    assert(path != NULL && company != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_company(&doc, company, err);
}

PbStatus io_company_parse(const char *name, const char *text, size_t size, IoCompany *company,
                          PbError *err)
{
    assert(name != NULL && text != NULL && company != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_company(&doc, company, err);
}

const IoChartRow *io_chart_row(const IoProduct *p, double thickness_m)
{
    assert(p != NULL);
    for (int i = 0; i < p->rows; i++) {
        if (fabs(p->chart[i].thickness_m - thickness_m) <= same_thickness_m) {
            return &p->chart[i];
        }
    }
    return NULL;
}

int io_chart_bags(const IoChartRow *row, double cavity_m2)
{
    assert(row != NULL);
    return row->coverage_m2 > 0.0 ? (int)ceil(cavity_m2 / row->coverage_m2 - 1e-9) : 0;
}
