/* The loop: hands look at the view, the session takes their commands, events are collected. */
#include "run_session.h"

#include <string.h>
#include <time.h>

/* A run ends at the exercise's time limit; bleeding and clearing come on top. */
#define GRACE_S 600.0

double cli_clock_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void collect(CliRun *run)
{
    int count;
    const PbEvent *events = pb_session_events(run->session, &count);
    for (int i = 0; i < count; i++) {
        if (events[i].kind == PB_EVENT_STALL && run->stall_count < CLI_MAX_STALLS) {
            run->stalls[run->stall_count++] =
                (IoStall){events[i].tick * PB_TICK_S, events[i].y_m, events[i].value};
        }
    }
}

static PbStatus step_all(const PbSessionConfig *config, const PbHands *hands, FILE *signals,
                         CliRun *run, PbError *err)
{
    PbHandsState state;
    PbCommand commands[16];
    memset(&state, 0, sizeof state);
    long most = (long)((config->exercise.time_limit_s + GRACE_S) / PB_TICK_S);
    while (!pb_session_is_over(run->session)) {
        const PbView *view = pb_session_view(run->session);
        int count = pb_hands_next(hands, &state, view, commands);
        PbStatus status = pb_session_step(run->session, commands, count);
        if (status != PB_OK) {
            return pb_fail(err, status, "the run stopped at %.2f s: %s", view->time_s,
                           pb_status_name(status));
        }
        collect(run);
        if (signals != NULL) {
            io_signals_row(signals, pb_session_view(run->session));
        }
        if (--most < 0) {
            return pb_fail(err, PB_ERR_STATE, "the run did not end in its time");
        }
    }
    return PB_OK;
}

PbStatus cli_run(const PbSessionConfig *config, const PbHands *hands, FILE *signals,
                 PbProfile *profile, CliRun *run, PbError *err)
{
    memset(run, 0, sizeof *run);
    PB_TRY(pb_session_create(config, &run->session, err));
    if (profile != NULL) {
        pb_session_profile(run->session, cli_clock_s, profile);
    }
    double from = cli_clock_s();
    PbStatus status = step_all(config, hands, signals, run, err);
    run->wall_s = cli_clock_s() - from;
    if (status != PB_OK) {
        pb_session_destroy(run->session);
        run->session = NULL;
    }
    return status;
}
