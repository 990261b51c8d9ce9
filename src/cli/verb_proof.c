/* proof: what was measured at a house on the day shows, and what becomes of its prediction. */
#include "outputs.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/data_files.h"
#include "cli/front.h"
#include "io/clock.h"
#include "io/house_file.h"
#include "io/parallel.h"
#include "io/proof_words.h"
#include "report/proof.h"

#include <stdio.h>
#include <string.h>

typedef struct Options {
    const char *house, *pdf, *company, *date;
    int is_blank, draws, threads;
    double years;
    ReportPaper paper;
    IoReaderTaste taste;
} Options;

#define AT(member) .at = offsetof(Options, member)
const CliOption proof_options[] = {
    {"--years", "Y", "beside the filling, 0.25 to 200, default 30", cli_take_number, AT(years),
     NULL, 0.25, PB_SETTLE_MAX_YEARS},
    {"--pdf", "OUT", "a sheet with what was measured and what it shows", cli_take_page, AT(pdf),
     .expected = "the name of a file"},
    {"--blank", NULL, "the sheet empty, to fill in by hand", cli_take_flag, AT(is_blank)},
    {"--company", "NAME", "of the sheet", cli_take_text, AT(company)},
    {"--date", "TEXT", "of the sheet, else today; an empty sheet has a line", cli_take_text,
     AT(date)},
    {"--paper", "a4|letter", "of the sheet", cli_take_paper, AT(paper), .expected = "a4 or letter"},
    {"--draws", "N", "for the ranges, default 40", cli_take_whole, AT(draws), NULL, 0,
     PB_COMPARE_MAX_DRAWS},
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
    o->draws = pb_compare_default().draws;
    o->threads = io_parallel_default().threads;
    o->years = 30.0;
    o->company = "";
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE || parsed.count == 0) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    o->house = argv[1];
    if (o->is_blank && o->pdf == NULL) {
        return cli_usage("proof", "--blank: expected --pdf with it");
    }
    if (strlen(o->company) > 96) {
        return cli_usage("proof", "--company: expected at most 96 bytes");
    }
    if (o->date != NULL && strlen(o->date) > 23) {
        return cli_usage("proof", "--date: expected at most 23 bytes");
    }
    const char *const in[] = {o->house};
    const IoPlace out[] = {{o->pdf, IO_BEGINS_PDF, 0}};
    return cli_check_outputs(out, 1, in, 1);
}

static void print_all(const PbHouse *h, const PbProofReading *reading, const PbProofUpdate *update,
                      IoReaderTaste taste)
{
    char text[600];
    int language = taste.language;
    printf("%s%s%s\n", io_house_word(h->customer, language), h->town[0] != '\0' ? ", " : "",
           io_house_word(h->town, language));
    for (int i = 0; i < IO_PROOF_SENTENCES; i++) {
        io_proof_sentence(h, reading, (IoProofSentence)i, taste, text, sizeof text);
        printf("  %s: %s\n", io_proof_name((IoProofSentence)i, language), text);
    }
    for (int t = 0; update != NULL && t < 2; t++) {
        printf("\n%g %s\n", update->predicted[t].years, words_in(language, "years"));
        for (int measured = 0; measured < 2; measured++) {
            io_proof_time_words(update, h, measured, t, taste, text, sizeof text);
            printf("  %s: %s\n", words_in(language, measured ? "As measured" : "As predicted"),
                   text);
        }
    }
}

static PbStatus write_pdf(const Options *o, const PbHouse *h, const PbProofReading *reading,
                          const PbProofUpdate *update, PbError *err)
{
    ReportProof r = {.house = h, .reading = reading, .update = update, .taste = o->taste};
    char now[IO_UTC_SIZE];
    int year = 0, month = 1, day = 1;
    io_now_utc(now);
    snprintf(r.company, sizeof r.company, "%.96s", o->company);
    if (o->date != NULL) {
        snprintf(r.date, sizeof r.date, "%.23s", o->date);
    } else if (!o->is_blank && sscanf(now, "%d-%d-%d", &year, &month, &day) == 3) {
        io_date_words(year, month, day, o->taste, r.date, sizeof r.date);
    }
    return report_proof_pdf(&r, o->pdf, o->paper, cli_font_folder(), now, err);
}

static PbStatus work(const Options *o, PbCompareSetup *setup, PbError *err)
{
    PbProofReading reading;
    PbProofUpdate update;
    IoParallel crew = {o->threads};
    if (o->is_blank) {
        memset(&setup->house.proof, 0, sizeof setup->house.proof);
    }
    pb_proof_read(&setup->house, &setup->constants, &reading);
    int has_update = reading.kg_m3.mid > 0.0;
    if (has_update) {
        PB_TRY(pb_proof_update(setup, o->years, io_parallel_for, &crew, NULL, NULL, &update, err));
    }
    if (o->pdf != NULL) {
        return write_pdf(o, &setup->house, &reading, has_update ? &update : NULL, err);
    }
    print_all(&setup->house, &reading, has_update ? &update : NULL, o->taste);
    return PB_OK;
}

int verb_proof(const CliVerb *verb, int argc, char **argv)
{
    Options o;
    PbError err = {0};
    PbCompareSetup setup = pb_compare_default();
    int code = read_options(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    setup.draws = o.draws;
    PbStatus status = io_house_load(o.house, folders, count, &setup.house, &err);
    status = status == PB_OK ? work(&o, &setup, &err) : status;
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    return CLI_DONE;
}
