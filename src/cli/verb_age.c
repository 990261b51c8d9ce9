/* age: what becomes of a packed bay, or of foam, over years. The parts are in age_*.c. */
#include "age.h"
#include "verbs.h"

#include <stdio.h>
#include <string.h>

static void help(void)
{
    printf(
        "usage: pullback-cli age FIELD.csv|FIELD.json|--density KG_M3 [options]\n"
        "       pullback-cli age --foam good|typical|poor [options]\n"
        "  --years Y             up to 200, default 30\n"
        "  --at Y1,Y2,...        times to report, in place of the usual ones\n"
        "  --climate NAME|FILE   normal, damp, cold, hot-humid, steady-50, steady-80, or a file\n"
        "  --width --height --depth M, --tilt DEG (90 wall, 0 level), --fill-rh 0..1\n"
        "  --cells N             columns across a bay of one density, default 1\n"
        "  --vibration quiet|light|heavy   --face gypsum|film|lath\n"
        "  --damp shallow|deep   reading of the published damp threshold\n"
        "  --threshold           smallest uniform density with at most 5 mm of top gap\n"
        "  --spread N            N seeded draws: median and 10-90 %% band; --seed S --threads T\n"
        "  --shard I/N           only every N-th draw; join with pullback-cli merge\n"
        "  --frames OUT.csv      the bay at every time, for films\n"
        "  --inner --outer       painted-board, wood-board, tight, plaster, tight-sheathing "
        "(foam)\n"
        "  --set NAME=VALUE      another value for a constant\n"
        "  --json                for programs;  --bench  speed table;  --progress  tell of the "
        "draws\n"
        "  --cases TABLE --rows ROWS [--workers N] [--shard I/N]   many cases, a row each\n"
        "Formats: docs/formats/age.md, cases.md. A range under stated assumptions, never a "
        "promise.\n");
}

int verb_age(int argc, char **argv)
{
    AgeOptions o;
    if (argc < 2 || strcmp(argv[1], "--help") == 0) {
        help();
        return argc < 2 ? CLI_USAGE : CLI_DONE;
    }
    int code = age_options(argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    if (o.bench) {
        return bench_years(stdout) == 0 ? CLI_DONE : CLI_INTERNAL;
    }
    return o.foam >= 0 ? age_foam(&o) : age_fill(&o);
}
