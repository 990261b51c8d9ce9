/* Private to app/shell: window, events, cards, and the turn from room to room. */
#ifndef APP_SHELL_SHELL_H
#define APP_SHELL_SHELL_H

#include "base/app.h"
#include "bay/bay.h"

/* options.c */
int app_options_parse(int argc, char **argv, AppOptions *o);
/* window.c */
int app_window_open(App *app);
void app_window_close(App *app);
void app_window_measure(App *app);
/* loop.c */
/* SIGUSR1 asks for a dump, SIGHUP to end; before the window can be seen. */
void app_watch_signals(void);
int app_loop(App *app);
int app_frame(App *app, double dt_s); /* how many events there were */
void app_lay_out(App *app);           /* the widgets answer what was taken; nothing is shown yet */
void app_draw_and_show(App *app);
/* still.c: what the loop knows of the picture that is on the window; zero at the start */
enum { STILL_LOOK_MS = 250, STILL_MOVES_MS = 60 };
static const double STILL_LINGER_S = 0.3; /* after a change: slow motion is no rest */
typedef struct Still {
    uint64_t shown; /* hash of it */
    int has_shown;
    int has_changed;      /* at the last look */
    double awake_until_s; /* program time */
} Still;
/* Whether what was laid out is another picture than the last one that was asked about. */
int still_changed(Still *s, const App *app, const GfxFieldData *field);
/* How long the loop may rest: 0 = not, STILL_MOVES_MS in a room that moves, STILL_LOOK_MS.
 * is_done: somebody did something. */
int still_rest_ms(Still *s, const App *app, int has_changed, int is_done);
/* Until something happens, at most so long. */
void still_rest(const App *app, int ms);
/* screens.c */
const Screen *screen_of(AppScreen which);
/* The room that this word opens; -1 = none. */
int screens_find(const char *word);
/* Before any thread starts: what rooms worked with can be given back whole when they are left. */
void screens_one_heap(void);
/* Make the change that was asked for; the loop calls it at the start of a frame. */
void screens_turn(App *app);
/* Leave the screen that is shown, at the end of the program. */
void screens_close(App *app);
/* open.c: how a run begins. Goes to the bay room, or tells why not and changes nothing. */
void app_carry_out(App *app); /* what a room has asked for */
void app_open_file(App *app, const char *path);
/* events.c */
void app_input_event(App *app, const SDL_Event *event);
void app_text_size(App *app, double by);
/* settings.c */
void settings_open(App *app);
void settings_watch(App *app); /* once a frame: keep what the person has changed */
/* cards.c, learner_card.c */
void cards_draw(const App *app);
void cards_answer(App *app);
void learner_card_draw(const App *app);
void learner_card_answer(App *app);
void learner_delete_draw(const App *app);
/* class_card.c: whose turn it is, and who has worked what */
void class_card_draw(const App *app);
void class_card_answer(App *app);
void class_card_end(App *app);  /* gives back what the card has read */
int class_next(const App *app); /* index of the learner whose turn it is; -1 = there is nobody */
/* merge_card.c: what another computer has kept */
void merge_card_draw(const App *app);
void merge_card_answer(App *app);
void merge_card_begin(App *app, const char *path); /* opens the card and takes it in */
void merge_card_work(App *app);                    /* once a frame: one run further */
void merge_card_end(App *app);
/* seed_card.c */
void seed_card_draw(const App *app);
void seed_card_answer(App *app);
void learner_delete_answer(App *app);
/* A field, then Back and the primary button. */
void app_card_field(const App *app, GfxRect at, const char *hint, const char *ok, int size);
/* Takes what was typed; 1 when the person wants it done. */
int app_card_field_done(App *app);
/* controls.c */
void controls_open(App *app);
void controls_draw(const App *app);
void controls_answer(App *app);
void controls_start(App *app);
int controls_take_key(App *app, int key);
int controls_take_pad(App *app, int button);
int controls_take_axis(App *app, int axis, double value);
/* virtual_pad.c, hidden.c */
void virtual_pad_attach(App *app);
void virtual_pad_detach(App *app);
int virtual_pad_set(App *app, const char *what, double value);
int hidden_changes_frame(App *app);
/* script.c */
typedef struct Script Script;
Script *script_load(const char *path, char *why, size_t why_size);
void script_free(Script *s);
int script_step(Script *s, App *app); /* before a frame; 0 = the script is over */
int script_every(const Script *s);
int script_only_waits(const Script *s, const App *app); /* nobody looks, nothing is done */
int script_is_paced(const Script *s); /* frames wait for the clock, as a person's do */
/* dump.c, shot.c */
int dump_value(const App *app, const char *key, double *value);
int dump_write(const App *app, const char *path);
int shot_write(App *app, const char *path);
/* bench.c */
int bench_run(App *app);

#endif
