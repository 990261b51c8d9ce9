/*
 * Layouts of the database, oldest first. The list is append-only: a step that has left this machine
 * is never edited, because files out there were made by it; a change of mind is another step. Each
 * step raises user_version by one, and all steps that are missing run in one transaction, so that a
 * file is at one version or the next and never between. docs/formats/store.md says what they hold.
 */
#include "store_private.h"

#include <stdio.h>

static const char *const steps[] = {
    /* 1: people, their runs with the file inside, computed points by rubric */
    "CREATE TABLE learners (id INTEGER PRIMARY KEY AUTOINCREMENT,"
    " name TEXT NOT NULL UNIQUE COLLATE NOCASE CHECK (length(name) > 0),"
    " added TEXT NOT NULL) STRICT;"
    "CREATE TABLE runs (id INTEGER PRIMARY KEY AUTOINCREMENT,"
    " learner_id INTEGER NOT NULL REFERENCES learners (id) ON DELETE CASCADE,"
    " exercise_id TEXT NOT NULL, exercise_title TEXT NOT NULL, ended TEXT NOT NULL,"
    " added TEXT NOT NULL, rubric TEXT NOT NULL, seed INTEGER NOT NULL,"
    " physics_version INTEGER NOT NULL, duration_s REAL NOT NULL, total REAL NOT NULL,"
    " is_pass INTEGER NOT NULL CHECK (is_pass IN (0, 1)),"
    " step_mean_m REAL NOT NULL, step_spread_m REAL NOT NULL,"
    " dwell_mean_s REAL NOT NULL, dwell_spread_s REAL NOT NULL,"
    " file_bytes INTEGER NOT NULL, checksum INTEGER NOT NULL) STRICT;"
    "CREATE TABLE run_files (run_id INTEGER PRIMARY KEY REFERENCES runs (id) ON DELETE CASCADE,"
    " content BLOB NOT NULL) STRICT;"
    "CREATE TABLE grades (id INTEGER PRIMARY KEY,"
    " run_id INTEGER NOT NULL REFERENCES runs (id) ON DELETE CASCADE, rubric TEXT NOT NULL,"
    " graded TEXT NOT NULL, total REAL NOT NULL,"
    " is_pass INTEGER NOT NULL CHECK (is_pass IN (0, 1)), UNIQUE (run_id, rubric)) STRICT;"
    "CREATE TABLE grade_parts (grade_id INTEGER NOT NULL REFERENCES grades (id) ON DELETE CASCADE,"
    " place INTEGER NOT NULL, key TEXT NOT NULL, points REAL NOT NULL, most REAL NOT NULL,"
    " PRIMARY KEY (grade_id, place), UNIQUE (grade_id, key)) STRICT, WITHOUT ROWID;",

    /* 2: what the trainer says, beside the computed points and never instead of them */
    "CREATE TABLE marks (id INTEGER PRIMARY KEY,"
    " run_id INTEGER NOT NULL REFERENCES runs (id) ON DELETE CASCADE, part TEXT NOT NULL,"
    " points REAL, reason TEXT NOT NULL, trainer TEXT NOT NULL, marked TEXT NOT NULL) STRICT;"
    "CREATE INDEX marks_by_run ON marks (run_id, part);",

    /* 3: texts by name */
    "CREATE TABLE rubrics (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE,"
    " changed TEXT NOT NULL, content TEXT NOT NULL) STRICT;"
    "CREATE TABLE houses (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE COLLATE NOCASE,"
    " changed TEXT NOT NULL, content TEXT NOT NULL) STRICT;"
    "CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;",

    /* 4: lists of thousands of runs by learner, by exercise and by day */
    "CREATE INDEX runs_by_learner ON runs (learner_id, ended);"
    "CREATE INDEX runs_by_exercise ON runs (exercise_id, ended);"
    "CREATE INDEX runs_by_time ON runs (ended);",

    /* 5: what is known of a run besides its grade. A run that nobody marked was left, and the grade
     * of 0 that it was given goes. What is there by now was kept by an earlier program. */
    "ALTER TABLE runs ADD COLUMN state INTEGER NOT NULL DEFAULT 0 CHECK (state IN (0, 1, 2));"
    "ALTER TABLE runs ADD COLUMN origin INTEGER NOT NULL DEFAULT 0 CHECK (origin IN (0, 1, 2));"
    "ALTER TABLE runs ADD COLUMN is_scripted INTEGER NOT NULL DEFAULT 0"
    " CHECK (is_scripted IN (0, 1));"
    "ALTER TABLE runs ADD COLUMN breaks INTEGER NOT NULL DEFAULT 0;"
    "ALTER TABLE runs ADD COLUMN exercise_hash INTEGER NOT NULL DEFAULT 0;"
    "ALTER TABLE runs ADD COLUMN claimed_total REAL;"
    "ALTER TABLE runs ADD COLUMN claimed_pass INTEGER CHECK (claimed_pass IN (0, 1));"
    "UPDATE runs SET state = 1 WHERE rubric = 'none';"
    "DELETE FROM grades WHERE rubric = 'none'"
    " AND run_id IN (SELECT id FROM runs WHERE state = 1);",

    /* 6: by which rules of marking a grade was made */
    "ALTER TABLE grades ADD COLUMN rules INTEGER NOT NULL DEFAULT 1 CHECK (rules > 0);",

    /* 7: sittings of drills */
    "CREATE TABLE drills (id INTEGER PRIMARY KEY,"
    " learner_id INTEGER NOT NULL REFERENCES learners (id) ON DELETE CASCADE,"
    " done TEXT NOT NULL, seed INTEGER NOT NULL,"
    " sight INTEGER NOT NULL CHECK (sight BETWEEN 0 AND 2),"
    " masking INTEGER NOT NULL CHECK (masking BETWEEN 0 AND 3),"
    " level INTEGER NOT NULL CHECK (level BETWEEN 0 AND 3),"
    " trials INTEGER NOT NULL CHECK (trials BETWEEN 1 AND 14),"
    " events INTEGER NOT NULL CHECK (events BETWEEN 0 AND trials),"
    " caught INTEGER NOT NULL CHECK (caught BETWEEN 0 AND events),"
    " good INTEGER NOT NULL CHECK (good BETWEEN 0 AND caught),"
    " false_presses INTEGER NOT NULL CHECK (false_presses BETWEEN 0 AND trials),"
    " best_streak INTEGER NOT NULL CHECK (best_streak BETWEEN 0 AND trials),"
    " listened_s REAL NOT NULL CHECK (listened_s BETWEEN 0 AND 1e6),"
    " median_s REAL CHECK (abs(median_s) <= 60),"
    " verdict INTEGER NOT NULL CHECK (verdict BETWEEN 0 AND 2)) STRICT;"
    "CREATE INDEX drills_by_learner ON drills (learner_id, id);",

    /* 8: jobs at a whole wall, act by act */
    "CREATE TABLE jobs (id INTEGER PRIMARY KEY,"
    " learner_id INTEGER NOT NULL REFERENCES learners (id) ON DELETE CASCADE,"
    " begun TEXT NOT NULL, wall TEXT NOT NULL CHECK (length(wall) BETWEEN 1 AND 64),"
    " seed INTEGER NOT NULL, is_over INTEGER NOT NULL CHECK (is_over IN (0, 1))) STRICT;"
    "CREATE INDEX jobs_by_learner ON jobs (learner_id, id);"
    "CREATE TABLE job_acts (job_id INTEGER NOT NULL REFERENCES jobs (id) ON DELETE CASCADE,"
    " place INTEGER NOT NULL CHECK (place >= 0), content TEXT NOT NULL,"
    " PRIMARY KEY (job_id, place)) STRICT, WITHOUT ROWID;",
};
enum { STEP_COUNT = sizeof steps / sizeof steps[0] };

int store_version(void)
{
    return STEP_COUNT;
}

const char *store_migration_sql(int n)
{
    return n >= 1 && n <= STEP_COUNT ? steps[n - 1] : NULL;
}

static const char doing[] = "cannot bring the database up to date";

/* Refuses what is not ours before anything is written. */
static PbStatus identify(Store *s, int64_t *version, PbError *err)
{
    int64_t application, tables;
    PB_TRY(store_number(s, &application, err, "cannot read", "PRAGMA application_id", ""));
    PB_TRY(store_number(s, version, err, "cannot read", "PRAGMA user_version", ""));
    PB_TRY(store_number(s, &tables, err, "cannot read", "SELECT count(*) FROM sqlite_schema", ""));
    int is_new = application == 0 && *version == 0 && tables == 0;
    if (!is_new && application != STORE_APPLICATION_ID) {
        return store_fail(s, err, PB_ERR_FORMAT,
                          "is a database of another program; it was left as it is");
    }
    if (*version > STEP_COUNT) {
        return store_fail(s, err, PB_ERR_FORMAT,
                          "was written by a newer version of this program (layout %lld, this one "
                          "knows %d); it was left as it is",
                          (long long)*version, STEP_COUNT);
    }
    if (*version < 0 || (*version == 0 && !is_new)) {
        return store_fail(s, err, PB_ERR_FORMAT, "has no known layout; it was left as it is");
    }
    return store_schema_check(s, (int)*version, err);
}

static PbStatus climb(Store *s, int target, PbError *err)
{
    int64_t version;
    char sql[80];
    PB_TRY(identify(s, &version, err)); /* again: another process may have been faster */
    while (version < target) {
        if (sqlite3_exec(s->db, steps[version], NULL, NULL, NULL) != SQLITE_OK) {
            return store_trouble(s, err, doing);
        }
        version++;
        snprintf(sql, sizeof sql, "PRAGMA user_version = %d", (int)version);
        PB_TRY(store_run_sql(s, err, doing, sql, ""));
    }
    snprintf(sql, sizeof sql, "PRAGMA application_id = %d", STORE_APPLICATION_ID);
    return store_run_sql(s, err, doing, sql, "");
}

PbStatus store_migrate(Store *s, int target, PbError *err)
{
    int64_t version = 0;
    /* all three numbers at one moment: another process may be making the same new store */
    PB_TRY(store_run_sql(s, err, "cannot read", "BEGIN", ""));
    PB_TRY(store_end(s, identify(s, &version, err), err, "cannot read"));
    if (version >= target) {
        return PB_OK;
    }
    PB_TRY(store_begin(s, err, doing));
    return store_end(s, climb(s, target, err), err, doing);
}
