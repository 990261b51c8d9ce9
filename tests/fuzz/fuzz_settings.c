/* The reader of settings against any bytes: either all of them within their ranges, or the defaults
 * and one clear line. */
#include "io/settings_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    IoSettings s, usual = io_settings_default();
    PbStatus status = io_settings_load(fuzz_file(in->data, in->size), &s, err);
    if (status != PB_OK) {
        if (s.lang != usual.lang || s.text_scale != usual.text_scale || s.volume != usual.volume ||
            s.learner[0] != '\0') {
            abort();
        }
    } else if (s.lang < -1 || s.lang > 1 || !(s.text_scale >= 1.0 && s.text_scale <= 2.0) ||
               !(s.volume >= 0.0 && s.volume <= 1.0) ||
               memchr(s.learner, '\0', sizeof s.learner) == NULL ||
               memchr(s.device, '\0', sizeof s.device) == NULL) {
        abort();
    }
    return status;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
