/**
 * @file voice.h
 * @brief The one sentence over the bay: what to do now, one thing at a time, the most harmful
 * first.
 *
 * A pure function of the signals that a crew can sense and of what it measured before the job (size
 * of the bay, place of the hole), so a closed wall gives nothing away. Numbers come out, the words
 * belong to whoever shows them. Times are this program's own choice, as a trainer would talk: no
 * published source. Who does just what it says packs a plain bay; it asks for nothing that the
 * marks take points for.
 */
#ifndef CORE_VOICE_H
#define CORE_VOICE_H

#include "core/course.h"

/** In the order of harm; a smaller one takes the place of a larger one at once. */
typedef enum PbSay {
    PB_SAY_CREAKS,     /**< the face gives: pull back, or turn the blower down */
    PB_SAY_CLOG_OFF,   /**< clogged under power: switch off */
    PB_SAY_CLOG_CLEAR, /**< clogged, machine off: clear the hose */
    PB_SAY_CLEARING,   /**< it is being cleared, [s] left */
    PB_SAY_OUTSIDE,    /**< fill blows out in front of the hole: push in or switch off */
    PB_SAY_RUNS_AWAY,  /**< [s] here and no stall: look where it goes */
    PB_SAY_BLEEDING,   /**< machine off, pressure still up: leave the tube where it is */
    PB_SAY_LONG_PULL,  /**< pulled [m] at once: a foot is enough */
    PB_SAY_TOO_EARLY,  /**< moved on before the stall: wait for it next time */
    PB_SAY_TOO_LATE,   /**< the stall has lasted [s]: pull back now */
    PB_SAY_PULL,       /**< stalled: pull back a foot */
    PB_SAY_OFF,        /**< stalled at the hole: this end is packed, switch off */
    PB_SAY_FINISH,     /**< both ends are packed and the needle is down: close the hole */
    PB_SAY_BACK,       /**< pull the tube back to the hole, to turn it */
    PB_SAY_TURN,       /**< turn the tube to the end that is empty */
    PB_SAY_PUSH_IN,    /**< to the far end, machine off */
    PB_SAY_ON,         /**< switch the machine on */
    PB_SAY_WEAK_AIR,   /**< the blower is turned down too far to pack */
    PB_SAY_AIR_FIRST,  /**< fill is on its way down the hose */
    PB_SAY_WAIT,       /**< it rattles: wait for the stall */
    PB_SAY_NOTHING,
    PB_SAYS
} PbSay;

typedef struct PbSaid {
    PbSay say;
    double value; /**< in the brackets above */
} PbSaid;

/** What the voice remembers. Plain value; set up with pb_voice_start. */
typedef struct PbVoice {
    PbCoach coach;
    double far_m[2];            /**< of tube from the hole to the end of the bay: down, up */
    int is_packed[2];           /**< by a stall at the hole */
    double weak_share;          /**< a blower set under it is too weak */
    double static_pa;           /**< of the machine */
    double tube_was_m, stuck_s; /**< while it is pushed in */
    int has_pushed, is_in;      /**< far enough, or as far as it goes */
    int has_creaked, has_rattled, has_stalled;
    double stall_s;
    PbSaid said;
    double said_s;
} PbVoice;

/** @brief A voice for this bay. @param[in] rubric that the run is marked by */
PbVoice pb_voice_start(const PbExercise *exercise, const PbRubric *rubric);
/**
 * @brief The sentence for this moment. Call once a tick with the signals of that tick.
 * It stands for at least 3 s unless what it asks for has been done or something more harmful comes.
 * Deterministic, allocates nothing.
 */
PbSaid pb_voice_next(PbVoice *v, const PbSignals *g);

#endif
