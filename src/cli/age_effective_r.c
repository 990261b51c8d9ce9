/* Where the heat solver joins ageing: the shared setup of core/aged_heat.h with its defaults. */
#include "age.h"

#include "core/aged_heat.h"

const PbEffectiveR *age_effective_r(void)
{
    static const PbEffectiveR heat = {pb_aged_r, NULL};
    return &heat;
}
