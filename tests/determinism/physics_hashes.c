/* What the physics comes to on this machine, hash by hash: a bay packed and stalled, its years and
 * a loose field's, heat of a section and of the bay. Links the core alone, so that it runs where no
 * other library is; tests/determinism/aarch64.sh compares two machines' words. */
#include "core/hash.h"
#include "core/heat_bay.h"
#include "core/heat_case.h"
#include "core/rng.h"
#include "core/session.h"
#include "core/settle.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static int failed;

static int is_ok(PbStatus status, const char *what)
{
    if (status != PB_OK) {
        fprintf(stderr, "physics_hashes: %s: status %d\n", what, (int)status);
        failed = 1;
    }
    return status == PB_OK;
}

static void say(const char *what, double at, uint64_t hash)
{
    printf("%s %g %016" PRIx64 "\n", what, at, hash);
}

/* Twenty-four seconds on a coarse grid: two stops, a tube pulled back while it blows. */
static void pack(PbBayField *field)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    const PbCommand begin[] = {{PB_COMMAND_TUBE_TARGET, 1.6}, {PB_COMMAND_MACHINE, 1.0}};
    const PbCommand back = {PB_COMMAND_TUBE_TARGET, 0.8};
    config.cells_across = 12;
    if (!is_ok(pb_session_create(&config, &s, NULL), "session")) {
        return;
    }
    for (int i = 0; i < 600 && !failed; i++) {
        const PbCommand *given = i == 0 ? begin : &back;
        is_ok(pb_session_step(s, given, i == 0 ? 2 : i == 400), "step");
        if (i % 100 == 99) {
            say("pack", (i + 1) * PB_TICK_S, pb_session_hash(s));
        }
    }
    is_ok(pb_session_field(s, field), "field");
    pb_session_destroy(s);
}

static void age(const char *what, const PbBayField *field)
{
    static const double years[] = {0.01, 1.0, 10.0};
    PbSettleConfig config = pb_settle_default();
    PbSettle *s;
    if (!is_ok(pb_settle_create(field, &config, &s, NULL), what)) {
        return;
    }
    for (size_t i = 0; i < sizeof years / sizeof years[0]; i++) {
        is_ok(pb_settle_advance(s, years[i]), what);
        say(what, years[i], pb_settle_hash(s));
    }
    pb_settle_destroy(s);
}

static void age_loose(void)
{
    PbBayField field;
    PbRng rng = pb_rng_make(1, 1);
    if (!is_ok(pb_bay_field_create(12, 48, 0.368, 2.4, 0.089, &field), "loose field")) {
        return;
    }
    for (int c = 0; c < field.nx * field.ny; c++) {
        field.density_kg_m3[c] = 40.0 + 6.0 * pb_rng_normal(&rng);
        field.density_past_kg_m3[c] = field.density_kg_m3[c];
    }
    age("years.loose", &field);
    pb_bay_field_destroy(&field);
}

static void heat_cavity(void)
{
    PbHeatCase c = pb_heat_case_default();
    PbAllocator allocator = pb_allocator_default();
    PbHeatSection *s;
    pb_heat_case_dimensionless(&c, PB_HEAT_KIND_AIR, 1e4, 0.71, 0.0, 1.0);
    c.nx = c.ny = 20;
    if (!is_ok(pb_heat_case_solve(&c, &allocator, &s, NULL), "cavity")) {
        return;
    }
    const PbHeatResult *r = pb_heat_section_result(s);
    uint64_t h = pb_hash_doubles(PB_HASH_START, r->temperature_c, 20 * 20);
    say("heat.cavity", 1e4, pb_hash_doubles(h, r->psi_m2_s, 21 * 21));
    pb_heat_section_destroy(s);
}

static void heat_bay(const PbBayField *field)
{
    PbHeatBaySetup setup = pb_heat_bay_default(field);
    PbConstants constants = pb_constants_default();
    PbAllocator allocator = pb_allocator_default();
    PbHeatBay *bay;
    setup.nx = 24;
    setup.ny = 64;
    if (!is_ok(pb_heat_bay_solve(&setup, &constants, &allocator, &bay, NULL), "bay")) {
        return;
    }
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    uint64_t h = pb_hash_doubles(PB_HASH_START, &r->u_cavity_w_m2k, 1);
    for (int i = 0; i < r->strip_count; i++) {
        const PbHeatStrip *v = pb_heat_bay_strip(bay, i);
        h = pb_hash_doubles(h, v->temperature_c, (size_t)(v->nx * v->ny));
        h = pb_hash_doubles(h, v->psi_m2_s, (size_t)((v->nx + 1) * (v->ny + 1)));
    }
    say("heat.bay", r->strip_count, h);
    pb_heat_bay_destroy(bay);
}

int main(void)
{
    PbBayField field;
    memset(&field, 0, sizeof field);
    pack(&field);
    if (!failed) {
        age("years.packed", &field);
        age_loose();
        heat_cavity();
        heat_bay(&field);
        pb_bay_field_destroy(&field);
    }
    return failed;
}
