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
    int passed, failed;
    const char *only;
} Tally;

static void print_row(void *user, const VerifyRow *row)
{
    Tally *t = user;
    if (t->only != NULL && strncmp(row->id, t->only, strlen(t->only)) != 0) {
        return;
    }
    int ok = isfinite(row->ours) && row->ours >= row->accept_low && row->ours <= row->accept_high;
    if (ok) {
        t->passed++;
    } else {
        t->failed++;
    }
    printf("%-4s %-34s published %-12.6g ours %-12.6g diff %-+11.3g limits %.6g .. %.6g %s | %s | "
           "%s\n",
           ok ? "ok" : "FAIL", row->id, row->published, row->ours, row->ours - row->published,
           row->accept_low, row->accept_high, row->unit, row->quantity, row->source);
    fflush(stdout);
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
    Tally tally = {0, 0, NULL};
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
    if (tally.passed + tally.failed == 0) { /* nothing checked is not "all passed" */
        return cli_usage("verify", "--only \"%s\": no row begins so", tally.only);
    }
    printf("%d passed, %d failed\n", tally.passed, tally.failed);
    return tally.failed == 0 ? CLI_DONE : CLI_NO;
}
