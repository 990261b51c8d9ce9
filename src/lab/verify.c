/* The three shapes of a check row. */
#include "lab/verify.h"

#include <math.h>

void verify_range(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                  const char *source, double published, double ours, double low, double high)
{
    VerifyRow row = {id, quantity, unit, published, source, ours, low, high};
    sink->emit(sink->user, &row);
}

void verify_abs(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                const char *source, double published, double ours, double absolute)
{
    verify_range(sink, id, quantity, unit, source, published, ours, published - absolute,
                 published + absolute);
}

void verify_rel(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                const char *source, double published, double ours, double relative)
{
    verify_abs(sink, id, quantity, unit, source, published, ours, fabs(published) * relative);
}
