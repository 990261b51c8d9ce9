/* The reader of keys and controller buttons against any bytes; what it takes must give every action
 * a key of its own. */
#include "base/keymap.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    Keymap keys;
    PB_TRY(keymap_load(fuzz_file(in->data, in->size), &keys, err));
    for (int a = 0; a < KEY_ACTIONS; a++) {
        if (keys.key[a] == 0 || keymap_action(&keys, keys.key[a]) != a ||
            (keys.pad[a] >= 0 && keymap_pad_action(&keys, keys.pad[a]) != a)) {
            abort();
        }
    }
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
