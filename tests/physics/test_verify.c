/* Every row of `verify` comes out as it says: inside its limits, or known to speak against us. How
 * many of each kind there are is held, so that no row changes what it is worth unseen. */
#include "suite.h"

#include "lab/verify.h"

#include <string.h>

typedef struct Family {
    const char *name;
    void (*rows)(const VerifySink *sink);
    int kinds[VERIFY_KINDS]; /* exact, calculation, own code, held out, measured, calibrated, target
                              */
    int against;
} Family;

static const Family FAMILIES[] = {
    {"pack", verify_pack, {6, 1, 1, 7, 4, 4, 0}, 4},
    {"heat", verify_heat, {9, 118, 71, 0, 0, 0, 3}, 0},
    {"settle and foam", verify_years, {10, 0, 2, 20, 0, 7, 1}, 3},
};

typedef struct Count {
    int kinds[VERIFY_KINDS], against;
} Count;

static void judge(void *user, const VerifyRow *row)
{
    Count *count = user;
    VerifyVerdict verdict = verify_judge(row);
    ck_assert_msg(verdict != VERIFY_FAIL, "%s: %g, limits %g to %g%s", row->id, row->ours,
                  row->accept_low, row->accept_high, row->against != NULL ? ", but against" : "");
    ck_assert(row->source.text[0] != '\0' && row->reference_low <= row->reference_high);
    ck_assert_msg(strstr(row->quantity, "calibrated") == NULL, "%s: its kind says so", row->id);
    count->kinds[row->source.kind]++;
    count->against += verdict == VERIFY_AGAINST;
}

START_TEST(rows_come_out_as_they_say)
{
    const Family *family = &FAMILIES[_i];
    Count count = {{0}, 0};
    VerifySink sink = {judge, &count};
    family->rows(&sink);
    for (int kind = 0; kind < VERIFY_KINDS; kind++) {
        ck_assert_msg(count.kinds[kind] == family->kinds[kind], "%s: %d rows \"%s\", expected %d",
                      family->name, count.kinds[kind], verify_kind_words[kind],
                      family->kinds[kind]);
    }
    ck_assert_int_eq(count.against, family->against);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("verify");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 200);
    tcase_add_loop_test(tc, rows_come_out_as_they_say, 0, 3);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
