/* age: what becomes of a packed bay, or of foam, over years. The parts are in age_*.c. */
#include "age.h"
#include "verbs.h"

#include "cli/front.h"

#include <stdio.h>

int verb_age(const CliVerb *verb, int argc, char **argv)
{
    AgeOptions o;
    int code = age_parse(verb, argc, argv, &o);
    if (code != CLI_DONE) {
        return code;
    }
    return o.foam >= 0 ? age_foam(&o) : age_fill(&o);
}
