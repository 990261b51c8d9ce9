/* Between age_result.c and age_shard.c: a result is a JSON object. */
#ifndef IO_AGE_RESULT_PRIVATE_H
#define IO_AGE_RESULT_PRIVATE_H

#include "io/age_result.h"

#include <jansson.h>

struct IoAgeResult {
    json_t *json;
};

/* List of numbers, one every stride; NaN and infinity become null. */
json_t *age_array(const double *values, int count, int stride);

#endif
