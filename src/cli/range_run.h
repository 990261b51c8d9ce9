/* A run over draws of what is not well known: forty runs on all cores, and what they come to. */
#ifndef CLI_RANGE_RUN_H
#define CLI_RANGE_RUN_H

#include "core/mark_range.h"
#include "io/taste.h"

enum { CLI_RANGE_SEED = 1 }; /* the same run always gets the same range */

/* One draw, from any thread; as pb_range_draw. */
typedef PbStatus CliDraw(void *context, int index, PbRangeDraw *draw, PbError *err);

/* PB_OK, or what the first draw that failed gave; then `range` is untouched. */
PB_NODISCARD PbStatus cli_range(CliDraw *draw, void *context, PbMarkRange *range, PbError *err);
/* The sentences, under their head. */
void cli_range_print(const PbMarkRange *range, IoReaderTaste taste);

#endif
