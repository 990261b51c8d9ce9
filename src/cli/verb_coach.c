/*
 * coach: searches the technique that scores best on one exercise: step, wait after the stall, feed,
 * air alone at the end of a stop, blower, first stop from the plate. First spread over the whole
 * range, then in rounds round the best so far, each tighter. What is tried in a round is drawn
 * before the round starts, and rounds are judged in index order, so the answer is the same for any
 * number of threads.
 */
#include "outputs.h"
#include "store_options.h"
#include "verbs.h"

#include "cli/front.h"
#include "cli/run_session.h"

#include "core/rng.h"
#include "io/clock.h"
#include "io/exercise_file.h"
#include "io/output_file.h"
#include "io/parallel.h"
#include "os/file.h"
#include "os/process.h"

#include <inttypes.h>
#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_ROUND = 32, ROUND = 12, MAX_TRIES = 512, KNOBS = 6 };

static const struct {
    double low, high;
} knob[KNOBS] = {
    {0.15, 0.50}, /* step, m */
    {0.0, 5.0},   /* wait after the stall, s */
    {0.35, 1.0},  /* feed, share of the gate fully open */
    {-4.0, 6.0},  /* air alone, s; under 0 counts as none, so that half of the tries have none */
    {0.7, 1.15},  /* blower setting; over 1 counts as 1 */
    {0.10, 0.28}, /* first stop of each way from its plate, m */
};

typedef struct Try {
    double at[KNOBS];
    PbHands hands;
    double score;
    int failed;
} Try;

typedef struct Coach {
    PbSessionConfig config;
    PbClimate climate;
    PbRubric rubric;
    Try *tries;
    int count, budget;
    int first; /* of this round */
    pthread_mutex_t lock;
    int done;
    int shows_progress;
} Coach;

typedef struct CoachOptions {
    const char *exercise, *out;
    uint64_t seed;
    int threads, budget, is_unsaved, is_json;
} CoachOptions;

static double limit(double v, double lo, double hi)
{
    return v < lo ? lo : v > hi ? hi : v;
}

static const double SHORT_OF_M = 0.2; /* first stop of the plain rule from the plate */

/* A way of the tube, from so far before its plate back to the hole. */
static void add_way(PbHands *h, const PbExercise *e, int direction, double short_of_m)
{
    double hole = e->holes[0].y_m;
    double first = direction > 0 ? fmax(e->height_m - short_of_m, hole) : fmin(short_of_m, hole);
    h->passes[h->pass_count++] = (PbPass){direction, first, hole, 0.0};
}

/* The one-foot rule fitted to this bay, with its first stops so far from the plates: to the far end
 * and back to the hole, then the short end; no pass towards an end that the mouth at the hole is as
 * near to. */
static PbHands plain_rule(const PbExercise *e, double short_of_m)
{
    static const double TURN_M = 0.08; /* less is no way to go */
    PbHands h = pb_hands_default();
    double above = e->height_m - e->holes[0].y_m - short_of_m, below = e->holes[0].y_m - short_of_m;
    int far_way = above > below ? 1 : -1;
    h.pass_count = 0;
    add_way(&h, e, far_way, short_of_m);
    if (fmin(above, below) > TURN_M) {
        add_way(&h, e, -far_way, short_of_m);
    }
    return h;
}

static PbHands hands_at(const PbExercise *e, const double at[KNOBS])
{
    PbHands h = plain_rule(e, at[5]);
    snprintf(h.name, sizeof h.name, "coach");
    h.step_m = floor(at[0] * 1000.0 + 0.5) / 1000.0;
    h.wait_s = floor(at[1] * 100.0 + 0.5) / 100.0;
    h.feed_kg_s = limit(floor(at[2] * e->machine.feed_max_kg_s * 1e5 + 0.5) / 1e5, 0.001,
                        e->machine.feed_max_kg_s);
    h.air_only_s = at[3] < 0.0 ? 0.0 : floor(at[3] * 100.0 + 0.5) / 100.0;
    h.blower = limit(floor(at[4] * 1000.0 + 0.5) / 1000.0, 0.0, 1.0);
    h.max_stop_s = 240.0; /* the first stop fills half a bay, but none may eat the whole run */
    return h;
}

static PbStatus mark(const Coach *c, PbWatched *run)
{
    run->climate = c->climate;
    run->has_climate = 1;
    run->rubric = c->rubric;
    return pb_watched_mark(run);
}

static void judge(void *context, int index)
{
    Coach *c = context;
    Try *t = &c->tries[c->first + index];
    CliRun *run = malloc(sizeof *run);
    CliRunExtras extras = {0};
    PbError err;
    t->failed = 1;
    if (run != NULL && cli_run(&c->config, &t->hands, &extras, run, &err) == PB_OK) {
        if (mark(c, &run->watched) == PB_OK) {
            t->failed = 0;
            t->score = run->watched.score.total;
        }
        pb_watched_end(&run->watched);
    }
    free(run);
    pthread_mutex_lock(&c->lock);
    c->done++;
    if (c->shows_progress) {
        fprintf(stderr, "\rcoach: %d of %d runs", c->done, c->budget);
        fflush(stderr);
    }
    pthread_mutex_unlock(&c->lock);
}

static int best_of(const Coach *c)
{
    int best = -1;
    for (int i = 0; i < c->count; i++) {
        if (!c->tries[i].failed && (best < 0 || c->tries[i].score > c->tries[best].score)) {
            best = i;
        }
    }
    return best;
}

/* Try 0 is the plain rule; the rest of the first round fills the ranges evenly: in each knob every
 * one of its strata is used once (Latin hypercube: McKay, Beckman, Conover, Technometrics 21,
 * 1979). */
static void first_round(Coach *c, PbRng *rng, int count)
{
    int order[KNOBS][MAX_TRIES];
    for (int k = 0; k < KNOBS; k++) {
        for (int i = 1; i < count; i++) {
            order[k][i] = i - 1;
        }
        for (int i = count - 1; i > 1; i--) {
            int j = 1 + (int)(pb_rng_next(rng) % (uint64_t)i);
            int swap = order[k][i];
            order[k][i] = order[k][j];
            order[k][j] = swap;
        }
    }
    c->tries[0].hands = plain_rule(&c->config.exercise, SHORT_OF_M);
    double feed = c->config.exercise.feed_kg_s / c->config.exercise.machine.feed_max_kg_s;
    const double plain[KNOBS] = {0.30, 1.0, feed, -1.0, 1.0, SHORT_OF_M};
    memcpy(c->tries[0].at, plain, sizeof plain);
    for (int i = 1; i < count; i++) {
        Try *t = &c->tries[i];
        for (int k = 0; k < KNOBS; k++) {
            double u = (order[k][i] + pb_rng_uniform(rng)) / (count - 1);
            t->at[k] = knob[k].low + (knob[k].high - knob[k].low) * u;
        }
        t->hands = hands_at(&c->config.exercise, t->at);
    }
}

static void next_round(Coach *c, PbRng *rng, int count, double spread)
{
    const Try *best = &c->tries[best_of(c)];
    for (int i = 0; i < count; i++) {
        Try *t = &c->tries[c->count + i];
        for (int k = 0; k < KNOBS; k++) {
            double range = knob[k].high - knob[k].low;
            /* half of the knobs stay as they are: most of what is good about the best is kept */
            double move = pb_rng_uniform(rng) < 0.5 ? 0.0 : spread * range * pb_rng_normal(rng);
            t->at[k] = limit(best->at[k] + move, knob[k].low, knob[k].high);
        }
        t->hands = hands_at(&c->config.exercise, t->at);
    }
}

static void search(Coach *c, const CoachOptions *o)
{
    PbRng rng = pb_rng_make(o->seed, 77);
    IoParallel threads = {o->threads};
    double spread = 0.25;
    while (c->count < c->budget) {
        int left = c->budget - c->count;
        int count = c->count == 0 ? FIRST_ROUND : ROUND;
        count = count > left ? left : count;
        if (c->count == 0) {
            first_round(c, &rng, count);
        } else if (best_of(c) < 0) {
            return;
        } else {
            next_round(c, &rng, count, spread);
            spread *= 0.7;
        }
        c->first = c->count;
        io_parallel_for(&threads, count, judge, c);
        c->count += count;
        if (!c->shows_progress && best_of(c) >= 0) {
            fprintf(stderr, "coach: %d of %d runs, best %.2f\n", c->count, c->budget,
                    c->tries[best_of(c)].score);
        }
    }
}

/* The whole run in memory first, so that its file is whole or not there. */
static PbStatus save(const Coach *c, const Try *best, const char *path, const char *begins,
                     PbError *err)
{
    IoRecorder *recorder;
    CliRun run = {0};
    IoOutput out;
    size_t size;
    PB_TRY(io_recorder_open(NULL, &c->config, best->hands.name, io_now(), &recorder, err));
    CliRunExtras extras = {.recorder = recorder};
    PbStatus status = cli_run(&c->config, &best->hands, &extras, &run, err);
    if (status == PB_OK) {
        status = mark(c, &run.watched);
        status = status == PB_OK ? PB_OK : pb_fail(err, status, "the best run cannot be marked");
    }
    if (status == PB_OK) {
        io_recorder_ended(recorder, io_now());
        status =
            io_recorder_finish(recorder, run.watched.session, &run.watched.score, &c->rubric, err);
    }
    if (status == PB_OK) {
        status = io_output_open(path, begins, &out, err);
    }
    if (status == PB_OK) {
        const unsigned char *bytes = io_recorder_bytes(recorder, &size);
        fwrite(bytes, 1, size, out.file);
        status = io_output_commit(&out, err);
    }
    pb_watched_end(&run.watched);
    io_recorder_close(recorder);
    return status;
}

static int is_same_exercise(const PbExercise *a, const PbExercise *b)
{
    json_t *one = io_exercise_to_json(a), *other = io_exercise_to_json(b);
    int same = one != NULL && other != NULL && json_equal(one, other);
    json_decref(one);
    json_decref(other);
    return same;
}

/* What stands there is as good, by the same rubric, of the same exercise and physics: it stays. */
static int is_as_good(const char *path, const Coach *c, double score, double *total)
{
    PbRunFile old;
    PbError err;
    if (!os_is_there(path) || io_run_read(path, &old, &err) != PB_OK) {
        return 0;
    }
    *total = old.grade.total;
    int stays = old.grade.is_given && old.grade.total >= score - 1e-9 &&
                old.grade.rubric_hash == pb_rubric_hash(&c->rubric) &&
                old.physics_version == PB_PHYSICS_VERSION &&
                is_same_exercise(&old.exercise, &c->config.exercise);
    io_run_free(&old);
    return stays;
}

/* The reference run of this person: where Debrief looks first. */
static PbStatus save_reference(const Coach *c, const Try *best, PbError *err)
{
    char name[80], path[700];
    double total = 0.0;
    snprintf(name, sizeof name, "reference/%s.pbrun", c->config.exercise.id);
    PB_TRY(store_default_file(name, path, sizeof path, err));
    if (is_as_good(path, c, best->score, &total)) {
        printf("reference  %s stays: it has %.2f\n", path, total);
        return PB_OK;
    }
    PB_TRY(io_make_folders(path, err));
    PB_TRY(save(c, best, path, IO_BEGINS_RUN, err));
    printf("reference  %s; Debrief shows it beside a run of this exercise\n", path);
    return PB_OK;
}

#define AT(member) .at = offsetof(CoachOptions, member)
const CliOption coach_options[] = {
    {"--seed", "N", "chances of the runs", cli_take_seed, AT(seed), "a whole number from 0",
     .high = 1e9},
    {"--threads", "N", "1 to 16, default all cores", cli_take_whole, AT(threads), NULL, 1, 16},
    {"--runs", "N", "how many to try", cli_take_whole, AT(budget), NULL, 2, MAX_TRIES},
    {"--out", "RUN.pbrun", "where the best run goes", cli_take_text, AT(out)},
    {"--no-save", NULL, "do not make it the reference run that Debrief shows", cli_take_flag,
     AT(is_unsaved)},
    {"--json", NULL, "for programs; makes no reference run", cli_take_flag, AT(is_json)},
    {.name = NULL},
};

static int parse(const CliVerb *verb, int argc, char **argv, CoachOptions *o)
{
    CliParsed parsed;
    *o = (CoachOptions){.seed = 1, .threads = io_parallel_default().threads, .budget = 92};
    int code = cli_parse(verb, argc, argv, o, 1, &parsed);
    if (code != CLI_DONE || parsed.count == 0) {
        return code != CLI_DONE ? code : cli_expected(verb);
    }
    o->exercise = argv[1];
    o->is_unsaved |= o->is_json;
    const char *const in[] = {o->exercise};
    const IoPlace out[] = {{o->out, IO_BEGINS_NEW, 0}};
    return cli_check_outputs(out, 1, in, 1);
}

static void print(const Coach *c, const Try *best)
{
    const PbHands *h = &best->hands;
    double plain = c->tries[0].failed ? 0.0 : c->tries[0].score;
    printf("exercise   %s, seed %" PRIu64 "; %d runs\n", c->config.exercise.id, c->config.seed,
           c->count);
    printf("plain rule %.2f of 100 (one-foot steps, one second after each stall)\n", plain);
    printf("best       %.2f of 100: steps of %.3f m, %.2f s after the stall, feed %.4f kg/s, "
           "%.2f s of air alone, blower %.3f\n",
           best->score, h->step_m, h->wait_s,
           h->feed_kg_s > 0.0 ? h->feed_kg_s : c->config.exercise.feed_kg_s, h->air_only_s,
           h->blower);
    if (best == &c->tries[0]) {
        printf("answer     nothing that was tried beats the plain one-foot rule\n");
    } else {
        printf("answer     beats the plain one-foot rule by %.2f\n", best->score - plain);
    }
}

static PbStatus print_json(const Coach *c, const Try *best, PbError *err)
{
    const PbHands *h = &best->hands;
    double plain = c->tries[0].failed ? 0.0 : c->tries[0].score;
    json_t *json = json_pack("{s:s, s:s, s:I, s:i, s:f, s:f, s:b, s:f, s:f, s:f, s:f, s:f}",
                             "format", "pullback coach 1", "exercise", c->config.exercise.id,
                             "seed", (json_int_t)c->config.seed, "runs", c->count, "plain_score",
                             plain, "best_score", best->score, "beats_plain", best != &c->tries[0],
                             "step_m", h->step_m, "wait_s", h->wait_s, "feed_kg_s",
                             h->feed_kg_s > 0.0 ? h->feed_kg_s : c->config.exercise.feed_kg_s,
                             "air_only_s", h->air_only_s, "blower", h->blower);
    if (json == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    int failed = json_dumpf(json, stdout, JSON_COMPACT | JSON_REAL_PRECISION(15));
    json_decref(json);
    putchar('\n');
    return failed ? pb_fail(err, PB_ERR_IO, "cannot write the answer") : PB_OK;
}

static PbStatus coach(const CoachOptions *o, Coach *c, int *beats, PbError *err)
{
    PB_TRY(io_exercise_load(o->exercise, &c->config.exercise, err));
    PB_TRY(io_exercise_constants(&c->config.exercise, &c->config.constants, err));
    PB_TRY(cli_climate_of(&c->config.exercise, &c->climate, err));
    search(c, o);
    if (c->shows_progress) {
        fprintf(stderr, "\n");
    }
    int best = best_of(c);
    if (best < 0) {
        return pb_fail(err, PB_ERR_NO_RESULT, "no run of this exercise came to an end");
    }
    /* the answer first: a disk that refuses the run must not take away what was found */
    if (o->is_json) {
        PB_TRY(print_json(c, &c->tries[best], err));
    } else {
        print(c, &c->tries[best]);
    }
    if (o->out != NULL) {
        PB_TRY(save(c, &c->tries[best], o->out, IO_BEGINS_NEW, err));
    } else if (!o->is_unsaved) {
        PB_TRY(save_reference(c, &c->tries[best], err));
    }
    *beats = best != 0;
    return PB_OK;
}

int verb_coach(const CliVerb *verb, int argc, char **argv)
{
    CoachOptions o;
    Coach c;
    PbError err = {0};
    int beats = 0;
    int code = parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    memset(&c, 0, sizeof c);
    c.config = pb_session_default();
    c.config.seed = o.seed;
    c.rubric = pb_rubric_default();
    c.budget = o.budget;
    c.shows_progress = os_errors_are_seen();
    c.tries = calloc((size_t)o.budget, sizeof *c.tries);
    if (c.tries == NULL) {
        (void)pb_fail(&err, PB_ERR_MEMORY, "out of memory");
        return cli_report(&err);
    }
    pthread_mutex_init(&c.lock, NULL);
    PbStatus status = coach(&o, &c, &beats, &err);
    pthread_mutex_destroy(&c.lock);
    free(c.tries);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    return beats ? CLI_DONE : CLI_NO;
}
