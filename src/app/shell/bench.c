/* --bench-frames N: scripted hands pack the bay, every frame is timed from the first event to the
 * swapped picture (waiting left out), and the median and the 99th percentile are printed; then the
 * same as processor time of all threads, which other programs hardly change, and what a graphics
 * card would have to be fed. */
#include "shell/shell.h"
#include "side/side.h"
#include "years/years.h"

#include "audio/audio_device.h"

#include "core/hands.h"
#include "os/process.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static int compare(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

static void hands(App *app, const PbHands *h, PbHandsState *state, int *last_tick)
{
    PbCommand commands[16];
    const PbView *v = app->run.view;
    if (v->tick == *last_tick) {
        return;
    }
    *last_tick = v->tick;
    int n = pb_hands_next(h, state, v, commands);
    for (int i = 0; i < n; i++) {
        run_command(&app->run, commands[i].kind, commands[i].value);
    }
}

/* How soon a room that works things out shows its first picture after it was opened; then all of
 * it: frames that are worked out are what is timed. */
static void let_rooms_work(App *app)
{
    double first_s = 0.0;
    for (int i = 0; i < 2000; i++) {
        first_s = app->years != NULL  ? app->years->first_picture_s
                  : app->side != NULL ? app->side->first_picture_s
                                      : 0.0;
        if (first_s >= 0.0) {
            break;
        }
        app_frame(app, 1.0 / 60.0);
        app_draw_and_show(app);
        SDL_Delay(2);
    }
    if (app->years != NULL || app->side != NULL) {
        printf("first_picture_ms %.0f\n", first_s * 1000.0);
    }
    while ((app->years != NULL && !years_job_is_over(app->years->job)) ||
           (app->side != NULL && !side_job_is_over(app->side->job))) {
        SDL_Delay(20);
    }
}

static double processor_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int bench_run(App *app)
{
    int n = app->options.bench_frames, last_tick = -1;
    double *ms = calloc((size_t)n, sizeof *ms), f = (double)SDL_GetPerformanceFrequency();
    PbHands h = pb_hands_default();
    PbHandsState state = {0};
    RenderCounts before = {0};
    double used_s = 0.0;
    if (ms == NULL) {
        return APP_TROUBLE;
    }
    app->program.is_running = 1;
    app->task.cautions_seen = 1;
    screens_turn(app);
    app_frame(app, 1.0 / 60.0);
    app_draw_and_show(app);
    render_finish(app->win.render);
    printf("first_frame_ms %.0f\n", os_since_start_ms());
    let_rooms_work(app);
    for (int i = -30; i < n && app->program.is_running;
         i++) { /* the first frames compile shaders */
        if (i == 0) {
            before = render_counts(app->win.render);
            used_s = processor_s();
        }
        uint64_t start = SDL_GetPerformanceCounter();
        if (app->turn.screen == SCREEN_BAY) {
            hands(app, &h, &state, &last_tick);
        }
        if (app->years != NULL && !app->years->rail.is_playing) {
            app->years->rail.years = 0.0; /* over and over */
            rail_toggle(&app->years->rail);
        }
        if (app->side != NULL && !app->side->rail.is_playing) {
            app->side->rail.years = 0.0;
            rail_toggle(&app->side->rail);
        }
        app_frame(app, 1.0 / 60.0);
        app_draw_and_show(app);
        render_finish(app->win.render);
        if (i >= 0) {
            ms[i] = (double)(SDL_GetPerformanceCounter() - start) / f * 1000.0;
        }
    }
    used_s = processor_s() - used_s;
    RenderCounts asked = render_counts(app->win.render);
    qsort(ms, (size_t)n, sizeof *ms, compare);
    printf("frames %d  size %dx%d  renderer %s\n", n, app->win.width, app->win.height,
           render_name(app->win.render));
    printf("median_ms %.2f  p99_ms %.2f  worst_ms %.2f  simulated_s %.1f\n", ms[n / 2],
           ms[(int)((double)n * 0.99)], ms[n - 1], app->run.view->time_s);
    printf("processor_ms_a_frame %.2f  draws_a_frame %.1f  bytes_a_frame %.0f\n",
           1000.0 * used_s / n, (double)(asked.draws - before.draws) / n,
           (double)(asked.bytes - before.bytes) / n);
    if (app->sound.audio != NULL) {
        AudioDeviceStats s = audio_device_stats(app->sound.audio);
        printf("sound %s  buffers %llu of %d frames  late %llu  worst_ns_a_sample %.0f\n",
               s.is_playing ? "on" : "off", (unsigned long long)s.buffers, s.buffer_frames,
               (unsigned long long)s.late, s.fill_ns_per_sample);
    }
    free(ms);
    return APP_DONE;
}
