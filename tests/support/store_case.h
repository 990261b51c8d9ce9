/* A store in a folder of the test's own, and a run to put into it. */
#ifndef SUPPORT_STORE_CASE_H
#define SUPPORT_STORE_CASE_H

#include "store/runs.h"
#include "store/shelf.h"
#include "suite.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define WHEN "2026-03-04T09:30:00Z"

static char case_folder[300], case_path[340];

static inline void case_start(void)
{
    snprintf(case_folder, sizeof case_folder, "%s/store-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(case_folder));
    snprintf(case_path, sizeof case_path, "%s/t.db", case_folder);
}

static inline void case_stop(void)
{
    DIR *dir = opendir(case_folder);
    struct dirent *entry;
    char path[700];
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        snprintf(path, sizeof path, "%s/%s", case_folder, entry->d_name);
        unlink(path);
    }
    if (dir != NULL) {
        closedir(dir);
    }
    rmdir(case_folder);
}

static inline PbRunSummary case_summary(int i)
{
    PbRunSummary m;
    memset(&m, 0, sizeof m);
    snprintf(m.exercise_id, sizeof m.exercise_id, "bay-%d", i % 3);
    snprintf(m.exercise_title, sizeof m.exercise_title, "Bay %d", i % 3);
    snprintf(m.when, sizeof m.when, "2026-03-%02dT10:%02d:00Z", 1 + i % 28, i / 28 % 60);
    snprintf(m.rubric, sizeof m.rubric, "default");
    m.seed = 0xfedcba9876543210U + (uint64_t)i;
    m.physics_version = 1;
    m.duration_s = 181.25 + i;
    m.part_count = 2;
    m.parts[0] = (PbPartPoints){"on_target", 31.5, 40.0};
    m.parts[1] = (PbPartPoints){"hands", 6.25, 10.0};
    m.total = 75.5;
    m.is_pass = 1;
    m.step_mean_m = 0.3125;
    m.step_spread_m = 0.0625;
    m.dwell_mean_s = 1.5;
    m.dwell_spread_s = -1.0;
    return m;
}

/* Bytes of a run file: anything will do, and no two are the same. */
static inline size_t case_bytes(int i, unsigned char *bytes, size_t most)
{
    size_t size = 1000 + (size_t)(i * 7919) % (most - 1000);
    for (size_t k = 0; k < size; k++) {
        bytes[k] = (unsigned char)((unsigned)i * 31u + (unsigned)k * 7u + (unsigned)(k >> 8));
    }
    memcpy(bytes, &i, sizeof i);
    return size;
}

static inline Store *case_open(void)
{
    Store *store;
    PbError err = {0};
    PbStatus status = store_open(case_path, &store, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    return store;
}

static inline int64_t case_learner(Store *store, const char *name)
{
    int64_t id;
    PbError err = {0};
    PbStatus status = store_learner_add(store, name, WHEN, &id, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    return id;
}

/* Ended `when`, NULL = some day of March. */
static inline int64_t case_run_at(Store *store, int64_t learner, int i, const char *when)
{
    static unsigned char bytes[20000];
    size_t size = case_bytes(i, bytes, sizeof bytes);
    PbRunSummary m = case_summary(i);
    if (when != NULL) {
        snprintf(m.when, sizeof m.when, "%s", when);
    }
    int64_t id;
    PbError err = {0};
    PbStatus status = store_run_add(store, learner, bytes, size, &m, WHEN, &id, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    return id;
}

static inline int64_t case_run(Store *store, int64_t learner, int i)
{
    return case_run_at(store, learner, i, NULL);
}

/* All bytes of a file, for "was it left as it is?". Caller frees. */
static inline unsigned char *case_read(const char *path, size_t *size)
{
    FILE *f = fopen(path, "rb");
    ck_assert_ptr_nonnull(f);
    fseek(f, 0, SEEK_END);
    *size = (size_t)ftell(f);
    rewind(f);
    unsigned char *bytes = malloc(*size + 1);
    ck_assert_ptr_nonnull(bytes);
    ck_assert_uint_eq(fread(bytes, 1, *size, f), *size);
    fclose(f);
    return bytes;
}

#endif
