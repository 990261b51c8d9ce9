/* Names of the result codes and the one way to fill an error. */
#include "core/status.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *pb_status_name(PbStatus status)
{
    switch (status) {
    case PB_OK:
        return "ok";
    case PB_ERR_RANGE:
        return "out of range";
    case PB_ERR_FORMAT:
        return "bad format";
    case PB_ERR_IO:
        return "file trouble";
    case PB_ERR_MEMORY:
        return "out of memory";
    case PB_ERR_STATE:
        return "not possible now";
    case PB_ERR_NO_RESULT:
        return "no result";
    case PB_ERR_DIVERGED:
        return "diverged";
    }
    return "unknown status";
}

PbStatus pb_fail(PbError *err, PbStatus status, const char *format, ...)
{
    if (err != NULL) {
        va_list args;
        err->status = status;
        va_start(args, format);
        (void)vsnprintf(err->message, sizeof err->message, format, args);
        va_end(args);
    }
    return status;
}
