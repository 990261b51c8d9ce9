/* Thousands of cases from one table: reading the table, keeping the rows, running the cases.
 * Formats and examples: docs/formats/cases.md. Read cases.c first. */
#ifndef CLI_CASES_H
#define CLI_CASES_H

#include "core/status.h"

#include <jansson.h>
#include <stdint.h>
#include <stdio.h>

enum { CASES_MAX_COLUMNS = 48, CASES_LABEL_BYTES = 127 };

/* What one verb may be asked by a table. */
typedef struct CasesVerb {
    const char *name;
    int (*run)(int argc, char **argv);
    const char *input;          /* column of the plain word, such as "exercise" */
    int input_may_lack;         /* 1: the verb can do without (age --density) */
    int json_goes_to;           /* 1: --json wants a file name, "-" is standard output */
    int takes_threads;          /* give it one thread unless the table says otherwise */
    const char *const *columns; /* option names without dashes, NULL at the end */
} CasesVerb;

/* A complaint about a place in a file of text. Gives PB_ERR_FORMAT. */
PB_NODISCARD PbStatus cases_refuse(PbError *err, const char *path, int line, size_t column,
                                   const char *what, ...) PB_PRINTF(5, 6);

/* A table being read, row by row; rows are never held together. */
typedef struct CasesTable {
    const CasesVerb *verb;
    FILE *file;
    char path[256];
    int is_csv, column_count, line;
    char *columns[CASES_MAX_COLUMNS]; /* CSV: the heads */
    char *text;                       /* the line in hand */
    size_t text_size;
    long cases;    /* in the whole table, after cases_table_open */
    uint64_t hash; /* of its bytes */
} CasesTable;

/* One case: column and value, both the caller's to free by cases_row_free. */
typedef struct CasesRow {
    int count;
    char *name[CASES_MAX_COLUMNS];
    char *value[CASES_MAX_COLUMNS];
} CasesRow;

/* Judge the whole table, then stand before its first row. */
PB_NODISCARD PbStatus cases_table_open(const char *path, const CasesVerb *verb, CasesTable *table,
                                       PbError *err);
/* The next row; *has = 0 at the end. */
PB_NODISCARD PbStatus cases_table_next(CasesTable *table, CasesRow *row, int *has, PbError *err);
void cases_table_close(CasesTable *table);
void cases_row_free(CasesRow *row);

/* The file of rows: a first line that says of what, then one line a case, appended and flushed. */
typedef struct CasesRows {
    int fd;
    char path[256];
    unsigned char *done; /* a bit a case, from case 1 on */
    long cases, done_count, failed_count;
} CasesRows;

#define CASES_ROWS_FORMAT "pullback rows 1"

/* Make the file, or go on with it: a torn last line is cut off. Refuses the rows of another table,
 * verb or shard, and a file that another process is writing. */
PB_NODISCARD PbStatus cases_rows_open(const char *path, const CasesTable *table, int shard,
                                      int shards, CasesRows *rows, PbError *err);
int cases_rows_has(const CasesRows *rows, long number);
/* One row, written as one line or not at all; none when memory ran out while it was made. */
PB_NODISCARD PbStatus cases_rows_put(CasesRows *rows, const json_t *row, PbError *err);
/* What was written is on the disk when this returns. */
PB_NODISCARD PbStatus cases_rows_sync(CasesRows *rows, PbError *err);
void cases_rows_close(CasesRows *rows);

/* Verb with --cases: CLI exit code. */
int cases_run(int argc, char **argv, const CasesVerb *verb);
/* The verb by name; NULL when it takes no tables. */
const CasesVerb *cases_verb(const char *name);

/* Join files of rows, in the order of the cases; JSON lines, or CSV of the plain values.
 * CLI exit code: 1 when cases are missing. */
int cases_merge(const char *const *paths, int count, int as_csv);
/* Nonzero when the file begins as a file of rows. */
int cases_is_rows(const char *path);

#endif
