/* Well-formed UTF-8: see core/utf8.h. */
#include "core/utf8.h"

size_t pb_utf8_length(const unsigned char *p, size_t left)
{
    if (p[0] < 0x80) {
        return 1;
    }
    size_t n = p[0] >= 0xf0 ? 4 : p[0] >= 0xe0 ? 3 : 2;
    if (p[0] < 0xc2 || p[0] > 0xf4 || n > left) {
        return 0;
    }
    for (size_t i = 1; i < n; i++) {
        if ((p[i] & 0xc0) != 0x80) {
            return 0;
        }
    }
    int is_overlong = (p[0] == 0xe0 && p[1] < 0xa0) || (p[0] == 0xf0 && p[1] < 0x90);
    int is_outside = (p[0] == 0xed && p[1] > 0x9f) || (p[0] == 0xf4 && p[1] > 0x8f);
    return is_overlong || is_outside ? 0 : n;
}

int pb_utf8_control(const unsigned char *p)
{
    if (p[0] < 0x20u || p[0] == 0x7fu) {
        return 1;
    }
    return p[0] == 0xc2u && p[1] >= 0x80u && p[1] < 0xa0u ? 2 : 0;
}
