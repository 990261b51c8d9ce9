/* Private to the core: how a judgement of what a file holds complains: at the path of a value, in a
 * sentence. */
#ifndef BASE_COMPLAINT_H
#define BASE_COMPLAINT_H

#include "core/status.h"

/* Where a complaint goes: path of the value, and the message. */
typedef struct PbComplaint {
    char *field; /* caller's array of `size` chars */
    size_t size;
    PbError *err; /* may be NULL */
} PbComplaint;

/* PB_ERR_RANGE, with `path` and the message filled in. */
PbStatus pb_complain(const PbComplaint *c, const char *path, const char *format, ...)
    PB_PRINTF(3, 4);
/* PB_OK when the value is in low..high; else a complaint that calls it `name`. NaN is refused. */
PbStatus pb_complain_range(const PbComplaint *c, const char *path, const char *name, double value,
                           const double range[2], const char *unit);

#endif
