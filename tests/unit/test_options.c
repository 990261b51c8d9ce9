/* The table of options of a verb: what is read, what is refused, what was given. */
#include "suite.h"

#include "cli/options.h"

typedef struct Asked {
    int is_json, count, which;
    const char *name;
    uint64_t seed;
    double share;
} Asked;

static const char *const words[] = {"red", "blue"};
#define AT(member) .at = offsetof(Asked, member)
static const CliOption rows[] = {
    {"--json", NULL, "for programs", cli_take_flag, AT(is_json)},
    {"--name", "TEXT", "a name", cli_take_text, AT(name)},
    {"--seed", "N", "a seed", cli_take_seed, AT(seed), .high = 100.0},
    {"--count", "N", "how many", cli_take_whole, AT(count), NULL, 1, 16},
    {"--share", "X", "how much", cli_take_number, AT(share), NULL, 0.25, 1.0},
    {"--color", "red|blue", "which", cli_take_word, AT(which), .words = words, .word_count = 2},
    {.name = NULL},
};
static const CliVerb verb = {"sing", "", "SONG [options]", rows, NULL, NULL};
static Asked asked;
static CliParsed parsed;
static char *argv[10];

/* The words behind the verb; at most two plain ones. */
static int parse(int count, const char *const *text)
{
    asked = (Asked){.which = -1};
    argv[0] = (char *)(size_t) "sing";
    for (int i = 0; i < count; i++) {
        argv[1 + i] = (char *)(size_t)text[i];
    }
    return cli_parse(&verb, 1 + count, argv, &asked, 2, &parsed);
}

START_TEST(every_kind_is_read_into_its_member)
{
    static const char *const text[] = {"--json",  "--seed", "100",     "--count", "16",
                                       "--share", "0.25",   "--color", "blue"};
    ck_assert_int_eq(parse(9, text), CLI_DONE);
    ck_assert(asked.is_json == 1 && asked.seed == 100 && asked.count == 16 && asked.which == 1);
    ck_assert_double_eq(asked.share, 0.25);
    ck_assert_int_eq(parsed.count, 0);
    ck_assert(cli_is_given(&verb, &parsed, "--json") && cli_is_given(&verb, &parsed, "--color"));
    ck_assert(!cli_is_given(&verb, &parsed, "--name") && !cli_is_given(&verb, &parsed, "--other"));
}
END_TEST

START_TEST(plain_words_come_to_the_front_in_order)
{
    static const char *const text[] = {"one", "--name", "--json", "-"};
    ck_assert_int_eq(parse(4, text), CLI_DONE);
    ck_assert_int_eq(parsed.count, 2);
    ck_assert_str_eq(argv[1], "one");
    ck_assert_str_eq(argv[2], "-");
    ck_assert_str_eq(asked.name, "--json"); /* a value may look like an option */
    ck_assert_int_eq(asked.is_json, 0);
}
END_TEST

START_TEST(two_dashes_end_the_options)
{
    static const char *const text[] = {"--json", "--", "--seed"};
    ck_assert_int_eq(parse(3, text), CLI_DONE);
    ck_assert_int_eq(parsed.count, 1);
    ck_assert_str_eq(argv[1], "--seed");
}
END_TEST

START_TEST(the_last_of_two_counts)
{
    static const char *const text[] = {"--seed", "3", "--seed", "7"};
    ck_assert_int_eq(parse(4, text), CLI_DONE);
    ck_assert(asked.seed == 7);
}
END_TEST

static const struct {
    int count;
    const char *text[3];
} bad[] = {
    {1, {"--other"}},
    {1, {"-j"}},
    {1, {"--seed"}},
    {2, {"--seed", "101"}},
    {2, {"--seed", "-1"}},
    {2, {"--seed", " 7"}},
    {2, {"--seed", "7x"}},
    {2, {"--seed", "99999999999999999999"}},
    {2, {"--count", "0"}},
    {2, {"--count", "17"}},
    {2, {"--count", "1.5"}},
    {2, {"--share", "0.2"}},
    {2, {"--share", "1.001"}},
    {2, {"--share", "nan"}},
    {2, {"--share", "0x1"}},
    {2, {"--color", "green"}},
    {3, {"one", "two", "three"}},
};

START_TEST(anything_else_is_refused)
{
    ck_assert_int_eq(parse(bad[_i].count, bad[_i].text), CLI_USAGE);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("options");
    TCase *tc = tcase_create("all");
    tcase_add_test(tc, every_kind_is_read_into_its_member);
    tcase_add_test(tc, plain_words_come_to_the_front_in_order);
    tcase_add_test(tc, two_dashes_end_the_options);
    tcase_add_test(tc, the_last_of_two_counts);
    tcase_add_loop_test(tc, anything_else_is_refused, 0, (int)(sizeof bad / sizeof bad[0]));
    suite_add_tcase(s, tc);
    return run_suite(s);
}
