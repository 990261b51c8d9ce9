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

/* The code point at p, and its bytes. */
static unsigned long decode(const unsigned char *p, int *bytes)
{
    int n = p[0] < 0x80u ? 1 : p[0] < 0xe0u ? 2 : p[0] < 0xf0u ? 3 : 4;
    unsigned long c = n == 1 ? p[0] : p[0] & (0x7fu >> n);
    for (int i = 1; i < n; i++) {
        c = c << 6 | (p[i] & 0x3fu);
    }
    *bytes = n;
    return c;
}

typedef struct Range {
    unsigned long first, last;
} Range;

static int in_ranges(const unsigned char *p, const Range *ranges, size_t count)
{
    int bytes;
    unsigned long c = decode(p, &bytes);
    for (size_t i = 0; i < count; i++) {
        if (c >= ranges[i].first && c <= ranges[i].last) {
            return bytes;
        }
    }
    return 0;
}

int pb_utf8_hidden(const unsigned char *p)
{
    static const Range hidden[] = {
        {0xad, 0xad},       {0x34f, 0x34f},   {0x61c, 0x61c},     {0x115f, 0x1160},
        {0x17b4, 0x17b5},   {0x180b, 0x180f}, {0x200b, 0x200f},   {0x2028, 0x202e},
        {0x2060, 0x206f},   {0x3164, 0x3164}, {0xfe00, 0xfe0f},   {0xfeff, 0xfeff},
        {0xffa0, 0xffa0},   {0xfff0, 0xfffb}, {0x1bca0, 0x1bca3}, {0x1d173, 0x1d17a},
        {0xe0000, 0xe0fff},
    };
    return in_ranges(p, hidden, sizeof hidden / sizeof hidden[0]);
}

int pb_utf8_space(const unsigned char *p)
{
    static const Range spaces[] = {{0x20, 0x20},     {0xa0, 0xa0},     {0x1680, 0x1680},
                                   {0x2000, 0x200a}, {0x202f, 0x202f}, {0x205f, 0x205f},
                                   {0x3000, 0x3000}};
    return in_ranges(p, spaces, sizeof spaces / sizeof spaces[0]);
}
