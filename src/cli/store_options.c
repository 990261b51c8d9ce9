/* The small things that learners and runs have in common. */
#include "store_options.h"

#include "cli/front.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int cli_read_id(const char *text, int64_t *id)
{
    char *end;
    if (text[0] < '1' || text[0] > '9') {
        return 0;
    }
    errno = 0;
    long long v = strtoll(text, &end, 10);
    *id = v;
    return errno == 0 && *end == '\0';
}

PbStatus cli_find_learner(Store *store, const char *text, StoreLearner *learner, PbError *err)
{
    int64_t id;
    PbStatus status = store_learner_find(store, text, learner, err);
    if (status != PB_ERR_NO_RESULT || !cli_read_id(text, &id)) {
        return status;
    }
    StoreLearner *list = NULL;
    int count = 0;
    PB_TRY(store_learner_list(store, &list, &count, err));
    for (int i = 0; i < count; i++) {
        if (list[i].id == id) {
            *learner = list[i];
            status = PB_OK;
        }
    }
    free(list);
    return status;
}

int cli_confirm(const char *question)
{
    char answer[16];
    printf("%s [yes/no] ", question);
    fflush(stdout);
    if (fgets(answer, sizeof answer, stdin) == NULL) {
        printf("\n");
        return 0;
    }
    answer[strcspn(answer, "\r\n")] = '\0';
    return strcmp(answer, "yes") == 0 || strcmp(answer, "y") == 0;
}

int cli_store_report(const PbError *err, PbStatus status)
{
    int code = cli_report(err);
    return status == PB_ERR_NO_RESULT ? CLI_NO : status == PB_ERR_STATE ? CLI_IO : code;
}

void cli_say_remains(const Store *store)
{
    if (store_remains(store)) {
        printf("another program is reading the store: bytes of what was deleted stay in %s and the "
               "files beside it until it lets go; the next opening after that overwrites them\n",
               store_path(store));
    }
}
