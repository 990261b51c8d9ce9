/* Files of acts and of jobs: what is refused at which place, and that a job comes back from its
 * file the same, also from one that was cut off. */
#include "suite.h"

#include "io/job_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define HEAD "{\"format\": \"pullback job acts 1\",\n \"name\": \"c\",\n"

static const char *const folders[] = {PB_TEST_SOURCE_DIR "/assets"};
static PbError err;
static IoJobActs acts;

typedef struct Refusal {
    const char *text, *message;
    int line, column;
} Refusal;

static const Refusal REFUSALS[] = {
    {HEAD " \"acts\": [{\"act\": \"dance\"}]}",
     "\"act\": expected one of \"tap\", \"measure\", \"probe\", \"drill\", \"tube\", \"camera\", "
     "\"pencil\", \"rub-out\", \"leave\", \"sense\", \"look\", \"check\", \"protect\", "
     "\"estimate\", \"test\", \"seal\", \"fill\", \"plug\", \"patch\", \"clean\", \"finger\", "
     "\"core\", \"camera-after\", \"leak-test\", \"write\"",
     3, 19},
    {HEAD " \"acts\": [{\"act\": \"drill\", \"x_m\": 1}]}", "\"y_m\" is missing here", 3, 11},
    {HEAD " \"acts\": [{\"act\": \"drill\", \"x_m\": 99, \"y_m\": 1}]}",
     "\"x_m\": 99 is out of range, expected 0 to 15 m", 3, 35},
    {HEAD " \"acts\": [{\"act\": \"look\", \"loud\": true}]}", "unknown key \"loud\"", 3, 27},
    {HEAD " \"acts\": [{\"act\": \"fill\", \"x_m\": 1, \"y_m\": 1, \"hands\": \"mine\"}]}",
     "\"hands\": there are no hands \"mine\" in this file, nor is it \"as-done\"", 3, 56},
    {HEAD " \"rule\": {\"find\": \"luck\"}}", "\"find\": expected one of \"careful\", \"tape\"", 3,
     19},
    {HEAD " \"hands\": [{\"name\": \"h\", \"step_m\": 9}],\n \"rule\": {\"find\": \"tape\"}}",
     "\"step_m\": 9 is out of range, expected 0.02 to 6 m", 3, 36},
    {HEAD " \"x\": 1}", "\"acts\" is missing here", 1, 1},
};

START_TEST(what_no_crew_can_do_is_refused_at_its_place)
{
    const Refusal *r = &REFUSALS[_i];
    ck_assert_int_ne(io_acts_parse("a.json", r->text, strlen(r->text), &acts, &err), PB_OK);
    ck_assert_str_eq(err.message, r->message);
    ck_assert_int_eq(err.line, r->line);
    ck_assert_int_eq(err.column, r->column);
    io_acts_free(&acts);
}
END_TEST

static void write_text(const char *path, const char *text, size_t size)
{
    FILE *f = fopen(path, "wb");
    ck_assert_ptr_nonnull(f);
    ck_assert_uint_eq(fwrite(text, 1, size, f), size);
    ck_assert_int_eq(fclose(f), 0);
}

static const char wall[] =
    "{\"format\": \"pullback framing 1\", \"id\": \"low\", \"title\": \"A low wall\",\n"
    " \"wall\": {\"length_m\": 0.82, \"height_m\": 0.8}, \"bay\": \"plain-2x4\",\n"
    " \"members\": [\n"
    "  {\"kind\": \"plate\", \"x0_m\": 0, \"y0_m\": 0, \"x1_m\": 0.82, \"y1_m\": 0.04},\n"
    "  {\"kind\": \"plate\", \"x0_m\": 0, \"y0_m\": 0.76, \"x1_m\": 0.82, \"y1_m\": 0.8},\n"
    "  {\"kind\": \"stud\", \"x0_m\": 0, \"y0_m\": 0.04, \"x1_m\": 0.04, \"y1_m\": 0.76},\n"
    "  {\"kind\": \"stud\", \"x0_m\": 0.39, \"y0_m\": 0.04, \"x1_m\": 0.43, \"y1_m\": 0.76},\n"
    "  {\"kind\": \"stud\", \"x0_m\": 0.78, \"y0_m\": 0.04, \"x1_m\": 0.82, \"y1_m\": 0.76}]}\n";

static const char crew[] =
    HEAD " \"acts\": [\n"
         "  {\"act\": \"check\"}, {\"act\": \"drill\", \"x_m\": 0.21, \"y_m\": 0.4},\n"
         "  {\"act\": \"drill\", \"x_m\": 0.6, \"y_m\": 0.4}, {\"act\": \"test\"},\n"
         "  {\"act\": \"fill\", \"x_m\": 0.21, \"y_m\": 0.4},\n"
         "  {\"act\": \"fill\", \"x_m\": 0.6, \"y_m\": 0.4, \"hands\": \"as-done\"}]}\n";

static PbJob *work(IoJob *in, const char *out)
{
    PbJob *job = NULL;
    FILE *f = out != NULL ? fopen(out, "wb") : NULL;
    PbJobMarks *marks = calloc(1, sizeof *marks);
    ck_assert_ptr_nonnull(marks);
    ck_assert_msg(io_job_work(in, f, &job, &err) == PB_OK, "%s", err.message);
    pb_job_mark(job, marks);
    if (f != NULL) {
        ck_assert_int_eq(io_job_end(f, job, marks, &err), PB_OK);
        ck_assert_int_eq(fclose(f), 0);
    }
    free(marks);
    return job;
}

START_TEST(a_job_comes_back_from_its_file)
{
    static IoJob in, back;
    char *text;
    size_t size;
    write_text("low wall.json", wall, sizeof wall - 1);
    write_text("low crew.json", crew, sizeof crew - 1);
    ck_assert_msg(io_job_of("low wall.json", "low crew.json", folders, 1, &in, &err) == PB_OK, "%s",
                  err.message);
    in.seed = 3;
    in.threads = 2;
    PbJob *job = work(&in, "low.pbjob");
    ck_assert_int_eq(io_is_job("low.pbjob"), 1);
    ck_assert_int_eq(io_is_job("low wall.json"), 0);
    ck_assert_msg(io_job_load("low.pbjob", NULL, 0, &back, &err) == PB_OK, "%d: %s", err.line,
                  err.message);
    ck_assert_int_eq(back.is_ended, 1);
    ck_assert_int_eq(back.fill_count, 2);
    ck_assert(back.hash == pb_job_hash(job));
    back.threads = 1;
    PbJob *again = work(&back, NULL);
    ck_assert(pb_job_hash(again) == pb_job_hash(job));
    ck_assert(back.fill_hash[1] == pb_job_fill(again, 1)->result.state_hash);
    pb_job_destroy(again);
    pb_job_destroy(job);
    io_job_free(&back);
    io_job_free(&in);

    /* killed while the second fill was written down */
    ck_assert_int_eq(io_read_file("low.pbjob", 1u << 20, &text, &size, &err), PB_OK);
    char *second = strstr(text, "{\"fill\":2");
    ck_assert_ptr_nonnull(second);
    write_text("cut.pbjob", text, (size_t)(second - text) + 12);
    memset(&back, 0, sizeof back);
    ck_assert_int_eq(io_job_load("cut.pbjob", NULL, 0, &back, &err), PB_OK);
    ck_assert_int_eq(back.is_ended, 0);
    ck_assert_int_eq(back.fill_count, 1);
    io_job_free(&back);
    free(text);
}
END_TEST

START_TEST(an_act_that_cannot_be_done_is_told_at_its_place)
{
    static IoJob in;
    static const char bad[] = HEAD " \"acts\": [\n  {\"act\": \"check\"},\n"
                                   "  {\"act\": \"fill\", \"x_m\": 0.2, \"y_m\": 0.4}]}\n";
    PbJob *job = NULL;
    write_text("low wall.json", wall, sizeof wall - 1);
    write_text("bad crew.json", bad, sizeof bad - 1);
    ck_assert_int_eq(io_job_of("low wall.json", "bad crew.json", folders, 1, &in, &err), PB_OK);
    ck_assert_int_eq(io_job_work(&in, NULL, &job, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message, "act 2 cannot be done: there is no clear hole at 0.200, 0.400 m");
    ck_assert_int_eq(err.line, 5);
    ck_assert_int_eq(err.column, 3);
    ck_assert_str_eq(err.file, "bad crew.json");
    io_job_free(&in);
}
END_TEST

START_TEST(damaged_job_files_are_refused)
{
    static IoJob back;
    static const char *const BAD[] = {
        "{\"format\":\"pullback job 1\",\"physics\":4}\n",
        "{\"format\":\"pullback job 1\"",
        ("{\"format\":\"pullback job 1\",\"physics\":4,\"seed\":1,\"cells_across\":16,\"wall\":1,"
         "\"acts\":{}}\n"),
        "",
    };
    for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
        memset(&back, 0, sizeof back);
        write_text("bad.pbjob", BAD[i], strlen(BAD[i]));
        ck_assert_int_ne(io_job_load("bad.pbjob", NULL, 0, &back, &err), PB_OK);
        io_job_free(&back);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job_file");
    TCase *t = tcase_create("files");
    tcase_set_timeout(t, 120);
    tcase_add_loop_test(t, what_no_crew_can_do_is_refused_at_its_place, 0,
                        sizeof REFUSALS / sizeof REFUSALS[0]);
    tcase_add_test(t, a_job_comes_back_from_its_file);
    tcase_add_test(t, an_act_that_cannot_be_done_is_told_at_its_place);
    tcase_add_test(t, damaged_job_files_are_refused);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
