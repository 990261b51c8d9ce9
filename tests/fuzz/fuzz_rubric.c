/* The rubric reader against any bytes; what it takes must pass the core's check and come back the
 * same after being written. */
#include "io/rubric_file.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

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

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static PbRubric rubric;
    char *text = fuzz_text(data, size);
    char field[96];
    PbError err;
    memset(&err, 0, sizeof err);
    if (text == NULL) {
        return 0;
    }
    if (io_rubric_parse("fuzz", text, size, &rubric, &err) == PB_OK) {
        if (pb_rubric_check(&rubric, field, sizeof field, &err) != PB_OK) {
            abort();
        }
        write_and_read(&rubric);
    } else {
        fuzz_check_complaint(&err, text, size);
    }
    free(text);
    return 0;
}
