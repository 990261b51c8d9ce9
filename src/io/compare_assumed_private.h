/* Private to io: between compare_assumed_words.c and compare_constant_words.c. */
#ifndef IO_COMPARE_ASSUMED_PRIVATE_H
#define IO_COMPARE_ASSUMED_PRIVATE_H

#include "io/compare_words.h"

/* A unit of the constants file and what readers get: value times the factor. */
typedef struct AssumedUnit {
    const char *unit;
    double si_factor;
    const char *si;
    double us_factor;
    const char *us;
} AssumedUnit;

/* NULL: no such unit ("-", "days", "years"). */
const AssumedUnit *assumed_constant_unit(const char *unit);
/* The key itself where there is no name; a test asks that there is one for each. */
const char *assumed_constant_name(const char *key, int language);

#endif
