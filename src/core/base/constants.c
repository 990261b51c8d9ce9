/* The table of constants, made from the X-macro list. */
#include "core/constants.h"

#include <string.h>

PbConstants pb_constants_default(void)
{
#define PB_CONSTANT_VALUE(group, name, value, low, high, unit, confidence, source) .name = value,
    PbConstants c = {PB_CONSTANT_LIST(PB_CONSTANT_VALUE)};
#undef PB_CONSTANT_VALUE
    return c;
}

const PbConstantInfo *pb_constants_table(size_t *count)
{
#define PB_CONSTANT_ROW(group, name, value, low, high, unit, confidence, source)                   \
    {#group, #name, value, low, high, unit, confidence, source, offsetof(PbConstants, name)},
    static const PbConstantInfo table[] = {PB_CONSTANT_LIST(PB_CONSTANT_ROW)};
#undef PB_CONSTANT_ROW
    *count = sizeof table / sizeof table[0];
    return table;
}

const PbConstantInfo *pb_constant_find(const char *name)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(table[i].name, name) == 0) {
            return &table[i];
        }
    }
    return NULL;
}

double *pb_constant_at(PbConstants *constants, const PbConstantInfo *info)
{
    return (double *)(void *)((unsigned char *)constants + info->offset);
}

double pb_constant_value(const PbConstants *constants, const PbConstantInfo *info)
{
    return *(const double *)(const void *)((const unsigned char *)constants + info->offset);
}
