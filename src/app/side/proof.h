/* Private to app: what was measured on the day, as it is typed and worked out. Read proof.c first.
 */
#ifndef APP_SIDE_PROOF_H
#define APP_SIDE_PROOF_H

#include "core/proof_reading.h"
#include "io/proof_words.h"

#include <SDL.h>

enum { SIDE_PROOF_TEXT = 23 };

/* The prediction with what was measured, on a thread of its own. */
typedef struct SideProofJob {
    PbCompareSetup setup;
    double years;
    SDL_Thread *thread;
    SDL_atomic_t is_cancelled, is_over;
    PbStatus status; /* these three: valid once is_over */
    PbProofUpdate update;
    PbError err;
} SideProofJob;

typedef struct SideProof {
    char text[IO_PROOF_ROWS][SIDE_PROOF_TEXT + 1];
    PbProof
        written; /* that the texts were written from: what is not touched keeps its last digit */
    IoReaderTaste reader;
    int bad; /* row that was refused, -1 = none */
    char says[900];
    int says_is_trouble;
    int is_sheet_due;  /* printed once the job is over */
    SideProofJob *job; /* NULL = nothing to work out */
} SideProof;

/* proof_form.c: the texts of a proof; and the proof that is typed. 0 = refused: bad and says tell
 * why, and `proof` is as it was. */
void side_proof_fill(SideProof *f, const PbProof *proof, IoReaderTaste reader);
int side_proof_take(SideProof *f, PbProof *proof);
int side_proof_differs(const PbProof *a, const PbProof *b);

#endif
