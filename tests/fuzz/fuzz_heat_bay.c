/* The reader of bays for heat against any bytes: numbers that can be worked with, or one clear
 * line and nothing to give back. */
#include "io/heat_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    PbConstants constants = pb_constants_default();
    IoHeatBay bay;
    PB_TRY(io_heat_bay_parse("fuzz", in->text, in->size, &constants, &bay, err));
    io_heat_bay_free(&bay);
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
