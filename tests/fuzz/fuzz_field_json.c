/* The reader of density fields in JSON against any bytes; what it takes must be fit for ageing. */
#include "field_reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    return fuzz_take_field(in, io_field_json_read, err);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
