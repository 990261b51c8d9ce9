/* Which exercises came with the program: known by what they are, not by their name. */
#ifndef CLI_SHIPPED_H
#define CLI_SHIPPED_H

#include <stdint.h>

/* Nonzero when no shipped exercise has this hash (io_exercise_hash); 0 = not noted, and where no
 * exercises are found nothing can be said. */
int cli_is_own_exercise(uint64_t hash);

#endif
