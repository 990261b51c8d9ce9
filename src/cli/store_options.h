/* What the verbs on the store share: the database, the person, a question. */
#ifndef CLI_STORE_OPTIONS_H
#define CLI_STORE_OPTIONS_H

#include "store/store.h"

/* A whole number from 1. */
int cli_read_id(const char *text, int64_t *id);
/* A learner by name; by number when nobody has that name. */
PB_NODISCARD PbStatus cli_find_learner(Store *store, const char *text, StoreLearner *learner,
                                       PbError *err);
/* Print the question, read a line; nonzero only for "yes" or "y". */
int cli_confirm(const char *question);
/* After something was deleted: says so when its bytes cannot be overwritten yet. */
void cli_say_remains(const Store *store);
/* As cli_report; "there is no such row" is an answer of no, and what another program is recording
 * is trouble with a file. */
int cli_store_report(const PbError *err, PbStatus status);

#endif
