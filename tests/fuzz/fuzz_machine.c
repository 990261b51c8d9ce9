/* The machine reader against any bytes; what it takes must survive being written and read back. */
#include "io/machine_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static PbRig one, back;
    PB_TRY(io_machine_parse("fuzz", in->text, in->size, &one, err));
    json_t *json = io_machine_to_json(&one);
    char *text = json != NULL ? json_dumps(json, JSON_REAL_PRECISION(17)) : NULL;
    if (text == NULL || io_machine_parse("back", text, strlen(text), &back, err) != PB_OK) {
        abort();
    }
    json_t *again = io_machine_to_json(&back);
    if (!json_equal(json, again)) {
        abort();
    }
    json_decref(json);
    json_decref(again);
    free(text);
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
