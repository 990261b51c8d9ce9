/* Private to io: JSON objects filled key by key. Memory that runs out is remembered and asked for
 * once, at the end. */
#ifndef IO_JSON_MAKER_H
#define IO_JSON_MAKER_H

#include "core/view.h"

#include <jansson.h>

/* An object being filled; failed stays set once memory has run out. */
typedef struct JsonMaker {
    json_t *object;
    int failed;
} JsonMaker;

JsonMaker json_maker(void);
void json_put(JsonMaker *m, const char *key, json_t *value);
/* What is no number becomes null. */
void json_put_number(JsonMaker *m, const char *key, double value);
void json_put_whole(JsonMaker *m, const char *key, long long value);
/* A finished object into a list, or its failure into *failed. */
void json_put_item(json_t *list, JsonMaker *m, int *failed);
/* The object, or NULL when memory ran out on the way. */
json_t *json_made(JsonMaker *m);
/* What every list of lifts says of one. */
JsonMaker json_lift(const PbLift *lift);

#endif
