/* One recorded run over draws of constants: see core/mark_range.h. The hands are in range_hands.c.
 */
#include "core/mark_range.h"

#include "core/watched.h"

#include "range_hands.h"

#include <assert.h>
#include <string.h>

const char *pb_range_constant(int i)
{
    return pb_carrier(i);
}

PbConstants pb_range_constants(const PbConstants *base, uint64_t seed, int index)
{
    assert(base != NULL);
    PbConstants drawn = *base;
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    for (size_t i = 0; i < count; i++) {
        double *value = pb_constant_at(&drawn, &table[i]);
        for (int k = 0; k < PB_RANGE_CONSTANTS; k++) {
            if (strcmp(table[i].name, pb_carrier(k)) == 0 && *value == table[i].value) {
                *value = pb_spread_number(table[i].low, table[i].value, table[i].high,
                                          table[i].name, seed, index);
            }
        }
    }
    pb_product_follow(&drawn, base);
    return drawn;
}

PbConstants pb_range_drawn(const PbProduct *product, const PbConstants *base, uint64_t seed,
                           int index)
{
    return product != NULL && product->draw_count > 0 ? pb_product_drawn(product, base, index)
                                                      : pb_range_constants(base, seed, index);
}

/* The gate of another machine is opened as far as theirs was, and gives what it gives. */
static void turn_gate(const PbRangeSetup *setup, PbCommand *commands, int count)
{
    for (int i = 0; setup->rig != NULL && i < count; i++) {
        if (commands[i].kind == PB_COMMAND_FEED) {
            commands[i].value *=
                setup->rig->machine.feed_max_kg_s / setup->run->exercise.machine.feed_max_kg_s;
        }
    }
}

/* Until the run is over, or the hands have nothing more to do. */
static PbStatus work(const PbRangeSetup *setup, PbWatched *w)
{
    PbRangeHands hands = pb_range_hands(setup->run, setup->lifts, setup->lift_count);
    PbCommand commands[PB_RANGE_COMMANDS];
    PbStatus status = PB_OK;
    for (int tick = 0; status == PB_OK && !w->is_ended && tick < PB_RECORD_MAX_TICKS; tick++) {
        int count = pb_range_hands_next(&hands, pb_session_view(w->session), commands);
        if (count < 0) {
            break;
        }
        turn_gate(setup, commands, count);
        status = pb_watched_step(w, commands, count);
    }
    return status;
}

/* The bay, the machine and the material of a draw. */
static PbSessionConfig config_of(const PbRangeSetup *setup, int index)
{
    PbSessionConfig config = pb_session_default();
    const PbProduct *product = setup->product;
    config.exercise = setup->run->exercise;
    config.seed = setup->run->seed;
    config.cells_across = setup->run->cells_across;
    config.constants = setup->run->constants;
    if (setup->rig != NULL) {
        config.exercise.machine = setup->rig->machine;
        config.exercise.feed_kg_s = setup->rig->feed_kg_s;
    }
    if (product != NULL) {
        config.exercise.damp_frac = product->damp_frac;
        config.exercise.bag_kg = product->bag_kg;
        config.constants = product->constants;
    }
    config.constants = pb_range_drawn(product, &config.constants, setup->seed, index);
    return config;
}

PbRangeDraw pb_range_of(const PbScore *score)
{
    return (PbRangeDraw){score->gates[PB_GATE_MEAN].value, score->gates[PB_GATE_SLICE].value,
                         score->total, score->is_pass};
}

PbStatus pb_range_draw(const PbRangeSetup *setup, int index, PbRangeDraw *draw, PbError *err)
{
    assert(setup != NULL && draw != NULL);
    assert(setup->run != NULL && setup->rubric != NULL);
    PbSessionConfig config = config_of(setup, index);
    PbAllocator a = config.allocator;
    PbWatched *w = a.alloc(a.user, sizeof *w); /* too large for a small stack */
    if (w == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memset(w, 0, sizeof *w);
    PbStatus status = pb_watched_start(w, &config, err);
    if (status == PB_OK) {
        w->rubric = *setup->rubric;
        w->has_climate = setup->climate != NULL;
        if (w->has_climate) {
            w->climate = *setup->climate;
        }
        status = work(setup, w);
        status = status == PB_OK ? pb_watched_mark(w) : status;
        if (status == PB_OK) {
            *draw = pb_range_of(&w->score);
        } else {
            (void)pb_fail(err, status, "draw %d cannot be worked", index);
        }
    }
    pb_watched_end(w);
    a.free(a.user, w);
    return status;
}

PbMarkRange pb_range_sum(const PbRangeDraw *draws, int count)
{
    assert(draws != NULL && count > 0 && count <= PB_RANGE_DRAWS);
    double mean[PB_RANGE_DRAWS], weakest[PB_RANGE_DRAWS], total[PB_RANGE_DRAWS];
    PbMarkRange r = {.draws = count};
    for (int i = 0; i < count; i++) {
        mean[i] = draws[i].mean_kg_m3;
        weakest[i] = draws[i].weakest_kg_m3;
        total[i] = draws[i].total;
        r.passes += draws[i].is_pass != 0;
    }
    r.mean_kg_m3 = pb_spread_band(mean, (size_t)count);
    r.weakest_kg_m3 = pb_spread_band(weakest, (size_t)count);
    r.total = pb_spread_band(total, (size_t)count);
    return r;
}
