/*
 * pullback-cli compare as a person and another program meet it: JSON, CSV and the page agree, every
 * number on the page is the computed one, nothing on it is clipped or overlaps, bad input is one
 * line. Needs pdftotext and pdfinfo (poppler-utils).
 */
#include "suite.h"

#include <ctype.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define DEMO   PB_TEST_SOURCE_DIR "/assets/houses/demo.json"
#define Q_DEMO "'" DEMO "'" /* for the shell: the path may hold a space */
/* The demo house with a bay of half the height, soon packed, for what does not depend on figures.
 */
#define LOW   PB_TEST_SOURCE_DIR "/tests/app/data/low-house.json"
#define Q_LOW "'" LOW "'"

static char folder[300];

static void start(void)
{
    snprintf(folder, sizeof folder, "%s/compare-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void stop(void)
{
    char command[400];
    snprintf(command, sizeof command, "rm -r '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

/* A shell command in the folder of the test; its output, cut at the buffer. */
static int shell(const char *command, char *text, size_t size)
{
    char all[2000];
    snprintf(all, sizeof all, "cd '%s' && %s", folder, command);
    FILE *pipe = popen(all, "r");
    ck_assert_ptr_nonnull(pipe);
    size_t used = fread(text, 1, size - 1, pipe);
    text[used] = '\0';
    char rest[4096];
    while (fread(rest, 1, sizeof rest, pipe) > 0) {
    }
    int status = pclose(pipe);
    ck_assert_msg(WIFEXITED(status), "%s did not end by itself", command);
    return WEXITSTATUS(status);
}

static int compare(const char *args, char *text, size_t size)
{
    char command[1600];
    snprintf(command, sizeof command, "'%s' compare %s", PB_TEST_CLI, args);
    return shell(command, text, size);
}

static json_t *load(const char *name)
{
    char path[400];
    json_error_t where;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    json_t *json = json_load_file(path, 0, &where);
    ck_assert_msg(json != NULL, "%s: %s", name, where.text);
    return json;
}

static json_t *time_of(json_t *all, int fill, size_t t)
{
    json_t *times =
        json_object_get(json_array_get(json_object_get(all, "fills"), (size_t)fill), "times");
    ck_assert_uint_lt(t, json_array_size(times));
    return json_array_get(times, t);
}

static double part(json_t *time, const char *key, const char *end)
{
    json_t *v = json_object_get(json_object_get(time, key), end);
    ck_assert_msg(json_is_real(v), "%s/%s", key, end);
    return json_real_value(v);
}

/* Blanks that do not break a line become plain ones. */
static char *plain(char *text)
{
    char *to = text;
    for (const char *at = text; *at != '\0'; at++) {
        int is_hard = (unsigned char)at[0] == 0xC2 && (unsigned char)at[1] == 0xA0;
        *to++ = is_hard ? ' ' : *at;
        at += is_hard;
    }
    *to = '\0';
    return text;
}

/* Text of the page in the order in which it was drawn, white space as one space. */
static void page_text(const char *pdf, char *text, size_t size)
{
    char command[200];
    snprintf(command, sizeof command, "pdftotext -raw %s -", pdf);
    ck_assert_int_eq(shell(command, text, size), 0);
    char *to = plain(text);
    for (const char *at = text; *at != '\0'; at++) {
        int is_space = isspace((unsigned char)*at) != 0;
        if (!is_space || (to > text && to[-1] != ' ')) {
            *to++ = is_space ? ' ' : *at;
        }
    }
    *to = '\0';
}

/* Two figures of the larger end, written independently of the program's own rounding. */
static double rounded(double v, double largest)
{
    double step = pow(10.0, floor(log10(largest)) - 1.0);
    if (largest >= 99.5 * step) {
        step *= 10.0;
    }
    return step * floor(v / step + 0.5);
}

/* A range as the page must show it: "a to b unit ", or one figure where both read the same. With no
 * decimals, to two figures of the larger end. */
static void add_range(char *all, size_t size, json_t *at, const char *key, int decimals,
                      const char *unit)
{
    char a[40], b[40];
    double low = part(at, key, "low"), high = part(at, key, "high");
    snprintf(a, sizeof a, "%.*f", decimals, decimals == 0 ? rounded(low, high) : low);
    snprintf(b, sizeof b, "%.*f", decimals, decimals == 0 ? rounded(high, high) : high);
    int is_one = strcmp(a, b) == 0;
    size_t used = strlen(all);
    snprintf(all + used, size - used, "%s%s%s %s ", a, is_one ? "" : " to ", is_one ? "" : b, unit);
}

/* The figures of one fill from top to bottom, those of the filling before those of later. */
static void expect_table(const char *page, json_t *filled, json_t *later, int is_empty)
{
    static const struct {
        const char *name, *key, *unit;
        int decimals;
    } rows[] = {{"R of the wall ", "r_m2k_w", "m²K/W", 2},
                {"Heat, full = 1 ", "heat_ratio", "times", 2},
                {"Saved a year ", "units", "kWh", 0},
                {"Money saved ", "money", "USD", 0}};
    char all[600] = "filled 30 years ";
    for (int i = 0; i < (is_empty ? 2 : 4); i++) {
        json_t *a = i < 2 ? filled : json_object_get(filled, "saved");
        json_t *b = i < 2 ? later : json_object_get(later, "saved");
        strcat(all, rows[i].name);
        add_range(all, sizeof all, a, rows[i].key, rows[i].decimals, rows[i].unit);
        add_range(all, sizeof all, b, rows[i].key, rows[i].decimals, rows[i].unit);
    }
    if (is_empty) {
        strcat(all, "Walls, a year ");
        add_range(all, sizeof all, json_object_get(filled, "saved"), "wall_units", 0, "kWh");
        add_range(all, sizeof all, json_object_get(later, "saved"), "wall_units", 0, "kWh");
    }
    ck_assert_msg(strstr(page, all) != NULL, "\"%s\" is not on the page: %.2000s", all, page);
}

/* The shipped house, worked out once for the two tests that read all of its page. */
static char page[40000];
static json_t *demo;

static void work_out(void)
{
    char text[400];
    start();
    ck_assert_int_eq(compare(Q_DEMO " --draws 20 --years 1,30 --json a.json --pdf a.pdf "
                                    "--company 'Sample & Company' --date 2026-11-25",
                             text, sizeof text),
                     0);
    ck_assert_str_eq(text, "");
    page_text("a.pdf", page, sizeof page);
    demo = load("a.json");
    stop();
}

static void throw_away(void)
{
    json_decref(demo);
}

START_TEST(every_number_on_the_page_is_the_computed_one)
{
    for (int f = 0; f < 4; f++) {
        expect_table(page, time_of(demo, f, 0), time_of(demo, f, 2),
                     f == 0); /* year 0 and the last one */
        char sentence[400];
        snprintf(sentence, sizeof sentence, "%s",
                 json_string_value(json_object_get(time_of(demo, f, 2), "sentence")));
        plain(sentence);
        ck_assert_msg(strstr(page, sentence) != NULL, "\"%s\" is not in: %s", sentence, page);
    }
    static const char *const typed[] = {"118 m²",
                                        "23%",
                                        "3700 (3300 to 4100) K d",
                                        "0.09 (0.07 to 0.12) USD/kWh",
                                        "85 (78 to 94)%",
                                        "20 °C",
                                        "-5 °C",
                                        "Sample & Company",
                                        "2026-11-25",
                                        "Demo house, Sample town",
                                        "0.368 m",
                                        "30 years"};
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        ck_assert_msg(strstr(page, typed[i]) != NULL, "\"%s\" is not in: %s", typed[i], page);
    }
}
END_TEST

/* Numbers on the page that come from nowhere would be claims: each token stands in the JSON's
 * sentences, notes, cautions and shown inputs, or among the figures checked above. */
START_TEST(no_number_on_the_page_comes_from_nowhere)
{
    static char known[400000], text[400];
    json_t *row;
    size_t i, used = 0;
    int constants = 0, drawn = 0;
    for (int f = 0; f < 4; f++) {
        for (size_t t = 0; t < 3; t += 2) {
            json_t *at = time_of(demo, f, t);
            json_t *saved = json_object_get(at, "saved");
            const char *fuel = f == 0 ? "wall_units" : "units", *money = f == 0 ? fuel : "money";
            double heat = part(saved, fuel, "high"), cost = part(saved, money, "high");
            used += (size_t)snprintf(known + used, sizeof known - used,
                                     " %.2f %.2f %.2f %.2f %.0f %.0f %.0f %.0f %.0f %.0f %s ",
                                     part(at, "r_m2k_w", "low"), part(at, "r_m2k_w", "high"),
                                     part(at, "heat_ratio", "low"), part(at, "heat_ratio", "high"),
                                     rounded(part(saved, fuel, "low"), heat), rounded(heat, heat),
                                     rounded(part(saved, money, "low"), cost), rounded(cost, cost),
                                     100.0 * part(saved, "wall_share", "low"),
                                     100.0 * part(saved, "wall_share", "high"),
                                     json_string_value(json_object_get(at, "sentence")));
        }
    }
    json_array_foreach(json_object_get(demo, "assumptions"), i, row)
    {
        const char *from = json_string_value(json_object_get(row, "from"));
        constants += strcmp(from, "constant") == 0;
        drawn += json_is_true(json_object_get(row, "is_drawn"));
        used += (size_t)snprintf(known + used, sizeof known - used, "%s ",
                                 json_string_value(json_object_get(row, "shown")));
    }
    json_array_foreach(json_object_get(demo, "notes"), i, row)
    {
        used += (size_t)snprintf(known + used, sizeof known - used, "%s ", json_string_value(row));
    }
    snprintf(known + used, sizeof known - used, " %d %d 30 1 2026-11-25 ", constants, drawn);
    plain(known);
    int tokens = 0;
    for (const char *at = page; *at != '\0';) {
        size_t n = strspn(at, "0123456789.");
        if (n == 0 || !isdigit((unsigned char)*at)) {
            at++;
            continue;
        }
        n = at[n - 1] == '.' ? n - 1 : n;
        snprintf(text, sizeof text, "%.*s", (int)n, at);
        ck_assert_msg(strstr(known, text) != NULL, "%s on the page comes from nowhere", text);
        tokens++;
        at += n;
    }
    ck_assert_int_gt(tokens, 80);
}
END_TEST

typedef struct Box {
    double x0, y0, x1, y1;
    char word[80];
} Box;

/* All words of the page with their boxes; the page's size beside them. */
static int boxes_of(const char *pdf, Box *box, int most, double size[2])
{
    static char html[400000];
    char command[200];
    snprintf(command, sizeof command, "pdftotext -bbox %s - 2>/dev/null", pdf);
    ck_assert_int_eq(shell(command, html, sizeof html), 0);
    const char *at = strstr(html, "<page");
    ck_assert_int_eq(sscanf(at, "<page width=\"%lf\" height=\"%lf\"", &size[0], &size[1]), 2);
    ck_assert_ptr_null(strstr(at + 5, "<page"));
    int count = 0;
    while ((at = strstr(at + 1, "<word")) != NULL && count < most) {
        Box *b = &box[count];
        count += sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%79[^<]",
                        &b->x0, &b->y0, &b->x1, &b->y1, b->word) == 5;
    }
    return count;
}

/* Words of one line share their height, of two lines their box is taller than the ink: boxes may
 * meet by a quarter of their height before letters do. */
static int collide(const Box *a, const Box *b)
{
    double w = fmin(a->x1, b->x1) - fmax(a->x0, b->x0);
    double h = fmin(a->y1, b->y1) - fmax(a->y0, b->y0);
    return w > 0.5 && h > 0.4 * fmin(a->y1 - a->y0, b->y1 - b->y0);
}

static const char *const pages[] = {
    "--paper letter --lang es --foam poor --dense hasty --years 30",
    "--paper letter --lang es --units us --dense hasty --years 12.5",
    "--paper a4", /* with the usual times */
    "--paper a4 --units us --years 0.25",
    "--units us --years 30", /* letter by itself */
    "--units si --years 30",
};
enum { PAGES = sizeof pages / sizeof pages[0] };

START_TEST(nothing_is_clipped_and_nothing_overlaps)
{
    static Box box[2000];
    static char text[4000];
    char args[900];
    double size[2];
    /* The longest names that a person may type. */
    snprintf(
        args, sizeof args,
        "long.json --draws 20 --pdf c.pdf --company '%.*s' --date '2026-11-25 at noon hour' %s", 90,
        "Sample Company with a name that is as long as names get: insulation of walls, roofs "
        "and floors in all of "
        "the whole valley",
        pages[_i]);
    ck_assert_int_eq(
        shell("sed 's/Demo house/Demo house with a name that is as long as a name may be, at "
              "the upper mill/; s/Sample town/Sample town above the lower river "
              "crossing, by the old stone weir and its mill/' '" LOW "' > long.json",
              text, sizeof text),
        0);
    ck_assert_msg(compare(args, text, sizeof text) == 0, "%s", text);
    int count = boxes_of("c.pdf", box, 2000, size);
    ck_assert_int_gt(count, 300);
    for (int i = 0; i < count; i++) {
        ck_assert_msg(box[i].x0 >= 30.0 && box[i].x1 <= size[0] - 30.0 && box[i].y0 >= 20.0 &&
                          box[i].y1 <= size[1] - 20.0,
                      "%s: \"%s\" leaves the page", pages[_i], box[i].word);
        for (int k = 0; k < i; k++) {
            ck_assert_msg(!collide(&box[i], &box[k]), "%s: \"%s\" on \"%s\" at %g, %g", pages[_i],
                          box[i].word, box[k].word, box[i].x0, box[i].y0);
        }
    }
    int is_letter = strstr(pages[_i], "--paper") != NULL ? strstr(pages[_i], "letter") != NULL
                                                         : strstr(pages[_i], "us") != NULL;
    ck_assert_int_eq(is_letter, size[0] > 600.0);
}
END_TEST

/* 19 draws are one too few, and page, text and JSON all say so. */
START_TEST(nothing_is_compared_before_there_are_draws_enough)
{
    static char text[40000], waiting[40000];
    static const char *const waits[2] = {"not compared yet: 19 of 20 trials.",
                                         "todavía sin comparar: 19 de 20 corridas."};
    static const char *const verdicts[] = {"as much",     "about the same", "either could",
                                           "más o menos", "deja pasar",     "lets through",
                                           "cualquiera"};
    for (int k = 0; k < 2; k++) {
        char args[300];
        snprintf(args, sizeof args, Q_LOW " --draws 19 --lang %s --date x --pdf f.pdf --json -",
                 k ? "es" : "en");
        ck_assert_int_eq(compare(args, text, sizeof text), 0);
        snprintf(args, sizeof args, Q_LOW " --draws 19 --lang %s", k ? "es" : "en");
        ck_assert_int_eq(compare(args, text, sizeof text), 0);
        page_text("f.pdf", waiting, sizeof waiting);
        plain(text);
        for (size_t i = 0; i < sizeof verdicts / sizeof verdicts[0]; i++) {
            ck_assert_msg(strstr(waiting, verdicts[i]) == NULL, "\"%s\" on %s", verdicts[i],
                          waiting);
            ck_assert_msg(strstr(text, verdicts[i]) == NULL, "\"%s\" in %s", verdicts[i], text);
        }
        int count = 0;
        for (const char *at = text; (at = strstr(at, waits[k])) != NULL; at++) {
            count++;
        }
        ck_assert_int_eq(count, 8); /* four fills, two times */
        ck_assert_ptr_nonnull(strstr(text, "≈ "));
        ck_assert_ptr_nonnull(strstr(waiting, "≈ "));
        ck_assert_ptr_nonnull(strstr(waiting, waits[k]));
    }
}
END_TEST

START_TEST(json_and_csv_hold_the_same_and_threads_change_no_byte)
{
    static char text[100000], again[100000];
    ck_assert_int_eq(compare(Q_LOW
                             " --draws 3 --years 0,1,30 --threads 1 --json d.json --csv d.csv",
                             text, sizeof text),
                     0);
    ck_assert_int_eq(compare(Q_LOW " --draws 3 --years 0,1,30 --threads 3 --json e.json --csv -",
                             again, sizeof again),
                     0);
    ck_assert_int_eq(shell("cmp d.json e.json", text, sizeof text), 0);
    ck_assert_int_eq(shell("cat d.csv", text, sizeof text), 0);
    ck_assert_str_eq(text, again);
    json_t *all = load("d.json");
    char *line = strchr(text, '\n') + 1;
    for (int f = 0; f < 4; f++) {
        for (size_t t = 0; t < 3; t++) {
            char name[16];
            double years, low, mid, high;
            ck_assert_int_eq(
                sscanf(line, "%15[^,],%lf,%lf,%lf,%lf", name, &years, &low, &mid, &high), 5);
            json_t *at = time_of(all, f, t);
            ck_assert_double_eq(years, json_number_value(json_object_get(at, "years")));
            /* CSV has ten figures */
            ck_assert_double_eq_tol(low, part(at, "r_m2k_w", "low"), 1e-9);
            ck_assert_double_eq_tol(mid, part(at, "r_m2k_w", "mid"), 1e-9);
            ck_assert_double_eq_tol(high, part(at, "r_m2k_w", "high"), 1e-9);
            char *end = strchr(line, '\n'), *saved = end, unit[8];
            for (int commas = 0; commas < 7; commas += *saved == ',') {
                saved--;
            }
            ck_assert_int_eq(sscanf(saved, ",%lf,%lf,%lf,%7[^,]", &low, &mid, &high, unit), 4);
            ck_assert_double_eq_tol(mid, part(json_object_get(at, "saved"), "units", "mid"),
                                    1e-9 * fabs(mid) + 1e-9);
            ck_assert_str_eq(unit, "kWh");
            line = end + 1;
        }
    }
    ck_assert_str_eq(line, "");
    json_decref(all);
}
END_TEST

START_TEST(a_recorded_run_stands_in_for_the_dense_pack)
{
    static char text[20000];
    ck_assert_int_eq(compare(Q_DEMO " --draws 0 --years 30 --json f.json --own '" PB_TEST_SOURCE_DIR
                                    "/tests/app/recorded.pbrun' 2>&1",
                             text, sizeof text),
                     0);
    json_t *all = load("f.json");
    ck_assert_str_eq(json_string_value(json_object_get(all, "dense")), "own");
    ck_assert_int_eq(compare(Q_DEMO " --draws 0 --own '" DEMO "' 2>&1", text, sizeof text), 3);
    json_decref(all);
}
END_TEST

/* A bill of forty therms, where the walls alone take hundreds: told, and nothing that hangs on it.
 */
START_TEST(holds_back_what_the_bill_contradicts)
{
    static char text[20000];
    json_error_t error;
    json_t *house = json_load_file(LOW, 0, &error);
    ck_assert_msg(house != NULL, "%s", error.text);
    json_object_del(house, "price_per_kwh");
    json_object_set_new(
        house, "bill",
        json_pack("{s:s,s:f,s:i}", "fuel", "gas-therm", "price", 1.4, "last_year", 40));
    char path[400];
    snprintf(path, sizeof path, "%s/bill.json", folder);
    ck_assert_int_eq(json_dump_file(house, path, 0), 0);
    json_decref(house);
    ck_assert_int_eq(compare("bill.json --draws 0 --years 30 --json g.json", text, sizeof text), 0);
    json_t *all = load("g.json");
    for (int f = 0; f < 4; f++) {
        json_t *saved = json_object_get(time_of(all, f, 1), "saved");
        ck_assert(json_is_true(json_object_get(saved, "is_held_back")));
        ck_assert_double_gt(part(saved, "wall_units", "mid"), 40.0);
        ck_assert_ptr_null(json_object_get(saved, "units"));
        ck_assert_ptr_null(json_object_get(saved, "money"));
    }
    json_decref(all);
    ck_assert_int_eq(compare("bill.json --draws 0 --years 30", text, sizeof text), 0);
    plain(text);
    ck_assert_ptr_nonnull(strstr(text, "The walls alone would burn more than the bill: "));
    ck_assert_ptr_null(strstr(text, "Saves "));
    ck_assert_ptr_null(strstr(text, "USD"));
}
END_TEST

START_TEST(speaks_both_languages)
{
    static char text[20000];
    ck_assert_int_eq(compare(Q_LOW " --draws 0 --years 30 --lang es --units us", text, sizeof text),
                     0);
    plain(text);
    ck_assert_ptr_nonnull(strstr(text, "Empacado denso: ≈ R "));
    ck_assert_ptr_nonnull(strstr(text, "Casa de muestra, Pueblo de muestra: Una cavidad"));
    ck_assert_ptr_nonnull(strstr(text, "una promesa"));
    ck_assert_int_eq(compare(Q_LOW " --draws 0 --years 30", text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "Dense pack: "));
    ck_assert_ptr_nonnull(strstr(text, "no promise"));
}
END_TEST

static const struct {
    const char *args;
    int code;
    const char *says;
} off[] = {
    {"", 2, "expected HOUSE.json"},
    {Q_DEMO " more.json", 2, "too many"},
    {Q_DEMO " --years 30,20", 2, "rising list"},
    {Q_DEMO " --years soon", 2, "rising list"},
    {Q_DEMO " --years 0 --pdf x.pdf", 2, "a year after 0"},
    {Q_DEMO " --draws 201", 2, "0 to 200"},
    {Q_DEMO " --dense own", 2, "expected well-done or hasty"},
    {Q_DEMO " --foam", 2, "value is missing"},
    {Q_DEMO " --foam bad", 2, "expected good, typical or poor"},
    {"bad.json --json ./bad.json", 3, "\"./bad.json\" is named twice"},
    {Q_DEMO " --json - --csv -", 3, "\"-\" is named twice"},
    {"no-such.json", 4, "no-such.json"},
    {"bad.json", 3, "bad.json:5:19: \"wall_area_m2\""},
    {Q_LOW " --draws 0 --json no-folder/x.json", 4, "no-folder/x.json"},
    {Q_LOW " --draws 0 --pdf no-folder/x.pdf", 4, "no-folder/x.pdf"},
};
enum { OFF = sizeof off / sizeof off[0] };

START_TEST(what_is_off_is_one_line_and_nothing_is_written)
{
    static char text[4000];
    char args[800];
    ck_assert_int_eq(shell("sed 's/\"wall_area_m2\": 118/\"wall_area_m2\": -4/' '" DEMO
                           "' > bad.json",
                           text, sizeof text),
                     0);
    snprintf(args, sizeof args, "%s 2>&1", off[_i].args);
    ck_assert_msg(compare(args, text, sizeof text) == off[_i].code, "%s: %s", off[_i].args, text);
    ck_assert_msg(strstr(text, off[_i].says) != NULL, "%s: %s", off[_i].args, text);
    ck_assert_msg(strchr(text, '\n') == text + strlen(text) - 1, "more than a line: %s", text);
    ck_assert_int_eq(shell("ls", text, sizeof text), 0);
    ck_assert_str_eq(text, "bad.json\n");
}
END_TEST

START_TEST(check_takes_a_house)
{
    static char text[4000];
    char command[900];
    snprintf(command, sizeof command, "'%s' check --house '%s'", PB_TEST_CLI, DEMO);
    ck_assert_int_eq(shell(command, text, sizeof text), 0);
    ck_assert_ptr_nonnull(strstr(text, "Demo house"));
    snprintf(command, sizeof command, "printf '{}' > e.json; '%s' check --house e.json 2>&1",
             PB_TEST_CLI);
    ck_assert_int_eq(shell(command, text, sizeof text), 3);
    ck_assert_ptr_nonnull(strstr(text, "e.json:1:1: "));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_compare");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_unchecked_fixture(tc, work_out, throw_away);
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_test(tc, every_number_on_the_page_is_the_computed_one);
    tcase_add_test(tc, no_number_on_the_page_comes_from_nowhere);
    tcase_add_loop_test(tc, nothing_is_clipped_and_nothing_overlaps, 0, PAGES);
    tcase_add_test(tc, nothing_is_compared_before_there_are_draws_enough);
    tcase_add_test(tc, json_and_csv_hold_the_same_and_threads_change_no_byte);
    tcase_add_test(tc, a_recorded_run_stands_in_for_the_dense_pack);
    tcase_add_test(tc, holds_back_what_the_bill_contradicts);
    tcase_add_test(tc, speaks_both_languages);
    tcase_add_loop_test(tc, what_is_off_is_one_line_and_nothing_is_written, 0, OFF);
    tcase_add_test(tc, check_takes_a_house);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
