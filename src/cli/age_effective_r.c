/*
 * Where the heat solver joins ageing. To have `age` print the effective R of aged bays, give here
 * the address of a static PbEffectiveR whose of_bay maps a PbAgedBay (densities and void_frac on
 * the grid of the bay) to m2 K/W. It is called from several threads and must not share state.
 */
#include "age.h"

const PbEffectiveR *age_effective_r(void)
{
    return NULL;
}
