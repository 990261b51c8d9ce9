/* The reader of climates against any bytes; what it takes must pass the core's check. */
#include "io/climate_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *path = fuzz_file(data, size);
    char *text = fuzz_text(data, size);
    PbClimate climate;
    PbError err;
    memset(&err, 0, sizeof err);
    if (path != NULL && text != NULL) {
        if (io_climate_load(path, &climate, &err) == PB_OK) {
            if (pb_climate_check(&climate, &err) != PB_OK) {
                abort();
            }
        } else {
            fuzz_check_complaint(&err, text, size);
        }
    }
    free(text);
    return 0;
}
