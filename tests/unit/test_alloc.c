/* The default allocator and the arena that every session lives in. */
#include "core/alloc.h"

#include "suite.h"

#include <stdint.h>
#include <string.h>

START_TEST(gives_memory_aligned_for_vectors)
{
    PbAllocator a = pb_allocator_default();
    for (size_t bytes = 1; bytes < 5000; bytes = bytes * 3 + 1) {
        void *p = a.alloc(a.user, bytes);
        ck_assert_ptr_nonnull(p);
        ck_assert_uint_eq((uintptr_t)p % 64u, 0);
        memset(p, 1, bytes);
        a.free(a.user, p);
    }
    a.free(a.user, NULL);
}
END_TEST

START_TEST(refuses_nothing_and_everything)
{
    PbAllocator a = pb_allocator_default();
    ck_assert_ptr_null(a.alloc(a.user, 0));
    ck_assert_ptr_null(a.alloc(a.user, SIZE_MAX));
}
END_TEST

START_TEST(measures_the_same_layout_that_it_places)
{
    static _Alignas(64) unsigned char block[1024];
    memset(block, 0xAB, sizeof block);
    PbArena measure = {NULL, 0, 0};
    ck_assert_ptr_null(pb_arena_take(&measure, 65));
    ck_assert_ptr_null(pb_arena_take(&measure, 8));
    PbArena place = {block, 0, sizeof block};
    unsigned char *first = pb_arena_take(&place, 65);
    unsigned char *second = pb_arena_take(&place, 8);
    ck_assert_uint_eq(place.used, measure.used);
    ck_assert_ptr_eq(first, block);
    ck_assert_ptr_eq(second, block + 128);
    for (int i = 0; i < 65; i++) {
        ck_assert_uint_eq(first[i], 0);
    }
}
END_TEST

START_TEST(says_when_the_arena_is_full_and_leaves_it_alone)
{
    static _Alignas(64) unsigned char block[192];
    PbArena arena = {block, 0, sizeof block};
    ck_assert_ptr_nonnull(pb_arena_take(&arena, 100));
    ck_assert_ptr_null(pb_arena_take(&arena, 65));
    ck_assert_uint_eq(arena.used, 128);
    ck_assert_ptr_nonnull(pb_arena_take(&arena, 64));
    ck_assert_ptr_null(pb_arena_take(&arena, 1));
    PbArena empty = {block, 0, sizeof block};
    ck_assert_ptr_null(pb_arena_take(&empty, SIZE_MAX)); /* rounding up must not wrap to nothing */
    ck_assert_uint_eq(empty.used, 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("alloc");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, gives_memory_aligned_for_vectors);
    tcase_add_test(tc, measures_the_same_layout_that_it_places);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, refuses_nothing_and_everything);
    tcase_add_test(tc, says_when_the_arena_is_full_and_leaves_it_alone);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
