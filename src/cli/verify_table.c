/* Who adds rows to `verify`. */
#include "verbs.h"

#include "core/heat_verify.h"

const CliVerifyProvider cli_verify_providers[] = {
    pb_verify_heat,
    NULL, /* ends the list, and keeps it non-empty */
};
const int cli_verify_provider_count =
    (int)(sizeof cli_verify_providers / sizeof cli_verify_providers[0]);
