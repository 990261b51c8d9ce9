/* Keys and buttons by action, with the file they are kept in. The file is written beside and
 * renamed; one that cannot be read is put aside, never overwritten. */
#include "base/keymap.h"

#include "io/doc.h"
#include "io/output_file.h"
#include "os/file.h"
#include "os/place.h"

#include <SDL.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Row {
    const char *word, *key[KEY_LAYOUTS], *pad;
} Row;

static const Row table[KEY_ACTIONS] = {
#define KEYMAP_ROW(name, word, both, left, right, pad) {word, {both, left, right}, pad},
    KEYMAP_LIST(KEYMAP_ROW)
#undef KEYMAP_ROW
};
typedef struct AxisRow {
    const char *word, *axis;
} AxisRow;

static const AxisRow axes[KEY_AXES] = {
#define KEYMAP_AXIS_ROW(name, word, axis) {word, axis},
    KEYMAP_AXES(KEYMAP_AXIS_ROW)
#undef KEYMAP_AXIS_ROW
};
static const char *const layouts[KEY_LAYOUTS] = {"both hands", "left hand", "right hand"};
static const char *const format = "pullback keymap 1";

Keymap keymap_default(KeyLayout layout)
{
    Keymap k = {.layout = (int)layout};
    for (int i = 0; i < KEY_ACTIONS; i++) {
        k.key[i] = (int)SDL_GetKeyFromName(table[i].key[layout]);
        k.pad[i] = table[i].pad[0] ? (int)SDL_GameControllerGetButtonFromString(table[i].pad) : -1;
    }
    for (int i = 0; i < KEY_AXES; i++) {
        k.axis[i] = 1 + (int)SDL_GameControllerGetAxisFromString(axes[i].axis);
    }
    return k;
}

static int find(const int *codes, int code)
{
    for (int i = 0; i < KEY_ACTIONS; i++) {
        if (codes[i] == code) {
            return i;
        }
    }
    return -1;
}

int keymap_action(const Keymap *k, int key)
{
    return key != SDLK_UNKNOWN ? find(k->key, key) : -1;
}

int keymap_pad_action(const Keymap *k, int button)
{
    return button >= 0 ? find(k->pad, button) : -1;
}

void keymap_set(Keymap *k, KeyAction action, int key)
{
    int other = keymap_action(k, key);
    if (key == SDLK_UNKNOWN || (int)SDL_GetKeyFromName(SDL_GetKeyName(key)) != key) {
        return;
    }
    if (other >= 0) {
        k->key[other] = k->key[action];
    }
    k->key[action] = key;
}

void keymap_set_pad(Keymap *k, KeyAction action, int button)
{
    int other = keymap_pad_action(k, button);
    if (other >= 0) {
        k->pad[other] = k->pad[action];
    }
    k->pad[action] = button;
}

void keymap_set_axis(Keymap *k, KeyAxis what, int axis, int way)
{
    for (int i = 0; i < KEY_AXES; i++) {
        if (i != (int)what && abs(k->axis[i]) == axis + 1) {
            k->axis[i] = k->axis[what];
        }
    }
    k->axis[what] = way < 0 ? -(axis + 1) : axis + 1;
}

double keymap_axis_push(const Keymap *k, KeyAxis what, int axis, double value)
{
    return abs(k->axis[what]) == axis + 1 ? (k->axis[what] < 0 ? -value : value) : 0.0;
}

const char *keymap_axis_name(const Keymap *k, KeyAxis what, char *out, size_t size)
{
    const char *name =
        SDL_GameControllerGetStringForAxis((SDL_GameControllerAxis)(abs(k->axis[what]) - 1));
    snprintf(out, size, "%s%s", k->axis[what] < 0 ? "-" : "", name != NULL ? name : "");
    return out;
}

const char *keymap_key_name(const Keymap *k, KeyAction action)
{
    return SDL_GetKeyName(k->key[action]);
}

int keymap_path(char *out, size_t size)
{
    char config[700];
    return os_place(OS_CONFIG, config, sizeof config) &&
           snprintf(out, size, "%s/pullback/keymap.json", config) < (int)size;
}

/* Where a value stands, or its object when it is missing. */
static const IoValue *place(IoValue *object, const char *word)
{
    const IoValue *at = io_find_below(object, word);
    return at != NULL ? at : object;
}

/* Actions that every file has; later ones are missing in files of before. */
enum { FIRST_ACTIONS = KEY_ACTS };

/* The usual key of an action that the file does not name, unless something else has it there. */
static int usual_key(const Keymap *k, int action)
{
    int code = (int)SDL_GetKeyFromName(table[action].key[k->layout]);
    return find(k->key, code) < 0 ? code : SDLK_UNKNOWN;
}

static void read_keys(IoReader *r, IoValue *keys, Keymap *k)
{
    for (int i = 0; i < KEY_ACTIONS && keys != NULL; i++) {
        char name[32] = "";
        if (i >= FIRST_ACTIONS && io_child(r, keys, table[i].word) == NULL) {
            k->key[i] = usual_key(k, i);
            continue;
        }
        io_text(r, keys, table[i].word, 1, name, sizeof name);
        int code = (int)SDL_GetKeyFromName(name);
        if (i >= FIRST_ACTIONS && name[0] == '\0') {
            k->key[i] = SDLK_UNKNOWN; /* no key was free for it */
            continue;
        }
        if (code == SDLK_UNKNOWN) {
            io_complain(r, place(keys, table[i].word), PB_ERR_FORMAT,
                        "\"%s\": expected the name of a key, such as \"W\" or \"Space\"",
                        table[i].word);
        }
        for (int j = 0; j < i; j++) {
            if (k->key[j] == code) {
                io_complain(r, place(keys, table[i].word), PB_ERR_FORMAT,
                            "\"%s\": expected a key that \"%s\" does not have", table[i].word,
                            table[j].word);
            }
        }
        k->key[i] = code;
    }
}

static void read_pad(IoReader *r, IoValue *pad, Keymap *k)
{
    for (int i = 0; i < KEY_ACTIONS && pad != NULL; i++) {
        char name[32] = "";
        io_text(r, pad, table[i].word, 0, name, sizeof name);
        k->pad[i] = name[0] ? (int)SDL_GameControllerGetButtonFromString(name) : -1;
        if (name[0] != '\0' && k->pad[i] < 0) {
            io_complain(r, place(pad, table[i].word), PB_ERR_FORMAT,
                        "\"%s\": expected the name of a controller button, such as \"a\" or "
                        "\"leftshoulder\", or nothing",
                        table[i].word);
        }
        for (int j = 0; j < i; j++) {
            if (k->pad[i] >= 0 && k->pad[j] == k->pad[i]) {
                io_complain(r, place(pad, table[i].word), PB_ERR_FORMAT,
                            "\"%s\": expected a button that \"%s\" does not have", table[i].word,
                            table[j].word);
            }
        }
    }
}

/* Missing in files of before: the usual ones. */
static void read_axes(IoReader *r, IoValue *object, Keymap *k)
{
    for (int i = 0; i < KEY_AXES && object != NULL; i++) {
        char name[32] = "";
        io_text(r, object, axes[i].word, 1, name, sizeof name);
        int is_back = name[0] == '-';
        int axis = 1 + (int)SDL_GameControllerGetAxisFromString(name + is_back);
        if (axis <= 0) {
            io_complain(r, place(object, axes[i].word), PB_ERR_FORMAT,
                        "\"%s\": expected the name of a controller axis, such as \"lefty\" or "
                        "\"-righty\"",
                        axes[i].word);
        }
        for (int j = 0; j < i; j++) {
            if (abs(k->axis[j]) == axis) {
                io_complain(r, place(object, axes[i].word), PB_ERR_FORMAT,
                            "\"%s\": expected an axis that \"%s\" does not have", axes[i].word,
                            axes[j].word);
            }
        }
        k->axis[i] = is_back ? -axis : axis;
    }
}

PbStatus keymap_load(const char *path, Keymap *k, PbError *err)
{
    IoDoc doc;
    Keymap read = keymap_default(KEYS_BOTH);
    const char *const formats[1] = {format};
    int which = 0;
    PB_TRY(io_doc_load(path, &doc, err));
    IoReader r = io_reader(&doc, err);
    io_choice(&r, doc.root, "format", 1, formats, 1, &which);
    io_choice(&r, doc.root, "layout", 1, layouts, KEY_LAYOUTS, &read.layout);
    IoValue *keys = io_object(&r, doc.root, "keys", 1);
    IoValue *pad = io_object(&r, doc.root, "pad", 1);
    IoValue *moved = io_object(&r, doc.root, "axes", 0);
    memset(read.key, 0, sizeof read.key);
    if (r.status == PB_OK) {
        read_keys(&r, keys, &read);
        read_pad(&r, pad, &read);
        read_axes(&r, moved, &read);
        if (moved != NULL) {
            io_end(&r, moved);
        }
        io_end(&r, keys);
        io_end(&r, pad);
        io_end(&r, doc.root);
    }
    PbStatus status = r.status;
    io_doc_free(&doc);
    if (status == PB_OK) {
        *k = read;
    }
    return status;
}

static void write_text(FILE *f, const char *text)
{
    fputc('"', f);
    for (; *text; text++) {
        if (*text == '"' || *text == '\\') {
            fputc('\\', f);
        }
        fputc(*text, f);
    }
    fputc('"', f);
}

static void write_map(FILE *f, const Keymap *k)
{
    fprintf(f, "{\n  \"format\": \"%s\",\n  \"layout\": \"%s\",\n  \"keys\": {\n", format,
            layouts[k->layout]);
    for (int i = 0; i < KEY_ACTIONS; i++) {
        fprintf(f, "    \"%s\": ", table[i].word);
        write_text(f, SDL_GetKeyName(k->key[i]));
        fprintf(f, i + 1 < KEY_ACTIONS ? ",\n" : "\n  },\n  \"pad\": {\n");
    }
    for (int i = 0; i < KEY_ACTIONS; i++) {
        const char *name =
            k->pad[i] >= 0
                ? SDL_GameControllerGetStringForButton((SDL_GameControllerButton)k->pad[i])
                : "";
        fprintf(f, "    \"%s\": \"%s\"%s\n", table[i].word, name != NULL ? name : "",
                i + 1 < KEY_ACTIONS ? "," : "");
    }
    fprintf(f, "  },\n  \"axes\": {\n");
    for (int i = 0; i < KEY_AXES; i++) {
        char name[32];
        fprintf(f, "    \"%s\": \"%s\"%s\n", axes[i].word,
                keymap_axis_name(k, (KeyAxis)i, name, sizeof name), i + 1 < KEY_AXES ? "," : "");
    }
    fprintf(f, "  }\n}\n");
}

PbStatus keymap_save(const char *path, const Keymap *k, PbError *err)
{
    IoOutput out;
    PB_TRY(io_make_folders(path, err));
    PB_TRY(io_output_open(path, IO_BEGINS_ANY, &out, err));
    os_keep_private(out.file); /* as the settings beside it */
    write_map(out.file, k);
    return io_output_commit(&out, err);
}

Keymap keymap_start(const char *path, char *told, size_t told_size)
{
    Keymap k = keymap_default(KEYS_BOTH);
    PbError err = {0};
    char bad[520], line[700];
    told[0] = '\0';
    if (!os_is_there(path) || keymap_load(path, &k, &err) == PB_OK) {
        return k;
    }
    io_error_line(&err, line, sizeof line);
    snprintf(bad, sizeof bad, "%s.bad", path);
    int is_kept = os_replace(path, bad);
    snprintf(told, told_size, "%s%s%s", line, is_kept ? "; kept as " : "", is_kept ? bad : "");
    return k;
}
