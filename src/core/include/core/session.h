/**
 * @file session.h
 * @brief One run: create from an exercise, step with commands, look at the view, read the result.
 *
 * A session is a function of (exercise, constants, seed, grid, commands by tick) and nothing else.
 * One tick is PB_TICK_S seconds. A step allocates nothing. One thread per session.
 */
#ifndef CORE_SESSION_H
#define CORE_SESSION_H

#include "core/alloc.h"
#include "core/command.h"
#include "core/constants.h"
#include "core/event.h"
#include "core/exercise.h"
#include "core/field.h"
#include "core/tick.h"
#include "core/view.h"

#include <stdint.h>

/** Grows by one whenever the same commands may give other bits, or the hash of a state changes;
 * what changed with each: docs/physics/README.md. */
#define PB_PHYSICS_VERSION 4

typedef struct PbSession PbSession;

typedef struct PbSessionConfig {
    PbExercise exercise;
    PbConstants constants;
    uint64_t seed;
    int cells_across; /**< PB_GRID_LEAST to 48; programs offer PB_GRID_DEFAULT and PB_GRID_FINE */
    int vector_path;  /**< 0 best for this machine, 1 baseline, 2 AVX2, 3 AVX-512; same bits in all
                       */
    PbAllocator allocator;
} PbSessionConfig;

/** Everything that `run --json` prints; see docs/FORMATS.md. Valid at any time, final when done. */
typedef struct PbResult {
    double mass_in_bay_kg, mass_fed_kg, mass_lost_kg;
    double mass_balance_rel; /**< |fed - held - lost| / max(fed, 1e-9) */
    double fillable_volume_m3;
    double mean_kg_m3, p5_patch_kg_m3, min_patch_kg_m3;
    double share_at_target;
    double share_below_48_kg_m3; /**< of patches, by fillable area */
    double share_below_56_kg_m3;
    double void_area_m2;             /**< patches under the constants' void density */
    double peak_panel_pa;            /**< largest load on a patch, weak or strong */
    double peak_panel_over_strength; /**< largest share of its strength that a patch bore */
    int blow_out;
    int plugs;
    int stall_count;
    int lift_count;
    double duration_s;
    double bags;
    PbPhase phase;
    PbLedger ledger;
    uint64_t state_hash;
    PbActs acts; /**< as they stand at the end; not kept in run files */
} PbResult;

/** A 0.1 m square of the bay used for scoring. */
typedef struct PbPatch {
    double x0_m, y0_m, x1_m, y1_m;
    double free_area_m2;
    double density_kg_m3;
} PbPatch;

/** @brief Plain exercise, shipped constants, seed 1, default grid, C library memory. */
PbSessionConfig pb_session_default(void);

/**
 * @brief Start a run. The config is copied. Allocates one block.
 * @param[out] session untouched unless PB_OK; caller destroys it
 * @return PB_OK, PB_ERR_RANGE (exercise, constants or grid refused; err says why), PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_session_create(const PbSessionConfig *config, PbSession **session,
                                        PbError *err);
/** @brief Give everything back. NULL allowed. */
void pb_session_destroy(PbSession *session);

/**
 * @brief Advance one tick.
 * @param[in] commands borrowed for the call, applied in order before the tick; may be NULL when 0
 * @return PB_OK; PB_ERR_STATE when the run is over (nothing changed); PB_ERR_RANGE for a command
 *         with a non-finite or out-of-range value (nothing changed); PB_ERR_DIVERGED
 */
PB_NODISCARD PbStatus pb_session_step(PbSession *session, const PbCommand *commands, int count);

/** @brief The picture now. Borrowed until the next step. */
const PbView *pb_session_view(const PbSession *session);
/** @brief Events of the last step only, oldest first, at most 64. Borrowed until the next step. */
const PbEvent *pb_session_events(const PbSession *session, int *count);
/** @brief Nonzero once the run is over. */
int pb_session_is_over(const PbSession *session);
/** @brief Compute the result from the state now. Allocates nothing. */
void pb_session_result(const PbSession *session, PbResult *result);
/** @brief Patches for scoring, bottom row first. @return how many were written, at most `max`. */
int pb_session_patches(const PbSession *session, PbPatch *patches, int max);
/**
 * @brief Hash of the whole state: every number that one step hands to the next, the stops so far
 * and the events of the last step. Exercise, constants, seed and grid are inputs and not in it.
 */
uint64_t pb_session_hash(const PbSession *session);
/** @brief Copy out the bay for years and heat. Caller destroys the field. @return PB_OK,
 * PB_ERR_MEMORY. */
PB_NODISCARD PbStatus pb_session_field(const PbSession *session, PbBayField *field);
/** @brief Time stages with this clock from now on (the core has none of its own); NULL stops. */
void pb_session_profile(PbSession *session, double (*clock_s)(void), PbProfile *profile);
/** @brief Bytes that the session took. */
size_t pb_session_memory(const PbSession *session);
/**
 * @brief Copy the whole state out, to come back to it with pb_session_restore.
 * @param[out] block caller's memory of pb_session_memory bytes
 * The copy holds addresses: it is good for this session object and no other.
 */
void pb_session_snapshot(const PbSession *session, void *block);
/** @brief Back to a state copied out of this same session, bit for bit. The view stays valid. */
void pb_session_restore(PbSession *session, const void *block);
/**
 * @brief Leakage of the bay as packed: a pressure test through the whole assembly.
 * @param[in]  outside_pa  pressure held across the bay from face to back, above 0, to 1000 Pa
 * @param[out] before_m3_s_m2, after_m3_s_m2 flow per face area, empty and as packed
 * @return PB_OK; PB_ERR_RANGE for the pressure; PB_ERR_MEMORY. Takes memory for the call only.
 */
PB_NODISCARD PbStatus pb_session_leak_test(const PbSession *session, double outside_pa,
                                           double *before_m3_s_m2, double *after_m3_s_m2);

/**
 * @brief Wall area that one bag covers: mass over density and depth (arithmetic of a coverage
 * chart, 16 CFR 460.12). Net cavity area, without studs.
 */
double pb_bag_coverage_m2(double bag_kg, double density_kg_m3, double depth_m);

#endif
