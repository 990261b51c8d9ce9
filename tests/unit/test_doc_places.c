/* The JSON reader: every complaint stands where the trouble is, and refusals change nothing. */
#include "io/doc.h"

#include "suite.h"

#include <stdio.h>
#include <string.h>

static PbStatus parse(const char *text, IoDoc *doc, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_doc_parse("bay.json", text, strlen(text), doc, err);
}

START_TEST(reads_every_kind_of_value)
{
    const char *text = "{ \"width_m\": 0.37, \"bays\": 3, \"on\": true,\n"
                       "  \"name\": \"Käfer\", \"kind\": \"wall\", \"list\": [1, 2.5] }";
    IoDoc doc;
    PbError err;
    ck_assert_int_eq(parse(text, &doc, &err), PB_OK);
    IoReader r = io_reader(&doc, &err);
    double width = 0, item = 0, absent = 4;
    long long bays = 0;
    int on = 0, kind = -1;
    char name[16];
    const char *const kinds[] = {"slope", "wall"};
    io_number(&r, doc.root, "width_m", 1, 0.1, 1, "m", &width);
    io_integer(&r, doc.root, "bays", 1, 1, 9, &bays);
    io_bool(&r, doc.root, "on", 1, &on);
    io_text(&r, doc.root, "name", 1, name, sizeof name);
    io_choice(&r, doc.root, "kind", 1, kinds, 2, &kind);
    io_number(&r, doc.root, "not_there", 0, 0, 1, "m", &absent);
    IoValue *list = io_array(&r, doc.root, "list", 1, 1, 4);
    io_value_number(&r, &list->child[1], 0, 9, "m", &item);
    io_end(&r, doc.root);
    ck_assert_int_eq(r.status, PB_OK);
    ck_assert_double_eq(width, 0.37);
    ck_assert_int_eq(bays, 3);
    ck_assert_int_eq(on, 1);
    ck_assert_str_eq(name, "Käfer");
    ck_assert_int_eq(kind, 1);
    ck_assert_double_eq(absent, 4);
    ck_assert_double_eq(item, 2.5);
    ck_assert_ptr_eq(io_find(&doc, "list/1"), &list->child[1]);
    ck_assert_ptr_eq(io_find(&doc, "list/7"), list);
    io_doc_free(&doc);
}
END_TEST

/* text, what the reader below must say of it */
static const struct {
    const char *text, *line;
} refused[] = {
    {"", "bay.json:1:1: the file is empty"},
    {" \n\t", "bay.json:1:1: the file is empty"},
    {"[1]", "bay.json:1:1: expected a JSON object"},
    {"{\"width_m\": 01}", "bay.json:1:13: not valid JSON"},
    {"{\"width_m\": NaN}", "bay.json:1:"},
    {"{\"width_m\": 1e999}", "bay.json:1:"},
    {"{\"width_m\": 0.4,\n \"width_m\": 0.5}", "bay.json:2:"},
    {"{\"width_m\": 0.4", "bay.json:1:"},
    {"{\"width_m\": \"\xff\"}", "bay.json:1:"},
    {"{\n  \"width_m\": 7}", "bay.json:2:14: \"width_m\": 7 is out of range, expected 0.1 to 1 m"},
    {"{\n  \"width_m\":\n \"wide\"}", "bay.json:3:2: \"width_m\": expected a number"},
    {"{\"width_m\": null}", "bay.json:1:13: \"width_m\": expected a number"},
    {"{}", "bay.json:1:1: \"width_m\" is missing here"},
    {"{\"width_m\": 0.4,\n\"widht\": 1}", "bay.json:2:1: unknown key \"widht\""},
    {"{\"width_m\": \"cut\\\n\"}", "bay.json:2:1: not valid JSON"},
    {"{\"width_m\": 1, \"a\\n\\u001b[1m\": 1}", "bay.json:1:16: unknown key \"a??[1m\""},
    {"\xef\xbb\xbf{\"width_m\": 0.4}", "bay.json:1:1: not valid JSON: the file begins with a byte "
                                       "order mark"},
    {"{\"width_m\": 0.4, \"a\xc2\x9b[1m\": 1}", "bay.json:1:18: unknown key \"a??[1m\""},
    {"{\"ö\\\"\": 1, \"width_m\": 9}", "bay.json:1:23: \"width_m\": 9 is out of range"},
};

START_TEST(complains_where_the_trouble_is)
{
    IoDoc doc;
    PbError err;
    double width = 0.25;
    if (parse(refused[_i].text, &doc, &err) == PB_OK) {
        IoReader r = io_reader(&doc, &err);
        io_number(&r, doc.root, "width_m", 1, 0.1, 1, "m", &width);
        io_end(&r, doc.root);
        ck_assert_int_ne(r.status, PB_OK);
        io_doc_free(&doc);
    }
    char line[1024];
    io_error_line(&err, line, sizeof line);
    ck_assert_msg(strncmp(line, refused[_i].line, strlen(refused[_i].line)) == 0, "got: %s", line);
    ck_assert_ptr_null(strchr(line, '\n'));
    ck_assert(width == 0.25 || width == 0.4 || width == 1.0);
}
END_TEST

/* Bytes of a larger file, as an exercise stands in a run: nothing ends them but their count. */
START_TEST(reads_no_further_than_it_is_told)
{
    static const char text[] = {'{', '"', 'a', '"', ':', '5', '}', '9', ' ', ' '};
    IoDoc doc;
    PbError err;
    ck_assert_int_eq(io_doc_parse("bay.json", text, 7, &doc, &err), PB_OK);
    io_doc_free(&doc);
    ck_assert_int_eq(io_doc_parse("bay.json", text + 8, 2, &doc, &err), PB_ERR_FORMAT);
    ck_assert_ptr_nonnull(strstr(err.message, "empty"));
    ck_assert_int_eq(io_doc_parse("bay.json", text, 8, &doc, &err), PB_ERR_FORMAT);
}
END_TEST

START_TEST(takes_no_text_that_steers_a_terminal)
{
    static const char *const bad[] = {"{\"t\": \"a\\u001b[1m\"}", "{\"t\": \"a\xc2\x9b\"}",
                                      "{\"t\": \"\\u0085\"}", "{\"t\": \"\\u007f\"}"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        IoDoc doc;
        PbError err;
        char out[16] = "as it was";
        ck_assert_int_eq(parse(bad[i], &doc, &err), PB_OK);
        IoReader r = io_reader(&doc, &err);
        io_text(&r, doc.root, "t", 1, out, sizeof out);
        ck_assert_int_eq(r.status, PB_ERR_FORMAT);
        ck_assert_str_eq(out, "as it was");
        io_doc_free(&doc);
    }
}
END_TEST

START_TEST(keeps_the_first_complaint)
{
    IoDoc doc;
    PbError err;
    ck_assert_int_eq(parse("{\"a\": 5, \"b\": 5}", &doc, &err), PB_OK);
    IoReader r = io_reader(&doc, &err);
    double x = 0;
    io_number(&r, doc.root, "a", 1, 0, 1, "m", &x);
    io_number(&r, doc.root, "b", 1, 0, 9, "m", &x);
    ck_assert_double_eq(x, 0);
    ck_assert_int_eq(r.status, PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "\"a\""));
    io_doc_free(&doc);
}
END_TEST

START_TEST(refuses_a_nul_byte_at_its_place)
{
    static const char text[] = "{\"a\": [5\0, 6],\n \"b\": 7}";
    IoDoc doc;
    PbError err;
    ck_assert_int_eq(io_doc_parse("bay.json", text, sizeof text - 1, &doc, &err), PB_ERR_FORMAT);
    ck_assert_int_eq(err.line, 1);
    ck_assert_int_eq(err.column, 9);
}
END_TEST

START_TEST(survives_deep_nesting)
{
    static char text[200001];
    memset(text, '[', 200000);
    IoDoc doc;
    PbError err;
    ck_assert_int_eq(parse(text, &doc, &err), PB_ERR_FORMAT);
    ck_assert_int_eq(err.line, 1);
}
END_TEST

START_TEST(refuses_files_that_are_absent_folders_or_too_large)
{
    char *text = NULL;
    size_t size = 0;
    PbError err;
    ck_assert_int_eq(io_read_file("/no/such/file", 10, &text, &size, &err), PB_ERR_IO);
    ck_assert_int_eq(io_read_file("/", 10, &text, &size, &err), PB_ERR_IO);
    ck_assert_int_eq(io_read_file("/dev/zero", 100000, &text, &size, &err), PB_ERR_FORMAT);
    ck_assert_ptr_null(text);
    ck_assert_int_eq(io_read_file("/dev/null", 10, &text, &size, &err), PB_OK);
    ck_assert_uint_eq(size, 0);
    free(text);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("doc");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, reads_every_kind_of_value);
    tcase_add_test(tc, reads_no_further_than_it_is_told);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_loop_test(tc, complains_where_the_trouble_is, 0,
                        (int)(sizeof refused / sizeof refused[0]));
    tcase_add_test(tc, takes_no_text_that_steers_a_terminal);
    tcase_add_test(tc, keeps_the_first_complaint);
    tcase_add_test(tc, refuses_a_nul_byte_at_its_place);
    tcase_add_test(tc, survives_deep_nesting);
    tcase_add_test(tc, refuses_files_that_are_absent_folders_or_too_large);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
