/* age: what becomes of a packed bay, or of foam, over years. The parts are in age_*.c. */
#include "age.h"
#include "verbs.h"

#include <stdio.h>

int verb_age(int argc, char **argv)
{
    AgeOptions o;
    int code = age_options(argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    if (o.bench) {
        return bench_years(stdout) == 0 ? CLI_DONE : CLI_INTERNAL;
    }
    return o.foam >= 0 ? age_foam(&o) : age_fill(&o);
}
