/* Private to app: how the program itself is doing, for soak tests and reports. */
#ifndef APP_HEALTH_H
#define APP_HEALTH_H

/* Called around the work of every frame that is shown; ms of work, waiting left out. */
void health_frame(double ms);
/* Forget the frames so far: the next figures are of those to come. */
void health_reset(void);
/* A share (0..1) of the frames since the last reset took at most this long, ms, to 0.25 ms; 1000 =
 * that or longer, 0 when there were none. */
double health_frame_ms(double share);
double health_frames(void);

#endif
