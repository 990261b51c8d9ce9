/* Files of framed walls: the shipped ones, and where complaints point. */
#include "suite.h"

#include "core/bays.h"
#include "io/framing_file.h"

#include <stdio.h>
#include <string.h>

static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
static PbFraming f;

typedef struct Shipped {
    const char *id;
    int bays, left, parted, narrow; /* to be left alone; parted by a brace; narrower than a hole */
    double fill_kg;
} Shipped;

static const Shipped SHIPPED[] = {
    {"two-bays", 3, 0, 0, 0, 12.87},   {"window-wall", 16, 0, 0, 1, 34.36},
    {"kitchen", 27, 1, 0, 1, 40.84},   {"balloon-frame", 10, 0, 0, 0, 83.79},
    {"stair-wall", 9, 0, 6, 0, 36.69}, {"old-wiring", 8, 8, 0, 0, 0.0},
};

START_TEST(shipped_walls_have_their_bays)
{
    const Shipped *want = &SHIPPED[_i];
    char path[512];
    PbError err = {0};
    PbBays *bays;
    PbAllocator allocator = pb_allocator_default();
    int count, left = 0, parted = 0, narrow = 0;
    snprintf(path, sizeof path, "%s/walls/%s.json", folders[0], want->id);
    ck_assert_msg(io_framing_load(path, folders, 1, &f, &err) == PB_OK, "%s", err.message);
    ck_assert_str_eq(f.id, want->id);
    ck_assert_int_eq(pb_bays_create(&f, &allocator, &bays), PB_OK);
    const PbFramedBay *list = pb_bays_list(bays, &count);
    for (int n = 0; n < count; n++) {
        left += list[n].why != NULL;
        parted += list[n].is_parted;
        narrow += list[n].is_narrow;
    }
    ck_assert_int_eq(count, want->bays);
    ck_assert_int_eq(left, want->left);
    ck_assert_int_eq(parted, want->parted);
    ck_assert_int_eq(narrow, want->narrow);
    ck_assert_double_eq_tol(pb_bays_areas(bays).fill_kg, want->fill_kg, 0.01);
    pb_bays_destroy(bays);
}
END_TEST

#define HEAD                                                                                       \
    "{\"format\": \"pullback framing 1\", \"id\": \"w\", \"title\": \"W\",\n"                      \
    " \"wall\": {\"length_m\": 2, \"height_m\": 2.4},\n"

static const struct {
    const char *text, *message;
    int line, column;
} REFUSALS[] = {
    {HEAD " \"bay\": \"plain-2x4\"}", "\"members\" is missing", 1, 1},
    {HEAD " \"bay\": \"no-such\", \"members\": []}",
     "\"bay\": there is no exercise \"no-such\" in assets/exercises", 3, 9},
    {HEAD " \"bay\": \"../x\", \"members\": []}",
     "\"bay\": there is no exercise \"../x\" in assets/exercises", 3, 9},
    {HEAD " \"bay\": \"plain-2x4\", \"members\": [\n 3]}", "expected { \"kind\": ..., ... }", 4, 2},
    {HEAD " \"bay\": \"plain-2x4\", \"members\": [\n {\"kind\": \"stud\", \"x0_m\": 0, \"y0_m\": "
          "0,\n \"x1_m\": 2.5, \"y1_m\": 2}]}",
     "\"x1_m\": 2.5 is outside the wall, expected 0 to 2 m", 5, 10},
};

START_TEST(complaints_point_at_the_place)
{
    PbError err = {0};
    const char *text = REFUSALS[_i].text;
    ck_assert_int_ne(io_framing_parse("w.json", text, strlen(text), folders, 1, &f, &err), PB_OK);
    ck_assert_msg(strstr(err.message, REFUSALS[_i].message) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, REFUSALS[_i].line);
    ck_assert_int_eq(err.column, REFUSALS[_i].column);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("framing file");
    TCase *t = tcase_create("normal");
    tcase_add_loop_test(t, shipped_walls_have_their_bays, 0, sizeof SHIPPED / sizeof SHIPPED[0]);
    tcase_add_loop_test(t, complaints_point_at_the_place, 0, sizeof REFUSALS / sizeof REFUSALS[0]);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
