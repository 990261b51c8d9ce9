/* Private to app: who is learning, what they have done before, and keeping the run under way.
 * Without a store, or with nobody chosen, everything works and nothing is kept. No SDL here. */
#ifndef APP_RECORDS_H
#define APP_RECORDS_H

#include "base/exercises.h"
#include "base/run.h"

#include "io/last_time.h"
#include "store/runs.h"
#include "store/store.h"

enum { RECORDS_HELD = 16 };

/* A run that could not be kept anywhere yet. */
typedef struct RecordsHeld {
    unsigned char *bytes; /* a whole run file */
    size_t size;
    int64_t learner_id; /* 0 = nobody was chosen */
    int64_t left_id;    /* of the run in the store that it goes on from; 0 = none */
    char ended[24];     /* by the clock on the wall */
    char path[800];     /* its file as far as the disk took it, or "" */
} RecordsHeld;

/* One run file on its way into the store. */
typedef struct RecordsFile {
    const char *name;
    const void *bytes; /* borrowed */
    size_t size;
    int64_t learner_id, left_id;
    char ended[24];
    const PbWatched
        *seen; /* the run that it records, as it stands now; NULL = there is but the file */
} RecordsFile;

typedef struct Records {
    Store *store;      /* NULL: see trouble */
    char trouble[500]; /* why nothing is kept, or "" */
    StoreLearner *learners;
    int learner_count;
    int64_t learner_id; /* chosen; 0 = nobody */
    char learner[STORE_NAME_BYTES + 1];
    int64_t run_learner_id; /* whose run is being recorded; 0 = nobody's */
    int64_t run_left_id;    /* of the run in the store that it goes on from; 0 = a new one */
    int is_run_watched;     /* recorded for Debrief alone, never kept */
    char run_learner[STORE_NAME_BYTES + 1];
    char run_path[800];   /* of its file; "" = in memory alone */
    char kept[900];       /* where the last run went, for people; "" = nothing to say */
    int runs_kept;        /* since the program began */
    int64_t kept_id;      /* of the run that was kept last; 0 = none yet, or the last was not */
    IoLastTime last_time; /* what its learner did before in its exercise; zero when it was not */
    unsigned char *last;  /* file of the last run when it was not kept, for Debrief */
    size_t last_size;
    /* finds the climate of an exercise for marks (io/run_judge.h); NULL = none */
    PbStatus (*climate)(void *user, const PbExercise *exercise, PbClimate *climate, PbError *err);
    void *climate_user;
    RecordsHeld held[RECORDS_HELD];
    int held_count;
} Records;

/* Open the store at `path` ("" = the person's own), take in runs that a crash left behind, choose
 * the learner of this name. What `climate` is set to stays. */
void records_open(Records *r, const char *path, const char *learner);
/* Read the list of people again; another program may have changed it. */
void records_refresh(Records *r);
/* Keep what is under way, then close. */
void records_close(Records *r, Run *run);
/* Nonzero when somebody of this name is chosen now; else `why` is one sentence. */
int records_add(Records *r, const char *name, char *why, size_t size);
void records_choose(Records *r, int index); /* negative = nobody */
/* What goes when this learner is deleted. 0 with a sentence when the store cannot tell. */
int records_contents(Records *r, int index, StoreContents *out, char *why, size_t size);
/* Delete a learner with all that is kept of them, runs that are held in memory too. Otherwise
 * nothing has gone: PB_ERR_STATE while another program records a run of theirs, or a sentence. */
PbStatus records_delete(Records *r, int64_t id, char *why, size_t size);
/* Last and best grade of the chosen learner into the list. */
void records_grades(const Records *r, Exercises *list);
/* A run begins: record it when somebody is chosen. Returns 0 with a sentence when it cannot be
 * recorded on the disk. */
int records_run_begin(Records *r, Run *run, char *why, size_t size);
/* Record it for Debrief alone: nobody keeps it. */
void records_run_watch(Records *r, Run *run);
/* A run that was left goes on: `run` has been started as the kept file says, and is brought by its
 * commands to where it was left; recorded from its start. Returns 0 with a sentence when it does
 * not come there, or cannot be recorded on the disk (then `run` has no recorder). */
int records_run_go_on(Records *r, Run *run, int64_t left_id, const PbRunFile *file, char *why,
                      size_t size);
/* The run is over, or is being left: into the store with it, when anything was done in it. Safe
 * when there is none. Returns 0 with a sentence when it could not be kept; it is then held in
 * memory. */
int records_run_end(Records *r, Run *run, char *why, size_t size);
/* records_file.c: one run file into the store. */
PbStatus records_take(Records *r, const RecordsFile *file, PbError *err);
/* records_last.c: what the learner of this kept run did before in its exercise; zero when nothing,
 * or when the store cannot tell. No run is played again. */
IoLastTime records_last_time(Store *store, int64_t id);
/* records_hold.c: runs that could not be kept. Holding one returns 0 when there is no room. */
int records_hold(Records *r, const unsigned char *bytes, size_t size);
/* Those of a learner who is deleted. */
void records_let_go(Records *r, int64_t learner_id);
/* Once more into the store. Returns how many are still held, and why. */
int records_retry(Records *r, char *why, size_t size);
/* All of them as files into this folder. Returns how many, with the path of the last one; 0 with
 * the path that failed and the reason. */
int records_save_elsewhere(Records *r, const char *folder, char *said, size_t size);
/* The program ends: the store, else home, else the folder for short-lived files. */
void records_hold_end(Records *r);
void records_gather(Records *r, const char *folder);
/* records_run.c: a new file for the run under way. 0 when the folder takes none. */
int records_run_folder(const Records *r, char *out, size_t size);

#endif
