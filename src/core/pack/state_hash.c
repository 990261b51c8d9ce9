/*
 * What each member of the state is, and the hash over those that a step hands to the next. The sum
 * of the sizes below is the size of PbSim, so the struct has no padding in which a member could
 * stand unseen, and one that is not listed here does not compile. tests/unit/test_state_hash.c
 * changes every hashed number and spoils everything that is called scratch.
 */
#include "sim.h"

#include "core/hash.h"

#include <stddef.h>
#include <string.h>

#define ROWS_OF_RUN(X)                                                                             \
    X(ex, INPUT)                                                                                   \
    X(k, INPUT)                                                                                    \
    X(kernels, TOOL)                                                                               \
    X(seed, INPUT)                                                                                 \
    X(tick, INTS)                                                                                  \
    X(phase, INTS)                                                                                 \
    X(bleed_s, DOUBLES)                                                                            \
    X(nx, INPUT)                                                                                   \
    X(ny, INPUT)                                                                                   \
    X(stride, FIXED)                                                                               \
    X(cells, FIXED)                                                                                \
    X(dx, FIXED)                                                                                   \
    X(dy, FIXED)                                                                                   \
    X(inv_dx, FIXED)                                                                               \
    X(inv_dy, FIXED)                                                                               \
    X(gravity_along, FIXED)                                                                        \
    X(gravity_across, FIXED)

#define ROWS_OF_CELLS(X)                                                                           \
    X(phi0, FIXED)                                                                                 \
    X(phi, CELLS)                                                                                  \
    X(iphi, SCRATCH_CELLS)                                                                         \
    X(batt, FIXED)                                                                                 \
    X(tube, SCRATCH_CELLS)                                                                         \
    X(bow_m, CELLS)                                                                                \
    X(load_pa, SHOWN)                                                                              \
    X(gas_pa, CELLS)                                                                               \
    X(sigma, CELLS)                                                                                \
    X(mobility, SCRATCH_CELLS)                                                                     \
    X(leak, FIXED)                                                                                 \
    X(leak_now, CELLS)                                                                             \
    X(leak_kg_s, SCRATCH_CELLS)                                                                    \
    X(air_x, SCRATCH_CELLS)                                                                        \
    X(air_y, SCRATCH_CELLS)                                                                        \
    X(rate_a, SCRATCH_CELLS)                                                                       \
    X(mouth_w, SCRATCH_CELLS)                                                                      \
    X(fed_cells, SCRATCH)                                                                          \
    X(fibre_hold, SCRATCH_CELLS)                                                                   \
    X(opening_at, FIXED)                                                                           \
    X(side_kf, FIXED)                                                                              \
    X(solid.a, CELLS)                                                                              \
    X(solid.b, CELLS)                                                                              \
    X(solid.p, CELLS)                                                                              \
    X(solid.open_x, FIXED)                                                                         \
    X(solid.open_y, FIXED)                                                                         \
    X(solid.area_x, SCRATCH_CELLS)                                                                 \
    X(solid.area_y, SCRATCH_CELLS)                                                                 \
    X(step.a, FIXED)                                                                               \
    X(step.b, FIXED)                                                                               \
    X(step.rho, SCRATCH_SINGLES)                                                                   \
    X(step.rm, SCRATCH_SINGLES)                                                                    \
    X(step.p, SCRATCH_SINGLES)                                                                     \
    X(step.tot, SCRATCH_SINGLES)                                                                   \
    X(step.gx, SCRATCH_SINGLES)                                                                    \
    X(step.gy, SCRATCH_SINGLES)                                                                    \
    X(step.fa_x, SCRATCH_SINGLES)                                                                  \
    X(step.fb_x, SCRATCH_SINGLES)                                                                  \
    X(step.fa_y, SCRATCH_SINGLES)                                                                  \
    X(step.fb_y, SCRATCH_SINGLES)                                                                  \
    X(step.iphi, SCRATCH_SINGLES)                                                                  \
    X(step.gas, SCRATCH_SINGLES)                                                                   \
    X(step.open_x, FIXED)                                                                          \
    X(step.open_y, FIXED)                                                                          \
    X(step.area_x, SCRATCH_SINGLES)                                                                \
    X(step.area_y, SCRATCH_SINGLES)                                                                \
    X(step.t0_x, SCRATCH_SINGLES)                                                                  \
    X(step.t0_y, SCRATCH_SINGLES)                                                                  \
    X(step.kf_x, FIXED)                                                                            \
    X(step.kf_y, FIXED)                                                                            \
    X(step.mob_x, SCRATCH_SINGLES)                                                                 \
    X(step.mob_y, SCRATCH_SINGLES)                                                                 \
    X(step.fall, SCRATCH_SINGLES)                                                                  \
    X(solid_params, SCRATCH)                                                                       \
    X(row_live, SCRATCH)                                                                           \
    X(row_next, SCRATCH)                                                                           \
    X(band, SCRATCH)                                                                               \
    X(unit_pa, UNKNOWNS)                                                                           \
    X(memory_pa, UNKNOWNS)                                                                         \
    X(source_norm, DOUBLES)                                                                        \
    X(hole_conductance, DOUBLES)                                                                   \
    X(solved_mouth_y_m, DOUBLES)                                                                   \
    X(solved_s, DOUBLES)

#define ROWS_OF_VIEW(X)                                                                            \
    X(out_density, SHOWN)                                                                          \
    X(out_past, SHOWN)                                                                             \
    X(out_gas, SHOWN)                                                                              \
    X(out_phi, SHOWN)                                                                              \
    X(out_bow, SHOWN)                                                                              \
    X(out_load, SHOWN)                                                                             \
    X(out_leak, SHOWN)                                                                             \
    X(row_load, SCRATCH)                                                                           \
    X(sigma_table, FIXED)                                                                          \
    X(cv, FIXED)                                                                                   \
    X(leak_table, FIXED)                                                                           \
    X(dust_scale, FIXED)                                                                           \
    X(fillable_m3, FIXED)                                                                          \
    X(clock_s, TOOL)                                                                               \
    X(profile, TOOL)                                                                               \
    X(view, SHOWN)

#define ROWS_OF_RIG(X)                                                                             \
    X(hose.setting, DOUBLES)                                                                       \
    X(hose.feed_kg_s, DOUBLES)                                                                     \
    X(hose.is_on, INTS)                                                                            \
    X(hose.is_plugged, INTS)                                                                       \
    X(hose.spin, DOUBLES)                                                                          \
    X(hose.flow_m3_s, DOUBLES)                                                                     \
    X(hose.load_kg, DOUBLES)                                                                       \
    X(hose.delivery_kg_s, DOUBLES)                                                                 \
    X(hose.free_flow_m3_s, DOUBLES)                                                                \
    X(hose.slug_kg, DOUBLES)                                                                       \
    X(hose.outlet_pa, DOUBLES)                                                                     \
    X(hose.mouth_pa, DOUBLES)                                                                      \
    X(hose.clear_left_s, DOUBLES)                                                                  \
    X(tube_state.in_m, DOUBLES)                                                                    \
    X(tube_state.target_m, DOUBLES)                                                                \
    X(tube_state.rate_m_s, DOUBLES)                                                                \
    X(tube_state.speed_m_s, DOUBLES)                                                               \
    X(tube_state.force_share, DOUBLES)                                                             \
    X(tube_state.mouth_x_m, DOUBLES)                                                               \
    X(tube_state.mouth_y_m, DOUBLES)                                                               \
    X(tube_state.direction, INTS)                                                                  \
    X(tube_state.follows_target, INTS)                                                             \
    X(tube_state.is_blocked, INTS)                                                                 \
    X(tube_state.was_blocked_said, INTS)                                                           \
    X(panel.strength_pa, DOUBLES)                                                                  \
    X(panel.over_s, DOUBLES)                                                                       \
    X(panel.peak_pa, DOUBLES)                                                                      \
    X(panel.peak_x_m, DOUBLES)                                                                     \
    X(panel.peak_y_m, DOUBLES)                                                                     \
    X(panel.peak_strength_pa, DOUBLES)                                                             \
    X(panel.expected_pa, DOUBLES)                                                                  \
    X(panel.heaviest_pa, DOUBLES)                                                                  \
    X(panel.heaviest_y_m, DOUBLES)                                                                 \
    X(panel.worst_pa, DOUBLES)                                                                     \
    X(panel.worst_over, DOUBLES)                                                                   \
    X(panel.bow_coef_m_pa, DOUBLES)                                                                \
    X(panel.said_half, INTS)                                                                       \
    X(panel.said_creak, INTS)

#define ROWS_OF_MATERIAL(X)                                                                        \
    X(tufts.count, INTS)                                                                           \
    X(tufts.room, FIXED)                                                                           \
    X(tufts.x, TUFTS)                                                                              \
    X(tufts.y, TUFTS)                                                                              \
    X(tufts.u, TUFTS)                                                                              \
    X(tufts.v, TUFTS)                                                                              \
    X(tufts.kg, TUFTS)                                                                             \
    X(tufts.shown, SHOWN)                                                                          \
    X(tufts.owed_kg, DOUBLES)                                                                      \
    X(rng_scatter, U64)                                                                            \
    X(rng_strength, U64)                                                                           \
    X(ledger, DOUBLES)                                                                             \
    X(carry, DOUBLES)                                                                              \
    X(opening_lost_kg, DOUBLES)                                                                    \
    X(delivered_kg, DOUBLES)                                                                       \
    X(rho_mouth, DOUBLES)                                                                          \
    X(past_mouth, DOUBLES)                                                                         \
    X(hole_flow_m3_s, DOUBLES)                                                                     \
    X(leak_flow_m3_s, DOUBLES)                                                                     \
    X(dust_leak_kg_s, DOUBLES)                                                                     \
    X(dust_hole_kg_s, DOUBLES)

#define ROWS_OF_WORK(X)                                                                            \
    X(hole.seen_kg, DOUBLES)                                                                       \
    X(hole.kg_s, DOUBLES)                                                                          \
    X(hole.seen_fed_kg, DOUBLES)                                                                   \
    X(hole.fed_kg_s, DOUBLES)                                                                      \
    X(hole.blown_back_kg, DOUBLES)                                                                 \
    X(hole.is_spilling, INTS)                                                                      \
    X(hole.is_fed_outside, INTS)                                                                   \
    X(acts.hole, LATER_INTS)                                                                       \
    X(acts.left, LATER_INTS)                                                                       \
    X(acts.is_ring_set, LATER_INTS)                                                                \
    X(acts.is_open, LATER_INTS)                                                                    \
    X(acts.is_sealed, LATER_INTS)                                                                  \
    X(acts.ring_open_frac, LATER_DOUBLES)                                                          \
    X(acts.test_left_s, LATER_DOUBLES)                                                             \
    X(acts.tested_pa, LATER_DOUBLES)                                                               \
    X(acts.minutes, LATER_DOUBLES)                                                                 \
    X(stop.y_m, DOUBLES)                                                                           \
    X(stop.best_kg_s, DOUBLES)                                                                     \
    X(stop.best_flow_m3_s, DOUBLES)                                                                \
    X(stop.delivered_start_kg, DOUBLES)                                                            \
    X(stop.stall, INTS)                                                                            \
    X(stop.lift_count, INTS)                                                                       \
    X(lifts, LIFTS)                                                                                \
    X(events, EVENTS)                                                                              \
    X(event_count, INTS)                                                                           \
    X(plugs, INTS)                                                                                 \
    X(stalls, INTS)                                                                                \
    X(is_runaway_said, INTS)                                                                       \
    X(is_blow_back_said, INTS)                                                                     \
    X(strength_count, INTS)                                                                        \
    X(has_batt, FIXED)                                                                             \
    X(is_whole, TOOL)

#define ALL_ROWS(X)                                                                                \
    ROWS_OF_RUN(X)                                                                                 \
    ROWS_OF_CELLS(X)                                                                               \
    ROWS_OF_VIEW(X)                                                                                \
    ROWS_OF_RIG(X)                                                                                 \
    ROWS_OF_MATERIAL(X) ROWS_OF_WORK(X)

#define SIZE_OF(member)        sizeof(((PbSim *)0)->member)
#define ADD_SIZE(member, kind) +SIZE_OF(member)
/* pointers count with their own size here */
/* NOLINTNEXTLINE(bugprone-sizeof-expression) */
_Static_assert(sizeof(PbSim) == 0 ALL_ROWS(ADD_SIZE),
               "a member of PbSim without a row here, or padding in which one could hide");
/* the two kinds of records that are hashed by their own members */
_Static_assert(sizeof(PbLift) == 8 * sizeof(double), "a member of PbLift that hash_lift forgets");
_Static_assert(sizeof(PbEvent) == 2 * sizeof(int) + 3 * sizeof(double),
               "a member of PbEvent that hash_event forgets");

#define ROW(member, kind) {#member, offsetof(PbSim, member), SIZE_OF(member), PB_STATE_##kind},
/* NOLINTNEXTLINE(bugprone-sizeof-expression) */
static const PbStateRow rows[] = {ALL_ROWS(ROW)};

const PbStateRow *pb_state_rows(size_t *count)
{
    *count = sizeof rows / sizeof rows[0];
    return rows;
}

static uint64_t hash_ints(uint64_t h, const int *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        h = pb_hash_u64(h, (uint64_t)values[i]);
    }
    return h;
}

static uint64_t hash_lift(uint64_t h, const PbLift *l)
{
    const double numbers[] = {l->from_s,  l->to_s,    l->mouth_y_m,    l->step_m,
                              l->stall_s, l->mass_kg, l->density_kg_m3};
    h = pb_hash_doubles(h, numbers, sizeof numbers / sizeof numbers[0]);
    h = pb_hash_u64(h, (uint64_t)l->direction);
    return l->hole != 0 ? pb_hash_u64(h, (uint64_t)l->hole) : h; /* the first: as it always was */
}

static uint64_t hash_event(uint64_t h, const PbEvent *e)
{
    const double numbers[] = {e->x_m, e->y_m, e->value};
    h = pb_hash_u64(h, (uint64_t)e->kind);
    h = pb_hash_u64(h, (uint64_t)e->tick);
    return pb_hash_doubles(h, numbers, sizeof numbers / sizeof numbers[0]);
}

/* Runs that were kept before there was such a member have the hash that they had. */
static uint64_t hash_later(uint64_t h, const unsigned char *at, const PbStateRow *row)
{
    size_t used = 0;
    while (used < row->size && at[used] == 0) {
        used++;
    }
    if (used == row->size) {
        return h;
    }
    h = pb_hash_bytes(h, row->name, strlen(row->name));
    return row->kind == PB_STATE_LATER_INTS
               ? hash_ints(h, (const void *)at, row->size / sizeof(int))
               : pb_hash_doubles(h, (const void *)at, row->size / sizeof(double));
}

static uint64_t hash_row(uint64_t h, const PbSim *s, const PbStateRow *row)
{
    const void *at = (const unsigned char *)s + row->offset;
    switch (row->kind) {
    case PB_STATE_INTS:
        return hash_ints(h, at, row->size / sizeof(int));
    case PB_STATE_DOUBLES:
        return pb_hash_doubles(h, at, row->size / sizeof(double));
    case PB_STATE_U64:
        for (size_t i = 0; i < row->size / sizeof(uint64_t); i++) {
            h = pb_hash_u64(h, ((const uint64_t *)at)[i]);
        }
        return h;
    case PB_STATE_CELLS:
        return pb_hash_doubles(h, *(double *const *)at, (size_t)s->cells);
    case PB_STATE_UNKNOWNS:
        return pb_hash_doubles(h, *(double *const *)at, (size_t)(s->nx * s->ny));
    case PB_STATE_TUFTS:
        return pb_hash_doubles(h, *(double *const *)at, (size_t)s->tufts.count);
    case PB_STATE_LIFTS:
        for (int i = 0; i < s->stop.lift_count; i++) {
            h = hash_lift(h, &s->lifts[i]);
        }
        return h;
    case PB_STATE_EVENTS:
        for (int i = 0; i < s->event_count; i++) {
            h = hash_event(h, &s->events[i]);
        }
        return h;
    case PB_STATE_LATER_INTS:
    case PB_STATE_LATER_DOUBLES:
        return hash_later(h, at, row);
    default:
        return h;
    }
}

uint64_t pb_sim_hash(const PbSim *s, uint64_t start)
{
    uint64_t h = start;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        h = hash_row(h, s, &rows[i]);
    }
    return h;
}
