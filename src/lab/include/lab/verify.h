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

/** What a reference is, and so what agreement with it is worth. */
typedef enum VerifyKind {
    VERIFY_EXACT,      /**< closed form, identity, law of conservation */
    VERIFY_CALCULATED, /**< somebody's published calculation, or the formula of a standard */
    VERIFY_OWN_CODE,   /**< another calculation made for this project: it may share our errors */
    VERIFY_HELD_OUT,   /**< published figure about real walls, machines or fill; set no constant */
    VERIFY_IN_SIGHT,   /**< such a figure too, in sight when constants or settings were chosen */
    VERIFY_CALIBRATED, /**< such a figure too; a constant was set by it, so agreement is no proof */
    VERIFY_TARGET,     /**< a demand of our own */
    VERIFY_KINDS
} VerifyKind;

/** In the order of VerifyKind. */
extern const char *const verify_kind_words[VERIFY_KINDS];

typedef struct VerifySource {
    VerifyKind kind;
    const char *text; /**< publication, table, year; what is exact; whose code */
} VerifySource;

#define VERIFY_SOURCE(kind, text) ((VerifySource){VERIFY_##kind, text})

typedef struct VerifyRow {
    const char *id;       /**< short and stable, e.g. "heat.cavity.ra1e5.nu" */
    const char *quantity; /**< what, with its condition, in plain words */
    const char *unit;
    VerifySource source;
    double reference_low, reference_high; /**< equal for a value; a published range else */
    double ours;
    double accept_low; /**< passes when accept_low <= ours <= accept_high */
    double accept_high;
    const char *against; /**< NULL; else what is known of why ours does not agree: the row is shown
                              as speaking against us, and it fails once ours is inside the limits */
} VerifyRow;

/** How a row came out. */
typedef enum VerifyVerdict { VERIFY_OK, VERIFY_AGAINST, VERIFY_FAIL } VerifyVerdict;

typedef struct VerifySink {
    void (*emit)(void *user, const VerifyRow *row);
    void *user;
} VerifySink;

VerifyVerdict verify_judge(const VerifyRow *row);

/** @brief Emit a row that passes within +-relative of the reference. */
void verify_rel(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                VerifySource source, double reference, double ours, double relative);
/** @brief Emit a row that passes within +-absolute of the reference. */
void verify_abs(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                VerifySource source, double reference, double ours, double absolute);
/** @brief Emit a row whose reference is a range, and passes inside it. */
void verify_within(const VerifySink *sink, const char *id, const char *quantity, const char *unit,
                   VerifySource source, double low, double high, double ours);
/** @brief Emit a row as it is. */
void verify_row(const VerifySink *sink, const VerifyRow *row);

/* All allocate and free their own memory, and take seconds; sources stand beside every row. */
/** @brief Rows of the packing physics. */
void verify_pack(const VerifySink *sink);
/** @brief Rows of the heat solver. */
void verify_heat(const VerifySink *sink);
/** @brief Rows of settling and of foam. */
void verify_years(const VerifySink *sink);
void verify_foam(const VerifySink *sink);

#endif
