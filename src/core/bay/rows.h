/* Private to the core: words of the range tables of files (core/format_rows.h). */
#ifndef BAY_ROWS_H
#define BAY_ROWS_H

#include "core/format_rows.h"

#define REQUIRED        1, 0
#define OPTIONAL        0, 0
#define OR_ZERO         0, 1
#define AT(type, field) offsetof(type, field)

/* The function that hands out a table of this name. */
#define ROWS_OF(name)                                                                              \
    const PbNumberRow *pb_##name(size_t *count)                                                    \
    {                                                                                              \
        *count = sizeof name / sizeof name[0];                                                     \
        return name;                                                                               \
    }

#endif
