/* Judgement of what was measured on the day: see core/proof.h. */
#include "core/proof.h"

#include "base/complaint.h"

#include <assert.h>
#include <stdio.h>

static PbStatus number(const PbComplaint *c, const char *path, double value, double low,
                       double high, const char *unit)
{
    char full[64];
    snprintf(full, sizeof full, "proof/%s", path);
    return pb_complain_range(c, full, path, value, (const double[2]){low, high}, unit);
}

static PbStatus check_picture(const PbComplaint *c, const char *path, const PbProofPicture *p)
{
    char full[40];
    snprintf(full, sizeof full, "%s/air_k", path);
    PB_TRY(number(c, full, p->air_k, 0.0, 80.0, "K"));
    snprintf(full, sizeof full, "%s/stripe_k", path);
    return number(c, full, p->stripe_k, 0.0, p->air_k < 40.0 ? p->air_k : 40.0,
                  "K, at most the difference of the airs");
}

PbStatus pb_proof_check(const PbProof *p, char *path, size_t size, PbError *err)
{
    assert(p != NULL && path != NULL && size > 0);
    PbComplaint c = {path, size, err};
    char full[24];
    if (p->area_m2 != 0.0 || p->bags != 0.0 || p->bag_kg != 0.0) {
        PB_TRY(number(&c, "bags/area_m2", p->area_m2, 0.5, 5000.0, "m2"));
        PB_TRY(number(&c, "bags/count", p->bags, 0.1, 5000.0, "bags"));
        PB_TRY(number(&c, "bags/bag_kg", p->bag_kg, 1.0, 50.0, "kg"));
    }
    PB_TRY(number(&c, "cores_kg_m3", (double)p->core_count, 0.0, PB_PROOF_CORES, "cores"));
    for (int i = 0; i < p->core_count; i++) {
        snprintf(full, sizeof full, "cores_kg_m3/%d", i);
        PB_TRY(number(&c, full, p->core_kg_m3[i], 5.0, 200.0, "kg/m3"));
    }
    PB_TRY(check_picture(&c, "camera/before", &p->before));
    PB_TRY(check_picture(&c, "camera/after", &p->after));
    if (p->leak_before_m3_s != 0.0 || p->leak_after_m3_s != 0.0) {
        PB_TRY(number(&c, "leak_m3_s/before", p->leak_before_m3_s, 0.005, 20.0, "m3/s"));
        PB_TRY(number(&c, "leak_m3_s/after", p->leak_after_m3_s, 0.005, 20.0, "m3/s"));
    }
    return PB_OK;
}

int pb_proof_has_any(const PbProof *p)
{
    assert(p != NULL);
    return p->bags > 0.0 || p->core_count > 0 || p->before.air_k > 0.0 || p->after.air_k > 0.0 ||
           p->leak_before_m3_s > 0.0;
}
