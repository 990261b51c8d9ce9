/* Who adds rows to `verify`. */
#include "verbs.h"

#include "core/settle.h"

const CliVerifyProvider cli_verify_providers[] = {
    pb_verify_years, NULL, /* ends the list, and keeps it non-empty */
};
const int cli_verify_provider_count =
    (int)(sizeof cli_verify_providers / sizeof cli_verify_providers[0]);
