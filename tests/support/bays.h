/* Bays and runs that several settling tests share. Every failure fails the calling test. */
#ifndef SUPPORT_BAYS_H
#define SUPPORT_BAYS_H

#include "core/settle.h"
#include "suite.h"

static inline PbBayField bay_uniform(int nx, int ny, double kg_m3)
{
    PbBayField bay;
    ck_assert_int_eq(pb_bay_field_create(nx, ny, 0.368, 2.4, 0.089, &bay), PB_OK);
    pb_bay_field_fill(&bay, kg_m3);
    return bay;
}

static inline void bay_set(PbBayField *bay, int i, int j, double kg_m3)
{
    size_t c = (size_t)j * (size_t)bay->nx + (size_t)i;
    bay->density_kg_m3[c] = kg_m3;
    bay->density_past_kg_m3[c] = kg_m3;
}

static inline void bay_block(PbBayField *bay, int i, int j)
{
    bay_set(bay, i, j, 0.0);
    bay->free_frac[(size_t)j * (size_t)bay->nx + (size_t)i] = 0.0;
}

static inline PbSettle *settle_of(const PbBayField *bay, const PbSettleConfig *config)
{
    PbSettle *s;
    PbError err = {0};
    PbStatus status = pb_settle_create(bay, config, &s, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    return s;
}

static inline PbSettleReport settle_after(const PbBayField *bay, const PbSettleConfig *config,
                                          double years)
{
    PbSettleReport r;
    PbSettle *s = settle_of(bay, config);
    ck_assert_int_eq(pb_settle_advance(s, years), PB_OK);
    pb_settle_report(s, &r);
    pb_settle_destroy(s);
    /* Holds for every run of every test: rounding of some thousand slices, nothing more. */
    ck_assert_msg(r.mass_error < 1e-12, "mass error %g", r.mass_error);
    ck_assert_msg(r.height_error < 1e-12, "height error %g", r.height_error);
    return r;
}

/* Top gap of a uniform 2x4 bay after these years, mm. */
static inline double gap_mm(double kg_m3, const PbSettleConfig *config, double years)
{
    PbBayField bay = bay_uniform(1, 96, kg_m3);
    double gap = 1e3 * settle_after(&bay, config, years).top_gap_m;
    pb_bay_field_destroy(&bay);
    return gap;
}

#endif
