/*
 * The same bits on every vector path, compiler and optimisation level. The golden hash was made at
 * -O3 with GCC; a build that gives another one is not the same physics. A change of the model
 * changes it on purpose, together with PB_PHYSICS_VERSION.
 */
#include "bays.h"

#include "core/hash.h"
#include "core/rng.h"
#include "core/spread.h"

#include <inttypes.h>

#define GOLDEN_FIELD  0xaee0d9759d48c716ULL
#define GOLDEN_SPREAD 0x7304e8ab9d61dc6bULL

static PbBayField uneven(void)
{
    PbBayField bay = bay_uniform(16, 96, 50.0);
    PbRng rng = pb_rng_make(4, 2);
    for (int j = 0; j < 96; j++) {
        for (int i = 0; i < 16; i++) {
            bay_set(&bay, i, j, 30.0 + 30.0 * pb_rng_uniform(&rng));
        }
    }
    for (int i = 4; i < 8; i++) {
        bay_block(&bay, i, 40);
    }
    return bay;
}

START_TEST(every_vector_path_gives_the_golden_hash)
{
    PbBayField bay = uneven();
    for (int path = 0; path <= 3; path++) {
        PbSettleConfig config = pb_settle_default();
        PbSettle *s;
        config.vector_path = path;
        if (pb_settle_create(&bay, &config, &s, NULL) != PB_OK) {
            ck_assert_int_gt(path, 1);
            continue;
        }
        ck_assert_int_eq(pb_settle_advance(s, 30.0), PB_OK);
        ck_assert_msg(pb_settle_hash(s) == GOLDEN_FIELD, "path %d: 0x%016" PRIx64, path,
                      pb_settle_hash(s));
        pb_settle_destroy(s);
    }
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(draws_depend_on_seed_and_index_alone)
{
    PbBayField bay = uneven();
    static const double years[] = {1.0, 30.0};
    uint64_t h = PB_HASH_START;
    PbSettleConfig config = pb_settle_default();
    const PbConstants base = config.constants;
    for (int k = 3; k >= 0; k--) { /* any order */
        PbAgeSample sample[2], again[2];
        config.constants = pb_spread_constants(&base, 9, k, 0);
        ck_assert_int_eq(pb_spread_age(&bay, &config, years, 2, NULL, sample, NULL), PB_OK);
        ck_assert_int_eq(pb_spread_age(&bay, &config, years, 2, NULL, again, NULL), PB_OK);
        for (int t = 0; t < 2; t++) {
            ck_assert(sample[t].void_area_m2 == again[t].void_area_m2);
            h = pb_hash_doubles(h, &sample[t].top_gap_m, 3);
        }
    }
    ck_assert_msg(h == GOLDEN_SPREAD, "0x%016" PRIx64, h);
    pb_bay_field_destroy(&bay);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("settle_bits");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, every_vector_path_gives_the_golden_hash);
    tcase_add_test(tc, draws_depend_on_seed_and_index_alone);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
