/* The reader of eras against any bytes; walls drawn from what it takes must pass the core's check.
 */
#include "core/generate.h"
#include "io/eras_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static PbFraming framing;
    PbEra eras[PB_ERAS];
    char field[96];
    PB_TRY(io_eras_parse("fuzz", in->text, in->size, eras, err));
    for (int n = 0; n < PB_ERAS; n++) {
        pb_generate_wall(&eras[n], pb_era_years[n], in->size, &framing);
        if (pb_framing_check(&framing, field, sizeof field, err) != PB_OK) {
            abort();
        }
    }
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
