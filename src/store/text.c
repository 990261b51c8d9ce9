/* What text may go into the store: UTF-8 without control characters, and times in one form. */
#include "store_private.h"

#include "core/utf8.h"

#include <stdio.h>
#include <string.h>

#define WORDS(number)    #number
#define WORDS_OF(number) WORDS(number)
#define NAME_BYTES       WORDS_OF(STORE_NAME_BYTES)

static int is_clean(const char *text, size_t most, int lines)
{
    size_t length = strlen(text);
    if (length > most) {
        return 0;
    }
    const unsigned char *end = (const unsigned char *)text + length;
    for (const unsigned char *p = (const unsigned char *)text; p < end;) {
        size_t n = pb_utf8_length(p, (size_t)(end - p));
        int is_line = lines && (*p == '\n' || *p == '\r' || *p == '\t');
        int is_c1 = p[0] == 0xc2 && n == 2 && p[1] < 0xa0;
        if (n == 0 || (*p < 0x20 && !is_line) || *p == 0x7f || is_c1) {
            return 0;
        }
        p += n;
    }
    return 1;
}

int store_is_text(const char *text, size_t most)
{
    size_t n = text != NULL ? strlen(text) : 0;
    return n > 0 && text[0] != ' ' && text[n - 1] != ' ' && is_clean(text, most, 0);
}

const char *store_name_fault(const char *name)
{
    int is_after_space = 0;
    if (name == NULL || name[0] == '\0' || strlen(name) > STORE_NAME_BYTES) {
        return "a name has 1 to " NAME_BYTES " bytes";
    }
    if (!is_clean(name, STORE_NAME_BYTES, 0)) {
        return "a name is UTF-8 without control characters";
    }
    const unsigned char *p = (const unsigned char *)name;
    if (pb_utf8_space(p)) {
        return "a name has no space at its ends";
    }
    for (; *p != '\0'; p += pb_utf8_length(p, 4)) {
        if (pb_utf8_hidden(p)) {
            return "a name has no invisible and no direction-changing characters";
        }
        is_after_space = pb_utf8_space(p);
    }
    return is_after_space ? "a name has no space at its ends" : NULL;
}

int store_is_prose(const char *text, size_t most)
{
    return text != NULL && is_clean(text, most, 1);
}

int store_is_time(const char *text)
{
    static const char form[] = "dddd-dd-ddTdd:dd:ddZ";
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (text == NULL || strlen(text) != sizeof form - 1) {
        return 0;
    }
    for (size_t i = 0; form[i] != '\0'; i++) {
        if (form[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != form[i]) {
            return 0;
        }
    }
    int v[6];
    if (sscanf(text, "%d-%d-%dT%d:%d:%dZ", &v[0], &v[1], &v[2], &v[3], &v[4], &v[5]) != 6) {
        return 0;
    }
    return v[1] >= 1 && v[1] <= 12 && v[2] >= 1 && v[2] <= days[v[1] - 1] && v[3] <= 23 &&
           v[4] <= 59 && v[5] <= 60;
}
