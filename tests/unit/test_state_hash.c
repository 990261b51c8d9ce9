/* The hash of a state covers all that one step hands to the next: every number of it changes the
 * hash, and what is said to be made anew in each step may be spoiled between two of them. */
#include "suite.h"

#include "core/session.h"
#include "session/session_private.h"

#include <stdint.h>
#include <string.h>

/* Half a bay: tufts in the air, a stop that has stalled, one that has begun, a turned tube. */
static PbSession *in_full_work(void)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    const PbCommand work[] = {{PB_COMMAND_TUBE_TARGET, 1.6}, {PB_COMMAND_MACHINE, 1.0}};
    const PbCommand back = {PB_COMMAND_TUBE_TARGET, 0.5};
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    for (int i = 0; i < 450; i++) {
        ck_assert_int_eq(pb_session_step(s, i == 0 ? work : &back, i == 0 ? 2 : i == 300), PB_OK);
    }
    ck_assert_int_gt(pb_session_view(s)->tuft_count, 3);
    ck_assert_int_gt(pb_session_view(s)->lift_count, 1);
    return s;
}

/* The bytes that a row stands for, and how many of them are in use. */
static unsigned char *bytes_of(const PbSim *sim, const PbStateRow *row, size_t *size)
{
    unsigned char *at = (unsigned char *)(uintptr_t)sim + row->offset;
    double *pointed = NULL;
    *size = row->size;
    switch (row->kind) {
    case PB_STATE_CELLS:
    case PB_STATE_SCRATCH_CELLS:
        memcpy(&pointed, at, sizeof pointed);
        *size = (size_t)sim->cells * sizeof(double);
        return (unsigned char *)pointed;
    case PB_STATE_SCRATCH_SINGLES:
        memcpy(&pointed, at, sizeof pointed);
        *size = (size_t)sim->cells * sizeof(float);
        return (unsigned char *)pointed;
    case PB_STATE_UNKNOWNS:
        memcpy(&pointed, at, sizeof pointed);
        *size = (size_t)(sim->nx * sim->ny) * sizeof(double);
        return (unsigned char *)pointed;
    case PB_STATE_TUFTS:
        memcpy(&pointed, at, sizeof pointed);
        *size = (size_t)sim->tufts.count * sizeof(double);
        return (unsigned char *)pointed;
    case PB_STATE_LIFTS: /* without the padding behind the last member of each */
        *size = (size_t)sim->stop.lift_count * sizeof(PbLift) - sizeof(double) + sizeof(int);
        return at;
    case PB_STATE_EVENTS:
        *size = (size_t)sim->event_count * sizeof(PbEvent);
        return at;
    default:
        return at;
    }
}

/* Does the hash see a change of this byte, and come back with it? */
static int is_seen(const PbSession *s, uint64_t before, unsigned char *byte)
{
    *byte ^= 1u;
    int seen = pb_session_hash(s) != before;
    *byte ^= 1u;
    return seen;
}

START_TEST(every_number_of_the_state_is_in_the_hash)
{
    PbSession *s = in_full_work();
    const PbCommand turn = {PB_COMMAND_TURN, -1.0}; /* refused this far in: an event to hash */
    ck_assert_int_eq(pb_session_step(s, &turn, 1), PB_OK);
    const PbSim *sim = pb_session_sim(s);
    uint64_t before = pb_session_hash(s);
    size_t rows;
    const PbStateRow *row = pb_state_rows(&rows);
    int hashed = 0;
    for (size_t r = 0; r < rows; r++) {
        size_t size;
        unsigned char *at = bytes_of(sim, &row[r], &size);
        if (row[r].kind >= PB_STATE_HASHED || row[r].kind == PB_STATE_CELLS) {
            continue;
        }
        ck_assert_msg(size > 0, "%s is empty here: this test says nothing of it", row[r].name);
        /* counts say how far to look: they are seen as numbers of their own, below */
        int is_count = strstr(row[r].name, "count") != NULL;
        for (size_t i = 0; i < size && !is_count; i += i < 4096 ? 1 : 37) {
            int is_gap = row[r].kind == PB_STATE_LIFTS && i % sizeof(PbLift) >= 60;
            ck_assert_msg(is_gap || is_seen(s, before, at + i), "%s: byte %zu", row[r].name, i);
        }
        hashed++;
    }
    ck_assert_int_gt(hashed, 60);
    ck_assert(pb_session_hash(s) == before);
    pb_session_destroy(s);
}
END_TEST

START_TEST(every_cell_and_every_count_is_in_the_hash)
{
    PbSession *s = in_full_work();
    PbSim *sim = (PbSim *)(uintptr_t)pb_session_sim(s);
    uint64_t before = pb_session_hash(s);
    size_t rows;
    const PbStateRow *row = pb_state_rows(&rows);
    int fields = 0;
    for (size_t r = 0; r < rows; r++) {
        size_t size;
        if (row[r].kind != PB_STATE_CELLS) {
            continue;
        }
        unsigned char *at = bytes_of(sim, &row[r], &size);
        fields++;
        for (size_t i = 0; i < size; i += 8 * 13 + 5) {
            ck_assert_msg(is_seen(s, before, at + i), "%s: byte %zu", row[r].name, i);
        }
        ck_assert_msg(is_seen(s, before, at + size - 1), "%s: its last byte", row[r].name);
    }
    ck_assert_int_ge(fields, 6);
    int *const counts[] = {&sim->tufts.count, &sim->stop.lift_count, &sim->strength_count};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        --*counts[i];
        ck_assert_msg(pb_session_hash(s) != before, "count %zu", i);
        ++*counts[i];
    }
    sim->event_count++;
    ck_assert(pb_session_hash(s) != before);
    sim->event_count--;
    ck_assert(pb_session_hash(s) == before);
    pb_session_destroy(s);
}
END_TEST

/* Cells of the grid; the ring round it stays closed and is never written. */
static void spoil_cells(const PbSim *sim, double *cells)
{
    for (int j = 0; j < sim->ny; j++) {
        for (int i = 0; i < sim->nx; i++) {
            cells[pb_at(sim, i, j)] = -1e77;
        }
    }
}

static void spoil_singles(const PbSim *sim, float *cells)
{
    for (int j = 0; j < sim->ny; j++) {
        for (int i = 0; i < sim->nx; i++) {
            cells[pb_at(sim, i, j)] = -1e33f;
        }
    }
}

START_TEST(what_is_called_scratch_hands_nothing_on)
{
    size_t rows;
    const PbStateRow *row = pb_state_rows(&rows);
    PbSession *clean = in_full_work(), *spoilt = in_full_work();
    PbSim *sim = (PbSim *)(uintptr_t)pb_session_sim(spoilt);
    int spoils = 0;
    for (size_t r = 0; r < rows; r++) {
        size_t size;
        unsigned char *at = bytes_of(sim, &row[r], &size);
        if (row[r].kind == PB_STATE_SCRATCH_CELLS) {
            spoil_cells(sim, (double *)(void *)at);
            spoils++;
        }
        if (row[r].kind == PB_STATE_SCRATCH_SINGLES) {
            spoil_singles(sim, (float *)(void *)at);
            spoils++;
        }
    }
    memset(&sim->solid_params, 0x7E, sizeof sim->solid_params);
    memset(sim->row_live, 0, (size_t)sim->ny);
    memset(sim->row_next, 0, (size_t)sim->ny);
    memset(sim->fed_cells, 0, (size_t)sim->cells * sizeof(int));
    memset(sim->row_load, 0x7E, (size_t)sim->ny * sizeof(double));
    ck_assert_int_gt(spoils, 20);
    for (int i = 0; i < 40; i++) {
        ck_assert_int_eq(pb_session_step(clean, NULL, 0), PB_OK);
        ck_assert_int_eq(pb_session_step(spoilt, NULL, 0), PB_OK);
        ck_assert_msg(pb_session_hash(clean) == pb_session_hash(spoilt), "after %d steps", i + 1);
    }
    pb_session_destroy(clean);
    pb_session_destroy(spoilt);
}
END_TEST

/* Second witness: these and no others stay out. */
static const char *const left_out[] = {"ex",
                                       "k",
                                       "kernels",
                                       "seed",
                                       "nx",
                                       "ny",
                                       "stride",
                                       "cells",
                                       "dx",
                                       "dy",
                                       "inv_dx",
                                       "inv_dy",
                                       "gravity_along",
                                       "gravity_across",
                                       "phi0",
                                       "iphi",
                                       "batt",
                                       "tube",
                                       "load_pa",
                                       "mobility",
                                       "leak",
                                       "leak_kg_s",
                                       "air_x",
                                       "air_y",
                                       "rate_a",
                                       "mouth_w",
                                       "fed_cells",
                                       "fibre_hold",
                                       "opening_at",
                                       "side_kf",
                                       "solid.open_x",
                                       "solid.open_y",
                                       "solid.area_x",
                                       "solid.area_y",
                                       "step.a",
                                       "step.b",
                                       "step.rho",
                                       "step.rm",
                                       "step.p",
                                       "step.tot",
                                       "step.gx",
                                       "step.gy",
                                       "step.fa_x",
                                       "step.fb_x",
                                       "step.fa_y",
                                       "step.fb_y",
                                       "step.iphi",
                                       "step.gas",
                                       "step.open_x",
                                       "step.open_y",
                                       "step.area_x",
                                       "step.area_y",
                                       "step.t0_x",
                                       "step.t0_y",
                                       "step.kf_x",
                                       "step.kf_y",
                                       "step.mob_x",
                                       "step.mob_y",
                                       "step.fall",
                                       "solid_params",
                                       "row_live",
                                       "row_next",
                                       "band",
                                       "out_density",
                                       "out_past",
                                       "out_gas",
                                       "out_phi",
                                       "out_bow",
                                       "out_load",
                                       "out_leak",
                                       "row_load",
                                       "sigma_table",
                                       "cv",
                                       "leak_table",
                                       "dust_scale",
                                       "fillable_m3",
                                       "clock_s",
                                       "profile",
                                       "view",
                                       "tufts.room",
                                       "tufts.shown",
                                       "has_batt",
                                       "is_whole"};

static int may_stay_out(const char *name)
{
    for (size_t i = 0; i < sizeof left_out / sizeof left_out[0]; i++) {
        if (strcmp(left_out[i], name) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(nothing_stays_out_of_the_hash_unnamed)
{
    size_t rows, out = 0;
    const PbStateRow *row = pb_state_rows(&rows);
    for (size_t r = 0; r < rows; r++) {
        if (row[r].kind >= PB_STATE_HASHED) {
            ck_assert_msg(may_stay_out(row[r].name), "%s is not in the hash", row[r].name);
            out++;
        }
    }
    ck_assert_uint_eq(out, sizeof left_out / sizeof left_out[0]);
}
END_TEST

/* The sizes add up (state_hash.c does not compile otherwise); no byte is listed twice. */
START_TEST(every_byte_of_the_state_has_one_row)
{
    size_t rows;
    const PbStateRow *row = pb_state_rows(&rows);
    static unsigned char seen[sizeof(PbSim)];
    for (size_t r = 0; r < rows; r++) {
        for (size_t i = 0; i < row[r].size; i++) {
            ck_assert_msg(!seen[row[r].offset + i], "%s stands where another does", row[r].name);
            seen[row[r].offset + i] = 1;
        }
    }
    for (size_t i = 0; i < sizeof seen; i++) {
        ck_assert_msg(seen[i], "byte %zu of the state has no row", i);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("state_hash");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 120.0);
    tcase_add_test(normal, every_number_of_the_state_is_in_the_hash);
    tcase_add_test(normal, every_cell_and_every_count_is_in_the_hash);
    tcase_add_test(normal, what_is_called_scratch_hands_nothing_on);
    tcase_add_test(normal, nothing_stays_out_of_the_hash_unnamed);
    tcase_add_test(normal, every_byte_of_the_state_has_one_row);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
