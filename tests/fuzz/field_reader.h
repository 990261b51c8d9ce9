/* What both forms of a density field owe: a field that is taken is fit for ageing. */
#ifndef FUZZ_FIELD_READER_H
#define FUZZ_FIELD_READER_H

#include "core/settle.h"
#include "io/field_file.h"
#include "reader.h"

static inline PbStatus
fuzz_take_field(const FuzzInput *in,
                PbStatus (*read)(const char *path, PbBayField *field, PbError *err), PbError *err)
{
    PbBayField field;
    PB_TRY(read(fuzz_file(in->data, in->size), &field, err));
    if (pb_settle_check(&field, err) != PB_OK) {
        abort();
    }
    pb_bay_field_destroy(&field);
    return PB_OK;
}

#endif
