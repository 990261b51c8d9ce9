/* compare: the four fills of a house side by side, without a window. */
#include "options.h"
#include "replay_run.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/data_files.h"
#include "cli/front.h"
#include "io/clock.h"
#include "io/compare_file.h"
#include "io/compare_words.h"
#include "io/doc.h"
#include "io/house_file.h"
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
    const char *house, *own, *json, *csv, *pdf, *company, *date;
    double years[PB_COMPARE_MAX_TIMES];
    int year_count;
    int draws, threads;
    long long seed; /* negative = the house's */
    ReportPaper paper;
    IoReaderTaste taste;
    PbFoamClass foam;
    PbDenseCase dense;
    int has_foam, has_dense;
} Options;

/* A list of years: rising, 0 put in front where it is not there. */
static int read_years(const char *text, Options *o)
{
    o->year_count = 0;
    double first = 0.0;
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

static int read_whole(const char *name, const char *text, long long low, long long high,
                      long long *out)
{
    char *end;
    long long v = strtoll(text, &end, 10);
    if (end == text || *end != '\0' || v < low || v > high) {
        return cli_usage("compare", "%s \"%s\": expected a whole number, %lld to %lld", name, text,
                         low, high);
    }
    *out = v;
    return CLI_DONE;
}

static int read_choice(const char *name, const char *text, const char *const *words, int count,
                       int *out)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(text, words[i]) == 0) {
            *out = i;
            return CLI_DONE;
        }
    }
    char list[80] = "";
    for (int i = 0; i < count; i++) {
        size_t n = strlen(list);
        snprintf(list + n, sizeof list - n, "%s%s",
                 i == 0          ? ""
                 : i < count - 1 ? ", "
                                 : " or ",
                 words[i]);
    }
    return cli_usage("compare", "%s \"%s\": expected %s", name, text, list);
}

/* Options whose value is taken as it is. */
static const char **text_option(Options *o, const char *name)
{
    const struct {
        const char *name;
        const char **to;
    } texts[] = {{"--own", &o->own}, {"--json", &o->json}, {"--csv", &o->csv},
                 {"--pdf", &o->pdf}, {"--date", &o->date}, {"--company", &o->company}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (strcmp(name, texts[i].name) == 0) {
            return texts[i].to;
        }
    }
    return NULL;
}

static int option(Options *o, const char *name, const char *value)
{
    static const char *const units[] = {"si", "us"}, *const papers[] = {"a4", "letter"};
    const char **text = text_option(o, name);
    long long whole = 0;
    int choice = 0, code;
    if (text == &o->pdf && strcmp(value, "-") == 0) {
        return cli_usage("compare", "--pdf \"-\": expected the name of a file");
    }
    if (text != NULL) {
        *text = value;
        return CLI_DONE;
    }
    if (strcmp(name, "--years") == 0) {
        return read_years(value, o);
    }
    if (strcmp(name, "--seed") == 0) {
        return read_whole(name, value, 0, 1000000000LL, &o->seed);
    }
    if (strcmp(name, "--draws") == 0) {
        code = read_whole(name, value, 0, PB_COMPARE_MAX_DRAWS, &whole);
        o->draws = (int)whole;
    } else if (strcmp(name, "--threads") == 0) {
        code = read_whole(name, value, 1, 16, &whole);
        o->threads = (int)whole;
    } else if (strcmp(name, "--lang") == 0) {
        code = cli_language("compare", value, &o->taste);
    } else if (strcmp(name, "--units") == 0) {
        code = read_choice(name, value, units, 2, &o->taste.is_us);
    } else if (strcmp(name, "--paper") == 0) {
        code = read_choice(name, value, papers, 2, &choice);
        o->paper = choice == 1 ? REPORT_LETTER : REPORT_A4;
    } else if (strcmp(name, "--foam") == 0) {
        code = read_choice(name, value, io_foam_words, 3, &choice);
        o->foam = (PbFoamClass)choice;
        o->has_foam = 1;
    } else if (strcmp(name, "--dense") == 0) {
        code = read_choice(name, value, io_dense_words, PB_DENSE_OWN, &choice);
        o->dense = (PbDenseCase)choice;
        o->has_dense = 1;
    } else {
        code = cli_usage("compare", "\"%s\" is no option", name);
    }
    return code;
}

static int read_options(int argc, char **argv, Options *o)
{
    memset(o, 0, sizeof *o);
    o->seed = -1;
    o->taste = io_taste_here(WORDS_ENGLISH);
    o->draws = 40;
    o->threads = io_parallel_default().threads;
    o->years[1] = 30.0;
    o->year_count = 2;
    o->company = "";
    for (int i = 1; i < argc; i++) {
        if (argv[i][0] == '-' && argv[i][1] == '-') {
            if (i + 1 >= argc) {
                return cli_usage("compare", "\"%s\" is no option, or its value is missing",
                                 argv[i]);
            }
            int code = option(o, argv[i], argv[i + 1]);
            if (code != CLI_DONE) {
                return code;
            }
            i++;
        } else if (o->house == NULL) {
            o->house = argv[i];
        } else {
            return cli_usage("compare", "one house at a time, \"%s\" is too many", argv[i]);
        }
    }
    if (o->house == NULL) {
        return cli_usage("compare", "expected HOUSE.json");
    }
    if (o->pdf != NULL && o->year_count < 2) {
        return cli_usage("compare", "a handout needs a year after 0");
    }
    if (strlen(o->company) > 96) {
        return cli_usage("compare", "--company: expected at most 96 bytes");
    }
    if (o->date != NULL && strlen(o->date) > 23) {
        return cli_usage("compare", "--date: expected at most 23 bytes");
    }
    const char *const in[] = {o->house, o->own};
    const IoPlace out[] = {{o->json, IO_COMPARE_JSON_BEGINS, 1},
                           {o->csv, IO_COMPARE_CSV_BEGINS, 1},
                           {o->pdf, IO_BEGINS_PDF, 0}};
    return cli_check_outputs(out, 3, in, 2);
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
        }
    }
    printf("\n%s\n", io_compare_note(0, o->taste.language));
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
    snprintf(h.company, sizeof h.company, "%.96s", o->company);
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

int verb_compare(int argc, char **argv)
{
    Options o;
    PbError err = {0};
    PbCompareSetup setup = pb_compare_default();
    PbBayField own = {0};
    int code = read_options(argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    PbStatus status = io_house_load(o.house, folders, count, &setup.house, &err);
    setup.house.foam = o.has_foam ? o.foam : setup.house.foam;
    setup.house.dense = o.has_dense ? o.dense : setup.house.dense;
    setup.house.seed = o.seed >= 0 ? (uint64_t)o.seed : setup.house.seed;
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
