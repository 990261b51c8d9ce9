/* The reader of climates against any bytes; what it takes must pass the core's check. */
#include "io/climate_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    PbClimate climate;
    PB_TRY(io_climate_load(fuzz_file(in->data, in->size), &climate, err));
    if (pb_climate_check(&climate, err) != PB_OK) {
        abort();
    }
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
