/* The reader of keys and controller buttons against any bytes; what it takes must give every action
 * a key of its own. */
#include "app/keymap.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    const char *path = fuzz_file(data, size);
    char *text = fuzz_text(data, size);
    Keymap keys;
    PbError err;
    memset(&err, 0, sizeof err);
    if (path != NULL && text != NULL) {
        if (keymap_load(path, &keys, &err) == PB_OK) {
            for (int a = 0; a < KEY_ACTIONS; a++) {
                if (keys.key[a] == 0 || keymap_action(&keys, keys.key[a]) != a ||
                    (keys.pad[a] >= 0 && keymap_pad_action(&keys, keys.pad[a]) != a)) {
                    abort();
                }
            }
        } else {
            fuzz_check_complaint(&err, text, size);
        }
    }
    free(text);
    return 0;
}
