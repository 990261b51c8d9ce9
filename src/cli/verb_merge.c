/* merge: join the shards that `age --spread N --shard I/N` or `VERB --cases T --shard I/N` wrote,
 * on one machine or on many. */
#include "cases.h"
#include "verbs.h"

#include "io/age_result.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int print_whole(const char *const *paths, int count, int as_json)
{
    PbError err = {0};
    IoAgeResult *whole = NULL;
    PbStatus status = io_age_merge(paths, count, &whole, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    status = io_age_print(stdout, whole, as_json);
    io_age_free(whole);
    return cli_printed(status);
}

int verb_merge(int argc, char **argv)
{
    int as_json = 0, as_csv = 0, files = 0;
    const char **paths = calloc((size_t)argc, sizeof *paths);
    if (paths == NULL) {
        return cli_printed(PB_ERR_MEMORY);
    }
    int code = -1;
    for (int i = 1; i < argc && code < 0; i++) {
        if (strcmp(argv[i], "--json") == 0) {
            as_json = 1;
        } else if (strcmp(argv[i], "--csv") == 0) {
            as_csv = 1;
        } else if (strncmp(argv[i], "--", 2) == 0) {
            code = cli_usage("merge", "unknown option \"%s\", expected files, --json or --csv",
                             argv[i]);
        } else {
            paths[files++] = argv[i];
        }
    }
    if (code < 0) {
        code = files == 0                ? cli_usage("merge", "expected the files of all shards")
               : cases_is_rows(paths[0]) ? cases_merge(paths, files, as_csv)
               : as_csv                  ? cli_usage("merge", "--csv is for rows of --cases tables")
                                         : print_whole(paths, files, as_json);
    }
    free(paths);
    return code;
}
