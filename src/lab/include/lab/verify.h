/**
 * @file verify.h
 * @brief Published and exact checks, one row each; `pullback-lab verify` prints and judges them.
 *
 * A module has `void verify_<module>(const VerifySink *sink)`, which computes its cases with the
 * shipped code and emits rows; it is called by src/lab/verb_verify.c.
 */
#ifndef LAB_VERIFY_H
#define LAB_VERIFY_H

#include "core/status.h"

typedef struct VerifyRow {
    const char *id;       /**< short and stable, e.g. "heat.cavity.ra1e5.nu" */
    const char *quantity; /**< what, with its condition, in plain words */
    const char *unit;
    double published; /**< reference; for a range use accept_low/high and set this to its middle */
    const char *source; /**< publication, table, year; or "exact: ..." ; or "own design target" */
    double ours;
    double accept_low; /**< passes when accept_low <= ours <= accept_high */
    double accept_high;
} VerifyRow;

typedef struct VerifySink {
    void (*emit)(void *user, const VerifyRow *row);
    void *user;
} VerifySink;

/** @brief Emit a row that passes within +-relative of the published value. */
void verify_rel(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                const char *source, double published, double ours, double relative);
/** @brief Emit a row that passes within +-absolute of the published value. */
void verify_abs(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                const char *source, double published, double ours, double absolute);
/** @brief Emit a row that passes inside [low, high]; published is shown as given. */
void verify_range(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                  const char *source, double published, double ours, double low, double high);

/* All allocate and free their own memory, and take seconds; sources stand beside every row. */
/** @brief Rows of the packing physics. */
void verify_pack(const VerifySink *sink);
/** @brief Rows of the heat solver. */
void verify_heat(const VerifySink *sink);
/** @brief Rows of settling and of foam. */
void verify_years(const VerifySink *sink);
void verify_foam(const VerifySink *sink);

#endif
