/*
 * drill: the trials of a sitting, judged by the presses that are given: for tests, and for whoever
 * wants to see what a sitting is made of. Nothing is kept.
 */
#include "verbs.h"

#include "cli/front.h"

#include "core/drill.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct DrillOptions {
    uint64_t seed;
    int trials, is_json;
} DrillOptions;

#define AT(member) .at = offsetof(DrillOptions, member)
const CliOption drill_options[] = {
    {"--seed", "N", "of the sitting: which trials it has; else 1", cli_take_seed, AT(seed)},
    {"--trials", "N", "how many of its 14; else as many as there are presses, or all",
     cli_take_whole, AT(trials), .low = 1, .high = PB_DRILL_TRIALS},
    {"--json", NULL, "for programs", cli_take_flag, AT(is_json)},
    {.name = NULL},
};

static const char *const outcomes[] = {
    [PB_DRILL_GOOD] = "good",     [PB_DRILL_SOON] = "soon",   [PB_DRILL_LATE] = "late",
    [PB_DRILL_MISSED] = "missed", [PB_DRILL_FALSE] = "false", [PB_DRILL_LEFT] = "left",
};
static const char *const verdicts[] = {
    [PB_DRILL_UNDECIDED] = "undecided",
    [PB_DRILL_CAN_TELL] = "can tell it",
    [PB_DRILL_NOT_YET] = "not yet",
};

/* Seconds of a press, or "-" for none. */
static int read_press(const char *text, double *press_s)
{
    char *end;
    *press_s = -1.0;
    if (strcmp(text, "-") == 0) {
        return CLI_DONE;
    }
    double v = strtod(text, &end);
    if (end == text || *end != '\0' || !(v >= 0.0 && v <= 60.0)) {
        fprintf(stderr,
                "pullback-cli drill: \"%s\": expected seconds of a press, 0 to 60, or - for "
                "none\n",
                text);
        return CLI_USAGE;
    }
    *press_s = v;
    return CLI_DONE;
}

static void number(const char *key, double value, int decimals, const char *after)
{
    if (isfinite(value) && value > -100.0) {
        printf("\"%s\":%.*f%s", key, decimals, value, after);
    } else {
        printf("\"%s\":null%s", key, after);
    }
}

static void print_trial(const DrillOptions *o, int i, const PbDrillTrial *t, double press_s,
                        const PbDrillAnswer *a)
{
    const char *kind = pb_drill_kind_word(t->kind);
    if (!o->is_json) {
        printf("%2d %-8s listened from %.2f s of the run, ", i + 1, kind,
               t->start_tick * PB_TICK_S);
        if (t->event_s >= 0.0) {
            printf("event after %.2f s, ", t->event_s);
        }
        if (press_s >= 0.0) {
            printf("pressed at %.2f s: %s\n", press_s, outcomes[a->outcome]);
        } else {
            printf("no press: %s\n", outcomes[a->outcome]);
        }
        return;
    }
    printf("%s{\"kind\":\"%s\",\"run_seed\":%llu,\"start_s\":%.2f,", i > 0 ? "," : "", kind,
           (unsigned long long)t->config.seed, t->start_tick * PB_TICK_S);
    number("onset_s", t->event_s >= 0.0 ? t->onset_s : (double)NAN, 2, ",");
    number("event_s", t->event_s >= 0.0 ? t->event_s : (double)NAN, 2, ",");
    number("length_s", t->length_s, 2, ",");
    number("press_s", press_s >= 0.0 ? press_s : (double)NAN, 2, ",");
    number("error_s", a->error_s, 2, ",");
    printf("\"outcome\":\"%s\"}", outcomes[a->outcome]);
}

static void print_end(const DrillOptions *o, const PbDrillTally *y)
{
    double median_s = pb_drill_median_s(y);
    const char *verdict = verdicts[pb_drill_verdict(y)];
    if (o->is_json) {
        printf("],\"trials_done\":%d,\"events\":%d,\"caught\":%d,\"good\":%d,\"false_presses\":%d,"
               "\"best_streak\":%d,\"listened_s\":%.2f,",
               y->trials, y->events, y->caught, y->good, y->false_presses, y->best_streak,
               y->listened_s);
        number("median_s", median_s, 2, ",");
        printf("\"verdict\":\"%s\"}\n", verdict);
        return;
    }
    printf("%d of %d caught, %d good, %d false in %.0f s of listening: %s\n", y->caught, y->events,
           y->good, y->false_presses, y->listened_s, verdict);
}

static int sit(const DrillOptions *o, const double *press_s)
{
    static PbDrillTrial trial; /* large */
    PbSessionConfig base = pb_session_default();
    PbDrillTally y = {0};
    PbError err = {0};
    for (int i = 0; i < o->trials; i++) {
        PbStatus status = pb_drill_make(o->seed, i, &base, NULL, NULL, &trial, &err);
        if (status != PB_OK) {
            err.status = status;
            return cli_report(&err);
        }
        if (i == 0 && o->is_json) {
            printf("{\"seed\":%llu,\"trials\":[", (unsigned long long)o->seed);
        }
        PbDrillAnswer a = pb_drill_press(&trial, press_s[i]);
        pb_drill_count(&y, &trial, &a);
        print_trial(o, i, &trial, press_s[i], &a);
    }
    print_end(o, &y);
    return cli_printed(ferror(stdout) ? PB_ERR_IO : PB_OK);
}

int verb_drill(const CliVerb *verb, int argc, char **argv)
{
    DrillOptions o = {.seed = 1};
    CliParsed parsed;
    double press_s[PB_DRILL_TRIALS];
    int code = cli_parse(verb, argc, argv, &o, PB_DRILL_TRIALS, &parsed);
    for (int i = 0; code == CLI_DONE && i < PB_DRILL_TRIALS; i++) {
        press_s[i] = -1.0;
        if (i < parsed.count) {
            code = read_press(argv[i + 1], &press_s[i]);
        }
    }
    if (code != CLI_DONE) {
        return code;
    }
    if (o.trials == 0) {
        o.trials = parsed.count > 0 ? parsed.count : PB_DRILL_TRIALS;
    }
    if (parsed.count > o.trials) {
        return cli_expected(verb);
    }
    return sit(&o, press_s);
}
