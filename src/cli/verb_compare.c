/* compare: the four fills of a house side by side, without a window. */
#include "outputs.h"
#include "replay_run.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/data_files.h"
#include "cli/front.h"
#include "io/air_words.h"
#include "io/clock.h"
#include "io/company_file.h"
#include "io/compare_file.h"
#include "io/compare_words.h"
#include "io/doc.h"
#include "io/house_file.h"
#include "io/moist_words.h"
#include "io/output_file.h"
#include "io/parallel.h"
#include "io/saving_words.h"
#include "io/wall_words.h"
#include "report/handout.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Options {
    const char *house, *own, *json, *csv, *pdf, *company, *company_file, *date;
    double years[PB_COMPARE_MAX_TIMES];
    int year_count;
    int draws, threads;
    IoCompany firm;
    uint64_t seed;
    ReportPaper paper;
    IoReaderTaste taste;
    PbFoamClass foam;
    PbLooseCase loose;
    PbDenseCase dense;
    int has_foam, has_loose, has_dense, has_seed; /* else the house's */
} Options;

/* A list of years: rising, 0 put in front where it is not there. */
static int take_years(const CliOption *row, const char *text, void *member)
{
    Options *o = member;
    double first = 0.0;
    (void)row;
    o->year_count = 0;
    if (io_plain_number(text, &first) == NULL || first != 0.0) {
        o->years[o->year_count++] = 0.0;
    }
    for (const char *at = text;;) {
        double y = 0.0;
        const char *end = io_plain_number(at, &y);
        int is_later = o->year_count == 0 || y > o->years[o->year_count - 1];
        if (end == NULL || !(y >= 0.0 && y <= PB_SETTLE_MAX_YEARS) || !is_later ||
            o->year_count == PB_COMPARE_MAX_TIMES || (*end != '\0' && *end != ',')) {
            return cli_usage("compare",
                             "--years \"%s\": expected a rising list of at most %d years, 0 to %g",
                             text, PB_COMPARE_MAX_TIMES - 1, PB_SETTLE_MAX_YEARS);
        }
        o->years[o->year_count++] = y;
        if (*end == '\0') {
            return CLI_DONE;
        }
        at = end + 1;
    }
}

#define AT(member) .at = offsetof(Options, member)
const CliOption compare_options[] = {
    {"--years", "Y | Y1,Y2,...", "one year, or a list; 0 is always there; default 30", take_years,
     .at = 0},
    {"--json", "OUT", "for programs; \"-\" is standard output", cli_take_text, AT(json)},
    {"--csv", "OUT", "a table; \"-\" is standard output", cli_take_text, AT(csv)},
    {"--pdf", "OUT", "the handout, with its inputs and sources behind", cli_take_page, AT(pdf),
     .expected = "the name of a file"},
    {"--company", "NAME", "of the handout", cli_take_text, AT(company)},
    {"--company-file", "FILE", "license, notices and labels for it: docs/formats/company.md",
     cli_take_text, AT(company_file)},
    {"--date", "TEXT", "of the handout, else today", cli_take_text, AT(date)},
    {"--paper", "a4|letter", "of the handout", cli_take_paper, AT(paper),
     .expected = "a4 or letter"},
    {"--foam", "good|typical|poor", "in place of the house's", cli_take_word, AT(foam),
     .words = io_foam_words, .word_count = 3},
    {"--loose", "fair|careless", "in place of the house's", cli_take_word, AT(loose),
     .words = io_loose_words, .word_count = PB_LOOSE_CASES},
    {"--dense", "well-done|hasty", "in place of the house's", cli_take_word, AT(dense),
     .words = io_dense_words, .word_count = PB_DENSE_OWN},
    {"--own", "RUN.pbrun", "the dense pack is this recorded run, with its bay", cli_take_text,
     AT(own)},
    {"--seed", "N", "in place of the house's", cli_take_seed, AT(seed),
     "a whole number, 0 to 1000000000", .high = 1e9},
    {"--draws", "N", "for the ranges, default 40; under 20 nothing is compared", cli_take_whole,
     AT(draws), NULL, 0, PB_COMPARE_MAX_DRAWS},
    {"--lang", "en|es", "language of the sentences", cli_take_language, AT(taste),
     .expect = words_codes},
    {"--units", "si|us", "units of the sentences", cli_take_units, AT(taste),
     .expected = "si or us"},
    {"--threads", "N", "1 to 16, default all cores", cli_take_whole, AT(threads), NULL, 1, 16},
    {.name = NULL},
};

static int read_options(const CliVerb *verb, int argc, char **argv, Options *o)
{
    CliParsed parsed;
    memset(o, 0, sizeof *o);
    o->taste = io_taste_here(WORDS_ENGLISH);
    o->draws = 40;
    o->threads = io_parallel_default().threads;
    o->years[1] = 30.0;
    o->year_count = 2;
    o->company = "";
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE || parsed.count == 0) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    o->house = argv[1];
    o->has_foam = cli_is_given(verb, &parsed, "--foam");
    o->has_loose = cli_is_given(verb, &parsed, "--loose");
    o->has_dense = cli_is_given(verb, &parsed, "--dense");
    o->has_seed = cli_is_given(verb, &parsed, "--seed");
    if (o->pdf != NULL && o->year_count < 2) {
        return cli_usage("compare", "a handout needs a year after 0");
    }
    if (strlen(o->company) > 96) {
        return cli_usage("compare", "--company: expected at most 96 bytes");
    }
    if (o->date != NULL && strlen(o->date) > 23) {
        return cli_usage("compare", "--date: expected at most 23 bytes");
    }
    const char *const in[] = {o->house, o->own, o->company_file};
    const IoPlace out[] = {{o->json, IO_COMPARE_JSON_BEGINS, 1},
                           {o->csv, IO_COMPARE_CSV_BEGINS, 1},
                           {o->pdf, IO_BEGINS_PDF, 0}};
    return cli_check_outputs(out, 3, in, 3);
}

static void print_air(const PbCompare *c, PbCompareFill fill, int t, const Options *o)
{
    PbCompareAir air;
    char text[500];
    pb_compare_air(c, fill, t, &air);
    io_air_sentence(fill, &air, o->taste, text, sizeof text);
    if (text[0] != '\0') {
        printf("    %s\n", text);
    }
}

static void print_damp(const PbCompare *c, const Options *o)
{
    const PbCompareSetup *s = pb_compare_setup(c);
    int language = o->taste.language, holds[PB_WARNINGS];
    PbHouseMoist moist[PB_COMPARE_FILLS];
    char text[500];
    printf("\n%s\n", words_in(language, "Moisture"));
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        pb_house_moist(&s->house, &s->constants, (PbCompareFill)f, s->draws, &moist[f]);
        io_moist_sentence((PbCompareFill)f, &moist[f], o->taste, text, sizeof text);
        if (text[0] != '\0') {
            printf("  %s: %s\n", io_fill_title(&s->house, (PbCompareFill)f, language), text);
        }
    }
    pb_house_damp(&s->house, &s->constants, &moist[PB_COMPARE_EMPTY], &moist[PB_COMPARE_DENSE],
                  holds);
    for (int w = 0; w < PB_WARNINGS; w++) {
        if (holds[w]) {
            printf("  %s\n", io_damp_warning((PbDampWarning)w, language));
        }
    }
    printf("%s\n", io_moist_note(language));
}

static void print_all(const PbCompare *c, const Options *o)
{
    const PbHouse *h = &pb_compare_setup(c)->house;
    int language = o->taste.language;
    printf("%s%s%s: %s, %s\n", io_house_word(h->customer, language), h->town[0] != '\0' ? ", " : "",
           io_house_word(h->town, language), words_in(language, h->bay.title),
           io_climate_title(h->climate.title, language));
    char wall[256];
    io_wall_words(&h->wall, language, wall, sizeof wall);
    const char *head = !h->wall.is_layered ? "" : words_in(language, "Wall: ");
    printf("%s%s\n", head, wall);
    for (int t = 0; t < pb_compare_setup(c)->year_count; t++) {
        printf("\n%g %s\n", pb_compare_setup(c)->years[t], words_in(o->taste.language, "years"));
        for (int f = 0; f < PB_COMPARE_FILLS; f++) {
            PbCompareSaying say = pb_compare_say(c, (PbCompareFill)f, t);
            const PbCompareFigures *g = &say.figures;
            char r[64], heat[64], sentence[400], saved[500];
            PbCompareSaving saving;
            io_compare_shown(IO_FIGURE_R, g->r_m2k_w, g->draws, NULL, o->taste, r, sizeof r);
            io_compare_shown(IO_FIGURE_RATIO, g->heat_ratio, g->draws, NULL, o->taste, heat,
                             sizeof heat);
            pb_compare_saving(c, (PbCompareFill)f, t, &saving);
            io_saving_sentence((PbCompareFill)f, &saving, h, o->taste, saved, sizeof saved);
            io_compare_sentence(&say, o->taste, sentence, sizeof sentence);
            printf("  %s: %s; %s\n    %s\n    %s\n",
                   io_fill_title(h, (PbCompareFill)f, o->taste.language), r, heat, sentence, saved);
            print_air(c, (PbCompareFill)f, t, o);
        }
    }
    print_damp(c, o);
    printf("\n%s\n", io_compare_note(0, o->taste.language));
    if (pb_house_has_air(h)) {
        printf("%s\n", io_air_note(o->taste.language));
    }
}

static PbStatus write_text(const PbCompare *c, const Options *o, const char *path, int is_csv,
                           PbError *err)
{
    IoOutput out = {0};
    int to_stdout = strcmp(path, "-") == 0;
    json_t *json = NULL;
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    if (!is_csv) {
        json = io_compare_to_json(c, o->taste, folders, count);
        if (json_object_set_new(json, "own", o->own != NULL ? json_string(o->own) : json_null())) {
            json_decref(json);
            return pb_fail(err, PB_ERR_MEMORY, "no room for the result");
        }
    }
    PbStatus status =
        to_stdout ? PB_OK
                  : io_output_open(path, is_csv ? IO_COMPARE_CSV_BEGINS : IO_COMPARE_JSON_BEGINS,
                                   &out, err);
    if (status == PB_OK) {
        FILE *file = to_stdout ? stdout : out.file;
        if (is_csv) {
            status = io_compare_csv(file, c);
        } else {
            status = json_dumpf(json, file, JSON_COMPACT | JSON_REAL_PRECISION(15)) == 0 &&
                             fputc('\n', file) != EOF
                         ? PB_OK
                         : PB_ERR_IO;
        }
        status = status == PB_OK ? PB_OK : pb_fail(err, status, "cannot write the comparison");
    }
    if (!to_stdout && status == PB_OK) {
        status = io_output_commit(&out, err);
    } else if (!to_stdout) {
        io_output_abandon(&out);
    }
    json_decref(json);
    return status;
}

static PbStatus write_pdf(const PbCompare *c, const Options *o, PbError *err)
{
    const char *fonts = cli_font_folder();
    ReportHandout h = {.compare = c, .t = pb_compare_setup(c)->year_count - 1, .taste = o->taste};
    char now[IO_UTC_SIZE];
    io_now_utc(now);
    h.company = o->firm;
    if (o->company[0] != '\0') {
        snprintf(h.company.name, sizeof h.company.name, "%.96s", o->company);
    }
    int year = 0, month = 1, day = 1;
    if (o->date != NULL) {
        snprintf(h.date, sizeof h.date, "%.23s", o->date);
    } else if (sscanf(now, "%d-%d-%d", &year, &month, &day) == 3) {
        io_date_words(year, month, day, o->taste, h.date, sizeof h.date);
    }
    return report_handout_pdf(&h, o->pdf, o->paper, fonts, now, err);
}

static PbStatus work(const Options *o, const PbCompareSetup *setup, PbError *err)
{
    PbCompare *c;
    IoParallel crew = {o->threads};
    PB_TRY(pb_compare_create(setup, &c, err));
    PbStatus status = pb_compare_run_all(c, io_parallel_for, &crew, NULL, NULL, NULL, err);
    if (status == PB_OK && o->json != NULL) {
        status = write_text(c, o, o->json, 0, err);
    }
    if (status == PB_OK && o->csv != NULL) {
        status = write_text(c, o, o->csv, 1, err);
    }
    if (status == PB_OK && o->pdf != NULL) {
        status = write_pdf(c, o, err);
    }
    if (status == PB_OK && o->json == NULL && o->csv == NULL && o->pdf == NULL) {
        print_all(c, o);
    }
    pb_compare_destroy(c);
    return status;
}

int verb_compare(const CliVerb *verb, int argc, char **argv)
{
    Options o;
    PbError err = {0};
    PbCompareSetup setup = pb_compare_default();
    PbBayField own = {0};
    int code = read_options(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    PbStatus status = io_house_load(o.house, folders, count, &setup.house, &err);
    if (status == PB_OK && o.company_file != NULL) {
        status = io_company_load(o.company_file, &o.firm, &err);
    }
    setup.house.foam = o.has_foam ? o.foam : setup.house.foam;
    setup.house.loose = o.has_loose ? o.loose : setup.house.loose;
    setup.house.dense = o.has_dense ? o.dense : setup.house.dense;
    setup.house.seed = o.has_seed ? o.seed : setup.house.seed;
    setup.draws = o.draws;
    setup.frames_between = 0;
    setup.year_count = o.year_count;
    memcpy(setup.years, o.years, sizeof o.years);
    if (status == PB_OK && o.own != NULL) {
        status = cli_run_bay(o.own, &setup.house.bay, &own, &err);
        setup.house.dense = PB_DENSE_OWN;
        setup.own = &own;
    }
    if (status == PB_OK) {
        status = work(&o, &setup, &err);
    }
    pb_bay_field_destroy(&own);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    return CLI_DONE;
}
