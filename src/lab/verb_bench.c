/* bench: how fast the parts of the program are on this machine. Never fails for being slow. */
#include "bench.h"
#include "verbs.h"

#include "cli/front.h"

#include <string.h>

typedef struct Bench {
    const char *name;
    const char *summary;
    int (*run)(FILE *out);
} Bench;

static const Bench benches[] = {
    {"pack", "one bay packed in one-foot steps, default and fine grid", bench_pack},
    {"years", "30 years of a field and of a column, a spread of draws", bench_years},
    {"heat", "sections, bays and cavities", bench_heat},
    {"compare", "Side by side: from a change of the house to figures and ranges", bench_compare},
    {"store", "10 000 runs kept and listed", bench_store},
    {"floor", "what this machine can do at best, one core", bench_floor},
    {"paths", "each hot path, its floor and the ratio: docs/SPEED.md", bench_paths},
};
enum { BENCH_COUNT = sizeof benches / sizeof benches[0] };

int verb_bench(const CliVerb *verb, int argc, char **argv)
{
    CliParsed parsed;
    int code = cli_parse(verb, argc, argv, NULL, 1, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    const char *name = parsed.count > 0 ? argv[1] : NULL;
    int failed = 0, found = 0;
    for (int i = 0; i < BENCH_COUNT; i++) {
        if (name == NULL || strcmp(name, benches[i].name) == 0) {
            printf("%s: %s\n", benches[i].name, benches[i].summary);
            failed |= benches[i].run(stdout);
            found = 1;
        }
    }
    if (!found) {
        return cli_usage("bench", "there is no benchmark \"%s\"", name);
    }
    return failed ? CLI_INTERNAL : CLI_DONE;
}
