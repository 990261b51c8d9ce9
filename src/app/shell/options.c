/* The command line of the window program. Anything it does not know is refused with a sentence. */
#include "shell/shell.h"

#include "io/doc.h"

#include <ctype.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void help(void)
{
    printf("usage: pullback [EXERCISE.json] [options]\n\n"
           "Without an exercise it opens at the Door: rooms, learner, exercises.\n\n"
           "  --door              the Door first, whatever is given\n"
           "  --guide             the two-minute guide for newcomers\n"
           "  --db FILE           database of learners and runs (else the person's own)\n"
           "  --lang en|es        language of the words (else from LANG)\n"
           "  --scale 1.0..2.0    text size\n"
           "  --units si|us       units shown\n"
           "  --size 1280x800     window size in pixels\n"
           "  --contrast          high contrast colours\n"
           "  --data DIR          folder with fonts and exercises\n"
           "  --room ROOM         room to begin in: bay, years, side, wall or debrief\n"
           "  --house FILE        house and customer for Side by side\n"
           "  --seed N            the chances of every run; 0 or none: each try has its own,\n"
           "                      which its result shows\n\n"
           "for tests:\n"
           "  --script FILE       timed input and checks; program time, not the clock; seed 1\n"
           "  --shots DIR         where pictures go (F11 takes one)\n"
           "  --dump FILE         where SIGUSR1 and F12 write the state\n"
           "  --fill KG_M3        Years later of an even fill\n"
           "  --speed 1..8        simulated seconds a second\n"
           "  --bench-frames N    time N frames with the simulation on, then print and leave\n\n"
           "For training. Local codes and licensed trades decide real work.\n");
}

static int refuse(const char *what, const char *value, const char *wanted)
{
    fprintf(stderr, "pullback: %s \"%s\": expected %s (see pullback --help)\n", what, value,
            wanted);
    return APP_USAGE;
}

static int number(const char *text, double low, double high, double *out)
{
    double v = 0.0;
    const char *end = io_plain_number(text, &v);
    if (end == NULL || *end != '\0' || !(v >= low && v <= high)) {
        return 0;
    }
    *out = v;
    return 1;
}

static int path_into(char *out, size_t size, const char *text)
{
    return snprintf(out, size, "%s", text) < (int)size;
}

static int size_into(AppOptions *o, const char *v)
{
    char extra = 0;
    int w = 0, h = 0;
    if (sscanf(v, "%dx%d%c", &w, &h, &extra) != 2 || w < 640 || w > 8192 || h < 400 || h > 8192) {
        return refuse("--size", v, "WIDTHxHEIGHT from 640x400 to 8192x8192");
    }
    o->width = w;
    o->height = h;
    return -1;
}

/* One option with its value. -1 = taken, else an exit code. */
static int take(AppOptions *o, const char *name, const char *v)
{
    double n = 0.0;
    if (strcmp(name, "--lang") == 0) {
        char codes[64];
        return words_language_of(v) >= 0 && path_into(o->lang, sizeof o->lang, v)
                   ? -1
                   : refuse(name, v, words_codes(codes, sizeof codes));
    }
    if (strcmp(name, "--scale") == 0) {
        o->has_scale = 1;
        return number(v, 1.0, 2.0, &o->text_scale) ? -1
                                                   : refuse(name, v, "a number from 1.0 to 2.0");
    }
    if (strcmp(name, "--units") == 0) {
        o->is_us = strcmp(v, "us") == 0;
        o->has_units = 1;
        return o->is_us || strcmp(v, "si") == 0 ? -1 : refuse(name, v, "si or us");
    }
    if (strcmp(name, "--size") == 0) {
        return size_into(o, v);
    }
    if (strcmp(name, "--speed") == 0) {
        return number(v, 1.0, 8.0, &o->speed) ? -1 : refuse(name, v, "a number from 1 to 8");
    }
    if (strcmp(name, "--room") == 0) {
        return screens_find(v) >= 0 && path_into(o->room, sizeof o->room, v)
                   ? -1
                   : refuse(name, v, "bay, years, side, wall or debrief");
    }
    if (strcmp(name, "--fill") == 0) {
        return number(v, 20.0, 90.0, &o->fill_kg_m3) ? -1 : refuse(name, v, "20 to 90 kg/m3");
    }
    if (strcmp(name, "--bench-frames") == 0) {
        o->bench_frames = number(v, 1.0, 1e6, &n) && floor(n) == n ? (int)n : 0;
        return o->bench_frames > 0 ? -1 : refuse(name, v, "a whole number from 1 to 1000000");
    }
    if (strcmp(name, "--seed") == 0) {
        char *end = NULL;
        errno = 0;
        o->seed = strtoull(v, &end, 10);
        o->is_seed_given = 1;
        return errno == 0 && isdigit((unsigned char)*v) && *end == '\0'
                   ? -1
                   : refuse(name, v, "a whole number");
    }
    const struct {
        const char *name;
        char *out;
        size_t size;
    } paths[] = {{"--data", o->data, sizeof o->data},    {"--db", o->db, sizeof o->db},
                 {"--house", o->house, sizeof o->house}, {"--script", o->script, sizeof o->script},
                 {"--dump", o->dump, sizeof o->dump},    {"--shots", o->shots, sizeof o->shots}};
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        if (strcmp(name, paths[i].name) == 0) {
            return path_into(paths[i].out, paths[i].size, v) ? -1
                                                             : refuse(name, v, "a shorter path");
        }
    }
    return refuse("option", name, "one of those listed by --help");
}

int app_options_parse(int argc, char **argv, AppOptions *o)
{
    memset(o, 0, sizeof *o);
    o->text_scale = 1.0;
    o->speed = 1.0;
    o->width = 1280;
    o->height = 800;
    for (int i = 1; i < argc; i++) {
        const char *a = argv[i];
        if (strcmp(a, "--help") == 0 || strcmp(a, "-h") == 0) {
            help();
            return APP_DONE;
        }
        if (strcmp(a, "--version") == 0) {
            printf("pullback %s\n", PB_VERSION);
            return APP_DONE;
        }
        if (strcmp(a, "--contrast") == 0) {
            o->is_contrast = 1;
        } else if (strcmp(a, "--door") == 0) {
            o->is_door = 1;
        } else if (strcmp(a, "--guide") == 0) {
            o->is_guide = o->is_door = 1;
        } else if (a[0] == '-' && a[1] != '\0') {
            int code =
                i + 1 < argc ? take(o, a, argv[i + 1]) : refuse("option", a, "a value after it");
            if (code >= 0) {
                return code;
            }
            i++;
        } else if (o->exercise[0] != '\0' || !path_into(o->exercise, sizeof o->exercise, a)) {
            return refuse("argument", a, "one exercise file");
        }
    }
    if (!o->is_seed_given && o->script[0] != '\0') {
        o->seed = 1; /* a script plays the same run each time */
    }
    return -1;
}
