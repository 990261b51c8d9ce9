/* merge for files of rows: one file out of the shards, cases in order, as JSON lines or as CSV. */
#include "cases.h"
#include "verbs.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

/* Hundreds of shards are usual on a cluster, and so is a limit of 1024 open files: the first so
 * many stay open, the others are opened for each of their rows. */
enum { KEPT_OPEN = 200 };

/* Where each case's row stands; rows themselves stay in their files. */
typedef struct Place {
    int file; /* 1 + index; 0 = no row */
    long at;
} Place;

typedef struct Whole {
    FILE *files[KEPT_OPEN];
    FILE *other; /* one of the rest, open at the moment */
    int other_file;
    const char *const *paths;
    json_t *head;
    Place *places;
    long cases;
    json_t *columns; /* CSV: heads in the order they were first seen */
} Whole;

int cases_is_rows(const char *path)
{
    char start[64] = "";
    FILE *f = fopen(path, "r");
    size_t n = f != NULL ? fread(start, 1, sizeof start - 1, f) : 0;
    if (f != NULL) {
        fclose(f);
    }
    start[n] = '\0';
    return strstr(start, CASES_ROWS_FORMAT) != NULL;
}

static PbStatus take_head(Whole *w, int file, json_t *head, PbError *err)
{
    json_int_t cases = json_integer_value(json_object_get(head, "cases"));
    if (cases < 1 || cases > 1000000000 ||
        strcmp(CASES_ROWS_FORMAT, json_is_string(json_object_get(head, "format"))
                                      ? json_string_value(json_object_get(head, "format"))
                                      : "") != 0) {
        return cases_refuse(err, w->paths[file], 1, 1, "expected the first line of a file of rows");
    }
    if (w->places == NULL) {
        w->head = json_incref(head);
        w->cases = (long)cases;
        w->places = calloc((size_t)cases + 1, sizeof *w->places);
        return w->places != NULL ? PB_OK : pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    static const char *const same[] = {"verb", "table", "cases", "shards"};
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        if (!json_equal(json_object_get(head, same[i]), json_object_get(w->head, same[i]))) {
            return cases_refuse(err, w->paths[file], 1, 1,
                                "these rows are of another table, verb or count of shards");
        }
    }
    return PB_OK;
}

/* Calls `each` with every plain value: inside objects as a.b, of a list only the last item, as
 * a.last or a.last.b (of figures over years that is the last year). */
typedef void (*EachValue)(void *user, const char *name, json_t *value);

static void walk(json_t *object, const char *prefix, EachValue each, void *user)
{
    const char *name;
    json_t *value;
    json_object_foreach(object, name, value)
    {
        char full[160];
        json_t *last = json_array_get(value, json_array_size(value) - 1);
        snprintf(full, sizeof full, "%s%s%s", prefix, name,
                 json_is_object(last) ? ".last." : (last != NULL ? ".last" : ""));
        if (json_is_object(value)) {
            snprintf(full, sizeof full, "%s%s.", prefix, name);
            walk(value, full, each, user);
        } else if (json_is_object(last)) {
            walk(last, full, each, user);
        } else if (!json_is_array(value) || (last != NULL && !json_is_array(last))) {
            each(user, full, last != NULL ? last : value);
        }
    }
}

static void note_column(void *user, const char *name, json_t *value)
{
    (void)value;
    json_object_set_new_nocheck(user, name, json_true());
}

static void keep_value(void *user, const char *name, json_t *value)
{
    json_object_set_nocheck(user, name, value);
}

/* NULL when it cannot be opened. */
static FILE *file_of(Whole *w, int file)
{
    if (file < KEPT_OPEN) {
        if (w->files[file] == NULL) {
            w->files[file] = fopen(w->paths[file], "r");
        }
        return w->files[file];
    }
    if (w->other == NULL || w->other_file != file) {
        if (w->other != NULL) {
            fclose(w->other);
        }
        w->other = fopen(w->paths[file], "r");
        w->other_file = file;
    }
    return w->other;
}

static PbStatus read_file(Whole *w, int file, PbError *err)
{
    char *line = NULL;
    size_t size = 0;
    ssize_t n;
    int number = 0;
    long from = 0;
    PbStatus status = PB_OK;
    FILE *f = file_of(w, file);
    if (f == NULL) {
        return pb_fail(err, PB_ERR_IO, "cannot open \"%s\": %s", w->paths[file], strerror(errno));
    }
    while (status == PB_OK && (n = getline(&line, &size, f)) > 0 && line[n - 1] == '\n') {
        json_t *row = json_loadb(line, (size_t)n, 0, NULL);
        json_int_t at = json_integer_value(json_object_get(row, "case"));
        number++;
        if (number == 1) {
            status = take_head(w, file, row, err);
        } else if (at < 1 || at > w->cases) {
            status = cases_refuse(err, w->paths[file], number, 1, "expected the row of a case");
        } else if (w->places[at].file != 0) {
            status =
                cases_refuse(err, w->paths[file], number, 1, "a case whose row was there already");
        } else {
            w->places[at] = (Place){file + 1, from};
            walk(json_object_get(row, "result"), "", note_column, w->columns);
        }
        json_decref(row);
        from += n;
    }
    free(line);
    return status == PB_OK && number == 0
               ? cases_refuse(err, w->paths[file], 1, 1,
                              "expected the first line of a file of rows")
               : status;
}

static void csv_cell(const json_t *value)
{
    if (json_is_string(value)) {
        putchar('"');
        for (const char *p = json_string_value(value); *p != '\0'; p++) {
            if (*p == '"') {
                putchar('"');
            }
            putchar(*p == '\n' ? ' ' : *p);
        }
        putchar('"');
    } else if (json_is_integer(value)) {
        printf("%lld", (long long)json_integer_value(value));
    } else if (json_is_real(value)) {
        printf("%.15g", json_real_value(value));
    } else if (json_is_boolean(value)) {
        fputs(json_is_true(value) ? "1" : "0", stdout);
    }
}

static void csv_row(const Whole *w, const json_t *row)
{
    const char *name;
    json_t *unused, *flat = json_object();
    walk(json_object_get(row, "result"), "", keep_value, flat);
    printf("%lld,", (long long)json_integer_value(json_object_get(row, "case")));
    csv_cell(json_object_get(row, "label"));
    printf(",%lld,", (long long)json_integer_value(json_object_get(row, "exit")));
    csv_cell(json_object_get(row, "error"));
    json_object_foreach(w->columns, name, unused)
    {
        putchar(',');
        csv_cell(json_object_get(flat, name));
    }
    json_decref(flat);
    putchar('\n');
}

static void print_head(const Whole *w, int as_csv)
{
    const char *name;
    json_t *unused;
    if (!as_csv) {
        json_t *head = json_copy(w->head);
        json_object_set_new(head, "shard", json_integer(1));
        json_object_set_new(head, "shards", json_integer(1));
        json_dumpf(head, stdout, JSON_COMPACT);
        json_decref(head);
        putchar('\n');
        return;
    }
    printf("case,label,exit,error");
    json_object_foreach(w->columns, name, unused)
    {
        printf(",%s", name);
    }
    putchar('\n');
}

static long print_rows(Whole *w, int as_csv)
{
    char *line = NULL;
    size_t size = 0;
    long missing = 0;
    for (long i = 1; i <= w->cases; i++) {
        const Place *p = &w->places[i];
        if (p->file == 0) {
            missing++;
            continue;
        }
        FILE *f = file_of(w, p->file - 1);
        if (f == NULL || fseek(f, p->at, SEEK_SET) != 0 || getline(&line, &size, f) <= 0) {
            missing++;
            continue;
        }
        if (as_csv) {
            json_t *row = json_loads(line, 0, NULL);
            csv_row(w, row);
            json_decref(row);
        } else {
            fputs(line, stdout);
        }
    }
    free(line);
    return missing;
}

int cases_merge(const char *const *paths, int count, int as_csv)
{
    PbError err = {0};
    Whole w = {.paths = paths, .columns = json_object()};
    PbStatus status = PB_OK;
    int code = CLI_DONE;
    if (w.columns == NULL) {
        status = pb_fail(&err, PB_ERR_MEMORY, "out of memory");
    }
    for (int i = 0; status == PB_OK && i < count; i++) {
        status = read_file(&w, i, &err);
    }
    if (status == PB_OK) {
        print_head(&w, as_csv);
        long missing = print_rows(&w, as_csv);
        if (missing > 0) {
            fprintf(stderr, "pullback-cli merge: %ld of %ld cases have no row yet\n", missing,
                    w.cases);
            code = CLI_NO;
        }
    } else {
        err.status = status;
        code = cli_report(&err);
    }
    for (int i = 0; i < KEPT_OPEN; i++) {
        if (w.files[i] != NULL) {
            fclose(w.files[i]);
        }
    }
    if (w.other != NULL) {
        fclose(w.other);
    }
    free(w.places);
    json_decref(w.head);
    json_decref(w.columns);
    return code;
}
