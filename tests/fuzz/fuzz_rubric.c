/* The rubric reader against any bytes; what it takes must pass the core's check and come back the
 * same after being written. */
#include "io/rubric_file.h"
#include "reader.h"

static void write_and_read(const PbRubric *rubric)
{
    PbRubric back;
    PbError err;
    json_t *json = io_rubric_to_json(rubric);
    char *text = json == NULL ? NULL : json_dumps(json, JSON_REAL_PRECISION(17));
    if (text == NULL || io_rubric_parse("back", text, strlen(text), &back, &err) != PB_OK) {
        abort();
    }
    json_t *again = io_rubric_to_json(&back);
    if (again == NULL || !json_equal(json, again)) {
        abort();
    }
    json_decref(json);
    json_decref(again);
    free(text);
}

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static PbRubric rubric;
    char field[96];
    PB_TRY(io_rubric_parse("fuzz", in->text, in->size, &rubric, err));
    if (pb_rubric_check(&rubric, field, sizeof field, err) != PB_OK) {
        abort();
    }
    write_and_read(&rubric);
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
