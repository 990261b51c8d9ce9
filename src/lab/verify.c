/* The shapes of a check row and the judgement over one. */
#include "lab/verify.h"

#include <math.h>

const char *const verify_kind_words[VERIFY_KINDS] = {
    "exact",     "published calculation", "own code", "held out", "in sight", "calibrated",
    "own target"};

VerifyVerdict verify_judge(const VerifyRow *row)
{
    int inside =
        isfinite(row->ours) && row->ours >= row->accept_low && row->ours <= row->accept_high;
    if (row->against == NULL) {
        return inside ? VERIFY_OK : VERIFY_FAIL;
    }
    return isfinite(row->ours) && !inside ? VERIFY_AGAINST : VERIFY_FAIL;
}

void verify_row(const VerifySink *sink, const VerifyRow *row)
{
    sink->emit(sink->user, row);
}

void verify_within(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                   VerifySource source, double low, double high, double ours)
{
    verify_row(sink, &(VerifyRow){id, quantity, unit, source, low, high, ours, low, high, NULL});
}

void verify_abs(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                VerifySource source, double reference, double ours, double absolute)
{
    verify_row(sink, &(VerifyRow){id, quantity, unit, source, reference, reference, ours,
                                  reference - absolute, reference + absolute, NULL});
}

void verify_rel(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                VerifySource source, double reference, double ours, double relative)
{
    verify_abs(sink, id, quantity, unit, source, reference, ours, fabs(reference) * relative);
}
