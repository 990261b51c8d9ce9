/**
 * @file status.h
 * @brief Result codes and the one-line error that readers fill in.
 *
 * The sign carries meaning: 0 done; positive = refused, nothing changed, carry on; negative = the
 * object is spent, destroy it. Results go through the last out-parameters, written only on PB_OK.
 */
#ifndef CORE_STATUS_H
#define CORE_STATUS_H

#include <stddef.h>

#if defined(__GNUC__)
#define PB_NODISCARD         __attribute__((warn_unused_result))
#define PB_PRINTF(fmt, args) __attribute__((format(printf, fmt, args)))
#else
#define PB_NODISCARD
#define PB_PRINTF(fmt, args)
#endif

typedef enum PbStatus {
    PB_OK = 0,
    PB_ERR_RANGE = 1,     /**< a value is outside its documented range */
    PB_ERR_FORMAT = 2,    /**< text or bytes do not follow the format */
    PB_ERR_IO = 3,        /**< a file cannot be read or written */
    PB_ERR_MEMORY = 4,    /**< an allocation failed */
    PB_ERR_STATE = 5,     /**< not now: the object is in another phase */
    PB_ERR_NO_RESULT = 6, /**< the answer does not exist or was not reached */
    PB_ERR_DIVERGED = -1  /**< fields are not finite or a balance broke: destroy the object */
} PbStatus;

/** Where and why an input was refused. Lines and columns count from 1; 0 = not known. */
typedef struct PbError {
    PbStatus status;
    int line;
    int column;
    char file[256];
    char message[400];
} PbError;

/** @brief Fixed English name of a status, for logs. Static storage. */
const char *pb_status_name(PbStatus status);

/**
 * @brief Fill an error; the message is cut at its buffer, never overrun.
 * @param[out] err   may be NULL: then nothing is written
 * @return status, so that a caller can write `return pb_fail(err, ...)`.
 */
PbStatus pb_fail(PbError *err, PbStatus status, const char *format, ...) PB_PRINTF(3, 4);

/** Hand on a failure where there is nothing to clean up. */
#define PB_TRY(expr)                                                                               \
    do {                                                                                           \
        PbStatus pb_try_status_ = (expr);                                                          \
        if (pb_try_status_ != PB_OK) {                                                             \
            return pb_try_status_;                                                                 \
        }                                                                                          \
    } while (0)

#endif
