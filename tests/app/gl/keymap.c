/* The keymap file without a window: round trip, and every kind of damage is refused with its place
 * and leaves the map alone. */
#include "base/keymap.h"

#include "io/doc.h"
#include "suite.h"

#include <SDL.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char path[64];

static void put(const char *text)
{
    FILE *f = fopen(path, "w");
    ck_assert_ptr_nonnull(f);
    fputs(text, f);
    fclose(f);
}

START_TEST(layouts_have_no_key_twice)
{
    for (int l = 0; l < KEY_LAYOUTS; l++) {
        Keymap k = keymap_default((KeyLayout)l);
        for (int i = 0; i < KEY_ACTIONS; i++) {
            ck_assert_int_ne(k.key[i], SDLK_UNKNOWN);
            ck_assert_int_eq(keymap_action(&k, k.key[i]), i);
        }
    }
}
END_TEST

START_TEST(kept_and_read)
{
    Keymap k = keymap_default(KEYS_LEFT), read = keymap_default(KEYS_BOTH);
    PbError err = {0};
    keymap_set(&k, KEY_TURN, SDLK_BACKSLASH);
    keymap_set(&k, KEY_TUBE_IN, k.key[KEY_TUBE_OUT]); /* they change places */
    ck_assert_int_eq(k.key[KEY_TUBE_OUT], SDLK_s);
    keymap_set(&k, KEY_TURN, SDLK_UNKNOWN); /* keys that a file could not name stay out of it */
    keymap_set(&k, KEY_TURN, SDL_SCANCODE_TO_KEYCODE(SDL_NUM_SCANCODES - 1));
    ck_assert_int_eq(k.key[KEY_TURN], SDLK_BACKSLASH);
    ck_assert_int_eq(keymap_save(path, &k, &err), PB_OK);
    struct stat st;
    ck_assert_int_eq(stat(path, &st), 0);
    ck_assert_int_eq(st.st_mode & 0777, 0600);
    ck_assert_int_eq(keymap_load(path, &read, &err), PB_OK);
    ck_assert_int_eq(read.layout, k.layout);
    ck_assert_mem_eq(read.key, k.key, sizeof k.key);
    ck_assert_mem_eq(read.pad, k.pad, sizeof k.pad);
}
END_TEST

START_TEST(damage_is_refused)
{
    Keymap good = keymap_default(KEYS_BOTH), k = good;
    PbError err = {0};
    static char text[8192], bad[8192];
    ck_assert_int_eq(keymap_save(path, &good, &err), PB_OK);
    FILE *f = fopen(path, "r");
    size_t n = fread(text, 1, sizeof text - 1, f);
    fclose(f);
    text[n] = '\0';
    for (size_t cut = 0; cut + 2 < n;
         cut += 7) { /* cut short anywhere: never read, never a crash */
        memcpy(bad, text, cut);
        bad[cut] = '\0';
        put(bad);
        err = (PbError){0};
        ck_assert_int_ne(keymap_load(path, &k, &err), PB_OK);
        ck_assert_mem_eq(&k, &good, sizeof k);
    }
    const char *twice = strstr(text, "\"T\"");
    ck_assert_ptr_nonnull(twice);
    memcpy(bad, text, n + 1);
    bad[twice - text + 1] = 'W'; /* a key that another action has */
    put(bad);
    ck_assert_int_ne(keymap_load(path, &k, &err), PB_OK);
    char line[800];
    io_error_line(&err, line, sizeof line);
    ck_assert_ptr_nonnull(strstr(line, ":8:"));
    ck_assert_ptr_nonnull(strstr(line, "tube_out"));
    const char *button = strstr(text, "\"y\"");
    ck_assert_ptr_nonnull(button);
    memcpy(bad, text, n + 1);
    bad[button - text + 1] = 'x'; /* a button that another action has */
    put(bad);
    err = (PbError){0};
    ck_assert_int_ne(keymap_load(path, &k, &err), PB_OK);
    ck_assert_ptr_nonnull(strstr(err.message, "\"turn\""));
}
END_TEST

/* Without the lines of the later actions, as files of before are; `first` is the word of the first
 * of them, and the line before it ends its object. */
static void cut_later(char *text, const char *first)
{
    char *at = text;
    while ((at = strstr(at, first)) != NULL) {
        char *from = at, *end = strchr(at, '}');
        while (*from != ',') {
            from--;
        }
        memmove(from, end, strlen(end) + 1);
        at = from;
    }
}

/* An action that came later has its usual key, or none where somebody has put something else there;
 * such a file can be written and read again. */
START_TEST(a_file_from_before_has_the_usual_keys_for_later_actions)
{
    static char text[8192];
    Keymap k = keymap_default(KEYS_BOTH), usual = k, back;
    PbError err = {0};
    k.key[KEY_WAX] = SDLK_h;
    ck_assert_int_eq(keymap_save(path, &k, &err), PB_OK);
    FILE *f = fopen(path, "r");
    size_t n = fread(text, 1, sizeof text - 1, f);
    fclose(f);
    text[n] = '\0';
    cut_later(text, "\"acts\"");
    put(text);
    ck_assert_msg(keymap_load(path, &k, &err) == PB_OK, "%s", err.message);
    ck_assert_int_eq(k.key[KEY_SEAL], usual.key[KEY_SEAL]);
    ck_assert_int_eq(k.key[KEY_WAX], SDLK_h);
    ck_assert_int_eq(k.key[KEY_HOLE], SDLK_UNKNOWN);
    ck_assert_int_eq(keymap_save(path, &k, &err), PB_OK);
    ck_assert_msg(keymap_load(path, &back, &err) == PB_OK, "%s", err.message);
    ck_assert_mem_eq(back.key, k.key, sizeof k.key);
}
END_TEST

/* Axes: asked for, turned round, swapped, kept; a file from before them has the usual ones. */
START_TEST(axes_can_be_given_anew)
{
    char name[32], text[4000];
    PbError err = {0};
    Keymap k = keymap_default(KEYS_BOTH), back, usual = k;
    ck_assert_double_eq(keymap_axis_push(&k, AXIS_TUBE, SDL_CONTROLLER_AXIS_LEFTY, 0.5), 0.5);
    ck_assert_double_eq(keymap_axis_push(&k, AXIS_TUBE, SDL_CONTROLLER_AXIS_RIGHTY, 0.5), 0.0);
    keymap_set_axis(&k, AXIS_TUBE, SDL_CONTROLLER_AXIS_RIGHTY, -1);
    ck_assert_double_eq(keymap_axis_push(&k, AXIS_TUBE, SDL_CONTROLLER_AXIS_RIGHTY, 0.5), -0.5);
    ck_assert_str_eq(keymap_axis_name(&k, AXIS_TUBE, name, sizeof name), "-righty");
    keymap_set_axis(&k, AXIS_FEED_MORE, SDL_CONTROLLER_AXIS_TRIGGERLEFT, 1); /* the other's */
    ck_assert_str_eq(keymap_axis_name(&k, AXIS_FEED_LESS, name, sizeof name), "righttrigger");
    keymap_set_pad(&k, KEY_MACHINE, SDL_CONTROLLER_BUTTON_X);
    ck_assert_int_eq(keymap_pad_action(&k, SDL_CONTROLLER_BUTTON_X), KEY_MACHINE);
    ck_assert_int_eq(keymap_pad_action(&k, SDL_CONTROLLER_BUTTON_A), KEY_WAX);
    ck_assert_int_eq(keymap_save(path, &k, &err), PB_OK);
    ck_assert_int_eq(keymap_load(path, &back, &err), PB_OK);
    ck_assert_mem_eq(&k, &back, sizeof k);
    FILE *f = fopen(path, "r");
    size_t n = fread(text, 1, sizeof text - 1, f);
    fclose(f);
    text[n] = '\0';
    char *wrong = strstr(text, "-righty");
    ck_assert_ptr_nonnull(wrong);
    memcpy(wrong, "-rigxty", 7);
    put(text);
    ck_assert_int_ne(keymap_load(path, &back, &err), PB_OK);
    ck_assert_ptr_nonnull(strstr(err.message, "tube"));
    char *axes = strstr(text, ",\n  \"axes\"");
    ck_assert_ptr_nonnull(axes);
    memcpy(axes, "\n}\n", 4);
    put(text);
    ck_assert_int_eq(keymap_load(path, &back, &err), PB_OK);
    ck_assert_mem_eq(back.axis, usual.axis, sizeof usual.axis);
}
END_TEST

START_TEST(a_bad_one_is_put_aside_once)
{
    char told[1300], aside[80];
    put("{ \"format\": 3 }\n");
    Keymap k = keymap_start(path, told, sizeof told), usual = keymap_default(KEYS_BOTH);
    ck_assert_mem_eq(&k, &usual, sizeof k);
    ck_assert_ptr_nonnull(strstr(told, ":1:"));
    snprintf(aside, sizeof aside, "%s.bad", path);
    ck_assert_int_eq(access(aside, R_OK), 0);
    ck_assert_int_ne(access(path, F_OK), 0);
    keymap_start(path, told, sizeof told);
    ck_assert_str_eq(told, "");
    remove(aside);
}
END_TEST

int main(void)
{
    char folder[] = "/tmp/pullback-keymap-XXXXXX";
    if (mkdtemp(folder) == NULL) { /* no assertion of Check works outside a test */
        return 1;
    }
    snprintf(path, sizeof path, "%s/keymap.json", folder);
    Suite *s = suite_create("keymap");
    TCase *c = tcase_create("all");
    tcase_add_test(c, layouts_have_no_key_twice);
    tcase_add_test(c, kept_and_read);
    tcase_add_test(c, damage_is_refused);
    tcase_add_test(c, axes_can_be_given_anew);
    tcase_add_test(c, a_file_from_before_has_the_usual_keys_for_later_actions);
    tcase_add_test(c, a_bad_one_is_put_aside_once);
    suite_add_tcase(s, c);
    SRunner *r = srunner_create(s);
    srunner_run_all(r, CK_NORMAL);
    int failed = srunner_ntests_failed(r);
    srunner_free(r);
    remove(path);
    rmdir(folder);
    return failed != 0;
}
