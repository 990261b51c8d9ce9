/**
 * @file place.h
 * @brief Where things of this person go, and what they set for language, measures and numbers.
 */
#ifndef OS_PLACE_H
#define OS_PLACE_H

#include <stddef.h>

/** @brief Folders of this person, without a slash at the end. */
typedef enum OsPlace {
    OS_DATA,   /**< what programs keep: $XDG_DATA_HOME, else ~/.local/share; %LOCALAPPDATA% */
    OS_CONFIG, /**< what the person chose: $XDG_CONFIG_HOME, else ~/.config; %APPDATA% */
    OS_HOME,   /**< their own */
    OS_PASSING /**< for a while: $TMPDIR, else /tmp; the one Windows names */
} OsPlace;

/** @brief Where that is. An XDG_... that is no whole path is passed over, as its specification
 * asks.
 * @return 0 when nothing says it or it does not fit */
int os_place(OsPlace which, char *out, size_t size);

/** @brief A habit of this person. */
typedef enum OsHabit { OS_LANGUAGE, OS_MEASUREMENT, OS_NUMBERS } OsHabit;

/** @brief The name of a locale, "es_US" or "es-US.UTF-8"; NULL when nothing says it. Held for good.
 */
const char *os_habit(OsHabit which);

#endif
