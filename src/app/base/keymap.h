/* Private to app: which key and which controller button does what; kept as JSON in the user's
 * configuration folder. Knows no run and no screen. */
#ifndef APP_KEYMAP_H
#define APP_KEYMAP_H

#include "core/status.h"

#include <stddef.h>

/* X(name, word in the file, key for two hands, for the left hand alone, for the right hand alone,
 *   controller button) */
#define KEYMAP_LIST(X)                                                                             \
    X(TUBE_OUT, "tube_out", "W", "W", "I", "")                                                     \
    X(TUBE_IN, "tube_in", "S", "S", "K", "")                                                       \
    X(STEP_OUT, "step_out", "R", "R", "P", "leftstick")                                            \
    X(TURN, "turn", "T", "T", "Y", "y")                                                            \
    X(BLOWER_LESS, "blower_less", "A", "A", "J", "leftshoulder")                                   \
    X(BLOWER_MORE, "blower_more", "D", "D", "L", "rightshoulder")                                  \
    X(FEED_LESS, "feed_less", "Q", "Q", "U", "")                                                   \
    X(FEED_MORE, "feed_more", "E", "E", "O", "")                                                   \
    X(MACHINE, "machine", "Space", "Space", "Space", "a")                                          \
    X(SHUT_OFF, "shut_off", "B", "B", "B", "b")                                                    \
    X(CLEAR, "clear_plug", "K", "Z", "N", "rightstick")                                            \
    X(FINISH, "finish", "F", "F", "H", "start")                                                    \
    X(WAX, "wax_mark", "M", "X", "M", "x")                                                         \
    X(PAUSE, "pause", "P", "1", "0", "back")                                                       \
    X(CLOSE_LOOK, "close_look", "C", "C", ",", "")                                                 \
    X(SIGHT, "sight", "V", "V", ".", "")                                                           \
    X(MUTE, "mute", "N", "2", "9", "")                                                             \
    X(ACTS, "acts", "O", "G", "G", "")                                                             \
    X(RING, "ring", "I", "3", "8", "")                                                             \
    X(HOLE, "hole", "H", "4", "7", "")                                                             \
    X(PLUG, "plug_hole", "J", "5", "6", "")                                                        \
    X(SEAL, "seal", "X", "6", "5", "")                                                             \
    X(TEST, "static_test", "Y", "7", "4", "")                                                      \
    X(ALL_THE_REST, "all_the_rest", "F4", "F4", "F4", "")                                          \
    X(QUICKER, "quicker", "U", "`", "'", "")

typedef enum KeyAction {
#define KEYMAP_ENUM(name, word, both, left, right, pad) KEY_##name,
    KEYMAP_LIST(KEYMAP_ENUM)
#undef KEYMAP_ENUM
        KEY_ACTIONS
} KeyAction;

/* X(name, word in the file, axis): what a stick or a trigger of the controller does. */
#define KEYMAP_AXES(X)                                                                             \
    X(TUBE, "tube", "lefty")                                                                       \
    X(FEED_LESS, "feed_less", "lefttrigger")                                                       \
    X(FEED_MORE, "feed_more", "righttrigger")

typedef enum KeyAxis {
#define KEYMAP_AXIS_ENUM(name, word, axis) AXIS_##name,
    KEYMAP_AXES(KEYMAP_AXIS_ENUM)
#undef KEYMAP_AXIS_ENUM
        KEY_AXES
} KeyAxis;

typedef enum KeyLayout { KEYS_BOTH, KEYS_LEFT, KEYS_RIGHT, KEY_LAYOUTS } KeyLayout;

typedef struct Keymap {
    int layout;           /* KeyLayout it started from */
    int key[KEY_ACTIONS]; /* SDL key code */
    int pad[KEY_ACTIONS]; /* SDL controller button, -1 = none */
    int axis[KEY_AXES];   /* 1 + SDL controller axis, negative = turned round */
} Keymap;

Keymap keymap_default(KeyLayout layout);
/* What this key or button does; -1 = nothing. */
int keymap_action(const Keymap *k, int key);
int keymap_pad_action(const Keymap *k, int button);
/* Give an action a key; an action that had it takes the other's old one. Nothing changes for a key
 * that has no name of its own, as it could not be kept. */
void keymap_set(Keymap *k, KeyAction action, int key);
/* The same for a controller button. */
void keymap_set_pad(Keymap *k, KeyAction action, int button);
/* Give this axis, pushed in the direction of `way`, to what it should do; swaps as keymap_set. */
void keymap_set_axis(Keymap *k, KeyAxis what, int axis, int way);
/* How far `what` is pushed by this axis at `value`, -1..1; 0 when it is another axis. */
double keymap_axis_push(const Keymap *k, KeyAxis what, int axis, double value);
/* Name as SDL gives it, with a minus when turned round, written into the caller's `out`. */
const char *keymap_axis_name(const Keymap *k, KeyAxis what, char *out, size_t size);
/* Borrowed from SDL until its next name of a key. */
const char *keymap_key_name(const Keymap *k, KeyAction action);
/* keymap.json in pullback's folder in the configuration folder of the user; 0 = there is none, or
 * its path is too long. */
int keymap_path(char *out, size_t size);
/* Untouched unless PB_OK. PB_ERR_IO also when there is no such file. */
PB_NODISCARD PbStatus keymap_load(const char *path, Keymap *k, PbError *err);
/* Written beside and renamed, folders made; a file that was there stays whole unless PB_OK. */
PB_NODISCARD PbStatus keymap_save(const char *path, const Keymap *k, PbError *err);
/* Load for a start: none = defaults; a bad one is kept as PATH.bad, `told` gets the sentence. */
Keymap keymap_start(const char *path, char *told, size_t told_size);

#endif
