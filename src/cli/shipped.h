/* Which exercises came with the program: known by what they are, not by their name. */
#ifndef CLI_SHIPPED_H
#define CLI_SHIPPED_H

#include "core/status.h"

#include <stdint.h>

/* Reads the shipped exercises; before the first question. PB_OK, also where there are none;
 * PB_ERR_MEMORY. */
PbStatus cli_shipped_read(PbError *err);

/* Nonzero when no shipped exercise has this hash (io_exercise_hash); 0 = not noted, and where no
 * exercises are found nothing can be said. */
int cli_is_own_exercise(uint64_t hash);
/* The same, as a reader of records asks (store/records.h). `user` is not used. */
int cli_is_own(const void *user, uint64_t hash);

#endif
