/**
 * @file verify.h
 * @brief Published and exact checks, one row each; `pullback-cli verify` prints and judges them.
 *
 * A module adds `void pb_verify_<module>(const PbVerifySink *sink)`, which computes its cases with
 * the shipped code and emits rows. Add the provider to src/cli/verify_table.c.
 */
#ifndef CORE_VERIFY_H
#define CORE_VERIFY_H

#include "core/status.h"

typedef struct PbVerifyRow {
    const char *id;       /**< short and stable, e.g. "heat.cavity.ra1e5.nu" */
    const char *quantity; /**< what, with its condition, in plain words */
    const char *unit;
    double published; /**< reference; for a range use accept_low/high and set this to its middle */
    const char *source; /**< publication, table, year; or "exact: ..." ; or "own design target" */
    double ours;
    double accept_low; /**< passes when accept_low <= ours <= accept_high */
    double accept_high;
} PbVerifyRow;

typedef struct PbVerifySink {
    void (*emit)(void *user, const PbVerifyRow *row);
    void *user;
} PbVerifySink;

/** @brief Emit a row that passes within +-relative of the published value. */
void pb_verify_rel(const PbVerifySink *sink, const char *id, const char *quantity, const char *unit,
                   const char *source, double published, double ours, double relative);
/** @brief Emit a row that passes within +-absolute of the published value. */
void pb_verify_abs(const PbVerifySink *sink, const char *id, const char *quantity, const char *unit,
                   const char *source, double published, double ours, double absolute);
/** @brief Emit a row that passes inside [low, high]; published is shown as given. */
void pb_verify_range(const PbVerifySink *sink, const char *id, const char *quantity,
                     const char *unit, const char *source, double published, double ours,
                     double low, double high);

/** @brief Rows of the packing physics (src/core/pack/verify_pack.c). Takes a few seconds. */
void pb_verify_pack(const PbVerifySink *sink);

#endif
