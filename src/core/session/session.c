/*
 * The face of a run: make one, step it, look at it. The work is in pack/sim.c.
 * One block of memory holds everything; nothing is allocated after creation.
 */
#include "session_private.h"

#include "core/hash.h"
#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

struct PbSession {
    PbSim sim;
    PbAllocator allocator;
    size_t bytes;
};

enum { STREAM_SCATTER = 1, STREAM_STRENGTH = 2 };

PbSessionConfig pb_session_default(void)
{
    PbSessionConfig c;
    memset(&c, 0, sizeof c);
    c.exercise = pb_exercise_default();
    c.constants = pb_constants_default();
    c.seed = 1;
    c.cells_across = PB_GRID_DEFAULT;
    c.vector_path = 0;
    c.allocator = pb_allocator_default();
    return c;
}

static void set_up(PbSim *s, const PbSessionConfig *config)
{
    s->ex = config->exercise;
    s->k = config->constants;
    s->seed = config->seed;
    s->nx = config->cells_across;
    s->dx = s->ex.width_m / s->nx;
    s->ny = (int)(s->ex.height_m / s->dx + 0.5);
    s->ny = s->ny < 4 ? 4 : s->ny;
    s->dy = s->ex.height_m / s->ny;
    s->inv_dx = 1.0 / s->dx;
    s->inv_dy = 1.0 / s->dy;
    s->stride = s->nx + 2;
    s->cells = s->stride * (s->ny + 2);
    double tilt = s->ex.tilt_deg * PB_PI / 180.0;
    s->gravity_along = PB_GRAVITY_M_S2 * pb_sin(tilt);
    s->gravity_across = s->ex.tilt_deg >= 90.0 ? 0.0 : PB_GRAVITY_M_S2 * pb_cos(tilt);
    s->dust_scale = pb_pow(1000.0, s->ex.leak_exponent - 0.5);
}

static void start(PbSim *s)
{
    s->rng_scatter = pb_rng_make(s->seed, STREAM_SCATTER);
    s->rng_strength = pb_rng_make(s->seed, STREAM_STRENGTH);
    s->hose.setting = 1.0;
    s->hose.feed_kg_s = s->ex.feed_kg_s;
    s->tube_state.direction = s->ex.holes[0].y_m < 0.5 * s->ex.height_m ? 1 : -1;
    s->tube_state.in_m = -0.05; /* in the hand, at the hole */
    s->tube_state.mouth_x_m = s->ex.holes[0].x_m;
    s->tube_state.mouth_y_m = s->ex.holes[0].y_m;
    pb_grid_init(s);
    pb_panel_init(s);
    for (int at = 0; at < s->cells; at++) {
        s->sigma[at] = s->k.sigma_free_pa_s_m2;
    }
    pb_sim_publish(s);
}

/* Constants have ranges of their own (assets/constants.json); here is what ties two together. */
static PbStatus check_constants(const PbConstants *k, PbError *err)
{
    if (!(k->rest_kg_m3 < k->compaction_ref_kg_m3)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "constant \"rest_kg_m3\": %g, expected less than compaction_ref_kg_m3, %g "
                       "kg/m3",
                       k->rest_kg_m3, k->compaction_ref_kg_m3);
    }
    return PB_OK;
}

PbStatus pb_session_create(const PbSessionConfig *config, PbSession **session, PbError *err)
{
    char field[64];
    PbStatus ok = pb_exercise_check(&config->exercise, field, sizeof field, err);
    if (ok != PB_OK) {
        return ok;
    }
    PB_TRY(check_constants(&config->constants, err));
    if (config->cells_across < PB_GRID_LEAST || config->cells_across > PB_BAND_MAX_HALF) {
        return pb_fail(err, PB_ERR_RANGE, "cells across: %d, expected %d to %d",
                       config->cells_across, PB_GRID_LEAST, PB_BAND_MAX_HALF);
    }
    if (pb_kernels_pick(config->vector_path) == NULL) {
        return pb_fail(err, PB_ERR_RANGE, "vector path %d does not run on this machine",
                       config->vector_path);
    }
    PbSim plan;
    memset(&plan, 0, sizeof plan);
    set_up(&plan, config);
    PbArena arena = {NULL, 0, 0};
    pb_grid_layout(&plan, &arena);
    size_t head = (sizeof(PbSession) + 63u) & ~(size_t)63u;
    size_t bytes = head + arena.used;
    unsigned char *block = config->allocator.alloc(config->allocator.user, bytes);
    if (block == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory: a run needs %zu KiB", bytes / 1024u);
    }
    PbSession *s = (PbSession *)(void *)block;
    memset(s, 0, sizeof *s);
    s->allocator = config->allocator;
    s->bytes = bytes;
    set_up(&s->sim, config);
    s->sim.kernels = pb_kernels_pick(config->vector_path);
    PbArena real = {block + head, 0, arena.used};
    pb_grid_layout(&s->sim, &real);
    start(&s->sim);
    *session = s;
    return PB_OK;
}

void pb_session_destroy(PbSession *session)
{
    if (session != NULL) {
        PbAllocator a = session->allocator;
        a.free(a.user, session);
    }
}

PbStatus pb_session_step(PbSession *session, const PbCommand *commands, int count)
{
    return pb_sim_step(&session->sim, commands, count);
}

const PbView *pb_session_view(const PbSession *session)
{
    return &session->sim.view;
}

const PbEvent *pb_session_events(const PbSession *session, int *count)
{
    *count = session->sim.event_count;
    return session->sim.events;
}

int pb_session_is_over(const PbSession *session)
{
    return session->sim.phase == PB_PHASE_DONE || session->sim.phase == PB_PHASE_BLOWN_OUT;
}

size_t pb_session_memory(const PbSession *session)
{
    return session->bytes;
}

void pb_session_snapshot(const PbSession *session, void *block)
{
    memcpy(block, session, session->bytes);
}

void pb_session_restore(PbSession *session, const void *block)
{
    double (*clock_s)(void) = session->sim.clock_s;
    PbProfile *profile = session->sim.profile;
    memcpy(session, block, session->bytes);
    session->sim.clock_s = clock_s;
    session->sim.profile = profile;
}

void pb_session_profile(PbSession *session, double (*clock_s)(void), PbProfile *profile)
{
    session->sim.clock_s = clock_s;
    session->sim.profile = clock_s != NULL ? profile : NULL;
}

const PbSim *pb_session_sim(const PbSession *session)
{
    return &session->sim;
}

PbAllocator pb_session_allocator(const PbSession *session)
{
    return session->allocator;
}

uint64_t pb_session_hash(const PbSession *session)
{
    return pb_sim_hash(&session->sim, pb_hash_u64(PB_HASH_START, PB_PHYSICS_VERSION));
}

PbStatus pb_session_field(const PbSession *session, PbBayField *field)
{
    const PbSim *s = &session->sim;
    PbBayField f;
    PB_TRY(pb_bay_field_create(s->nx, s->ny, s->ex.width_m, s->ex.height_m, s->ex.depth_m, &f));
    f.tilt_deg = s->ex.tilt_deg;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j), k = j * s->nx + i;
            f.density_kg_m3[k] = s->out_density[k];
            f.density_past_kg_m3[k] = s->out_past[k];
            f.lateral_pa[k] = s->k.lateral_ratio * s->solid.p[at];
            f.free_frac[k] = s->phi0[at];
            f.batt_frac[k] = pb_min(s->batt[at], 1.0 - s->phi0[at]);
        }
    }
    *field = f;
    return PB_OK;
}
