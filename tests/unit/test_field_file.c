/* Density files: what is written reads back bit for bit; whatever is wrong is named by place. */
#include "bays.h"

#include "core/rng.h"
#include "io/climate_file.h"
#include "io/field_file.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static char path[256];

static void setup(void)
{
    snprintf(path, sizeof path, "%s/field_%ld.tmp", PB_TEST_BINARY_DIR, (long)getpid());
}

static void teardown(void)
{
    remove(path);
}

static void put(const char *text)
{
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    fputs(text, f);
    ck_assert_int_eq(fclose(f), 0);
}

START_TEST(csv_reads_back_bit_for_bit)
{
    PbBayField a = bay_uniform(5, 7, 40.0), b;
    PbError err = {0};
    PbRng rng = pb_rng_make(1, 1);
    a.tilt_deg = 37.123456789;
    a.fill_rh_frac = 1.0 / 3.0;
    for (int i = 0; i < 35; i++) {
        a.density_kg_m3[i] = 70.0 * pb_rng_uniform(&rng);
        a.density_past_kg_m3[i] = a.density_kg_m3[i] * 1.1;
        a.lateral_pa[i] = 300.0 * pb_rng_uniform(&rng);
        a.free_frac[i] = i == 3 ? 0.25 : 1.0;
        a.batt_frac[i] = i == 3 ? 0.7 : 0.0;
    }
    ck_assert_int_eq(io_field_csv_write(path, &a, &err), PB_OK);
    ck_assert_msg(io_field_csv_read(path, &b, &err) == PB_OK, "%s", err.message);
    ck_assert(b.nx == 5 && b.ny == 7 && b.width_m == a.width_m && b.tilt_deg == a.tilt_deg);
    ck_assert(b.fill_rh_frac == a.fill_rh_frac);
    size_t n = 35 * sizeof(double);
    ck_assert_mem_eq(a.density_kg_m3, b.density_kg_m3, n);
    ck_assert_mem_eq(a.density_past_kg_m3, b.density_past_kg_m3, n);
    ck_assert_mem_eq(a.lateral_pa, b.lateral_pa, n);
    ck_assert_mem_eq(a.free_frac, b.free_frac, n);
    ck_assert_mem_eq(a.batt_frac, b.batt_frac, n);
    pb_bay_field_destroy(&a);
    pb_bay_field_destroy(&b);
}
END_TEST

#define HEAD                                                                                       \
    "# pullback density v1 nx=2 ny=1 width_m=0.4 height_m=0.5 depth_m=0.1 tilt_deg=90 rh=0.5\n"
#define BATT_NAMES "x_m,y_m,density_kg_m3,past_kg_m3,lateral_pa,free_frac,batt_frac\n"
#define NAMES      "x_m,y_m,density_kg_m3,past_kg_m3,lateral_pa,free_frac\n"

/* Six columns, as files of before had them: nothing in the bay is a batt, what is not free is wood.
 */
START_TEST(csv_without_batts_reads_as_wood)
{
    PbBayField b;
    PbError err = {0};
    put(HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.25,50,50,0,0.45\n");
    ck_assert_msg(io_field_csv_read(path, &b, &err) == PB_OK, "%s", err.message);
    ck_assert(b.free_frac[1] == 0.45 && b.batt_frac[0] == 0.0 && b.batt_frac[1] == 0.0);
    pb_bay_field_destroy(&b);
}
END_TEST

START_TEST(csv_complaints_name_line_and_column)
{
    static const struct {
        const char *text, *message;
        int line, column;
    } bad[] = {
        {"", "# pullback density v1", 1, 1},
        {"hello\n", "# pullback density v1", 1, 1},
        {"# pullback density v1 nx=0 ny=1 ", "nx", 1, 26},
        {"# pullback density v1 nx=1.5 ny=1 ", "whole number", 1, 26},
        {"# pullback density v1 nx=2 ny=1 width_m=x", "width_m", 1, 41},
        {"# pullback density v1 nx=2 ny=1 width_m=0.4 height_m=0.5 depth_m=0.1 tilt_deg=90 "
         "rh=1.5\n",
         "rh, a number from 0 to 1", 1, 85},
        {HEAD "x,y\n", "x_m,y_m", 2, 1},
        {HEAD BATT_NAMES "0.1,0.25,50,50,0,1\n", "\",\"", 3, 19},
        {HEAD BATT_NAMES "0.1,0.25,50,50,0,0.4,0.7\n", "batt_frac, a number from 0 to 0.6", 3, 22},
        {HEAD NAMES, "expected 2 rows", 3, 1},
        {HEAD NAMES "0.1,0.25,50,50,0,1\n", "expected 2 rows for 2 x 1 cells and found 1", 4, 1},
        {HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.25,-5,50,0,1\n", "density_kg_m3", 4, 10},
        {HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.25,201,50,0,1\n", "0 to 200", 4, 10},
        {HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.25,nan,50,0,1\n", "density_kg_m3", 4, 10},
        {HEAD NAMES "0.1,0.25,0x32,50,0,1\n", "density_kg_m3", 3, 10},
        {HEAD NAMES "0.1,0.25,50,50,0\n", "\",\"", 3, 17},
        {HEAD NAMES "0.1,0.25,50,50,0,1,9\n", "end of the line", 3, 19},
        {HEAD NAMES "0.1,0.75,50,50,0,1\n", "y_m", 3, 5},
        {HEAD NAMES "0.1,0.25,50,50,0,0\n0.3,0.25,1,1,0,1\n", "free_frac is 0", 3, 10},
        {HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.25,50,50,0,1\n0.3,0.25,50,50,0,1\n",
         "end of the file", 5, 1},
        {HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.2", "y_m", 4, 5},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PbBayField b = {.nx = -7};
        PbError err = {0};
        put(bad[i].text);
        PbStatus status = io_field_csv_read(path, &b, &err);
        ck_assert_msg(status == PB_ERR_FORMAT || status == PB_ERR_RANGE, "case %zu", i);
        ck_assert_msg(strstr(err.message, bad[i].message) != NULL, "case %zu: %s", i, err.message);
        ck_assert_msg(err.line == bad[i].line && err.column == bad[i].column, "case %zu: %d:%d %s",
                      i, err.line, err.column, err.message);
        ck_assert_int_eq(b.nx, -7); /* untouched */
    }
}
END_TEST

START_TEST(csv_complaints_about_the_whole_file_have_a_place_too)
{
    static const char binary[] = HEAD NAMES "0.1,\0";
    PbBayField b;
    PbError err = {0};
    put("# pullback density v1 nx=1024 ny=8192 width_m=0.4 height_m=0.5 depth_m=0.1 tilt_deg=90 "
        "rh=0.5\n" NAMES);
    ck_assert_int_eq(io_field_csv_read(path, &b, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "expected at most 400000"));
    ck_assert_int_eq(err.line, 1);
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    ck_assert_uint_eq(fwrite(binary, 1, sizeof binary - 1, f), sizeof binary - 1);
    fclose(f);
    ck_assert_int_eq(io_field_csv_read(path, &b, &err), PB_ERR_FORMAT);
    ck_assert_ptr_nonnull(strstr(err.message, "a zero byte"));
    ck_assert_int_eq(err.line, 3);
    ck_assert_int_eq(err.column, 5);
}
END_TEST

/* Cut a good file anywhere: a complaint, never a crash, and only the last byte may be spared. */
START_TEST(csv_survives_every_truncation)
{
    static const char good[] = HEAD NAMES "0.1,0.25,50,50,0,1\n0.3,0.25,50,50,0,1\n";
    for (size_t n = 0; n + 1 < sizeof good; n++) {
        char text[sizeof good];
        PbBayField b;
        PbError err = {0};
        memcpy(text, good, n);
        text[n] = '\0';
        put(text);
        PbStatus status = io_field_csv_read(path, &b, &err);
        if (n + 2 < sizeof good) {
            ck_assert_msg(status != PB_OK, "cut at %zu", n);
        } else {
            ck_assert_int_eq(status, PB_OK);
            pb_bay_field_destroy(&b);
        }
    }
}
END_TEST

#define BAY "{\"bay\": {\"width_m\": 0.4, \"height_m\": 1, \"depth_m\": 0.1}, "

START_TEST(json_column_rows_and_blocks)
{
    PbBayField b;
    PbError err = {0};
    put(BAY "\"column_kg_m3\": [50, 40, 30, 20]}");
    ck_assert_msg(io_field_json_read(path, &b, &err) == PB_OK, "%s", err.message);
    ck_assert(b.nx == 1 && b.ny == 4 && b.density_kg_m3[3] == 20.0 && b.tilt_deg == 90.0);
    pb_bay_field_destroy(&b);
    put(BAY "\"rows_kg_m3\": [[50, 40], [30, 20]], \"blocks\": "
            "[{\"x0_m\": 0, \"x1_m\": 0.2, \"y0_m\": 0.5, \"y1_m\": 1}]}");
    ck_assert_msg(io_field_json_read(path, &b, &err) == PB_OK, "%s", err.message);
    ck_assert(b.nx == 2 && b.ny == 2 && b.density_kg_m3[1] == 40.0);
    ck_assert(b.free_frac[2] == 0.0 && b.density_kg_m3[2] == 0.0 && b.free_frac[3] == 1.0);
    pb_bay_field_destroy(&b);
}
END_TEST

START_TEST(json_complaints_name_the_place)
{
    static const struct {
        const char *text, *message;
        int line;
    } bad[] = {
        {"{}", "\"bay\" is missing", 1},
        {BAY "\"column_kg_m3\": []}", "1 to 8192", 1},
        {BAY "\n\"column_kg_m3\": [50, -1]}", "-1 is out of range", 2},
        {BAY "\n\"column_kg_m3\": [50, 201]}", "201 is out of range", 2},
        {BAY "\"rows_kg_m3\": [[1, 2],\n[3]]}", "list of 2 densities", 2},
        {BAY "\"rows_kg_m3\": [[1, 2]], \"column_kg_m3\": [1]}", "either", 1},
        {BAY "\"column_kg_m3\": [50],\n\"shape\": 1}", "unknown key", 2},
        {BAY "\"column_kg_m3\": [50],\n\"blocks\": [{\"x0_m\": 0, \"x1_m\": 0.4, \"y0_m\": 0.1, "
             "\"y1_m\": 0.2}]}",
         "middle of no cell", 2},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PbBayField b;
        PbError err = {0};
        put(bad[i].text);
        ck_assert_int_ne(io_field_json_read(path, &b, &err), PB_OK);
        ck_assert_msg(strstr(err.message, bad[i].message) != NULL, "case %zu: %s", i, err.message);
        ck_assert_msg(err.line == bad[i].line, "case %zu: line %d, %s", i, err.line, err.message);
    }
}
END_TEST

START_TEST(shipped_climates_read_and_bad_ones_are_refused)
{
    static const char *const names[] = {"normal",    "damp",      "cold",
                                        "hot-humid", "steady-50", "steady-80"};
    const char *folders[] = {PB_TEST_SOURCE_DIR "/assets"};
    PbClimate c, normal = pb_climate_default();
    PbError err = {0};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        PbStatus status = io_climate_find(names[i], folders, 1, &c, &err);
        ck_assert_msg(status == PB_OK, "%s: %s", names[i], err.message);
        ck_assert_str_eq(c.name, names[i]);
        ck_assert_int_eq(pb_climate_check(&c, &err), PB_OK);
    }
    ck_assert_int_eq(io_climate_find("normal", folders, 1, &c, &err), PB_OK);
    ck_assert(c.bay_rh.mean == normal.bay_rh.mean && c.outdoor_c.swing == normal.outdoor_c.swing);
    ck_assert_int_eq(io_climate_find("../climates/normal", folders, 1, &c, &err), PB_ERR_IO);
    ck_assert_int_eq(io_climate_find("nowhere", folders, 1, &c, &err), PB_ERR_RANGE);
    put("{\"name\": \"x\", \"title\": \"x\",\n \"bay_rh\": {\"mean\": 0.9, \"swing\": 0.2}}");
    ck_assert_int_eq(io_climate_load(path, &c, &err), PB_ERR_RANGE);
    ck_assert_int_eq(err.line, 2);
    put("{\"name\": \"x\", \"title\": \"x\",\n \"bay_rh\": {\"mean\": 1.5, \"swing\": 0}}");
    ck_assert_int_eq(io_climate_load(path, &c, &err), PB_ERR_RANGE);
}
END_TEST

START_TEST(writing_where_nothing_can_be_written_says_so)
{
    PbBayField a = bay_uniform(1, 2, 40.0);
    PbError err = {0};
    ck_assert_int_eq(io_field_csv_write("/nonexistent/field.csv", &a, &err), PB_ERR_IO);
    ck_assert_str_eq(err.file, "/nonexistent/field.csv");
    ck_assert_int_eq(io_field_csv_read("/nonexistent/field.csv", &a, &err), PB_ERR_IO);
    pb_bay_field_destroy(&a);
}
END_TEST

/* Is this the first line of the file at `path`? */
static int text_begins(const char *line)
{
    char text[64] = "";
    FILE *f = fopen(path, "r");
    ck_assert_ptr_nonnull(f);
    ck_assert_ptr_nonnull(fgets(text, sizeof text, f));
    fclose(f);
    return strcmp(text, line) == 0;
}

/* A file-size limit stands for a full disk. */
START_TEST(a_full_disk_leaves_the_file_that_was_there)
{
    PbBayField a = bay_uniform(20, 50, 40.0);
    PbAgedBay frame = {.field = a, .void_frac = a.free_frac};
    PbError err = {0};
    struct rlimit before, small;
    put(IO_FIELD_BEGINS " last year\n");
    signal(SIGXFSZ, SIG_IGN);
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = 6000;
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &small), 0);
    PbStatus field = io_field_csv_write(path, &a, &err);
    int stayed = text_begins(IO_FIELD_BEGINS " last year\n");
    put(IO_FRAMES_BEGINS " last year\n");
    PbStatus frames = io_frames_csv_write(path, &frame, 1, &err);
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &before), 0);
    ck_assert_int_eq(stayed, 1);
    ck_assert_int_eq(field, PB_ERR_IO);
    ck_assert_int_eq(frames, PB_ERR_IO);
    ck_assert_str_eq(err.file, path);
    ck_assert_int_eq(text_begins(IO_FRAMES_BEGINS " last year\n"), 1);
    pb_bay_field_destroy(&a);
}
END_TEST

/* One of the test's own: a program that removes it must not take the machine's. */
START_TEST(a_device_that_is_full_is_not_removed)
{
    PbBayField a = bay_uniform(20, 50, 40.0);
    PbAgedBay frame = {.field = a, .void_frac = a.free_frac};
    PbError err = {0};
    struct stat st;
    char command[300];
    snprintf(command, sizeof command, "mknod '%s' c 1 7 2>/dev/null", path);
    if (system(command) == 0) { /* root alone may */
        ck_assert_int_eq(io_field_csv_write(path, &a, &err), PB_ERR_IO);
        ck_assert_int_eq(io_frames_csv_write(path, &frame, 1, &err), PB_ERR_IO);
        ck_assert_ptr_nonnull(strstr(err.message, "cannot write"));
        ck_assert_int_eq(stat(path, &st), 0);
        ck_assert(S_ISCHR(st.st_mode));
    }
    pb_bay_field_destroy(&a);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("field_file");
    TCase *tc = tcase_create("all");
    tcase_add_checked_fixture(tc, setup, teardown);
    tcase_add_test(tc, csv_reads_back_bit_for_bit);
    tcase_add_test(tc, csv_without_batts_reads_as_wood);
    tcase_add_test(tc, csv_complaints_name_line_and_column);
    tcase_add_test(tc, csv_complaints_about_the_whole_file_have_a_place_too);
    tcase_add_test(tc, csv_survives_every_truncation);
    tcase_add_test(tc, json_column_rows_and_blocks);
    tcase_add_test(tc, json_complaints_name_the_place);
    tcase_add_test(tc, shipped_climates_read_and_bad_ones_are_refused);
    tcase_add_test(tc, writing_where_nothing_can_be_written_says_so);
    tcase_add_test(tc, a_full_disk_leaves_the_file_that_was_there);
    tcase_add_test(tc, a_device_that_is_full_is_not_removed);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
