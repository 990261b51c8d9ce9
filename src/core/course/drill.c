/*
 * Drills: which trial it is, how it is found in a run, and what a press was worth. Only the session
 * knows what a stall is: the run is packed by hands until one comes after a quiet that is long
 * enough, and the trial begins so much before it.
 */
#include "core/drill.h"

#include "core/hands.h"
#include "core/pb_math.h"
#include "core/rng.h"

#include <math.h>
#include <string.h>

static const double WAIT_LEAST_S = 3.0, WAIT_MEAN_S = 9.0, WAIT_MORE_S = 17.0;
static const double AFTER_S = 3.0;   /* of the run after the event: late presses, and what comes */
static const double DECOY_S = 5.0;   /* after the hopper ran empty */
static const double SETTLED_S = 2.5; /* of dense rattle, before anybody listens */
static const double DENSE = 0.7;     /* rattle that counts as flow */
static const double SLUG_S = 0.8;    /* so long it may be thinner and still be the same flow */
static const double STILL = 0.2;     /* of the dense rattle: less is a line at rest */
static const double DEAD_FLOW = 0.5; /* of the best air at this stop: it has stalled indeed */
static const double DIES_S = 4.0;    /* a stall that takes longer is not learned from */
static const double SAGGED = 0.9;    /* of the wheel's speed: almost two semitones lower */
static const double HEARD_CREAK = 0.2;   /* of the signal: some two creaks a second */
static const double FILLS_FROM_S = 12.0; /* the line is full and the first stall far */
static const double LONGEST_S = 110.0;
enum { ATTEMPTS = 24, TOLD_TICKS = 50 };

static double between(PbRng *r, double low, double high)
{
    return low + (high - low) * pb_rng_uniform(r);
}

/* The deck of a sitting: one to three trials of fourteen call for nothing, so that they cannot be
 * counted out; of the others most are stalls. */
static PbDrillKind kind_of(uint64_t seed, int number)
{
    PbRng r = pb_rng_make(seed, 1000u + (uint64_t)(number / PB_DRILL_TRIALS));
    PbDrillKind deck[PB_DRILL_TRIALS];
    int calm = 1 + (int)(pb_rng_uniform(&r) * 3.0), others = 1 + (int)(pb_rng_uniform(&r) * 3.0);
    for (int i = 0; i < PB_DRILL_TRIALS; i++) {
        double u = pb_rng_uniform(&r);
        deck[i] = i < calm            ? (u < 0.6 ? PB_DRILL_STARVED : PB_DRILL_NOTHING)
                  : i < calm + others ? (u < 0.5 ? PB_DRILL_CLOG : PB_DRILL_CREAK)
                                      : PB_DRILL_STALL;
    }
    for (int i = PB_DRILL_TRIALS - 1; i > 0; i--) {
        int j = (int)(pb_rng_uniform(&r) * (i + 1));
        PbDrillKind k = deck[i];
        deck[i] = deck[j];
        deck[j] = k;
    }
    return deck[number % PB_DRILL_TRIALS];
}

/* Bay, machine and feed: what differs from job to job, as listening to one of them alone would
 * teach that one. Ranges: those of the shipped exercises and machines. */
static PbExercise bay_of(PbDrillKind kind, PbRng *r)
{
    PbExercise e = pb_exercise_default();
    int is_tall = kind != PB_DRILL_STALL;
    e.height_m = is_tall ? between(r, 2.2, 2.45) : between(r, 1.5, 2.45);
    if (pb_rng_uniform(r) < 0.25) {
        e.width_m = 0.57;
        e.holes[0].x_m = 0.5 * e.width_m;
    } else if (pb_rng_uniform(r) < 0.25) {
        e.depth_m = 0.14;
    }
    e.machine.static_pa = between(r, 15000.0, 24000.0);
    e.machine.hose_length_m = between(r, 15.0, 45.0);
    e.feed_kg_s = between(r, 0.050, 0.078);
    e.leak75_m3_s_m2 *= between(r, 0.7, 1.5);
    /* a sound face, far from its limit; or one that works before the bay is full */
    e.strength_pa = kind == PB_DRILL_CREAK ? between(r, 2300.0, 3600.0) : 9000.0;
    return e;
}

typedef struct Making {
    PbDrillTrial *trial;
    PbSession *session;
    PbHands hands;
    PbHandsState state;
    double wait_s;
    int dense_tick, dense_last; /* since when it flows, and until when; -1 = not yet */
    int cause_tick; /* of clog and empty hopper: when it is brought about; -1 = not yet */
    int onset_tick; /* of the event, once it has begun; -1 = not yet */
    int still_tick; /* since when the line is at rest; -1 = it is not */
    double dense_rattle, wheel; /* while it flows; speed of the wheel before it sags */
    int is_spoiled;             /* something else came first */
} Making;

static PbStatus keep(PbDrillTrial *t, int tick, const PbCommand *commands, int count)
{
    for (int i = 0; i < count; i++) {
        if (t->command_count == PB_DRILL_MAX_COMMANDS) {
            return PB_ERR_NO_RESULT;
        }
        t->commands[t->command_count++] = (PbDrillCommand){tick, commands[i]};
    }
    return PB_OK;
}

static int has_event(const PbSession *s, PbEventKind kind)
{
    int count = 0;
    const PbEvent *events = pb_session_events(s, &count);
    for (int i = 0; i < count; i++) {
        if (events[i].kind == kind) {
            return 1;
        }
    }
    return 0;
}

/* What is brought about by a hand that nobody sees: the current sags, the hopper runs empty. */
static int cause(Making *m, int tick, PbCommand *out)
{
    PbDrillKind kind = m->trial->kind;
    int is_due = (kind == PB_DRILL_CLOG || kind == PB_DRILL_STARVED) && m->cause_tick < 0 &&
                 m->trial->start_tick >= 0 &&
                 tick >= m->trial->start_tick + (int)(m->wait_s / PB_TICK_S);
    if (!is_due) {
        return 0;
    }
    m->cause_tick = tick;
    if (kind == PB_DRILL_STARVED) {
        out[0] = (PbCommand){PB_COMMAND_FEED, 0.0};
        return 1;
    }
    out[0] = (PbCommand){PB_COMMAND_BLOWER, 0.2};
    return 1;
}

static void close_at(Making *m, int onset_tick, int event_tick)
{
    PbDrillTrial *t = m->trial;
    if (t->start_tick < 0) {
        t->start_tick = onset_tick - (int)(m->wait_s / PB_TICK_S);
    }
    t->onset_s = (onset_tick - t->start_tick) * PB_TICK_S;
    t->event_s = (event_tick - t->start_tick) * PB_TICK_S;
    t->length_s = t->event_s + AFTER_S;
}

/* Has it quietly flowed for so long before this tick that the trial can begin? */
static int was_quiet(const Making *m, int tick)
{
    return m->dense_tick >= 0 && (tick - m->dense_tick) * PB_TICK_S >= SETTLED_S + m->wait_s;
}

/* Delivery has halved: that is the stall of the marks, which nobody can tell yet, as slugs halve it
 * too. Some half second later nothing moves in the line, and then the air dies: from the moment on
 * at which the line came to rest for good it can be heard and seen. Nonzero when it has died. */
static int has_died(Making *m, const PbView *v)
{
    const PbSignals *s = &v->signals;
    if (m->onset_tick < 0 || s->rattle >= STILL * m->dense_rattle) {
        m->still_tick = -1;
        return 0;
    }
    m->still_tick = m->still_tick < 0 ? v->tick : m->still_tick;
    return s->flow_m3_s < DEAD_FLOW * v->best_flow_m3_s;
}

/* A stall or a creak that comes by itself. Nonzero when the trial is found. */
static int comes(Making *m, const PbView *v)
{
    PbDrillKind kind = m->trial->kind;
    if (kind == PB_DRILL_STALL) {
        if (m->onset_tick < 0 && has_event(m->session, PB_EVENT_STALL) && was_quiet(m, v->tick)) {
            m->onset_tick = v->tick;
        }
        if (has_died(m, v)) {
            close_at(m, m->onset_tick, m->still_tick);
            return 1;
        }
        m->is_spoiled |= m->onset_tick >= 0 && (v->tick - m->onset_tick) * PB_TICK_S > DIES_S;
    }
    if (kind == PB_DRILL_CREAK && m->onset_tick < 0 && has_event(m->session, PB_EVENT_CREAK)) {
        m->onset_tick = v->tick;
        m->is_spoiled |= !was_quiet(m, v->tick);
    }
    if (kind == PB_DRILL_CREAK && m->onset_tick >= 0 && v->signals.creak >= HEARD_CREAK) {
        m->is_spoiled |= (v->tick - m->onset_tick) * PB_TICK_S > 4.0;
        close_at(m, m->onset_tick, v->tick);
        return 1;
    }
    return 0;
}

/* One that is brought about, or none. Nonzero when the trial is over. */
static int is_brought(Making *m, const PbView *v)
{
    PbDrillTrial *t = m->trial;
    if (t->kind == PB_DRILL_CLOG && m->cause_tick >= 0) {
        if (v->signals.blower_speed < SAGGED * m->wheel) {
            close_at(m, m->cause_tick, v->tick);
            return 1;
        }
    }
    double since_s = (v->tick - t->start_tick) * PB_TICK_S;
    double most_s = m->wait_s + (t->kind == PB_DRILL_STARVED ? DECOY_S : AFTER_S);
    if ((t->kind == PB_DRILL_STARVED || t->kind == PB_DRILL_NOTHING) && t->start_tick >= 0 &&
        since_s >= most_s) {
        t->length_s = most_s;
        return 1;
    }
    return 0;
}

/* Sets a face in which nothing works apart from the one that is asked for. */
static void look_for_trouble(Making *m)
{
    PbDrillKind kind = m->trial->kind;
    int is_late = m->trial->start_tick >= 0; /* somebody listens */
    m->is_spoiled |= has_event(m->session, PB_EVENT_BLOW_OUT) ||
                     has_event(m->session, PB_EVENT_PLUG) ||
                     (kind != PB_DRILL_CREAK && has_event(m->session, PB_EVENT_CREAK)) ||
                     (kind == PB_DRILL_CREAK && has_event(m->session, PB_EVENT_STALL)) ||
                     (is_late && kind != PB_DRILL_CLOG && has_event(m->session, PB_EVENT_STALL)) ||
                     (is_late && kind == PB_DRILL_CLOG && m->cause_tick < 0 &&
                      has_event(m->session, PB_EVENT_STALL));
}

static PbStatus tick(Making *m, int *is_found)
{
    PbCommand commands[20];
    const PbView *v = pb_session_view(m->session);
    int at = v->tick;
    /* From what is to be heard on the hands rest, as they do to the end of the trial. */
    int is_begun = m->cause_tick >= 0 || (m->onset_tick >= 0 && m->trial->kind == PB_DRILL_STALL);
    int count = is_begun ? 0 : pb_hands_next(&m->hands, &m->state, v, commands);
    m->wheel = m->cause_tick < 0 ? v->signals.blower_speed : m->wheel;
    count += cause(m, at, commands + count);
    PB_TRY(keep(m->trial, at, commands, count));
    PB_TRY(pb_session_step(m->session, commands, count));
    v = pb_session_view(m->session);
    int flows = v->signals.rattle >= DENSE;
    if (flows) { /* a slug that passes is no end of it */
        m->dense_rattle = m->onset_tick < 0 ? v->signals.rattle : m->dense_rattle;
        int goes_on = m->dense_last >= 0 && (v->tick - m->dense_last) * PB_TICK_S <= SLUG_S;
        m->dense_tick = goes_on ? m->dense_tick : v->tick;
        m->dense_last = v->tick;
    }
    int is_own = m->trial->kind == PB_DRILL_STALL || m->trial->kind == PB_DRILL_CREAK;
    if (!is_own && m->trial->start_tick < 0 && v->time_s >= FILLS_FROM_S && flows) {
        m->trial->start_tick = v->tick;
    }
    *is_found = comes(m, v) || is_brought(m, v);
    if (!*is_found) {
        look_for_trouble(m);
    }
    return PB_OK;
}

/* Up to the event, then on with the hands at rest: whatever comes before the end of the trial. */
static PbStatus pack(Making *m, int (*told)(void *, double), void *user, double from)
{
    int is_found = 0, most = (int)(LONGEST_S / PB_TICK_S);
    while (!is_found && !m->is_spoiled) {
        PB_TRY(tick(m, &is_found));
        int now = pb_session_view(m->session)->tick;
        if (now >= most || pb_session_is_over(m->session)) {
            return PB_ERR_NO_RESULT;
        }
        if (told != NULL && now % TOLD_TICKS == 0 && told(user, from + (1.0 - from) * now / most)) {
            return PB_ERR_STATE;
        }
    }
    int end = m->trial->start_tick + (int)(m->trial->length_s / PB_TICK_S);
    while (!m->is_spoiled && pb_session_view(m->session)->tick < end) {
        PB_TRY(pb_session_step(m->session, NULL, 0));
        m->is_spoiled |= pb_session_is_over(m->session);
    }
    return m->is_spoiled ? PB_ERR_NO_RESULT : PB_OK;
}

static PbStatus attempt(Making *m, PbRng *r, PbError *err)
{
    PbDrillTrial *t = m->trial;
    t->command_count = 0;
    t->start_tick = -1;
    t->onset_s = t->event_s = -1.0;
    t->config.exercise = bay_of(t->kind, r);
    t->config.seed = pb_rng_next(r) >> 12; /* as JSON can say it */
    m->wait_s = WAIT_LEAST_S + pb_min(-WAIT_MEAN_S * pb_log(1.0 - pb_rng_uniform(r)), WAIT_MORE_S);
    m->hands = pb_hands_default();
    m->hands.wait_s = between(r, 0.5, 2.5);
    memset(&m->state, 0, sizeof m->state);
    m->dense_tick = m->dense_last = m->cause_tick = m->onset_tick = m->still_tick = -1;
    m->dense_rattle = m->wheel = 0.0;
    m->is_spoiled = 0;
    return pb_session_create(&t->config, &m->session, err);
}

PbStatus pb_drill_make(uint64_t seed, int number, const PbSessionConfig *base,
                       int (*told)(void *user, double share), void *user, PbDrillTrial *trial,
                       PbError *err)
{
    PbRng r = pb_rng_make(seed, (uint64_t)number);
    PbDrillTrial made = {.config = *base, .kind = kind_of(seed, number)};
    PbStatus status = PB_ERR_NO_RESULT;
    for (int i = 0; i < ATTEMPTS && status == PB_ERR_NO_RESULT; i++) {
        Making m = {.trial = &made};
        PB_TRY(attempt(&m, &r, err));
        status = pack(&m, told, user, (double)i / ATTEMPTS);
        pb_session_destroy(m.session);
    }
    if (status != PB_OK) {
        return pb_fail(err, status, "no trial could be made of this seed");
    }
    *trial = made;
    return PB_OK;
}

int pb_drill_commands(const PbDrillTrial *trial, int tick, PbCommand *commands)
{
    int count = 0;
    for (int i = 0; i < trial->command_count && count < 18; i++) {
        if (trial->commands[i].tick == tick) {
            commands[count++] = trial->commands[i].command;
        }
    }
    return count;
}

PbDrillAnswer pb_drill_press(const PbDrillTrial *t, double press_s)
{
    int calls = t->event_s >= 0.0, has_pressed = press_s >= 0.0 && press_s <= t->length_s;
    PbDrillAnswer a = {.error_s = (double)NAN};
    double quiet_s = calls ? t->onset_s : t->length_s;
    a.listened_s = has_pressed ? pb_min(press_s, quiet_s) : quiet_s;
    if (!has_pressed) {
        a.outcome = calls ? PB_DRILL_MISSED : PB_DRILL_LEFT;
        return a;
    }
    if (!calls) {
        a.outcome = PB_DRILL_FALSE;
        return a;
    }
    a.error_s = press_s - t->event_s;
    a.outcome = press_s < t->onset_s                  ? PB_DRILL_FALSE
                : a.error_s < PB_DRILL_QUICK_S - 1e-9 ? PB_DRILL_SOON
                : a.error_s <= PB_DRILL_GOOD_S + 1e-9 ? PB_DRILL_GOOD
                : a.error_s <= PB_DRILL_LATE_S + 1e-9 ? PB_DRILL_LATE
                                                      : PB_DRILL_MISSED;
    return a;
}

void pb_drill_count(PbDrillTally *y, const PbDrillTrial *trial, const PbDrillAnswer *a)
{
    int is_right = a->outcome == PB_DRILL_GOOD || a->outcome == PB_DRILL_LEFT;
    int is_caught =
        a->outcome == PB_DRILL_GOOD || a->outcome == PB_DRILL_SOON || a->outcome == PB_DRILL_LATE;
    y->trials++;
    /* an event that came after a false press was never listened for */
    y->events += trial->event_s >= 0.0 && a->outcome != PB_DRILL_FALSE;
    y->caught += is_caught;
    y->good += a->outcome == PB_DRILL_GOOD;
    y->soon += a->outcome == PB_DRILL_SOON;
    y->late += a->outcome == PB_DRILL_LATE;
    y->left += a->outcome == PB_DRILL_LEFT;
    y->false_presses += a->outcome == PB_DRILL_FALSE;
    y->listened_s += a->listened_s;
    y->streak = is_right ? y->streak + 1 : 0;
    y->best_streak = y->streak > y->best_streak ? y->streak : y->best_streak;
    if (is_caught && y->error_count < PB_DRILL_TRIALS) {
        y->errors_s[y->error_count++] = a->error_s;
    }
}

void pb_drill_add(PbDrillTally *y, const PbDrillTally *e)
{
    y->trials += e->trials;
    y->events += e->events;
    y->caught += e->caught;
    y->good += e->good;
    y->soon += e->soon;
    y->late += e->late;
    y->left += e->left;
    y->false_presses += e->false_presses;
    y->listened_s += e->listened_s;
}

/* Wald's test: log of how much likelier this count is of a hand that cannot tell. */
static PbDrillVerdict by_false_presses(const PbDrillTally *y)
{
    double limit = pb_log((1.0 - PB_DRILL_RISK) / PB_DRILL_RISK);
    double weight = y->false_presses * pb_log(PB_DRILL_FALSE_UNABLE / PB_DRILL_FALSE_ABLE) -
                    (PB_DRILL_FALSE_UNABLE - PB_DRILL_FALSE_ABLE) * y->listened_s;
    return weight >= limit    ? PB_DRILL_NOT_YET
           : weight <= -limit ? PB_DRILL_CAN_TELL
                              : PB_DRILL_UNDECIDED;
}

PbDrillVerdict pb_drill_verdict(const PbDrillTally *y)
{
    int missed = y->events - y->caught;
    /* the same share of more events than PB_DRILL_EVENTS */
    int may_miss = (PB_DRILL_EVENTS - PB_DRILL_CAUGHT) *
                   ((y->events > PB_DRILL_EVENTS ? y->events : PB_DRILL_EVENTS) / PB_DRILL_EVENTS);
    PbDrillVerdict by_false = by_false_presses(y);
    if (missed > may_miss || by_false == PB_DRILL_NOT_YET) {
        return PB_DRILL_NOT_YET;
    }
    return y->caught >= PB_DRILL_CAUGHT && by_false == PB_DRILL_CAN_TELL ? PB_DRILL_CAN_TELL
                                                                         : PB_DRILL_UNDECIDED;
}

double pb_drill_median_s(const PbDrillTally *y)
{
    double v[PB_DRILL_TRIALS];
    if (y->error_count == 0) {
        return (double)NAN;
    }
    memcpy(v, y->errors_s, sizeof v);
    for (int i = 1; i < y->error_count; i++) {
        for (int k = i; k > 0 && v[k] < v[k - 1]; k--) {
            double w = v[k];
            v[k] = v[k - 1];
            v[k - 1] = w;
        }
    }
    int half = y->error_count / 2;
    return y->error_count % 2 ? v[half] : 0.5 * (v[half - 1] + v[half]);
}

const char *pb_drill_kind_word(PbDrillKind kind)
{
    static const char *const words[PB_DRILL_KINDS] = {
#define PB_DRILL_WORD(name, word) [PB_DRILL_##name] = word,
        PB_DRILL_KIND_LIST(PB_DRILL_WORD)
#undef PB_DRILL_WORD
    };
    return (unsigned)kind < PB_DRILL_KINDS ? words[kind] : "";
}
