/* Between output_file.c and output_rule.c. */
#ifndef IO_OUTPUT_RULE_H
#define IO_OUTPUT_RULE_H

#include "io/output_file.h"

/* May a file of this kind be put at this path? PB_OK or PB_ERR_RANGE. */
PB_NODISCARD PbStatus output_rule(const char *path, const char *begins, PbError *err);

#endif
