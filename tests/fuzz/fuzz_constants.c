/* The reader of constant overrides against any bytes. */
#include "io/constants_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    const PbConstants before = pb_constants_default();
    PbConstants c = before;
    PbStatus status = io_constants_parse("fuzz", in->text, in->size, &c, err);
    if (status != PB_OK && memcmp(&c, &before, sizeof c) != 0) {
        abort();
    }
    return status;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
