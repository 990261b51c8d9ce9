/**
 * @file settings_file.h
 * @brief What one person prefers in the window program: docs/formats/settings.md.
 *
 * A settings file is never worth stopping for: one that cannot be understood is put aside as
 * settings.json.bad and the program goes on with its own values.
 */
#ifndef IO_SETTINGS_FILE_H
#define IO_SETTINGS_FILE_H

#include "core/status.h"

#include <stddef.h>

#define IO_SETTINGS_FORMAT  "pullback settings 1"
#define IO_SETTINGS_LEARNER 80  /**< longest name, bytes */
#define IO_SETTINGS_DEVICE  120 /**< longest name of a loudspeaker, bytes */

enum { IO_UNITS_OF_SYSTEM = -1 };

typedef struct IoSettings {
    int lang;          /**< -1 as the system, else a row of words_languages */
    int is_us;         /**< units shown: 0 SI, 1 US, IO_UNITS_OF_SYSTEM until the person chooses */
    int is_contrast;   /**< high contrast colours */
    int is_still;      /**< reduced motion */
    double text_scale; /**< 1 to 2 */
    char learner[IO_SETTINGS_LEARNER + 1]; /**< chosen at the Door; "" = nobody */
    int is_guide_seen;                     /**< the guide for newcomers was begun or passed over */
    int is_muted, is_uncaptioned;          /**< no sound; no words for what is heard */
    double volume;                         /**< 0 to 1 */
    char device[IO_SETTINGS_DEVICE + 1];   /**< loudspeaker; "" = the system's own choice */
} IoSettings;

/** @brief The program's own values. */
IoSettings io_settings_default(void);

/**
 * @brief $XDG_CONFIG_HOME/pullback/settings.json, else ~/.config/pullback/settings.json.
 * An XDG_CONFIG_HOME that is not an absolute path is passed over, as its specification asks.
 * @return PB_OK; PB_ERR_IO when neither variable is set or the path is too long
 */
PB_NODISCARD PbStatus io_settings_path(char *out, size_t size, PbError *err);

/**
 * @brief Read settings. Unknown keys are passed over: they may be those of a newer program.
 * @param[out] settings the program's own values unless PB_OK came back
 * @param[out] err      where and why, unless PB_OK or PB_ERR_NO_RESULT
 * @return PB_OK; PB_ERR_NO_RESULT (there is no file yet); PB_ERR_FORMAT or PB_ERR_RANGE (the file
 *         was not understood and has been renamed to PATH.bad when that was possible); PB_ERR_IO;
 *         PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_settings_load(const char *path, IoSettings *settings, PbError *err);

/**
 * @brief Write settings whole or not at all, mode 0600; makes the folder (0700) when missing.
 * A name that is no clean UTF-8 is written as "".
 * @return PB_OK; PB_ERR_IO; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_settings_save(const char *path, const IoSettings *settings, PbError *err);

#endif
