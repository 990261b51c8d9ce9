/* What a verb may write, and how a person wants to read it. */
#ifndef CLI_OUTPUTS_H
#define CLI_OUTPUTS_H

#include "cli/options.h"
#include "io/output_file.h"

/* Before any work: what io/output_file.h says of outputs, the person's store taken as known.
 * CLI_DONE, or CLI_BAD_INPUT after a complaint. */
int cli_check_outputs(const IoPlace *outputs, int output_count, const char *const *inputs,
                      int input_count);

CliTake cli_take_language; /* IoReaderTaste: en, es */
CliTake cli_take_units;    /* IoReaderTaste: si, us */
CliTake cli_take_paper;    /* ReportPaper: a4, letter */
CliTake cli_take_page;     /* const char *: the name of a PDF file */

#endif
