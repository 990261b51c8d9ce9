/* Rooms of the window laid out without one: no display, no OpenGL, letters from the font files. A
 * test brings its room into a state and asks rooms_all_legible; what a person does is taken as the
 * window takes it (rooms_press, rooms_key) and answered by a layout. */
#ifndef TESTS_UNIT_ROOMS_H
#define TESTS_UNIT_ROOMS_H

#include "base/app.h"
#include "suite.h"

/* A program as main() begins it, without window, sound, store and settings; run and records are
 * empty. One at a time; end it with rooms_close. */
App *rooms_open(void);
void rooms_close(App *app);

/* A run of this exercise (a file of assets/exercises without ".json"), `seconds` of it worked by
 * pb_hands_default; then, unless it is 0, the hole is closed and the marks are made. */
void rooms_run(App *app, const char *exercise, double seconds, int is_finished);
/* Goes there as the shell does at the start of a frame. */
void rooms_go(App *app, AppScreen screen);

/* This view from now on. */
void rooms_view(App *app, int width, int height, double text_scale, int lang);
/* Lays out in 3 sizes of window, 5 of text, each language and both units, and asserts for each that
 * every text can be read whole, that a second layout draws the same, and that the time it takes is
 * in milliseconds. The view is as it was afterwards. `state` names it in what is told. */
void rooms_all_legible(App *app, const char *state);
/* As before with a notice or a strip over the room: what it covers is no fault. */
void rooms_all_legible_laid_over(App *app, const char *state);

/* A click at a share of the place that was marked (app_mark), which must be there. */
void rooms_press(App *app, const char *mark, double across, double down);
void rooms_key(App *app, SDL_Keycode key);
/* Nonzero when this text stands on the screen as it is laid out now. */
int rooms_says(App *app, const char *text);

#endif
