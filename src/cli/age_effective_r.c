/*
 * Where the heat solver joins ageing: the effective R of an aged bay by heat_bay.h, at a grid fit
 * for many draws. Strips run one after the other here; draws already fill the cores.
 */
#include "age.h"

#include "core/heat_bay.h"

static PbStatus r_of_bay(void *user, const PbAgedBay *bay, double *r_m2k_w)
{
    (void)user;
    PbHeatBaySetup setup = pb_heat_bay_default(&bay->field);
    PbAllocator memory = pb_allocator_default();
    PbConstants constants = pb_constants_default();
    PbHeatBay *heat;
    setup.strips = 4;
    setup.map_nx = setup.map_ny = 0;
    PB_TRY(pb_heat_bay_solve(&setup, &constants, &memory, &heat, NULL));
    *r_m2k_w = pb_heat_bay_result(heat)->r_m2k_w;
    pb_heat_bay_destroy(heat);
    return PB_OK;
}

const PbEffectiveR *age_effective_r(void)
{
    static const PbEffectiveR heat = {r_of_bay, NULL};
    return &heat;
}
