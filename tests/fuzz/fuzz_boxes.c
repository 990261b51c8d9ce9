/* The reader of weighed boxes against any bytes; what it takes must be boxes that can be fitted. */
#include "io/boxes_file.h"
#include "reader.h"

static PbStatus take(const FuzzInput *in, PbError *err)
{
    static IoBoxes boxes;
    PB_TRY(io_boxes_parse("fuzz", in->text, in->size, &boxes, err));
    if (boxes.count < PB_FIT_LEAST || boxes.count > PB_FIT_BOXES) {
        abort();
    }
    for (int i = 0; i < boxes.count; i++) {
        if (!(pb_fit_weighed(&boxes.box[i]) >= 1.2) || boxes.line[i] < 1 ||
            boxes.mass_column[i] < 1) {
            abort();
        }
    }
    return PB_OK;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    return fuzz_reader(data, size, take);
}
