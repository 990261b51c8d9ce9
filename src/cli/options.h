/* Small things that the command lines of many verbs have in common. */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

/* The word after an option that takes one; NULL when argv[*i] is not that option. */
const char *cli_word_after(int argc, char **argv, int *i, const char *option);
/* An output must be neither an input nor another output: it would take the place of that file. NULL
 * = not given. CLI_DONE, or CLI_USAGE after a complaint. */
int cli_check_outputs(const char *verb, const char *const *outputs, int output_count,
                      const char *const *inputs, int input_count);

#endif
