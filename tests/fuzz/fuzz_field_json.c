/* The reader of density fields in JSON against any bytes; what it takes must be fit for ageing. */
#include "core/settle.h"
#include "io/field_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *path = fuzz_file(data, size);
    char *text = fuzz_text(data, size);
    PbBayField field;
    PbError err;
    memset(&err, 0, sizeof err);
    if (path != NULL && text != NULL) {
        if (io_field_json_read(path, &field, &err) == PB_OK) {
            if (pb_settle_check(&field, &err) != PB_OK) {
                abort();
            }
            pb_bay_field_destroy(&field);
        } else {
            fuzz_check_complaint(&err, text, size);
        }
    }
    free(text);
    return 0;
}
