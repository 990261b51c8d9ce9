/* verify: print every check row, exit 1 if one is outside its limits. */
#include "verbs.h"

#include "cli/front.h"
#include "lab/verify.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The name of each row of a provider begins with one of its families, so that rows nobody asked for
 * need not be worked out. */
typedef struct Provider {
    void (*rows)(const VerifySink *sink);
    const char *families[2]; /* the second may be NULL */
} Provider;

static const Provider providers[] = {
    {verify_pack, {"pack."}}, {verify_heat, {"heat."}}, {verify_years, {"settle.", "foam."}}};
enum { PROVIDERS = sizeof providers / sizeof providers[0] };

typedef struct Tally {
    int rows[VERIFY_KINDS][VERIFY_FAIL + 1]; /* [kind][verdict] */
    const char *only;
} Tally;

/* "3.5", "2 .. 20", "at least 56", "up to 4". */
static void reference_text(const VerifyRow *row, char *text, size_t size)
{
    if (row->reference_low == row->reference_high) {
        snprintf(text, size, "%.6g", row->reference_low);
    } else if (isinf(row->reference_high)) {
        snprintf(text, size, "at least %.6g", row->reference_low);
    } else if (isinf(row->reference_low)) {
        snprintf(text, size, "up to %.6g", row->reference_high);
    } else {
        snprintf(text, size, "%.6g .. %.6g", row->reference_low, row->reference_high);
    }
}

static void print_row(void *user, const VerifyRow *row)
{
    static const char *const verdicts[] = {"ok", "against", "FAIL"};
    Tally *t = user;
    if (t->only != NULL && strncmp(row->id, t->only, strlen(t->only)) != 0) {
        return;
    }
    char reference[64];
    reference_text(row, reference, sizeof reference);
    VerifyVerdict verdict = verify_judge(row);
    t->rows[row->source.kind][verdict]++;
    printf("%-7s %-34s %-21s reference %-16s ours %-12.6g limits %.6g .. %.6g %s | %s | %s%s%s\n",
           verdicts[verdict], row->id, verify_kind_words[row->source.kind], reference, row->ours,
           row->accept_low, row->accept_high, row->unit, row->quantity, row->source.text,
           row->against != NULL ? " | " : "", row->against != NULL ? row->against : "");
    fflush(stdout);
}

/* Rows by what they are worth. Returns how many failed; *count is how many there were. */
static int print_kinds(const Tally *t, int *count)
{
    int failed = 0;
    *count = 0;
    for (int kind = 0; kind < VERIFY_KINDS; kind++) {
        const int *rows = t->rows[kind];
        int all = rows[VERIFY_OK] + rows[VERIFY_AGAINST] + rows[VERIFY_FAIL];
        if (all > 0) {
            printf("%-21s %4d rows: %d agree, %d known not to, %d failed\n",
                   verify_kind_words[kind], all, rows[VERIFY_OK], rows[VERIFY_AGAINST],
                   rows[VERIFY_FAIL]);
        }
        failed += rows[VERIFY_FAIL];
        *count += all;
    }
    return failed;
}

/* Can a row of this provider begin as is asked for? */
static int is_asked(const Provider *p, const char *only)
{
    for (int i = 0; i < 2; i++) {
        const char *family = p->families[i];
        if (only == NULL || (family != NULL && (strncmp(family, only, strlen(only)) == 0 ||
                                                strncmp(family, only, strlen(family)) == 0))) {
            return 1;
        }
    }
    return 0;
}

const CliOption verify_options[] = {
    {"--only", "PREFIX", "only rows whose name begins so", cli_take_text,
     .at = offsetof(Tally, only)},
    {.name = NULL},
};

int verb_verify(const CliVerb *verb, int argc, char **argv)
{
    Tally tally = {.only = NULL};
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, &tally, 0, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    VerifySink sink = {print_row, &tally};
    for (int i = 0; i < PROVIDERS; i++) {
        if (is_asked(&providers[i], tally.only)) {
            providers[i].rows(&sink);
        }
    }
    int count, failed = print_kinds(&tally, &count);
    if (count == 0) { /* nothing checked is not "all passed" */
        return cli_usage("verify", "--only \"%s\": no row begins so", tally.only);
    }
    printf("%d rows, %d failed\n", count, failed);
    return failed == 0 ? CLI_DONE : CLI_NO;
}
