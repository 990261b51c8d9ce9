/* The loop: hands look at the view, the session takes their commands, events are collected. */
#include "cli/run_session.h"

#include "cli/data_files.h"

#include "core/marks.h"
#include "io/act_words.h"
#include "io/climate_file.h"
#include "io/clock.h"
#include "io/result_file.h"
#include "os/process.h"
#include "words/words.h"

#include <string.h>

/* A run ends at the exercise's time limit; bleeding and clearing come on top. */
#define GRACE_S 600.0

/* Wait until this moment of the run has come by the wall clock. */
static void keep_pace(double time_s, double pace, double from_s)
{
    double left = from_s + time_s / pace - io_clock_s();
    if (pace > 0.0 && left > 0.0) {
        os_sleep(left);
    }
}

/* A person sees that an act was refused and does otherwise; hands of a file would go on at the
 * wrong hole. */
static PbStatus check_acts(const PbSession *session, PbError *err)
{
    int count = 0;
    const PbEvent *events = pb_session_events(session, &count);
    for (int i = 0; i < count; i++) {
        if (events[i].kind == PB_EVENT_ACT_REFUSED) {
            return pb_fail(err, PB_ERR_STATE, "the run stopped at %.2f s: an act was refused: %s",
                           events[i].tick * PB_TICK_S,
                           io_refusal_words((PbRefusal)events[i].value, WORDS_ENGLISH));
        }
    }
    return PB_OK;
}

static PbStatus step_all(const PbSessionConfig *config, const PbHands *hands,
                         const CliRunExtras *extras, CliRun *run, PbError *err)
{
    double from_s = io_clock_s();
    PbHandsState state;
    PbCommand commands[16 + 1];
    memset(&state, 0, sizeof state);
    long most = (long)((config->exercise.time_limit_s + GRACE_S) / PB_TICK_S);
    const PbView *view = pb_session_view(run->watched.session);
    while (!run->watched.is_ended) {
        int count = pb_hands_next(hands, &state, view, commands);
        if (extras->recorder != NULL && view->tick == 0) { /* no person's run, and says so */
            commands[count++] = (PbCommand){PB_COMMAND_MARK, PB_MARK_SCRIPTED};
        }
        PbStatus status = pb_watched_step(&run->watched, commands, count);
        if (status != PB_OK) {
            return pb_fail(err, status, "the run stopped at %.2f s: %s", view->time_s,
                           pb_status_name(status));
        }
        PB_TRY(check_acts(run->watched.session, err));
        view = pb_session_view(run->watched.session);
        run->tuft_ticks += view->tuft_count;
        if (extras->recorder != NULL) {
            io_recorder_step(extras->recorder, run->watched.session, commands, count);
        }
        if (extras->signals != NULL) {
            io_signals_row(extras->signals, view);
        }
        keep_pace(view->time_s, extras->pace, from_s);
        if (--most < 0) {
            return pb_fail(err, PB_ERR_STATE, "the run did not end in its time");
        }
    }
    return PB_OK;
}

PbStatus cli_run(const PbSessionConfig *config, const PbHands *hands, const CliRunExtras *extras,
                 CliRun *run, PbError *err)
{
    memset(run, 0, sizeof *run);
    PB_TRY(pb_watched_start(&run->watched, config, err));
    if (extras->profile != NULL) {
        pb_session_profile(run->watched.stepped,
                           extras->clock_s != NULL ? extras->clock_s : io_clock_s, extras->profile);
    }
    double from = io_clock_s();
    PbStatus status = step_all(config, hands, extras, run, err);
    run->wall_s = io_clock_s() - from;
    if (status != PB_OK) {
        pb_watched_end(&run->watched);
    }
    return status;
}

PbStatus cli_climate_of(const PbExercise *exercise, PbClimate *climate, PbError *err)
{
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    return io_climate_find(exercise->climate, folders, count, climate, err);
}

PbStatus cli_find_climate(void *user, const PbExercise *exercise, PbClimate *climate, PbError *err)
{
    (void)user;
    return cli_climate_of(exercise, climate, err);
}
