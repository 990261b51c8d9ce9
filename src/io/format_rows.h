/* Reading and writing of the numbers that core/format_rows.h lists. Private to pb_io. */
#ifndef IO_FORMAT_ROWS_H
#define IO_FORMAT_ROWS_H

#include "core/format_rows.h"
#include "io/doc.h"

/* Read every row that the object has into the struct; complain about a required one that is
 * missing and about a value that is out of range. */
void io_rows_read(IoReader *r, IoValue *object, const PbNumberRow *rows, size_t count,
                  void *values);
/* Write every row into the object, zeros too, sections as objects. Nonzero when memory ran out. */
int io_rows_write(json_t *object, const PbNumberRow *rows, size_t count, const void *values);
/* io_end on the value and everything below it. */
void io_end_deep(IoReader *r, const IoValue *value);
/* Complain at the place of a path that a core check gave. */
void io_complain_check(IoReader *r, const IoValue *object, const char *path, const PbError *check);
/* The "format" line that must open every file of ours. */
void io_format(IoReader *r, IoValue *object, const char *format);

#endif
