/* Forty draws on all cores: range_run.h. */
#include "range_run.h"

#include "io/parallel.h"
#include "io/range_words.h"

#include <stdio.h>
#include <stdlib.h>

typedef struct Draws {
    CliDraw *work;
    void *context;
    PbRangeDraw draw[PB_RANGE_DRAWS];
    PbStatus status[PB_RANGE_DRAWS];
    PbError err[PB_RANGE_DRAWS];
} Draws;

static void work_one(void *context, int i)
{
    Draws *d = context;
    d->status[i] = d->work(d->context, i, &d->draw[i], &d->err[i]);
}

PbStatus cli_range(CliDraw *draw, void *context, PbMarkRange *range, PbError *err)
{
    IoParallel crew = io_parallel_default();
    Draws *d = calloc(1, sizeof *d);
    PbStatus status = PB_OK;
    if (d == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    d->work = draw;
    d->context = context;
    io_parallel_for(&crew, PB_RANGE_DRAWS, work_one, d);
    for (int i = 0; i < PB_RANGE_DRAWS && status == PB_OK; i++) {
        status = d->status[i];
        if (status != PB_OK) {
            *err = d->err[i];
        }
    }
    if (status == PB_OK) {
        *range = pb_range_sum(d->draw, PB_RANGE_DRAWS);
    }
    free(d);
    return status;
}

void cli_range_print(const PbMarkRange *range, IoReaderTaste taste)
{
    char said[IO_RANGE_LINES][IO_RANGE_BYTES];
    io_range_sentences(range, taste, said);
    printf("\n%s\n", io_range_head(taste.language));
    for (int i = 0; i < IO_RANGE_LINES; i++) {
        printf("    %s\n", said[i]);
    }
}
