/* What a material file holds: core/product.h. */
#include "core/product.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static const char *const carriers[] = {"sigma45_pa_s_m2", "sigma_exponent", "compaction_ref_pa",
                                       "lateral_ratio",   "wall_friction",  "tuft_size_m",
                                       "solids_loss",     "entry_shape"};
_Static_assert(sizeof carriers / sizeof carriers[0] == PB_CARRIERS, "as the header says");

const char *pb_carrier(int i)
{
    assert(i >= 0 && i < PB_CARRIERS);
    return carriers[i];
}

const PbConstantInfo *pb_carrier_info(int i)
{
    return pb_constant_find(pb_carrier(i));
}

PbProduct pb_product_default(void)
{
    PbProduct p;
    memset(&p, 0, sizeof p);
    snprintf(p.id, sizeof p.id, "cellulose");
    snprintf(p.title, sizeof p.title, "Blown cellulose");
    p.bag_kg = 11.34; /* 25 lb */
    p.constants = pb_constants_default();
    return p;
}

/* The fill itself, and the two of machine and hose that go with its tufts. */
int pb_product_has(const PbConstantInfo *info)
{
    for (int i = 0; i < PB_CARRIERS; i++) {
        if (strcmp(info->name, carriers[i]) == 0) {
            return 1;
        }
    }
    return strcmp(info->group, "material") == 0 && info->low < info->high;
}

PbConstants pb_product_drawn(const PbProduct *product, const PbConstants *base, int draw)
{
    assert(product != NULL && base != NULL);
    assert(draw >= 0 && draw < product->draw_count);
    PbConstants drawn = *base;
    for (int i = 0; i < PB_CARRIERS; i++) {
        *pb_constant_at(&drawn, pb_carrier_info(i)) = product->draw[draw][i];
    }
    pb_product_follow(&drawn, base);
    return drawn;
}

void pb_product_follow(PbConstants *constants, const PbConstants *base)
{
    assert(constants != NULL && base != NULL);
    constants->settle_rate_pa *= base->wall_friction * base->lateral_ratio /
                                 (constants->wall_friction * constants->lateral_ratio);
}
