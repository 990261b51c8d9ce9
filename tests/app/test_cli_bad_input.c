/*
 * The program against bad files, as a person meets it: one line on the error stream that names the
 * file, line and column, exit 3, nothing on the output stream and no file written.
 */
#include "io/doc.h"
#include "suite.h"

#include <dirent.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define ASSETS     PB_TEST_SOURCE_DIR "/assets/"
#define GOOD_BAY   ASSETS "exercises/old-wires.json"
#define GOOD_HANDS ASSETS "hands/steady-foot.json"

static char folder[200]; /* of this test alone */

static void start(void)
{
    snprintf(folder, sizeof folder, "%s/bad-input-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void stop(void)
{
    DIR *dir = opendir(folder);
    struct dirent *entry;
    char path[600];
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        unlink(path);
    }
    if (dir != NULL) {
        closedir(dir);
    }
    rmdir(folder);
}

static void write_file(const char *name, const char *bytes, size_t size)
{
    char path[600];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *f = fopen(path, "wb");
    ck_assert_ptr_nonnull(f);
    ck_assert_uint_eq(fwrite(bytes, 1, size, f), size);
    fclose(f);
}

static char *read_text(const char *path, size_t *size)
{
    char *text;
    PbError err;
    ck_assert_int_eq(io_read_file(path, 1u << 20, &text, size, &err), PB_OK);
    return text;
}

/* Run the program in the folder; give its exit code and what it wrote. */
static int run_cli(const char *arguments, char *errors, size_t size, long *out_bytes)
{
    char command[1200], path[600];
    struct stat st;
    snprintf(command, sizeof command, "cd '%s' && '%s' %s >stdout 2>stderr </dev/null", folder,
             PB_TEST_CLI, arguments);
    int status = system(command);
    ck_assert(WIFEXITED(status));
    snprintf(path, sizeof path, "%s/stdout", folder);
    ck_assert_int_eq(stat(path, &st), 0);
    *out_bytes = (long)st.st_size;
    snprintf(path, sizeof path, "%s/stderr", folder);
    FILE *f = fopen(path, "rb");
    ck_assert_ptr_nonnull(f);
    size_t got = fread(errors, 1, size - 1, f);
    errors[got] = '\0';
    fclose(f);
    return WEXITSTATUS(status);
}

/* Only what the test put there: inputs and the two streams. */
static void check_nothing_written(void)
{
    DIR *dir = opendir(folder);
    struct dirent *entry;
    ck_assert_ptr_nonnull(dir);
    while ((entry = readdir(dir)) != NULL) {
        ck_assert_msg(strstr(entry->d_name, ".csv") == NULL, "%s was written", entry->d_name);
    }
    closedir(dir);
}

static void check_refused(const char *arguments, const char *file, const char *says)
{
    char errors[4000], place[64];
    long out_bytes;
    int code = run_cli(arguments, errors, sizeof errors, &out_bytes), line, column;
    ck_assert_msg(code == 3, "exit %d: %s", code, errors);
    ck_assert_int_eq(out_bytes, 0);
    char *end = strchr(errors, '\n');
    ck_assert_msg(end != NULL && end[1] == '\0', "not one line: %s", errors);
    snprintf(place, sizeof place, "pullback-cli: %s:", file);
    ck_assert_msg(strncmp(errors, place, strlen(place)) == 0, "names no place: %s", errors);
    ck_assert_msg(sscanf(errors + strlen(place), "%d:%d: ", &line, &column) == 2 && line >= 1 &&
                      column >= 1,
                  "names no place: %s", errors);
    ck_assert_msg(strstr(errors, says) != NULL, "expected \"%s\" in: %s", says, errors);
    check_nothing_written();
}

static void check_bay_refused(const char *says)
{
    check_refused("run bay.json --hands '" GOOD_HANDS "' --json --density d.csv --signals s.csv",
                  "bay.json", says);
    check_refused("check bay.json", "bay.json", says);
}

/* what is replaced in the good file (all of it where NULL), by what, words of the complaint */
static const struct {
    const char *old, *new, *says;
} bays[] = {
    {NULL, "", "empty"},
    {NULL, "{}", "\"format\" is missing"},
    {NULL, "[]", "expected a JSON object"},
    {NULL, "\"bay\"", "expected a JSON object"},
    {NULL, "not a bay", "not valid JSON"},
    {"\"pullback exercise 1\"", "\"pullback exercise 9\"", "expected \"format\""},
    {"0.368", "\"0.368\"", "\"width_m\": expected a number"},
    {"0.368", "null", "\"width_m\": expected a number"},
    {"0.368", "[0.368]", "\"width_m\": expected a number"},
    {"0.368", "NaN", "not valid JSON"},
    {"0.368", "Infinity", "not valid JSON"},
    {"0.368", "1e999", "not valid JSON"},
    {"0.368", "1e308", "out of range, expected 0.15 to 0.75 m"},
    {"0.368", "36.8", "36.8 is out of range, expected 0.15 to 0.75 m"},
    {"0.368", "-0.368", "out of range"},
    {"2.35", "23.5", "out of range, expected 0.5 to 6 m"},
    {"0.089", "89", "out of range, expected 0.05 to 0.4 m"},
    {"\"tilt_deg\": 90", "\"tilt_deg\": 91", "expected 0 to 90 degrees"},
    {"0.01,", "10,", "expected 0.0001 to 0.2 m3/s per m2"},
    {"{\"file\": \"plain\"}", "{\"file\": \"plain\", \"static_pa\": 80}",
     "expected 1000 to 40000 Pa"},
    {"\"width_m\": 0.368", "\"width_in\": 14.5", "\"width_m\" is missing here"},
    {"\"tilt_deg\"", "\"tilt\"", "unknown key \"tilt\""},
    {"\"bay\":", "\"bays\":", "\"bay\" is missing"},
    {"\"title\":", "\"\\u001b[2Jtitle\\n\":", "missing"},
    {"\"title\":", "\"teaches\":", "not valid JSON: duplicate object key"},
    {"\"id\": \"old-wires\"", "\"id\": \"old-wires\", \"id\": \"new\"", "duplicate object key"},
    {"Box, cable", "Box,\\u0000cable", "not valid JSON"},
    {"Box, cable",
     "Box,\xff"
     "cable",
     "not valid JSON"},
    {"Box, cable", "Box,\xc3\x28 cable", "not valid JSON"},
    {"Box, cable", "Box,\xed\xa0\x80 cable", "not valid JSON"},
    {"\"box\"", "\"crate\"", "expected one of \"block\", \"box\""},
    {"\"x1_m\": 0.06, \"y1_m\": 1.15, \"depth_frac\"",
     "\"x1_m\": 0.4, \"y1_m\": 1.15, \"depth_frac\"", "outside the bay"},
    {"\"y1_m\": 1.15, \"depth_frac\"", "\"y1_m\": 5.9, \"depth_frac\"", "outside the bay"},
    {"\"y1_m\": 1.15, \"depth_frac\"", "\"y1_m\": 9, \"depth_frac\"", "out of range"},
    {"\"depth_frac\": 0.2", "\"depth_frac\": 0.9", "overlaps obstacle 1 (a box)"},
    {"\"depth_frac\": 0.32", "\"depth_frac\": 1.2", "out of range"},
    {"\"obstacles\": [",
     "\"obstacles\": [{\"kind\": \"block\", \"x0_m\": 0, \"y0_m\": 1.1, "
     "\"x1_m\": 0.3, \"y1_m\": 1.2, \"depth_frac\": 1},",
     "overlaps obstacle 1 (a block)"},
    {"\"obstacles\": [",
     "\"obstacles\": [{\"kind\": \"block\", \"x0_m\": 0.1, \"y0_m\": 0.44, "
     "\"x1_m\": 0.25, \"y1_m\": 0.48, \"depth_frac\": 1},",
     "the hole meets obstacle 1 (a block)"},
    {"\"y_m\": 0.45", "\"y_m\": 2.34", "the hole is outside the bay"},
    {"\"y_m\": 0.45", "\"y_m\": 3.45", "the hole is outside the bay"},
    {"\"x_m\": 0.184", "\"x_m\": 0.0", "the hole is outside the bay"},
    {"0.0635", "0.03", "does not go into the hole"},
    {"{\"file\": \"plain\"}", "{\"file\": \"plain\", \"feed_kg_s\": 0.1}",
     "more than the gate gives"},
    {"{\"file\": \"plain\"}", "{\"file\": \"plane\"}", "there is no \"plane\" in machines/"},
};

/* The good file with one place changed. */
static char *changed(const char *path, const char *old, const char *with, size_t *size)
{
    char *good = read_text(path, size);
    if (old == NULL) {
        *size = strlen(with);
        strcpy(good, with);
        return good;
    }
    char *at = strstr(good, old);
    ck_assert_msg(at != NULL, "the good file lacks %s", old);
    char *text = malloc(*size + strlen(with) + 1);
    ck_assert_ptr_nonnull(text);
    size_t before = (size_t)(at - good);
    memcpy(text, good, before);
    strcpy(text + before, with);
    strcat(text, at + strlen(old));
    *size = strlen(text);
    free(good);
    return text;
}

START_TEST(refuses_each_bad_bay)
{
    size_t size;
    char *text = changed(GOOD_BAY, bays[_i].old, bays[_i].new, &size);
    write_file("bay.json", text, size);
    free(text);
    check_bay_refused(bays[_i].says);
}
END_TEST

static const struct {
    const char *old, *new, *says;
} hands[] = {
    {NULL, "", "empty"},
    {NULL, "{}", "\"format\" is missing"},
    {"\"stall\"", "\"whenever\"", "expected one of \"stall\""},
    {"\"stall\"", "1", "expected one of \"stall\""},
    {"\"step_m\": 0.3", "\"step_m\": 30", "out of range, expected 0.02 to 6 m"},
    {"\"step_m\": 0.3", "\"step_m\": NaN", "not valid JSON"},
    {"\"step_m\": 0.3", "\"step_in\": 12", "unknown key \"step_in\""},
    {"\"step_m\": 0.3", "\"step_m\": 0.3, \"step_m\": 0.6", "duplicate object key"},
    {"\"step_m\": 0.3", "\"feed_kg_s\": 0.1", "more than the gate gives, expected 0 to 0.09 kg/s"},
    {"\"passes\"", "\"frames\": [{\"time_s\": 1, \"feed_kg_s\": 0.1}], \"passes\"",
     "0.1 is out of range, expected 0 to 0.09 kg/s"},
    {"\"first_m\": 0.15", "\"first_m\": 0.95", "with the mouth down"},
    {"\"up\"", "\"\xfe\"", "not valid JSON"},
    {"\"passes\"", "\"frames\": [{\"time_s\": 1, \"jump\": 1}], \"passes\"",
     "unknown key \"jump\""},
};

START_TEST(refuses_each_bad_pair_of_hands)
{
    size_t size;
    char *text = changed(GOOD_HANDS, hands[_i].old, hands[_i].new, &size);
    write_file("hands.json", text, size);
    free(text);
    check_refused("run '" GOOD_BAY "' --hands hands.json --json --density d.csv --signals s.csv",
                  "hands.json", hands[_i].says);
}
END_TEST

START_TEST(refuses_bad_constants)
{
    static const char text[] = "{\"constants\": [{\"name\": \"wall_friction\", \"value\": -1}]}";
    write_file("c.json", text, strlen(text));
    check_refused("run '" GOOD_BAY "' --hands '" GOOD_HANDS
                  "' --constants c.json --json --density d.csv --signals s.csv",
                  "c.json", "out of range");
}
END_TEST

/* Cut at every byte: no prefix of a file is a file. Only the last byte, a line end, can go. One
 * command is asked about all of them and refuses each by its name. */
START_TEST(refuses_a_file_cut_anywhere)
{
    static char errors[1 << 20];
    char name[64];
    size_t size, count;
    long out_bytes;
    char *text = read_text(_i == 0 ? GOOD_BAY : GOOD_HANDS, &size);
    ck_assert_int_eq(text[size - 1], '\n');
    for (count = 0; count + 1 < size; count++) {
        snprintf(name, sizeof name, "cut-%06zu.json", count);
        write_file(name, text, count);
    }
    free(text);
    ck_assert_int_eq(
        run_cli(_i == 0 ? "check cut-*.json" : "check $(printf -- '--hands %s ' cut-*.json)",
                errors, sizeof errors, &out_bytes),
        3);
    ck_assert_int_eq(out_bytes, 0);
    size_t refused = 0;
    for (char *line = strtok(errors, "\n"); line != NULL; line = strtok(NULL, "\n"), refused++) {
        int place, column;
        snprintf(name, sizeof name, "pullback-cli: cut-%06zu.json:", refused);
        ck_assert_msg(strncmp(line, name, strlen(name)) == 0 &&
                          sscanf(line + strlen(name), "%d:%d: ", &place, &column) == 2 &&
                          place >= 1 && column >= 1,
                      "cut at %zu: %s", refused, line);
    }
    ck_assert_uint_eq(refused, count);
}
END_TEST

START_TEST(refuses_a_hundred_megabytes)
{
    enum { BLOCK = 1 << 20 };
    char path[600], errors[1000];
    long out_bytes;
    static char spaces[BLOCK];
    memset(spaces, ' ', sizeof spaces);
    snprintf(path, sizeof path, "%s/bay.json", folder);
    FILE *f = fopen(path, "wb");
    ck_assert_ptr_nonnull(f);
    for (int i = 0; i < 100; i++) {
        ck_assert_uint_eq(fwrite(spaces, 1, BLOCK, f), BLOCK);
    }
    fputs("{}", f);
    fclose(f);
    int code = run_cli("run bay.json --hands '" GOOD_HANDS "' --json --density d.csv", errors,
                       sizeof errors, &out_bytes);
    ck_assert_int_eq(code, 3);
    ck_assert_int_eq(out_bytes, 0);
    ck_assert_str_eq(errors,
                     "pullback-cli: bay.json: is larger than 1024 KiB, the most that is read\n");
    check_nothing_written();
}
END_TEST

START_TEST(tells_files_that_are_not_there_from_bad_ones)
{
    char errors[1000];
    long out_bytes;
    ck_assert_int_eq(run_cli("run none.json --hands none.json", errors, sizeof errors, &out_bytes),
                     4);
    ck_assert_str_eq(errors, "pullback-cli: none.json: cannot open: No such file or directory\n");
    ck_assert_int_eq(run_cli("run . --hands .", errors, sizeof errors, &out_bytes), 4);
    ck_assert_ptr_nonnull(strstr(errors, "is a folder, expected a file"));
    ck_assert_int_eq(run_cli("run '" GOOD_BAY "' --hands '" GOOD_HANDS "' --density no/d.csv",
                             errors, sizeof errors, &out_bytes),
                     4);
    ck_assert_int_eq(out_bytes, 0);
    ck_assert_ptr_nonnull(strstr(errors, "no/d.csv: cannot write"));
}
END_TEST

static const char *const lines[] = {
    "run",
    "run bay.json",
    "run --hands",
    "run a.json b.json --hands c.json",
    "run a.json --hands c.json --seed",
    "run a.json --hands c.json --seed -1",
    "run a.json --hands c.json --seed 99999999999999999999",
    "run a.json --hands c.json --seed 1x",
    "run a.json --hands c.json --grid coarse",
    "run a.json --hands c.json --fast",
    "check",
    "pack",
};

START_TEST(refuses_a_command_line_that_is_off)
{
    char errors[2000];
    long out_bytes;
    int code = run_cli(lines[_i], errors, sizeof errors, &out_bytes);
    ck_assert_msg(code == 2, "%s: exit %d: %s", lines[_i], code, errors);
    ck_assert_int_eq(out_bytes, 0);
    char *end = strchr(errors, '\n');
    ck_assert_msg(end != NULL && end[1] == '\0', "not one line: %s", errors);
}
END_TEST

/* The same file by another name is still an input that would be gone. */
START_TEST(refuses_an_output_that_is_an_input_by_another_way_round)
{
    char errors[2000], path[600];
    size_t size, left;
    long out_bytes;
    char *good = read_text(GOOD_BAY, &size);
    write_file("bay.json", good, size);
    ck_assert_int_eq(run_cli("run bay.json --hands '" GOOD_HANDS "' --density ./bay.json", errors,
                             sizeof errors, &out_bytes),
                     3);
    ck_assert_ptr_nonnull(strstr(errors, "\"./bay.json\" is named twice"));
    snprintf(path, sizeof path, "%s/bay.json", folder);
    char *now = read_text(path, &left);
    ck_assert(left == size && memcmp(good, now, size) == 0);
    free(now);
    free(good);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("cli_bad_input");
    TCase *tc = tcase_create("refusals");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_loop_test(tc, refuses_each_bad_bay, 0, (int)(sizeof bays / sizeof bays[0]));
    tcase_add_loop_test(tc, refuses_each_bad_pair_of_hands, 0,
                        (int)(sizeof hands / sizeof hands[0]));
    tcase_add_test(tc, refuses_bad_constants);
    tcase_add_loop_test(tc, refuses_a_file_cut_anywhere, 0, 2);
    tcase_add_test(tc, refuses_a_hundred_megabytes);
    tcase_add_test(tc, tells_files_that_are_not_there_from_bad_ones);
    tcase_add_test(tc, refuses_an_output_that_is_an_input_by_another_way_round);
    tcase_add_loop_test(tc, refuses_a_command_line_that_is_off, 0,
                        (int)(sizeof lines / sizeof lines[0]));
    suite_add_tcase(s, tc);
    return run_suite(s);
}
