/* --script FILE: timed lines of input and checks. Input goes through SDL_PushEvent, so it takes the
 * same way as a person's; time is program time, sixty frames a second, whatever the clock says.
 *
 *   TIME move X Y | TIME at NAME [FX FY]   pointer, in pixels or at a named place (share of it)
 *   TIME down | TIME up | TIME click NAME | TIME wheel N
 *   TIME type WORDS (~ = space, at most 31 bytes) | TIME drop PATH
 *   TIME key NAME | TIME keydown NAME | TIME keyup NAME
 *   TIME shot FILE.png | TIME expect KEY VALUE | TIME expect KEY > VALUE | TIME print KEY
 *   TIME every N      show only each Nth frame from now on
 *   TIME pace 1|0     frames wait for the clock, sixty a second, or come as fast as they can
 *   TIME fresh        frame times are counted from here on
 *   TIME wait KEY > VALUE LIMIT   hold the script (times shift) until true; gives up after ten
 *                   times LIMIT seconds, so that no busy machine reaches it
 *   TIME pad on | off     attach or take away a virtual controller
 *   TIME stick lefty -1 | TIME button a 1    its axes (-1..1) and buttons (1 down, 0 up)
 *   TIME hidden 0|1   may anything hidden change the frame: drawn twice, see hidden.c
 *   TIME view WxH SCALE LANG   from now on laid out for this size, no larger than the window; text
 *                   size and language (en, es) as well
 *   TIME legible NAME   all text on the screen can be read whole; what cannot is named, with NAME,
 *                   and the script goes on
 *   TIME words FILE   all text on the screen, a line each: left edge, base line, words
 *   TIME end */
#include "shell/health.h"
#include "shell/shell.h"

#include "os/file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Line {
    double time_s;
    int number;
    char verb[16], a[256], b[64], c[64], d[64];
} Line;

struct Script {
    char path[512];
    Line *lines;
    int count, next, every, is_paced;
    double shift_s; /* by waits */
    double waiting_since_s;
    double button_up_s; /* a click lets go a little later */
};

static int keep(Script *s, const Line *line)
{
    Line *grown = realloc(s->lines, (size_t)(s->count + 1) * sizeof *grown);
    if (grown == NULL) {
        return 0;
    }
    s->lines = grown;
    s->lines[s->count++] = *line;
    return 1;
}

Script *script_load(const char *path, char *why, size_t why_size)
{
    FILE *f = os_open_stream(path, OS_TO_READ);
    Script *s = calloc(1, sizeof *s);
    char text[512];
    int ok = f != NULL && s != NULL;
    snprintf(why, why_size, "the script %s cannot be read", path);
    for (int number = 1; ok && fgets(text, sizeof text, f) != NULL; number++) {
        Line line = {.number = number};
        if (text[0] == '#' || text[strspn(text, " \t\r\n")] == '\0') {
            continue;
        }
        if (sscanf(text, "%lf %15s %255s %63s %63s %63s", &line.time_s, line.verb, line.a, line.b,
                   line.c, line.d) < 2) {
            snprintf(why, why_size, "%s:%d: expected TIME VERB ...", path, number);
            ok = 0;
        } else {
            ok = keep(s, &line);
        }
    }
    if (f != NULL) {
        fclose(f);
    }
    if (!ok) {
        script_free(s);
        return NULL;
    }
    snprintf(s->path, sizeof s->path, "%s", path);
    s->every = 1;
    s->waiting_since_s = s->button_up_s = -1.0;
    return s;
}

void script_free(Script *s)
{
    if (s != NULL) {
        free(s->lines);
        free(s);
    }
}

int script_every(const Script *s)
{
    return s->every;
}

/* Half a second lets what was done before the wait come to its end on the screen. */
int script_only_waits(const Script *s, const App *app)
{
    return s->waiting_since_s >= 0.0 && s->button_up_s < 0.0 &&
           app->program.now_s - s->waiting_since_s > 0.5;
}

int script_is_paced(const Script *s)
{
    return s->is_paced;
}

static void push_key(const char *name, int down)
{
    SDL_Event e;
    const char *plain = name;
    SDL_memset(&e, 0, sizeof e);
    e.type = down ? SDL_KEYDOWN : SDL_KEYUP;
    if (strncmp(name, "shift+", 6) == 0) {
        e.key.keysym.mod = KMOD_LSHIFT;
        plain = name + 6;
    } else if (strncmp(name, "ctrl+", 5) == 0) {
        e.key.keysym.mod = KMOD_LCTRL;
        plain = name + 5;
    }
    e.key.keysym.sym = SDL_GetKeyFromName(plain);
    e.key.state = down ? SDL_PRESSED : SDL_RELEASED;
    SDL_PushEvent(&e);
}

static void push_move(App *app, double x, double y)
{
    SDL_Event e;
    SDL_memset(&e, 0, sizeof e);
    e.type = SDL_MOUSEMOTION;
    e.motion.x = (int)(x / app->win.display_scale);
    e.motion.y = (int)(y / app->win.display_scale);
    SDL_PushEvent(&e);
}

static void push_button_at(App *app, double x, double y, int down)
{
    SDL_Event e;
    SDL_memset(&e, 0, sizeof e);
    e.type = down ? SDL_MOUSEBUTTONDOWN : SDL_MOUSEBUTTONUP;
    e.button.button = SDL_BUTTON_LEFT;
    e.button.x = (int)(x / app->win.display_scale);
    e.button.y = (int)(y / app->win.display_scale);
    SDL_PushEvent(&e);
}

static void push_button(App *app, int down)
{
    push_button_at(app, (double)app->ui->in.mouse_x, (double)app->ui->in.mouse_y, down);
}

static int fail(Script *s, App *app, const Line *l, const char *text)
{
    fprintf(stderr, "%s:%d: at %.2f s: %s\n", s->path, l->number, app->program.now_s, text);
    app->program.exit_code = APP_TROUBLE;
    return 0;
}

static int is_sign(const char *text)
{
    return strcmp(text, ">") == 0 || strcmp(text, "<") == 0;
}

/* 1 true, 0 false, -1 no such key or no number. Numbers without a sign compare to a thousandth. */
static int holds(const App *app, const char *key, const char *sign, const char *number, double *is)
{
    const char *text = is_sign(sign) ? number : sign;
    char *end = NULL;
    double v = strtod(text, &end);
    if (!dump_value(app, key, is) || end == text || *end != '\0') {
        return -1;
    }
    return sign[0] == '>' ? *is > v : sign[0] == '<' ? *is < v : fabs(*is - v) <= 1e-3;
}

static int pointer(Script *s, App *app, const Line *l)
{
    const AppMark *m = app_mark_find(app, l->a);
    if (m == NULL) {
        return fail(s, app, l, "there is no such place on the screen now");
    }
    double fx = l->b[0] ? atof(l->b) : 0.5, fy = l->c[0] ? atof(l->c) : 0.5;
    double x = (double)m->rect.x + fx * (double)m->rect.w;
    double y = (double)m->rect.y + fy * (double)m->rect.h;
    push_move(app, x, y);
    if (strcmp(l->verb, "click") == 0) {
        push_button_at(app, x, y, 1);
        s->button_up_s = app->program.now_s + 0.05;
    }
    return 1;
}

static int check(Script *s, App *app, const Line *l)
{
    char text[500];
    double is = 0.0;
    int ok = holds(app, l->a, l->b, l->c, &is);
    if (ok == 1) {
        return 1;
    }
    snprintf(text, sizeof text, "%s %s %s %s",
             ok < 0 ? "unknown figure, or no number to compare it to:" : "expected", l->a, l->b,
             l->c);
    fprintf(stderr, "it is %.6g; ", is);
    return fail(s, app, l, text);
}

static void type_text(const char *text)
{
    SDL_Event e;
    SDL_memset(&e, 0, sizeof e);
    e.type = SDL_TEXTINPUT;
    SDL_strlcpy(e.text.text, text, sizeof e.text.text);
    for (char *p = e.text.text; *p; p++) {
        *p = *p == '~' ? ' ' : *p;
    }
    SDL_PushEvent(&e);
}

static void drop_file(const char *path)
{
    SDL_Event e;
    SDL_memset(&e, 0, sizeof e);
    e.type = SDL_DROPFILE;
    e.drop.file = SDL_strdup(path);
    SDL_PushEvent(&e);
}

static void wheel_by(double notches)
{
    SDL_Event e;
    SDL_memset(&e, 0, sizeof e);
    e.type = SDL_MOUSEWHEEL;
    e.wheel.y = (int)notches;
    e.wheel.preciseY = (float)notches;
    SDL_PushEvent(&e);
}

/* Many sizes in one program: the picture is the lower left part of the window's. */
static int view(Script *s, App *app, const Line *l)
{
    int w = 0, h = 0, most_w = 0, most_h = 0, lang = words_language_of(l->c);
    double scale = atof(l->b);
    SDL_GL_GetDrawableSize(app->win.window, &most_w, &most_h);
    if (sscanf(l->a, "%dx%d", &w, &h) != 2 || w < 640 || h < 400 || w > most_w || h > most_h ||
        !(scale >= 1.0 && scale <= 2.0) || lang < 0) {
        return fail(s, app, l, "expected WxH no larger than the window, 1.0 to 2.0, en or es");
    }
    app->win.width = w;
    app->win.height = h;
    app->taste.text_scale = scale;
    if (lang != app->taste.lang) {
        app_language(app, lang);
    }
    app_lay_out(app);
    return 1;
}

/* What cannot be read whole, laid out once more to see. Letters are no smaller than the smallest
 * of the design in the size that is asked for. */
static void legible(Script *s, App *app, const Line *l)
{
    static char faults[16000];
    ui_legible_start(app->ui, (float)UI_LEAST_PX * app->ui->scale);
    app_lay_out(app);
    int n = ui_legible_faults(app->ui, faults, sizeof faults);
    ui_legible_stop(app->ui);
    if (n > 0) {
        char text[300];
        snprintf(text, sizeof text, "%s: %d that cannot be read whole", l->a, n);
        (void)fail(s, app, l, text);
        fprintf(stderr, "%s", faults);
    }
}

/* Laid out once more to see. Beside the pictures. */
static int words(Script *s, App *app, const Line *l)
{
    static char text[60000];
    char path[800];
    ui_legible_start(app->ui, 0.0f);
    app_lay_out(app);
    ui_legible_words(app->ui, text, sizeof text);
    ui_legible_stop(app->ui);
    snprintf(path, sizeof path, "%s%s%s", app->options.shots, app->options.shots[0] ? "/" : "",
             l->a);
    FILE *f = os_open_stream(path, OS_TO_WRITE);
    int is_written = f != NULL && fputs(text, f) >= 0;
    is_written = (f != NULL && fclose(f) == 0) && is_written;
    return is_written ? 1 : fail(s, app, l, "the words could not be written");
}

/* 1 done, 0 stop the script. */
static int act(Script *s, App *app, const Line *l)
{
    const char *v = l->verb;
    double is = 0.0;
    if (strcmp(v, "move") == 0) {
        push_move(app, atof(l->a), atof(l->b));
    } else if (strcmp(v, "at") == 0 || strcmp(v, "click") == 0) {
        return pointer(s, app, l);
    } else if (strcmp(v, "down") == 0 || strcmp(v, "up") == 0) {
        push_button(app, v[0] == 'd');
    } else if (strcmp(v, "wheel") == 0) {
        wheel_by(atof(l->a));
    } else if (strcmp(v, "key") == 0) {
        push_key(l->a, 1);
        push_key(l->a, 0);
    } else if (strcmp(v, "keydown") == 0 || strcmp(v, "keyup") == 0) {
        push_key(l->a, v[3] == 'd');
    } else if (strcmp(v, "type") == 0) {
        type_text(l->a);
    } else if (strcmp(v, "drop") == 0) {
        drop_file(l->a);
    } else if (strcmp(v, "shot") == 0) {
        app->program.want_shot = 1;
        snprintf(app->program.shot_name, sizeof app->program.shot_name, "%s", l->a);
    } else if (strcmp(v, "expect") == 0) {
        return check(s, app, l);
    } else if (strcmp(v, "print") == 0) {
        if (!dump_value(app, l->a, &is)) {
            return fail(s, app, l, "unknown figure");
        }
        printf("%.2f %s %.6g\n", app->program.now_s, l->a, is);
        fflush(stdout); /* whoever reads along waits for it */
    } else if (strcmp(v, "every") == 0) {
        s->every = atoi(l->a) > 0 ? atoi(l->a) : 1;
    } else if (strcmp(v, "pace") == 0) {
        s->is_paced = atoi(l->a);
    } else if (strcmp(v, "fresh") == 0) {
        health_reset();
    } else if (strcmp(v, "pad") == 0) {
        if (strcmp(l->a, "off") == 0) {
            virtual_pad_detach(app);
        } else {
            virtual_pad_attach(app);
        }
    } else if (strcmp(v, "stick") == 0 || strcmp(v, "button") == 0) {
        return virtual_pad_set(app, l->a, atof(l->b))
                   ? 1
                   : fail(s, app, l, "no such axis or button, or no virtual controller");
    } else if (strcmp(v, "hidden") == 0) {
        return hidden_changes_frame(app) == atoi(l->a)
                   ? 1
                   : fail(s, app, l,
                          atoi(l->a) ? "nothing hidden changes the frame"
                                     : "something hidden changes the frame");
    } else if (strcmp(v, "view") == 0) {
        return view(s, app, l);
    } else if (strcmp(v, "legible") == 0) {
        legible(s, app, l);
    } else if (strcmp(v, "words") == 0) {
        return words(s, app, l);
    } else if (strcmp(v, "end") == 0) {
        return 0;
    } else {
        return fail(s, app, l, "unknown verb");
    }
    return 1;
}

/* 1 go on, 0 not yet, -1 gave up. */
static int wait(Script *s, App *app, const Line *l)
{
    double is = 0.0;
    if (s->waiting_since_s < 0.0) {
        s->waiting_since_s = app->program.now_s;
    }
    int ok = holds(app, l->a, l->b, l->c, &is);
    double waited = app->program.now_s - s->waiting_since_s;
    if (ok == 1) {
        s->shift_s += waited;
        s->waiting_since_s = -1.0;
        return 1;
    }
    if (ok < 0 || waited > 10.0 * atof(is_sign(l->b) ? l->d : l->c)) {
        fail(s, app, l, "waited in vain");
        return -1;
    }
    if (!s->is_paced && (app->turn.screen == SCREEN_YEARS || app->turn.screen == SCREEN_SIDE ||
                         app->turn.screen == SCREEN_DRILL || app->turn.screen == SCREEN_WALL)) {
        SDL_Delay(25); /* their workers need the processor; in other rooms frames do the work */
    }
    return 0;
}

int script_step(Script *s, App *app)
{
    if (s->button_up_s >= 0.0 && app->program.now_s >= s->button_up_s) {
        push_button(app, 0);
        s->button_up_s = -1.0;
    }
    while (s->next < s->count &&
           s->lines[s->next].time_s + s->shift_s <= app->program.now_s + 1e-9) {
        const Line *l = &s->lines[s->next];
        if (app->program.want_shot) {
            return 1; /* one picture a frame */
        }
        if (strcmp(l->verb, "wait") == 0) {
            int done = wait(s, app, l);
            if (done <= 0) {
                return done == 0;
            }
        } else if (!act(s, app, l)) {
            return 0;
        }
        s->next++;
    }
    return s->next < s->count || app->program.want_shot;
}
