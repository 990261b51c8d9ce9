/* The reader of constant overrides against any bytes. */
#include "io/constants_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    PbConstants c = pb_constants_default();
    char *text = fuzz_text(data, size);
    PbError err;
    memset(&err, 0, sizeof err);
    if (text == NULL) {
        return 0;
    }
    if (io_constants_parse("fuzz", text, size, &c, &err) != PB_OK) {
        PbConstants d = pb_constants_default();
        if (memcmp(&c, &d, sizeof c) != 0) {
            abort();
        }
        fuzz_check_complaint(&err, text, size);
    }
    free(text);
    return 0;
}
