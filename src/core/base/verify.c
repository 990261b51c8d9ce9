/* The three shapes of a check row. */
#include "core/verify.h"

#include <math.h>

void pb_verify_range(const PbVerifySink *sink, const char *id, const char *quantity,
                     const char *unit, const char *source, double published, double ours,
                     double low, double high)
{
    PbVerifyRow row = {id, quantity, unit, published, source, ours, low, high};
    sink->emit(sink->user, &row);
}

void pb_verify_abs(const PbVerifySink *sink, const char *id, const char *quantity, const char *unit,
                   const char *source, double published, double ours, double absolute)
{
    pb_verify_range(sink, id, quantity, unit, source, published, ours, published - absolute,
                    published + absolute);
}

void pb_verify_rel(const PbVerifySink *sink, const char *id, const char *quantity, const char *unit,
                   const char *source, double published, double ours, double relative)
{
    pb_verify_abs(sink, id, quantity, unit, source, published, ours, fabs(published) * relative);
}
