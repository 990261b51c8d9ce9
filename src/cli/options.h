/* Small things that the command lines of many verbs have in common. */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include "io/output_file.h"
#include "io/taste.h"

/* The word after an option that takes one; NULL when argv[*i] is not that option. */
const char *cli_word_after(int argc, char **argv, int *i, const char *option);
/* The value of --lang. CLI_DONE, or CLI_USAGE after a complaint. */
int cli_language(const char *verb, const char *value, IoReaderTaste *reader);
/* Before any work: what io/output_file.h says of outputs, the person's store taken as known.
 * CLI_DONE, or CLI_BAD_INPUT after a complaint. */
int cli_check_outputs(const IoPlace *outputs, int output_count, const char *const *inputs,
                      int input_count);

#endif
