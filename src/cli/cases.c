/*
 * VERB --cases TABLE --rows ROWS [--workers N] [--shard I/N]: every case of a table, one row each.
 *
 * A case is the verb itself, in a process of its own: one case that ends badly takes no other with
 * it, and what the verb can do, a table can ask. Rows are written in the order of the cases
 * whatever the number of workers; cases whose row is there already are passed over, so that the
 * same command after a kill goes on where it was. One line of the table is held at a time.
 */
#include "cases.h"
#include "verbs.h"

#include "io/doc.h"
#include "io/parallel.h"

#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum {
    MAX_WORKERS = 64,
    WAITING_A_WORKER = 4,
    SYNC_EVERY_S = 1,
    MAX_ARGS = 2 * CASES_MAX_COLUMNS + 8
};

static volatile sig_atomic_t interrupted;

static void on_interrupt(int signal_number)
{
    (void)signal_number;
    interrupted = 1;
}

typedef struct CasesOptions {
    const char *table, *rows;
    int workers, shard, shards;
} CasesOptions;

/* One case under way or waiting for its turn to be written. */
typedef struct Slot {
    long number;
    pid_t pid; /* 0 = over */
    int code;
    FILE *out, *says;
    char label[CASES_LABEL_BYTES + 1];
} Slot;

typedef struct Crew {
    const CasesVerb *verb;
    CasesTable table;
    CasesRows rows;
    CasesOptions o;
    Slot slots[MAX_WORKERS * WAITING_A_WORKER]; /* a ring: first is the next to be written */
    int first, held, running, ring;
    long next; /* case to read */
    time_t synced;
} Crew;

static int read_options(int argc, char **argv, const CasesVerb *verb, CasesOptions *o)
{
    *o = (CasesOptions){.workers = io_parallel_default().threads, .shard = 1, .shards = 1};
    for (int i = 1; i < argc; i += 2) {
        const char *value = i + 1 < argc ? argv[i + 1] : NULL;
        int used = 0;
        char *end = NULL;
        if (strcmp(argv[i], "--cases") == 0 && value != NULL) {
            o->table = value;
        } else if (strcmp(argv[i], "--rows") == 0 && value != NULL) {
            o->rows = value;
        } else if (strcmp(argv[i], "--workers") == 0 && value != NULL) {
            long n = strtol(value, &end, 10);
            if (*end != '\0' || end == value || n < 1 || n > MAX_WORKERS) {
                return cli_usage(verb->name, "--workers \"%s\": expected 1 to %d", value,
                                 MAX_WORKERS);
            }
            o->workers = (int)n;
        } else if (strcmp(argv[i], "--shard") == 0 && value != NULL) {
            if (sscanf(value, "%d/%d%n", &o->shard, &o->shards, &used) != 2 ||
                value[used] != '\0' || o->shards < 1 || o->shards > 1000000 || o->shard < 1 ||
                o->shard > o->shards) {
                return cli_usage(verb->name, "--shard \"%s\": expected I/N, such as 2/4", value);
            }
        } else {
            return cli_usage(verb->name,
                             "\"%s\": with --cases TABLE, expected --rows ROWS [--workers N] "
                             "[--shard I/N]",
                             argv[i]);
        }
    }
    if (o->table == NULL || o->rows == NULL) {
        return cli_usage(verb->name, "expected --cases TABLE --rows ROWS");
    }
    return strcmp(o->table, o->rows) == 0
               ? cli_usage(verb->name, "\"%s\" is named twice, the rows would replace the table",
                           o->rows)
               : CLI_DONE;
}

/* The command line of a case. Words are the row's; `options` holds the dashes. */
static int command_line(const CasesVerb *verb, const CasesRow *row, char *argv[MAX_ARGS],
                        char options[CASES_MAX_COLUMNS][40])
{
    static char json[] = "--json", output[] = "-", threads[] = "--threads", one[] = "1";
    int n = 0, has_threads = 0;
    argv[n++] = (char *)verb->name;
    for (int i = 0; i < row->count; i++) {
        if (strcmp(row->name[i], verb->input) == 0) {
            argv[n++] = row->value[i];
        } else if (strcmp(row->name[i], "label") != 0) {
            has_threads |= strcmp(row->name[i], "threads") == 0;
            snprintf(options[i], sizeof options[i], "--%s", row->name[i]);
            argv[n++] = options[i];
            argv[n++] = row->value[i];
        }
    }
    if (verb->takes_threads && !has_threads) {
        argv[n++] = threads;
        argv[n++] = one;
    }
    argv[n++] = json;
    if (verb->json_goes_to) {
        argv[n++] = output;
    }
    argv[n] = NULL;
    return n;
}

/* The child: never comes back. */
static void be_the_case(const CasesVerb *verb, const CasesRow *row, const Slot *slot)
{
    char *argv[MAX_ARGS], options[CASES_MAX_COLUMNS][40];
    prctl(PR_SET_PDEATHSIG, SIGKILL); /* nobody would write the row */
    signal(SIGINT, SIG_IGN);          /* the parent decides */
    if (dup2(fileno(slot->out), STDOUT_FILENO) < 0 || dup2(fileno(slot->says), STDERR_FILENO) < 0) {
        _exit(CLI_INTERNAL);
    }
    int code = verb->run(command_line(verb, row, argv, options), argv);
    if (fflush(stdout) != 0) {
        code = CLI_IO;
    }
    _exit(code);
}

static PbStatus start_case(Crew *crew, const CasesRow *row, PbError *err)
{
    Slot *slot = &crew->slots[(crew->first + crew->held) % crew->ring];
    memset(slot, 0, sizeof *slot);
    slot->number = crew->next;
    for (int i = 0; i < row->count; i++) {
        if (strcmp(row->name[i], "label") == 0) {
            snprintf(slot->label, sizeof slot->label, "%s", row->value[i]);
        }
    }
    slot->out = tmpfile();
    slot->says = tmpfile();
    if (slot->out == NULL || slot->says == NULL) {
        return pb_fail(err, PB_ERR_IO, "no room for a temporary file: %s", strerror(errno));
    }
    crew->held++;
    fflush(NULL);
    slot->pid = fork();
    if (slot->pid == 0) {
        be_the_case(crew->verb, row, slot);
    }
    if (slot->pid < 0) {
        slot->pid = 0;
        return pb_fail(err, PB_ERR_MEMORY, "no process for case %ld: %s", slot->number,
                       strerror(errno));
    }
    crew->running++;
    return PB_OK;
}

static void forget(Slot *slot)
{
    if (slot->out != NULL) {
        fclose(slot->out);
    }
    if (slot->says != NULL) {
        fclose(slot->says);
    }
    memset(slot, 0, sizeof *slot);
}

/* What the case complained, without "pullback-cli: " or "pullback-cli age: ": its last line that
 * begins so, because progress and notes stand before it; of another program's words the first. */
static void complaint(FILE *says, char *line, size_t size)
{
    static const char program[] = "pullback-cli";
    char said[1024];
    int is_first = 1;
    snprintf(line, size, "ended without a word");
    rewind(says);
    while (fgets(said, sizeof said, says) != NULL) {
        if (is_first || strncmp(said, program, strlen(program)) == 0) {
            snprintf(line, size, "%s", said);
        }
        is_first = 0;
    }
    line[strcspn(line, "\r\n")] = '\0';
    const char *text = strncmp(line, program, strlen(program)) == 0 ? strstr(line, ": ") : NULL;
    if (text != NULL) {
        memmove(line, text + 2, strlen(text + 2) + 1);
    }
}

static json_t *row_of(const Slot *slot)
{
    char why[1024];
    (void)io_json_short();
    json_t *row = json_pack("{s:I}", "case", (json_int_t)slot->number), *result = NULL;
    if (slot->label[0] != '\0') {
        json_object_set_new(row, "label", json_string(slot->label));
    }
    json_object_set_new(row, "exit", json_integer(slot->code));
    rewind(slot->out);
    if (slot->code <= CLI_NO) { /* "no" is an answer too */
        result = json_loadf(slot->out, 0, NULL);
        json_object_del(result, "realtime_factor"); /* of this machine, not of the case */
    }
    if (result != NULL) {
        json_object_set_new(row, "result", result);
    } else {
        complaint(slot->says, why, sizeof why);
        json_t *text = json_string(why);
        json_object_set_new(row, "error", text != NULL ? text : json_string("unreadable"));
    }
    return row;
}

static PbStatus write_first(Crew *crew, PbError *err)
{
    Slot *slot = &crew->slots[crew->first];
    json_t *row = row_of(slot);
    PbStatus status = cases_rows_put(&crew->rows, row, err);
    if (status == PB_OK) {
        crew->rows.done_count++;
        crew->rows.failed_count += slot->code > CLI_NO;
    }
    json_decref(row);
    forget(slot);
    crew->first = (crew->first + 1) % crew->ring;
    crew->held--;
    if (status == PB_OK && time(NULL) - crew->synced >= SYNC_EVERY_S) {
        crew->synced = time(NULL);
        status = cases_rows_sync(&crew->rows, err);
    }
    return status;
}

/* Wait for one case to end. */
static void wait_for_one(Crew *crew)
{
    int state = 0;
    pid_t pid = waitpid(-1, &state, 0);
    for (int i = 0; pid > 0 && i < crew->held; i++) {
        Slot *slot = &crew->slots[(crew->first + i) % crew->ring];
        if (slot->pid == pid) {
            slot->pid = 0;
            slot->code = WIFEXITED(state) ? WEXITSTATUS(state) : 128 + WTERMSIG(state);
            crew->running--;
        }
    }
}

static int is_mine(const Crew *crew, long number)
{
    return (number - 1) % crew->o.shards == crew->o.shard - 1 &&
           !cases_rows_has(&crew->rows, number);
}

static void tell(const Crew *crew, int is_end)
{
    long mine = (crew->table.cases - crew->o.shard + crew->o.shards) / crew->o.shards;
    if (isatty(STDERR_FILENO) || is_end) {
        fprintf(stderr, "%s%s: %ld of %ld cases%s", isatty(STDERR_FILENO) ? "\r" : "",
                crew->verb->name, crew->rows.done_count, mine, is_end ? "" : " ");
        if (is_end) {
            fprintf(stderr, ", %ld of them refused or failed\n", crew->rows.failed_count);
        }
        fflush(stderr);
    }
}

static PbStatus work(Crew *crew, PbError *err)
{
    int has = 1;
    while (has || crew->held > 0) {
        while (has && !interrupted && crew->running < crew->o.workers && crew->held < crew->ring) {
            CasesRow row;
            PB_TRY(cases_table_next(&crew->table, &row, &has, err));
            if (has) {
                crew->next++;
                PbStatus status = is_mine(crew, crew->next) ? start_case(crew, &row, err) : PB_OK;
                cases_row_free(&row);
                PB_TRY(status);
            }
        }
        if (interrupted) {
            return PB_OK;
        }
        if (crew->running > 0) {
            wait_for_one(crew);
        }
        while (crew->held > 0 && crew->slots[crew->first].pid == 0 && !interrupted) {
            PB_TRY(write_first(crew, err));
            tell(crew, 0);
        }
    }
    return cases_rows_sync(&crew->rows, err);
}

static void stop_all(Crew *crew)
{
    for (int i = 0; i < crew->held; i++) {
        Slot *slot = &crew->slots[(crew->first + i) % crew->ring];
        if (slot->pid > 0) {
            kill(slot->pid, SIGKILL);
            waitpid(slot->pid, NULL, 0);
        }
        forget(slot);
    }
}

static int run_crew(Crew *crew)
{
    PbError err = {0};
    struct sigaction act = {.sa_handler = on_interrupt};
    sigemptyset(&act.sa_mask);
    sigaction(SIGINT, &act, NULL);
    sigaction(SIGTERM, &act, NULL);
    PbStatus status = work(crew, &err);
    stop_all(crew);
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    tell(crew, 1);
    if (interrupted) {
        fprintf(stderr, "pullback-cli %s: stopped; the same command goes on from here\n",
                crew->verb->name);
        return CLI_NO;
    }
    return crew->rows.failed_count > 0 ? CLI_NO : CLI_DONE;
}

int cases_run(int argc, char **argv, const CasesVerb *verb)
{
    static Crew crew; /* large; one a process */
    PbError err = {0};
    memset(&crew, 0, sizeof crew);
    int code = read_options(argc, argv, verb, &crew.o);
    if (code != CLI_DONE) {
        return code;
    }
    crew.verb = verb;
    crew.ring = crew.o.workers * WAITING_A_WORKER;
    PbStatus status = cases_table_open(crew.o.table, verb, &crew.table, &err);
    if (status == PB_OK) {
        status = cases_rows_open(crew.o.rows, &crew.table, crew.o.shard, crew.o.shards, &crew.rows,
                                 &err);
        if (status == PB_OK) {
            code = run_crew(&crew);
            cases_rows_close(&crew.rows);
        }
        cases_table_close(&crew.table);
    }
    if (status != PB_OK) {
        err.status = status;
        return cli_report(&err);
    }
    return code;
}
