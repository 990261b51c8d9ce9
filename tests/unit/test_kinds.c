/* Kinds of obstacle and finish: every row says everything, and the page of the format names it. */
#include "core/kinds.h"

#include "io/doc.h"
#include "suite.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void is_a_word_of_its_own(const char *word, const char *before)
{
    ck_assert(word != NULL && word[0] != '\0');
    ck_assert_uint_eq(strspn(word, "abcdefghijklmnopqrstuvwxyz0123456789-."), strlen(word));
    ck_assert(before == NULL || strcmp(word, before) != 0);
}

START_TEST(every_obstacle_has_its_row)
{
    for (int k = 0; k < PB_OBSTACLE_KINDS; k++) {
        const PbObstacleTraits *t = pb_obstacle_traits((PbObstacleKind)k);
        for (int other = 0; other < k; other++) {
            is_a_word_of_its_own(t->word, pb_obstacle_traits((PbObstacleKind)other)->word);
        }
        /* only a rectangle is moved to cell edges, is filled with a batt, or carries a cover */
        ck_assert_msg(t->is_rectangle || (!t->is_snapped && !t->is_batt && !t->has_cover), "%s",
                      t->word);
        ck_assert_msg(!t->is_batt || !t->is_snapped, "%s: air passes it", t->word);
    }
    ck_assert_str_eq(pb_obstacle_traits(PB_OBSTACLE_BLOCK)->word, "block");
    ck_assert(pb_obstacle_traits(PB_OBSTACLE_BATT)->is_batt);
    ck_assert(pb_obstacle_traits(PB_OBSTACLE_BOX)->has_cover);
}
END_TEST

START_TEST(every_finish_has_its_row)
{
    PbConstants c = pb_constants_default();
    for (int k = 0; k < PB_FINISHES; k++) {
        const PbFinishTraits *t = pb_finish_traits((PbFinish)k);
        double strength, ei;
        for (int other = 0; other < k; other++) {
            is_a_word_of_its_own(t->word, pb_finish_traits((PbFinish)other)->word);
        }
        memcpy(&strength, (const char *)&c + t->strength_pa, sizeof strength);
        memcpy(&ei, (const char *)&c + t->stiffness_ei, sizeof ei);
        ck_assert_msg(strength > 500.0 && strength < 50000.0, "%s: %g Pa", t->word, strength);
        ck_assert_msg(ei > 1.0 && ei < 5000.0, "%s: %g N m", t->word, ei);
    }
    const PbFinishTraits *plaster = pb_finish_traits(PB_FINISH_PLASTER);
    ck_assert(plaster->face == PB_FACE_LATH && plaster->skin == PB_SKIN_PLASTER);
    ck_assert(!plaster->is_fastened && pb_finish_traits(PB_FINISH_GYPSUM_9_5)->is_fastened);
    ck_assert(pb_finish_traits(PB_FINISH_PANELLING)->is_weak);
}
END_TEST

START_TEST(every_word_stands_in_the_documentation)
{
    char *text, word[64];
    size_t size;
    PbError err;
    ck_assert_int_eq(
        io_read_file(PB_TEST_SOURCE_DIR "/docs/formats/exercise.md", 1u << 20, &text, &size, &err),
        PB_OK);
    for (int k = 0; k < PB_OBSTACLE_KINDS + PB_FINISHES; k++) {
        snprintf(word, sizeof word, "`%s`",
                 k < PB_OBSTACLE_KINDS ? pb_obstacle_traits((PbObstacleKind)k)->word
                                       : pb_finish_traits((PbFinish)(k - PB_OBSTACLE_KINDS))->word);
        ck_assert_msg(strstr(text, word) != NULL, "exercise.md lacks %s", word);
    }
    free(text);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("kinds");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, every_obstacle_has_its_row);
    tcase_add_test(normal, every_finish_has_its_row);
    tcase_add_test(normal, every_word_stands_in_the_documentation);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
