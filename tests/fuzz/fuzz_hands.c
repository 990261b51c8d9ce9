/* The hands reader against any bytes; what it takes must pass the core's check. */
#include "io/hands_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static PbHands it;
    char field[96];
    PB_TRY(io_hands_parse("fuzz", in->text, in->size, &it, err));
    if (pb_hands_check(&it, field, sizeof field, err) != PB_OK) {
        abort();
    }
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
