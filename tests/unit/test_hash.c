/* FNV-1a against its published test values, and the fixed byte order of numbers. */
#include "core/hash.h"

#include "suite.h"

/* Published 64-bit FNV-1a values: IETF draft-eastlake-fnv, test vectors for "", "a", "foobar". */
START_TEST(gives_the_published_values)
{
    ck_assert_uint_eq(pb_hash_bytes(PB_HASH_START, "", 0), 0xcbf29ce484222325ULL);
    ck_assert_uint_eq(pb_hash_bytes(PB_HASH_START, "a", 1), 0xaf63dc4c8601ec8cULL);
    ck_assert_uint_eq(pb_hash_bytes(PB_HASH_START, "foobar", 6), 0x85944171f73967e8ULL);
}
END_TEST

START_TEST(takes_numbers_lowest_byte_first)
{
    const unsigned char bytes[8] = {8, 7, 6, 5, 4, 3, 2, 1};
    ck_assert_uint_eq(pb_hash_u64(PB_HASH_START, 0x0102030405060708ULL),
                      pb_hash_bytes(PB_HASH_START, bytes, 8));
}
END_TEST

START_TEST(sees_every_bit_of_a_double)
{
    double a = 1.0, b = 1.0 + 0x1p-52, zero = 0.0, minus = -0.0;
    ck_assert_uint_ne(pb_hash_doubles(PB_HASH_START, &a, 1), pb_hash_doubles(PB_HASH_START, &b, 1));
    ck_assert_uint_ne(pb_hash_doubles(PB_HASH_START, &zero, 1),
                      pb_hash_doubles(PB_HASH_START, &minus, 1));
    ck_assert_uint_eq(pb_hash_doubles(PB_HASH_START, &a, 1),
                      pb_hash_u64(PB_HASH_START, 0x3FF0000000000000ULL));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("hash");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, gives_the_published_values);
    tcase_add_test(tc, takes_numbers_lowest_byte_first);
    tcase_add_test(tc, sees_every_bit_of_a_double);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
