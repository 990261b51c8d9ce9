/*
 * Runs a fuzz target over every file of the folders, then over damaged copies: cut at each of 64
 * places, and with one to eight bytes changed, 4000 times a file. The damage is seeded by the
 * file's bytes, so a failure comes back. Prints the file and the damage before it dies, through
 * stderr.
 */
#include "core/hash.h"
#include "core/rng.h"

#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { CUTS = 64, CHANGES = 4000, MAX_BYTES = 1 << 20 };

static long runs;

/* On a copy of the exact size, so that a sanitizer sees a read past its end. */
static void run(const uint8_t *data, size_t size)
{
    uint8_t *copy = malloc(size > 0 ? size : 1);
    if (copy == NULL) {
        exit(70);
    }
    memcpy(copy, data, size);
    LLVMFuzzerTestOneInput(copy, size);
    free(copy);
    runs++;
}

static void damage(const char *name, uint8_t *data, size_t size)
{
    static const char tokens[] = "{}[]\",:-+.eE0129 \n\\utfn\xff\x80";
    PbRng rng = pb_rng_make(pb_hash_bytes(PB_HASH_START, data, size), 0);
    fprintf(stderr, "%s: %zu bytes\n", name, size);
    run(data, size);
    for (int i = 0; i < CUTS; i++) {
        run(data, size * (size_t)i / CUTS);
    }
    for (int i = 0; i < CHANGES && size > 0; i++) {
        size_t at[8];
        uint8_t old[8];
        int n = 1 + (int)(pb_rng_next(&rng) % 8);
        for (int k = 0; k < n; k++) {
            at[k] = (size_t)(pb_rng_next(&rng) % size);
            old[k] = data[at[k]];
            data[at[k]] = (uint8_t)tokens[pb_rng_next(&rng) % (sizeof tokens - 1)];
        }
        run(data, size);
        while (n-- > 0) {
            data[at[n]] = old[n];
        }
    }
}

/* @return how many files of the folder were run; does not return when one cannot be read */
static int replay(const char *name)
{
    static uint8_t data[MAX_BYTES];
    DIR *folder = opendir(name);
    if (folder == NULL) {
        fprintf(stderr, "%s: cannot open the folder\n", name);
        exit(4);
    }
    int files = 0;
    for (struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        char path[4096];
        if (entry->d_name[0] == '.') {
            continue;
        }
        snprintf(path, sizeof path, "%s/%s", name, entry->d_name);
        FILE *f = fopen(path, "rb");
        if (f == NULL) {
            fprintf(stderr, "%s: cannot open\n", path);
            exit(4);
        }
        size_t size = fread(data, 1, sizeof data, f);
        fclose(f);
        damage(entry->d_name, data, size);
        files++;
    }
    closedir(folder);
    return files;
}

int main(int argc, char **argv)
{
    int files = 0;
    if (argc < 2) {
        fprintf(stderr, "usage: %s FOLDER...\n", argv[0]);
        return 2;
    }
    for (int i = 1; i < argc; i++) {
        files += replay(argv[i]);
    }
    run((const uint8_t *)"", 0);
    printf("%d files, %ld runs\n", files, runs);
    return files > 0 ? 0 : 1;
}
