/*
 * replay: a recorded run again, every kept hash compared. Exit 0 when all fit, 1 when the replay
 * parted from the recording (and at which tick). Another physics version is run and labelled, never
 * compared: the stored grade stands.
 */
#include "job_run.h"
#include "replay_run.h"
#include "verbs.h"

#include "cli/front.h"
#include "cli/run_session.h"
#include "io/doc.h"
#include "io/score_words.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

typedef struct ReplayOptions {
    const char *path;
    double to_s; /* negative: the end */
    int is_json;
} ReplayOptions;

#define AT(member) .at = offsetof(ReplayOptions, member)
const CliOption replay_options[] = {
    {"--to", "SECONDS", "only to this time", cli_take_number, AT(to_s), "seconds from 0", 0.0, 1e5},
    {"--json", NULL, "for programs", cli_take_flag, AT(is_json)},
    {.name = NULL},
};

static int parse(const CliVerb *verb, int argc, char **argv, ReplayOptions *o)
{
    CliParsed parsed;
    *o = (ReplayOptions){.to_s = -1.0};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    o->path = argv[1];
    return code == CLI_DONE && parsed.count == 0 ? cli_expected(verb) : code;
}

static int print_json(const IoPlay *r, const PbReplayCheck *c, uint64_t hash, int is_same)
{
    char text[24], seed[24];
    snprintf(text, sizeof text, "0x%016" PRIx64, hash);
    snprintf(seed, sizeof seed, "%" PRIu64, r->run.seed);
    (void)io_json_short();
    json_t *o = json_object();
    int failed = json_object_set_new(o, "format", json_string("pullback replay 1"));
    failed |= json_object_set_new(o, "exercise", json_string(r->run.exercise.id));
    failed |= json_object_set_new(o, "who", json_string(r->run.who));
    failed |= json_object_set_new(o, "seed", json_string(seed));
    failed |= json_object_set_new(o, "recorded_s", json_real(r->run.last_tick * PB_TICK_S));
    failed |= json_object_set_new(o, "replayed_s",
                                  json_real(pb_replay_tick(r->watched.replay) * PB_TICK_S));
    failed |= json_object_set_new(o, "is_ended", json_boolean(r->run.is_ended));
    failed |= json_object_set_new(o, "cut_bytes", json_integer((json_int_t)r->run.cut_bytes));
    failed |= json_object_set_new(o, "resimulated", json_boolean(c->is_resimulated));
    failed |= json_object_set_new(o, "hashes_compared", json_integer(c->compared));
    failed |= json_object_set_new(o, "parted_tick",
                                  c->parted_tick >= 0 ? json_integer(c->parted_tick) : json_null());
    failed |=
        json_object_set_new(o, "matches", c->is_resimulated ? json_null() : json_boolean(is_same));
    failed |= json_object_set_new(o, "state_hash", json_string(text));
    if (!failed) {
        failed = json_dumpf(o, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15));
        putchar('\n');
    }
    json_decref(o);
    return failed || io_json_short();
}

/* What the file says of itself: no replay has given it. */
static void print_claim(const PbRunGrade *grade)
{
    printf("grade      the file says %d of 100, %s (rubric %s); grade gives the one that counts\n",
           io_mark_shown(grade->total), grade->is_pass ? "passed" : "not passed", grade->rubric);
}

static void print_text(const IoPlay *r, const PbReplayCheck *c, uint64_t hash)
{
    const PbRunFile *run = &r->run;
    printf("run        %s, %s; seed %" PRIu64 "; %.2f s recorded, %s\n", run->exercise.id,
           run->who[0] != '\0' ? run->who : "nobody named", run->seed, run->last_tick * PB_TICK_S,
           run->is_ended ? "to its end" : "cut off before its end");
    printf("replayed   to %.2f s; state 0x%016" PRIx64 "\n",
           pb_replay_tick(r->watched.replay) * PB_TICK_S, hash);
    if (c->is_resimulated) {
        printf("compared   not: re-simulated with physics %d (recorded with %d%s); a stored grade "
               "stands\n",
               PB_PHYSICS_VERSION, run->physics_version,
               run->physics_version == PB_PHYSICS_VERSION ? ", but other constants" : "");
    } else if (c->parted_tick >= 0) {
        printf("compared   parted at tick %d (%.2f s): recorded 0x%016" PRIx64
               ", replayed 0x%016" PRIx64 "\n",
               c->parted_tick, c->parted_tick * PB_TICK_S, c->recorded_hash, c->replayed_hash);
    } else {
        printf("compared   %d hashes, all the same\n", c->compared);
    }
    if (run->grade.is_given) {
        print_claim(&run->grade);
    }
    for (int i = 0; i < run->mark_count; i++) {
        printf("mark       %.2f s: %s\n", run->marks[i].tick * PB_TICK_S, run->marks[i].text);
    }
}

int verb_replay(const CliVerb *verb, int argc, char **argv)
{
    ReplayOptions o;
    IoPlay r = {0};
    PbError err = {0};
    int code = parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    if (io_is_job(o.path)) {
        return cli_job_replay(o.path);
    }
    PbStatus status = cli_replay_open("replay", o.path, &r, &err);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    int to = o.to_s < 0.0 ? r.run.last_tick : (int)(o.to_s / PB_TICK_S + 0.5);
    status = io_play_to(&r, to, &err);
    if (status != PB_OK) {
        fprintf(stderr, "pullback-cli replay: %s\n", err.message);
        io_play_close(&r);
        return CLI_NO;
    }
    PbReplayCheck c = pb_replay_check(r.watched.replay);
    uint64_t hash = pb_session_hash(r.watched.session);
    if (to >= r.run.last_tick && c.parted_tick < 0 && io_play_parted(&r) >= 0) {
        c.parted_tick = io_play_parted(&r);
        c.recorded_hash = r.run.end_hash;
        c.replayed_hash = hash;
    }
    code = c.parted_tick >= 0 ? CLI_NO : CLI_DONE;
    if (o.is_json) {
        if (print_json(&r, &c, hash, code == CLI_DONE)) {
            code = cli_printed(ferror(stdout) ? PB_ERR_IO : PB_ERR_MEMORY);
        }
    } else {
        print_text(&r, &c, hash);
    }
    io_play_close(&r);
    return code;
}
