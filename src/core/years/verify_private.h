/* The two halves of pb_verify_years. */
#ifndef YEARS_VERIFY_PRIVATE_H
#define YEARS_VERIFY_PRIVATE_H

#include "core/verify.h"

void verify_foam(const PbVerifySink *sink);

#endif
