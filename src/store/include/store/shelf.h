/**
 * @file shelf.h
 * @brief Named texts in the store: rubrics, customers' houses, settings. Errors: store/store.h.
 *
 * The store keeps the text as it is given; whoever wrote it knows what it means.
 */
#ifndef STORE_SHELF_H
#define STORE_SHELF_H

#include "store/store.h"

#define STORE_SHELF_BYTES (1024u * 1024u) /**< longest text */

/** One name on a shelf. */
typedef struct StoreItem {
    int64_t id;
    char name[STORE_NAME_BYTES + 1];
    char changed[24];
    int64_t bytes;
} StoreItem;

typedef enum StoreShelf {
    STORE_RUBRICS, /**< JSON rubric by its name; one that graded a run cannot be taken away */
    STORE_HOUSES   /**< JSON house by the customer's name */
} StoreShelf;

/** @brief Put a text under a name; replaces one of the same name. */
PB_NODISCARD PbStatus store_item_put(Store *store, StoreShelf shelf, const char *name,
                                     const char *text, const char *when, PbError *err);
/** @param[out] text caller frees with free */
PB_NODISCARD PbStatus store_item_get(Store *store, StoreShelf shelf, const char *name, char **text,
                                     PbError *err);
/** @brief By name. @param[out] list caller frees with free */
PB_NODISCARD PbStatus store_item_list(Store *store, StoreShelf shelf, StoreItem **list, int *count,
                                      PbError *err);
PB_NODISCARD PbStatus store_item_delete(Store *store, StoreShelf shelf, const char *name,
                                        PbError *err);

/** @brief Remember a setting ("units", "language"). */
PB_NODISCARD PbStatus store_setting_put(Store *store, const char *key, const char *value,
                                        PbError *err);
/** @return PB_ERR_NO_RESULT when it was never set */
PB_NODISCARD PbStatus store_setting_get(Store *store, const char *key, char *value, size_t size,
                                        PbError *err);

#endif
