/* Private to app: what the sound is made of, from what a crew senses and the machine's plate. */
#ifndef APP_HEARD_H
#define APP_HEARD_H

#include "audio/audio.h"
#include "core/exercise.h"
#include "core/view.h"

AudioParams app_heard(const PbSignals *s, const PbMachine *m, double volume);

#endif
