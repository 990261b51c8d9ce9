/* The page of the day in Side by side: each state can be read whole in every view; what is typed
 * becomes the house's proof, a group that is not whole and a figure out of range are refused at
 * their field, and units may change in between. */
#include "rooms.h"
#include "side/side.h"

#include <string.h>

static App *app;

static void begin(void)
{
    app = rooms_open();
    rooms_go(app, SCREEN_SIDE);
    side_job_cancel(app->side->job); /* the figures of the other pages are not looked at */
    memset(&app->side->house.proof, 0, sizeof app->side->house.proof);
    side_go(app, SIDE_PROOF);
}

static void end(void)
{
    rooms_close(app);
}

static void type(IoProofRow row, const char *text)
{
    SDL_strlcpy(app->side->proof.text[row], text, sizeof app->side->proof.text[row]);
}

static const PbProof *used(void)
{
    return &app->side->house.proof;
}

START_TEST(all_can_be_read)
{
    SideProof *f = &app->side->proof;
    rooms_all_legible(app, "nothing measured");
    type(IO_PROOF_BAG_COUNT, "44.5");
    rooms_press(app, "proof_use", 0.5, 0.5);
    ck_assert_int_eq(f->bad, IO_PROOF_AREA);
    rooms_all_legible(app, "refused");
    app->side->house.proof =
        (PbProof){118.0, 44.5, 11.34, {58.0, 61.0, 66.0}, 3, {1.6, 14.0}, {1.0, 13.0}, 1.05, 0.86};
    side_proof_open(app);
    side_proof_forget(app->side);
    rooms_all_legible(app, "measured");
    SideProofJob job;
    memset(&job, 0, sizeof job);
    SDL_AtomicSet(&job.is_over, 1);
    for (int i = 0; i < 4; i++) {
        PbProofTime *t = i < 2 ? &job.update.predicted[i] : &job.update.measured[i - 2];
        *t = (PbProofTime){i % 2 ? 30.0 : 0.0, {1.7, 1.9, 2.0}, {0.0, 0.1, 0.2}, {.is_ready = 1}};
        t->saving.draws = t->saving.kept = job.update.draws = 20;
        t->saving.units = (PbHeatRange){8000.0, 12000.0, 17000.0};
        t->saving.money = (PbHeatRange){800.0, 1200.0, 1600.0};
    }
    f->job = &job;
    rooms_all_legible(app, "predicted and measured");
    f->job = NULL;
}
END_TEST

START_TEST(what_is_typed_becomes_the_proof)
{
    type(IO_PROOF_AREA, "118");
    type(IO_PROOF_BAG_COUNT, "44,5");
    type(IO_PROOF_BAG_MASS, "11.34");
    type(IO_PROOF_CORE_1, "58");
    type(IO_PROOF_CORE_3, "63"); /* the second was not cut */
    rooms_press(app, "proof_use", 0.5, 0.5);
    ck_assert_int_eq(app->side->proof.bad, -1);
    ck_assert_double_eq(used()->bags, 44.5);
    ck_assert_int_eq(used()->core_count, 2);
    ck_assert_double_eq(used()->core_kg_m3[1], 63.0);
    ck_assert_str_eq(app->side->proof.text[IO_PROOF_CORE_2], "63");
    ck_assert_double_eq(used()->leak_before_m3_s, 0.0);
    /* in US units and back: what was not touched keeps its last digit */
    app->taste.is_us = 1;
    side_proof_update(app, app->side); /* as at the next frame */
    ck_assert_str_eq(app->side->proof.text[IO_PROOF_AREA], "1270");
    rooms_press(app, "proof_use", 0.5, 0.5);
    ck_assert_double_eq(used()->area_m2, 118.0);
    type(IO_PROOF_LEAK_BEFORE, "2000");
    type(IO_PROOF_LEAK_AFTER, "1500");
    rooms_press(app, "proof_use", 0.5, 0.5);
    ck_assert_double_eq_tol(used()->leak_before_m3_s, 2000.0 * 0.3048 * 0.3048 * 0.3048 / 60.0,
                            1e-9);
    for (int i = IO_PROOF_AREA; i <= IO_PROOF_BAG_MASS; i++) { /* rubbed out: not measured */
        type((IoProofRow)i, "");
    }
    rooms_press(app, "proof_use", 0.5, 0.5);
    ck_assert_double_eq(used()->bags, 0.0);
    ck_assert_int_eq(used()->core_count, 2);
}
END_TEST

static const struct {
    IoProofRow row, bad;
    const char *text, *says;
} off[] = {
    {IO_PROOF_CORE_1, IO_PROOF_CORE_1, "soft",
     "\"soft\" is not a number; expected one from 5 to 200"},
    {IO_PROOF_CORE_2, IO_PROOF_CORE_2, "3.8", "3.8 is out of range; expected 5 to 200 kg/m³"},
    {IO_PROOF_LEAK_AFTER, IO_PROOF_LEAK_BEFORE, "900", "is missing"},
    {IO_PROOF_BAG_COUNT, IO_PROOF_AREA, "40", "is missing"},
};
enum { OFF = sizeof off / sizeof off[0] };

START_TEST(refuses_at_the_field)
{
    type(off[_i].row, off[_i].text);
    rooms_press(app, "proof_use", 0.5, 0.5);
    ck_assert_int_eq(app->side->proof.bad, off[_i].bad);
    ck_assert_msg(strstr(app->side->proof.says, off[_i].says) != NULL, "%s", app->side->proof.says);
    ck_assert(!pb_proof_has_any(used()));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("room_side_proof");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, begin, end);
    tcase_add_test(tc, all_can_be_read);
    tcase_add_test(tc, what_is_typed_becomes_the_proof);
    tcase_add_loop_test(tc, refuses_at_the_field, 0, OFF);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
