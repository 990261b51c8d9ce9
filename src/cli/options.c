/* What options.h promises. */
#include "options.h"

#include "cli/front.h"
#include "store/store.h"

#include <string.h>

const char *cli_word_after(int argc, char **argv, int *i, const char *option)
{
    if (strcmp(argv[*i], option) != 0 || *i + 1 >= argc) {
        return NULL;
    }
    return argv[++*i];
}

int cli_language(const char *verb, const char *value, IoReaderTaste *reader)
{
    char codes[64];
    return io_taste_language(reader, value) ? CLI_DONE
                                            : cli_usage(verb, "--lang \"%s\": expected %s", value,
                                                        words_codes(codes, sizeof codes));
}

int cli_check_outputs(const IoPlace *outputs, int output_count, const char *const *inputs,
                      int input_count)
{
    PbError err = {0};
    char store[700];
    if (store_default_path(store, sizeof store, &err) == PB_OK) {
        io_output_protect(store);
    }
    if (io_outputs_check(outputs, output_count, inputs, input_count, &err) != PB_OK) {
        return cli_report(&err);
    }
    return CLI_DONE;
}
