/* The reader of bays for heat against any bytes: numbers that can be worked with, or one clear
 * line and nothing to give back. */
#include "io/heat_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    PbConstants constants = pb_constants_default();
    IoHeatBay bay;
    char *text = fuzz_text(data, size);
    PbError err;
    memset(&err, 0, sizeof err);
    if (text == NULL) {
        return 0;
    }
    if (io_heat_bay_parse("fuzz", text, size, &constants, &bay, &err) == PB_OK) {
        io_heat_bay_free(&bay);
    } else {
        fuzz_check_complaint(&err, text, size);
    }
    free(text);
    return 0;
}
