/* The reader of settings against any bytes: either all of them within their ranges, or the defaults
 * and one clear line. */
#include "io/settings_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *path = fuzz_file(data, size);
    char *text = fuzz_text(data, size);
    IoSettings s, usual = io_settings_default();
    PbError err;
    memset(&err, 0, sizeof err);
    if (path != NULL && text != NULL) {
        if (io_settings_load(path, &s, &err) != PB_OK) {
            fuzz_check_complaint(&err, text, size);
            if (s.lang != usual.lang || s.text_scale != usual.text_scale ||
                s.volume != usual.volume || s.learner[0] != '\0') {
                abort();
            }
        } else if (s.lang < -1 || s.lang > 1 || !(s.text_scale >= 1.0 && s.text_scale <= 2.0) ||
                   !(s.volume >= 0.0 && s.volume <= 1.0) ||
                   memchr(s.learner, '\0', sizeof s.learner) == NULL ||
                   memchr(s.device, '\0', sizeof s.device) == NULL) {
            abort();
        }
    }
    free(text);
    return 0;
}
