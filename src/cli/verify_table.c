/* Who adds rows to `verify`. */
#include "verbs.h"

#include "core/heat_verify.h"
#include "core/settle.h"

const CliVerifyProvider cli_verify_providers[] = {
    {pb_verify_pack, {"pack."}},
    {pb_verify_heat, {"heat."}},
    {pb_verify_years, {"settle.", "foam."}},
};
const int cli_verify_provider_count =
    (int)(sizeof cli_verify_providers / sizeof cli_verify_providers[0]);
