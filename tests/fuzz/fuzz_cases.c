/* Tables of cases and files of rows against any bytes. The first byte chooses: an even one a table
 * of the verb that it names, an odd one a file of rows, which is gone on with or refused. */
#include "cli/cases.h"
#include "reader.h"

static const char *const columns[] = {"hands", "seed", "record", "years", "climate", NULL};
static const CasesVerb verbs[2] = {
    {"run", NULL, "exercise", 0, 0, 0, columns},
    {"age", NULL, "density", 1, 1, 1, columns},
};

static void read_table(const char *path, const CasesVerb *verb)
{
    CasesTable table;
    PbError err;
    memset(&err, 0, sizeof err);
    if (cases_table_open(path, verb, &table, &err) != PB_OK) {
        fuzz_check_line(&err);
        return;
    }
    long rows = 0;
    int has = 1;
    while (has) {
        CasesRow row;
        memset(&row, 0, sizeof row);
        if (cases_table_next(&table, &row, &has, &err) != PB_OK) {
            abort(); /* the whole table was judged before */
        }
        if (has) {
            rows++;
            cases_row_free(&row);
        }
    }
    if (rows != table.cases) {
        abort();
    }
    cases_table_close(&table);
}

/* The table that the rows say they are of: three cases with this hash. */
static void read_rows(const char *path, const CasesVerb *verb)
{
    CasesTable table;
    CasesRows rows;
    PbError err;
    memset(&err, 0, sizeof err);
    memset(&table, 0, sizeof table);
    table.verb = verb;
    table.cases = 3;
    table.hash = 1;
    if (cases_rows_open(path, &table, 1, 1, &rows, &err) != PB_OK) {
        fuzz_check_line(&err);
        return;
    }
    long done = 0;
    for (long i = 1; i <= table.cases; i++) {
        done += cases_rows_has(&rows, i) != 0;
    }
    if (done != rows.done_count) {
        abort();
    }
    cases_rows_close(&rows);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size < 1) {
        return 0;
    }
    const char *path = fuzz_file(data + 1, size - 1);
    const CasesVerb *verb = &verbs[data[0] / 2 % 2];
    if (data[0] % 2 == 0) {
        read_table(path, verb);
    } else {
        read_rows(path, verb);
    }
    return 0;
}
