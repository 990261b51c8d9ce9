/* The reader of framed walls against any bytes; what it takes must pass the core's check, and has
 * bays. */
#include "core/bays.h"
#include "io/framing_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    static PbFraming framing;
    char field[96];
    PbBays *bays;
    PbAllocator allocator = pb_allocator_default();
    PB_TRY(io_framing_parse("fuzz", in->text, in->size, folders, 1, &framing, err));
    if (pb_framing_check(&framing, field, sizeof field, err) != PB_OK ||
        pb_bays_create(&framing, &allocator, &bays) != PB_OK) {
        abort();
    }
    int count;
    PbExercise e;
    (void)pb_bays_list(bays, &count);
    for (int n = 0; n < count; n++) {
        if (pb_bays_exercise(bays, n, &e, err) == PB_OK &&
            pb_exercise_check(&e, field, sizeof field, err) != PB_OK) {
            abort();
        }
    }
    pb_bays_destroy(bays);
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
