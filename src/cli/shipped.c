/* The hashes of the shipped exercises, read once. */
#include "shipped.h"

#include "cli/data_files.h"

#include "io/exercise_file.h"
#include "os/file.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

enum { MOST = 128 };

static uint64_t hashes[MOST];
static int hash_count, is_short;

/* Files that are no exercise of this version are passed over; a shortage is told, since half of the
 * list would call shipped exercises somebody's own. */
static PbStatus read_folder(const char *folder, PbError *err)
{
    char path[1200];
    PbStatus status = PB_OK;
    snprintf(path, sizeof path, "%s/exercises", folder);
    int count = 0;
    char **names = os_names(path, ".json", &count);
    if (names == NULL) {
        return errno == ENOMEM ? pb_fail(err, PB_ERR_MEMORY, "out of memory") : PB_OK;
    }
    for (int i = 0; i < count && status != PB_ERR_MEMORY && hash_count < MOST; i++) {
        PbExercise e;
        snprintf(path, sizeof path, "%s/exercises/%s", folder, names[i]);
        status = io_exercise_load(path, &e, err);
        is_short |= status == PB_ERR_IO; /* it may be the very exercise that is asked for */
        if (status == PB_OK) {
            hashes[hash_count] = io_exercise_hash(&e);
            if (hashes[hash_count++] == 0) {
                status = pb_fail(err, PB_ERR_MEMORY, "out of memory");
            }
        }
    }
    os_names_free(names, count);
    return status == PB_ERR_MEMORY ? status : PB_OK;
}

PbStatus cli_shipped_read(PbError *err)
{
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    for (int i = 0; i < count && hash_count == 0; i++) {
        PB_TRY(read_folder(folders[i], err));
    }
    return PB_OK;
}

int cli_is_own_exercise(uint64_t hash)
{
    for (int i = 0; i < hash_count; i++) {
        if (hashes[i] == hash) {
            return 0;
        }
    }
    return hash != 0 && hash_count > 0 && !is_short;
}

int cli_is_own(const void *user, uint64_t hash)
{
    (void)user;
    return cli_is_own_exercise(hash);
}
