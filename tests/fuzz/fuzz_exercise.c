/* The exercise reader against any bytes; what it takes must survive being written and read back. */
#include "core/exercise.h"
#include "io/exercise_file.h"
#include "reader.h"

static void check_accepted(const PbExercise *e)
{
    char field[96];
    PbError err = {0};
    PbExercise back;
    if (pb_exercise_check(e, field, sizeof field, &err) != PB_OK) {
        abort();
    }
    json_t *json = io_exercise_to_json(e);
    char *text = json != NULL ? json_dumps(json, JSON_REAL_PRECISION(17)) : NULL;
    if (text == NULL || io_exercise_parse("back", text, strlen(text), &back, &err) != PB_OK) {
        abort();
    }
    json_t *again = io_exercise_to_json(&back);
    if (!json_equal(json, again)) {
        abort();
    }
    json_decref(again);
    json_decref(json);
    free(text);
}

static PbStatus take(const FuzzInput *in, PbError *err)
{
    PbExercise e;
    PB_TRY(io_exercise_parse("fuzz", in->text, in->size, &e, err));
    check_accepted(&e);
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
