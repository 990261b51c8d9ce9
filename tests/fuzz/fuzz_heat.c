/* The reader of heat cases against any bytes; what it takes must pass the core's check. */
#include "io/heat_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static PbHeatCase c;
    char *text = fuzz_text(data, size);
    char field[96];
    PbError err;
    memset(&err, 0, sizeof err);
    if (text == NULL) {
        return 0;
    }
    if (io_heat_case_parse("fuzz", text, size, &c, &err) == PB_OK) {
        if (pb_heat_case_check(&c, field, sizeof field, &err) != PB_OK) {
            abort();
        }
    } else {
        fuzz_check_complaint(&err, text, size);
    }
    free(text);
    return 0;
}
