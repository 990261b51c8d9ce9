/* Ids from names: what RFC 9562 gives as its example, and names around the size of a block. */
#include "name_id.h"

#include "suite.h"

#include <string.h>

static const char *id_of(const char *name)
{
    static char id[IO_NAME_ID];
    io_name_id(name, strlen(name), id);
    return id;
}

START_TEST(an_id_is_that_of_the_standard)
{
    /* Computed by another program (Python's uuid.uuid5 with NAMESPACE_URL). */
    ck_assert_str_eq(id_of("http://www.example.com/"), "fcde3c85-2270-590f-9e7c-ee003d65e0e2");
    ck_assert_str_eq(id_of(""), "1b4db7eb-4057-5ddf-91e0-36dec72071f5");
}
END_TEST

/* 39 letters fill the first block less its length, 40 do not; 103 and 104 so the second. */
START_TEST(a_name_may_end_anywhere_in_a_block)
{
    static const struct {
        int letters;
        const char *id;
    } rows[] = {{39, "615eac0e-03db-567b-8580-916c1aca1cc2"},
                {40, "c5c985c8-6875-5a42-b6e3-2872703afed4"},
                {47, "60100e11-180f-59cb-911f-bdb3aa734c9d"},
                {48, "aa33c522-9edc-58a5-b5af-e2a12995886e"},
                {103, "d95b9427-a1cc-5a01-876a-6367661db75c"},
                {104, "03762118-5c69-5fbd-8fe6-063863f5ae19"},
                {320, "8c8cfe18-d22d-59fd-99d0-f1338d3f44b4"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char name[400] = "";
        memset(name, 'a', (size_t)rows[i].letters);
        ck_assert_str_eq(id_of(name), rows[i].id);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("name_id");
    TCase *t = tcase_create("name_id");
    tcase_add_test(t, an_id_is_that_of_the_standard);
    tcase_add_test(t, a_name_may_end_anywhere_in_a_block);
    suite_add_tcase(s, t);
    return run_suite(s);
}
