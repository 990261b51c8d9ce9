/* Complaints of the judges of files. */
#include "base/complaint.h"

#include <stdarg.h>
#include <stdio.h>

PbStatus pb_complain(const PbComplaint *c, const char *path, const char *format, ...)
{
    snprintf(c->field, c->size, "%s", path);
    if (c->err != NULL) {
        va_list args;
        va_start(args, format);
        (void)vsnprintf(c->err->message, sizeof c->err->message, format, args);
        va_end(args);
        c->err->status = PB_ERR_RANGE;
    }
    return PB_ERR_RANGE;
}

PbStatus pb_complain_range(const PbComplaint *c, const char *path, const char *name, double value,
                           const double range[2], const char *unit)
{
    if (value >= range[0] && value <= range[1]) {
        return PB_OK;
    }
    return pb_complain(c, path, "\"%s\": %g is out of range, expected %g to %g %s", name, value,
                       range[0], range[1], unit);
}
