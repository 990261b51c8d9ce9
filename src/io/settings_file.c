/* Settings of the window program as JSON. Every field may be missing; a field that is there must be
 * right, else the whole file is put aside: half a setting read wrongly is worse than none. */
#include "io/settings_file.h"

#include "io/doc.h"
#include "io/output_file.h"

#include "core/utf8.h"
#include "os/file.h"
#include "os/place.h"
#include "words/words.h"

#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const units[3] = {"system", "si", "us"};
static const char *const colours[2] = {"paper", "high-contrast"};
static const char *const motions[2] = {"full", "reduced"};
static const char *const guides[2] = {"new", "seen"};
static const char *const sounds[2] = {"on", "off"};

IoSettings io_settings_default(void)
{
    return (IoSettings){.lang = -1, .is_us = IO_UNITS_OF_SYSTEM, .text_scale = 1.0, .volume = 0.7};
}

PbStatus io_settings_path(char *out, size_t size, PbError *err)
{
    assert(out != NULL && size > 0);
    char config[1024];
    if (!os_place(OS_CONFIG, config, sizeof config)) {
        return pb_fail(err, PB_ERR_IO, "neither XDG_CONFIG_HOME nor HOME says where settings go");
    }
    int n = snprintf(out, size, "%s/pullback/settings.json", config);
    return (size_t)n < size ? PB_OK
                            : pb_fail(err, PB_ERR_IO, "the path of the settings is too long");
}

static int read_language(IoReader *r, IoValue *root, int lang)
{
    const char *names[1 + WORDS_MOST] = {"system"};
    int chosen = lang + 1;
    for (int i = 0; i < words_language_count; i++) {
        names[1 + i] = words_languages[i].code;
    }
    io_choice(r, root, "language", 0, names, 1 + words_language_count, &chosen);
    return chosen - 1;
}

static void read_all(IoReader *r, IoValue *root, IoSettings *s)
{
    char format[32] = "";
    int unit = s->is_us + 1;
    io_text(r, root, "format", 1, format, sizeof format);
    if (r->status == PB_OK && strcmp(format, IO_SETTINGS_FORMAT) != 0) {
        io_complain(r, root, PB_ERR_FORMAT, "expected the format \"%s\"", IO_SETTINGS_FORMAT);
    }
    s->lang = read_language(r, root, s->lang);
    io_choice(r, root, "units", 0, units, 3, &unit);
    io_choice(r, root, "colours", 0, colours, 2, &s->is_contrast);
    io_choice(r, root, "motion", 0, motions, 2, &s->is_still);
    io_number(r, root, "text_scale", 0, 1.0, 2.0, "times", &s->text_scale);
    io_text(r, root, "learner", 0, s->learner, sizeof s->learner);
    io_choice(r, root, "guide", 0, guides, 2, &s->is_guide_seen);
    io_choice(r, root, "sound", 0, sounds, 2, &s->is_muted);
    io_choice(r, root, "captions", 0, sounds, 2, &s->is_uncaptioned);
    io_number(r, root, "volume", 0, 0.0, 1.0, "of 1", &s->volume);
    io_text(r, root, "sound_device", 0, s->device, sizeof s->device);
    s->is_us = unit - 1;
}

PbStatus io_settings_load(const char *path, IoSettings *settings, PbError *err)
{
    assert(path != NULL && settings != NULL);
    IoDoc doc;
    char bad[1024];
    PbError own = {0};
    PbError *e = err != NULL ? err : &own;
    *settings = io_settings_default();
    if (!os_is_there(path) && errno == ENOENT) {
        return PB_ERR_NO_RESULT;
    }
    PbStatus status = io_doc_load(path, &doc, e);
    if (status == PB_OK) {
        IoSettings read = io_settings_default();
        IoReader r = io_reader(&doc, e);
        if (!json_is_object(doc.root->json)) {
            io_complain(&r, doc.root, PB_ERR_FORMAT, "expected an object {...}");
        } else {
            read_all(&r, doc.root, &read);
        }
        status = r.status;
        io_doc_free(&doc);
        if (status == PB_OK) {
            *settings = read;
        }
    }
    if ((status == PB_ERR_FORMAT || status == PB_ERR_RANGE) &&
        snprintf(bad, sizeof bad, "%s.bad", path) < (int)sizeof bad) {
        (void)os_replace(path,
                         bad); /* a folder that cannot be written: it is told again next time */
    }
    return status;
}

/* A text that the reader would refuse is left empty: one name of a loudspeaker, cut in the middle
 * of a letter, must not keep all settings from being written or have them put aside. */
static const char *readable(const char *text)
{
    const unsigned char *p = (const unsigned char *)text, *end = p + strlen(text);
    while (p < end) {
        size_t n = pb_utf8_length(p, (size_t)(end - p));
        if (n == 0 || pb_utf8_control(p)) {
            return "";
        }
        p += n;
    }
    return text;
}

PbStatus io_settings_save(const char *path, const IoSettings *s, PbError *err)
{
    assert(path != NULL && s != NULL);
    IoOutput out;
    PB_TRY(io_make_folders(path, err));
    (void)io_json_short();
    json_t *root = json_pack("{s:s, s:s, s:s, s:f, s:s, s:s, s:s, s:s, s:s, s:f, s:s, s:s}",
                             "format", IO_SETTINGS_FORMAT, "language",
                             s->lang < 0 ? "system" : words_languages[s->lang].code, "units",
                             units[s->is_us < 0 ? 0
                                   : s->is_us   ? 2
                                                : 1],
                             "text_scale", s->text_scale, "colours", colours[s->is_contrast != 0],
                             "motion", motions[s->is_still != 0], "learner", readable(s->learner),
                             "guide", guides[s->is_guide_seen != 0], "sound",
                             sounds[s->is_muted != 0], "volume", s->volume, "captions",
                             sounds[s->is_uncaptioned != 0], "sound_device", readable(s->device));
    if (root == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "there is not enough memory to write the settings");
    }
    PbStatus status = io_output_open(path, IO_BEGINS_ANY, &out, err);
    if (status == PB_OK) {
        os_keep_private(out.file);
        out.is_quick = 1; /* a slider that is dragged writes with every frame */
        if (json_dumpf(root, out.file, JSON_INDENT(2) | JSON_REAL_PRECISION(6)) != 0 ||
            fputc('\n', out.file) == EOF || io_json_short()) {
            io_output_abandon(&out);
            status = pb_fail(err, PB_ERR_IO, "cannot write the settings");
        } else {
            status = io_output_commit(&out, err);
        }
    }
    json_decref(root);
    return status;
}
