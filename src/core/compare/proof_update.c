/* The prediction of a measured house: the dense pack worked out again with the measured density. */
#include "core/proof_reading.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* 8 of 10 of a normal distribution lie within this many standard deviations; a 95 % interval is two
 * wide on either side. */
static const double eight_of_ten = 1.2816, of_interval = 0.5;

typedef struct Work {
    PbHeatParallel parallel;
    void *parallel_user;
    int (*is_stopped)(void *user);
    void *user;
    PbCompare *compare;
    int *piece;
    PbStatus *status;
} Work;

static void run_one(void *context, int index)
{
    Work *w = context;
    int is_over = w->is_stopped != NULL && w->is_stopped(w->user);
    w->status[index] = is_over ? PB_ERR_STATE : pb_compare_run(w->compare, w->piece[index], NULL);
}

/* What the dense pack and the wall as it is need, and no more: all that can run, until nothing can.
 */
static PbStatus run_dense(Work *w, PbCompare *c)
{
    w->compare = c;
    for (;;) {
        int count = 0;
        for (int n = 0; n < pb_compare_piece_count(c); n++) {
            PbCompareFill fill = pb_compare_piece(c, n).fill;
            if ((fill == PB_COMPARE_EMPTY || fill == PB_COMPARE_DENSE) &&
                pb_compare_can_run(c, n)) {
                w->piece[count++] = n;
            }
        }
        if (count == 0) {
            return PB_OK;
        }
        if (w->parallel != NULL) {
            w->parallel(w->parallel_user, count, run_one, w);
        }
        for (int i = 0; i < count; i++) {
            if (w->parallel == NULL) {
                run_one(w, i);
            }
            PB_TRY(w->status[i]);
        }
    }
}

static PbStatus run(Work *w, const PbCompareSetup *setup, PbCompare **compare, PbError *err)
{
    const PbAllocator *memory = &setup->allocator;
    PbCompare *c;
    PB_TRY(pb_compare_create(setup, &c, err));
    size_t room = (size_t)pb_compare_piece_count(c) * (sizeof(int) + sizeof(PbStatus));
    void *block = memory->alloc(memory->user, room);
    PbStatus status = PB_ERR_MEMORY;
    if (block != NULL) {
        w->status = block;
        w->piece = (int *)(void *)(w->status + pb_compare_piece_count(c));
        status = run_dense(w, c);
        memory->free(memory->user, block);
    }
    if (status != PB_OK) {
        pb_compare_destroy(c);
        return pb_fail(err, status,
                       status == PB_ERR_STATE ? "stopped" : "the update has no answer");
    }
    *compare = c;
    return PB_OK;
}

static void read_time(const PbCompare *c, int t, PbProofTime *out)
{
    PbCompareFigures f;
    pb_compare_figures(c, PB_COMPARE_DENSE, t, &f);
    out->years = f.years;
    out->r_m2k_w = f.r_m2k_w;
    out->top_gap_m = f.top_gap_m;
    pb_compare_saving(c, PB_COMPARE_DENSE, t, &out->saving);
}

/* The packed bay of the prediction at another mean density. */
static PbStatus scaled_bay(const PbCompare *predicted, double mean_kg_m3, PbBayField *field)
{
    const PbHouse *h = &pb_compare_setup(predicted)->house;
    PbComparePicture p = pb_compare_density(predicted, PB_COMPARE_DENSE, 0);
    const PbBayField *bay = pb_compare_bay(predicted);
    PbCompareFigures f;
    pb_compare_figures(predicted, PB_COMPARE_DENSE, 0, &f);
    PB_TRY(pb_bay_field_create(p.nx, p.ny, h->bay.width_m, h->bay.height_m, h->bay.depth_m, field));
    field->tilt_deg = bay->tilt_deg;
    field->fill_rh_frac = bay->fill_rh_frac;
    for (int i = 0; i < p.nx * p.ny; i++) {
        int is_same = p.nx == bay->nx && p.ny == bay->ny;
        double kg_m3 = (double)p.values[i] * mean_kg_m3 / f.mean_kg_m3;
        field->density_kg_m3[i] = field->density_past_kg_m3[i] = kg_m3;
        field->free_frac[i] = is_same ? bay->free_frac[i] : 1.0;
        field->batt_frac[i] = is_same ? bay->batt_frac[i] : 0.0;
    }
    return PB_OK;
}

/* Deviations that do not hang together add by their squares (JCGM 100:2008, 5.1.2). */
static PbHeatRange widened(PbHeatRange r, double a, double b)
{
    double low = r.mid - r.low, high = r.high - r.mid;
    double down = fmax(0.0, r.mid - fmin(a, b)), up = fmax(0.0, fmax(a, b) - r.mid);
    return (PbHeatRange){r.mid - sqrt(low * low + down * down), r.mid,
                         r.mid + sqrt(high * high + up * up)};
}

static void widen(PbProofTime *t, const PbProofTime *a, const PbProofTime *b)
{
    t->r_m2k_w = widened(t->r_m2k_w, a->r_m2k_w.mid, b->r_m2k_w.mid);
    t->top_gap_m = widened(t->top_gap_m, a->top_gap_m.mid, b->top_gap_m.mid);
    t->top_gap_m.low = fmax(0.0, t->top_gap_m.low);
    t->saving.units = widened(t->saving.units, a->saving.units.mid, b->saving.units.mid);
    t->saving.money = widened(t->saving.money, a->saving.money.mid, b->saving.money.mid);
}

static PbStatus measure(Work *w, const PbCompareSetup *s, const PbCompare *predicted, double kg_m3,
                        PbProofTime out[2], PbError *err)
{
    PbBayField own;
    PbCompare *c;
    PbStatus status = scaled_bay(predicted, kg_m3, &own);
    if (status != PB_OK) {
        return pb_fail(err, status, "no room for the measured bay");
    }
    PbCompareSetup as_measured = *s;
    as_measured.own = &own;
    as_measured.house.dense = PB_DENSE_OWN;
    status = run(w, &as_measured, &c, err);
    pb_bay_field_destroy(&own);
    PB_TRY(status);
    read_time(c, 0, &out[0]);
    read_time(c, 1, &out[1]);
    pb_compare_destroy(c);
    return PB_OK;
}

static PbStatus update_all(Work *w, PbCompareSetup *s, const PbCompare *predicted,
                           const PbHeatRange *density, PbProofUpdate *u, PbError *err)
{
    PbProofTime soft[2], firm[2];
    double half = eight_of_ten * of_interval * (density->high - density->mid);
    for (int k = 0; k < 2; k++) {
        read_time(predicted, k, &u->predicted[k]);
    }
    PB_TRY(measure(w, s, predicted, density->mid, u->measured, err));
    s->draws = 0;
    PB_TRY(measure(w, s, predicted, fmax(density->mid - half, 5.0), soft, err));
    PB_TRY(measure(w, s, predicted, density->mid + half, firm, err));
    for (int k = 0; k < 2; k++) {
        widen(&u->measured[k], &soft[k], &firm[k]);
    }
    return PB_OK;
}

PbStatus pb_proof_update(const PbCompareSetup *setup, double years, PbHeatParallel parallel,
                         void *parallel_user, int (*is_stopped)(void *user), void *user,
                         PbProofUpdate *update, PbError *err)
{
    assert(setup != NULL && update != NULL && years > 0.0);
    Work w = {parallel, parallel_user, is_stopped, user, NULL, NULL, NULL};
    PbCompareSetup s = *setup;
    PbProofReading reading;
    PbProofUpdate u;
    PbCompare *predicted;
    memset(&u, 0, sizeof u);
    pb_proof_read(&s.house, &s.constants, &reading);
    if (!(reading.kg_m3.mid > 0.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "no density was measured that the prediction could go by");
    }
    s.years[0] = 0.0;
    s.years[1] = years;
    s.year_count = 2;
    s.frames_between = 0;
    u.draws = s.draws;
    PB_TRY(run(&w, &s, &predicted, err));
    PbStatus status = update_all(&w, &s, predicted, &reading.kg_m3, &u, err);
    pb_compare_destroy(predicted);
    if (status == PB_OK) {
        *update = u;
    }
    return status;
}
