/* The house reader against any bytes; what it takes must pass the core's check. */
#include "io/house_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    static PbHouse house;
    char *text = fuzz_text(data, size);
    char field[96];
    PbError err;
    memset(&err, 0, sizeof err);
    if (text == NULL) {
        return 0;
    }
    if (io_house_parse("fuzz", text, size, folders, 1, &house, &err) == PB_OK) {
        if (pb_house_check(&house, field, sizeof field, &err) != PB_OK) {
            abort();
        }
    } else {
        fuzz_check_complaint(&err, text, size);
    }
    free(text);
    return 0;
}
