/**
 * @file heat_verify.h
 * @brief Published and exact checks of the heat solver; sources stand beside every row.
 */
#ifndef CORE_HEAT_VERIFY_H
#define CORE_HEAT_VERIFY_H

#include "core/verify.h"

/** @brief Emit all rows. Takes a few seconds. Allocates and frees its own memory. */
void pb_verify_heat(const PbVerifySink *sink);

#endif
