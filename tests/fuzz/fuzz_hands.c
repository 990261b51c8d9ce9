/* The hands reader against any bytes; what it takes must pass the core's check. */
#include "io/hands_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static PbHands hands;
    char *text = fuzz_text(data, size);
    char field[96];
    PbError err;
    memset(&err, 0, sizeof err);
    if (text == NULL) {
        return 0;
    }
    if (io_hands_parse("fuzz", text, size, &hands, &err) == PB_OK) {
        if (pb_hands_check(&hands, field, sizeof field, &err) != PB_OK) {
            abort();
        }
    } else {
        fuzz_check_complaint(&err, text, size);
    }
    free(text);
    return 0;
}
