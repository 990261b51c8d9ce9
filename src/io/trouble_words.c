/* Sentences of the store in the person's language: see io/trouble_words.h. */
#include "io/trouble_words.h"

#include "words/words.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

/* As src/store writes them, the narrower before the wider; widths of strings are left out. The
 * system's own words for what a disk may refuse stand with them. unit.trouble_words holds them. */
static const char *const forms[] = {
    N_("%s: the disk is full; nothing was changed"),
    N_("%s: the file or its folder is read-only; nothing was changed"),
    N_("%s: cannot open it or the files beside it: %s"),
    N_("%s: another program has held it for %d s; nothing was changed, try again"),
    N_("%s: the database is damaged; it was left as it is. Copy it to a safe place before anything "
       "else"),
    N_("%s: out of memory"),
    N_("%s: the batch it belongs to was undone"),
    N_("%s: a run of this learner is being recorded; end it first"),
    N_("%s: %s: %s; nothing was deleted"),
    N_("%s: %s; nothing was changed"),
    N_("%s: the %s \"%s\"; it was left as it is"),
    N_("is a database of another program; it was left as it is"),
    N_("was written by a newer version of this program (layout %lld, this one knows %d); it was "
       "left as it is"),
    N_("has no known layout; it was left as it is"),
    N_("is no database; it was left as it is"),
    N_("is no ordinary file"),
    N_("cannot open for writing: %s"),
    N_("cannot make the folder %s: %s"),
    N_("this program has a store open already, and it has one at a time"),
    N_("neither XDG_DATA_HOME nor HOME says where to keep data"),
    N_("the path of the data folder is too long"),
    N_("the path of the database is empty or too long"),
    N_("the path is too long"),
    N_("the database is damaged: a row of %s belongs to nothing"),
    N_("the database is damaged: %s"),
    N_("a figure of run %lld is infinite or out of its range: the database is damaged; it was left "
       "as it is"),
    N_("the file of run %lld is damaged: it is not the one that was put in"),
    N_("this learner has this very run already: run %lld"),
    N_("this very run is there already: run %lld of %s"),
    N_("there is a learner \"%s\" already"),
    N_("there is no learner \"%s\""),
    N_("there is no run %lld"),
    N_("a name has 1 to 80 bytes"),
    N_("a name is UTF-8 without control characters"),
    N_("a name has no space at its ends"),
    N_("a name has no invisible and no direction-changing characters"),
    N_("the trainer: %s"),
    N_("a mark without points needs a reason"),
    N_("%g points are out of range, \"%s\" has 0 to %g"),
    N_("the grade that run %lld came with stands; use another rubric name"),
    N_("out of memory"),
    N_("cannot keep the grade"),
    N_("cannot keep the mark"),
    N_("cannot keep the run"),
    N_("cannot keep it"),
    N_("cannot remember the setting"),
    N_("cannot add a learner"),
    N_("cannot rename the learner"),
    N_("cannot delete the learner"),
    N_("cannot delete the run"),
    N_("cannot delete it"),
    N_("cannot list learners"),
    N_("cannot list runs"),
    N_("cannot read the learner"),
    N_("cannot read learners"),
    N_("cannot read grades"),
    N_("cannot read marks"),
    N_("cannot read the run file"),
    N_("cannot read the setting"),
    N_("cannot read it"),
    N_("cannot read"),
    N_("cannot list"),
    N_("cannot open"),
    N_("cannot check"),
    N_("cannot bring the database up to date"),
    N_("cannot tell what it should hold"),
    N_("holds something that is not this program's"),
    N_("lacks a part of its layout"),
    N_("No space left on device"),
    N_("Permission denied"),
    N_("Read-only file system"),
    N_("No such file or directory"),
    N_("Input/output error"),
    N_("Disk quota exceeded"),
    N_("File too large"),
    "%s: %s",
};
enum { FORMS = sizeof forms / sizeof forms[0], MOST_PARTS = 4 };

/* A piece of the message that stands where the form has a figure or a word. */
typedef struct Part {
    const char *at;
    size_t length;
} Part;

const char *io_trouble_form(int i)
{
    return i >= 0 && i < FORMS ? forms[i] : NULL;
}

/* Behind "%lld", "%s". */
static const char *behind(const char *conversion)
{
    const char *p = conversion + 1;
    while (*p == 'l') {
        p++;
    }
    return p + 1;
}

/* Length of the plain text before the next conversion or the end. */
static size_t plain(const char *form)
{
    const char *next = strchr(form, '%');
    return next != NULL ? (size_t)(next - form) : strlen(form);
}

/* Where the plain text that follows a part begins in the message; the last part takes the rest. */
static const char *end_of_part(const char *message, const char *rest, size_t length)
{
    if (length == 0) {
        return message + strlen(message);
    }
    for (const char *p = message; *p != '\0'; p++) {
        if (strncmp(p, rest, length) == 0) {
            return p;
        }
    }
    return NULL;
}

static int fits(const char *form, const char *message, Part parts[MOST_PARTS])
{
    for (int n = 0;; n++) {
        size_t length = plain(form);
        if (strncmp(form, message, length) != 0) {
            return 0;
        }
        form += length;
        message += length;
        if (*form == '\0') {
            return *message == '\0';
        }
        if (n == MOST_PARTS) {
            return 0;
        }
        form = behind(form);
        const char *end = end_of_part(message, form, plain(form));
        if (end == NULL || end == message) {
            return 0;
        }
        parts[n] = (Part){message, (size_t)(end - message)};
        message = end;
    }
}

static void append(char *out, size_t size, const char *text, size_t length)
{
    size_t used = strlen(out);
    if (used + 1 < size) {
        snprintf(out + used, size - used, "%.*s", (int)length, text);
    }
}

/* A part that is a sentence of ours goes the same way; one level is all there is. */
static void append_part(char *out, size_t size, const Part *part, int language)
{
    char text[400];
    Part none[MOST_PARTS];
    snprintf(text, sizeof text, "%.*s", (int)part->length, part->at);
    for (int i = 0; i < FORMS; i++) {
        if (strchr(forms[i], '%') == NULL && fits(forms[i], text, none)) {
            snprintf(text, sizeof text, "%s", words_in(language, forms[i]));
            break;
        }
    }
    append(out, size, text, strlen(text));
}

void io_trouble_words(const char *message, int language, char *out, size_t size)
{
    assert(message != NULL && out != NULL && size > 0);
    Part parts[MOST_PARTS];
    int i = 0;
    out[0] = '\0';
    while (i < FORMS && !fits(forms[i], message, parts)) {
        i++;
    }
    if (i == FORMS) {
        append(out, size, message, strlen(message));
        return;
    }
    const char *form = words_in(language, forms[i]);
    for (int n = 0; *form != '\0'; n++) {
        size_t length = plain(form);
        append(out, size, form, length);
        form += length;
        if (*form != '\0') {
            append_part(out, size, &parts[n], language);
            form = behind(form);
        }
    }
}
