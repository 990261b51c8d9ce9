/**
 * @file record_file.h
 * @brief Results for other programs: a CSV table, and learning-record statements as JSON in the
 * form of IEEE 9274.1.1 (xAPI), which a school's record store takes.
 */
#ifndef IO_RECORD_FILE_H
#define IO_RECORD_FILE_H

#include "core/record.h"
#include "core/status.h"

#include <jansson.h>
#include <stdio.h>

/** @brief A field of CSV (RFC 4180): quoted where it must be, with a space before what a
 * spreadsheet would take for a formula. */
void io_csv_text(FILE *out, const char *text);
/**
 * @brief Table of results: RFC 4180, one header line, a column a part that occurs, and beside it
 * the trainer's points (empty = none).
 * @return PB_OK; PB_ERR_RANGE when there are more than 16 different parts
 */
PB_NODISCARD PbStatus io_records_csv(FILE *out, const PbRecord *records, int count, PbError *err);

/**
 * @brief Table for people and scripts: an array of objects with the fields of the summary.
 * @return caller gives it back with json_decref; NULL when memory ran out
 */
json_t *io_records_json(const PbRecord *records, int count);

/** @brief Nonzero when the address can stand as home of accounts: http(s)://, no spaces, no / at
 * its end, <= 200. */
int io_is_home(const char *home);
/**
 * @brief An array of statements.
 * @param[in] home address of the school or company: home page of the accounts, and start of the
 *                 addresses of exercises and extensions
 * @return caller gives it back with json_decref; NULL when memory ran out
 * The same run gives the same statement id every time, so that sending twice does no harm.
 */
json_t *io_records_xapi(const PbRecord *records, int count, const char *home);

/** @brief ISO 8601 duration with hundredths of a second: "PT2M5.48S". */
void io_duration(double seconds, char *out, size_t size);

#endif
