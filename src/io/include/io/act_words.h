/**
 * @file act_words.h
 * @brief Acts besides packing, in words: why a bay is left, why an act cannot be done now.
 */
#ifndef IO_ACT_WORDS_H
#define IO_ACT_WORDS_H

#include "core/event.h"
#include "core/leave.h"

/** @brief A reason as a crew writes it down; "" for none. @param[in] language a row of
 * words_languages. Static storage. */
const char *io_leave_words(PbLeaveReason reason, int language);
/** @brief A refusal as one sentence without a full stop; "" for none. As io_leave_words. */
const char *io_refusal_words(PbRefusal refusal, int language);

#endif
