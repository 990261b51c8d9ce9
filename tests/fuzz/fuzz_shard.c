/* The joiner of shards against any bytes: a result that prints, or one clear line. A shard alone is
 * refused when it says that there are more, without a place of its own. */
#include "io/age_result.h"
#include "reader.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static FILE *nowhere;
    const char *path = fuzz_file(data, size);
    IoAgeResult *result = NULL;
    PbError err;
    memset(&err, 0, sizeof err);
    if (nowhere == NULL) {
        nowhere = fopen("/dev/null", "w");
    }
    if (nowhere == NULL) {
        return 0;
    }
    if (io_age_merge(&path, 1, &result, &err) == PB_OK) {
        if (io_age_print(nowhere, result, 1) != PB_OK ||
            io_age_print(nowhere, result, 0) != PB_OK) {
            abort();
        }
        io_age_free(result);
    } else {
        fuzz_check_line(&err);
    }
    return 0;
}
