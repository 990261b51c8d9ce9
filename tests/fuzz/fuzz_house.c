/* The house reader against any bytes; what it takes must pass the core's check. */
#include "io/house_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    static PbHouse house;
    char field[96];
    PB_TRY(io_house_parse("fuzz", in->text, in->size, folders, 1, &house, err));
    if (pb_house_check(&house, field, sizeof field, err) != PB_OK) {
        abort();
    }
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
