/* The smallest uniform density that does not settle: bisection over whole runs. */
#include "core/settle.h"

#include <stddef.h>

static PbStatus gap_of(PbBayField *bay, const PbSettleConfig *config, double kg_m3, double years,
                       double *gap_m, PbError *err)
{
    PbSettle *s;
    PbSettleReport r;
    size_t n = (size_t)bay->nx * (size_t)bay->ny;
    for (size_t i = 0; i < n; i++) {
        double rho = bay->free_frac[i] > 0.0 ? kg_m3 : 0.0;
        bay->density_kg_m3[i] = rho;
        bay->density_past_kg_m3[i] = rho;
        bay->lateral_pa[i] = 0.0;
    }
    PB_TRY(pb_settle_create(bay, config, &s, err));
    PbStatus status = pb_settle_advance(s, years);
    pb_settle_report(s, &r);
    pb_settle_destroy(s);
    *gap_m = r.top_gap_m;
    return status == PB_OK ? PB_OK : pb_fail(err, status, "the run to %g years failed", years);
}

PbStatus pb_settle_threshold(const PbBayField *bay, const PbSettleConfig *config, double years,
                             double *kg_m3, PbError *err)
{
    PbBayField work;
    double gap, low = 30.0, high = 120.0;
    if (!(years > 0.0 && years <= PB_SETTLE_MAX_YEARS)) {
        return pb_fail(err, PB_ERR_RANGE, "%g years is out of range, expected more than 0 to %g",
                       years, PB_SETTLE_MAX_YEARS);
    }
    PB_TRY(pb_settle_check(bay, err));
    if (pb_bay_field_create(bay->nx, bay->ny, bay->width_m, bay->height_m, bay->depth_m, &work) !=
        PB_OK) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    work.tilt_deg = bay->tilt_deg;
    work.fill_rh_frac = bay->fill_rh_frac;
    for (size_t i = 0; i < (size_t)bay->nx * (size_t)bay->ny; i++) {
        work.free_frac[i] = bay->free_frac[i];
        work.batt_frac[i] = bay->batt_frac[i];
    }
    PbStatus status = gap_of(&work, config, high, years, &gap, err);
    if (status == PB_OK && gap > PB_SETTLE_THRESHOLD_GAP_M) {
        status = pb_fail(err, PB_ERR_NO_RESULT, "even %g kg/m3 settles more than 5 mm", high);
    }
    if (status == PB_OK) {
        status = gap_of(&work, config, low, years, &gap, err);
        if (status == PB_OK && gap <= PB_SETTLE_THRESHOLD_GAP_M) {
            status = pb_fail(err, PB_ERR_NO_RESULT,
                             "nothing from %g kg/m3 up settles more than 5 mm", low);
        }
    }
    while (status == PB_OK && high - low > 0.01) {
        double middle = 0.5 * (low + high);
        status = gap_of(&work, config, middle, years, &gap, err);
        if (gap > PB_SETTLE_THRESHOLD_GAP_M) {
            low = middle;
        } else {
            high = middle;
        }
    }
    pb_bay_field_destroy(&work);
    if (status == PB_OK) {
        *kg_m3 = high;
    }
    return status;
}
