/* Crews by rule over the six walls: one that probes finds what there is, one that goes by the tape
 * misses what irregular framing hides. */
#include "suite.h"

#include "core/crew_belief.h"
#include "core/crew_find.h"
#include "io/framing_file.h"

#include <stdio.h>

#define ASSETS PB_TEST_SOURCE_DIR "/assets/"

static PbFraming wall, believed;
static PbCrew crew;
static PbCrewFound found[512];

typedef struct Case {
    const char *name;
    double careful, tape_most; /* share of the area of bays found; of the most by the tape */
} Case;

static const Case CASES[] = {
    {"two-bays", 0.98, 1.0},      {"window-wall", 0.95, 0.8}, {"kitchen", 0.95, 0.6},
    {"balloon-frame", 0.95, 1.0}, {"stair-wall", 0.95, 0.9},  {"old-wiring", 0.95, 1.0},
};

static double share_found(const char *name, PbFindMethod method)
{
    const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    char path[512];
    PbError err = {0};
    PbBays *truth, *parts;
    PbAllocator allocator = pb_allocator_default();
    snprintf(path, sizeof path, ASSETS "walls/%s.json", name);
    ck_assert_msg(io_framing_load(path, folders, 1, &wall, &err) == PB_OK, "%s", err.message);
    pb_crew_begin(&wall, 1, &crew);
    pb_crew_find(&crew, &wall, method);
    pb_crew_framing(&crew, &wall.like, &believed);
    ck_assert_int_eq(pb_bays_create(&wall, &allocator, &truth), PB_OK);
    ck_assert_int_eq(pb_bays_create(&believed, &allocator, &parts), PB_OK);
    pb_crew_compare(&crew, truth, parts, found);
    int count;
    const PbFramedBay *list = pb_bays_list(truth, &count);
    double all = 0.0, got = 0.0;
    for (int n = 0; n < count; n++) {
        all += list[n].area_m2;
        got += found[n].is_found ? list[n].area_m2 : 0.0;
    }
    pb_bays_destroy(truth);
    pb_bays_destroy(parts);
    return got / all;
}

START_TEST(a_careful_crew_finds_what_there_is)
{
    const Case *c = &CASES[_i];
    ck_assert_double_ge(share_found(c->name, PB_FIND_CAREFUL), c->careful);
}
END_TEST

START_TEST(a_tape_finds_regular_bays_alone)
{
    const Case *c = &CASES[_i];
    ck_assert_double_le(share_found(c->name, PB_FIND_TAPE), c->tape_most);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("crew find");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 60);
    tcase_add_loop_test(t, a_careful_crew_finds_what_there_is, 0, sizeof CASES / sizeof CASES[0]);
    tcase_add_loop_test(t, a_tape_finds_regular_bays_alone, 0, sizeof CASES / sizeof CASES[0]);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
