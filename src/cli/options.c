/* What options.h promises. */
#include "options.h"

#include "verbs.h"

#include <string.h>
#include <sys/stat.h>

const char *cli_word_after(int argc, char **argv, int *i, const char *option)
{
    if (strcmp(argv[*i], option) != 0 || *i + 1 >= argc) {
        return NULL;
    }
    return argv[++*i];
}

/* By another way round ("./a", a link) it is still the same file. Of a device or a pipe nothing is
 * lost when it is named twice. */
static int is_same_file(const char *a, const char *b)
{
    struct stat one, other;
    if (stat(a, &one) != 0 || stat(b, &other) != 0) {
        return strcmp(a, b) == 0;
    }
    return S_ISREG(one.st_mode) && one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

int cli_check_outputs(const char *verb, const char *const *outputs, int output_count,
                      const char *const *inputs, int input_count)
{
    for (int i = 0; i < output_count; i++) {
        for (int k = 0; k < input_count + i && outputs[i] != NULL; k++) {
            const char *other = k < input_count ? inputs[k] : outputs[k - input_count];
            if (other != NULL && is_same_file(outputs[i], other)) {
                return cli_usage(verb, "\"%s\" is named twice, an output would replace it",
                                 outputs[i]);
            }
        }
    }
    return CLI_DONE;
}
