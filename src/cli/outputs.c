/* What outputs.h promises. */
#include "outputs.h"

#include "report/report.h"
#include "store/store.h"

#include <string.h>

int cli_check_outputs(const IoPlace *outputs, int output_count, const char *const *inputs,
                      int input_count)
{
    PbError err = {0};
    char store[700];
    if (store_default_path(store, sizeof store, &err) == PB_OK) {
        io_output_protect(store);
    }
    if (io_outputs_check(outputs, output_count, inputs, input_count, &err) != PB_OK) {
        return cli_report(&err);
    }
    return CLI_DONE;
}

int cli_take_language(const CliOption *row, const char *text, void *member)
{
    (void)row;
    return io_taste_language(member, text) ? CLI_DONE : CLI_NOT_TAKEN;
}

int cli_take_units(const CliOption *row, const char *text, void *member)
{
    IoReaderTaste *taste = member;
    (void)row;
    taste->is_us = strcmp(text, "us") == 0;
    return taste->is_us || strcmp(text, "si") == 0 ? CLI_DONE : CLI_NOT_TAKEN;
}

int cli_take_paper(const CliOption *row, const char *text, void *member)
{
    int is_letter = strcmp(text, "letter") == 0;
    (void)row;
    *(ReportPaper *)member = is_letter ? REPORT_LETTER : REPORT_A4;
    return is_letter || strcmp(text, "a4") == 0 ? CLI_DONE : CLI_NOT_TAKEN;
}

int cli_take_page(const CliOption *row, const char *text, void *member)
{
    return strcmp(text, "-") == 0 ? CLI_NOT_TAKEN : cli_take_text(row, text, member);
}
