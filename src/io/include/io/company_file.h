/**
 * @file company_file.h
 * @brief What a company adds to the page that it hands over: docs/formats/company.md.
 *
 * Name, license, its own notices, and what the label and the fact sheet of its products say. The
 * program knows no product: what is not given here stays an empty line on the page.
 */
#ifndef IO_COMPANY_FILE_H
#define IO_COMPANY_FILE_H

#include "core/compare.h"
#include "io/doc.h"

#define IO_COMPANY_FORMAT "pullback company 1"

enum { IO_CHART_ROWS = 12 };

/** A row of the chart on a bag or a fact sheet. */
typedef struct IoChartRow {
    double thickness_m; /**< 0.01..0.5 */
    double r_m2k_w;     /**< of that thickness alone, 0.05..20 */
    double coverage_m2; /**< of cavity that a bag fills at it, 0.1..100; 0 = not given */
} IoChartRow;

/** What label and fact sheet say of one kind of fill. All zero: nothing is known. */
typedef struct IoProduct {
    char type[81];  /**< type and form of the insulation, as on the label */
    char sheet[49]; /**< number of the fact sheet */
    IoChartRow chart[IO_CHART_ROWS];
    int rows;
} IoProduct;

/** All zero: a company that gave nothing. */
typedef struct IoCompany {
    char name[97], license[97], contact[161];
    char notice[601];                    /**< its own */
    char savings_notice[401];            /**< words that the rule on savings claims demands */
    IoProduct product[PB_COMPARE_FILLS]; /**< that of the empty bay stays empty */
} IoCompany;

/**
 * @brief Read and judge a company file.
 * @param[out] company untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_company_load(const char *path, IoCompany *company, PbError *err);
/** @brief As io_company_load, from text. @param[in] name shown in complaints */
PB_NODISCARD PbStatus io_company_parse(const char *name, const char *text, size_t size,
                                       IoCompany *company, PbError *err);
/** @brief Row of the chart for this thickness, to 3 mm; NULL where the chart has none. */
const IoChartRow *io_chart_row(const IoProduct *product, double thickness_m);
/** @brief Whole bags by the chart for this much cavity; 0 where it gives no coverage. */
int io_chart_bags(const IoChartRow *row, double cavity_m2);

#endif
