/*
 * The handout as a homeowner gets it: every number on it is the computed one or stands in the
 * company's file, nothing is clipped or overlaps, the words of the rule are there. Needs pdftotext
 * and pdfinfo (poppler-utils).
 */
#include "house_case.h"

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
 * decimals, to two figures of the larger end; else outwards, to tenths where the ends are that far
 * apart. */
static void add_range(char *all, size_t size, json_t *at, const char *key, int decimals,
                      const char *unit)
{
    char a[40], b[40];
    double low = part(at, key, "low"), high = part(at, key, "high");
    if (decimals == 0) {
        snprintf(a, sizeof a, "%.0f", rounded(low, high));
        snprintf(b, sizeof b, "%.0f", rounded(high, high));
    } else {
        double tenth = high - low >= 0.1 ? 10.0 : 100.0;
        snprintf(a, sizeof a, "%.*f", tenth > 50.0 ? 2 : 1, floor(low * tenth) / tenth);
        snprintf(b, sizeof b, "%.*f", tenth > 50.0 ? 2 : 1, ceil(high * tenth) / tenth);
    }
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
    } rows[] = {{"R, whole wall ", "r_m2k_w", "m²K/W", 2},
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

/* The shipped house, or for a sample its low copy, worked out once for the two tests that read all
 * of its page. */
static char page[40000];
static json_t *demo;

static void work_out(void)
{
    char text[400], args[900];
    start();
    snprintf(args, sizeof args,
             "%s --draws 20 --years 1,30 --json a.json --pdf a.pdf --company 'Sample & Company' "
             "--date 2026-11-25",
             all_of_it() ? Q_DEMO : Q_LOW);
    ck_assert_int_eq(compare(args, text, sizeof text), 0);
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

/* Of the sentences: the bay, degree days, a kWh of fuel, its price, 8 of 10; their own numbers and
 * those of the pages; and of the publications that are named. */
static const char printed[] =
    "37 235 120 89 118 23 3300 4100 18.3 0.78 0.94 0.07 0.12 8 10 1. 2. 3. 4. 5. 6. 7. 9. "
    "6946 10456 2005 25 4 2008 140 133 2018 51 11 1005 27 1990 13 1980 946 2023";

/* Both ends of R and heat, outwards to hundredths and tenths; density, shrinkage; R of the fill
 * alone, its depth over k = 0.034 + 0.000115 rho + 0.05/rho (foam 0.035). */
static int add_known_ends(char *out, size_t size, json_t *at)
{
    double r0 = part(at, "r_m2k_w", "low"), r1 = part(at, "r_m2k_w", "high");
    double h0 = part(at, "heat_ratio", "low"), h1 = part(at, "heat_ratio", "high");
    double rho = json_number_value(json_object_get(at, "mean_kg_m3"));
    double k = rho > 0.0 ? 0.034 + 0.000115 * rho + 0.05 / rho : 0.035;
    return snprintf(out, size, " %.2f %.1f %.2f %.1f %.2f %.1f %.2f %.1f %.0f %.1f %.1f %.1f ",
                    floor(r0 * 100.0) / 100.0, floor(r0 * 10.0) / 10.0, ceil(r1 * 100.0) / 100.0,
                    ceil(r1 * 10.0) / 10.0, floor(h0 * 100.0) / 100.0, floor(h0 * 10.0) / 10.0,
                    ceil(h1 * 100.0) / 100.0, ceil(h1 * 10.0) / 10.0, rho,
                    100.0 * part(at, "shrink_frac", "low"), 100.0 * part(at, "shrink_frac", "high"),
                    0.089 / k);
}

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
            used += (size_t)add_known_ends(known + used, sizeof known - used, at);
            json_t *saved = json_object_get(at, "saved");
            const char *fuel = f == 0 ? "wall_units" : "units", *money = f == 0 ? fuel : "money";
            double heat = part(saved, fuel, "high"), cost = part(saved, money, "high");
            used += (size_t)snprintf(
                known + used, sizeof known - used, " %.0f %.0f %.0f %.0f %.0f %.0f %s ",
                rounded(part(saved, fuel, "low"), heat), rounded(heat, heat),
                rounded(part(saved, money, "low"), cost), rounded(cost, cost),
                100.0 * part(saved, "wall_share", "low"), 100.0 * part(saved, "wall_share", "high"),
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
    ck_assert_int_gt(constants, drawn);
    snprintf(known + used, sizeof known - used, " %d 30 1 2026-11-25 %s", drawn, printed);
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

/* All words of a page with their boxes; the page's size beside them. */
static int boxes_of(const char *pdf, int number, Box *box, int most, double size[2])
{
    static char html[400000];
    char command[200];
    snprintf(command, sizeof command, "pdftotext -f %d -l %d -bbox %s - 2>/dev/null", number,
             number, pdf);
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

/* Everything stays on its page and off everything else. */
static void expect_apart(const char *pdf, int number, const char *what, double size[2])
{
    static Box box[2000];
    int count = boxes_of(pdf, number, box, 2000, size);
    ck_assert_int_gt(count, 300);
    for (int i = 0; i < count; i++) {
        ck_assert_msg(box[i].x0 >= 30.0 && box[i].x1 <= size[0] - 30.0 && box[i].y0 >= 20.0 &&
                          box[i].y1 <= size[1] - 20.0,
                      "%s: \"%s\" leaves page %d", what, box[i].word, number);
        for (int k = 0; k < i; k++) {
            ck_assert_msg(!collide(&box[i], &box[k]), "%s: \"%s\" on \"%s\" at %g, %g", what,
                          box[i].word, box[k].word, box[i].x0, box[i].y0);
        }
    }
}

START_TEST(nothing_is_clipped_and_nothing_overlaps)
{
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
    expect_apart("c.pdf", 2, pages[_i], size);
    expect_apart("c.pdf", 1, pages[_i], size);
    ck_assert_int_eq(shell("pdfinfo c.pdf | grep -q 'Pages: *2$'", text, sizeof text), 0);
    int is_letter = strstr(pages[_i], "--paper") != NULL ? strstr(pages[_i], "letter") != NULL
                                                         : strstr(pages[_i], "us") != NULL;
    ck_assert_int_eq(is_letter, size[0] > 600.0);
}
END_TEST

/* The longest notices that a company may have: what the figures rest on goes over to a page of its
 * own, larger, and no letter is lost. */
START_TEST(what_is_too_much_for_a_page_goes_over)
{
    static char second[40000];
    char text[400];
    double size[2];
    ck_assert_int_eq(
        shell("n=$(printf 'notice %.0s' $(seq 85)) && s=$(printf 'saving %.0s' $(seq 57)) && "
              "printf '{\"format\": \"pullback company 1\", \"notice\": \"%s\", "
              "\"savings_notice\": \"%s\"}' \"$n\" \"$s\" > firm.json",
              text, sizeof text),
        0);
    ck_assert_msg(compare(Q_LOW " --draws 20 --years 30 --lang es --units us --paper letter "
                                "--company-file firm.json --pdf m.pdf",
                          text, sizeof text) == 0,
                  "%s", text);
    ck_assert_int_eq(shell("pdfinfo m.pdf | grep -q 'Pages: *3$'", text, sizeof text), 0);
    static Box box[2000];
    ck_assert_int_gt(boxes_of("m.pdf", 2, box, 2000, size), 150);
    ck_assert_int_eq(shell("pdftotext -f 2 -l 2 m.pdf m.txt", text, sizeof text), 0);
    ck_assert_int_eq(shell("cat m.txt", second, sizeof second), 0);
    ck_assert_ptr_nonnull(strstr(second, "En qué se apoyan las cifras"));
    ck_assert_ptr_nonnull(strstr(second, "10."));
    ck_assert_ptr_nonnull(strstr(second, "Precauciones"));
    expect_apart("m.pdf", 1, "the longest notices", size);
    ck_assert_int_eq(shell("pdftotext -f 1 -l 1 m.pdf - | grep -o notice | wc -l | grep -q 85",
                           text, sizeof text),
                     0);
}
END_TEST

/* A page for the US has the words of the rule, and the company's own where it gave them; what
 * nobody gave is an empty line that says what belongs there. */
START_TEST(the_page_has_labels_notices_and_the_words_of_the_rule)
{
    static char with[40000], without[40000];
    char text[400];
    ck_assert_int_eq(compare(Q_LOW " --draws 0 --years 30 --units us --pdf g.pdf --company-file "
                                   "'" PB_TEST_SOURCE_DIR "/docs/formats/examples/company.json'",
                             text, sizeof text),
                     0);
    page_text("g.pdf", with, sizeof with);
    ck_assert_int_eq(compare(Q_LOW " --draws 0 --years 30 --lang es --pdf h.pdf --paper letter",
                             text, sizeof text),
                     0);
    page_text("h.pdf", without, sizeof without);
    static const char rule[] = "The higher the R-value, the greater the insulating power. Ask your "
                               "seller for the fact sheet on R-values.";
    /* 118 m2 with 23 % wood: 978 ft2 of cavity, 24.5 ft2 (2.28 m2) a bag: 39.9 */
    static const char *const said[] = {rule,
                                       "Text of 16 CFR 460.19 (savings claims) to be put here by "
                                       "the company:",
                                       "License and address: License 0000, 1 Sample Street",
                                       "Notices of the company: Three days to cancel",
                                       "Loose-fill cellulose, dense packed",
                                       "40 for 978 ft² of cavity",
                                       "R 12.0 R 13.6 R 13.0",
                                       "A-1 F-7 A-1",
                                       "Demo Company"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        ck_assert_msg(strstr(with, said[i]) != NULL, "\"%s\" is not in: %s", said[i], with);
    }
    static const char *const empty[] = {rule, "Aquí pone la empresa el texto de 16 CFR 460.19",
                                        "Avisos de la empresa", "Licencia y dirección"};
    for (size_t i = 0; i < sizeof empty / sizeof empty[0]; i++) {
        ck_assert_msg(strstr(without, empty[i]) != NULL, "\"%s\" is not in: %s", empty[i], without);
    }
    ck_assert_ptr_null(strstr(page, "16 CFR")); /* A4, elsewhere: no rule of the US */
    ck_assert_ptr_null(strstr(page, "in any of the ranges"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cli_handout");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120);
    tcase_add_unchecked_fixture(tc, work_out, throw_away);
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_test(tc, every_number_on_the_page_is_the_computed_one);
    tcase_add_test(tc, no_number_on_the_page_comes_from_nowhere);
    tcase_add_loop_test(tc, nothing_is_clipped_and_nothing_overlaps, 0, some_of(2, PAGES));
    tcase_add_test(tc, what_is_too_much_for_a_page_goes_over);
    tcase_add_test(tc, the_page_has_labels_notices_and_the_words_of_the_rule);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
